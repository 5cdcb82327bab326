#pragma once
/// A gas heater as a simulated thing: gas through an orifice, air drawn or blown, an exchanger between hot gas and
/// water, and where the heat goes. Facts and judged figures from data/heating/fired_heater.yaml.

#include "padwalk/physics/combustion.hpp"
#include "padwalk/reference/sources.hpp"
#include "padwalk/units/quantity.hpp"

namespace padwalk::heating
{

/// What moves the air.
enum class Draft
{
    natural, ///< the pull of the hot gas itself
    fan
};

/// A judged or cited figure.
struct HeaterRule
{
    units::Number value{};
    std::string meaning;
    reference::Cited source;
    static fields::Record<HeaterRule> const& declaration();
};

/// Where the figures on a plate hold.
struct PlateState
{
    units::Temperature air{}, inlet{};
    units::TemperatureDifference rise{};
    reference::Cited source;
    static fields::Record<PlateState> const& declaration();
};

/// Rise of carbon monoxide, air free: sound · 10^(short of air + recirculation + over-firing), levelling off at `most`.
struct MonoxideRule
{
    units::GasFraction sound{}, most{};
    units::Fraction short_below{};          ///< excess air under which it rises
    units::Fraction short_tenfold{};        ///< less excess air that makes it ten times
    units::Fraction recirculated_tenfold{}; ///< share of flue gas in the air that makes it ten times
    units::Fraction over_fired_tenfold{};   ///< input over the plate's that makes it ten times
    reference::Cited source;
    static fields::Record<MonoxideRule> const& declaration();
};

/// What can be wrong with a gas heater.
enum class HeaterFaultKind
{
    scaled_exchanger,
    sooted_exchanger,
    gas_pressure_low,
    orifice_small,
    orifice_large,
    flow_low,
    bypass_stuck_open, ///< the heater's own: too much water passes beside the tubes
    bypass_stuck_shut,
    thermometer_high, ///< the pair shows more rise than there is
    thermometer_low,
    vent_blocked, ///< or short of air for another reason
    recirculation ///< flue gas comes back into the air
};

/// The side of a heater that a fault belongs to.
enum class HeaterSide
{
    gas, ///< supply, burner and the fire's side of the exchanger
    water,
    flow,
    air,
    sensor
};

/// One fault: what it does at its worst, and from what severity on it would be called a fault.
struct HeaterFaultRule
{
    HeaterFaultKind fault = HeaterFaultKind::scaled_exchanger;
    HeaterSide side = HeaterSide::water;
    std::string name; ///< in words
    units::Number worst{};
    units::Fraction mildest{};
    std::string meaning; ///< what `worst` is
    reference::Cited source;
    static fields::Record<HeaterFaultRule> const& declaration();
};

/// What is read on a heater.
enum class HeaterGauge
{
    rise,          ///< by the pair of thermometers
    clocked_input, ///< gas meter and watch, with the heating value that the heater is known by
    flow_meter,
    flue_temperature,
    oxygen,         ///< of the dry flue gas
    carbon_dioxide, ///< of the dry flue gas; most analysers work it out from oxygen: then give only one of both
    carbon_monoxide ///< as read, not air free; its logarithm is compared
};

/// What of a heater may not be known well.
enum class HeaterUnsure
{
    input,      ///< orifice and pressure as set
    gas_heat,   ///< heating value against the one the clock counts with
    efficiency, ///< of the exchanger: the heater's own against its plate
    flow,
    excess_air, ///< as set
    jacket,
    carbon_monoxide
};

/// How badly that is known of a heater that someone walks up to: one standard deviation of the natural logarithm of a
/// factor (of the excess air: of air over air needed).
struct HeaterDoubtRule
{
    HeaterUnsure what = HeaterUnsure::flow;
    units::Number spread{};
    reference::Cited source;
    static fields::Record<HeaterDoubtRule> const& declaration();
};

/// How far off a broken instrument may read: one standard deviation, by itself or as a share of what it should show.
struct HeaterGaugeFailure
{
    HeaterGauge gauge = HeaterGauge::rise;
    std::optional<units::TemperatureDifference> by;
    std::optional<units::Fraction> share;
    reference::Cited source;
    static fields::Record<HeaterGaugeFailure> const& declaration();
};

/// data/heating/fired_heater.yaml.
struct FiredHeaterTable
{
    PlateState plate;
    HeaterRule excess_air_natural, excess_air_fan;
    HeaterRule jacket;         ///< share of the heat set free
    HeaterRule gas_exponent;   ///< of gas flow in the heat transfer
    HeaterRule water_exponent; ///< of water flow in the heat transfer
    HeaterRule water_share;    ///< of the exchanger's resistance at the plate's state
    HeaterRule bypass;         ///< share of the water that a sound bypass leads beside the tubes
    HeaterRule soot_air;       ///< share of the air that worst soot keeps out
    HeaterRule least_air;      ///< air over air needed under which nothing burns steadily
    MonoxideRule monoxide;
    HeaterRule oxygen_low, oxygen_high;  ///< in the dry gas, outside which the air is out of the ordinary
    std::vector<HeaterDoubtRule> doubts; ///< usual ones
    std::vector<HeaterFaultRule> faults; ///< one for each kind
    HeaterRule model_error, fault_shape;
    std::vector<HeaterGaugeFailure> failures;

    static fields::Record<FiredHeaterTable> const& declaration();
    [[nodiscard]] HeaterFaultRule const& fault(HeaterFaultKind kind) const; ///< std::logic_error if the data has none
    [[nodiscard]] double excess_air(Draft draft) const;
};

/// Throws reference::DataProblems.
[[nodiscard]] FiredHeaterTable fired_heater_table(reference::Data const& data);

/// A gas heater, its gas, its water and what is wrong with it. What is left out is as on the plate, or sound.
struct FiredHeater
{
    physics::Fuel fuel = physics::Fuel::natural_gas;
    Draft draft = Draft::fan;
    units::Power plate_input{};                  ///< gross, at sea level
    units::Fraction plate_efficiency{};          ///< heat into the water over gross input
    std::optional<units::Fraction> rated_excess; ///< air beyond what the fuel needs, at the plate's input
    std::optional<units::Fraction> jacket;       ///< lost through the casing, share of the heat set free
    units::Number gas_pressure = one();          ///< at the orifice, over the plate's
    units::Number orifice = one();               ///< its area over the plate's
    units::Number gas_heat = one();              ///< heating value over the one that the plate and the clock count with
    units::Length altitude{};
    units::Temperature air{};              ///< into the burner
    units::Temperature inlet{};            ///< water
    units::VolumeFlow flow{};              ///< through headers and bypass together
    std::optional<units::Fraction> bypass; ///< share of the flow beside the tubes
    units::Number scale{};                 ///< resistance of scale over the clean exchanger's at its plate
    units::Number soot{};                  ///< resistance of soot, likewise
    units::Number soot_air = one();        ///< share of the air that passes the soot
    units::Number air_way = one();         ///< share of the air that passes openings and vent
    units::Fraction recirculated{};        ///< share of what the burner draws that is flue gas, cooled to the air
    units::TemperatureDifference thermometers_off{}; ///< what the pair shows too much

    static units::Number one() { return units::Number::from_value(1); }
};

/// What a heater does.
struct HeaterState
{
    units::Power input{};   ///< gross, by the gas's true heating value
    units::Power clocked{}; ///< by the heating value that the clock counts with
    units::Power water{};   ///< into the water
    units::Power jacket{};
    units::Power stack_sensible{};         ///< with the flue gas, over the air's temperature
    units::Power stack_latent{};           ///< in its vapour
    units::Power unburnt{};                ///< where the air is too little
    units::Fraction efficiency{};          ///< water over input
    units::Fraction efficiency_by_stack{}; ///< 1 - stack losses by flue temperature and oxygen - jacket, as found by an
                                           ///< analyser: what recirculated gas takes along it does not see
    units::Fraction excess_air{};          ///< below 0 where the air is too little
    units::Temperature flue{};
    units::Fraction oxygen{}, carbon_dioxide{}; ///< of the dry gas
    units::Fraction vapour{};                   ///< of the wet gas, for its dew point
    units::GasFraction monoxide{};              ///< as read in the dry gas
    units::GasFraction monoxide_air_free{};
    units::TemperatureDifference rise{}; ///< of all the water
    units::TemperatureDifference rise_shown{};
    units::Temperature outlet{};
    units::Temperature tubes_outlet{}; ///< of the water that passed the tubes
    units::Temperature hot_wall{};     ///< of the tube, under any scale, where the gas is hottest
};

/// What the plate and the place say of a heater, and no fault changes.
struct HeaterBase
{
    double conductance = 0; ///< UA of the clean exchanger at the plate's state, W/K
    double gas_flow = 0;    ///< there: input, W, times moles of wet gas for each mole of fuel
    double tube_flow = 0;   ///< there, m3/s
    double pull = 0;        ///< there: 1/T air - 1/T gas, 1/K
    double water_heat = 0;  ///< of the water going in, J/(m3 K)
    double thin = 1;        ///< the air's pressure over that at the sea
};

/// UA from the plate's efficiency: -ln(1 - effectiveness) · C, effectiveness = (efficiency + jacket) / most.
///
/// Throws: figures::NotComputed without input, or where the plate's efficiency can't be without condensing;
///         physics::OutOfRange
[[nodiscard]] HeaterBase heater_base(FiredHeater const& heater, FiredHeaterTable const& table);

/// Steady firing of a heater.
///
///     input = plate · orifice · sqrt(gas pressure) · sqrt(p_air / p_0) · gas heat
///     air   ~ way · p_air/p_0, and · T_0/T_air with a fan, · sqrt((1/T_air - 1/T_gas) / the same on the plate)
///     without;
///             T_gas the mean of 1200 K and the flue's
///     heat out of the gas = (1 - exp(-UA/C)) · what it would give down to the water's temperature
///     1/UA  = gas side (flow/plate's)^-m + soot + scale + water side (tube flow/plate's)^-n
///     water = heat out of the gas - jacket
///
/// UA follows from the plate's efficiency: at the plate's input, air, inlet and rise the heater gives just that.
///
/// Valid:    nothing condenses; the heat set free counts at the air's temperature (0.02 % of it from 0 to 40 °C); the
///           heat of carbon monoxide in the flue is left out (1 % of the input at 1 % of it). Recirculated gas comes
///           back as cool as the air.
/// Accuracy: input + losses close to 1e-9; the rest is judgement (data/heating/fired_heater.yaml)
/// Throws:   figures::NotComputed without input or flow, where the air is too little to burn at all, where the plate's
///           efficiency can't be, or where the water would boil in the tubes; physics::OutOfRange
[[nodiscard]] HeaterState fire(FiredHeater const& heater, FiredHeaterTable const& table);
/// The same with the base known already: that of the heater, whatever is wrong with it.
[[nodiscard]] HeaterState fire(FiredHeater const& heater, HeaterBase const& base, FiredHeaterTable const& table);

/// Flow that gives the plate's efficiency the plate's rise.
[[nodiscard]] units::VolumeFlow plate_flow(FiredHeater const& heater, FiredHeaterTable const& table);

/// The heater set for its altitude: an orifice that leaves this share of the plate's input there.
[[nodiscard]] FiredHeater set_for_altitude(FiredHeater heater, units::Fraction input_left);

/// The heater with one thing wrong, at a severity from 0 (nothing) to 1 (the worst in the data).
///
/// Throws: figures::NotComputed for a severity outside 0 to 1
[[nodiscard]] FiredHeater with_heater_fault(FiredHeater heater, HeaterFaultKind kind, units::Fraction severity,
                                            FiredHeaterTable const& table);

} // namespace padwalk::heating

template <> struct padwalk::fields::words_of<padwalk::physics::Fuel>
{
    static std::vector<std::string> words() { return {"natural_gas", "propane"}; }
};
template <> struct padwalk::fields::words_of<padwalk::heating::Draft>
{
    static std::vector<std::string> words() { return {"natural", "fan"}; }
};
template <> struct padwalk::fields::words_of<padwalk::heating::HeaterFaultKind>
{
    static std::vector<std::string> words()
    {
        return {"scaled_exchanger", "sooted_exchanger", "gas_pressure_low",  "orifice_small",
                "orifice_large",    "flow_low",         "bypass_stuck_open", "bypass_stuck_shut",
                "thermometer_high", "thermometer_low",  "vent_blocked",      "recirculation"};
    }
};
template <> struct padwalk::fields::words_of<padwalk::heating::HeaterSide>
{
    static std::vector<std::string> words() { return {"gas", "water", "flow", "air", "sensor"}; }
};
template <> struct padwalk::fields::words_of<padwalk::heating::HeaterGauge>
{
    static std::vector<std::string> words()
    {
        return {"rise",   "clocked_input",  "flow_meter",     "flue_temperature",
                "oxygen", "carbon_dioxide", "carbon_monoxide"};
    }
};
template <> struct padwalk::fields::words_of<padwalk::heating::HeaterUnsure>
{
    static std::vector<std::string> words()
    {
        return {"input", "gas_heat", "efficiency", "flow", "excess_air", "jacket", "carbon_monoxide"};
    }
};
