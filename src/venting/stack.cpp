#include "padwalk/venting/stack.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/physics/combustion.hpp"

#include <stdexcept>

namespace padwalk::venting
{

using fields::Record;

namespace
{

/// Siegert's oxygen of air, in %; A2 was fitted with it.
constexpr double siegert_oxygen_percent = 21.0;
/// Above this share of oxygen nearly all of the sample is air; judgement.
constexpr double most_oxygen = 0.18;
/// Pull a room kept under-pressure by fans can have [fan-maker-negative-pressure].
constexpr double strong_fan_pascal = 0.1 * units::exact::inch_water;

void require_flue_gas(units::Fraction oxygen)
{
    if (oxygen.value() > most_oxygen)
        throw figures::NotComputed(
            "over 18 % oxygen: the sample is nearly all room air, not flue gas; nothing can be told from it");
}

} // namespace

Record<StackGas> const& StackGas::declaration()
{
    static Record<StackGas> const record =
        Record<StackGas>("gas", "Siegert's constants of one gas")
            .field("fuel", &StackGas::fuel, "which gas")
            .required()
            .field("a2", &StackGas::a2, "A2")
            .required()
            .field("b", &StackGas::b, "B")
            .required()
            .field("dry_gas_ratio", &StackGas::dry_gas_ratio, "dry flue gas over air, no excess")
            .required()
            .field("net_to_gross", &StackGas::net_to_gross, "net over gross heating value")
            .required()
            .field("source", &StackGas::source, "where it comes from")
            .required();
    return record;
}

Record<StackFacts> const& StackFacts::declaration()
{
    static Record<StackFacts> const record = Record<StackFacts>("stack", "heat that leaves up the vent")
                                                 .field("gases", &StackFacts::gases, "constants")
                                                 .required()
                                                 .field("sources", &StackFacts::sources, "works cited");
    return record;
}

StackGas const& StackFacts::gas(StackFuel fuel) const
{
    for (auto const& row : gases)
        if (row.fuel == fuel)
            return row;
    throw std::logic_error("venting/stack.yaml has no constants for a fuel");
}

StackFacts stack_facts(reference::Data const& data)
{
    return reference::read_table<StackFacts>(data, "venting/stack.yaml");
}

units::Pressure stack_draft(units::Length height, units::Temperature outside, units::Temperature flue,
                            units::AbsolutePressure air)
{
    auto const density_at = [air](units::Temperature t)
    { return air.from_zero() / (physics::dry_air_gas_constant * t.from_zero()); };
    return physics::standard_gravity * height * (density_at(outside) - density_at(flue));
}

std::string draft_in_words(units::Pressure draft)
{
    double const pascal = units::in_si(draft);
    if (pascal <= 0)
        return "no pull: the gas is no warmer than the air outside, and what burns would come back into the room";
    if (pascal < strong_fan_pascal)
        return "pulls, but fans that hold the room 0.1 in water under the air outside would turn it round";
    return "pulls harder than fans that hold the room 0.1 in water under the air outside";
}

units::Fraction stack_loss(units::Temperature flue, units::Temperature air, units::Fraction oxygen, StackGas const& gas)
{
    require_flue_gas(oxygen);
    if (units::in_si(flue - air) < 0)
        throw figures::NotComputed(
            "the flue is colder than the air the burner takes: it isn't firing, or the two are swapped");
    return physics::stack_loss_siegert(flue - air, oxygen, gas.a2, gas.b);
}

units::Fraction excess_air(units::Fraction oxygen, StackGas const& gas)
{
    require_flue_gas(oxygen);
    double const percent = 100 * oxygen.value();
    return units::Fraction::from_value(gas.dry_gas_ratio.value() * percent / (siegert_oxygen_percent - percent));
}

} // namespace padwalk::venting
