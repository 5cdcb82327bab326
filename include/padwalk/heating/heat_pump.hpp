#pragma once
/// A heat pump that takes heat from the air, and an electric element on another voltage than its own. Facts from
/// data/heating/heat_pump.yaml.

#include "padwalk/heating/constant.hpp"

namespace padwalk::heating
{

/// data/heating/heat_pump.yaml
struct HeatPumpFacts
{
    Constant rating_air, rating_humidity, rating_water, lift_added, capacity_per_kelvin, capacity_per_water_kelvin,
        frost_approach, works_well_from, cop_least, cop_most;
    fields::Named<reference::Source> sources;
    static fields::Record<HeatPumpFacts> const& declaration();
};

/// Throws reference::DataProblems.
[[nodiscard]] HeatPumpFacts heat_pump_facts(reference::Data const& data);

/// Air that it draws from and water that it warms.
struct HeatPumpState
{
    units::Temperature air_temperature{};
    units::Fraction humidity{};
    units::Temperature water_temperature{};
};

struct HeatPumpRating
{
    units::Power capacity{}; ///< heat into the water at the rating point
    units::Number cop{};     ///< there
};

struct HeatPumpRun
{
    units::Power capacity{};
    units::Power input{};
    units::Number cop{};
    bool frosts = false; ///< the coil is below freezing
};

/// Heat and COP of a generic heat pump away from its rating point, at about 80 °F air and 80 °F water:
///
///     COP = COP_r · Carnot/Carnot_r,   Carnot = Tw/(Tw - T* + 30 K)
///     capacity = capacity_r · exp(0.025/K · (T* - T*_r)) (1 - 0.004/K · (Tw - Tw_r))
///
/// Tw water, T* wet bulb of the air. The constants are judgement: the 30 K stand for both exchangers and for the losses
/// that do not shrink with the lift.
///
/// Valid:    air 0 to 60 °C with its wet bulb above freezing, water 0 to 60 °C
/// Accuracy: about 12 % (one standard uncertainty, judgement); at the rating point exact by construction
/// Source:   [doe-heat-pump-pool] for rating point and the range of COP; judgement
/// Throws:   figures::NotComputed where the lift is none or below; OutOfRange
[[nodiscard]] HeatPumpRun heat_pump(HeatPumpState const& state, HeatPumpRating const& rating,
                                    HeatPumpFacts const& facts);

/// Power of a resistance on another voltage: rated power · (supply / rated voltage)².
///
/// Valid:    an element whose resistance does not change with its warmth (0.1 % and less for heating alloys)
/// Throws:   figures::NotComputed without rated voltage
[[nodiscard]] units::Power element_power(units::Power rated, units::Voltage rated_voltage, units::Voltage supply);

} // namespace padwalk::heating
