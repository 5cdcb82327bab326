#include "sheet_parts.hpp"

#include "padwalk/visit/sheet.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace padwalk::visit
{
namespace
{

constexpr std::array<std::string_view, 16> all_parts{
    "pool",  "spa",    "water_test", "level",           "shell",     "deck", "pump",       "filter",
    "drain", "heater", "gas_heater", "electric_heater", "heat_pump", "vent", "fill_valve", "electrical"};

/// A field that is on the sheet only where one of these parts is; all other fields of a record that is there are.
struct Gate
{
    std::string_view record, field;
    std::vector<std::string_view> parts;
};

std::vector<Gate> const& gates()
{
    static std::vector<Gate> const list{
        {"visit", "waters", {"pool", "spa", "water_test", "level", "shell", "deck"}},
        {"visit", "loops", {"pump", "filter", "drain"}},
        {"visit", "heaters", {"heater", "gas_heater", "electric_heater", "heat_pump", "vent"}},
        {"visit", "fill_valves", {"fill_valve"}},
        {"visit", "electrical", {"electrical"}},
        {"water", "tests", {"water_test"}},
        {"water", "bucket_test", {"level"}},
        {"water", "level_history", {"level"}},
        {"water", "shell", {"shell"}},
        {"water", "deck", {"deck"}},
        {"loop", "pump", {"pump"}},
        {"loop", "filter", {"filter"}},
        {"loop", "drains", {"drain"}},
        {"heater", "meter", {"heater", "gas_heater"}},
        {"heater", "flue", {"heater", "gas_heater"}},
        {"heater", "carbon_monoxide_in_air", {"heater", "gas_heater", "vent"}},
        {"heater", "carbon_monoxide_at", {"heater", "gas_heater", "vent"}},
        {"heater", "vent", {"vent"}},
        {"heater", "room", {"vent"}},
    };
    return list;
}

Parts without(Parts parts, std::initializer_list<char const*> names)
{
    for (auto const* name : names)
        parts.erase(name);
    return parts;
}

std::vector<Start> heaters(Parts const& parts)
{
    std::vector<Start> out;
    std::vector<std::pair<std::string, std::string>> loop;
    if (parts.contains("pump") || parts.contains("filter") || parts.contains("drain"))
        loop = {{"loop", "main loop"}};
    Parts const electric = without(parts, {"heater", "gas_heater", "vent"});
    auto begin = [&](std::string name, Parts of, std::string energy)
    {
        auto known = loop;
        if (!energy.empty())
            known.emplace_back("energy", std::move(energy));
        out.push_back({std::move(name), std::move(known), std::move(of)});
    };
    if (parts.contains("heater"))
        begin("heater", parts, "");
    if (parts.contains("gas_heater") || (parts.contains("vent") && !parts.contains("heater")))
        begin("gas heater", parts, "");
    if (parts.contains("electric_heater"))
        begin("electric heater", electric, "electric_element");
    if (parts.contains("heat_pump"))
        begin("heat pump", electric, "heat_pump");
    return out;
}

} // namespace

std::vector<Start> starts(std::string_view group, Parts const& parts)
{
    std::vector<Start> waters;
    if (parts.contains("pool") || !parts.contains("spa"))
        waters.push_back({"pool", {{"kind", "pool"}}, parts});
    if (parts.contains("spa"))
        waters.push_back({"spa", {{"kind", "spa"}}, parts});
    std::string names;
    for (auto const& water : waters)
        names += (names.empty() ? "" : ", ") + water.name;
    bool const has_water = std::any_of(gates().front().parts.begin(), gates().front().parts.end(),
                                       [&](auto const& p) { return parts.contains(p); });
    if (group == "waters")
        return waters;
    if (group == "loops")
        return {{"main loop",
                 has_water ? std::vector<std::pair<std::string, std::string>>{{"serves", "[" + names + "]"}}
                           : decltype(Start::known){},
                 parts}};
    if (group == "drains")
        return {{"main drain", {}, parts}};
    if (group == "heaters")
        return heaters(parts);
    if (group == "fill_valves")
        return {{"fill valve", {}, parts}};
    return {};
}

bool is_gated(std::string_view field)
{
    return std::any_of(gates().begin(), gates().end(), [&](Gate const& g) { return g.field == field; });
}

bool is_wanted(std::string_view record, std::string_view field, Parts const& parts)
{
    auto const gate = std::find_if(gates().begin(), gates().end(),
                                   [&](Gate const& g) { return g.record == record && g.field == field; });
    return gate == gates().end() ||
           std::any_of(gate->parts.begin(), gate->parts.end(), [&](auto const& p) { return parts.contains(p); });
}

Parts chosen_parts(std::vector<std::string> const& parts)
{
    Parts chosen(parts.begin(), parts.end());
    std::string known;
    for (auto const& part : all_parts)
        known += (known.empty() ? "" : ", ") + std::string(part);
    for (auto const& part : chosen)
        if (std::find(all_parts.begin(), all_parts.end(), part) == all_parts.end())
            throw std::invalid_argument("'" + part + "' is not a part of a sheet; there are: " + known);
    return chosen.empty() ? without({all_parts.begin(), all_parts.end()}, {"heater"}) : chosen;
}

std::vector<std::string> sheet_parts()
{
    return {all_parts.begin(), all_parts.end()};
}

} // namespace padwalk::visit
