#include "paper.hpp"

#include "plain.hpp"

#include <algorithm>
#include <utility>

namespace padwalk::report
{

Paper::Paper(std::size_t columns, bool colour) : columns_(std::max<std::size_t>(columns, 32)), colour_(colour) {}

std::string Paper::inked(std::string_view text, Ink ink) const
{
    if (!colour_ || ink == Ink::plain || text.empty())
        return std::string(text);
    std::string_view const code = ink == Ink::strong ? "\x1b[1m" : ink == Ink::danger ? "\x1b[1;31m" : "\x1b[2m";
    return std::string(code) + std::string(text) + "\x1b[0m";
}

void Paper::line(std::string text)
{
    blank_ = text.empty();
    out_ += text + "\n";
}

void Paper::gap()
{
    if (!blank_)
        line({});
}

void Paper::heading(std::string_view text, Ink ink)
{
    gap();
    std::size_t longest = 0;
    for (auto const& part : wrapped(clean(text), columns_, columns_))
    {
        longest = std::max(longest, width(part));
        line(inked(part, ink));
    }
    std::string rule;
    for (std::size_t i = 0; i < std::min(longest, columns_); ++i)
        rule += "─";
    line(inked(rule, ink == Ink::danger ? Ink::danger : Ink::quiet));
}

void Paper::write(std::string_view text, std::size_t indent, std::string_view lead, Ink ink)
{
    std::size_t const start = indent + width(lead);
    std::size_t const room = columns_ > start + 8 ? columns_ - start : 8;
    auto const lines = wrapped(clean(text), room, room);
    for (std::size_t i = 0; i < lines.size(); ++i)
        line(i == 0 ? std::string(indent, ' ') + std::string(lead) + inked(lines[i], ink)
                    : std::string(start, ' ') + inked(lines[i], ink));
}

void Paper::pair(std::string_view label, std::string_view text, std::size_t indent, std::size_t label_width,
                 Ink label_ink, Ink ink, std::string_view lead)
{
    if (narrow())
    {
        write(label, indent, {}, label_ink);
        write(text, indent + (label.empty() ? 0 : 2), lead, ink);
        return;
    }
    std::size_t const start = indent + label_width + 2;
    auto const left = wrapped(clean(label), label_width, label_width);
    std::size_t const room = columns_ - start - width(lead);
    auto right = wrapped(clean(text), room, room);
    for (std::size_t i = 0; i < right.size(); ++i)
        right[i].insert(0, i == 0 ? std::string(lead) : std::string(width(lead), ' '));
    std::size_t const overfull =
        left.empty() ? 0
                     : width(*std::max_element(left.begin(), left.end(),
                                               [](auto const& a, auto const& b) { return width(a) < width(b); }));
    if (overfull > label_width) // a label with a word that no column holds stands on lines of its own
    {
        write(label, indent, {}, label_ink);
        for (auto const& part : right)
            line(std::string(start, ' ') + inked(part, ink));
        return;
    }
    for (std::size_t i = 0; i < std::max(left.size(), right.size()); ++i)
    {
        std::string const l = i < left.size() ? left[i] : "";
        if (i >= right.size())
            line(std::string(indent, ' ') + inked(l, label_ink));
        else
            line(std::string(indent, ' ') + inked(l, label_ink) + std::string(label_width + 2 - width(l), ' ') +
                 inked(right[i], ink));
    }
}

std::string Paper::take()
{
    blank_ = true;
    return std::exchange(out_, {});
}

} // namespace padwalk::report
