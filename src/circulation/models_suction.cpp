#include "models_parts.hpp"

#include "padwalk/circulation/pipe.hpp"
#include "padwalk/circulation/suction.hpp"

namespace padwalk::circulation
{
namespace
{

using fields::Record;

struct SuctionInput
{
    units::GaugePressure suction_gauge{};
    std::optional<units::VolumeFlow> flow;
    std::optional<units::Length> bore;
    units::Length gauge_height{};
    units::Temperature water_temperature{};
    units::Length altitude{};
    std::optional<units::Head> required;

    static Record<SuctionInput> const& declaration()
    {
        static Record<SuctionInput> const record =
            Record<SuctionInput>("suction_margin", "the gauge before the pump, and where it stands")
                .field("suction_gauge", &SuctionInput::suction_gauge, "gauge at the pump's inlet; a vacuum is negative")
                .required()
                .within("-15 psi", "100 psi")
                .like("-6 inHg")
                .field("flow", &SuctionInput::flow, "flow; with bore it adds the velocity head")
                .within("0 gpm", "5000 gpm")
                .field("bore", &SuctionInput::bore, "bore of the pipe at the gauge")
                .within("0.3 in", "24 in")
                .field("gauge_height", &SuctionInput::gauge_height, "height of the gauge above the middle of the pump")
                .otherwise("0 ft", "the gauge is taken as level with the pump; each foot is a foot of head")
                .within("-20 ft", "20 ft")
                .field("water_temperature", &SuctionInput::water_temperature, "temperature of the water")
                .required()
                .within("32 degF", "140 degF")
                .field("altitude", &SuctionInput::altitude, "height of the site above the sea")
                .otherwise("0 ft", "no altitude was given; every 1000 ft takes 1.2 ft off")
                .within("-1400 ft", "15000 ft")
                .like("5000 ft")
                .field("required", &SuctionInput::required,
                       "suction head the pump requires at this flow (NPSHR), from its curve")
                .within("0.5 ft", "60 ft");
        return record;
    }
};

struct SuctionOutput
{
    units::Head npsh_available{};
    std::optional<units::Head> margin;
    units::GaugePressure vacuum_at_boiling{};
    std::string in_words;

    static Record<SuctionOutput> const& declaration()
    {
        static Record<SuctionOutput> const record =
            Record<SuctionOutput>("suction_margin", "how far the water is from boiling")
                .field("npsh_available", &SuctionOutput::npsh_available,
                       "head above boiling at the pump's inlet (NPSHA)")
                .field("margin", &SuctionOutput::margin, "that head less what the pump requires")
                .field("vacuum_at_boiling", &SuctionOutput::vacuum_at_boiling,
                       "gauge reading at which this water boils here")
                .shown_in("inHg", "kPa")
                .field("in_words", &SuctionOutput::in_words, "what it means");
        return record;
    }
};

SuctionOutput suction_margin(SuctionInput const& in, units::Number good_ratio)
{
    Inlet inlet{in.suction_gauge, in.gauge_height, std::nullopt, in.water_temperature, in.altitude};
    if (in.flow && in.bore)
        inlet.velocity = pipe_velocity(*in.flow, *in.bore);
    SuctionOutput out;
    out.npsh_available = suction_head_available(inlet);
    if (in.required)
        out.margin = out.npsh_available - *in.required;
    out.vacuum_at_boiling = vacuum_at_boiling(in.water_temperature, in.altitude);
    out.in_words = suction_in_words(out.npsh_available, in.required, good_ratio);
    return out;
}

} // namespace

void add_suction_models(std::vector<figures::Model>& models, Rules const& rules)
{
    units::Number const good_ratio = rules.good_suction_ratio.value;
    models.push_back(figures::model<SuctionInput, SuctionOutput>(
        {.name = "suction_margin",
         .title = "how far the water at the pump's inlet is from boiling",
         .equation = "NPSHA = (p_air + p_gauge - p_vapour)/(rho g) + v²/2g + z;  margin = NPSHA - NPSHR",
         .valid = "water from 32 to 140 °F, -1400 to 15 000 ft; weather moves the air's pressure by up to 1 ft of "
                  "water. Noise and damage can come "
                  "with some margin left. From memory: small pool pumps require 7 to 16 ft near their best flow, more "
                  "beyond it",
         .sources = {"hydraulic-institute", "iapws-if97", "icao-7488", "circ-crane-tp-410"}},
        [good_ratio](SuctionInput const& in) { return suction_margin(in, good_ratio); }));
}

} // namespace padwalk::circulation
