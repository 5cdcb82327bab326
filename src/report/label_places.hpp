#pragma once
/// Finding room for labels on a drawing.

#include "svg.hpp"

namespace padwalk::report
{

/// Room on a sheet, and what is drawn there already.
class LabelPlaces
{
public:
    explicit LabelPlaces(Box room) : room_(room) {}

    /// Labels keep off these.
    void keep_off(std::vector<Spot> const& spots) { drawn_.insert(drawn_.end(), spots.begin(), spots.end()); }
    void keep_off(Box const& box) { taken_.push_back(box); }

    /// Where a label of what is drawn at `spots` goes best, and in which of its shapes (width and height): off the
    /// other labels first, then off what is drawn, then near. It counts as taken afterwards. Neither list is empty.
    struct Choice
    {
        Box box;
        std::size_t shape = 0;
    };
    Choice place(std::vector<Spot> const& shapes, std::vector<Spot> const& spots);

private:
    Box room_;
    std::vector<Spot> drawn_;
    std::vector<Box> taken_;

    [[nodiscard]] double cost(Box const& box, std::vector<Spot> const& spots, double enough) const;
};

/// The nearest of the spots to a box; they are not empty.
[[nodiscard]] Spot nearest(std::vector<Spot> const& spots, Box const& box);

/// A line through the points with a spot at least every `step`.
[[nodiscard]] std::vector<Spot> filled_in(std::vector<Spot> const& line, double step);

/// Writes one line where it goes best beside what it names, and points at that where it stands apart.
void write_label(SvgSheet& sheet, LabelPlaces& labels, std::string const& text, std::vector<Spot> const& of,
                 Lettering const& type);

} // namespace padwalk::report
