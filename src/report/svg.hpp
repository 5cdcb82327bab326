#pragma once
/// Means to draw: shapes and text that become one SVG inside a page. Colours and kinds of line are classes of the
/// page's style sheet, so that light, dark and print follow; positions and sizes of text are written out, so that what
/// is measured here is what is shown.

#include <string>
#include <string_view>
#include <vector>

namespace padwalk::report
{

/// A place on the sheet in its own units: to the right and down.
struct Spot
{
    double x = 0.0, y = 0.0;
};

struct Box
{
    double left = 0.0, top = 0.0, right = 0.0, bottom = 0.0;
};

[[nodiscard]] bool overlap(Box const& a, Box const& b);
/// From a spot to the nearest edge; 0 inside.
[[nodiscard]] double distance(Spot spot, Box const& box);

enum class Anchor
{
    start,
    middle,
    end
};

/// How a text is set. `kind` is a class of the style sheet.
struct Lettering
{
    double size = 12.5;
    bool strong = false;
    std::string_view kind = "word";
    [[nodiscard]] double line_height() const { return 1.28 * size; }
};

/// What the text takes up at most, in the widest of the type faces that the style sheet may end in.
[[nodiscard]] double text_width(std::string_view text, Lettering const& lettering);

/// Lines no wider than `width`, broken at spaces, and inside a word that is wider than a line. No-break spaces hold as
/// long as what they join fits. More than `most` lines are cut and marked with '…'.
[[nodiscard]] std::vector<std::string> lines_within(std::string_view text, double width, Lettering const& lettering,
                                                    std::size_t most = 6);

/// Text as it may stand in SVG and between quotes: cleaned, in one line, escaped.
[[nodiscard]] std::string svg_text(std::string_view text);

/// A coordinate rounded to tenths, in no locale: '12', '12.5', '-0.3'.
[[nodiscard]] std::string coordinate(double value);

enum class Layer
{
    ground, ///< below: pipes, grids
    ink
};

/// A sheet of fixed width that grows downwards.
class SvgSheet
{
public:
    /// `id` is unique on the page.
    SvgSheet(std::string id, double width) : id_(std::move(id)), width_(width) {}

    void line(Spot from, Spot to, std::string_view kind, Layer layer = Layer::ink);
    void curve(std::vector<Spot> const& spots, std::string_view kind, Layer layer = Layer::ink);
    void area(std::vector<Spot> const& spots, std::string_view kind, Layer layer = Layer::ink);
    void rectangle(Box const& box, double rounding, std::string_view kind, Layer layer = Layer::ink);
    void circle(Spot centre, double radius, std::string_view kind, Layer layer = Layer::ink);

    /// One line of text on its base line.
    void write(Spot at, std::string_view text, Lettering const& lettering, Anchor anchor = Anchor::start);
    /// Lines below each other, the first one's base line at `at`. Returns the base line that would come next.
    double write_lines(Spot at, std::vector<std::string> const& lines, Lettering const& lettering);

    [[nodiscard]] double width() const { return width_; }
    /// The whole as an element, with its name and what it shows for those who can't see it.
    [[nodiscard]] std::string svg(double height, std::string_view title, std::vector<std::string> const& says) const;

private:
    std::string id_;
    double width_;
    std::string ground_, ink_;

    std::string& on(Layer layer) { return layer == Layer::ground ? ground_ : ink_; }
};

} // namespace padwalk::report
