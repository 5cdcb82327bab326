// The loop of a visit as a plant: what was noted, usual values for the rest, and how far each may be off.
#include "walked_loop.hpp"

#include "name_words.hpp"

#include <algorithm>

namespace padwalk::assess
{
namespace
{

using circulation::LoopGauge;
using circulation::Unsure;

constexpr double smooth_plastic = 1.5e-6; // m; drawn tubing [hydraulic-institute] table 3.A.1
constexpr double plastic_c = 150;         // Hazen-Williams, not used here

class Walker
{
public:
    Walker(LoopBench const& bench, At at)
        : b_(bench), at_(at), tables_(bench.w.engine.loop_tables()), rules_(bench.w.rules), plant_(out_.known.plant)
    {
    }

    WalkedLoop walk()
    {
        spa_ = b_.w.property.at(b_.loop).holds.contains("spa");
        plant_.water =
            b_.water ? b_.water->value : usual<units::Temperature>(spa_ ? "usual_water_spa" : "usual_water_pool");
        if (!b_.water)
            basis("the water is at " + b_.w.show(units::Reading::exact(plant_.water)));
        if (b_.w.visit.altitude)
            plant_.altitude = b_.w.visit.altitude->value;
        stand();
        suctions();
        pump();
        filter();
        roof();
        heater();
        returns();
        gauges();
        return std::move(out_);
    }

private:
    double spread(char const* name) const { return units::in_si(rules_.limit<units::Number>(name).value); }
    template <class Q> Q usual(char const* name) const { return rules_.limit<Q>(name).value; }

    void doubt(Unsure what, double by) { out_.known.doubts.push_back({what, units::of_si<units::Number>(by)}); }
    void basis(std::string text) { out_.basis.push_back(std::move(text)); }
    void part(LoopPlace place, std::size_t item, std::string name, std::string detail, bool assumed)
    {
        out_.parts.push_back({place, item, std::move(name), std::move(detail), assumed});
    }

    void stand()
    {
        if (b_.v.pump_height)
        {
            plant_.pad_height = b_.v.pump_height->value;
            doubt(Unsure::pump_height, units::in_si(b_.v.pump_height->doubt));
            return;
        }
        char const* rule = !b_.v.equipment                                 ? "usual_height_unknown"
                           : *b_.v.equipment == visit::Stands::below_water ? "usual_depth"
                                                                           : "usual_height";
        auto const height = rules_.limit<units::Length>(rule);
        plant_.pad_height = height.value;
        doubt(Unsure::pump_height, units::in_si(height.doubt));
        basis("the pump stands " + b_.w.show(height) + " above the water, a usual height");
    }

    /// The pipe as noted, its gaps filled; and how far its loss may be off.
    circulation::Pipe pipe(std::optional<visit::Pipe> const& noted, char const* which, char const* length,
                           char const* fittings, Unsure what, double besides = 0)
    {
        bool const bore = noted && noted->bore, run = noted && noted->length;
        bool const minor = noted && (noted->minor_loss || !noted->fittings.empty());
        circulation::Pipe out{bore ? noted->bore->value : usual<units::Length>("usual_bore"),
                              run ? noted->length->value : usual<units::Length>(length), usual<units::Number>(fittings),
                              units::of_si<units::Length>(smooth_plastic), units::of_si<units::Number>(plastic_c)};
        if (noted && noted->minor_loss)
            out.minor_loss = noted->minor_loss->value;
        else if (minor)
            if (auto const sum = fittings_of(*noted, out.bore))
                out.minor_loss = *sum;
        doubt(what, std::hypot(besides, spread(bore && run && minor ? "spread_pipe_known"
                                               : bore               ? "spread_pipe_bore"
                                                                    : "spread_pipe_unknown")));
        if (!(bore && run))
            basis(std::string(which) + (bore ? "" : " of " + show(out.bore, "in") + " bore") +
                  (bore || run ? "" : " and") + (run ? "" : " " + show(out.length, "ft") + " long") +
                  ", with usual fittings");
        return out;
    }

    std::string show(units::Length length, char const* unit) const
    {
        return b_.w.show(units::Reading::exact(length), unit);
    }

    std::optional<units::Number> fittings_of(visit::Pipe const& noted, units::Length bore) const
    {
        auto const nominal = tables_.pipes.nearest_nominal(bore);
        double sum = 0;
        for (auto const& [name, count] : noted.fittings)
        {
            auto const one = tables_.pipes.loss_coefficient(as_in_table(name), nominal);
            if (!one)
                return std::nullopt; // asked about where the friction is worked out
            sum += units::in_si(count) * units::in_si(*one);
        }
        return units::of_si<units::Number>(sum);
    }

    static std::string counted(visit::Taken<units::Number> const& count, std::size_t listed, char const* one,
                               char const* many)
    {
        auto const n = count ? static_cast<std::size_t>(std::max(0.0, units::in_si(count->value))) : listed;
        return n == 0 ? std::string() : std::to_string(n) + " " + (n == 1 ? one : many);
    }

    void suctions()
    {
        auto const run =
            pipe(b_.v.suction, "suction pipe", "usual_suction_length", "usual_suction_fittings", Unsure::suction_loss);
        bool const drains_only = b_.v.skimmers && !(units::in_si(b_.v.skimmers->value) > 0);
        plant_.suctions = {
            {"suction",
             drains_only || spa_ ? circulation::SuctionKind::main_drain : circulation::SuctionKind::skimmer,
             0,
             run,
             {}}};
        plant_.suction_trunk = run;
        plant_.suction_trunk.length = {};
        plant_.suction_trunk.minor_loss = {};
        std::string from = counted(b_.v.skimmers, 0, "skimmer", "skimmers");
        std::string const outlets =
            counted(b_.v.suction_outlets, b_.v.drains.size(), "suction outlet", "suction outlets");
        from += (from.empty() || outlets.empty() ? "" : ", ") + outlets;
        bool const nothing = from.empty() && !b_.v.suction;
        part(LoopPlace::suction, b_.loop, from.empty() ? "suction" : from,
             b_.v.suction && b_.v.suction->bore ? b_.w.show(*b_.v.suction->bore, "in") + " pipe" : "", nothing);
        part(LoopPlace::strainer, b_.loop, "strainer", "", true);
    }

    void pump()
    {
        circulation::PlantPump p;
        p.name = "pump";
        auto const* noted = b_.v.pump ? &*b_.v.pump : nullptr;
        std::string detail;
        bool const own = noted != nullptr && noted->curve && (at_ == At::full_speed || curve_not_usable(b_).empty());
        if (own)
        {
            p.curve = circulation::carried_on(*noted->curve);
            doubt(Unsure::pump_head, spread("spread_curve"));
            doubt(Unsure::pump_flow, spread("spread_curve"));
            detail = "its own curve";
        }
        else
            detail = usual_pump(p, noted);
        if (at_ == At::speed_of_readings && noted != nullptr)
            set_speed(p, *noted, own);
        plant_.pumps = {p};
        part(LoopPlace::pump, b_.pump, "pump", detail, noted == nullptr);
    }

    std::string usual_pump(circulation::PlantPump& p, visit::Pump const* noted)
    {
        bool const plate = noted != nullptr && noted->rated_power;
        units::Power power =
            plate ? noted->rated_power->value : usual<units::Power>(spa_ ? "usual_pump_spa" : "usual_pump");
        power = std::clamp(power, tables_.pumps.front().rated, tables_.pumps.back().rated);
        p.curve = circulation::generic_curve(power, tables_.pumps);
        doubt(Unsure::pump_head, spread(plate ? "spread_usual_head" : "spread_pump_unknown_head"));
        doubt(Unsure::pump_flow, spread(plate ? "spread_usual_flow" : "spread_pump_unknown_flow"));
        out_.pump_is_usual = true;
        std::string const shown = b_.w.show(units::Reading::exact(power), "hp");
        basis("the pump's curve is that of a usual pump of " + shown +
              (plate ? "; its own would be better" : "; neither its curve nor its power was noted"));
        return shown + ", usual curve";
    }

    void set_speed(circulation::PlantPump& p, visit::Pump const& noted, bool own)
    {
        // A curve of a pump of one speed is that speed's; a usual one is for full speed.
        bool const of_its_speed = own && !noted.curve_speed;
        if (noted.speed && !of_its_speed)
        {
            auto const full = own ? noted.curve_speed->value : usual<units::RotationSpeed>("usual_curve_speed");
            p.speed = units::of_si<units::Fraction>(units::in_si(noted.speed->value) / units::in_si(full));
            doubt(Unsure::speed, spread("spread_speed"));
        }
        out_.known.clean_speed = p.speed;
        if (b_.v.filter && b_.v.filter->clean_speed && noted.speed)
            out_.known.clean_speed =
                p.speed * (units::in_si(b_.v.filter->clean_speed->value) / units::in_si(noted.speed->value));
    }

    void filter()
    {
        bool const jets = says(b_.w.name(b_.loop), "jet") || says(b_.w.name(b_.loop), "jets");
        if (!b_.v.filter && jets)
            return;
        auto const* noted = b_.v.filter ? &*b_.v.filter : nullptr;
        circulation::PlantFilter f;
        f.medium = noted != nullptr && noted->media
                       ? (*noted->media == visit::Media::sand        ? circulation::FilterMedium::sand
                          : *noted->media == visit::Media::cartridge ? circulation::FilterMedium::cartridge
                                                                     : circulation::FilterMedium::precoat)
                       : circulation::FilterMedium::cartridge;
        f.area = noted != nullptr && noted->area ? noted->area->value : area_that_fits(f.medium);
        auto const loading = rules_.limit<units::Fraction>("usual_loading");
        f.loading = loading.value;
        plant_.filter = f;
        bool const known = noted != nullptr && noted->media && noted->area;
        doubt(Unsure::filter_loss, spread(known ? "spread_filter_known" : "spread_filter_unknown"));
        doubt(Unsure::filter_loading, units::in_si(loading.doubt));
        if (!known)
            basis("the filter takes what a clean one of usual size takes");
        std::string detail;
        if (noted != nullptr && noted->media)
            detail = fields::words_of<visit::Media>::words()[static_cast<std::size_t>(*noted->media)];
        if (noted != nullptr && noted->area)
            detail += (detail.empty() ? "" : ", ") + b_.w.show(units::Reading::exact(f.area), "ft2");
        part(LoopPlace::filter, b_.filter, "filter", detail, noted == nullptr);
    }

    /// The area for which the pump's middle flow is what the medium is meant for.
    units::Area area_that_fits(circulation::FilterMedium medium) const
    {
        auto const& curve = plant_.pumps.front().curve;
        units::VolumeFlow const middle = curve[curve.size() / 2].flow;
        for (auto const& kind : tables_.plants.filters)
            if (kind.medium == medium)
                return units::of_si<units::Area>(units::in_si(middle) / units::in_si(kind.at_per_square_foot) *
                                                 units::exact::square_foot);
        return {};
    }

    void roof()
    {
        if (!b_.v.roof_height)
            return;
        circulation::PlantSolar solar;
        solar.up = solar.down = {usual<units::Length>("usual_bore"), usual<units::Length>("usual_suction_length"),
                                 usual<units::Number>("usual_suction_fittings"),
                                 units::of_si<units::Length>(smooth_plastic), units::of_si<units::Number>(plastic_c)};
        solar.panels = usual<units::Number>("usual_return_fittings");
        solar.height = b_.v.roof_height->value;
        plant_.solar = solar;
        basis("pipes to and from the roof are usual ones");
        part(LoopPlace::roof, b_.loop, "roof collector", b_.w.show(*b_.v.roof_height) + " up", false);
    }

    void heater()
    {
        for (std::size_t i = 0; i < b_.w.property.things().size(); ++i)
        {
            Thing const& t = b_.w.property.at(i);
            if (t.entry.kind != "heater" || !t.loops.contains(b_.loop))
                continue;
            circulation::PlantHeater h;
            bool const open = t.heater->bypass && *t.heater->bypass != visit::ValvePosition::shut;
            plant_.heater = h; // a bypass that stood open is a finding, not how the loop should be
            doubt(Unsure::heater_loss, spread("spread_heater"));
            part(LoopPlace::heater, i, b_.w.name(i), "", false);
            if (t.heater->bypass)
                part(LoopPlace::bypass, i, "bypass", open ? "found open" : "shut", false);
            heat_of(i);
            return; // one heater's loss is drawn; others stand beside it
        }
    }

    void heat_of(std::size_t heater)
    {
        for (auto const& heat : b_.w.heats)
            if (heat.heater == heater && heat.clocked)
            {
                out_.known.heat = heat.heat.value;
                doubt(Unsure::heat, units::in_si(heat.heat.doubt) / units::in_si(heat.heat.value));
                take(LoopGauge::heater_rise, heater, "rise in the heater", units::Reading::of(heat.rise));
            }
    }

    void returns()
    {
        bool const openings = b_.v.return_inlets && b_.v.return_inlets->count && b_.v.return_inlets->opening;
        plant_.return_trunk = pipe(b_.v.discharge, "return pipe", "usual_return_length", "usual_return_fittings",
                                   Unsure::return_loss, openings ? 0.0 : spread("spread_openings"));
        circulation::PlantReturn r;
        r.name = "returns";
        r.pipe = plant_.return_trunk;
        r.pipe.length = {};
        r.pipe.minor_loss = {};
        auto const* noted = b_.v.return_inlets ? &*b_.v.return_inlets : nullptr;
        auto const count = noted != nullptr && noted->count
                               ? noted->count->value
                               : usual<units::Number>(spa_ ? "usual_openings_spa" : "usual_openings_pool");
        r.nozzles = std::max(1, static_cast<int>(std::lround(count.value())));
        r.nozzle = noted != nullptr && noted->opening ? noted->opening->value : usual<units::Length>("usual_opening");
        plant_.returns = {r};
        std::string const name = noted != nullptr && noted->count ? std::to_string(r.nozzles) + " returns" : "returns";
        part(LoopPlace::returns, b_.loop, name,
             b_.v.discharge && b_.v.discharge->bore ? b_.w.show(*b_.v.discharge->bore, "in") + " pipe" : "",
             noted == nullptr && !b_.v.discharge);
        if (!openings)
            basis(std::to_string(r.nozzles) + " returns of " + show(*r.nozzle, "in"));
    }

    void take(LoopGauge gauge, std::size_t item, std::string label, units::Reading const& reading)
    {
        out_.read.push_back({gauge, reading});
        out_.items.push_back(item);
        out_.labels.push_back(std::move(label));
    }

    void gauges()
    {
        if (b_.suction_gauge)
            take(LoopGauge::suction, b_.loop, "suction gauge", units::Reading::of(*b_.suction_gauge));
        if (b_.v.suction_gauge_height)
            out_.known.suction_gauge_height = b_.v.suction_gauge_height->value;
        if (b_.v.pump && b_.v.pump->discharge_gauge)
            take(LoopGauge::pump_outlet, b_.pump, "gauge at the pump's outlet",
                 units::Reading::of(*b_.v.pump->discharge_gauge));
        if (b_.v.filter && b_.v.filter->gauge_height)
            out_.known.filter_gauge_height = b_.v.filter->gauge_height->value;
        // Read at an unknown one of several speeds, it says nothing.
        bool const whose = !b_.variable_speed() || (b_.v.filter && b_.v.filter->clean_speed);
        if (b_.v.filter && b_.v.filter->clean_gauge && whose)
            take(LoopGauge::filter_when_clean, b_.filter, "filter gauge when clean",
                 units::Reading::of(*b_.v.filter->clean_gauge));
        if (b_.v.filter && b_.v.filter->gauge)
            take(LoopGauge::filter, b_.filter, "filter gauge", units::Reading::of(*b_.v.filter->gauge));
        if (b_.v.filter && b_.v.filter->outlet_gauge)
            take(LoopGauge::behind_filter, b_.filter, "gauge behind the filter",
                 units::Reading::of(*b_.v.filter->outlet_gauge));
        if (b_.v.pump && b_.v.pump->motor && b_.v.pump->motor->power)
        {
            auto const& m = tables_.sound.motors;
            auto const share = [](circulation::JudgedNumber const& n) { return n.doubt.value() / n.value.value(); };
            take(LoopGauge::motor_power, b_.pump, "power of the motor", units::Reading::of(*b_.v.pump->motor->power));
            doubt(Unsure::motor_losses,
                  std::hypot(share(m.best_efficiency), share(m.motor_efficiency), m.form.doubt.value()));
            basis("pump and motor waste what is usual");
        }
        if (b_.v.flow)
            take(LoopGauge::flow_meter, b_.loop, "flow meter", units::Reading::of(*b_.v.flow));
    }

    LoopBench const& b_;
    At at_;
    LoopTables const& tables_;
    Rules const& rules_;
    WalkedLoop out_;
    circulation::Plant& plant_;
    bool spa_ = false;
};

} // namespace

WalkedLoop walked_loop(LoopBench const& bench, At at)
{
    return Walker(bench, at).walk();
}

} // namespace padwalk::assess
