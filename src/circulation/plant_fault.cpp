#include "padwalk/circulation/plant.hpp"
#include "padwalk/figures/model.hpp"

#include <algorithm>

namespace padwalk::circulation
{
namespace
{

// At severity 1; judgement. A pump left at its low speed turns at about a third; 1.5 in stands where 2 in should.
constexpr double slowest = 0.35;
constexpr double narrowest = 0.75;

units::Fraction fraction(double value)
{
    return units::of_si<units::Fraction>(value);
}

/// Calls `act` on the part of that name, or on all for an empty name.
template <class Parts, class Act> void each(Parts& parts, std::string const& name, Act act)
{
    bool found = false;
    for (auto& part : parts)
        if (name.empty() || part.name == name)
        {
            act(part);
            found = true;
        }
    if (!found)
        throw figures::NotComputed(name.empty() ? "the plant has no part that this fault could be in"
                                                : "the plant has no such part as '" + name + "'");
}

void close_by(Valve& valve, double share)
{
    valve.opening = fraction(valve.opening.value() * (1 - share));
}

void narrow_by(Pipe& pipe, double severity)
{
    pipe.bore = pipe.bore * (1 - severity * (1 - narrowest));
}

void narrow(Plant& plant, std::string const& part, double severity)
{
    auto const is = [&](auto const& p) { return p.name == part; };
    if (part.empty())
        return narrow_by(plant.suction_trunk, severity); // where it does most harm
    if (std::any_of(plant.returns.begin(), plant.returns.end(), is))
        return each(plant.returns, part, [&](auto& r) { narrow_by(r.pipe, severity); });
    each(plant.suctions, part, [&](auto& s) { narrow_by(s.pipe, severity); });
}

void spoil_pump(PlantPump& pump, PlantFaultKind kind, double severity)
{
    if (kind == PlantFaultKind::suction_air)
        pump.air = fraction(severity);
    else if (kind == PlantFaultKind::impeller_clogged)
        pump.clogging = fraction(severity);
    else if (kind == PlantFaultKind::worn_impeller)
        pump.wear = fraction(severity);
    else if (kind == PlantFaultKind::wrong_rotation)
        pump.reversed = severity > 0;
    else
        pump.speed = pump.speed * (1 - severity * (1 - slowest));
}

} // namespace

Plant with_fault(Plant plant, PlantFault const& fault)
{
    double const severity = fault.severity.value();
    if (!(severity >= 0 && severity <= 1))
        throw figures::NotComputed("a fault's severity lies between 0 and 1");
    switch (fault.kind)
    {
    case PlantFaultKind::clogged_basket: plant.basket_clogging = fault.severity; break;
    case PlantFaultKind::dirty_filter:
        if (!plant.filter)
            throw figures::NotComputed("the plant has no filter to be dirty");
        plant.filter->loading = fault.severity;
        break;
    case PlantFaultKind::filter_bypassed:
        if (!plant.filter)
            throw figures::NotComputed("the plant has no filter to pass by");
        plant.filter->bypassed = fault.severity;
        break;
    case PlantFaultKind::heater_scaled:
        if (!plant.heater)
            throw figures::NotComputed("the plant has no heater to be scaled");
        plant.heater->scaling = fault.severity;
        break;
    case PlantFaultKind::bypass_stuck_open:
        if (!plant.heater)
            throw figures::NotComputed("the plant has no heater with a bypass");
        plant.heater->bypass.opening = std::max(plant.heater->bypass.opening, fault.severity);
        break;
    case PlantFaultKind::return_valve_shut:
        each(plant.returns, fault.part, [&](auto& r) { close_by(r.valve, severity); });
        break;
    case PlantFaultKind::suction_valve_part_shut:
        each(plant.suctions, fault.part, [&](auto& s) { close_by(s.valve, severity); });
        break;
    case PlantFaultKind::undersized_pipe: narrow(plant, fault.part, severity); break;
    case PlantFaultKind::suction_air:
    case PlantFaultKind::impeller_clogged:
    case PlantFaultKind::worn_impeller:
    case PlantFaultKind::wrong_rotation:
    case PlantFaultKind::wrong_speed:
        each(plant.pumps, fault.part, [&](auto& p) { spoil_pump(p, fault.kind, severity); });
        break;
    }
    return plant;
}

} // namespace padwalk::circulation
