#include "padwalk/report/text.hpp"

#include "page.hpp"
#include "paper.hpp"
#include "plain.hpp"

#include <sstream>

namespace padwalk::report
{
namespace
{

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
        paper.write(text, 0, "- ", ink_of(points.tone));
}

void lay(Paper& paper, Drawing const& drawing)
{
    for (auto const& text : drawing.in_words)
        paper.write(text, 2);
}

void lay(Paper& paper, PhotoRow const& row)
{
    for (auto const& photo : row.photos)
        paper.write(photo.caption + (photo.remark.empty() ? "" : " (" + photo.remark + ")"), 0, "- ");
}

void lay(Paper& paper, Form const& form)
{
    for (auto const& row : form.rows)
    {
        std::string choices;
        for (auto const& choice : row.choices)
            choices += (choices.empty() ? "" : "  ") + std::string("[\u00a0]\u00a0") + choice;
        paper.write(row.text + ":  " + choices, 0, "- ");
    }
    for (std::size_t i = 0; i < form.lines; ++i)
        paper.write(std::string(paper.columns() - 2, '_'), 0);
}

void lay(Paper& paper, AsWritten const& written)
{
    std::istringstream lines(written.text);
    for (std::string line; std::getline(lines, line);)
    {
        std::size_t const set_in = std::min(line.find_first_not_of(' '), line.size());
        paper.write(line.substr(set_in), 2 + set_in);
    }
}

// One text, or several short ones: what runs on stands in the line of what it belongs to.
void lay_parts(Paper& paper, std::vector<Part> const& parts, std::size_t indent)
{
    for (std::size_t i = 0; i < parts.size(); ++i)
    {
        Part const& part = parts[i];
        Ink const ink = part.tone == Tone::quiet ? Ink::quiet : Ink::plain;
        Ink const label_ink = part.tone == Tone::danger ? Ink::danger : Ink::strong;
        if (part.texts.size() > 1)
        {
            if (!part.label.empty())
                paper.write(part.label + ":", indent, {}, label_ink);
            for (auto const& t : part.texts)
                paper.write(t, indent, "- ", ink);
            continue;
        }
        std::string text = part.texts.front();
        for (; i + 1 < parts.size() && parts[i + 1].runs_on && parts[i + 1].texts.size() == 1; ++i)
        {
            bool const ended = !text.empty() && std::string_view(".!?…").find(text.back()) != std::string_view::npos;
            text += (ended ? " " : ". ") + parts[i + 1].label + ": " + parts[i + 1].texts.front();
        }
        paper.run_in(part.label, text, indent, {}, label_ink, ink);
    }
}

void lay(Paper& paper, Card const& card)
{
    std::string const tick = card.tick.empty() ? "" : "[ ] ";
    std::string const lead = card.number > 0             ? tick + std::to_string(card.number) + ". "
                             : card.tone == Tone::danger ? "! "
                                                         : "";
    if (!card.title.empty())
        paper.run_in(card.title, card.tag, 0, lead, card.tone == Tone::danger ? Ink::danger : Ink::strong, Ink::plain,
                     lead.empty() ? 2 : 0);
    lay_parts(paper, card.parts, card.title.empty() ? 0 : lead.empty() ? 2 : lead.size());
}

void lay(Paper& paper, Table const& table)
{
    if (table.needed)
        paper.write(table.caption + ":", 0, {}, Ink::quiet);
    for (auto const& row : table.rows)
    {
        std::string text;
        Ink ink = Ink::plain;
        auto add = [&](std::string const& more)
        {
            if (!more.empty())
                text += (text.empty() ? "" : "; ") + more;
        };
        for (std::size_t i = 1; i < row.size(); ++i)
        {
            add(row[i].text);
            for (auto const& more : row[i].more)
                add(more);
            ink = row[i].tone == Tone::danger ? Ink::danger : ink;
        }
        std::string label = row.front().text;
        for (auto const& more : row.front().more)
            label += ", " + more;
        paper.run_in(label, text, 0, {}, Ink::strong, ink, 2);
    }
}

} // namespace

std::string text_of(Page const& page, TextOptions const& options)
{
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

std::string as_text(assess::Assessment const& assessment, TextOptions const& options)
{
    return text_of(page_of(assessment, options.system, options.told), options);
}

std::string as_text(assess::WaterReport const& report, TextOptions const& options)
{
    return text_of(water_page(report, options.system), options);
}

} // namespace padwalk::report
