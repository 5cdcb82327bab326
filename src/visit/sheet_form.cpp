#include "padwalk/visit/sheet_form.hpp"

#include "padwalk/visit/sheet.hpp"
#include "sheet_rows.hpp"

#include <algorithm>

namespace padwalk::visit
{
namespace
{

bool any_of(Parts const& parts, std::initializer_list<std::string_view> names)
{
    return std::any_of(names.begin(), names.end(), [&](auto name) { return parts.contains(name); });
}

// Asked for a pool alone, a spa stays off the sheet; asked for neither, for both.
bool is_asked(Parts const& parts, Water const& water)
{
    if (!water.kind || any_of(parts, {"pool", "spa"}) == (parts.contains("pool") && parts.contains("spa")))
        return true;
    return parts.contains(*water.kind == WaterKind::pool ? "pool" : "spa");
}

bool burns(Heater const& heater)
{
    return heater.energy != EnergyKind::electric_element && heater.energy != EnergyKind::heat_pump;
}

bool is_asked(Parts const& parts, Heater const& heater)
{
    if (!heater.energy || parts.contains("heater"))
        return true;
    if (burns(heater))
        return any_of(parts, {"gas_heater", "vent"});
    return parts.contains(*heater.energy == EnergyKind::heat_pump ? "heat_pump" : "electric_heater");
}

/// Lays out the groups, item by item.
class FormMaker
{
public:
    FormMaker(reference::Data const& data, Visit const& visit, Parts parts, units::System system)
        : plan_(sheet_plan(data)), visit_(visit), parts_(std::move(parts)), system_(system)
    {
    }

    SheetForm make()
    {
        out_ = {"Field sheet", visit_.property, visit_.on ? visit_.on->text : std::string(), {}, {}};
        add("visit", {}, visit_);
        if (wanted("visit", "loops"))
            for (auto const& [name, loop] : visit_.loops)
                add_loop(name, loop);
        if (wanted("visit", "heaters"))
            for (auto const& [name, heater] : visit_.heaters)
                add_heater(name, heater);
        if (wanted("visit", "electrical"))
            add("electrical", {}, visit_.electrical.value_or(Electrical{}));
        add_waters();
        add_drains();
        add_rest();
        return std::move(out_);
    }

private:
    SheetPlan plan_;
    Visit const& visit_;
    Parts parts_;
    units::System system_;
    SheetForm out_;

    [[nodiscard]] bool wanted(std::string_view record, std::string_view field) const
    {
        return is_wanted(record, field, parts_);
    }

    template <class T> void add(std::string_view of, std::string const& name, T const& item)
    {
        GroupPlan const& group = plan_.group(of);
        out_.groups.push_back({group.section, group.title, name, group.caution, of != "visit",
                               rows_of(group, facts_of(item), {plan_, parts_, system_})});
    }

    void add_loop(std::string const& name, Loop const& loop)
    {
        add("loop", name, loop);
        if (wanted("loop", "pump"))
            add("pump", name, loop.pump.value_or(Pump{}));
        if (wanted("loop", "filter"))
            add("filter", name, loop.filter.value_or(Filter{}));
    }

    void add_heater(std::string const& name, Heater const& heater)
    {
        if (!is_asked(parts_, heater))
            return;
        add("heater", name, heater);
        if (wanted("heater", "vent") && burns(heater))
            add("vent", name, heater.vent.value_or(Vent{}));
        bool const indoors = heater.room.has_value() || heater.stands != HeaterPlace::outdoors;
        if (wanted("heater", "room") && burns(heater) && indoors)
            add("room", name, heater.room.value_or(Room{}));
    }

    void add_waters()
    {
        for (auto const& [name, water] : visit_.waters)
            if (wanted("visit", "waters") && is_asked(parts_, water))
            {
                add("water", name, water);
                if (wanted("water", "tests"))
                    add("water_test", name, water);
                if (wanted("water", "level_history"))
                    add("level", name, water);
            }
    }

    // A cover can hold a person under water: there is a place for one even where the file has none.
    void add_drains()
    {
        if (!wanted("loop", "drains"))
            return;
        for (auto const& [name, loop] : visit_.loops)
        {
            for (auto const& [drain_name, drain] : loop.drains)
                add("drain", drain_name + ", " + name, drain);
            if (loop.drains.empty())
                add("drain", name, Drain{});
        }
    }

    void add_rest()
    {
        if (wanted("visit", "fill_valves"))
            for (auto const& [name, valve] : visit_.fill_valves)
                add("fill_valve", name, valve);
        for (auto const& [name, water] : visit_.waters)
        {
            if (!is_asked(parts_, water))
                continue;
            if (wanted("water", "shell"))
                add("shell", name, water.shell.value_or(Shell{}));
            if (wanted("water", "deck"))
                add("deck", name, water.deck.value_or(Deck{}));
        }
        add("anything_else", {}, visit_);
    }
};

// What was asked for and the visit has not; which water or loop it belongs to is not known.
void add_missing(Visit& shown, Visit blank)
{
    for (auto& [name, loop] : blank.loops)
        loop.serves.clear();
    for (auto& [name, heater] : blank.heaters)
        heater.loop.clear();
    if (shown.waters.empty())
        shown.waters = std::move(blank.waters);
    if (shown.loops.empty())
        shown.loops = std::move(blank.loops);
    if (shown.heaters.empty())
        shown.heaters = std::move(blank.heaters);
    if (shown.fill_valves.empty())
        shown.fill_valves = std::move(blank.fill_valves);
}

} // namespace

// The visit file to fill in and the sheet on paper begin with the same items.
SheetForm sheet_form(reference::Data const& data, std::vector<std::string> const& parts, units::System system)
{
    auto const blank = read_visit(field_sheet(parts), {}).visit;
    return FormMaker(data, blank, chosen_parts(parts), system).make();
}

SheetForm sheet_form(reference::Data const& data, Visit const& visit, std::vector<std::string> const& parts,
                     units::System system)
{
    Parts const chosen = chosen_parts(parts);
    Visit shown = visit;
    if (!parts.empty())
    {
        add_missing(shown, read_visit(field_sheet(parts), {}).visit);
    }
    return FormMaker(data, shown, chosen, system).make();
}

} // namespace padwalk::visit
