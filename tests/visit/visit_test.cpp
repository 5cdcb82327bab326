#include "catch_compat.hpp"
#include "padwalk/reference/sources.hpp"
#include "padwalk/visit/visit.hpp"

#include <set>

using namespace padwalk;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using fields::FieldShape;

namespace
{

fields::Instruments const& instruments()
{
    static fields::Instruments const table = reference::instruments(reference::Data::built_in());
    return table;
}

visit::ReadVisit must_read(std::string_view text)
{
    try
    {
        return visit::read_visit(text, instruments());
    }
    catch (fields::InputProblems const& bad)
    {
        FAIL(fields::as_text(bad.list(), "visit.yaml", text));
    }
    return {};
}

std::string must_refuse(std::string_view text)
{
    try
    {
        static_cast<void>(visit::read_visit(text, instruments()));
    }
    catch (fields::InputProblems const& bad)
    {
        return fields::as_text(bad.list(), "visit.yaml", text);
    }
    FAIL("was read:\n" << text);
    return {};
}

// Every field's path with its shape, each record once.
void walk(fields::RecordShape const& record, std::string const& path, std::set<fields::RecordShape const*>& met,
          std::vector<std::pair<std::string, FieldShape const*>>& out)
{
    if (!met.insert(&record).second)
        return;
    for (auto const& field : record.fields)
    {
        out.emplace_back(path + "/" + field.name, &field);
        if (field.inner != nullptr)
            walk(*field.inner(), path + "/" + field.name, met, out);
    }
}

std::vector<std::pair<std::string, FieldShape const*>> all_fields()
{
    std::set<fields::RecordShape const*> met;
    std::vector<std::pair<std::string, FieldShape const*>> out;
    walk(visit::Visit::declaration().shape(), "", met, out);
    return out;
}

} // namespace

TEST_CASE("three lines are a visit", "[visit]")
{
    auto const read = must_read("loops:\n  spa loop:\n    pump: {noticed: [grinding noise]}\n");
    REQUIRE(read.visit.loops.size() == 1);
    CHECK(read.visit.loops[0].first == "spa loop");
    CHECK(read.visit.loops[0].second.pump->noticed.at(0).seen == "grinding noise");
    CHECK(read.oddities.empty());
    CHECK(read.blanks.empty());
}

TEST_CASE("a file that says nothing is refused", "[visit]")
{
    std::string const said =
        "visit.yaml:1:1: error: the file says nothing\n"
        "  three lines are enough: 'loops:', '  spa loop:', '    pump: {noticed: [grinding noise]}'\n";
    CHECK(must_refuse("") == said);
    CHECK(must_refuse("# a sheet with nothing filled in\n").find("the file says nothing") != std::string::npos);
    CHECK(must_refuse("~").find("visit is a group of fields, but nothing stands here") != std::string::npos);
    CHECK(must_refuse("grinding noise").find("visit is a group of fields, but a single value stands here") !=
          std::string::npos);
    CHECK(must_refuse("- a").find("visit is a group of fields, but a list stands here") != std::string::npos);
}

TEST_CASE("readings carry the doubt of their instruments, of the kit, or their own", "[visit][doubt]")
{
    auto const read = must_read("waters:\n"
                                "  spa:\n"
                                "    temperature: 104 degF\n"
                                "    tests:\n"
                                "      - {ph: 7.5, free_chlorine: 3 ppm, alkalinity: 90 ppm}\n"
                                "      - {kit: Strip, ph: 7.5, free_chlorine: 3 ppm, alkalinity: 90 ± 10 ppm}\n"
                                "      - {kit: meter, ph: 7.5, free_chlorine: 30 ppm}\n"
                                "loops:\n"
                                "  spa loop:\n"
                                "    flow: 45 gpm ± 4 gpm\n"
                                "    filter: {gauge: 18 psi, clean_gauge: 100 psi}\n");
    auto const& spa = read.visit.waters.at(0).second;
    constexpr double ppm = 1e-3;
    auto doubt = [](auto const& taken) { return units::in_si(taken->doubt); };
    CHECK_THAT(doubt(spa.temperature), WithinRel(1 / 1.8, 1e-9)); // thermometer: 1 degF
    CHECK(spa.temperature->method == "thermometer");
    CHECK_THAT(doubt(spa.tests[0].ph), WithinRel(0.1, 1e-9));
    CHECK_THAT(doubt(spa.tests[0].free_chlorine), WithinRel(0.12 * ppm, 1e-9)); // 4 % of 3 ppm is more than 0.1 ppm
    CHECK_THAT(doubt(spa.tests[0].alkalinity), WithinRel(5 * ppm, 1e-9));       // 5 ppm is more than 5 % of 90 ppm
    CHECK_THAT(doubt(spa.tests[1].ph), WithinRel(0.25, 1e-9));
    CHECK_THAT(doubt(spa.tests[1].free_chlorine), WithinRel(0.75 * ppm, 1e-9)); // 25 % of 3 ppm is more than 0.6 ppm
    CHECK_THAT(doubt(spa.tests[1].alkalinity), WithinRel(5 * ppm, 1e-9));       // its own: half of 10 ppm
    CHECK(spa.tests[1].alkalinity->method == "written");
    CHECK_THAT(doubt(spa.tests[2].ph), WithinRel(0.08, 1e-9));
    CHECK_THAT(doubt(spa.tests[2].free_chlorine), WithinRel(1.2 * ppm, 1e-9)); // no such row: the default one
    auto const& loop = read.visit.loops.at(0).second;
    constexpr double psi = 6894.757293168361;
    CHECK_THAT(doubt(loop.flow), WithinRel(2 * 231 * 0.0254 * 0.0254 * 0.0254 / 60, 1e-9));
    CHECK_THAT(doubt(loop.filter->gauge), WithinRel(psi, 1e-9));
    CHECK_THAT(doubt(loop.filter->clean_gauge), WithinRel(2 * psi, 1e-9));
}

TEST_CASE("every problem of a messy file comes in one go, each at its place", "[visit][messages]")
{
    std::string const text = "by: inspecter\n"
                             "on: 2026-02-30\n"
                             "altitude: 1200\n"
                             "wether: warm\n"
                             "waters:\n"
                             "  spa:\n"
                             "    volume: 450 gpm\n"
                             "    tests:\n"
                             "      - ph: 15\n"
                             "        free_chlorine: 3 ppm as NaCl\n"
                             "loops:\n"
                             "  spa loop:\n"
                             "    serves: [spa, pol]\n"
                             "    filter:\n"
                             "      gauge: 900 psi\n"
                             "    flow: 45 gpm\n"
                             "    flow: 46 gpm\n"
                             "    noticed: grinding noise\n"
                             "heaters:\n"
                             "  gas heater:\n"
                             "    loop: spa lop\n"
                             "    inlet_temperature: -300 degF\n"
                             "    flue: {oxygen: '6'}\n"
                             "not_tested:\n"
                             "  - what: heater firing\n";
    CHECK(must_refuse(text) ==
          "visit.yaml:1:5: error: 'inspecter' is not a by I know\n"
          "    1 | by: inspecter\n"
          "      |     ^^^^^^^^^\n"
          "  did you mean 'inspector'? (inspector, technician, owner)\n"
          "visit.yaml:2:5: error: '2026-02-30' is not a date; on wants year-month-day, with a time if you like\n"
          "    2 | on: 2026-02-30\n"
          "      |     ^^^^^^^^^^\n"
          "  write it like '2026-05-14' or '2026-05-14 10:30'\n"
          "visit.yaml:3:11: error: '1200' has no unit; altitude is a length\n"
          "    3 | altitude: 1200\n"
          "      |           ^^^^\n"
          "  write it like '1 ft 6 in' (in, ft, mm, cm, m)\n"
          "visit.yaml:4:1: error: unknown key 'wether' under visit\n"
          "    4 | wether: warm\n"
          "      | ^^^^^^\n"
          "  did you mean 'weather'?\n"
          "visit.yaml:7:13: error: '450 gpm' is a flow; volume wants a volume, such as 18500 gal\n"
          "    7 |     volume: 450 gpm\n"
          "      |             ^^^^^^^\n"
          "  write it like '18500 gal'\n"
          "visit.yaml:9:13: error: ph of '15' can't be\n"
          "    9 |       - ph: 15\n"
          "      |             ^^\n"
          "  between 0 and 14 is possible; check the number and its unit\n"
          "visit.yaml:10:30: error: free_chlorine is read as Cl2, not 'as NaCl'\n"
          "   10 |         free_chlorine: 3 ppm as NaCl\n"
          "      |                              ^^^^^^^\n"
          "  convert it first; '3 ppm' means as Cl2 here\n"
          "visit.yaml:13:19: error: there is no water called 'pol'\n"
          "   13 |     serves: [spa, pol]\n"
          "      |                   ^^^\n"
          "  this visit has: spa\n"
          "visit.yaml:15:14: error: gauge of '900 psi' can't be\n"
          "   15 |       gauge: 900 psi\n"
          "      |              ^^^^^^^\n"
          "  between -15 psi and 150 psi is possible; check the number and its unit\n"
          "visit.yaml:17:5: error: 'flow' stands twice under loop, first in line 16\n"
          "   17 |     flow: 46 gpm\n"
          "      |     ^^^^\n"
          "  keep one of them\n"
          "visit.yaml:21:11: error: there is no loop called 'spa lop'\n"
          "   21 |     loop: spa lop\n"
          "      |           ^^^^^^^\n"
          "  did you mean 'spa loop'?\n"
          "visit.yaml:22:24: error: inlet_temperature of '-300 degF' can't be\n"
          "   22 |     inlet_temperature: -300 degF\n"
          "      |                        ^^^^^^^^^\n"
          "  between 32 °F and 200 °F is possible; check the number and its unit\n"
          "visit.yaml:23:21: error: '6' is more than the whole; oxygen is a share\n"
          "   23 |     flue: {oxygen: '6'}\n"
          "      |                     ^\n"
          "  write '6 %', or a decimal from 0 to 1\n"
          "visit.yaml:25:5: error: not_tested has no 'because': why not\n"
          "   25 |   - what: heater firing\n"
          "      |     ^\n"
          "  add 'because: gas was shut off at the meter'\n");
}

TEST_CASE("names that stand for another item must be one, however the group is spelled", "[visit][references]")
{
    CHECK(must_read("waters: {pool: , spa: }\nloops:\n  l: {serves: [pool, spa]}\nheaters:\n  h: {loop: "
                    "l}\nfill_valves:\n  f: {fills: spa}\n")
              .visit.fill_valves[0]
              .second.fills == "spa");
    CHECK(must_refuse("waters: {pool: }\nfill valves:\n  f: {fills: spa}\n") ==
          "visit.yaml:3:14: error: there is no water called 'spa'\n"
          "    3 |   f: {fills: spa}\n"
          "      |              ^^^\n"
          "  this visit has: pool\n");
    CHECK(must_refuse("heaters:\n  h: {loop: l}\n").find("there is no loop called 'l'") != std::string::npos);
    CHECK(must_refuse("heaters:\n  h: {loop: l}\n").find("add it under loops") != std::string::npos);
}

TEST_CASE("impossible values are refused, unusual ones told and blanks counted", "[visit][range]")
{
    auto test_of = [](std::string const& reading) { return "waters: {spa: {tests: [{" + reading + "}]}}\n"; };
    CHECK(must_refuse(test_of("ph: 15")).find("ph of '15' can't be") != std::string::npos);
    CHECK(must_refuse(test_of("ph: -1")).find("ph of '-1' can't be") != std::string::npos);
    CHECK(must_refuse(test_of("temperature: -300 degF")).find("temperature of '-300 degF' can't be") !=
          std::string::npos);
    CHECK(must_refuse(test_of("temperature: -500 degF")).find("'-500 degF' is below absolute zero") !=
          std::string::npos);
    CHECK(must_refuse("humidity: 120 %\n").find("humidity of '120 %' can't be") != std::string::npos);
    auto const read = must_read("waters: {spa: {temperature: 110 degF, tests: [{ph: 6.0, alkalinity: }]}}\nnotes:\n");
    REQUIRE(read.oddities.size() == 2);
    CHECK(read.oddities[0].message == "temperature of 110 degF is unusual");
    CHECK(read.oddities[1].message == "ph of 6.0 is unusual");
    CHECK(read.blanks == std::vector<std::string>{"waters/spa/tests/1/alkalinity", "notes"});
}

TEST_CASE("the declarations fit together", "[visit][declarations]")
{
    auto const fields = all_fields();
    CHECK(fields.size() > 150);
    for (auto const& [path, field] : fields)
    {
        INFO(path);
        CHECK_FALSE(field->meaning.empty());
        CHECK(field->low.has_value() == field->high.has_value());
        CHECK(field->usual_low.has_value() == field->usual_high.has_value());
        if (field->low)
            CHECK(*field->low < *field->high);
        if (field->usual_low)
        {
            CHECK(*field->usual_low < *field->usual_high);
            REQUIRE(field->low.has_value());
            double const slack = 1e-9 * std::abs(*field->high);
            CHECK(*field->usual_low >= *field->low - slack);
            CHECK(*field->usual_high <= *field->high + slack);
        }
        if (field->form == FieldShape::Form::quantity)
        {
            CHECK(field->low.has_value()); // every reading has a range that can't be left
            auto const example = units::read_quantity(field->sample(), *field->measure, field->name);
            REQUIRE(std::holds_alternative<units::Reading>(example));
            double const value = std::get<units::Reading>(example).value;
            if (field->low)
                CHECK((value >= *field->low && value <= *field->high));
            if (field->usual_low)
                CHECK((value >= *field->usual_low && value <= *field->usual_high));
            if (!field->instrument.empty()) // the row is there, and its doubt is of this measure
                CHECK(instruments()({*field->measure, value, 0, {}, false}, field->instrument, fields::Node::map())
                          .doubt >= 0);
        }
    }
}
