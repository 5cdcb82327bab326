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
    auto const lines = wrapped(clean(text), columns_, columns_);
    for (std::size_t i = 0; i < lines.size(); ++i)
    {
        std::string rule;
        if (i + 1 == lines.size())
            for (std::size_t at = width(lines[i]) + 1; at < columns_; ++at)
                rule += "─";
        line(inked(lines[i], ink) + (rule.empty() ? "" : " " + inked(rule, ink == Ink::danger ? ink : Ink::quiet)));
    }
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

void Paper::run_in(std::string_view label, std::string_view text, std::size_t indent, std::string_view lead,
                   Ink label_ink, Ink ink, std::size_t hang)
{
    std::string const name = clean(label);
    std::string const said = clean(text);
    std::size_t const start = indent + width(lead);
    std::size_t const room = columns_ > start + hang + 8 ? columns_ - start : hang + 8;
    auto const lines =
        wrapped(name + (name.empty() || said.empty() ? "" : ": ") + said, room, room - std::min(hang, room - 8));
    // Lines are broken at blanks, so the label ends behind as many bytes as it has that are none.
    auto blank = [](char c) { return c == ' ' || c == '\n'; };
    std::string plain_name; // no-break spaces are printed as spaces
    for (auto const& part : wrapped(name, name.size() + 1, name.size() + 1))
        plain_name += part;
    auto left = static_cast<std::size_t>(
        std::count_if(plain_name.begin(), plain_name.end(), [&](char c) { return !blank(c); }));
    for (std::size_t i = 0; i < lines.size(); ++i)
    {
        std::size_t end = 0;
        for (; end < lines[i].size() && left > 0; ++end)
            left -= blank(lines[i][end]) ? 0U : 1U;
        std::string const before =
            i == 0 ? std::string(indent, ' ') + std::string(lead) : std::string(start + hang, ' ');
        line(before + inked(lines[i].substr(0, end), label_ink) + inked(lines[i].substr(end), ink));
    }
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
