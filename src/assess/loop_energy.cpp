// What a pump takes from the wire: how much of it the water gains, what it costs, what a lower speed would save, and
// the pump on the curves by which pumps are compared.
#include "loop_bench.hpp"

#include <algorithm>

namespace padwalk::assess
{
namespace
{

using units::Measured;

// Below it a motor stands still, or the meter was on nothing.
constexpr double least_input_watts = 1;

// As measured, else by volts, amps and a usual power factor, which is said.
visit::Taken<units::Power> motor_input(LoopBench& b)
{
    if (!b.v.pump || !b.v.pump->motor)
        return std::nullopt;
    auto const& m = *b.v.pump->motor;
    if (m.power)
        return units::in_si(m.power->value) >= least_input_watts ? m.power : std::nullopt;
    if (!m.voltage || !m.current)
        return std::nullopt;
    std::string const rule = b.variable_speed() ? "drive_power_factor" : "motor_power_factor";
    auto const factor = b.w.rules.limit<units::Number>(rule);
    auto const relative = [](auto const& x) { return units::in_si(x.doubt) / units::in_si(x.value); };
    units::Power const power = m.voltage->value * m.current->value * factor.value.value();
    if (units::in_si(power) < least_input_watts)
        return std::nullopt;
    double const doubt = std::hypot(relative(*m.voltage), relative(*m.current), relative(factor));
    b.w.out.assumptions.push_back({"power factor " + b.w.rules.cited(rule) + " for " + b.w.name(b.pump),
                                   "its power was not measured, only volts and amps"});
    return Measured<units::Power>{power, power * doubt, "volts and amps"};
}

// Said of the property, for it is nothing that the pump itself was not tested for.
void not_known(LoopBench& b, std::string what, std::string because)
{
    b.w.out.not_tested.push_back({0, std::move(what), std::move(because)});
}

// Takes the place of the figure without the input, whose words it keeps.
void wire_to_water(LoopBench& b, Measured<units::Power> const& input)
{
    bool const by_itself = b.ways.size() == 1 && b.ways.front().way == by_motor_power;
    if (!b.flow || !b.head || by_itself) // a flow worked out from this power says nothing of its efficiency
        return;
    figures::Inputs in;
    in.add("flow", b.flow).add("head", b.head).add("water_temperature", b.water).add("input_power", input);
    auto const figure = figures::run(b.w.engine.catalogue().at("water_power"), in);
    if (!figure.computed())
    {
        b.w.out.questions.push_back({b.pump, "power of the motor " + b.w.show(input, "W"), figure.why_not, {}});
        return;
    }
    std::string const words = "efficiency is from wire to water; usual is " + b.w.rules.cited("wire_to_water");
    for (auto& entry : b.w.out.figures)
        if (entry.item == b.pump && entry.figure.model == figure.model)
        {
            entry.figure = figure;
            entry.meaning += (entry.meaning.empty() ? "" : "; ") + words;
            return;
        }
    b.w.figure(b.pump, "water_power", in, "power that " + b.w.name(b.pump) + " gives to the water");
    b.w.meaning(words);
}

void energy_and_cost(LoopBench& b, Measured<units::Power> const& input)
{
    auto const& run = b.v.pump->daily_run;
    auto const& price = b.w.visit.electricity_price;
    bool const runs = run && units::in_si(run->value) > 0;
    figures::Inputs in;
    in.add("input_power", input);
    if (runs)
        in.add("hours_per_day", run);
    if (runs && price)
    {
        in.add("tariff", price);
        b.w.figure(b.pump, "pump_running_cost", in, "energy and cost of " + b.w.name(b.pump));
        return;
    }
    b.w.figure(b.pump, "pump_energy", in, "energy that " + b.w.name(b.pump) + " takes");
    std::string const missing = runs    ? "'electricity_price' was not given"
                                : price ? "how long the pump runs in a day ('daily_run') was not recorded"
                                        : "how long the pump runs in a day ('daily_run') and 'electricity_price' were "
                                          "not recorded";
    not_known(b, "what a year of " + b.w.name(b.pump) + " costs", missing);
}

struct TurnedOver
{
    std::size_t water;
    Measured<units::Volume> volume;
    bool spa;
};

// The waters of the loop whose volume is known; none at all where one is not, for that one may need the flow.
std::vector<TurnedOver> turned_over(LoopBench& b)
{
    std::vector<TurnedOver> out;
    for (std::size_t const i : b.w.property.at(b.loop).waters)
    {
        auto const volume = b.w.volume_of(i);
        if (!volume)
            return {};
        out.push_back({i, *volume, b.w.property.kind_of(i) == visit::WaterKind::spa});
    }
    return out;
}

// The least share of the speed at which every water still turns over as fast as the strictest published limit asks, and
// the day is long enough for the same volume.
double needed_share(LoopBench& b, std::vector<TurnedOver> const& waters)
{
    double share = units::in_si(b.w.rules.limit<units::Fraction>("least_speed_share").value);
    for (auto const& w : waters)
    {
        auto const limit = b.w.rules.limit<units::Duration>(w.spa ? "turnover_spa" : "turnover_pool");
        double const strictest = units::in_si(limit.value) - units::coverage * units::in_si(limit.doubt);
        share = std::max(share, units::in_si(w.volume.value / b.flow->value) / strictest);
    }
    constexpr double day = 86400;
    if (auto const& run = b.v.pump->daily_run)
        share = std::max(share, units::in_si(run->value) / day);
    return share;
}

// How each water would turn over at that flow, and whose published limits that keeps.
std::string turnovers_at(LoopBench& b, std::vector<TurnedOver> const& waters, Measured<units::VolumeFlow> const& flow)
{
    std::string out;
    for (auto const& w : waters)
    {
        figures::Inputs in;
        in.add("volume", w.volume).add("flow", flow);
        in.add_words("water", w.spa ? "public_spa" : "residential_pool"); // no code for a private spa is held
        auto const figure = figures::run(b.w.engine.catalogue().at("turnover"), in);
        auto const time = figure.get<units::Duration>("turnover");
        if (!time)
            continue;
        out += "; " + b.w.name(w.water) + " would turn over in " + b.w.show(*time) + " (" +
               figure.output("published").words + "; codes for public waters ask " +
               b.w.rules.cited(w.spa ? "turnover_spa" : "turnover_pool") + ")";
    }
    return out;
}

// Why the affinity laws don't tell of this loop at a lower speed, or the speed to start from isn't known; empty if
// they do.
std::string no_lower_speed(LoopBench const& b)
{
    if (!b.speed_known())
        return speed_not_recorded;
    if (b.v.roof_height)
        return "water is lifted to a roof, where the flow falls faster than the speed";
    return {};
}

void lower_speed(LoopBench& b, Measured<units::Power> const& input)
{
    auto const waters = b.flow ? turned_over(b) : std::vector<TurnedOver>{};
    if (waters.empty())
        return;
    double const share = needed_share(b, waters);
    if (share > units::in_si(b.w.rules.limit<units::Fraction>("worth_lower_speed_share").value))
        return;
    std::string const pump = b.w.name(b.pump);
    if (auto const why = no_lower_speed(b); !why.empty())
    {
        not_known(b, "what a lower speed of " + pump + " would save", why);
        return;
    }
    auto const to = units::Reading::exact(units::of_si<units::Fraction>(share));
    auto const& run = b.v.pump->daily_run;
    figures::Inputs in;
    in.add("input_power", input).add("flow", b.flow).add("speed_share", to);
    if (waters.size() == 1)
        in.add("volume", waters.front().volume);
    if (run && units::in_si(run->value) > 0)
        in.add("hours_per_day", run).add("tariff", b.w.visit.electricity_price);
    auto const figure = b.w.figure(b.pump, "pump_lower_speed", in,
                                   (b.variable_speed() ? "the same water at a lower speed of "
                                                       : "the same water by a pump with a drive in place of ") +
                                       pump);
    auto const flow = figure.get<units::VolumeFlow>("lower_flow");
    if (!flow)
        return;
    std::string words =
        b.variable_speed()
            ? "at " + b.w.show(to) + " of its speed now" +
                  (b.v.pump->speed ? ", about " + b.w.show(units::Reading::exact(b.v.pump->speed->value * share))
                                   : std::string())
            : "a pump with a drive that moves the same water at " + b.w.show(to) +
                  " of this one's speed; the price of such a pump is not counted";
    b.w.meaning(words + turnovers_at(b, waters, *flow));
}

fields::Node as_written(std::vector<fields::CurvePoint> const& curve)
{
    fields::Node list;
    list.kind = fields::Node::Kind::list;
    for (auto const& p : curve)
        list.items.push_back(fields::Node::scalar(units::show_significant(units::in_si(p.flow), 12) +
                                                  " m3/s:" + units::show_significant(units::in_si(p.head), 12) + " m"));
    return list;
}

// Pumps are compared at the speed their curve is printed for. A curve too short to meet C, by which the US rule goes,
// is left out.
void on_reference_curves(LoopBench& b)
{
    if (!b.v.pump || !b.v.pump->curve)
        return;
    figures::Inputs in;
    in.add_node("curve", as_written(*b.v.pump->curve));
    in.add("speed_ratio", units::Reading::exact(units::of_si<units::Fraction>(1))).add("water_temperature", b.water);
    if (figures::run(b.w.engine.catalogue().at("reference_system_curves"), in).get<units::VolumeFlow>("flow_c"))
        b.w.figure(b.pump, "reference_system_curves", in,
                   "curve of " + b.w.name(b.pump) + " on the system curves that pumps are compared on");
}

} // namespace

void loop_energy(LoopBench& b)
{
    on_reference_curves(b);
    auto const input = motor_input(b);
    if (!input)
        return;
    wire_to_water(b, *input);
    energy_and_cost(b, *input);
    lower_speed(b, *input);
}

} // namespace padwalk::assess
