#include "svg.hpp"

#include "plain.hpp"

#include "padwalk/units/spelling.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace padwalk::report
{
namespace
{

constexpr std::string_view no_break = "\u00a0";

std::string_view first_character(std::string_view text)
{
    return text.substr(0, std::max<std::size_t>(1, units::character_length(text)));
}

bool among(char c, std::string_view set)
{
    return set.find(c) != std::string_view::npos;
}

// Advance in ems, as wide as the common sans faces make it.
double advance(std::string_view character)
{
    if (character.size() > 1)
        return character == no_break ? 0.33 : character == "…" ? 1.0 : 0.66 * static_cast<double>(width(character));
    char const c = character.front();
    if (among(c, "ijl.,:;'|!"))
        return 0.33;
    if (among(c, " frtI()[]/-\"\\`"))
        return 0.42;
    if (among(c, "mwMW%@&"))
        return 0.96;
    if (c >= 'A' && c <= 'Z')
        return 0.74;
    return among(c, "+=<>~^#") ? 0.84 : 0.63;
}

// As much of the word as fits, one character at least.
std::size_t fitting(std::string_view word, double room, Lettering const& lettering)
{
    std::size_t bytes = 0;
    while (bytes < word.size())
    {
        std::size_t const next = bytes + first_character(word.substr(bytes)).size();
        if (bytes > 0 && text_width(word.substr(0, next), lettering) > room)
            break;
        bytes = next;
    }
    return bytes;
}

std::vector<std::string> words_of(std::string_view text, double room, Lettering const& lettering)
{
    std::vector<std::string> out;
    auto take = [&](std::string_view piece, auto const& again, std::string_view at) -> void
    {
        while (!piece.empty())
        {
            std::size_t const end = std::min(piece.find(at), piece.size());
            std::string_view const word = piece.substr(0, end);
            if (at == " " && text_width(word, lettering) > room)
                again(word, again, no_break);
            else if (!word.empty())
                out.emplace_back(word);
            piece.remove_prefix(std::min(end + at.size(), piece.size()));
        }
    };
    take(text, take, " ");
    return out;
}

std::string points(std::vector<Spot> const& spots)
{
    std::string out;
    for (auto const& spot : spots)
        out += (out.empty() ? "" : " ") + coordinate(spot.x) + "," + coordinate(spot.y);
    return out;
}

std::string attribute(std::string_view name, double value)
{
    return " " + std::string(name) + "=\"" + coordinate(value) + "\"";
}

std::string classed(std::string_view element, std::string_view kind)
{
    return "<" + std::string(element) + " class=\"" + std::string(kind) + "\"";
}

} // namespace

bool overlap(Box const& a, Box const& b)
{
    return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

double distance(Spot spot, Box const& box)
{
    double const x = std::max({box.left - spot.x, 0.0, spot.x - box.right});
    double const y = std::max({box.top - spot.y, 0.0, spot.y - box.bottom});
    return std::sqrt(x * x + y * y);
}

double text_width(std::string_view text, Lettering const& lettering)
{
    double ems = 0.0;
    while (!text.empty())
    {
        std::string_view const character = first_character(text);
        ems += advance(character);
        text.remove_prefix(character.size());
    }
    constexpr double bold = 1.06;
    return ems * lettering.size * (lettering.strong ? bold : 1.0);
}

std::vector<std::string> lines_within(std::string_view text, double width, Lettering const& lettering, std::size_t most)
{
    std::string flat = clean(text);
    std::replace(flat.begin(), flat.end(), '\n', ' ');
    std::vector<std::string> out;
    std::string line;
    for (std::string word : words_of(flat, width, lettering))
    {
        if (!line.empty() && text_width(line + " " + word, lettering) > width)
            out.push_back(std::exchange(line, {}));
        for (; line.empty() && text_width(word, lettering) > width;)
        {
            std::size_t const bytes = fitting(word, width, lettering);
            if (bytes == word.size())
                break; // a single character wider than the line
            out.push_back(word.substr(0, bytes));
            word.erase(0, bytes);
        }
        line += (line.empty() ? "" : " ") + word;
    }
    if (!line.empty())
        out.push_back(std::move(line));
    if (out.size() > most)
    {
        out.resize(most);
        std::string& last = out.back();
        if (text_width(last + " …", lettering) > width)
        {
            last.resize(fitting(last, width - text_width(" …", lettering), lettering));
            last.resize(std::min(last.rfind(' '), last.size()));
        }
        last += " …";
    }
    return out;
}

std::string svg_text(std::string_view text)
{
    return in_markup(text, " ");
}

std::string coordinate(double value)
{
    constexpr double far = 1e6; // off any sheet, and no number at all
    double const bounded = std::isfinite(value) ? std::clamp(value, -far, far) : 0.0;
    long const tenths = std::lround(bounded * 10);
    long const size = std::abs(tenths);
    std::string const part = size % 10 == 0 ? "" : "." + std::to_string(size % 10);
    return (tenths < 0 ? "-" : "") + std::to_string(size / 10) + part;
}

void SvgSheet::line(Spot from, Spot to, std::string_view kind, Layer layer)
{
    on(layer) += classed("line", kind) + attribute("x1", from.x) + attribute("y1", from.y) + attribute("x2", to.x) +
                 attribute("y2", to.y) + "/>\n";
}

void SvgSheet::curve(std::vector<Spot> const& spots, std::string_view kind, Layer layer)
{
    on(layer) += classed("polyline", kind) + " points=\"" + points(spots) + "\"/>\n";
}

void SvgSheet::area(std::vector<Spot> const& spots, std::string_view kind, Layer layer)
{
    on(layer) += classed("polygon", kind) + " points=\"" + points(spots) + "\"/>\n";
}

void SvgSheet::rectangle(Box const& box, double rounding, std::string_view kind, Layer layer)
{
    on(layer) += classed("rect", kind) + attribute("x", box.left) + attribute("y", box.top) +
                 attribute("width", box.right - box.left) + attribute("height", box.bottom - box.top) +
                 (rounding > 0 ? attribute("rx", rounding) : "") + "/>\n";
}

void SvgSheet::circle(Spot centre, double radius, std::string_view kind, Layer layer)
{
    on(layer) += classed("circle", kind) + attribute("cx", centre.x) + attribute("cy", centre.y) +
                 attribute("r", radius) + "/>\n";
}

void SvgSheet::write(Spot at, std::string_view text, Lettering const& lettering, Anchor anchor)
{
    ink_ += classed("text", lettering.kind) + attribute("x", at.x) + attribute("y", at.y) +
            attribute("font-size", lettering.size) + (lettering.strong ? " font-weight=\"600\"" : "") +
            (anchor == Anchor::middle ? " text-anchor=\"middle\""
             : anchor == Anchor::end  ? " text-anchor=\"end\""
                                      : "") +
            ">" + svg_text(text) + "</text>\n";
}

double SvgSheet::write_lines(Spot at, std::vector<std::string> const& lines, Lettering const& lettering)
{
    for (auto const& text : lines)
    {
        write(at, text, lettering);
        at.y += lettering.line_height();
    }
    return at.y;
}

std::string SvgSheet::svg(double height, std::string_view title, std::vector<std::string> const& says) const
{
    std::string const name = id_ + "-title", story = id_ + "-says";
    return "<svg class=\"drawing\" viewBox=\"0 0 " + coordinate(width_) + " " + coordinate(height) +
           "\" preserveAspectRatio=\"xMinYMin meet\" role=\"img\" aria-labelledby=\"" + name + " " + story +
           "\">\n<title id=\"" + name + "\">" + svg_text(title) + "</title>\n<desc id=\"" + story + "\">" +
           svg_text(joined(says, " ", " ")) + "</desc>\n" + ground_ + ink_ + "</svg>";
}

} // namespace padwalk::report
