#include "models_parts.hpp"

#include "padwalk/circulation/loop.hpp"
#include "padwalk/circulation/pipe.hpp"
#include "padwalk/physics/water.hpp"

namespace padwalk::circulation
{
namespace
{

using fields::Record;
using units::Length;
using units::Number;

constexpr char const* smooth_plastic = "0.00152 mm";
constexpr char const* smooth_plastic_because = "plastic pipe and drawn tubing, by the table of [hydraulic-institute]";
constexpr char const* no_fittings = "no fittings were counted, so the loss comes out too small";
constexpr char const* default_formula_because = "it holds for every flow and temperature";

Number c_for(FrictionFormula formula, std::optional<Number> const& c)
{
    if (formula == FrictionFormula::hazen_williams && !c)
        throw figures::NotComputed("hazen_williams needs hazen_williams_c; smooth plastic pipe is usually given 150");
    return c.value_or(Number{});
}

struct PipeVelocityInput
{
    units::VolumeFlow flow{};
    Length bore{};
    std::optional<PipeSide> side;

    static Record<PipeVelocityInput> const& declaration()
    {
        static Record<PipeVelocityInput> const record =
            Record<PipeVelocityInput>("pipe_velocity", "a flow in a pipe")
                .field("flow", &PipeVelocityInput::flow, "flow")
                .required()
                .within("0 gpm", "5000 gpm")
                .field("bore", &PipeVelocityInput::bore, "inside diameter, not the trade size")
                .required()
                .within("0.3 in", "24 in")
                .like("2.058 in")
                .field("side", &PipeVelocityInput::side, "which pipe it is; with it, published limits are told");
        return record;
    }
};

struct VelocityOutput
{
    units::Velocity velocity{};
    std::string published;

    static Record<VelocityOutput> const& declaration()
    {
        static Record<VelocityOutput> const record =
            Record<VelocityOutput>("pipe_velocity", "how fast the water runs")
                .field("velocity", &VelocityOutput::velocity, "mean velocity")
                .shown_in("ft/s", "m/s")
                .field("published", &VelocityOutput::published, "published limits, whose they are, and if kept");
        return record;
    }
};

struct PipeFrictionInput
{
    units::VolumeFlow flow{};
    Length bore{};
    Length length{};
    Length roughness{};
    Number minor_loss{};
    units::Temperature water_temperature{};
    FrictionFormula formula = FrictionFormula::darcy_weisbach;
    std::optional<Number> hazen_williams_c;

    static Record<PipeFrictionInput> const& declaration()
    {
        static Record<PipeFrictionInput> const record =
            Record<PipeFrictionInput>("pipe_friction", "a flow in a pipe of some length")
                .field("flow", &PipeFrictionInput::flow, "flow")
                .required()
                .within("0.01 gpm", "5000 gpm")
                .field("bore", &PipeFrictionInput::bore, "inside diameter, not the trade size")
                .required()
                .within("0.3 in", "24 in")
                .like("2.058 in")
                .field("length", &PipeFrictionInput::length, "straight length")
                .required()
                .within("0 ft", "10000 ft")
                .field("roughness", &PipeFrictionInput::roughness, "height of the wall's roughness")
                .otherwise(smooth_plastic, smooth_plastic_because)
                .within("0 mm", "5 mm")
                .like("0.0015 mm")
                .field("minor_loss", &PipeFrictionInput::minor_loss, "sum of the fittings' loss coefficients")
                .otherwise("0", no_fittings)
                .within("0", "1000000")
                .field("water_temperature", &PipeFrictionInput::water_temperature, "temperature of the water")
                .otherwise(usual_water, usual_water_because)
                .within("32 degF", "140 degF")
                .field("formula", &PipeFrictionInput::formula, "friction formula")
                .otherwise("darcy_weisbach", default_formula_because)
                .field("hazen_williams_c", &PipeFrictionInput::hazen_williams_c, "coefficient of hazen_williams")
                .within("40", "160")
                .like("150");
        return record;
    }
};

struct PipeFrictionOutput
{
    units::Head head_loss{};
    units::Velocity velocity{};
    Number reynolds{};
    std::optional<Number> friction_factor;

    static Record<PipeFrictionOutput> const& declaration()
    {
        static Record<PipeFrictionOutput> const record =
            Record<PipeFrictionOutput>("pipe_friction", "what the pipe takes")
                .field("head_loss", &PipeFrictionOutput::head_loss, "head lost in pipe and fittings")
                .field("velocity", &PipeFrictionOutput::velocity, "mean velocity")
                .shown_in("ft/s", "m/s")
                .field("reynolds", &PipeFrictionOutput::reynolds, "Reynolds number")
                .field("friction_factor", &PipeFrictionOutput::friction_factor,
                       "Darcy friction factor; none with hazen_williams");
        return record;
    }
};

PipeFrictionOutput pipe_friction(PipeFrictionInput const& in)
{
    Pipe const pipe{in.bore, in.length, in.minor_loss, in.roughness, c_for(in.formula, in.hazen_williams_c)};
    PipeLoss const loss = pipe_loss(pipe, in.flow, in.formula, physics::kinematic_viscosity(in.water_temperature));
    require_turbulent_for(in.formula, loss);
    return {loss.total(), loss.velocity, loss.reynolds, loss.friction_factor};
}

struct OperatingPointInput
{
    Length suction_bore{}, suction_length{};
    Number suction_minor_loss{};
    Length discharge_bore{}, discharge_length{};
    Number discharge_minor_loss{}, filter_minor_loss{}, heater_minor_loss{};
    Length roughness{};
    FrictionFormula formula = FrictionFormula::darcy_weisbach;
    std::optional<Number> hazen_williams_c;
    units::Temperature water_temperature{};
    std::vector<fields::CurvePoint> curve;
    units::Fraction speed{};

    static Record<OperatingPointInput> const& declaration()
    {
        using In = OperatingPointInput;
        static Record<In> const record =
            Record<In>("operating_point", "a loop and its pump")
                .field("suction_bore", &In::suction_bore, "inside diameter of the suction pipe")
                .required()
                .within("0.3 in", "24 in")
                .like("2.058 in")
                .field("suction_length", &In::suction_length, "straight length of the suction pipe")
                .required()
                .within("0 ft", "10000 ft")
                .field("suction_minor_loss", &In::suction_minor_loss,
                       "sum of the loss coefficients on the suction pipe, its entrance too")
                .otherwise("0", no_fittings)
                .within("0", "1000000")
                .field("discharge_bore", &In::discharge_bore, "inside diameter of the pipe after the pump")
                .required()
                .within("0.3 in", "24 in")
                .like("2.058 in")
                .field("discharge_length", &In::discharge_length, "straight length of the pipe after the pump")
                .required()
                .within("0 ft", "10000 ft")
                .field("discharge_minor_loss", &In::discharge_minor_loss,
                       "sum of the loss coefficients after the pump, the exit too")
                .otherwise("0", no_fittings)
                .within("0", "1000000")
                .field("filter_minor_loss", &In::filter_minor_loss,
                       "loss coefficient of the filter on the discharge bore")
                .otherwise("0", "no filter was counted, so the flow comes out too high")
                .within("0", "1000000")
                .field("heater_minor_loss", &In::heater_minor_loss,
                       "loss coefficient of the heater on the discharge bore")
                .otherwise("0", "no heater was counted")
                .within("0", "1000000")
                .field("roughness", &In::roughness, "height of the walls' roughness")
                .otherwise(smooth_plastic, smooth_plastic_because)
                .within("0 mm", "5 mm")
                .like("0.0015 mm")
                .field("formula", &In::formula, "friction formula")
                .otherwise("darcy_weisbach", default_formula_because)
                .field("hazen_williams_c", &In::hazen_williams_c, "coefficient of hazen_williams")
                .within("40", "160")
                .like("150")
                .field("water_temperature", &In::water_temperature, "temperature of the water")
                .otherwise(usual_water, usual_water_because)
                .within("32 degF", "140 degF")
                .field("curve", &In::curve,
                       "points flow:head of this pump's curve; three, the first at no flow, are best")
                .required()
                .field("speed", &In::speed, "speed as a share of the curve's")
                .otherwise("100 %", "the pump is taken to run at the speed of its curve")
                .within("5 %", "200 %");
        return record;
    }
};

struct OperatingPointOutput
{
    units::VolumeFlow flow{};
    units::Head pump_head{}, suction_loss{}, discharge_loss{}, filter_loss{}, heater_loss{};

    static Record<OperatingPointOutput> const& declaration()
    {
        using Out = OperatingPointOutput;
        static Record<Out> const record =
            Record<Out>("operating_point", "where pump and loop agree")
                .field("flow", &Out::flow, "flow of the loop")
                .shown_in("gpm", "m3/h")
                .field("pump_head", &Out::pump_head, "head that the pump makes, all of it lost in the loop")
                .field("suction_loss", &Out::suction_loss, "head lost in the suction pipe and its fittings")
                .field("discharge_loss", &Out::discharge_loss, "head lost in the pipe after the pump and its fittings")
                .field("filter_loss", &Out::filter_loss, "head lost in the filter")
                .field("heater_loss", &Out::heater_loss, "head lost in the heater");
        return record;
    }
};

OperatingPointOutput operating(OperatingPointInput const& in)
{
    Number const c = c_for(in.formula, in.hazen_williams_c);
    Loop const loop{{in.suction_bore, in.suction_length, in.suction_minor_loss, in.roughness, c},
                    {in.discharge_bore, in.discharge_length, in.discharge_minor_loss, in.roughness, c},
                    in.filter_minor_loss,
                    in.heater_minor_loss,
                    in.formula};
    OperatingPoint const point = operating_point(loop, PumpCurve(in.curve, in.speed), in.water_temperature);
    return {point.flow,          point.pump_head,    point.losses.suction.total(), point.losses.discharge.total(),
            point.losses.filter, point.losses.heater};
}

} // namespace

void add_pipe_models(std::vector<figures::Model>& models, Published const& published)
{
    models.push_back(figures::model<PipeVelocityInput, VelocityOutput>(
        {.name = "pipe_velocity",
         .title = "how fast water runs in a pipe",
         .equation = "v = Q / (pi d²/4)",
         .valid = "a round pipe, full. Limits bind where and when their rule says; editions differ",
         .sources = {"hydraulic-institute", "nac-444", "circ-fulton-county", "circ-pima-county", "circ-california-150p",
                     "circ-apsp-5", "circ-hydraulics-page"}},
        [](PipeVelocityInput const& in) {
            return VelocityOutput{pipe_velocity(in.flow, in.bore), {}};
        },
        [limits = published.velocities](PipeVelocityInput const& in, VelocityOutput& out)
        {
            if (in.side)
                out.published = velocity_in_words(out.velocity, *in.side, limits);
        }));
    models.push_back(figures::model<PipeFrictionInput, PipeFrictionOutput>(
        {.name = "pipe_friction",
         .title = "head lost in a pipe and its fittings",
         .equation = "h = (f l/d + K) v²/2g; f = 64/Re to Re 2000, from 4000 the root of 1/sqrt f = -2 log10(e/(3.7 d) "
                     "+ 2.51/(Re sqrt f)), a straight "
                     "line between. hazen_williams: 10.67 l Q^1.852/(C^1.852 d^4.8704) + K v²/2g, in SI",
         .valid = "water filling a round pipe; roughness up to 5 % of the bore. Between Re 2000 and 4000 the flow "
                  "jumps and no formula is right. "
                  "hazen_williams: turbulent water near room temperature. The doubt of 5 % (standard) of friction "
                  "formulas is from memory; it is spread over all "
                  "outputs, so take a velocity alone from pipe_velocity. The coefficient K of one fitting is known to "
                  "tens of per cent",
         .sources = {"hydraulic-institute", "circ-hazen-williams", "iapws-if97", "iapws-2008-viscosity", "judgement"},
         .own_doubt = 0.05},
        pipe_friction));
    models.push_back(figures::model<OperatingPointInput, OperatingPointOutput>(
        {.name = "operating_point",
         .title = "flow on which pump, pipes, filter and heater settle",
         .equation = "the flow Q at which H(Q) of the pump equals the losses of suction, filter, heater and discharge "
                     "(see pump_flow and pipe_friction)",
         .valid = "water that returns to where it came from; one suction and one discharge run; inside the pump's "
                  "curve. Filter and heater as "
                  "v²/2g on the discharge bore. The doubt of 5 % (standard) for curve and pump is our judgement; that "
                  "of the coefficients belongs with them",
         .sources = {"hydraulic-institute", "circ-epanet", "circ-hazen-williams", "iapws-if97", "iapws-2008-viscosity",
                     "judgement"},
         .own_doubt = 0.05},
        operating));
}

} // namespace padwalk::circulation
