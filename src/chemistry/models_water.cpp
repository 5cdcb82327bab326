// The figures that compute a water's state: as it is, heated, dosed.
#include "model_groups.hpp"

#include "padwalk/chemistry/conductivity.hpp"
#include "padwalk/chemistry/drift_rates.hpp"
#include "padwalk/chemistry/equilibria.hpp"
#include "padwalk/chemistry/sanitizer.hpp"
#include "padwalk/chemistry/saturation_handbook.hpp"
#include "padwalk/numerics/number_text.hpp"
#include "padwalk/physics/range.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

namespace padwalk::chemistry
{
namespace
{

using fields::Record;
using units::Number;

/// Standard uncertainty of log K of calcite as its authors state it, half their 0.02 [plummer-busenberg-1982].
constexpr double calcite_doubt = 0.01;

/// Every choice of constants, made once.
struct Engines
{
    explicit Engines(reference::Data const& data)
        : sets(Equilibria::of_all_sets(data)), handbook(handbook_table(data)), conductivity(conductivity_table(data)),
          open_air(air_carbon_dioxide(drift_table(data)))
    {
    }
    [[nodiscard]] Equilibria const& of(CarbonateSet a, CyanurateSet y) const
    {
        return sets[(a == CarbonateSet::phreeqc ? 2U : 0U) + (y == CyanurateSet::wahman ? 1U : 0U)];
    }
    std::vector<Equilibria> sets;
    HandbookTable handbook;
    ConductivityTable conductivity;
    double open_air; ///< log10 of the pressure of carbon dioxide, atm
};

CarbonateSet other(CarbonateSet set)
{
    return set == CarbonateSet::phreeqc ? CarbonateSet::plummer_busenberg : CarbonateSet::phreeqc;
}

CyanurateSet other(CyanurateSet set)
{
    return set == CyanurateSet::wahman ? CyanurateSet::obrien : CyanurateSet::wahman;
}

/// What every figure here asks of a water.
struct WaterInput : WaterReadings
{
    std::optional<units::Conductivity> conductivity;
    std::optional<units::AsItself> dissolved_solids;
    CarbonateSet constants = CarbonateSet::plummer_busenberg;
    CyanurateSet cyanurate_constants = CyanurateSet::obrien;
    Number model_doubt{};
};

template <class T, class Member, class Base> Member T::*in(Member Base::*member)
{
    return static_cast<Member T::*>(member);
}

template <class T> Record<T>&& with_water_fields(Record<T>&& record)
{
    return std::move(record)
        .field("temperature", in<T>(&WaterReadings::temperature), "temperature of the water")
        .required()
        .within("32 degF", "194 degF")
        .field("ph", in<T>(&WaterReadings::ph), "pH of the water")
        .required()
        .within("3", "12")
        .field("alkalinity", in<T>(&WaterReadings::alkalinity), "total alkalinity as the kit reads it")
        .required()
        .within("0 ppm", "5000 ppm")
        .field("calcium", in<T>(&WaterReadings::calcium), "calcium hardness, not total hardness")
        .required()
        .within("0 ppm", "10000 ppm")
        .field("magnesium", in<T>(&WaterReadings::magnesium), "magnesium hardness: total less calcium hardness")
        .otherwise("0 ppm", "not given; 50 ppm of it would lower the index by about 0.01")
        .within("0 ppm", "10000 ppm")
        .field("salt", in<T>(&WaterReadings::salt), "salt, beside what comes with hardness and alkalinity")
        .otherwise("0 ppm", "not given; 1000 ppm of it would lower the index by about 0.1")
        .within("0 ppm", "45000 ppm")
        .field("sulfate", in<T>(&WaterReadings::sulfate), "sulfate")
        .otherwise("0 ppm", "not given; 300 ppm of it would lower the index by about 0.05")
        .within("0 ppm", "10000 ppm")
        .field("borate", in<T>(&WaterReadings::borate), "borate as boron")
        .otherwise("0 ppm", "borate is seldom added to a pool")
        .within("0 ppm", "500 ppm")
        .field("cyanurate", in<T>(&WaterReadings::cyanurate), "cyanurate (stabilizer)")
        .otherwise("0 ppm", "not given; with stabilized chlorine in use there is some, and the index is lower")
        .within("0 ppm", "1000 ppm")
        .field("free_chlorine", in<T>(&WaterReadings::free_chlorine), "free chlorine")
        .otherwise("0 ppm", "not given")
        .within("0 ppm", "200 ppm")
        .field("conductivity", in<T>(&WaterInput::conductivity),
               "conductivity as a meter shows it for 25 °C; salt is raised until it fits")
        .within("0 uS/cm", "90000 uS/cm")
        .field("dissolved_solids", in<T>(&WaterInput::dissolved_solids),
               "dissolved solids by weight; salt is raised until they fit")
        .within("0 ppm", "60000 ppm")
        .field("constants", in<T>(&WaterInput::constants), "constants of carbonate, calcite and ion pairs")
        .otherwise("plummer_busenberg_1982", "measured to 90 °C and peer-reviewed")
        .field("cyanurate_constants", in<T>(&WaterInput::cyanurate_constants), "constants of cyanurate")
        .otherwise("obrien_1974", "the set with all six chlorinated forms; it holds at 25 °C")
        .field("model_doubt", in<T>(&WaterInput::model_doubt),
               "what the constants may be off by, in differences between the two sets and the authors' own doubt")
        .otherwise("0 ± 1", "the other set is as likely to be right (judgement)")
        .within("-3", "3");
}

/// The readings, with as much salt as their conductivity or dissolved solids show there to be.
WaterReadings fitted(WaterInput const& in, Engines const& engines)
{
    WaterReadings r = in;
    auto raise = [&](units::AsSodiumChloride found) { r.salt = std::max(r.salt, found, std::less<>()); };
    if (in.dissolved_solids)
        raise(salt_to_fit_solids(in, *in.dissolved_solids));
    if (in.conductivity)
        raise(
            salt_to_fit(engines.of(in.constants, in.cyanurate_constants), in, *in.conductivity, engines.conductivity));
    return r;
}

// How far the index may be off for its constants alone, one standard uncertainty times model_doubt.
double shift(WaterInput const& in, double mine, double others)
{
    return in.model_doubt.value() * std::hypot(mine - others, 2 * calcite_doubt);
}

std::optional<Number> number_if_finite(double value)
{
    return std::isfinite(value) ? std::optional(Number::from_value(value)) : std::nullopt;
}

std::string two_places(double value)
{
    return numerics::number_text(std::round(value * 100) / 100);
}

// ---- the water as it is

struct SaturationOutput
{
    std::optional<Number> saturation_calcite, saturation_aragonite, saturation_gypsum;
    units::AsCalciumCarbonate precipitation_potential{};
    std::optional<Number> other_set_calcite, ryznar;
    units::Ph saturation_ph{};
    std::optional<Number> handbook_index;
    units::AsCalciumCarbonate carbonate_alkalinity{}, cyanurate_alkalinity{}, borate_alkalinity{};
    units::Molality total_carbonate{}, ionic_strength{};
    Number log_co2_pressure{};
    std::optional<units::Ph> air_ph;
    units::AsChlorine hocl{}, ocl{}, held_chlorine{}, other_set_hocl{};
    units::AsSodiumChloride salt_used{};
    std::string in_words, hand_method, drift, chlorine;

    static Record<SaturationOutput> const& declaration()
    {
        using O = SaturationOutput;
        static Record<O> const record =
            Record<O>("saturation", "the state of the water")
                .field("saturation_calcite", &O::saturation_calcite, "saturation index of calcite")
                .field("precipitation_potential", &O::precipitation_potential,
                       "calcium carbonate that would form before calcite is just saturated; below zero: dissolve")
                .field("saturation_aragonite", &O::saturation_aragonite, "saturation index of aragonite")
                .field("saturation_gypsum", &O::saturation_gypsum, "saturation index of gypsum; none without sulfate")
                .field("other_set_calcite", &O::other_set_calcite, "index of calcite by the other set of constants")
                .field("saturation_ph", &O::saturation_ph, "pH at which the index would be zero: pH - index")
                .field("ryznar", &O::ryznar, "Ryznar index: 2 saturation pH - pH")
                .field("handbook_index", &O::handbook_index, "the index by the hand method of state codes")
                .field("carbonate_alkalinity", &O::carbonate_alkalinity, "alkalinity left to carbonate")
                .field("cyanurate_alkalinity", &O::cyanurate_alkalinity, "what cyanurate adds to the reading")
                .field("borate_alkalinity", &O::borate_alkalinity, "what borate adds to the reading")
                .field("total_carbonate", &O::total_carbonate, "all dissolved carbonate")
                .field("ionic_strength", &O::ionic_strength, "ionic strength of the speciated water")
                .field("log_co2_pressure", &O::log_co2_pressure, "log10 of the pressure of carbon dioxide, atm")
                .field("air_ph", &O::air_ph, "pH that open air would bring it to; without its doubt")
                .field("hocl", &O::hocl, "hypochlorous acid, the part of chlorine that disinfects fast")
                .field("ocl", &O::ocl, "hypochlorite")
                .field("held_chlorine", &O::held_chlorine, "chlorine held by cyanurate; the kit counts it as free")
                .field("other_set_hocl", &O::other_set_hocl, "hypochlorous acid by the other set of constants")
                .field("salt_used", &O::salt_used, "salt it was computed with")
                .field("in_words", &O::in_words, "corrosive, balanced or scaling")
                .field("hand_method", &O::hand_method, "why the hand method differs")
                .field("drift", &O::drift, "which way pH will go by itself")
                .field("chlorine", &O::chlorine, "how much of the free chlorine is at work");
        return record;
    }
};

struct SaturationInput : WaterInput
{
    static Record<SaturationInput> const& declaration()
    {
        static Record<SaturationInput> const record = with_water_fields(Record<SaturationInput>(
            "saturation", "saturation, chlorine and carbon dioxide of a water by its chemistry"));
        return record;
    }
};

std::optional<Number> hand_index(WaterReadings const& in, State const& s, HandbookTable const& table)
{
    // the salts that were read, by weight, as a dissolved solids meter would count them
    double const solids = in.salt.value() + in.calcium.value() + in.alkalinity.value() + in.magnesium.value() +
                          in.sulfate.value() + in.cyanurate.value();
    try
    {
        return handbook_index({in.ph, in.temperature, alkalinity(s.carbonate_alkalinity()), in.calcium,
                               units::AsItself::from_value(solids)},
                              table)
            .index;
    }
    catch (physics::OutOfRange const&)
    {
        return std::nullopt; // the hand method ends here; the full one goes on
    }
}

SaturationOutput saturation(WaterInput const& in, Engines const& engines)
{
    auto const& engine = engines.of(in.constants, in.cyanurate_constants);
    auto const readings = fitted(in, engines);
    auto const water = composition_of(readings);
    State const s = engine.at_ph(water, in.ph);
    State const t = engines.of(other(in.constants), other(in.cyanurate_constants)).at_ph(water, in.ph, s);
    double const calcite = s.saturation(Mineral::calcite), others = t.saturation(Mineral::calcite);
    double const moved = std::isfinite(calcite) ? shift(in, calcite, others) : 0.0;
    SaturationOutput out;
    out.saturation_calcite = number_if_finite(calcite + moved);
    out.saturation_aragonite = number_if_finite(s.saturation(Mineral::aragonite) + moved);
    out.saturation_gypsum = number_if_finite(s.saturation(Mineral::gypsum));
    out.precipitation_potential = precipitation_potential(engine, s, -moved);
    out.other_set_calcite = number_if_finite(others);
    if (std::isfinite(calcite))
        out.saturation_ph = units::Ph::from_value(in.ph.value() - calcite - moved);
    if (std::isfinite(calcite))
        out.ryznar = Number::from_value(in.ph.value() - 2 * (calcite + moved));
    out.handbook_index = hand_index(readings, s, engines.handbook);
    out.salt_used = readings.salt;
    out.carbonate_alkalinity = alkalinity(s.carbonate_alkalinity());
    out.cyanurate_alkalinity = alkalinity(s.cyanurate_alkalinity());
    out.borate_alkalinity = alkalinity(s.borate_alkalinity());
    out.total_carbonate = s.composition().totals.carbonate;
    out.ionic_strength = s.ionic_strength();
    out.log_co2_pressure = Number::from_value(s.log_co2_pressure());
    out.hocl = as_chlorine(s.hypochlorous_acid());
    out.ocl = as_chlorine(s.hypochlorite());
    out.held_chlorine = as_chlorine(s.held_chlorine());
    out.other_set_hocl = as_chlorine(t.hypochlorous_acid());
    return out;
}

void say_saturation(WaterInput const& in, SaturationOutput& out, Engines const& engines)
{
    auto const& table = engines.handbook;
    auto const& engine = engines.of(in.constants, in.cyanurate_constants);
    State const s = engine.at_ph(composition_of(fitted(in, engines)), in.ph);
    out.air_ph = engine.at_co2(s, engines.open_air).ph();
    if (in.free_chlorine.value() > 0)
        out.chlorine = forms_in_words(chlorine_forms(s)) + "; " +
                       numerics::number_text(out.other_set_hocl.value() * 1e3, 2) +
                       " ppm of acid by the other set of constants";
    if (out.saturation_calcite)
        out.in_words = index_in_words(*out.saturation_calcite, table.band);
    else
        out.in_words = "no calcium or no carbonate, so nothing to form scale from; plaster dissolves in it";
    if (out.handbook_index && out.saturation_calcite)
    {
        double const gap = (*out.handbook_index - *out.saturation_calcite).value();
        constexpr double cold_kelvin = 294.3, much_salt = 2.5; // where the hand method's own page says it strays
        std::string why = "it knows no ion pairs and its rows are rounded to 0.1";
        if (out.salt_used.value() >= much_salt)
            why = "it takes salt water for fresh water";
        else if (in.temperature.value() < cold_kelvin)
            why = "its rows for cold water are too steep";
        out.hand_method = "reads " + two_places(std::abs(gap)) + (gap < 0 ? " lower: " : " higher: ") + why;
        if (std::abs(gap) < 0.05)
            out.hand_method = "agrees within 0.05";
    }
    double const way = out.air_ph->value() - in.ph.value();
    if (std::abs(way) < 0.1)
        out.drift = "near balance with open air: pH stays";
    else
        out.drift = std::string("pH will ") + (way > 0 ? "rise" : "fall") + " toward " +
                    numerics::number_text(std::round(out.air_ph->value() * 10) / 10) +
                    (way > 0 ? " as carbon dioxide leaves; jets and falls hurry it"
                             : " as carbon dioxide comes in from the air");
}

figures::Model saturation_model(std::shared_ptr<Engines const> engines)
{
    return figures::model<SaturationInput, SaturationOutput>(
        {.name = "saturation",
         .title = "saturation, chlorine and carbon dioxide of a water by its chemistry",
         .equation =
             "index = log10(ion activity product / K). All mass balances, ion pairs and activity coefficients of "
             "the water are solved at the pH read; carbonate alkalinity is what borate, cyanurate and "
             "hypochlorite leave of the alkalinity read",
         .valid = "32 to 194 °F, ionic strength to 1 mol/kg. Ions that no kit reads are those that come with what it "
                  "reads: sodium with alkalinity, sulfate and salt, chloride with hardness and salt. Cyanurate "
                  "constants hold at 25 °C (O'Brien) or 5 to 35 °C (Wahman and Alexander). Above 45 °C the two sets "
                  "part: 0.2 at 80 °C",
         .sources = {"plummer-busenberg-1982", "wateq4f-dat", "phreeqc-dat-388", "obrien-1974", "wahman-alexander-2019",
                     "morris-1966"}},
        [engines](SaturationInput const& in) { return saturation(in, *engines); },
        [engines](SaturationInput const& in, SaturationOutput& out) { say_saturation(in, out, *engines); });
}

// ---- the same water heated in a closed pipe

struct HeatedInput : WaterInput
{
    units::Temperature outlet_temperature{};
    units::TemperatureDifference wall_excess{};

    static Record<HeatedInput> const& declaration()
    {
        static Record<HeatedInput> const record =
            with_water_fields(Record<HeatedInput>("heated_water", "the water at a heater's outlet and at its hot wall"))
                .field("outlet_temperature", &HeatedInput::outlet_temperature, "temperature it is heated to")
                .required()
                .within("32 degF", "194 degF")
                .field("wall_excess", &HeatedInput::wall_excess, "how much hotter the exchanger's wall is than that")
                .otherwise("17.5 degF ± 10 degF",
                           "the trade reckons 15 to 20 °F (common practice, no source); more where flow is short")
                .within("0 degF", "100 degF");
        return record;
    }
};

struct HeatedOutput
{
    units::Ph ph{};
    std::optional<Number> saturation_calcite, saturation_aragonite, saturation_gypsum, other_set_calcite;
    units::AsCalciumCarbonate precipitation_potential{};
    Number log_co2_pressure{};
    std::optional<units::Temperature> wall_temperature;
    std::optional<Number> wall_calcite, other_set_wall;
    std::string in_words;

    static Record<HeatedOutput> const& declaration()
    {
        using O = HeatedOutput;
        static Record<O> const record =
            Record<O>("heated_water", "the heated water")
                .field("saturation_calcite", &O::saturation_calcite, "saturation index of calcite at the outlet")
                .field("wall_calcite", &O::wall_calcite, "saturation index of calcite at the wall")
                .field("ph", &O::ph, "pH at the outlet")
                .field("saturation_aragonite", &O::saturation_aragonite, "saturation index of aragonite at the outlet")
                .field("saturation_gypsum", &O::saturation_gypsum, "saturation index of gypsum at the outlet")
                .field("other_set_calcite", &O::other_set_calcite, "index of calcite by the other set of constants")
                .field("precipitation_potential", &O::precipitation_potential,
                       "calcium carbonate that would form there before calcite is just saturated")
                .field("log_co2_pressure", &O::log_co2_pressure, "log10 of the pressure of carbon dioxide, atm")
                .field("wall_temperature", &O::wall_temperature, "of the exchanger's wall; none above 90 °C")
                .field("other_set_wall", &O::other_set_wall, "the same by the other set of constants")
                .field("in_words", &O::in_words, "what that does to a heater");
        return record;
    }
};

State heated(Equilibria const& engine, State const& before, units::Temperature to)
{
    Composition warm = before.composition();
    warm.temperature = to;
    return engine.of(warm, before);
}

HeatedOutput heated_water(HeatedInput const& in, Engines const& engines)
{
    auto const& mine = engines.of(in.constants, in.cyanurate_constants);
    auto const& others = engines.of(other(in.constants), in.cyanurate_constants);
    auto const water = composition_of(fitted(in, engines));
    State const s = mine.at_ph(water, in.ph), t = others.at_ph(water, in.ph, s);
    State const hot = heated(mine, s, in.outlet_temperature), hot_too = heated(others, t, in.outlet_temperature);
    double const calcite = hot.saturation(Mineral::calcite), calcite_too = hot_too.saturation(Mineral::calcite);
    double const moved = std::isfinite(calcite) ? shift(in, calcite, calcite_too) : 0.0;
    HeatedOutput out;
    out.ph = hot.ph();
    out.saturation_calcite = number_if_finite(calcite + moved);
    out.saturation_aragonite = number_if_finite(hot.saturation(Mineral::aragonite) + moved);
    out.saturation_gypsum = number_if_finite(hot.saturation(Mineral::gypsum));
    out.other_set_calcite = number_if_finite(calcite_too);
    out.precipitation_potential = precipitation_potential(mine, hot, -moved);
    out.log_co2_pressure = Number::from_value(hot.log_co2_pressure());
    constexpr double hottest = 363.15; // of the constants
    auto const wall = in.outlet_temperature + in.wall_excess;
    if (wall.value() > hottest)
        return out;
    out.wall_temperature = wall;
    double const at_wall = heated(mine, hot, wall).saturation(Mineral::calcite);
    double const at_wall_too = heated(others, hot_too, wall).saturation(Mineral::calcite);
    out.wall_calcite = number_if_finite(std::isfinite(at_wall) ? at_wall + shift(in, at_wall, at_wall_too) : at_wall);
    out.other_set_wall = number_if_finite(at_wall_too);
    return out;
}

void say_heated(HeatedOutput& out, IndexBand const& band)
{
    if (!out.saturation_calcite)
    {
        out.in_words = "nothing to form scale from";
        return;
    }
    double const worst =
        std::max(out.saturation_calcite->value(), out.wall_calcite.value_or(*out.saturation_calcite).value());
    if (worst > band.high.value())
        out.in_words = "scale will form in the heater, on its hot wall first";
    else if (worst > 0)
        out.in_words = "a little oversaturated in the heater: scale is slow but possible on its hot wall";
    else
        out.in_words = "no scale from this water in the heater";
}

figures::Model heated_model(std::shared_ptr<Engines const> engines)
{
    return figures::model<HeatedInput, HeatedOutput>(
        {.name = "heated_water",
         .title = "pH and saturation of a water at a heater's outlet and hot wall",
         .equation =
             "all totals of the water stay as they are in the closed pipe; pH and every species follow from them "
             "at the new temperature",
         .valid =
             "32 to 194 °F at the outlet and at the wall; what is hotter is not computed. At 60 °C the two sets of "
             "constants differ by about 0.1, at 80 °C by 0.2",
         .sources = {"plummer-busenberg-1982", "wateq4f-dat", "phreeqc-dat-388"}},
        [engines](HeatedInput const& in) { return heated_water(in, *engines); },
        [engines](HeatedInput const&, HeatedOutput& out) { say_heated(out, engines->handbook.band); });
}

// ---- the same water with something added

struct DosedInput : WaterInput
{
    units::AsHydrogenChloride hydrochloric_acid{};
    units::AsBicarbonate bicarbonate{};
    units::AsCarbonate carbonate{};
    units::AsCalciumChloride calcium_chloride{};
    std::optional<units::AbsolutePressure> co2_pressure;

    static Record<DosedInput> const& declaration()
    {
        using I = DosedInput;
        static Record<I> const record =
            with_water_fields(Record<I>("dosed_water", "the water after something was added"))
                .field("hydrochloric_acid", &I::hydrochloric_acid, "acid added, as pure hydrogen chloride")
                .otherwise("0 ppm", "none added")
                .within("0 ppm", "5000 ppm")
                .field("bicarbonate", &I::bicarbonate, "sodium bicarbonate added")
                .otherwise("0 ppm", "none added")
                .within("0 ppm", "10000 ppm")
                .field("carbonate", &I::carbonate, "soda ash added, as pure sodium carbonate")
                .otherwise("0 ppm", "none added")
                .within("0 ppm", "10000 ppm")
                .field("calcium_chloride", &I::calcium_chloride, "calcium chloride added, as if free of water")
                .otherwise("0 ppm", "none added")
                .within("0 ppm", "10000 ppm")
                .field("co2_pressure", &I::co2_pressure,
                       "carbon dioxide of the air it is brought into balance with, after that; open air is 42.5 Pa")
                .within("0.01 Pa", "100000 Pa");
        return record;
    }
};

struct DosedOutput
{
    units::Ph ph{};
    units::AsCalciumCarbonate alkalinity{}, calcium{}, carbonate_alkalinity{};
    std::optional<Number> saturation_calcite, saturation_aragonite, saturation_gypsum;
    Number log_co2_pressure{};
    units::Molality total_carbonate{};
    units::AsChlorine hocl{};

    static Record<DosedOutput> const& declaration()
    {
        using O = DosedOutput;
        static Record<O> const record =
            Record<O>("dosed_water", "the water after that")
                .field("ph", &O::ph, "pH, before any carbon dioxide leaves unless its pressure was given")
                .field("alkalinity", &O::alkalinity, "total alkalinity")
                .field("calcium", &O::calcium, "calcium hardness")
                .field("carbonate_alkalinity", &O::carbonate_alkalinity, "alkalinity left to carbonate")
                .field("saturation_calcite", &O::saturation_calcite, "saturation index of calcite")
                .field("saturation_aragonite", &O::saturation_aragonite, "saturation index of aragonite")
                .field("saturation_gypsum", &O::saturation_gypsum, "saturation index of gypsum")
                .field("log_co2_pressure", &O::log_co2_pressure, "log10 of the pressure of carbon dioxide, atm")
                .field("total_carbonate", &O::total_carbonate, "all dissolved carbonate")
                .field("hocl", &O::hocl, "hypochlorous acid");
        return record;
    }
};

DosedOutput dosed_water(DosedInput const& in, Engines const& engines)
{
    auto const& engine = engines.of(in.constants, in.cyanurate_constants);
    auto const& others = engines.of(other(in.constants), in.cyanurate_constants);
    auto const acid = molality(in.hydrochloric_acid), bicarbonate = molality(in.bicarbonate),
               carbonate = molality(in.carbonate), calcium = molality(in.calcium_chloride);
    Totals added;
    added.chloride = acid + 2.0 * calcium;
    added.alkalinity = bicarbonate + 2.0 * carbonate - acid;
    added.carbonate = bicarbonate + carbonate;
    added.sodium = bicarbonate + 2.0 * carbonate;
    added.calcium = calcium;
    auto const start = composition_of(fitted(in, engines));
    auto after = [&](Equilibria const& e)
    {
        Composition water = e.at_ph(start, in.ph).composition();
        water.totals = water.totals + added;
        if (!in.co2_pressure)
            return e.of(water);
        constexpr double atmosphere = 101325;
        return e.at_co2(water, std::log10(in.co2_pressure->value() / atmosphere));
    };
    State const s = after(engine);
    double const calcite = s.saturation(Mineral::calcite);
    double const moved = std::isfinite(calcite) ? shift(in, calcite, after(others).saturation(Mineral::calcite)) : 0.0;
    DosedOutput out;
    out.ph = s.ph();
    out.alkalinity = alkalinity(s.composition().totals.alkalinity);
    out.calcium = hardness(s.composition().totals.calcium);
    out.carbonate_alkalinity = alkalinity(s.carbonate_alkalinity());
    out.saturation_calcite = number_if_finite(calcite + moved);
    out.saturation_aragonite = number_if_finite(s.saturation(Mineral::aragonite) + moved);
    out.saturation_gypsum = number_if_finite(s.saturation(Mineral::gypsum));
    out.log_co2_pressure = Number::from_value(s.log_co2_pressure());
    out.total_carbonate = s.composition().totals.carbonate;
    out.hocl = as_chlorine(s.hypochlorous_acid());
    return out;
}

figures::Model dosed_model(std::shared_ptr<Engines const> engines)
{
    return figures::model<DosedInput, DosedOutput>(
        {.name = "dosed_water",
         .title = "pH, alkalinity and saturation after acid, bicarbonate, soda ash, calcium chloride or air",
         .equation = "what is added is added to the totals; pH and every species follow from them. Acid lowers "
                     "alkalinity by its equivalents, bicarbonate raises alkalinity and carbonate alike, soda ash "
                     "alkalinity by twice its carbonate; carbon dioxide changes carbonate alone",
         .valid = "as for saturation; nothing settles out, nothing boils off unless its pressure is given",
         .sources = {"plummer-busenberg-1982", "wateq4f-dat", "phreeqc-dat-388"},
         .cautions = {"pool_chemicals"}},
        [engines](DosedInput const& in) { return dosed_water(in, *engines); });
}

} // namespace

std::vector<figures::Model> water_models(reference::Data const& data)
{
    auto const engines = std::make_shared<Engines const>(data);
    return {saturation_model(engines), heated_model(engines), dosed_model(engines)};
}

} // namespace padwalk::chemistry
