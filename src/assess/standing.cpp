// Where a water stands, read off an assessment that is done: what its pictures need, and nothing that they don't.
#include "standing.hpp"

#include "padwalk/chemistry/sanitizer.hpp"
#include "padwalk/numerics/root.hpp"

#include <algorithm>

namespace padwalk::assess
{
namespace
{

using chemistry::Stabilizer;
using units::Measured;
using P = chemistry::Parameter;

figures::Figure const* figure_of(AssessedWater const& w, std::string_view model)
{
    for (auto const& f : w.out.figures)
        if (f.item == w.item && f.figure.model->name == model)
            return &f.figure;
    return nullptr;
}

figures::Figure const* computed(AssessedWater const& w, std::string_view model)
{
    auto const* figure = figure_of(w, model);
    return figure != nullptr && figure->computed() ? figure : nullptr;
}

template <class Q> std::optional<Measured<Q>> given(figures::Figure const& figure, std::string_view name)
{
    for (auto const& used : figure.inputs)
        if (used.shape->name == name && used.shape->measure == units::measure_of<Q>::value)
            return Measured<Q>{units::of_si<Q>(used.reading.value),
                               units::of_si<units::Difference<Q>>(used.reading.doubt), used.reading.method};
    return std::nullopt;
}

chemistry::LeadingBand band(AssessedWater const& w, P parameter, Stabilizer stabilizer = Stabilizer::either)
{
    auto const& tables = w.engine.water_tables();
    std::string const set =
        w.water.limits ? fields::words_of<visit::LimitsOf>::words()[static_cast<std::size_t>(*w.water.limits)] : "";
    return chemistry::leading_band(tables.limits, tables.bands, set, parameter,
                                   w.spa ? chemistry::Venue::spa : chemistry::Venue::pool, stabilizer);
}

// 'New York [key]'; what is from memory is not cited.
std::string whose(chemistry::LeadingBound const& bound)
{
    if (bound.source.seen == reference::Seen::memory)
        return bound.body + " (from memory, not confirmed)";
    return bound.body + (bound.body.empty() ? "" : " ") + "[" + bound.source.key + "]";
}

// ---- saturation

void put(SaturationWay& way, std::string name, figures::Figure const& figure, char const* index,
         std::optional<units::Temperature> temperature)
{
    auto const& out = figure.output(index);
    if (out.value && temperature)
        way.places.push_back({std::move(name), *temperature, units::of_si<units::Number>(*out.value),
                              units::of_si<units::Number>(out.low), units::of_si<units::Number>(out.high)});
}

std::optional<units::Temperature> temperature_in(figures::Figure const& figure, char const* input)
{
    auto const t = given<units::Temperature>(figure, input);
    return t ? std::optional(t->value) : std::nullopt;
}

void along_the_way(AssessedWater const& w, SaturationWay& way, bool heaters)
{
    std::string const& water = w.out.items.at(w.item).name;
    for (auto const& f : w.out.figures)
    {
        auto const& item = w.out.items.at(f.item);
        if (f.figure.model->name != "heated_water" || !f.figure.computed() || (item.kind == "heater") != heaters ||
            f.label != "water of " + water + " in " + item.name)
            continue;
        put(way, heaters ? item.name + ", outlet" : item.name + ", if the same water", f.figure, "saturation_calcite",
            temperature_in(f.figure, "outlet_temperature"));
        if (!heaters)
            continue;
        auto const wall = f.figure.get<units::Temperature>("wall_temperature");
        put(way, item.name + ", at its hot wall", f.figure, "wall_calcite",
            wall ? std::optional(wall->value) : std::nullopt);
    }
}

// ---- chlorine

// As the limits are chosen: some cyanurate that can't be told from none asks for the stricter.
Stabilizer stabilizer(ChlorineStanding const& c)
{
    if (!c.cyanurate)
        return Stabilizer::either;
    double const value = units::in_si(c.cyanurate->value);
    if (c.cyanurate_is == ScaleEnd::at_least)
        return Stabilizer::present;
    if (c.cyanurate_is == ScaleEnd::at_most && value > 0)
        return Stabilizer::either;
    return value > units::coverage * units::in_si(c.cyanurate->doubt) ? Stabilizer::present : Stabilizer::none;
}

// The doubt that its figures went by is wider than the test's own where the number lies beyond the scale.
void read_cyanurate(AssessedWater const& w, figures::Figure const& ratio, ChlorineStanding& out)
{
    auto const used = given<units::AsCyanuricAcid>(ratio, "cyanurate");
    if (!used)
        return;
    out.cyanurate = w.test != nullptr && w.test->cyanurate ? *w.test->cyanurate : *used;
    double const as_read = units::in_si(out.cyanurate->doubt);
    if (units::in_si(used->doubt) > as_read * (1 + 1e-9))
        out.cyanurate_is = out.cyanurate->value >= w.rules.limit<units::AsCyanuricAcid>("cyanurate_scale_high").value
                               ? ScaleEnd::at_least
                               : ScaleEnd::at_most;
}

// A figure was run on free chlorine only where its reading was to be trusted.
std::optional<Measured<units::AsChlorine>> trusted_chlorine(AssessedWater const& w)
{
    if (auto const* ratio = figure_of(w, "chlorine_to_cyanurate"))
        return given<units::AsChlorine>(*ratio, "free_chlorine");
    for (char const* model : {"saturation", "hypochlorous"})
        if (auto const* figure = computed(w, model))
            if (auto const free = given<units::AsChlorine>(*figure, "free_chlorine");
                free && units::in_si(free->value) > 0)
                return free;
    return std::nullopt;
}

void read_limits(AssessedWater const& w, ChlorineStanding& out)
{
    auto const free = band(w, P::free_chlorine, stabilizer(out));
    if (free.low)
        out.least = chemistry::Bounds::as<units::AsChlorine>(free.low->bound), out.least_of = whose(*free.low);
    if (free.high)
        out.most = chemistry::Bounds::as<units::AsChlorine>(free.high->bound), out.most_of = whose(*free.high);
    auto const ratio = band(w, P::cyanurate_to_chlorine).high;
    if (ratio && out.cyanurate)
        out.most_cyanurate = chemistry::Bounds::as<units::Number>(ratio->bound), out.most_cyanurate_of = whose(*ratio);
}

// At one strength of hypochlorous acid what cyanurate holds is in proportion to it, so a few points make the line.
std::vector<EqualWork> equal_work(AssessedWater const& w, ChlorineStanding const& c)
{
    using units::of_si;
    constexpr double ppm = 1e-3;                                   // kg/m3
    constexpr double shown[] = {0.05 * ppm, 0.1 * ppm, 0.2 * ppm}; // spread well over what pools hold; judgement
    constexpr double least_reach = 100 * ppm, beyond = 1.25;
    auto const* figure = computed(w, "saturation");
    figure = figure != nullptr ? figure : computed(w, "hypochlorous");
    if (figure == nullptr || !c.cyanurate)
        return {};
    chemistry::ChlorineReadings readings;
    auto const ph = given<units::Ph>(*figure, "ph");
    auto const temperature = given<units::Temperature>(*figure, "temperature");
    auto const salt = given<units::AsSodiumChloride>(*figure, "salt");
    if (!ph || !temperature || !salt)
        return {};
    readings.ph = ph->value, readings.temperature = temperature->value, readings.salt = salt->value;
    double const most = units::in_si(c.cyanurate->value) + units::coverage * units::in_si(c.cyanurate->doubt);
    double const end = std::max(least_reach, beyond * most);
    std::vector<EqualWork> out;
    try
    {
        for (double const bare : shown)
        {
            EqualWork work{of_si<units::AsChlorine>(bare), {}};
            for (double const part : {0.0, 0.25, 1.0})
            {
                readings.cyanurate = of_si<units::AsCyanuricAcid>(part * end);
                work.line.push_back(
                    {readings.cyanurate, chemistry::chlorine_needed(w.engine.equilibria(), readings, work.bare)});
            }
            out.push_back(std::move(work));
        }
    }
    catch (figures::NotComputed const&) // a water beyond what the equilibria take has no such lines
    {
        return {};
    }
    catch (std::domain_error const&)
    {
        return {};
    }
    catch (numerics::NoRoot const&)
    {
        return {};
    }
    return out;
}

} // namespace

std::optional<SaturationWay> saturation_way(AssessedWater const& w)
{
    auto const* figure = computed(w, "saturation");
    if (figure == nullptr)
        return std::nullopt;
    SaturationWay way;
    put(way, w.out.items.at(w.item).name + ", as tested", *figure, "saturation_calcite",
        temperature_in(*figure, "temperature"));
    if (way.places.empty())
        return std::nullopt;
    along_the_way(w, way, true);
    along_the_way(w, way, false);
    auto const& usual = w.engine.water_tables().index_band;
    way.low = usual.low, way.high = usual.high;
    way.low_of = way.high_of = usual.body;
    auto const lead = band(w, P::saturation_index);
    if (lead.low && lead.low->chosen)
        way.low = units::of_si<units::Number>(lead.low->bound.value), way.low_of = whose(*lead.low);
    if (lead.high && lead.high->chosen)
        way.high = units::of_si<units::Number>(lead.high->bound.value), way.high_of = whose(*lead.high);
    return way;
}

std::optional<ChlorineStanding> chlorine_standing(AssessedWater const& w)
{
    auto const free = trusted_chlorine(w);
    if (!free)
        return std::nullopt;
    ChlorineStanding out;
    out.free_chlorine = *free;
    if (auto const* ratio = figure_of(w, "chlorine_to_cyanurate"))
        read_cyanurate(w, *ratio, out);
    read_limits(w, out);
    out.equal_work = equal_work(w, out);
    return out;
}

} // namespace padwalk::assess
