#include "padwalk/report/html.hpp"

#include "html_style.hpp"
#include "page.hpp"
#include "plain.hpp"
#include "wording.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

std::string escaped(std::string_view text)
{
    return in_markup(text, "<br>");
}

std::string_view class_of(Tone tone)
{
    return tone == Tone::danger ? " class=\"danger\"" : tone == Tone::quiet ? " class=\"quiet\"" : "";
}

std::string element(std::string_view name, std::string_view text, Tone tone = Tone::plain)
{
    return "<" + std::string(name) + std::string(class_of(tone)) + ">" + escaped(text) + "</" + std::string(name) + ">";
}

std::string list(std::vector<std::string> const& texts, Tone tone = Tone::plain)
{
    std::string out = "<ul" + std::string(class_of(tone)) + ">";
    for (auto const& text : texts)
        out += "\n" + element("li", text);
    return out + "</ul>";
}

std::string bar(double share)
{
    std::string const percent_wide = std::to_string(std::lround(100 * std::clamp(share, 0.0, 1.0)));
    std::string const label = escaped("Chance: " + chance(share));
    return "<svg class=\"share\" viewBox=\"0 0 100 6\" preserveAspectRatio=\"none\" role=\"img\" aria-label=\"" +
           label + "\"><title>" + label + "</title><rect class=\"part\" width=\"" + percent_wide +
           "\" height=\"6\"/><rect class=\"whole\" width=\"100\" height=\"6\"/></svg>\n";
}

std::string markup(Paragraph const& paragraph)
{
    return element("p", paragraph.text, paragraph.tone) + "\n";
}

std::string markup(Points const& points)
{
    return list(points.texts, points.tone) + "\n";
}

std::string markup(Drawing const& drawing)
{
    return "<figure>\n" + drawing.svg + "\n" + element("figcaption", drawing.caption) + "\n</figure>\n";
}

std::string markup(Card const& card)
{
    std::string out = card.tone == Tone::danger ? "<div class=\"card danger\">\n" : "<div class=\"card\">\n";
    std::string const number =
        card.number > 0 ? "<span class=\"number\">" + std::to_string(card.number) + ".</span> " : "";
    if (!card.title.empty())
        out += "<h3>" + number + escaped(card.title) + "</h3>\n";
    if (!card.tag.empty())
        out += "<p class=\"tag\">" + escaped(card.tag) + "</p>\n";
    if (card.share)
        out += bar(*card.share);
    bool const labelled =
        std::any_of(card.parts.begin(), card.parts.end(), [](Part const& p) { return !p.label.empty(); });
    if (labelled)
        out += "<dl>\n";
    for (auto const& part : card.parts)
    {
        std::string const body = part.texts.size() == 1 ? escaped(part.texts.front()) : list(part.texts);
        if (labelled)
            out += element("dt", part.label, part.tone) + "<dd>" + body + "</dd>\n";
        else
            out += part.texts.size() == 1 ? "<p>" + body + "</p>\n" : body + "\n";
    }
    return out + (labelled ? "</dl>\n</div>\n" : "</div>\n");
}

std::string cell_body(Cell const& cell)
{
    std::string out = escaped(cell.text);
    for (auto const& more : cell.more)
        out += " <small>" + escaped(more) + "</small>";
    return out;
}

// Roles are written out because a narrow screen lays rows out as blocks, which takes a table's own roles away.
std::string markup(Table const& table)
{
    std::string out =
        "<table role=\"table\">\n" + element("caption", table.caption) + "\n" +
        (table.second > 0 ? "<colgroup><col style=\"width:28%\"><col style=\"width:" + std::to_string(table.second) +
                                "%\"><col></colgroup>\n"
                          : "") +
        "<thead role=\"rowgroup\"><tr role=\"row\">";
    for (auto const& head : table.heads)
        out += "<th scope=\"col\" role=\"columnheader\">" + escaped(head) + "</th>";
    out += "</tr></thead>\n<tbody role=\"rowgroup\">\n";
    for (auto const& row : table.rows)
    {
        out += "<tr role=\"row\"><th scope=\"row\" role=\"rowheader\">" + cell_body(row.front()) + "</th>";
        for (std::size_t i = 1; i < row.size(); ++i)
            out += "<td role=\"cell\"" + std::string(class_of(row[i].tone)) + ">" + cell_body(row[i]) + "</td>";
        out += "</tr>\n";
    }
    return out + "</tbody>\n</table>\n";
}

std::string markup(Section const& section)
{
    std::string const classes = section.id + (section.tone == Tone::danger && section.id != "danger" ? " danger" : "");
    std::string out = "<section class=\"" + classes + "\" id=\"" + section.id + "\" aria-labelledby=\"h-" + section.id +
                      "\">\n<h2 id=\"h-" + section.id + "\">" +
                      (section.tone == Tone::danger ? "<span aria-hidden=\"true\">⚠ </span>" : "") +
                      escaped(section.heading) + "</h2>\n<div>\n";
    for (auto const& block : section.blocks)
        out += std::visit([](auto const& b) { return markup(b); }, block);
    return out + "</div>\n</section>\n";
}

} // namespace

std::string html_of(Page const& page, std::string const& on)
{
    std::string out =
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<meta name=\"referrer\" content=\"no-referrer\">\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n";
    out += element("title", page.title + (on.empty() ? "" : ", " + on)) + "\n<style>" + std::string(html_style()) +
           "</style>\n</head>\n<body>\n<main>\n<header>\n" + element("h1", page.title) + "\n";
    for (auto const& line : page.about)
        out += element("p", line) + "\n";
    out += "</header>\n";
    for (auto const& section : page.sections)
        out += markup(section);
    out += "<footer>\n";
    for (auto const& line : page.foot)
        out += element("p", line) + "\n";
    return out + "</footer>\n</main>\n</body>\n</html>\n";
}

std::string as_html(assess::Assessment const& assessment, units::System system)
{
    return html_of(page_of(assessment, system), assessment.on);
}

std::string as_html(assess::WaterReport const& report, units::System system)
{
    return html_of(water_page(report, system), report.assessment.on);
}

} // namespace padwalk::report
