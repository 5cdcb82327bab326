// The figure of what a pool or spa loses.
#include "model_groups.hpp"
#include "surroundings_fields.hpp"

#include "padwalk/heating/heat.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"

namespace padwalk::heating
{
namespace
{

using fields::Record;

struct LossInput : SurroundingsInput
{
    units::Temperature water_temperature{};
    std::optional<units::Volume> volume;

    static Record<LossInput> const& declaration()
    {
        using In = LossInput;
        static Record<In> const record =
            with_surroundings(Record<In>("spa_heat_loss", "a pool or spa and what surrounds it")
                                  .field("water_temperature", &In::water_temperature, "temperature of the water")
                                  .required()
                                  .within("33 degF", "120 degF")
                                  .like("104 degF")
                                  .field("volume", &In::volume, "water it holds; without it no fall of temperature")
                                  .within("10 gal", "2000000 gal"),
                              true);
        return record;
    }
};

struct LossOutput
{
    units::Power total{};
    units::Energy per_day{};
    units::Power evaporation{}, convection{}, radiation{}, cover_loss{}, shell_loss{}, falling_water{}, sun_gain{};
    std::optional<units::TemperatureDifference> fall_in_an_hour;
    std::optional<units::Fraction> evaporation_share;
    units::VolumeFlow water_lost{};
    std::string in_words;

    static Record<LossOutput> const& declaration()
    {
        using Out = LossOutput;
        static Record<Out> const record =
            Record<Out>("spa_heat_loss", "heat and water that leave")
                .field("total", &Out::total, "heat that a heater has to make good: all parts less the sun")
                .shown_in("Btu/h", "W")
                .field("per_day", &Out::per_day, "the same in a day")
                .shown_in("kWh", "kWh")
                .field("evaporation", &Out::evaporation, "heat lost by evaporation of the surface")
                .shown_in("Btu/h", "W")
                .field("convection", &Out::convection, "heat lost to the air as warmth")
                .shown_in("Btu/h", "W")
                .field("radiation", &Out::radiation, "heat lost to sky and surroundings, less what they send back")
                .shown_in("Btu/h", "W")
                .field("cover_loss", &Out::cover_loss, "heat lost through the cover")
                .shown_in("Btu/h", "W")
                .field("shell_loss", &Out::shell_loss, "heat lost through floor and walls")
                .shown_in("Btu/h", "W")
                .field("falling_water", &Out::falling_water, "heat lost by falling sheets of water")
                .shown_in("Btu/h", "W")
                .field("sun_gain", &Out::sun_gain, "heat from the sun")
                .shown_in("Btu/h", "W")
                .field("fall_in_an_hour", &Out::fall_in_an_hour, "fall of the temperature in an hour without heat")
                .field("evaporation_share", &Out::evaporation_share, "evaporation's share of what leaves")
                .field("water_lost", &Out::water_lost, "water lost by evaporation")
                .shown_in("gal/day", "L/day")
                .field("in_words", &Out::in_words, "what that says");
        return record;
    }
};

LossOutput loss_of(LossInput const& in, LossFacts const& facts)
{
    HeatLoss const lost = heat_loss(in.water_temperature, water_body(in, in.volume), surroundings(in), facts);
    LossOutput out;
    out.total = lost.total();
    out.per_day = out.total * units::of_si<units::Duration>(units::exact::day);
    out.evaporation = lost.evaporation, out.convection = lost.convection, out.radiation = lost.radiation;
    out.cover_loss = lost.cover, out.shell_loss = lost.shell, out.falling_water = lost.falling_water;
    out.sun_gain = lost.sun;
    units::Power const leaves = lost.total() + lost.sun;
    if (units::in_si(leaves) > 0 && units::in_si(lost.evaporation) >= 0)
        out.evaporation_share = units::Fraction(lost.water * physics::latent_heat(in.water_temperature) / leaves);
    out.water_lost = lost.water / physics::density(in.water_temperature);
    if (in.volume)
    {
        auto const flow = *in.volume / units::of_si<units::Duration>(units::exact::hour);
        out.fall_in_an_hour = out.total / heat_capacity_flow(flow, in.water_temperature);
    }
    return out;
}

void loss_in_words(LossInput const& in, LossOutput& out)
{
    if (units::in_si(out.water_lost) < 0)
        out.in_words = "the air is so damp that vapour condenses on the water and warms it; no form of evaporation was "
                       "made for that, so take this as rough";
    else if (units::in_si(out.total) <= 0)
        out.in_words = "air and sun give the water more than it loses: it warms by itself";
    else if (in.covered.value_or(units::Fraction()).value() >= 0.5)
        out.in_words = "the cover stops most of the evaporation; what is left goes through the cover, its gaps and the "
                       "shell";
    else if (out.evaporation_share && out.evaporation_share->value() > 0.4)
        out.in_words = "most goes with the water that evaporates; a cover stops nearly all of that, and shelter from "
                       "wind a part";
    else
        out.in_words = "no one part is most of it; a cover lowers evaporation, convection and radiation together";
    if (!in.volume && !in.shell_area)
        out.in_words += ". Floor and walls are left out: neither volume nor shell_area was given";
}

} // namespace

figures::Model spa_heat_loss_model(LossFacts const& facts)
{
    return figures::model<LossInput, LossOutput>(
        {.name = "spa_heat_loss",
         .title = "heat that a pool or spa loses, part by part",
         .equation = "evaporation = f s (h0 + h1 v)(pw - pa)(p0/p)^0.25; convection = evaporation · 66 Pa/K · (p/p0) "
                     "(Tw - Ta)/(pw - pa) (Bowen); radiation = 0.95 σ (Tw⁴ - F Tsky⁴ - (1 - F) Ta⁴); cover = (Tw - "
                     "Ta)/(R + 0.04 m2 K/W); shell = U (Tw - T behind); sun = 0.8 of what falls on open water. Under "
                     "a cover 5 % of the evaporation is left",
         .valid = "water 33 to 120 °F; steady weather, so a mean over the time asked about. The sky's temperature is "
                  "that of Clark and Allen with Walton's cloud, both from memory; shells, R-values, the power of the "
                  "air's pressure and the sun's share are judgement or memory. Rain and fresh water are left out" +
                  std::string(rules_decide),
         .sources = {"ashrae-trans-1998-pools", "smith-lof-jones-1994", "heat-loss-worked-example", "clark-allen-1978",
                     "walton-1983", "cal-poly-covers", "iso-6946", "iapws-if97", "judgement", "common-practice"},
         .cautions = {"hot_water"}},
        [facts](LossInput const& in) { return loss_of(in, facts); }, loss_in_words);
}

} // namespace padwalk::heating
