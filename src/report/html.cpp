#include "padwalk/report/html.hpp"

#include "page.hpp"
#include "plain.hpp"
#include "templates.hpp"
#include "wording.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

using kainjow::mustache::data;

std::string tone_class(Tone tone)
{
    return tone == Tone::danger ? "danger" : tone == Tone::quiet ? "quiet" : "";
}

data list_of(std::vector<std::string> const& texts)
{
    data out(data::type::list);
    for (auto const& text : texts)
        out.push_back(data(text));
    return out;
}

data with_tone(Tone tone)
{
    data out;
    out.set("tone", tone == Tone::plain ? data(false) : data(tone_class(tone)));
    return out;
}

/// A text where there is one, else nothing to show.
data or_none(std::string const& text)
{
    return text.empty() ? data(false) : data(text);
}

/// Text as an attribute holds it: in one line.
std::string in_one_line(std::string text)
{
    std::replace(text.begin(), text.end(), '\n', ' ');
    return text;
}

class Filler
{
public:
    explicit Filler(Layout const& layout) : templates_(layout.templates()) {}

    std::string operator()(Paragraph const& paragraph) const
    {
        data with = with_tone(paragraph.tone);
        with.set("text", paragraph.text);
        return templates_.filled("paragraph", with);
    }
    std::string operator()(Points const& points) const
    {
        data with = with_tone(points.tone);
        with.set("texts", list_of(points.texts));
        return templates_.filled("points", with);
    }
    std::string operator()(Drawing const& drawing) const
    {
        data with;
        with.set("svg", drawing.svg);
        with.set("caption", drawing.caption);
        return templates_.filled("drawing", with);
    }
    std::string operator()(Card const& card) const;
    std::string operator()(Table const& table) const;
    std::string operator()(PhotoRow const& row) const;
    std::string operator()(Form const& form) const;
    std::string operator()(AsWritten const& written) const
    {
        // Its line ends are kept by the element, so they are not turned into marks.
        return "<pre>" + in_markup(written.text, "\n") + "</pre>";
    }
    std::string operator()(Section const& section) const;
    std::string operator()(Page const& page) const;

private:
    Layout::Templates const& templates_;
};

data bar(double share)
{
    data out;
    out.set("width", std::to_string(std::lround(100 * std::clamp(share, 0.0, 1.0))));
    out.set("label", "Chance: " + chance(share));
    return out;
}

data part_of(Part const& part)
{
    data out = with_tone(part.tone);
    bool const one = part.texts.size() == 1;
    out.set("label", part.label);
    out.set("one", one ? data(part.texts.front()) : data(false));
    out.set("many", data(!one));
    out.set("texts", list_of(part.texts));
    return out;
}

std::string Filler::operator()(Card const& card) const
{
    data with, parts(data::type::list);
    for (auto const& part : card.parts)
        parts.push_back(part_of(part));
    with.set("danger", data(card.tone == Tone::danger));
    with.set("titled", data(!card.title.empty()));
    with.set("title", card.title);
    with.set("number", card.number > 0 ? data(std::to_string(card.number)) : data(false));
    with.set("tick", or_none(in_one_line(card.tick)));
    with.set("tag", or_none(card.tag));
    with.set("share", card.share ? bar(*card.share) : data(false));
    with.set("labelled",
             data(std::any_of(card.parts.begin(), card.parts.end(), [](Part const& p) { return !p.label.empty(); })));
    with.set("parts", parts);
    return templates_.filled("card", with);
}

// Roles are written out because a narrow screen lays rows out as blocks, which takes a table's own roles away.
std::string Filler::operator()(Table const& table) const
{
    data with, rows(data::type::list);
    for (auto const& row : table.rows)
    {
        data one, cells(data::type::list);
        one.set("name", row.front().text);
        one.set("more", list_of(row.front().more));
        for (std::size_t i = 1; i < row.size(); ++i)
        {
            data cell = with_tone(row[i].tone);
            cell.set("text", row[i].text);
            cell.set("more", list_of(row[i].more));
            cells.push_back(cell);
        }
        one.set("cells", cells);
        rows.push_back(one);
    }
    with.set("caption", table.caption);
    with.set("second", table.second > 0 ? data(std::to_string(table.second)) : data(false));
    with.set("heads", list_of(table.heads));
    with.set("rows", rows);
    return templates_.filled("table", with);
}

std::string Filler::operator()(PhotoRow const& row) const
{
    data with, photos(data::type::list);
    for (auto const& photo : row.photos)
    {
        data one;
        bool const shown = photo.shown != nullptr && !photo.shown->data_uri.empty();
        one.set("caption", in_one_line(photo.caption));
        one.set("remark", or_none(photo.remark));
        one.set("shown", data(shown));
        if (shown)
        {
            one.set("data", photo.shown->data_uri);
            one.set("width", std::to_string(photo.shown->width));
            one.set("height", std::to_string(photo.shown->height));
        }
        photos.push_back(one);
    }
    with.set("photos", photos);
    return templates_.filled("photos", with);
}

std::string Filler::operator()(Form const& form) const
{
    data with, rows(data::type::list), lines(data::type::list);
    for (auto const& row : form.rows)
    {
        data one;
        one.set("text", row.text);
        one.set("choices", list_of(row.choices));
        rows.push_back(one);
    }
    for (std::size_t i = 0; i < form.lines; ++i)
        lines.push_back(data(true));
    with.set("rows", rows);
    with.set("lines", lines);
    return templates_.filled("form", with);
}

std::string Filler::operator()(Section const& section) const
{
    bool const danger = section.tone == Tone::danger;
    data with, blocks(data::type::list);
    for (auto const& block : section.blocks)
        blocks.push_back(data(std::visit(*this, block)));
    with.set("classes", section.id + (danger && section.id != "danger" ? " danger" : ""));
    with.set("id", section.id);
    with.set("danger", data(danger));
    with.set("heading", section.heading);
    with.set("blocks", blocks);
    return templates_.filled("section", with);
}

std::string Filler::operator()(Page const& page) const
{
    data with, sections(data::type::list);
    for (auto const& section : page.sections)
        sections.push_back(data((*this)(section)));
    std::string const dated = page.title + (page.on.empty() ? "" : ", " + page.on);
    with.set("language", page.language);
    with.set("kind", page.kind);
    with.set("title", in_one_line(dated));
    with.set("heading", page.title);
    with.set("style", templates_.style);
    with.set("foot_line", in_css(page.place.empty() ? dated : capitalised(page.place) + " – " + dated));
    with.set("about", list_of(page.about));
    with.set("sections", sections);
    with.set("foot", list_of(page.foot));
    return templates_.filled("document", with);
}

} // namespace

std::string html_of(Page const& page, Layout const& layout)
{
    return Filler(layout)(page);
}

std::string as_html(assess::Assessment const& assessment, units::System system, Layout const& layout)
{
    return html_of(page_of(assessment, system), layout);
}

std::string as_html(assess::WaterReport const& report, units::System system, Layout const& layout)
{
    return html_of(water_page(report, system), layout);
}

} // namespace padwalk::report
