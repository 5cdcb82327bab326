#include "padwalk/circulation/flow_estimates.hpp"
#include "padwalk/circulation/plant.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/units/definitions.hpp"

#include <cmath>

namespace padwalk::circulation
{
namespace
{

using figures::NotComputed;

units::Number number(double value)
{
    return units::of_si<units::Number>(value);
}

/// The pipe with more loss on its bore.
Pipe with_loss(Pipe pipe, double coefficient)
{
    pipe.minor_loss = pipe.minor_loss + number(coefficient);
    return pipe;
}

void require_bore(Pipe const& pipe, std::string const& name)
{
    if (!(pipe.bore > units::Length{}))
        throw NotComputed("'" + name + "' has no bore");
}

/// K of all nozzles together on the pipe's bore: (A / (n a c))2; the jet's velocity head is lost in the water. An open
/// pipe's end loses one velocity head.
double outlet_loss(PlantReturn const& r, PlantTable const& table)
{
    if (!r.nozzle)
        return 1;
    if (!(*r.nozzle > units::Length{}) || r.nozzles < 1)
        throw NotComputed("'" + r.name + "' has no nozzle opening");
    double const share = units::in_si(r.pipe.bore / *r.nozzle);
    double const areas = share * share / (r.nozzles * table.nozzle.value.value());
    return areas * areas;
}

std::vector<fields::CurvePoint> curve_of(PlantPump const& pump, PlantTable const& table)
{
    auto const kept = [](Rule const& lost, units::Fraction by) { return 1 - lost.value.value() * by.value(); };
    double head =
        kept(table.air_head, pump.air) * kept(table.clogged_head, pump.clogging) * kept(table.worn_head, pump.wear);
    double flow = kept(table.clogged_flow, pump.clogging) * kept(table.worn_flow, pump.wear);
    if (pump.reversed)
    {
        head *= table.reversed_head.value.value();
        flow *= table.reversed_flow.value.value();
    }
    auto curve = pump.curve;
    for (auto& p : curve)
        p = {p.flow * flow, p.head * head};
    return curve;
}

FilterLoss filter_loss(PlantFilter const& filter, PlantTable const& table, units::Temperature water)
{
    FilterLoss const usual = filter_loss_of(table.filters, filter.medium, filter.area, {}, water);
    FilterLoss loss = filter.clean.value_or(usual);
    double const factor = filter.loss_factor.value();
    // What loading adds goes by the area, however little the clean filter takes.
    double const to_its_flow = units::in_si(loss.at) / units::in_si(usual.at);
    FilterLoss const loaded = filter_loss_of(table.filters, filter.medium, filter.area, filter.loading, water);
    double const kept = 1 - filter.bypassed.value() * (1 - table.bypassed_loss.value.value());
    loss.linear = (loss.linear * factor + (loaded.linear - usual.linear) * to_its_flow) * kept;
    loss.quadratic = loss.quadratic * (factor * kept);
    return loss;
}

class Builder
{
public:
    Builder(Plant const& plant, PlantTable const& table) : plant_(plant), table_(table), n_(out_.network)
    {
        n_.formula = plant.formula;
    }

    BuiltPlant build()
    {
        require_parts();
        for (auto const& w : plant_.waters)
            n_.water(w.name, w.level);
        std::size_t const meet = n_.junction("where the suctions meet", plant_.pad_height);
        add_suctions(meet);
        add_pumps(meet);
        add_filter();
        add_roof();
        add_heater();
        add_returns();
        return std::move(out_);
    }

private:
    std::size_t at_pad(std::string name) { return n_.junction(std::move(name), plant_.pad_height); }

    void require_parts() const
    {
        if (plant_.waters.empty() || plant_.suctions.empty() || plant_.pumps.empty() || plant_.returns.empty())
            throw NotComputed("a plant needs a water, a suction, a pump and a return");
        require_bore(plant_.suction_trunk, "suction trunk");
        require_bore(plant_.return_trunk, "return trunk");
    }

    /// A pipe with its valve; shut where the valve is.
    std::size_t branch(std::string const& name, std::size_t from, std::size_t to, Pipe const& pipe, Valve const& valve,
                       double more)
    {
        require_bore(pipe, name);
        auto const loss = valve_loss(valve, table_.valves);
        std::size_t const l = n_.link(name, from, to, with_loss(pipe, more + (loss ? loss->value() : 0)));
        n_.links[l].shut = !loss;
        return l;
    }

    void add_suctions(std::size_t meet)
    {
        for (auto const& s : plant_.suctions)
        {
            static_cast<void>(plant_.waters.at(s.water));
            Rule const& entrance = s.kind == SuctionKind::skimmer ? table_.skimmer : table_.main_drain;
            out_.suctions.push_back(branch(s.name, s.water, meet, s.pipe, s.valve, entrance.value.value()));
        }
    }

    void add_pumps(std::size_t meet)
    {
        out_.inlet = at_pad("pump inlet");
        out_.outlet = at_pad("pump outlet");
        double const open = 1 - table_.most_clogging.value.value() * plant_.basket_clogging.value();
        n_.link("suction trunk and strainer", meet, out_.inlet,
                with_loss(plant_.suction_trunk, table_.strainer.value.value() / (open * open)));
        for (auto const& p : plant_.pumps)
        {
            PumpCurve curve(curve_of(p, table_), p.speed);
            if (!p.check_valve)
            {
                out_.pumps.push_back(n_.link(p.name, out_.inlet, out_.outlet, std::move(curve)));
                continue;
            }
            std::size_t const behind = at_pad("behind " + p.name);
            out_.pumps.push_back(n_.link(p.name, out_.inlet, behind, std::move(curve)));
            n_.check_valve("check valve of " + p.name, behind, out_.outlet,
                           FixedLoss{plant_.return_trunk.bore, table_.check_valve.value});
        }
    }

    void add_filter()
    {
        out_.filter_out = out_.outlet;
        if (!plant_.filter)
            return;
        out_.filter_out = at_pad("filter outlet");
        n_.link("filter", out_.outlet, out_.filter_out, filter_loss(*plant_.filter, table_, plant_.water));
    }

    void valve(std::string const& name, std::size_t from, std::size_t to, Valve const& v, double more,
               std::optional<std::size_t>& made)
    {
        auto const loss = valve_loss(v, table_.valves);
        made = n_.link(name, from, to, FixedLoss{plant_.return_trunk.bore, number(more + (loss ? loss->value() : 0))});
        n_.links[*made].shut = !loss;
    }

    void add_roof()
    {
        out_.heater_in = out_.filter_out;
        if (!plant_.solar)
            return;
        auto const& solar = *plant_.solar;
        out_.heater_in = at_pad("heater inlet");
        out_.roof_node = n_.junction("roof", solar.height);
        std::size_t const end = n_.junction("end of the collector", solar.height);
        out_.roof = branch("to the roof", out_.filter_out, *out_.roof_node, solar.up, solar.branch, 0);
        n_.link("collector", *out_.roof_node, end, FixedLoss{solar.up.bore, solar.panels});
        require_bore(solar.down, "from the roof");
        n_.check_valve("from the roof", end, out_.heater_in, solar.down);
        std::optional<std::size_t> straight;
        valve("straight past the roof", out_.filter_out, out_.heater_in, solar.straight, 0, straight);
    }

    void add_heater()
    {
        out_.heater_out = out_.heater_in;
        if (!plant_.heater)
            return;
        constexpr double tees = 2; // a bypass turns off and joins again; judgement
        out_.heater_out = at_pad("heater outlet");
        double const scaled = 1 + plant_.heater->scaling.value() * (table_.scaled_loss.value.value() - 1);
        double const loss = plant_.heater->loss.value_or(table_.heater.value).value() * scaled;
        out_.heater =
            n_.link("heater", out_.heater_in, out_.heater_out, FixedLoss{plant_.return_trunk.bore, number(loss)});
        valve("heater bypass", out_.heater_in, out_.heater_out, plant_.heater->bypass, tees, out_.bypass);
    }

    void add_returns()
    {
        out_.header = at_pad("return header");
        double const check = plant_.check_valve ? table_.check_valve.value.value() : 0;
        std::size_t const trunk =
            n_.link("return trunk", out_.heater_out, out_.header, with_loss(plant_.return_trunk, check));
        n_.links[trunk].one_way = plant_.check_valve;
        for (auto const& r : plant_.returns)
        {
            static_cast<void>(plant_.waters.at(r.water));
            bool const falls = r.kind == ReturnKind::waterfall;
            std::size_t const to = falls ? n_.water("lip of " + r.name, r.outlet_height) : r.water;
            out_.returns.push_back(branch(r.name, out_.header, to, r.pipe, r.valve, outlet_loss(r, table_)));
            n_.links[out_.returns.back()].one_way = falls;
        }
    }

    Plant const& plant_;
    PlantTable const& table_;
    BuiltPlant out_;
    Network& n_;
};

} // namespace

BuiltPlant build(Plant const& plant, PlantTable const& table)
{
    return Builder(plant, table).build();
}

} // namespace padwalk::circulation
