#include "catch_compat.hpp"

#include "padwalk/visit/sheet.hpp"
#include "padwalk/visit/sheet_form.hpp"

#include <algorithm>
#include <map>
#include <set>

using namespace padwalk;
using fields::FieldShape;
using fields::RecordShape;
using visit::Answer;

namespace
{

reference::Data const& data()
{
    static auto const built_in = reference::Data::built_in();
    return built_in;
}

using RecordField = std::pair<std::string, std::string>;

// Every field of the visit that holds no further records, as (record, field).
void collect(RecordShape const& shape, std::set<RecordField>& out, std::set<RecordShape const*>& met)
{
    if (!met.insert(&shape).second)
        return;
    for (auto const& field : shape.fields)
        if (field.inner != nullptr)
            collect(*field.inner(), out, met);
        else
            out.emplace(shape.name, field.name);
}

RecordShape const& root_of(std::string const& group)
{
    static std::map<std::string, RecordShape const*> const roots{
        {"visit", &visit::Visit::declaration().shape()},   {"anything_else", &visit::Visit::declaration().shape()},
        {"loop", &visit::Loop::declaration().shape()},     {"pump", &visit::Pump::declaration().shape()},
        {"filter", &visit::Filter::declaration().shape()}, {"drain", &visit::Drain::declaration().shape()},
        {"heater", &visit::Heater::declaration().shape()}, {"vent", &visit::Vent::declaration().shape()},
        {"room", &visit::Room::declaration().shape()},     {"electrical", &visit::Electrical::declaration().shape()},
        {"water", &visit::Water::declaration().shape()},   {"water_test", &visit::Water::declaration().shape()},
        {"level", &visit::Water::declaration().shape()},   {"fill_valve", &visit::FillValve::declaration().shape()},
        {"shell", &visit::Shell::declaration().shape()},   {"deck", &visit::Deck::declaration().shape()}};
    return *roots.at(group);
}

// The record and the field at a way such as 'motor/voltage'; throws where there is none.
std::pair<RecordShape const*, FieldShape const*> resolved(RecordShape const& root, std::string way)
{
    RecordShape const* record = &root;
    for (std::size_t slash = way.find('/'); slash != std::string::npos; slash = way.find('/'))
    {
        auto const* field = record->find(way.substr(0, slash));
        if (field == nullptr || field->inner == nullptr)
            throw std::out_of_range(way);
        record = field->inner();
        way = way.substr(slash + 1);
    }
    auto const* field = record->find(way);
    if (field == nullptr)
        throw std::out_of_range(way);
    return {record, field};
}

std::set<RecordField> on_paper()
{
    std::set<RecordField> out;
    for (auto const& group : data().file("visit/field_sheet.yaml").at("groups").items)
        for (auto const& row : group.at("rows").items)
        {
            INFO(group.at("of").text << ": " << row.at("field").text);
            auto const [record, field] = resolved(root_of(group.at("of").text), row.at("field").text);
            if (auto const* columns = row.find("columns"))
                for (auto const& column : columns->items)
                {
                    REQUIRE(field->inner != nullptr);
                    REQUIRE(field->inner()->find(column.at("field").text) != nullptr);
                    out.emplace(field->inner()->name, column.at("field").text);
                }
            else
                out.emplace(record->name, field->name);
        }
    return out;
}

visit::Visit visit_of(std::string const& text)
{
    return visit::read_visit(text, {}).visit;
}

visit::SheetGroup const& group(visit::SheetForm const& form, std::string const& kind, std::string const& name = {})
{
    for (auto const& one : form.groups)
        if (one.kind == kind && (name.empty() || one.name == name))
            return one;
    throw std::out_of_range("no " + kind + " " + name);
}

visit::SheetRow const* find_row(visit::SheetGroup const& group, std::string const& label)
{
    for (auto const& row : group.rows)
        if (row.label == label)
            return &row;
    return nullptr;
}

visit::SheetRow const& row(visit::SheetGroup const& group, std::string const& label)
{
    auto const* found = find_row(group, label);
    if (found == nullptr)
        throw std::out_of_range(group.kind + " has no row '" + label + "'");
    return *found;
}

std::vector<std::string> kinds(visit::SheetForm const& form)
{
    std::vector<std::string> out;
    for (auto const& one : form.groups)
        out.push_back(one.kind);
    return out;
}

bool has(visit::SheetForm const& form, std::string const& kind)
{
    return std::any_of(form.groups.begin(), form.groups.end(), [&](auto const& one) { return one.kind == kind; });
}

char const* const house = R"(
by: inspector
on: 2026-05-14
property: blue house
waters:
  spa:
    kind: spa
    shape: round
    diameter: 7 ft
    tests:
      - {on: 2026-05-01, kit: drops, ph: 7.6, free_chlorine: 3 ppm}
    level_history:
      - {at: 2026-05-12 08:00, drop: 0 in}
      - {at: 2026-05-13 08:00, drop: 1/4 in, pump: off}
loops:
  spa loop:
    serves: [spa]
    suction_gauge: -6 inHg
    pump: {rated_power: 1.5 hp, variable_speed: yes, runs: no, motor: {nameplate_voltage: 230 V}}
    drains: {north drain: {expires: 2029-06-30}}
    valves: {return valve: {position: part open}}
heaters:
  little heater: {loop: spa loop, energy: heat pump, cop: 5.5}
)";

} // namespace

TEST_CASE("every field that the paper names is declared, every other one is left to the desk with a reason",
          "[visit][sheet]")
{
    std::set<RecordField> all;
    std::set<RecordShape const*> met;
    collect(visit::Visit::declaration().shape(), all, met);
    REQUIRE(all.size() > 150);
    auto const paper = on_paper();
    std::set<RecordField> desk;
    for (auto const& row : data().file("visit/field_sheet.yaml").at("not_on_paper").items)
    {
        CHECK_FALSE(row.at("because").text.empty());
        std::string const of = row.at("of").text;
        for (auto const& field : row.at("fields").items)
        {
            INFO(of << "/" << field.text);
            std::size_t found = 0;
            for (auto const& one : all)
                if (one.second == field.text && (of == "any" || one.first == of))
                {
                    desk.insert(one);
                    ++found;
                }
            CHECK((found > 0 || (of == "any" && field.text == "found")));
            if (of != "any")
                CHECK(paper.count({of, field.text}) == 0);
        }
    }
    for (auto const& one : all)
    {
        INFO(one.first << "/" << one.second);
        CHECK(paper.count(one) + desk.count(one) > 0);
    }
}

TEST_CASE("what a row hangs on is a choice of the same item, and each of its words is one", "[visit][sheet]")
{
    std::size_t seen = 0;
    for (auto const& group : data().file("visit/field_sheet.yaml").at("groups").items)
        for (auto const& row : group.at("rows").items)
            if (auto const* on = row.find("if"))
            {
                auto const* field = resolved(root_of(group.at("of").text), on->text).second;
                for (auto const& word : row.at("is").items)
                {
                    INFO(group.at("of").text << ": " << on->text << " " << word.text);
                    CHECK(std::count(field->words.begin(), field->words.end(), word.text) == 1);
                    ++seen;
                }
            }
    CHECK(seen > 20);
    for (auto const& one : data().file("visit/field_sheet.yaml").at("say").items)
        CHECK_FALSE(one.at("say").text.empty());
}

TEST_CASE("the sheet goes the way of the walk: pad, water and level, the rest", "[visit][sheet]")
{
    auto const form = visit::sheet_form(data(), visit_of(house), {}, units::System::us);
    CHECK(form.property == "blue house");
    CHECK(form.on == "2026-05-14");
    CHECK(kinds(form) == std::vector<std::string>{"this visit", "circulation", "pump", "filter", "heater",
                                                  "electrical protection", "water", "water test", "level",
                                                  "drain cover", "shell", "deck and coping", "anything else"});
    std::vector<std::string> sections;
    for (auto const& one : form.groups)
        if (sections.empty() || sections.back() != one.section)
            sections.push_back(one.section);
    CHECK(sections == std::vector<std::string>{"The day", "At the pad", "The water and its level", "The rest"});
    CHECK(group(form, "drain cover").name == "north drain, spa loop");
    CHECK(group(form, "pump").name == "spa loop");
}

TEST_CASE("what a visit knows and stays stands in its box's place, what is read anew beside its box", "[visit][sheet]")
{
    auto const form = visit::sheet_form(data(), visit_of(house), {}, units::System::us);
    auto const& pump = group(form, "pump");
    CHECK(row(pump, "variable speed").known == "yes");
    CHECK(row(pump, "plate voltage as wired").known == "230 V");
    CHECK(row(pump, "runs").known.empty());
    CHECK(row(pump, "runs").before == "no");
    CHECK(row(pump, "speed now").before.empty());
    auto const& loop = group(form, "circulation");
    CHECK(row(loop, "serves").known == "spa");
    CHECK(row(loop, "gauge at the pump's inlet (vacuum with a minus)").before == "-6 inHg");
    CHECK(row(group(form, "drain cover"), "last day stamped on it").known == "2029-06-30");
    CHECK(row(group(form, "heater"), "heats with").known == "heat pump");

    auto const& marks = row(group(form, "level"),
                            "fall below the first mark, always from that one; later columns since the mark before");
    REQUIRE(marks.filled.size() == 2);
    CHECK(marks.filled[1].at(0) == "2026-05-13 08:00");
    CHECK(marks.filled[1].at(1) == "0.25"); // the unit stands in the head
    CHECK(marks.filled[1].at(2) == "off");
    CHECK(marks.filled[1].at(3).empty());
    CHECK(marks.lines == 6);
    auto const& valves = row(loop, "valves as they were found");
    REQUIRE(valves.filled.size() == 1);
    CHECK(valves.filled[0] == std::vector<std::string>{"return valve", "part open", ""});
    CHECK(valves.lines == 2);
}

TEST_CASE("what can't be at an item is not asked of it", "[visit][sheet]")
{
    auto const heats = [](std::string const& energy)
    {
        auto const form = visit::sheet_form(data(), visit_of("heaters:\n  warm one: {age: 3 years" + energy + "}\n"),
                                            {}, units::System::us);
        return group(form, "heater");
    };
    for (auto const* gas : {", energy: natural_gas", ", energy: propane", ""})
    {
        INFO("energy" << gas);
        CHECK(find_row(heats(gas), "flue: oxygen (licensed only)") != nullptr);
        CHECK(find_row(heats(gas), "air into its coil, in the shade") == nullptr);
    }
    CHECK(find_row(heats(", energy: heat_pump"), "air into its coil, in the shade") != nullptr);
    CHECK(find_row(heats(", energy: heat_pump"), "flue: oxygen (licensed only)") == nullptr);
    CHECK(find_row(heats(", energy: electric_element"), "air into its coil, in the shade") == nullptr);

    auto const any = visit::sheet_form(data(), {"heater"}, units::System::us);
    CHECK(find_row(group(any, "heater"), "air into its coil, in the shade") != nullptr);
    CHECK(find_row(group(any, "heater"), "flue: oxygen (licensed only)") != nullptr);

    auto const electric = visit::sheet_form(data(), {"electric_heater", "heat_pump", "vent"}, units::System::us);
    std::size_t vents = 0;
    for (auto const& one : electric.groups)
        vents += one.kind == "vent" ? 1U : 0U;
    CHECK(vents == 1); // of the gas heater that a vent belongs to
}

TEST_CASE("units are printed in the system chosen, by the size of what is measured", "[visit][sheet]")
{
    auto const unit = [](units::System system, char const* kind, char const* label)
    { return row(group(visit::sheet_form(data(), {}, system), kind), label).unit; };
    using units::System;
    CHECK(unit(System::us, "water", "length") == "ft");
    CHECK(unit(System::si, "water", "length") == "m");
    CHECK(unit(System::us, "water", "volume, if known") == "US gal");
    CHECK(unit(System::si, "water", "volume, if known") == "m³");
    CHECK(unit(System::us, "filter", "gauge, pump running") == "psi");
    CHECK(unit(System::si, "filter", "gauge, pump running") == "kPa");
    CHECK(unit(System::us, "circulation", "gauge at the pump's inlet (vacuum with a minus)") == "inHg");
    CHECK(unit(System::us, "heater", "water in while it heats") == "°F");
    CHECK(unit(System::si, "heater", "water in while it heats") == "°C");
    CHECK(unit(System::us, "this visit", "wind at the water") == "mph");
    CHECK(unit(System::si, "fill valve", "flow when it should be shut") == "L/min"); // its example is 0 gpm
    CHECK(unit(System::si, "fill valve", "watched: came in") == "L");
    CHECK(unit(System::us, "pump", "power on the plate") == "hp");
    CHECK(unit(System::us, "circulation", "skimmers that it draws from").empty());
    CHECK(row(group(visit::sheet_form(data(), {"pump"}, System::si), "pump"), "power on the plate").example ==
          "1.1 kW");

    auto const si = visit::sheet_form(data(), visit_of(house), {}, System::si);
    CHECK(row(group(si, "water"), "diameter, if round").known == "2.134 m");
}

TEST_CASE("a box has room for every number that is usual, with its sign", "[visit][sheet]")
{
    for (auto const system : {units::System::us, units::System::si})
        for (auto const& one : visit::sheet_form(data(), {}, system).groups)
            for (auto const& line : one.rows)
                if (line.answer == Answer::quantity)
                {
                    INFO(one.kind << ": " << line.label);
                    CHECK(line.characters >= 3);
                    CHECK(line.characters <= 9);
                }
    auto const pads = visit::sheet_form(data(), {}, units::System::us);
    CHECK(row(group(pads, "water"), "volume, if known").characters == 6);         // 80,000
    CHECK(row(group(pads, "filter"), "gauge, pump running").characters >= 3);     // 150
    CHECK(row(group(pads, "heater"), "water in while it heats").characters == 3); // 110
}

TEST_CASE("the sheet for parts has the groups of these parts and no more", "[visit][sheet]")
{
    auto const form = visit::sheet_form(data(), {"spa", "pump", "filter"}, units::System::us);
    CHECK(kinds(form) ==
          std::vector<std::string>{"this visit", "circulation", "pump", "filter", "water", "anything else"});
    CHECK(row(group(form, "water"), "what it is").known == "spa");
    for (auto const& part : visit::sheet_parts())
    {
        INFO(part);
        CHECK(visit::sheet_form(data(), {part}, units::System::us).groups.size() > 2);
    }
    CHECK_THROWS_AS(visit::sheet_form(data(), {"sauna"}, units::System::us), std::invalid_argument);
}

TEST_CASE("parts of a visit: only these of its items, and blank what it has not", "[visit][sheet]")
{
    auto const pump = visit::sheet_form(data(), visit_of(house), {"pump"}, units::System::us);
    CHECK(kinds(pump) == std::vector<std::string>{"this visit", "circulation", "pump", "anything else"});
    CHECK(group(pump, "pump").name == "spa loop");
    auto const gas = visit::sheet_form(data(), visit_of(house), {"gas_heater"}, units::System::us);
    CHECK_FALSE(has(gas, "heater")); // its heater is a heat pump
    auto const fill = visit::sheet_form(data(), visit_of(house), {"fill_valve"}, units::System::us);
    CHECK(row(group(fill, "fill valve"), "fills").known.empty());
    auto const pool = visit::sheet_form(data(), visit_of(house), {"pool"}, units::System::us);
    CHECK_FALSE(has(pool, "water"));
}

TEST_CASE("every item has its place for what was noticed, the day has not", "[visit][sheet]")
{
    for (auto const& one : visit::sheet_form(data(), {}, units::System::us).groups)
    {
        INFO(one.kind);
        CHECK(one.notes == (one.kind != "this visit"));
    }
}
