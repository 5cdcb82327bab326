#include "models_parts.hpp"

#include "padwalk/circulation/head.hpp"

namespace padwalk::circulation
{
namespace
{

using fields::Record;

struct HeadOfPressureInput
{
    units::Pressure pressure{};
    units::Temperature water_temperature{};

    static Record<HeadOfPressureInput> const& declaration()
    {
        static Record<HeadOfPressureInput> const record =
            Record<HeadOfPressureInput>("head_of_pressure", "a pressure or a difference of two")
                .field("pressure", &HeadOfPressureInput::pressure, "pressure; a vacuum is negative")
                .required()
                .within("-15 psi", "200 psi")
                .field("water_temperature", &HeadOfPressureInput::water_temperature, "temperature of the water")
                .otherwise(usual_water, usual_water_because)
                .within("32 degF", "140 degF");
        return record;
    }
};

struct HeadOutput
{
    units::Head head{};

    static Record<HeadOutput> const& declaration()
    {
        static Record<HeadOutput> const record =
            Record<HeadOutput>("head", "a height of water")
                .field("head", &HeadOutput::head, "height of water that makes this pressure");
        return record;
    }
};

struct PressureOfHeadInput
{
    units::Head head{};
    units::Temperature water_temperature{};

    static Record<PressureOfHeadInput> const& declaration()
    {
        static Record<PressureOfHeadInput> const record =
            Record<PressureOfHeadInput>("pressure_of_head", "a height of water")
                .field("head", &PressureOfHeadInput::head, "height of water; negative below the gauge")
                .required()
                .within("-35 ft", "450 ft")
                .field("water_temperature", &PressureOfHeadInput::water_temperature, "temperature of the water")
                .otherwise(usual_water, usual_water_because)
                .within("32 degF", "140 degF");
        return record;
    }
};

struct PressureOutput
{
    units::Pressure pressure{};

    static Record<PressureOutput> const& declaration()
    {
        static Record<PressureOutput> const record =
            Record<PressureOutput>("pressure", "a pressure")
                .field("pressure", &PressureOutput::pressure, "pressure under this height of water")
                .shown_in("psi", "kPa");
        return record;
    }
};

struct TotalHeadInput
{
    units::GaugePressure discharge_gauge{};
    units::GaugePressure suction_gauge{};
    units::Length discharge_height{};
    units::Length suction_height{};
    std::optional<units::Length> discharge_bore;
    std::optional<units::Length> suction_bore;
    std::optional<units::VolumeFlow> flow;
    units::Temperature water_temperature{};

    static Record<TotalHeadInput> const& declaration()
    {
        static Record<TotalHeadInput> const record =
            Record<TotalHeadInput>("total_dynamic_head", "the two gauges beside the pump")
                .field("discharge_gauge", &TotalHeadInput::discharge_gauge, "gauge after the pump")
                .required()
                .within("-15 psi", "200 psi")
                .like("18 psi")
                .field("suction_gauge", &TotalHeadInput::suction_gauge, "gauge before the pump; a vacuum is negative")
                .required()
                .within("-15 psi", "100 psi")
                .like("-6 inHg")
                .field("discharge_height", &TotalHeadInput::discharge_height,
                       "height of the discharge gauge above any level")
                .otherwise("0 ft", "both gauges are taken as level; each foot between them is a foot of head")
                .within("-50 ft", "50 ft")
                .field("suction_height", &TotalHeadInput::suction_height,
                       "height of the suction gauge above the same level")
                .otherwise("0 ft", "both gauges are taken as level; each foot between them is a foot of head")
                .within("-50 ft", "50 ft")
                .field("discharge_bore", &TotalHeadInput::discharge_bore, "bore of the pipe at the discharge gauge")
                .within("0.3 in", "24 in")
                .field("suction_bore", &TotalHeadInput::suction_bore, "bore of the pipe at the suction gauge")
                .within("0.3 in", "24 in")
                .field("flow", &TotalHeadInput::flow, "flow; with both bores it adds the velocity heads")
                .within("0 gpm", "5000 gpm")
                .field("water_temperature", &TotalHeadInput::water_temperature, "temperature of the water")
                .otherwise(usual_water, usual_water_because)
                .within("32 degF", "140 degF");
        return record;
    }
};

struct TotalHeadOutput
{
    units::Head total_dynamic_head{};
    std::optional<units::Head> velocity_head_part;

    static Record<TotalHeadOutput> const& declaration()
    {
        static Record<TotalHeadOutput> const record =
            Record<TotalHeadOutput>("total_dynamic_head", "head that the pump adds")
                .field("total_dynamic_head", &TotalHeadOutput::total_dynamic_head,
                       "head that the pump adds to the water")
                .field("velocity_head_part", &TotalHeadOutput::velocity_head_part,
                       "part of it that is difference of velocity heads; left out where flow or a bore is not known");
        return record;
    }
};

TotalHeadOutput total_head(TotalHeadInput const& in)
{
    TotalHead const head =
        total_dynamic_head({in.suction_gauge, in.suction_height, in.suction_bore},
                           {in.discharge_gauge, in.discharge_height, in.discharge_bore}, in.flow, in.water_temperature);
    if (head.total <= units::Head{})
        throw figures::NotComputed(
            "by these readings the pump adds no head: is it running, are the gauges exchanged, and is the vacuum "
            "written with a minus?");
    return {head.total, head.velocity_part};
}

} // namespace

void add_head_models(std::vector<figures::Model>& models)
{
    models.push_back(figures::model<HeadOfPressureInput, HeadOutput>(
        {.name = "head_of_pressure",
         .title = "height of water that makes a pressure",
         .equation = "h = p / (rho g); 1 psi is 2.31 ft at 68 °F",
         .valid = "pure water from 32 to 140 °F; a salt pool's is 0.3 % less",
         .sources = {"iapws-if97", "hydraulic-institute"}},
        [](HeadOfPressureInput const& in) { return HeadOutput{head_of_pressure(in.pressure, in.water_temperature)}; }));
    models.push_back(figures::model<PressureOfHeadInput, PressureOutput>(
        {.name = "pressure_of_head",
         .title = "pressure under a height of water",
         .equation = "p = rho g h",
         .valid = "pure water from 32 to 140 °F; a salt pool's is 0.3 % more",
         .sources = {"iapws-if97", "hydraulic-institute"}},
        [](PressureOfHeadInput const& in) { return PressureOutput{pressure_of_head(in.head, in.water_temperature)}; }));
    models.push_back(figures::model<TotalHeadInput, TotalHeadOutput>(
        {.name = "total_dynamic_head",
         .title = "head that the pump adds, from the gauges before and after it",
         .equation = "H = (p_d - p_s)/(rho g) + (z_d - z_s) + (v_d² - v_s²)/2g",
         .valid = "gauges close to the pump on pipes full of water; a gauge on top of the filter reads less by what "
                  "lies between",
         .sources = {"hydraulic-institute", "iapws-if97"}},
        total_head));
}

} // namespace padwalk::circulation
