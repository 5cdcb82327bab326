// What the readings of a circulation say: turnover, filter rate, motor; gauges, pipes and drains have files of
// their own.
#include "loop_bench.hpp"

#include "padwalk/circulation/limits.hpp"

namespace padwalk::assess
{
namespace
{

using units::Measured;

visit::Taken<units::Temperature> water_temperature(Workbench& w, std::size_t loop)
{
    for (std::size_t const i : w.property.at(loop).waters)
    {
        auto const& water = *w.property.at(i).water;
        if (water.temperature)
            return water.temperature;
        for (auto const& test : water.tests)
            if (test.temperature)
                return test.temperature;
    }
    return std::nullopt;
}

std::string turnover_rule(Workbench& w, std::size_t water)
{
    return w.property.kind_of(water) == visit::WaterKind::spa ? "turnover_spa" : "turnover_pool";
}

void turnover(LoopBench& b)
{
    if (!b.flow)
        return;
    for (std::size_t const i : b.w.property.at(b.loop).waters)
    {
        auto const volume = b.w.volume_of(i);
        figures::Inputs in;
        in.add("volume", volume).add("flow", b.flow);
        bool const spa = b.w.property.kind_of(i) == visit::WaterKind::spa;
        in.add_words("water", spa ? "public_spa" : "residential_pool"); // no code for a private spa is held
        auto const figure =
            b.w.figure(b.loop, "turnover", in, "turnover of " + b.w.name(i) + " by " + b.w.name(b.loop));
        if (auto const time = figure.get<units::Duration>("turnover"))
        {
            std::string const rule = turnover_rule(b.w, i);
            b.w.meaning("codes ask " + b.w.rules.cited(rule) + "; a private water is not bound by it");
            b.w.computed(b.loop, "turnover_slow", probability_above(*time, b.w.rules.limit<units::Duration>(rule)),
                         "turnover of " + b.w.name(i) + " " + b.w.show(*time) + "; speaks above " +
                             b.w.rules.cited(rule));
        }
    }
}

void filter_rate(LoopBench& b)
{
    if (!b.flow || !b.v.filter || !b.v.filter->area)
        return;
    figures::Inputs in;
    in.add("flow", b.flow).add("area", b.v.filter->area);
    if (b.v.filter->media)
        in.add_words("medium", *b.v.filter->media == visit::Media::sand        ? "sand"
                               : *b.v.filter->media == visit::Media::cartridge ? "cartridge"
                                                                               : "precoat");
    auto const figure = b.w.figure(b.filter, "filter_rate", in, "filter rate of " + b.w.name(b.filter));
    auto const rate = figure.get<units::Velocity>("rate");
    if (!rate || !b.v.filter->media)
        return;
    auto const medium = *b.v.filter->media == visit::Media::sand        ? circulation::FilterMedium::sand
                        : *b.v.filter->media == visit::Media::cartridge ? circulation::FilterMedium::cartridge
                                                                        : circulation::FilterMedium::precoat;
    circulation::FilterRateLimit const* most =
        nullptr; // the most generous published limit: only beyond it is it surely high
    auto const limits = circulation::filter_rate_limits(b.w.engine.data());
    for (auto const& limit : limits)
        if (limit.medium == medium && (most == nullptr || limit.greatest() > most->greatest()))
            most = &limit;
    if (most == nullptr)
        return;
    std::string const whose = most->kind + ", " + most->where;
    std::string const limit =
        b.w.show(Measured<units::Velocity>{most->greatest(), {}, {}}, "gpm/ft2") + " (" + whose + ")";
    b.w.meaning("the most generous published limit is " + limit);
    b.w.computed(
        b.filter, "filter_rate_high",
        probability_above(
            *rate, {most->greatest(), units::of_si<units::Velocity>(0.1 * units::in_si(most->greatest())), "limit"}),
        "filter rate " + b.w.show(*rate, "gpm/ft2") + " against " + limit);
}

void motor(LoopBench& b)
{
    if (!b.v.pump || !b.v.pump->motor)
        return;
    auto const& m = *b.v.pump->motor;
    if (m.voltage && m.nameplate_voltage)
    {
        auto const limit = share_of(*m.nameplate_voltage, b.w.rules.limit<units::Fraction>("motor_voltage_low_share"));
        b.w.computed(b.pump, "motor_voltage_low", 1 - probability_above(*m.voltage, limit),
                     b.w.show(*m.voltage) + " running, nameplate " + b.w.show(*m.nameplate_voltage) +
                         "; speaks below " + b.w.rules.cited("motor_voltage_low_share"));
    }
    if (!m.current || !m.nameplate_current)
        return;
    auto const nameplate = *m.nameplate_current;
    Measured<units::Current> most = m.service_factor_current.value_or(nameplate);
    if (!m.service_factor_current && m.service_factor)
        most.value = nameplate.value * units::in_si(m.service_factor->value);
    figures::Inputs in;
    in.add("current", m.current).add("nameplate_current", m.nameplate_current).add("service_factor", m.service_factor);
    auto const figure = b.w.figure(b.pump, "motor_load", in, "load of the motor of " + b.w.name(b.pump));
    double const high =
        probability_above(*m.current, share_of(most, b.w.rules.limit<units::Fraction>("motor_current_high_share")));
    // The plate's current belongs to full speed: at less, too much is still too much, and anything less says nothing.
    if (!b.variable_speed() || b.clearly(high))
        b.w.computed(b.pump, "motor_current_high", high,
                     b.w.show(*m.current) + " drawn, at most " + b.w.show(most) + " by its nameplate; speaks above " +
                         b.w.rules.cited("motor_current_high_share"));
    else
        b.not_tested(b.pump, "load of the motor",
                     b.speed_known() ? "the current on the plate belongs to the motor's full speed, and what a drive "
                                       "draws at less says little"
                                     : speed_not_recorded);
    if (!b.variable_speed())
        b.w.computed(b.pump, "motor_current_low",
                     1 - probability_above(*m.current, share_of(nameplate, b.w.rules.limit<units::Fraction>(
                                                                               "motor_current_low_share"))),
                     b.w.show(*m.current) + " drawn, nameplate " + b.w.show(nameplate) + "; speaks below " +
                         b.w.rules.cited("motor_current_low_share"));
}

// A gauge or meter that still shows something at rest: it sticks, or pressure is trapped, or the pump does run.
void pressure_at_rest(LoopBench& b)
{
    constexpr double least = 3 * 6894.757; // Pa: more than a pool a few feet higher stands for; judgement
    bool const below =
        b.v.equipment == visit::Stands::below_water || (b.v.pump_height && units::in_si(b.v.pump_height->value) < 0);
    if (b.v.filter && b.v.filter->gauge && !below && units::in_si(b.v.filter->gauge->value.from_zero()) > least)
    {
        b.w.noticed(b.filter, "filter_gauge_stuck", true,
                    "recorded: gauge " + b.w.show(*b.v.filter->gauge) + " with the pump off");
        b.w.out.questions.push_back({b.filter,
                                     "gauge " + b.w.show(*b.v.filter->gauge) + ", pump off",
                                     "with the pump off it should fall to zero: the gauge sticks, pressure is trapped "
                                     "in the tank, or the pump runs. Stand clear of tank and lid until a pool service "
                                     "technician has seen which",
                                     {}});
    }
    if (b.v.flow && units::in_si(b.v.flow->value) > 2 * units::in_si(b.v.flow->doubt))
        b.w.noticed(b.loop, "loop_flow_meter_stuck", true,
                    "recorded: flow " + b.w.show(*b.v.flow) + " with the pump off");
}

// Gauges, flow and current are those of a running pump; taken with it off they say nothing of how it runs.
void with_the_pump_off(LoopBench& b)
{
    std::string taken;
    auto add = [&taken](bool there, char const* name)
    {
        if (there)
            taken += (taken.empty() ? "" : ", ") + std::string(name);
    };
    add(b.v.filter && b.v.filter->gauge.has_value(), "filter gauge");
    add(b.v.pump->discharge_gauge.has_value(), "discharge gauge");
    add(b.v.suction_gauge.has_value(), "suction gauge");
    add(b.flow.has_value(), "flow");
    add(b.v.pump->motor && b.v.pump->motor->current, "current of the motor");
    add(b.v.pump->motor && b.v.pump->motor->voltage, "voltage of the motor");
    b.flow.reset();
    pressure_at_rest(b);
    if (!taken.empty())
        b.not_tested(b.loop, taken, "the pump was off ('runs: no'), and these speak only of a running pump");
}

// What the water gains against what the plate promises.
void water_power(LoopBench& b)
{
    if (!b.flow || !b.head || !b.v.pump || !b.v.pump->rated_power)
        return;
    figures::Inputs in;
    in.add("flow", b.flow).add("head", b.head).add("water_temperature", b.water);
    auto const figure = b.w.figure(b.pump, "water_power", in, "power that " + b.w.name(b.pump) + " gives to the water");
    auto const power = figure.get<units::Power>("hydraulic_power");
    if (!power)
        return;
    auto const& rated = *b.v.pump->rated_power;
    double const share = units::in_si(power->value) / units::in_si(rated.value);
    double const doubt = std::hypot(units::in_si(power->doubt) / units::in_si(rated.value),
                                    share * units::in_si(rated.doubt) / units::in_si(rated.value));
    b.w.meaning(b.w.show(Measured<units::Fraction>{units::of_si<units::Fraction>(share),
                                                   units::of_si<units::Difference<units::Fraction>>(doubt), "share"}) +
                " of the " + b.w.show(rated, "hp") +
                " on its nameplate, which is what the shaft may give and not what the motor takes");
}

} // namespace

std::vector<LoopBench> read_loops(Workbench& w)
{
    std::vector<LoopBench> out;
    for (std::size_t i = 0; i < w.property.things().size(); ++i)
    {
        Thing const& t = w.property.at(i);
        if (t.entry.kind != "loop")
            continue;
        LoopBench b{w,
                    i,
                    *w.property.part(i, "pump"),
                    *w.property.part(i, "filter"),
                    *t.loop,
                    t.loop->flow,
                    water_temperature(w, i),
                    t.loop->suction_gauge,
                    std::nullopt,
                    std::nullopt,
                    {},
                    {},
                    std::nullopt,
                    {}};
        loop_valves(b);
        if (b.pump_off())
            with_the_pump_off(b);
        else
            loop_gauges(b);
        out.push_back(std::move(b));
    }
    return out;
}

void assess_loops(std::vector<LoopBench>& loops)
{
    for (auto& b : loops)
    {
        if (!b.pump_off())
        {
            loop_flow(b);
            turnover(b);
            loop_pipes(b);
            water_power(b);
            loop_energy(b);
            filter_rate(b);
            motor(b);
            loop_readings(b);
        }
        most_flow(b);
        loop_drains(b);
    }
}

} // namespace padwalk::assess
