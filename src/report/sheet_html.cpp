#include "padwalk/report/sheet.hpp"
#include "plain.hpp"
#include "sheet_words.hpp"
#include "templates.hpp"

namespace padwalk::report
{
namespace
{

using kainjow::mustache::data;
using visit::Answer;

constexpr std::size_t half_a_line = 30; // characters of an answer that fit beside its label in one of two columns

std::string on_each_page(std::string_view text)
{
    constexpr std::size_t most = 70; // columns of one line of the margin
    auto const lines = wrapped(text, most, most);
    return lines.empty() ? std::string() : lines.front() + (lines.size() > 1 ? " …" : "");
}

// A key that is set only where there is something to say; it is set in any case, since a template looks further out for
// keys that are missing.
void set(data& out, std::string const& key, std::string const& text)
{
    if (text.empty())
        out.set(key, data{data::type::bool_false});
    else
        out.set(key, text);
}

data words_of(std::vector<std::string> const& words)
{
    data out{data::type::list};
    for (auto const& word : words)
        out << data{"word", word};
    return out;
}

data times(std::size_t count)
{
    data out{data::type::list};
    for (std::size_t i = 0; i < count; ++i)
        out << data{"line", std::to_string(i + 1)};
    return out;
}

std::size_t room_of(std::vector<std::string> const& words)
{
    constexpr std::size_t box = 4; // a tick box, in characters
    std::size_t out = 0;
    for (auto const& word : words)
        out += width(word) + box;
    return out;
}

bool is_wide(visit::SheetRow const& row)
{
    if (!row.known.empty())
        return width(row.known) > half_a_line;
    return (row.answer == Answer::text && row.lines > 1) || room_of(row.words) > half_a_line;
}

data cell(visit::SheetColumn const& column, std::string const* text)
{
    data out;
    set(out, "head", column.label + (column.unit.empty() ? "" : ", " + column.unit));
    set(out, "text", text != nullptr ? *text : std::string());
    if (text == nullptr && !column.words.empty())
        out.set("choices", words_of(column.words));
    else
        out.set("choices", data{data::type::bool_false});
    return out;
}

data table_data(visit::SheetRow const& row)
{
    data heads{data::type::list}, lines{data::type::list};
    std::size_t all = 0;
    for (auto const& column : row.columns)
        all += column.characters + 4;
    for (auto const& column : row.columns)
    {
        data head;
        head.set("label", column.label);
        set(head, "unit", column.unit);
        head.set("share", std::to_string(100 * (column.characters + 4) / all));
        heads << head;
    }
    for (std::size_t i = 0; i < row.filled.size() + row.lines; ++i)
    {
        data cells{data::type::list}, line;
        for (std::size_t c = 0; c < row.columns.size(); ++c)
            cells << cell(row.columns[c], i < row.filled.size() ? &row.filled[i].at(c) : nullptr);
        line.set("cells", cells);
        lines << line;
    }
    data out;
    out.set("caption", capitalised(row.label));
    set(out, "legend", row.legend);
    out.set("heads", heads);
    out.set("entries", lines);
    return out;
}

data answer_data(visit::SheetRow const& row)
{
    data out;
    auto const only_if = [&](char const* key, bool is, data value)
    { out.set(key, is ? std::move(value) : data{data::type::bool_false}); };
    bool const open = row.known.empty();
    set(out, "known", row.known);
    only_if("box", open && row.answer == Answer::quantity, data{"room", std::to_string(row.characters)});
    only_if("moment", open && row.answer == Answer::moment, data{data::type::bool_true});
    only_if("ruled", open && row.answer == Answer::text, times(row.lines));
    only_if("ticks", open && row.answer == Answer::ticks, words_of(row.words));
    return out;
}

data row_data(visit::SheetRow const& row)
{
    data out = answer_data(row);
    out.set("label", capitalised(row.label));
    out.set("width", is_wide(row) ? "wide" : "half");
    set(out, "unit", row.known.empty() ? row.unit : std::string());
    set(out, "example", row.known.empty() && row.before.empty() ? row.example : std::string());
    set(out, "before", row.before);
    out.set("many", row.several && row.known.empty());
    return out;
}

data group_data(visit::SheetGroup const& group)
{
    data rows{data::type::list}, tables{data::type::list}, out;
    for (auto const& row : group.rows)
        (row.answer == Answer::table ? tables : rows)
            << (row.answer == Answer::table ? table_data(row) : row_data(row));
    out.set("heading", heading_of(group));
    set(out, "caution", group.caution);
    out.set("any_rows", rows.is_non_empty_list());
    out.set("rows", rows);
    out.set("tables", tables);
    out.set("notes", group.notes);
    return out;
}

data sections_data(visit::SheetForm const& form)
{
    data out{data::type::list};
    for (std::size_t i = 0; i < form.groups.size();)
    {
        data groups{data::type::list}, section;
        section.set("section", form.groups[i].section);
        section.set("id", "part-" + std::to_string(i + 1));
        for (std::string const name = form.groups[i].section; i < form.groups.size() && form.groups[i].section == name;
             ++i)
            groups << group_data(form.groups[i]);
        section.set("groups", groups);
        out << section;
    }
    return out;
}

data dangers_data(visit::SheetForm const& form)
{
    data out{data::type::list};
    for (auto const& block : danger_blocks(form))
    {
        data asks{data::type::list}, one;
        for (auto const& ask : block.asks)
            asks << data{"ask", capitalised(ask)};
        one.set("asks", asks);
        one.set("say", block.say);
        out << one;
    }
    return out;
}

data page_data(visit::SheetForm const& form, std::string const& style)
{
    std::string const blank(24, '_');
    std::string const property = form.property.empty() ? "property " + blank : on_each_page(form.property);
    std::string const date =
        form.on.empty() ? "date " + blank.substr(12) : "file of " + form.on + ", date " + blank.substr(12);
    data out;
    out.set("style", style);
    out.set("page_property", in_css(property));
    out.set("page_date", in_css(date));
    out.set("page_title", in_css(form.title));
    out.set("title", form.title);
    set(out, "property", form.property);
    set(out, "on", form.on);
    out.set("how", sheet_how);
    out.set("rule", sheet_rule);
    out.set("first", sheet_dangers);
    out.set("any_dangers", !form.dangers.empty());
    out.set("dangers", dangers_data(form));
    out.set("noticed", sheet_noticed);
    out.set("untested", sheet_untested);
    out.set("photos", sheet_photos);
    out.set("sections", sections_data(form));
    return out;
}

} // namespace

std::string sheet_html(visit::SheetForm const& form, Layout const& layout)
{
    auto const& templates = layout.templates();
    return templates.filled("sheet", page_data(form, templates.sheet_style));
}

} // namespace padwalk::report
