#include "catch_compat.hpp"

#include "padwalk/report/sheet.hpp"
#include "report/layout.hpp"

#include <algorithm>
#include <regex>
#include <sstream>

using namespace padwalk;
using visit::Answer;

namespace
{

std::string const nasty = "</p></style><script>alert(1)</script>{{title}}{{{style}}} \"; } body { display: none } \\";

std::size_t count(std::string const& text, std::string const& what)
{
    std::size_t found = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1))
        ++found;
    return found;
}

std::size_t code_points(std::string const& text)
{
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

visit::SheetRow quantity(std::string label, std::string unit)
{
    visit::SheetRow row;
    row.label = std::move(label);
    row.answer = Answer::quantity;
    row.unit = std::move(unit);
    row.characters = 4;
    return row;
}

visit::SheetForm sample()
{
    visit::SheetForm form{"Field sheet", "blue house", "2026-05-14", {}, {}};
    form.dangers = {
        {"smell of gas", "Leave at once."}, {"a drain cover missing", "Out."}, {"a drain cover loose", "Out."}};
    visit::SheetGroup pump{"At the pad", "pump", "spa loop", "It can start by itself.", true, {}};
    pump.rows.push_back(quantity("gauge", "psi"));
    pump.rows.back().before = "18 psi";
    pump.rows.push_back(quantity("age", "year"));
    pump.rows.back().known = "9 years";
    visit::SheetRow ticks;
    ticks.label = "runs";
    ticks.answer = Answer::ticks;
    ticks.words = {"yes", "no"};
    pump.rows.push_back(ticks);
    visit::SheetRow table;
    table.label = "marks";
    table.answer = Answer::table;
    table.lines = 2;
    table.columns = {{"date and time", {}, {}, 16}, {"fall", "in", {}, 4}, {"pump", {}, {"off", "on"}, 6}};
    table.filled = {{"2026-05-12 08:00", "0 in", "off"}};
    pump.rows.push_back(table);
    form.groups = {{"The day", "this visit", {}, {}, false, {quantity("air", "°F")}}, pump};
    return form;
}

visit::SheetForm full(units::System system)
{
    static auto const data = reference::Data::built_in();
    auto form = visit::sheet_form(data, {}, system);
    form.dangers = sample().dangers;
    return form;
}

// Tags are opened and closed in order; those that stand alone aside.
bool is_well_formed(std::string const& html)
{
    static std::regex const tag("<(/?)([a-z0-9]+)[^>]*>");
    std::vector<std::string> open;
    for (std::sregex_iterator it(html.begin(), html.end(), tag), end; it != end; ++it)
    {
        std::string const name = (*it)[2];
        if (name == "meta" || name == "col")
            continue;
        if ((*it)[1].length() == 0)
            open.push_back(name);
        else if (open.empty() || open.back() != name)
            return false;
        else
            open.pop_back();
    }
    return open.empty();
}

} // namespace

TEST_CASE("sheet page: stands alone, no script, nothing fetched, its tags close", "[report][sheet]")
{
    for (auto const& form : {sample(), full(units::System::us), full(units::System::si)})
    {
        auto const html = report::sheet_html(form, tests::layout());
        CHECK(html.starts_with("<!doctype html>"));
        CHECK(is_well_formed(html));
        CHECK(count(html, "<script") == 0);
        CHECK(count(html, "http:") + count(html, "https:") + count(html, "url(") + count(html, "@import") == 0);
        CHECK(count(html, "{{") == 0);
        CHECK(count(html, "default-src 'none'") == 1);
    }
}

TEST_CASE("sheet page: boxes with their units, ticks, known and earlier values", "[report][sheet]")
{
    auto const html = report::sheet_html(sample(), tests::layout());
    CHECK(count(html, "class=\"box room-4\"") == 2); // the air and the gauge; the age is known
    CHECK(html.find("<span class=\"unit\">psi</span>") != std::string::npos);
    CHECK(html.find("<span class=\"known\">9 years</span>") != std::string::npos);
    CHECK(html.find("<small>was 18 psi</small>") != std::string::npos);
    CHECK(html.find("<span class=\"tick\">yes</span> <span class=\"tick\">no</span>") != std::string::npos);
    CHECK(html.find("<h3>Pump: spa loop</h3>") != std::string::npos);
    CHECK(count(html, "<tr role=\"row\">") == 1 + 1 + 2); // heads, one known line, two blank ones
    CHECK(count(html, "class=\"notes\"") == 1);           // not for the day itself
    CHECK(html.find("Leave at once.") < html.find("At the pad"));
    CHECK(count(html, "<strong>If yes:</strong> Out.") == 1); // what wants the same done stands together
}

TEST_CASE("sheet page: property and date stand on each page of paper, with its number", "[report][sheet]")
{
    auto html = report::sheet_html(sample(), tests::layout());
    CHECK(html.find("@top-left { content: \"blue house\" }") != std::string::npos);
    CHECK(html.find("@top-right { content: \"file of 2026\\2d 05\\2d 14\\2c  date \\5f ") != std::string::npos);
    CHECK(html.find("counter(page) \" / \" counter(pages)") != std::string::npos);
    auto form = sample();
    form.property.clear(), form.on.clear();
    html = report::sheet_html(form, tests::layout());
    CHECK(html.find("@top-left { content: \"property \\5f ") != std::string::npos);
    CHECK(html.find("@top-right { content: \"date \\5f ") != std::string::npos);
}

TEST_CASE("sheet: hostile words stay text, in the page, in its style, in its template", "[report][sheet]")
{
    auto form = sample();
    form.property = nasty;
    form.on = nasty;
    form.dangers[0] = {nasty, nasty};
    auto& pump = form.groups[1];
    pump.name = pump.kind = pump.section = pump.caution = nasty;
    for (auto& row : pump.rows)
    {
        row.label = nasty;
        if (row.answer != Answer::table)
            row.known = nasty;
    }
    pump.rows[0].known.clear(), pump.rows[0].before = nasty;
    pump.rows[3].columns[0].label = nasty;
    pump.rows[3].columns[2].words = {nasty, nasty};
    pump.rows[3].filled[0] = {nasty, nasty, nasty};
    auto const html = report::sheet_html(form, tests::layout());
    CHECK(is_well_formed(html));
    CHECK(count(html, "<script") == 0);
    CHECK(count(html, "<style>") == 1);
    CHECK(count(html, "</style>") == 1);
    CHECK(count(html, "{{title}}") > 10); // as it was written, not filled in
    auto const style = html.substr(html.find("<style>"), html.find("</style>") - html.find("<style>"));
    CHECK(style.find("body { display: none }") == std::string::npos);
    CHECK(style.find("script>") == std::string::npos);
    CHECK(std::count(style.begin(), style.end(), '{') == std::count(style.begin(), style.end(), '}'));

    form.property = "\x1b[31m\nblue\xff \xe2\x80\xae";
    for (char const c : report::sheet_text(form))
        CHECK((static_cast<unsigned char>(c) >= 0x20 || c == '\n'));
    CHECK(report::sheet_html(form, tests::layout()).find('\x1b') == std::string::npos);
}

TEST_CASE("sheet page: black on white without a colour, and every box 8 mm high", "[report][sheet]")
{
    auto const html = report::sheet_html(sample(), tests::layout());
    static std::regex const colour("#[0-9a-fA-F]{3,8}\\b");
    for (std::sregex_iterator it(html.begin(), html.end(), colour), end; it != end; ++it)
        CHECK((it->str() == "#000" || it->str() == "#fff"));
    CHECK(html.find(".box { display: inline-block; height: 8mm;") != std::string::npos);
    for (std::size_t room = 3; room <= 9; ++room)
        CHECK(html.find(".room-" + std::to_string(room) + " {") != std::string::npos);
}

TEST_CASE("sheet text: 80 columns at most, boxes to write in, nothing of the page missing", "[report][sheet]")
{
    for (auto const system : {units::System::us, units::System::si})
    {
        std::istringstream lines(report::sheet_text(full(system)));
        for (std::string line; std::getline(lines, line);)
        {
            INFO(line);
            CHECK(code_points(line) <= 80);
            CHECK((line.empty() || line.back() != ' '));
        }
    }
    auto const text = report::sheet_text(sample());
    CHECK(text.find("Gauge                                   [______] psi\n"
                    "                                        was 18 psi\n") != std::string::npos);
    CHECK(text.find("Runs                                    [ ] yes  [ ] no\n") != std::string::npos);
    CHECK(text.find("Age                                     9 years\n") != std::string::npos);
    CHECK(text.find("1  |2026-05-12 08:00") != std::string::npos);
    CHECK(text.find("If yes: Leave at once.") != std::string::npos);
    auto const form = full(units::System::us);
    auto const all = report::sheet_text(form), html = report::sheet_html(form, tests::layout());
    for (auto const& group : form.groups)
        for (auto const& row : group.rows)
            if (row.label.find_first_of(" ';") == std::string::npos) // one word: neither broken nor escaped
            {
                std::string label = row.label;
                if (label != "pH")
                    label[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(label[0])));
                INFO(row.label);
                CHECK(all.find(label) != std::string::npos);
                CHECK(html.find(label) != std::string::npos);
            }
}
