// What a water does to calcium carbonate: where it stands, at its heaters, and in a spa that shares it; and which
// better test would settle it where these can't.
#include "water_doubts.hpp"

#include "padwalk/chemistry/conductivity.hpp"
#include "padwalk/chemistry/saturation_handbook.hpp"
#include "padwalk/numerics/number_text.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{
namespace
{

using units::Measured;

constexpr double sure_enough = 0.8;   ///< a verdict is given from this probability; judgement
constexpr double better_by = 1.0 / 3; ///< doubt of a better test, as a share of this one's; judgement

/// The band that balance is judged by, and whose each end is.
struct Band
{
    chemistry::IndexBand band;
    std::string low_of, high_of;
};

/// That of the body which leads, end by end, else the trade's.
Band index_band(WaterBench& b)
{
    Band out{b.w.engine.water_tables().index_band, {}, {}};
    out.low_of = out.high_of = " (" + out.band.body + ")";
    auto const lead = band_of(b, chemistry::Parameter::saturation_index);
    auto take = [&](std::optional<chemistry::LeadingBound> const& bound, units::Number& end, std::string& of)
    {
        if (bound && bound->chosen)
            end = units::of_si<units::Number>(bound->bound.value), of = whose(b, *bound);
    };
    take(lead.low, out.band.low, out.low_of);
    take(lead.high, out.band.high, out.high_of);
    return out;
}

/// Chances of the three verdicts, by an index and the band.
struct Chances
{
    double corrosive = 0, balanced = 0, scaling = 0;
    [[nodiscard]] double most() const { return std::max({corrosive, balanced, scaling}); }
};

Chances chances(Measured<units::Number> const& index, chemistry::IndexBand const& band)
{
    Measured<units::Number> const low{band.low, {}, {}}, high{band.high, {}, {}};
    Chances c;
    c.corrosive = 1 - probability_above(index, low);
    c.scaling = probability_above(index, high);
    c.balanced = std::max(0.0, 1 - c.corrosive - c.scaling);
    return c;
}

std::string percent(double share)
{
    if (share > 0.99)
        return "over 99 %";
    if (share < 0.01)
        return "under 1 %";
    return numerics::number_text(std::round(100 * share)) + " %";
}

/// The words of a reading for 'a better test of …'.
std::string test_of(std::string const& input)
{
    if (input == "ph")
        return "pH";
    if (input == "calcium")
        return "calcium hardness";
    if (input == "magnesium")
        return "total hardness";
    if (input == "salt")
        return "salt or dissolved solids";
    if (input == "free_chlorine")
        return "free chlorine";
    return input;
}

figures::Inputs with_better(figures::Figure const& figure, std::vector<std::string> const& better)
{
    figures::Inputs in;
    for (auto const& used : figure.inputs)
    {
        if (!used.shape->measure)
        {
            in.add_words(used.shape->name, used.words);
            continue;
        }
        units::Reading r = used.reading;
        if (std::find(better.begin(), better.end(), used.shape->name) != better.end())
            r.doubt *= better_by;
        in.add(used.shape->name, r);
    }
    return in;
}

/// Which better tests, fewest first, would make the verdict sure if they read the same.
std::string what_would_settle(figures::Figure const& figure, chemistry::IndexBand const& band)
{
    constexpr std::size_t most_tests = 2;
    constexpr double worth_naming = 0.05;
    std::vector<std::string> better;
    std::string names;
    bool constants = false;
    for (auto const& owed : figures::doubt_shares(figure, "saturation_calcite"))
    {
        if (owed.input == "model_doubt")
        {
            constants = owed.share > 0.5;
            continue;
        }
        if (better.size() == most_tests || owed.share < worth_naming)
            break;
        better.push_back(owed.input);
        names += (names.empty() ? "" : " and ") + test_of(owed.input);
        auto const again = figures::run(*figure.model, with_better(figure, better));
        auto const index = again.get<units::Number>("saturation_calcite");
        if (index && chances(*index, band).most() >= sure_enough)
            return "a better test of " + names + " would settle it";
    }
    if (constants)
        return "no test would settle it: the chemistry's own constants are not known that well here";
    if (names.empty())
        return "it lies on the border";
    return "it lies so near the border that even better tests of " + names + " may not settle it";
}

std::string verdict_of(figures::Figure const& figure, chemistry::IndexBand const& band)
{
    auto const index = figure.get<units::Number>("saturation_calcite");
    Chances const c = chances(*index, band);
    std::string const limits =
        " the band " + numerics::number_text(band.low.value()) + " to +" + numerics::number_text(band.high.value());
    if (c.scaling >= sure_enough)
        return "scaling, " + percent(c.scaling) + " sure: above" + limits + "; scale comes first where it is hottest";
    if (c.corrosive >= sure_enough)
        return "corrosive to plaster and grout, " + percent(c.corrosive) + " sure: below" + limits;
    if (c.balanced >= sure_enough)
        return "balanced, " + percent(c.balanced) + " sure: within" + limits;
    return "can't tell with these tests (corrosive " + percent(c.corrosive) + ", balanced " + percent(c.balanced) +
           ", scaling " + percent(c.scaling) + "): " + what_would_settle(figure, band);
}

// ---- what goes in

template <class Q> double doubt_share(Measured<Q> const& m)
{
    return m.value.value() > 0 ? units::in_si(m.doubt) / units::in_si(m.value) : 0.0;
}

template <class Q> Q share_of(Q const& value, double share)
{
    return units::of_si<Q>(units::in_si(value) * share);
}

/// What was not tested is taken as usual, with a doubt to match, in one line.
class Usual
{
public:
    explicit Usual(WaterBench& b) : b_(b) {}

    template <class Q> Measured<Q> take(std::string const& name, std::string const& rule)
    {
        auto m = b_.w.rules.limit<Q>(rule);
        m.method = "assumed";
        said_ += (said_.empty() ? "" : ", ") + name + " " + b_.w.show(m);
        return m;
    }
    ~Usual() = default;
    void say() const
    {
        if (!said_.empty())
            b_.w.out.assumptions.push_back({said_ + " for the saturation index of " + b_.w.name(b_.item),
                                            "not tested; usual in pools (judgement)"});
    }

private:
    WaterBench& b_;
    std::string said_;
};

Measured<units::AsCalciumCarbonate> magnesium(WaterBench const& b, Usual& usual)
{
    auto const& t = *b.test;
    if (t.magnesium)
        return *t.magnesium;
    if (t.hardness && t.calcium && t.hardness->value >= t.calcium->value)
        return {t.hardness->value - t.calcium->value,
                units::of_si<units::AsCalciumCarbonate>(
                    std::hypot(units::in_si(t.hardness->doubt), units::in_si(t.calcium->doubt))),
                "total less calcium hardness"};
    return usual.take<units::AsCalciumCarbonate>("magnesium hardness", "usual_magnesium");
}

/// Salt as read, or as much as fits a reading of conductivity or dissolved solids, or as usual.
Measured<units::AsSodiumChloride> salt(WaterBench& b, Trust const& trust, chemistry::WaterReadings readings,
                                       Usual& usual)
{
    auto const& t = *b.test;
    std::optional<Measured<units::AsSodiumChloride>> read = trust.use_salt ? t.salt : std::nullopt;
    if (!trust.use_solids || !(t.conductivity || t.dissolved_solids))
        return read ? *read
                    : usual.take<units::AsSodiumChloride>("salt", b.v.salt_system.value_or(false) ? "usual_salt_made"
                                                                                                  : "usual_salt");
    std::string const by = t.conductivity ? "conductivity" : "dissolved solids";
    units::AsSodiumChloride fitted{};
    try
    {
        fitted = t.conductivity ? chemistry::salt_to_fit(b.w.engine.equilibria(), readings, t.conductivity->value,
                                                         b.w.engine.water_tables().conductivity)
                                : chemistry::salt_to_fit_solids(readings, t.dissolved_solids->value);
    }
    catch (figures::NotComputed const& e) // less than the other readings hold: no salt fits
    {
        ask(b, by + " " + (t.conductivity ? b.w.show(*t.conductivity) : b.w.show(*t.dissolved_solids)),
            std::string(e.what()) + "; until then the salt is not taken from it");
        return read ? *read : usual.take<units::AsSodiumChloride>("salt", "usual_salt");
    }
    double const share = t.conductivity ? doubt_share(*t.conductivity) : doubt_share(*t.dissolved_solids);
    if (read && read->value >= fitted)
        return *read;                    // the rest of what it conducts is not salt's to carry
    constexpr double model_share = 0.05; // of turning either into salt, judgement
    b.w.out.assumptions.push_back({"salt of " + b.w.show(Measured<units::AsSodiumChloride>{fitted, {}, {}}) +
                                       " for the saturation index of " + b.w.name(b.item),
                                   "as much as fits its " + by});
    return {fitted, share_of(fitted, std::hypot(share, model_share)), "fitted to " + by};
}

std::optional<figures::Inputs> water_inputs(WaterBench& b, Trust const& trust)
{
    auto const& t = *b.test;
    if (!t.ph || !t.alkalinity || !t.calcium || !b.temperature || !trust.use_ph || !trust.use_alkalinity ||
        !trust.use_calcium)
        return std::nullopt;
    Usual usual(b);
    chemistry::WaterReadings r;
    figures::Inputs in;
    in.add("ph", t.ph).add("alkalinity", t.alkalinity).add("calcium", t.calcium).add("temperature", b.temperature);
    r.ph = t.ph->value, r.alkalinity = t.alkalinity->value, r.calcium = t.calcium->value;
    r.temperature = b.temperature->value;
    auto const mg = magnesium(b, usual);
    auto const sulfate = t.sulfate ? *t.sulfate : usual.take<units::AsSulfate>("sulfate", "usual_sulfate");
    auto const ring = t.cyanurate && trust.use_cyanurate
                          ? *t.cyanurate
                          : usual.take<units::AsCyanuricAcid>("cyanurate", "usual_cyanurate");
    r.magnesium = mg.value, r.sulfate = sulfate.value, r.cyanurate = ring.value;
    in.add("magnesium", mg).add("sulfate", sulfate).add("cyanurate", ring);
    if (t.borate)
        r.borate = t.borate->value;
    in.add("borate", t.borate ? *t.borate : Measured<units::AsBoron>{});
    auto const chlorine = t.free_chlorine && trust.use_chlorine ? *t.free_chlorine : Measured<units::AsChlorine>{};
    r.free_chlorine = chlorine.value;
    in.add("free_chlorine", chlorine);
    in.add("salt", salt(b, trust, r, usual));
    // Said once in the figure's own page, not on every report.
    in.add_words("constants", "plummer_busenberg_1982").add_words("cyanurate_constants", "obrien_1974");
    in.add("model_doubt", units::Reading{units::Measure::number, 0, 0.5, "difference between two sets of constants"});
    usual.say();
    return in;
}

// ---- what comes of it

// The index moves with pH, and against the cyanurate that is taken off the alkalinity.
Known known_of_index(Trust const& trust)
{
    if (trust.ph_known == Known::exactly)
        return trust.cyanurate_known == Known::at_least ? Known::at_most : Known::exactly;
    // a cyanurate that pulls the other way leaves only the doubt
    bool const pulls = trust.cyanurate_known == Known::at_least && trust.ph_known == Known::at_least;
    return pulls ? Known::exactly : trust.ph_known;
}

void index_against_band(WaterBench& b, Trust const& trust, Band const& band, Measured<units::Number> const& index)
{
    auto const known = known_of_index(trust);
    Measured<units::Number> const low{band.band.low, {}, {}}, high{band.band.high, {}, {}};
    std::string const &low_of = band.low_of, &high_of = band.high_of;
    std::string const of = "saturation index " + known_text(b, units::Reading::of(index), known);
    double const corrosive = 1 - probability_above(index, low), scaling = probability_above(index, high);
    if (may_be_said(known, false, corrosive))
        b.w.computed(b.item, "index_low", corrosive, of + ", corrosive below " + b.w.show(low) + low_of, "balance");
    if (may_be_said(known, true, scaling))
        b.w.computed(b.item, "index_high", scaling, of + ", scaling above " + b.w.show(high) + high_of, "balance");
}

bool saturation(WaterBench& b, Trust const& trust, figures::Inputs const& in)
{
    auto const figure = b.w.figure(b.item, "saturation", in, "saturation index of " + b.w.name(b.item));
    auto const index = figure.get<units::Number>("saturation_calcite");
    if (!index)
        return false;
    Band const band = index_band(b);
    std::string said = verdict_of(figure, band.band);
    if (trust.ph_known != Known::exactly || trust.cyanurate_known != Known::exactly)
        said += "; a reading is off its scale, so this is only as good as its doubt";
    b.w.verdict(said);
    index_against_band(b, trust, band, *index);
    return true;
}

/// The wall is hotter than the water by the heat that goes through it over the film's conductance; at one input, the
/// conductance goes as flow^0.8 (Dittus and Boelter) and the rise as 1/flow, so the excess as rise^0.8.
Measured<units::TemperatureDifference> wall_excess(WaterBench const& b, Measured<units::TemperatureDifference> rise)
{
    constexpr double film_power = 0.8;
    auto usual = b.w.rules.limit<units::TemperatureDifference>("wall_excess");
    double const usual_rise = units::in_si(b.w.rules.limit<units::TemperatureDifference>("wall_usual_rise").value);
    double const factor = std::pow(std::max(0.2, units::in_si(rise.value) / usual_rise), film_power);
    usual.value = usual.value * factor;
    usual.doubt = usual.doubt * factor;
    usual.method = "worked out from the rise";
    return usual;
}

void at_heater(WaterBench& b, std::size_t heater, figures::Inputs in)
{
    auto const& v = *b.w.property.at(heater).heater;
    if (!v.inlet_temperature || !v.outlet_temperature || v.outlet_temperature->value <= v.inlet_temperature->value)
        return;
    Measured<units::TemperatureDifference> const rise{
        v.outlet_temperature->value - v.inlet_temperature->value,
        units::of_si<units::TemperatureDifference>(
            std::hypot(units::in_si(v.inlet_temperature->doubt), units::in_si(v.outlet_temperature->doubt))),
        "measured"};
    auto const excess = wall_excess(b, rise);
    in.add("outlet_temperature", *v.outlet_temperature).add("wall_excess", excess);
    auto const figure =
        b.w.figure(heater, "heated_water", in, "water of " + b.w.name(b.item) + " in " + b.w.name(heater));
    auto const wall = figure.get<units::Number>("wall_calcite");
    if (!wall)
        return;
    auto const band = index_band(b).band;
    Measured<units::Number> const high{band.high, {}, {}};
    double const p = probability_above(*wall, high);
    auto const temperature = figure.get<units::Temperature>("wall_temperature");
    std::string const at = "at the hot wall, about " + b.w.show(*temperature) + ", the index is " + b.w.show(*wall);
    b.w.verdict(at + (p >= sure_enough      ? ": scale forms there"
                      : p > 1 - sure_enough ? ": scale may form there"
                                            : ": hardly any scale forms there"));
    b.w.computed(heater, "heater_wall_scaling", p,
                 at + "; scale forms above " + b.w.show(high) + " (" + band.body + ")", "balance");
}

// A spa without a test of its own that shares a loop with this pool holds the same water, hotter.
void in_spa(WaterBench& b, figures::Inputs in)
{
    if (b.spa())
        return;
    auto const& things = b.w.property.things();
    auto shares_loop = [&](std::size_t other)
    {
        return std::any_of(things.begin(), things.end(),
                           [&](Thing const& t)
                           { return t.entry.kind == "loop" && t.waters.contains(b.item) && t.waters.contains(other); });
    };
    for (std::size_t other = 0; other < things.size(); ++other)
    {
        Thing const& t = b.w.property.at(other);
        if (other == b.item || t.entry.kind != "water" || t.water == nullptr || !shares_loop(other) ||
            b.w.property.kind_of(other) != visit::WaterKind::spa || !t.water->tests.empty())
            continue;
        auto const spa =
            t.water->temperature ? *t.water->temperature : b.w.rules.limit<units::Temperature>("spa_too_hot");
        in.add("outlet_temperature", spa);
        in.add("wall_excess", Measured<units::TemperatureDifference>{});
        auto const figure =
            b.w.figure(other, "heated_water", in, "water of " + b.w.name(b.item) + " in " + b.w.name(other));
        auto const index = figure.get<units::Number>("saturation_calcite");
        if (!index)
            return;
        auto const band = index_band(b).band;
        Chances const c = chances(*index, band);
        b.w.verdict("if it is the same water, at " + b.w.show(spa) + " the index is " + b.w.show(*index) +
                    (c.scaling >= sure_enough     ? ": scaling there"
                     : c.corrosive >= sure_enough ? ": corrosive there"
                                                  : ""));
        return;
    }
}

} // namespace

bool assess_balance(WaterBench& b, Trust const& trust)
{
    auto const in = water_inputs(b, trust);
    if (!in || !saturation(b, trust, *in))
        return false;
    for (std::size_t i = 0; i < b.w.property.things().size(); ++i)
    {
        Thing const& t = b.w.property.at(i);
        if (t.heater != nullptr && t.entry.kind == "heater" && t.waters.contains(b.item))
            at_heater(b, i, *in);
    }
    in_spa(b, *in);
    return true;
}

} // namespace padwalk::assess
