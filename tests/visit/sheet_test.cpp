#include "catch_compat.hpp"

#include "padwalk/visit/sheet.hpp"
#include "padwalk/visit/visit.hpp"

#include <algorithm>
#include <regex>
#include <sstream>

using namespace padwalk;

namespace
{

std::vector<std::string> lines_of(std::string const& text)
{
    std::vector<std::string> out;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);)
        out.push_back(line);
    return out;
}

std::size_t code_points(std::string const& text)
{
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::size_t count(std::string const& text, std::string const& what)
{
    std::size_t found = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1))
        ++found;
    return found;
}

// Every field of the declarations that hangs below a record, by name, records entered once.
void collect(fields::RecordShape const& shape, std::vector<fields::RecordShape const*>& met,
             std::vector<std::string>& names)
{
    if (std::find(met.begin(), met.end(), &shape) != met.end())
        return;
    met.push_back(&shape);
    for (auto const& field : shape.fields)
    {
        if (field.name != shape.short_form) // shown without its name
            names.push_back(field.name);
        if (field.inner != nullptr)
            collect(*field.inner(), met, names);
    }
}

} // namespace

TEST_CASE("a sheet as printed is a visit in which nothing was said", "[visit][sheet]")
{
    auto parts = visit::sheet_parts();
    for (auto const& part : parts)
    {
        INFO("part " << part);
        auto const sheet = visit::field_sheet({part});
        auto const read = visit::read_visit(sheet, {});
        CHECK(read.oddities.empty());
        CHECK(read.blanks.size() > 10);
        CHECK(read.visit.noticed.empty());
        CHECK_FALSE(read.visit.by.has_value());
    }
    CHECK_NOTHROW(visit::read_visit(visit::field_sheet(parts), {}));
    CHECK_NOTHROW(visit::read_visit(visit::field_sheet({}), {}));
}

TEST_CASE("each part of a sheet begins its items", "[visit][sheet]")
{
    auto read = [](std::vector<std::string> const& parts)
    { return visit::read_visit(visit::field_sheet(parts), {}).visit; };
    auto const both = read({"pool", "spa", "pump", "heat_pump"});
    REQUIRE(both.waters.size() == 2);
    CHECK(both.waters[0].second.kind == visit::WaterKind::pool);
    CHECK(both.waters[1].second.kind == visit::WaterKind::spa);
    REQUIRE(both.loops.size() == 1);
    CHECK(both.loops[0].second.serves == std::vector<std::string>{"pool", "spa"});
    CHECK(both.loops[0].second.pump.has_value());
    CHECK_FALSE(both.loops[0].second.filter.has_value());
    REQUIRE(both.heaters.size() == 1);
    CHECK(both.heaters[0].second.energy == visit::EnergyKind::heat_pump);
    CHECK(both.heaters[0].second.loop == "main loop");
    CHECK_FALSE(both.heaters[0].second.flue.has_value());

    auto const alone = read({"vent"});
    REQUIRE(alone.heaters.size() == 1);
    CHECK(alone.heaters[0].second.vent.has_value());
    CHECK_FALSE(alone.heaters[0].second.energy.has_value()); // natural gas or propane: not ours to say
    CHECK(read({"level"}).waters.at(0).second.bucket_test.has_value());
    CHECK(read({"water_test"}).waters.at(0).second.tests.size() == 1);
    CHECK(read({"electrical"}).electrical.has_value());
    CHECK(read({"drain"}).loops.at(0).second.drains.size() == 1);
    CHECK(read({"fill_valve"}).fill_valves.size() == 1);
    CHECK(read({"shell"}).waters.at(0).second.shell.has_value());
    CHECK(read({"deck"}).waters.at(0).second.deck.has_value());
    CHECK(read({"filter"}).loops.at(0).second.filter.has_value());
}

TEST_CASE("every declared field is on the whole sheet, beside its meaning", "[visit][sheet]")
{
    std::vector<fields::RecordShape const*> met;
    std::vector<std::string> names;
    collect(visit::Visit::declaration().shape(), met, names);
    auto const sheet = visit::field_sheet({});
    for (auto const& name : names)
    {
        INFO("field " << name);
        CHECK(sheet.find(name + ":") != std::string::npos);
    }
    CHECK(count(sheet, "filter gauge, pump running; e.g. 18 psi") == 1);
    CHECK(sheet.find("  waters:") == std::string::npos);
    CHECK(sheet.find("waters:") < sheet.find("loops:"));
    CHECK(sheet.find("loops:") < sheet.find("heaters:"));
}

TEST_CASE("lines of a sheet are short enough to print", "[visit][sheet]")
{
    for (auto const& line : lines_of(visit::field_sheet(visit::sheet_parts())))
    {
        INFO(line);
        CHECK(code_points(line) <= 100);
        CHECK((line.empty() || line.back() != ' '));
    }
}

TEST_CASE("the commented examples of a sheet can be used as they are", "[visit][sheet]")
{
    std::string const sheet = visit::field_sheet({"pool", "pump", "shell", "level"});
    std::string const used = std::regex_replace(sheet, std::regex("(\n *)# (- |your name for it: )"), "$1$2");
    REQUIRE(used != sheet);
    auto const read = visit::read_visit(used, {});
    auto const& shell = *read.visit.waters.at(0).second.shell;
    REQUIRE(shell.noticed.size() == 2);
    CHECK(shell.noticed[0].seen == "grinding noise");
    CHECK(shell.noticed[1].not_seen == "bubbles at the returns");
    CHECK(shell.not_tested.size() == 1);
    REQUIRE(shell.cracks.size() == 1);
    CHECK(shell.cracks[0].width.has_value());
    CHECK(read.visit.loops.at(0).second.valves.size() == 1);
    REQUIRE(read.visit.waters.at(0).second.level_history.size() == 1);
    CHECK(read.visit.waters.at(0).second.level_history[0].drop.has_value());
}

TEST_CASE("what can hurt is said at the top of the sheet it concerns", "[visit][sheet]")
{
    CHECK(visit::field_sheet({"gas_heater"}).find("carbon monoxide alarm: everybody out") != std::string::npos);
    CHECK(visit::field_sheet({"deck"}).find("carbon monoxide alarm") == std::string::npos);
    CHECK(visit::field_sheet({"drain"}).find("drain cover that is broken") != std::string::npos);
    CHECK(visit::field_sheet({"pump"}).find("A tingle from water or metal") != std::string::npos);
    for (auto const& part : visit::sheet_parts())
        CHECK(visit::field_sheet({part}).find("open, adjust, reset and") != std::string::npos);
}

TEST_CASE("an unknown part is refused with those there are", "[visit][sheet]")
{
    std::string said;
    try
    {
        (void)visit::field_sheet({"pump", "sauna"});
    }
    catch (std::invalid_argument const& e)
    {
        said = e.what();
    }
    CHECK(said.find("'sauna' is not a part of a sheet; there are: pool, spa,") == 0);
    CHECK(said.find("electrical") != std::string::npos);
}
