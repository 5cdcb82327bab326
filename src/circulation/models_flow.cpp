// The figures by which flow is known without a flow meter, and their joint value.
#include "models_parts.hpp"

#include "padwalk/circulation/flow_estimates.hpp"

namespace padwalk::circulation
{
namespace
{

using fields::Record;
using units::Fraction;
using units::Length;
using units::Number;
using units::VolumeFlow;

struct PressureInput
{
    units::GaugePressure gauge_pressure{};
    GaugePlace gauge_at = GaugePlace::filter_inlet;
    Length gauge_height{};
    Length return_bore{}, return_length{}, roughness{};
    Number return_minor_loss{}, heater_loss{};
    std::optional<FilterMedium> filter_medium;
    std::optional<units::Area> filter_area;
    Fraction filter_loading{};
    Number openings{};
    Length opening_diameter{};
    Number discharge_coefficient{};
    Length outlet_height{};
    units::Temperature water_temperature{};

    static Record<PressureInput> const& declaration();
};

Record<PressureInput> const& PressureInput::declaration()
{
    using In = PressureInput;
    static Record<In> const record =
        Record<In>("pressure_flow", "a gauge and what lies between it and the water")
            .field("gauge_pressure", &In::gauge_pressure, "what the gauge shows while the pump runs")
            .required()
            .within("-15 psi", "150 psi")
            .like("14 psi")
            .field("gauge_at", &In::gauge_at, "where it sits")
            .otherwise("filter_inlet", "the gauge of a filter mostly sits before its bed")
            .field("gauge_height", &In::gauge_height, "height of the gauge above the water; below it with a minus")
            .otherwise("3 ft ± 2 ft", "gauges mostly sit breast high beside the pool; our judgement")
            .within("-30 ft", "60 ft")
            .field("return_bore", &In::return_bore, "inside diameter of the return pipe, not the trade size")
            .required()
            .within("0.3 in", "24 in")
            .like("2.067 in")
            .field("return_length", &In::return_length, "straight length of the pipe from the gauge to the pool")
            .otherwise("60 ft ± 40 ft", "a usual run from pad to pool; our judgement")
            .within("0 ft", "10000 ft")
            .field("return_minor_loss", &In::return_minor_loss,
                   "sum of the loss coefficients of its fittings and valves, outlets left out")
            .otherwise("8 ± 5", "some elbows, tees and a valve; our judgement")
            .within("0", "1000000")
            .field("roughness", &In::roughness, "height of the pipe wall's roughness")
            .otherwise("0.00152 mm", "plastic pipe and drawn tubing, by the table of [hydraulic-institute]")
            .within("0 mm", "5 mm")
            .field("heater_loss", &In::heater_loss, "loss coefficient of the heater on the return's bore; 0 for none")
            .otherwise("16 ± 8", "a gas heater in the loop, as the plant's table has it; our judgement")
            .within("0", "10000")
            .field("filter_medium", &In::filter_medium, "what filters; wanted for a gauge before the filter")
            .field("filter_area", &In::filter_area, "its area; wanted for a gauge before the filter")
            .within("0.5 ft2", "5000 ft2")
            .like("4.9 ft2")
            .field("filter_loading", &In::filter_loading, "how far it has loaded: 0 % clean, 100 % due for cleaning")
            .otherwise("25 % ± 30 %",
                       "a filter between two cleanings; our judgement. It counts for a gauge before the filter only")
            .within("0 %", "100 %")
            .field("openings", &In::openings, "how many openings the water comes back through")
            .required()
            .within("1", "100")
            .like("3")
            .field("opening_diameter", &In::opening_diameter, "diameter of each")
            .required()
            .within("0.1 in", "8 in")
            .like("0.75 in")
            .field("discharge_coefficient", &In::discharge_coefficient, "flow of an opening over that without loss")
            .otherwise("0.9 ± 0.1", "a rounded return fitting, as the plant's table has it; our judgement")
            .within("0.3", "1")
            .field("outlet_height", &In::outlet_height, "height of openings that pour through the air above the water")
            .otherwise("0 ft", "returns mostly lie under water")
            .within("0 ft", "60 ft")
            .field("water_temperature", &In::water_temperature, "temperature of the water")
            .otherwise(usual_water, usual_water_because)
            .within("32 degF", "140 degF");
    return record;
}

struct PressureOutput
{
    VolumeFlow flow{};

    static Record<PressureOutput> const& declaration()
    {
        static Record<PressureOutput> const record =
            Record<PressureOutput>("pressure_flow", "flow that the gauge implies")
                .field("flow", &PressureOutput::flow, "flow at which the return path takes what the gauge shows")
                .shown_in("gpm", "m3/h");
        return record;
    }
};

PressureOutput pressure_flow(PressureInput const& in, std::vector<FilterKind> const& kinds)
{
    ReturnPath path;
    if (in.gauge_at == GaugePlace::filter_inlet)
    {
        if (!in.filter_medium || !in.filter_area)
            throw figures::NotComputed("a gauge before the filter needs filter_medium and filter_area; a gauge behind "
                                       "it needs neither (gauge_at: behind_filter)");
        path.filter =
            filter_loss_of(kinds, *in.filter_medium, *in.filter_area, in.filter_loading, in.water_temperature);
    }
    path.heater = in.heater_loss;
    path.pipe = {in.return_bore, in.return_length, in.return_minor_loss, in.roughness, {}};
    path.openings = in.openings;
    path.opening = in.opening_diameter;
    path.discharge_coefficient = in.discharge_coefficient;
    path.outlet_height = in.outlet_height;
    return {flow_by_pressure({in.gauge_pressure, in.gauge_height, in.water_temperature}, path)};
}

struct MotorFlowInput
{
    std::vector<fields::CurvePoint> curve;
    units::Power input_power{};
    Fraction speed_ratio{};
    Fraction motor_efficiency{}, best_efficiency{}, no_flow_share{};
    Number motor_speed_exponent{};
    std::optional<VolumeFlow> best_flow;
    units::Temperature water_temperature{};

    static Record<MotorFlowInput> const& declaration()
    {
        using In = MotorFlowInput;
        static Record<In> const record =
            Record<In>("motor_flow", "a pump's curve and what its motor takes")
                .field("curve", &In::curve,
                       "points flow:head of this pump's curve; three, the first at no flow, are best")
                .required()
                .field("input_power", &In::input_power, "electric power the motor takes at this speed, as measured")
                .required()
                .within("1 W", "100 kW")
                .like("1400 W")
                .field("speed_ratio", &In::speed_ratio, "speed as a share of the curve's")
                .otherwise("100 %", "the pump is taken to run at the speed of its curve")
                .within("5 %", "200 %")
                .field("motor_efficiency", &In::motor_efficiency,
                       "shaft power over electric power at the speed of the curve")
                .otherwise("75 % ± 10 %", "a small induction motor; one with permanent magnets may reach 90 %; our "
                                          "judgement")
                .within("20 %", "98 %")
                .field("best_efficiency", &In::best_efficiency, "the pump's own best efficiency, water over shaft")
                .otherwise("60 % ± 10 %", "a small centrifugal pump; our judgement")
                .within("10 %", "90 %")
                .field("no_flow_share", &In::no_flow_share, "shaft power at no flow over that at the best flow")
                .otherwise("50 % ± 10 %", "a small centrifugal pump; our judgement")
                .within("10 %", "90 %")
                .field("motor_speed_exponent", &In::motor_speed_exponent,
                       "power of the speed with which motor and drive lose efficiency below the curve's speed")
                .otherwise("0.4 ± 0.3", "motor and drive lose efficiency at low speed; how much is our judgement")
                .within("0", "1.5")
                .field("best_flow", &In::best_flow,
                       "flow of best efficiency at the speed of the curve, where the maker prints it")
                .within("0.1 gpm", "5000 gpm")
                .field("water_temperature", &In::water_temperature, "temperature of the water")
                .otherwise(usual_water, usual_water_because)
                .within("32 degF", "140 degF");
        return record;
    }
};

struct MotorFlowOutput
{
    VolumeFlow flow{};
    std::string in_words;

    static Record<MotorFlowOutput> const& declaration()
    {
        static Record<MotorFlowOutput> const record =
            Record<MotorFlowOutput>("motor_flow", "flow that the motor's input implies")
                .field("flow", &MotorFlowOutput::flow, "flow at which the pump would take this power")
                .shown_in("gpm", "m3/h")
                .field("in_words", &MotorFlowOutput::in_words, "what it rests on");
        return record;
    }
};

MotorFlowOutput motor_flow(MotorFlowInput const& in)
{
    PumpCurve const curve(in.curve, in.speed_ratio);
    std::optional<VolumeFlow> best;
    if (in.best_flow)
        best = *in.best_flow * in.speed_ratio.value();
    PumpPower const pump(curve, in.no_flow_share, in.best_efficiency, in.water_temperature, best);
    Fraction const motor = motor_efficiency_at(in.motor_efficiency, in.speed_ratio, in.motor_speed_exponent);
    return {pump.flow_at(in.input_power * motor.value()),
            "a rough flow: it goes with about the square of what pump and motor are taken to waste"};
}

struct JointInput
{
    std::optional<VolumeFlow> by_meter, by_meter_doubt, by_curve, by_curve_doubt, by_pressure, by_pressure_doubt,
        by_heat, by_heat_doubt, by_power, by_power_doubt;

    static Record<JointInput> const& declaration();
};

Record<JointInput> const& JointInput::declaration()
{
    using In = JointInput;
    static Record<In> const record =
        Record<In>("joint_flow", "one flow by several ways, each with its standard doubt (half of what ± means)")
            .field("by_meter", &In::by_meter, "by a flow meter")
            .within("0 gpm", "5000 gpm")
            .like("45 gpm")
            .field("by_meter_doubt", &In::by_meter_doubt, "its standard doubt")
            .within("0 gpm", "5000 gpm")
            .like("2 gpm")
            .field("by_curve", &In::by_curve, "by the total head on the pump's curve (pump_flow)")
            .within("0 gpm", "5000 gpm")
            .field("by_curve_doubt", &In::by_curve_doubt, "its standard doubt")
            .within("0 gpm", "5000 gpm")
            .field("by_pressure", &In::by_pressure, "by a gauge before the returns (pressure_flow)")
            .within("0 gpm", "5000 gpm")
            .field("by_pressure_doubt", &In::by_pressure_doubt, "its standard doubt")
            .within("0 gpm", "5000 gpm")
            .field("by_heat", &In::by_heat, "by the heater's rise (heat_flow_estimate)")
            .within("0 gpm", "5000 gpm")
            .field("by_heat_doubt", &In::by_heat_doubt, "its standard doubt")
            .within("0 gpm", "5000 gpm")
            .field("by_power", &In::by_power, "by the motor's power (motor_flow)")
            .within("0 gpm", "5000 gpm")
            .field("by_power_doubt", &In::by_power_doubt, "its standard doubt")
            .within("0 gpm", "5000 gpm");
    return record;
}

struct JointOutput
{
    VolumeFlow flow{}, doubt{};
    Number chi_square{}, degrees{};
    std::string odd, in_words;

    static Record<JointOutput> const& declaration()
    {
        using Out = JointOutput;
        static Record<Out> const record =
            Record<Out>("joint_flow", "what they say together")
                .field("flow", &Out::flow, "weighted mean of all of them")
                .shown_in("gpm", "m3/h")
                .field("doubt", &Out::doubt, "its standard doubt, the wider where they disagree")
                .shown_in("gpm", "m3/h")
                .field("chi_square", &Out::chi_square, "squares of what each lies off, in its own doubt, added up")
                .field("degrees", &Out::degrees, "ways less one: what chi_square would be on average")
                .field("odd", &Out::odd,
                       "the way without which the others agree; empty where none is or none stands out")
                .field("in_words", &Out::in_words, "what it means");
        return record;
    }
};

std::vector<FlowEstimate> estimates(JointInput const& in)
{
    std::vector<FlowEstimate> out;
    auto const add = [&](char const* way, std::optional<VolumeFlow> flow, std::optional<VolumeFlow> doubt)
    {
        if (flow.has_value() != doubt.has_value())
            throw figures::NotComputed("the flow by " + std::string(way) +
                                       " and its standard doubt go together: give both or neither");
        if (flow)
            out.push_back({way, {*flow, *doubt, way}});
    };
    add("flow meter", in.by_meter, in.by_meter_doubt);
    add("pump curve", in.by_curve, in.by_curve_doubt);
    add("return pressure", in.by_pressure, in.by_pressure_doubt);
    add("heater rise", in.by_heat, in.by_heat_doubt);
    add("motor power", in.by_power, in.by_power_doubt);
    return out;
}

JointOutput joint(JointInput const& in)
{
    JointFlow const all = joint_flow(estimates(in));
    JointOutput out;
    out.flow = all.flow.value;
    out.doubt = all.flow.doubt;
    out.chi_square = units::of_si<Number>(all.chi_square);
    out.degrees = units::of_si<Number>(all.degrees);
    return out;
}

void joint_words(JointInput const& in, JointOutput& out)
{
    auto const ways = estimates(in);
    JointFlow const all = joint_flow(ways);
    if (all.odd)
        out.odd = ways[*all.odd].way;
    out.in_words = joint_in_words(all, ways);
}

} // namespace

void add_flow_models(std::vector<figures::Model>& models, std::vector<FilterKind> const& filters,
                     PumpPowerTable const& power)
{
    models.push_back(figures::model<PressureInput, PressureOutput>(
        {.name = "pressure_flow",
         .title = "flow that a gauge before the returns implies",
         .equation = "root of p/(rho g) + z + v²/2g - z_out = filter(Q) + (f l/d + K + K_heater + (A/(n a c))²) v²/2g; "
                     "filter(Q) = (linear + loading dirty) Q/Q0 + quadratic (Q/Q0)²",
         .valid =
             "one return path of one bore, no roof collector, spillover or cleaner on it, every opening counted. "
             "A part-shut valve left out of the losses makes the flow come out too large. Losses are known to "
             "tens of per cent and the flow goes with their root: its own doubt of 10 % (standard) is our judgement",
         .sources = {"hydraulic-institute", "iapws-if97", "iapws-2008-viscosity", "judgement"},
         .own_doubt = 0.1},
        [filters](PressureInput const& in) { return pressure_flow(in, filters); }));
    models.push_back(figures::model<MotorFlowInput, MotorFlowOutput>(
        {.name = "motor_flow",
         .title = "flow at which a pump would take the power that its motor does",
         .equation = "input · eta_motor = P_b (k + (1 - k) Q/Q_b);  P_b = rho g Q_b H(Q_b)/eta_b;  Q_b: where Q^k H(Q) "
                     "is greatest. Speed share s: curve by affinity, eta_motor · s^e below full speed",
         .valid = "between the first and last point of the curve. Shaft power is taken as a straight line in the flow, "
                  "so one power has one flow at most; a real pump's bends near its last point. Near no flow the power "
                  "hardly tells. The line's own doubt of 10 % (standard) is our judgement; k, eta_b, eta_motor and e "
                  "bring theirs",
         .sources = {"judgement", "hydraulic-institute", "iapws-if97"},
         .cautions = {"electric_shock", "capacitor_charge"},
         .own_doubt = power.form.doubt.value()},
        motor_flow));
    models.push_back(figures::model<JointInput, JointOutput>(
        {.name = "joint_flow",
         .title = "one flow from several ways to know it, and the one that doesn't fit",
         .equation = "w = 1/u²;  flow = sum(w q)/sum(w);  chi² = sum(w (q - flow)²);  doubt = 1/sqrt(sum w) · max(1, "
                     "sqrt(chi²/degrees))",
         .valid = "ways that share no reading. Weights go by the fields '…_doubt', each a standard doubt, half of what "
                  "'±' means; a '±' written with a flow only widens the interval shown. The odd one is sought where "
                  "chance makes such a chi² in less than 1 case of 20, among three ways or more",
         .sources = {"gum-2008"}},
        joint, joint_words));
}

} // namespace padwalk::circulation
