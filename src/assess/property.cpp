#include "property.hpp"

#include "name_words.hpp"

#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace padwalk::assess
{
namespace
{

bool says_spa(std::string const& name)
{
    constexpr std::array words{"spa", "tub", "hottub", "whirlpool"}; // 'hot tub' has its 'tub'
    return std::any_of(words.begin(), words.end(), [&](char const* word) { return says(name, word); });
}

// Judgement: salt systems want 2.5 to 4 g/L, and water that never had one seldom reaches half of that.
constexpr double salt_water_from = 1.5; // kg/m3
// From here up gas heaters are rated down [altitude-derate-trade-magazine], as data/heating/gas.yaml has it.
constexpr double high_altitude_from = 2000 * units::exact::foot; // m

Thing thing(std::string kind, std::string name, std::string path, visit::Item const* base)
{
    Thing t;
    t.entry.kind = std::move(kind);
    t.entry.name = std::move(name);
    t.entry.path = std::move(path);
    t.base = base;
    t.mentioned = base != nullptr;
    if (base != nullptr)
    {
        t.entry.where = base->where;
        t.entry.notes = base->notes;
        t.entry.photos = base->photos;
    }
    return t;
}

// Contexts of which exactly one holds: where none was said, each is possible.
constexpr std::array groups{
    std::array<std::string_view, 3>{"gas", "electric_element", "heat_pump"},
    std::array<std::string_view, 3>{"sand_filter", "cartridge_filter", "de_filter"},
    std::array<std::string_view, 3>{"in_pit", "in_room", "outdoors"},
    std::array<std::string_view, 3>{"plaster_shell", "vinyl_shell", "fiberglass_shell"},
    std::array<std::string_view, 3>{"float_valve", "level_sensor", "by_hand"},
    std::array<std::string_view, 3>{"above_water_level", "below_water_level", ""},
    std::array<std::string_view, 3>{"spa", "pool", ""},
};

void merge(std::set<std::string>& to, std::set<std::string> const& from)
{
    to.insert(from.begin(), from.end());
}

} // namespace

Property::Property(visit::Visit const& visit, std::vector<Assumption>& assumptions)
{
    Thing whole = thing("property", visit.property.empty() ? "the property" : visit.property, "", nullptr);
    whole.mentioned = true;
    whole.property_wide = true;
    whole.entry.notes = visit.notes;
    whole.entry.photos = visit.photos;
    add(std::move(whole));
    add_waters(visit, assumptions);
    add_loops(visit, assumptions);
    add_heaters(visit, assumptions);
    add_fill_valves(visit, assumptions);
    Thing electrical =
        thing("electrical", "electrical protection", "electrical", visit.electrical ? &*visit.electrical : nullptr);
    electrical.property_wide = true;
    add(std::move(electrical));
    add_contexts(visit);
}

std::size_t Property::add(Thing t)
{
    things_.push_back(std::move(t));
    return things_.size() - 1;
}

std::vector<std::size_t> Property::all(std::string_view kind) const
{
    std::vector<std::size_t> out;
    for (std::size_t i = 0; i < things_.size(); ++i)
        if (things_[i].entry.kind == kind)
            out.push_back(i);
    return out;
}

std::optional<std::size_t> Property::named(std::string_view kind, std::string const& name) const
{
    for (std::size_t const i : all(kind))
        if (things_[i].entry.name == name)
            return i;
    return std::nullopt;
}

void Property::add_waters(visit::Visit const& visit, std::vector<Assumption>& assumptions)
{
    for (auto const& entry : visit.waters)
    {
        std::string const& name = entry.first;
        visit::Water const& water = entry.second;
        Thing t = thing("water", name, "waters/" + name, &water);
        t.water = &water;
        t.water_side = true;
        bool const spa = water.kind ? *water.kind == visit::WaterKind::spa : says_spa(name);
        if (!water.kind)
            assumptions.push_back(
                {name + " is a " + (spa ? "spa" : "pool"), "its kind was not said; its name suggests it"});
        t.holds.insert(spa ? "spa" : "pool");
        if (water.covered.value_or(false))
            t.holds.insert("covered");
        bool const salty =
            !water.tests.empty() && water.tests.back().salt && water.tests.back().salt->value.value() > salt_water_from;
        if (water.salt_system.value_or(false) || salty)
            t.holds.insert("salt_water");
        std::size_t const place = add(std::move(t));
        things_[place].waters = {place};
        auto part = [&](Thing p)
        {
            p.water_side = true;
            p.water = &water;
            p.waters = {place};
            p.holds.insert(things_[place].holds.begin(), things_[place].holds.end());
            add(std::move(p));
        };
        Thing shell =
            thing("shell", "shell of " + name, "waters/" + name + "/shell", water.shell ? &*water.shell : nullptr);
        shell.shell = water.shell ? &*water.shell : nullptr;
        if (water.shell && water.shell->surface)
        {
            using enum visit::Surface;
            if (*water.shell->surface == plaster)
                shell.holds.insert("plaster_shell");
            if (*water.shell->surface == vinyl)
                shell.holds.insert("vinyl_shell");
            if (*water.shell->surface == fiberglass)
                shell.holds.insert("fiberglass_shell");
        }
        if (water.shell && water.shell->plastered &&
            water.shell->plastered->value < units::of_si<units::Duration>(2 * 365.25 * units::exact::day))
            shell.holds.insert("recently_plastered");
        part(std::move(shell));
        part(thing("deck", "deck of " + name, "waters/" + name + "/deck", water.deck ? &*water.deck : nullptr));
    }
}

void Property::add_loops(visit::Visit const& visit, std::vector<Assumption>& assumptions)
{
    auto const waters = all("water");
    for (auto const& entry : visit.loops)
    {
        std::string const& name = entry.first;
        visit::Loop const& loop = entry.second;
        Thing t = thing("loop", name, "loops/" + name, &loop);
        t.loop = &loop;
        for (auto const& served : loop.serves)
            if (auto const place = named("water", served))
                t.waters.insert(*place);
        if (loop.serves.empty() && !waters.empty())
        {
            std::vector<std::size_t> by_name;
            for (std::size_t const w : waters)
                if (lowered(name).find(lowered(things_[w].entry.name)) != std::string::npos)
                    by_name.push_back(w);
            auto const& chosen = by_name.empty() ? waters : by_name;
            t.waters.insert(chosen.begin(), chosen.end());
            std::string said;
            for (std::size_t const w : chosen)
                said += (said.empty() ? "" : " and ") + things_[w].entry.name;
            if (waters.size() > 1 || visit.loops.size() > 1)
                assumptions.push_back({name + " serves " + said, by_name.empty()
                                                                     ? "'serves' was not given"
                                                                     : "'serves' was not given; its name suggests it"});
        }
        std::set<std::string> common;
        for (std::size_t const w : t.waters)
            merge(common, things_[w].holds);
        if (t.waters.empty())
            common.insert(says_spa(name) ? "spa" : "pool");
        if (loop.equipment)
            common.insert(*loop.equipment == visit::Stands::below_water ? "below_water_level" : "above_water_level");
        if (loop.pump && loop.pump->variable_speed.value_or(false))
            common.insert("variable_speed");
        if (loop.suction_outlets ? std::lround(loop.suction_outlets->value.value()) == 1 : loop.drains.size() == 1)
            common.insert("single_drain");
        merge(t.holds, common);
        std::size_t const place = add(std::move(t));
        things_[place].loops = {place};
        auto part = [&](Thing p)
        {
            p.loop = &loop;
            p.loops = {place};
            p.waters = things_[place].waters;
            merge(p.holds, common);
            add(std::move(p));
        };
        Thing pump = thing("pump", "pump of " + name, "loops/" + name + "/pump", loop.pump ? &*loop.pump : nullptr);
        pump.pump = loop.pump ? &*loop.pump : nullptr;
        part(std::move(pump));
        Thing filter =
            thing("filter", "filter of " + name, "loops/" + name + "/filter", loop.filter ? &*loop.filter : nullptr);
        filter.filter = loop.filter ? &*loop.filter : nullptr;
        if (loop.filter && loop.filter->media)
            filter.holds.insert(*loop.filter->media == visit::Media::sand ? "sand_filter"
                                : *loop.filter->media == visit::Media::de ? "de_filter"
                                                                          : "cartridge_filter");
        part(std::move(filter));
        for (auto const& [drain_name, drain] : loop.drains)
        {
            Thing d = thing("drain", drain_name + " of " + name, "loops/" + name + "/drains/" + drain_name, &drain);
            d.drain = &drain;
            part(std::move(d));
        }
    }
}

void Property::add_heaters(visit::Visit const& visit, std::vector<Assumption>& assumptions)
{
    auto const loops = all("loop");
    for (auto const& [name, heater] : visit.heaters)
    {
        Thing t = thing("heater", name, "heaters/" + name, &heater);
        t.heater = &heater;
        if (auto const place = named("loop", heater.loop))
            t.loops = {*place};
        else if (!loops.empty())
        {
            std::size_t chosen = loops.front();
            for (std::size_t const l : loops)
                for (std::size_t const w : things_[l].waters)
                    if (lowered(name).find(lowered(things_[w].entry.name)) != std::string::npos)
                        chosen = l;
            t.loops = {chosen};
            if (loops.size() > 1)
                assumptions.push_back({name + " is on " + things_[chosen].entry.name, "its loop was not given"});
        }
        for (std::size_t const l : t.loops)
        {
            t.waters = things_[l].waters;
            t.loop = things_[l].loop;
            merge(t.holds, things_[l].holds);
        }
        if (heater.energy)
        {
            using enum visit::EnergyKind;
            t.holds.insert(*heater.energy == electric_element ? "electric_element"
                           : *heater.energy == heat_pump      ? "heat_pump"
                                                              : "gas");
        }
        if (heater.stands)
            t.holds.insert(*heater.stands == visit::HeaterPlace::pit    ? "in_pit"
                           : *heater.stands == visit::HeaterPlace::room ? "in_room"
                                                                        : "outdoors");
        bool const burns = !heater.energy || t.holds.contains("gas");
        Thing vent =
            thing("vent", "vent of " + name, "heaters/" + name + "/vent", heater.vent ? &*heater.vent : nullptr);
        vent.vent = heater.vent ? &*heater.vent : nullptr;
        vent.heater = &heater;
        vent.loops = t.loops;
        vent.waters = t.waters;
        vent.loop = t.loop;
        vent.holds = t.holds;
        vent.mentioned = vent.mentioned || heater.room.has_value();
        add(std::move(t));
        if (burns)
            add(std::move(vent));
    }
}

void Property::add_fill_valves(visit::Visit const& visit, std::vector<Assumption>& assumptions)
{
    auto const waters = all("water");
    for (auto const& [name, valve] : visit.fill_valves)
    {
        Thing t = thing("fill_valve", name, "fill_valves/" + name, &valve);
        t.fill_valve = &valve;
        t.water_side = true;
        if (auto const place = named("water", valve.fills))
            t.waters = {*place};
        else if (!waters.empty())
        {
            std::size_t chosen = waters.front();
            for (std::size_t const w : waters)
                if (lowered(name).find(lowered(things_[w].entry.name)) != std::string::npos)
                    chosen = w;
            t.waters = {chosen};
            if (waters.size() > 1)
                assumptions.push_back({name + " fills " + things_[chosen].entry.name, "'fills' was not given"});
        }
        for (std::size_t const w : t.waters)
        {
            t.water = things_[w].water;
            merge(t.holds, things_[w].holds);
        }
        if (valve.kind)
            t.holds.insert(fields::words_of<visit::FillKind>::words()[static_cast<std::size_t>(*valve.kind)]);
        add(std::move(t));
    }
}

void Property::add_contexts(visit::Visit const& visit)
{
    constexpr double year = 365.25 * units::exact::day;
    for (auto& t : things_)
    {
        if (visit.freezing_winters.value_or(false))
            t.holds.insert("freezing_climate");
        if (visit.expansive_soil.value_or(false))
            t.holds.insert("expansive_soil");
        if (visit.altitude && visit.altitude->value > units::of_si<units::Length>(high_altitude_from))
            t.holds.insert("high_altitude");
        visit::Taken<units::Duration> age = t.base != nullptr ? t.base->age : std::nullopt;
        if (!age && t.heater != nullptr) // a vent is as old as its heater
            age = t.heater->age;
        if (!age && t.loop != nullptr && !t.water_side)
            age = t.loop->age;
        if (!age)
            t.holds.insert("age_unknown");
        else if (age->value.value() > 15 * year)
            t.holds.insert({"older_than_8_years", "older_than_15_years"});
        else if (age->value.value() > 8 * year)
            t.holds.insert("older_than_8_years");
        else if (age->value.value() < 2 * year)
            t.holds.insert("newer_than_2_years");
        t.possible = t.holds;
        for (auto const& group : groups)
        {
            bool const said = std::any_of(group.begin(), group.end(),
                                          [&](std::string_view c) { return t.holds.contains(std::string(c)); });
            if (!said)
                t.possible.insert(group.begin(), group.end());
        }
    }
}

double Property::share_when_not_said(std::string const& context)
{
    for (auto const& group : groups)
        if (std::find(group.begin(), group.end(), context) != group.end())
            return 1.0 / static_cast<double>(
                             std::count_if(group.begin(), group.end(), [](std::string_view c) { return !c.empty(); }));
    return 1.0;
}

bool Property::related(std::size_t a, std::size_t b) const
{
    Thing const& x = things_.at(a);
    Thing const& y = things_.at(b);
    if (a == b || x.property_wide || y.property_wide)
        return true;
    auto share = [](std::set<std::size_t> const& p, std::set<std::size_t> const& q)
    { return std::any_of(p.begin(), p.end(), [&](std::size_t v) { return q.contains(v); }); };
    bool const both_on_loops = !x.water_side && !y.water_side;
    return both_on_loops ? share(x.loops, y.loops) : share(x.waters, y.waters);
}

std::vector<std::size_t> Property::of_kind(std::string_view kind, std::size_t a) const
{
    if (things_.at(a).entry.kind == kind)
        return {a};
    std::vector<std::size_t> out;
    for (std::size_t const i : all(kind))
        if (related(a, i))
            out.push_back(i);
    return out;
}

std::optional<std::size_t> Property::part(std::size_t loop, std::string_view kind) const
{
    for (std::size_t const i : all(kind))
        if (things_[i].loops.contains(loop))
            return i;
    return std::nullopt;
}

} // namespace padwalk::assess
