#include "padwalk/report/text.hpp"

#include "page.hpp"
#include "paper.hpp"
#include "plain.hpp"

#include <algorithm>

namespace padwalk::report
{
namespace
{

constexpr std::size_t card_label_width = 18;

Ink ink_of(Tone tone)
{
    return tone == Tone::danger ? Ink::danger : tone == Tone::quiet ? Ink::quiet : Ink::plain;
}

void lay(Paper& paper, Paragraph const& paragraph)
{
    paper.write(paragraph.text, 0, {}, ink_of(paragraph.tone));
}

void lay(Paper& paper, Points const& points)
{
    for (auto const& text : points.texts)
        paper.write(text, 0, "- ");
}

void lay_part(Paper& paper, Part const& part, std::size_t indent)
{
    Ink const ink = part.tone == Tone::quiet ? Ink::quiet : Ink::plain;
    Ink const label_ink = part.tone == Tone::danger ? Ink::danger : Ink::quiet;
    bool const list = part.texts.size() > 1;
    std::string text;
    for (auto const& t : part.texts)
        text += (text.empty() ? "" : "\n") + t;
    if (part.label.empty())
    {
        for (auto const& t : part.texts)
            paper.write(t, indent, list ? "- " : "", ink);
        return;
    }
    if (!paper.narrow())
    {
        for (std::size_t i = 0; i < part.texts.size(); ++i)
            paper.pair(i == 0 ? part.label : "", part.texts[i], indent, card_label_width, label_ink, ink,
                       list ? "- " : "");
        return;
    }
    if (!list)
    {
        paper.write(part.label + ": " + text, indent, {}, ink);
        return;
    }
    paper.write(part.label + ":", indent, {}, label_ink);
    for (auto const& t : part.texts)
        paper.write(t, indent, "- ", ink);
}

void lay(Paper& paper, Card const& card)
{
    paper.gap();
    std::string const lead = card.number > 0             ? std::to_string(card.number) + ". "
                             : card.tone == Tone::danger ? "!  "
                                                         : "";
    paper.write(card.title, 0, lead, card.tone == Tone::danger ? Ink::danger : Ink::strong);
    std::size_t const indent = lead.empty() ? 2 : lead.size();
    paper.write(card.tag, indent);
    for (auto const& part : card.parts)
        lay_part(paper, part, indent);
}

std::size_t label_width_of(Table const& table, std::size_t columns)
{
    std::size_t widest = 0;
    for (auto const& row : table.rows)
    {
        widest = std::max(widest, width(row.front().text));
        for (auto const& more : row.front().more)
            widest = std::max(widest, width(more));
    }
    return std::clamp<std::size_t>(widest, 8, columns * 2 / 5);
}

void lay(Paper& paper, Table const& table)
{
    paper.write(table.caption, 0, {}, Ink::quiet);
    std::size_t const label_width = label_width_of(table, paper.columns());
    bool const airy = table.heads.size() > 2 && table.between == "\n";
    for (auto const& row : table.rows)
    {
        if (airy)
            paper.gap();
        std::string text;
        Ink ink = Ink::plain;
        for (std::size_t i = 1; i < row.size(); ++i)
        {
            if (!row[i].text.empty())
                text += (text.empty() ? "" : table.between) + row[i].text;
            for (auto const& more : row[i].more)
                text += (text.empty() ? "" : "\n") + more;
            ink = row[i].tone == Tone::danger ? Ink::danger : ink;
        }
        std::string label = row.front().text;
        for (auto const& more : row.front().more)
            label += "\n" + more;
        paper.pair(label, text, 0, label_width, Ink::strong, ink);
    }
}

} // namespace

std::string as_text(assess::Assessment const& assessment, TextOptions const& options)
{
    Page const page = page_of(assessment, options.system);
    Paper paper(options.columns, options.colour);
    paper.write(page.title, 0, {}, Ink::strong);
    for (auto const& line : page.about)
        paper.write(line);
    for (auto const& section : page.sections)
    {
        bool const danger = section.tone == Tone::danger;
        paper.heading(section.heading, danger ? Ink::danger : Ink::strong);
        for (auto const& block : section.blocks)
            std::visit([&](auto const& b) { lay(paper, b); }, block);
    }
    paper.gap();
    for (auto const& line : page.foot)
        paper.write(line, 0, {}, Ink::quiet);
    return paper.take();
}

} // namespace padwalk::report
