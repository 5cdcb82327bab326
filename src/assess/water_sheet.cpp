// From an assessed water to the owner's sheet: plan, forecast, swimming.
#include "padwalk/assess/water_sheet.hpp"

#include "standing.hpp"
#include "water_bench.hpp"

#include "padwalk/chemistry/indices.hpp"
#include "padwalk/numerics/number_text.hpp"
#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{
namespace
{

using chemistry::WaterReadings;
using units::Measured;

constexpr double day = units::exact::day;

/// One water while its sheet is made.
struct Bench
{
    Engine const& engine;
    units::System system;
    visit::Visit const& visit;
    visit::Water const& v;
    Assessment& out;
    Rules const& rules;
    WaterSheet& sheet;
    bool spa = false;
    visit::WaterTest const* test = nullptr; ///< the one that counts, or none
    chemistry::Targets targets{};

    [[nodiscard]] std::string const& name() const { return out.items.at(sheet.item).name; }
    [[nodiscard]] figures::Figure const* figure(std::string_view model) const
    {
        for (auto const& f : out.figures)
            if (f.item == sheet.item && f.figure.model->name == model && f.figure.computed())
                return &f.figure;
        return nullptr;
    }
    void assume(std::string what, std::string because) const
    {
        out.assumptions.push_back({std::move(what) + " for the forecast of " + name(), std::move(because)});
    }
    template <class Q> [[nodiscard]] std::string show(Measured<Q> const& m) const
    {
        auto const r = units::Reading::of(m);
        return units::show_with_doubt(r.measure, r.value, r.doubt, {system, {}, {}});
    }
};

template <class Q> Measured<Q> given(figures::Figure const& figure, std::string_view name)
{
    for (auto const& used : figure.inputs)
        if (used.shape->name == name && used.shape->measure)
            return {units::of_si<Q>(used.reading.value), units::of_si<units::Difference<Q>>(used.reading.doubt),
                    used.reading.method};
    return {};
}

/// The readings that the saturation figure went by, usual values of what was not tested included.
WaterReadings readings(figures::Figure const& f)
{
    WaterReadings r;
    r.temperature = given<units::Temperature>(f, "temperature").value;
    r.ph = given<units::Ph>(f, "ph").value;
    r.alkalinity = given<units::AsCalciumCarbonate>(f, "alkalinity").value;
    r.calcium = given<units::AsCalciumCarbonate>(f, "calcium").value;
    r.magnesium = given<units::AsCalciumCarbonate>(f, "magnesium").value;
    r.salt = given<units::AsSodiumChloride>(f, "salt").value;
    r.sulfate = given<units::AsSulfate>(f, "sulfate").value;
    r.borate = given<units::AsBoron>(f, "borate").value;
    r.cyanurate = given<units::AsCyanuricAcid>(f, "cyanurate").value;
    r.free_chlorine = given<units::AsChlorine>(f, "free_chlorine").value;
    return r;
}

// ---- what is wanted

chemistry::Finish finish(visit::Water const& v)
{
    if (!v.shell || !v.shell->surface)
        return chemistry::Finish::plaster;
    auto const word = fields::words_of<visit::Surface>::words()[static_cast<std::size_t>(*v.shell->surface)];
    auto const known = fields::words_of<chemistry::Finish>::words();
    auto const found = std::find(known.begin(), known.end(), word);
    return found == known.end() ? chemistry::Finish::other : static_cast<chemistry::Finish>(found - known.begin());
}

chemistry::Sanitizer sanitizer(visit::Water const& v, WaterReadings const& now)
{
    if (v.care && v.care->sanitizer)
        return static_cast<chemistry::Sanitizer>(*v.care->sanitizer); // the same words in the same order
    if (v.salt_system.value_or(false))
        return chemistry::Sanitizer::salt_cell;
    constexpr double stabilized_from = 0.010; // kg/m3, below which a kit can't see it
    return now.cyanurate.value() > stabilized_from ? chemistry::Sanitizer::stabilized_chlorine
                                                   : chemistry::Sanitizer::chlorine;
}

// A test of the filling water, with usual values of what it lacks.
std::optional<WaterReadings> fill_water(Bench const& b, WaterReadings const& usual)
{
    if (!b.v.fill_water)
        return std::nullopt;
    auto const& t = *b.v.fill_water;
    WaterReadings r = usual;
    auto take = [](auto& into, auto const& reading)
    {
        if (reading)
            into = reading->value;
    };
    take(r.ph, t.ph), take(r.alkalinity, t.alkalinity), take(r.calcium, t.calcium), take(r.magnesium, t.magnesium);
    take(r.salt, t.salt), take(r.sulfate, t.sulfate), take(r.borate, t.borate), take(r.cyanurate, t.cyanurate);
    take(r.free_chlorine, t.free_chlorine), take(r.temperature, t.temperature);
    return r;
}

// ---- the plan

std::optional<units::Volume> volume(Bench const& b)
{
    if (b.v.volume)
        return b.v.volume->value;
    if (auto const* f = b.figure("water_volume"))
        if (auto const v = f->get<units::Volume>("volume"))
            return v->value;
    return std::nullopt;
}

void available(Bench& b, chemistry::ProductTable const& table, chemistry::PlanRequest& request)
{
    if (!b.v.care)
        return;
    std::vector<std::string> ids;
    for (auto const& p : table.products)
        ids.push_back(p.id);
    auto known = [&](std::string const& id, std::string const& where)
    {
        if (std::find(ids.begin(), ids.end(), id) != ids.end())
            return true;
        std::string const near = fields::nearest(id, ids);
        b.out.questions.push_back(
            {b.sheet.item,
             where + " '" + id + "'",
             near.empty() ? "no product of this name is known; it was left out"
                          : "no product of this name is known, so it was left out; did you mean '" + near + "'?",
             {}});
        return false;
    };
    for (auto const& id : b.v.care->at_hand)
        if (known(id, "at hand"))
            request.available.push_back(id);
    for (auto const& [id, package] : b.v.care->prices)
    {
        if (!known(id, "price of") || !package.paid)
            continue;
        chemistry::Price price{id, package.paid->value.value(), {}};
        if (package.weighs)
            price.contents = package.weighs->value;
        else if (package.holds)
            price.contents = chemistry::mass_of(table.product(id), package.holds->value);
        else
        {
            b.out.questions.push_back(
                {b.sheet.item, "price of '" + id + "'", "say how much the package weighs or holds", {}});
            continue;
        }
        request.prices.push_back(price);
    }
}

/// Differences smaller than a test's standard uncertainty are not chased; a lack of chlorine always is.
chemistry::IgnoreWithin ignored(figures::Figure const& f)
{
    chemistry::IgnoreWithin i;
    i.ph = given<units::Ph>(f, "ph").doubt;
    i.alkalinity = given<units::AsCalciumCarbonate>(f, "alkalinity").doubt;
    i.calcium = given<units::AsCalciumCarbonate>(f, "calcium").doubt;
    i.cyanurate = given<units::AsCyanuricAcid>(f, "cyanurate").doubt;
    i.salt = given<units::AsSodiumChloride>(f, "salt").doubt;
    return i;
}

std::string missing(Bench const& b)
{
    if (b.test == nullptr)
        return "there is no water test";
    auto const& t = *b.test;
    std::string list;
    auto need = [&](bool there, char const* what)
    {
        if (!there)
            list += (list.empty() ? "" : ", ") + std::string(what);
    };
    need(t.ph.has_value(), "pH");
    need(t.alkalinity.has_value(), "total alkalinity");
    need(t.calcium.has_value(), "calcium hardness");
    need(t.temperature || b.v.temperature, "the water's temperature");
    return list.empty() ? "its readings contradict each other or are off their scales; test again first"
                        : "it needs " + list;
}

void plan(Bench& b, chemistry::ProductTable const& table)
{
    auto const* saturation = b.figure("saturation");
    auto const water = volume(b);
    if (saturation == nullptr)
        b.sheet.no_plan = missing(b);
    else if (!water)
        b.sheet.no_plan = "it needs the volume, or the shape and sizes it can be worked out from";
    if (!b.sheet.no_plan.empty())
        return;
    if (!b.v.shell || !b.v.shell->surface)
        b.out.assumptions.push_back(
            {"plaster as the surface of " + b.name() + " for its dose plan", "not said; write shell: {surface: …}"});
    auto const& data = b.engine.data();
    chemistry::PlanRequest request;
    request.now = readings(*saturation);
    request.volume = *water;
    request.venue = b.spa ? chemistry::Venue::spa : chemistry::Venue::pool;
    request.targets = b.targets;
    request.assumed_fill = chemistry::assumed_fill_water(data);
    request.fill_water = fill_water(b, request.assumed_fill);
    request.ignore = ignored(*saturation);
    available(b, table, request);
    try
    {
        b.sheet.plan = chemistry::plan_doses(b.engine.equilibria(), table, request);
    }
    catch (std::exception const& e)
    {
        if (dynamic_cast<std::logic_error const*>(&e) != nullptr &&
            dynamic_cast<std::domain_error const*>(&e) == nullptr)
            throw;
        b.sheet.no_plan = e.what();
    }
}

// ---- the forecast

template <class Q> void band(WaterSheet& sheet, chemistry::Followed reading, chemistry::Aim<Q> const& aim)
{
    if (!aim.low && !aim.high)
        return;
    chemistry::DriftBand out;
    out.reading = reading;
    if (aim.low)
        out.low = units::Reading::exact(*aim.low);
    if (aim.high)
        out.high = units::Reading::exact(*aim.high);
    sheet.bands.push_back(out);
}

void bands(Bench& b)
{
    using F = chemistry::Followed;
    band(b.sheet, F::ph, b.targets.ph);
    band(b.sheet, F::free_chlorine, b.targets.free_chlorine);
    band(b.sheet, F::alkalinity, b.targets.alkalinity);
    band(b.sheet, F::calcium, b.targets.calcium);
    band(b.sheet, F::cyanurate, b.targets.cyanurate);
    band(b.sheet, F::salt, b.targets.salt);
    band(b.sheet, F::saturation_index, b.targets.saturation);
}

Measured<units::Velocity> evaporation(Bench& b, WaterReadings const& now, units::Area area)
{
    if (b.v.care && b.v.care->evaporation)
        return *b.v.care->evaporation;
    auto const& visit = b.visit;
    if (visit.air_temperature && visit.humidity)
    {
        figures::Inputs in;
        in.add("water_temperature", Measured<units::Temperature>{now.temperature, {}, {}});
        in.add("air_temperature", visit.air_temperature).add("humidity", visit.humidity).add("wind", visit.wind);
        in.add("area", Measured<units::Area>{area, {}, {}});
        auto const f = figures::run(b.engine.catalogue().at("evaporation"), in);
        if (auto rate = f.get<units::Velocity>("level_rate"))
        {
            constexpr double weather_changes = 0.25; // judgement
            rate->doubt =
                units::of_si<units::Velocity>(std::hypot(rate->doubt.value(), weather_changes * rate->value.value()));
            double const open = b.v.covered.value_or(false) ? 0.5 : 1.0;
            b.assume("the weather of the visit on every day", "no other was given");
            return {rate->value * open, rate->doubt * open, "computed"};
        }
    }
    auto const usual = b.rules.limit<units::Velocity>("usual_evaporation");
    b.assume("evaporation of " + b.show(usual), "no weather was given (judgement)");
    return usual;
}

chemistry::StartDoubts doubts(figures::Figure const& f)
{
    chemistry::StartDoubts d;
    d.ph = given<units::Ph>(f, "ph").doubt;
    d.alkalinity = given<units::AsCalciumCarbonate>(f, "alkalinity").doubt;
    d.calcium = given<units::AsCalciumCarbonate>(f, "calcium").doubt;
    d.salt = given<units::AsSodiumChloride>(f, "salt").doubt;
    d.cyanurate = given<units::AsCyanuricAcid>(f, "cyanurate").doubt;
    d.free_chlorine = given<units::AsChlorine>(f, "free_chlorine").doubt;
    return d;
}

void surroundings(Bench& b, chemistry::DriftRequest& r)
{
    auto const* care = b.v.care ? &*b.v.care : nullptr;
    bool const in_spa = b.spa, covered = b.v.covered.value_or(false);
    r.sun = in_spa ? chemistry::Sun::part : chemistry::Sun::full;
    r.aeration =
        in_spa || b.v.salt_system.value_or(false) ? chemistry::Aeration::features : chemistry::Aeration::sheltered;
    if (care != nullptr && care->sun)
        r.sun = static_cast<chemistry::Sun>(*care->sun);
    if (care != nullptr && care->surface)
        r.aeration = static_cast<chemistry::Aeration>(*care->surface);
    if (care == nullptr || !care->sun || !care->surface)
        b.assume("sun '" + fields::words_of<chemistry::Sun>::words()[static_cast<std::size_t>(r.sun)] + "', surface '" +
                     fields::words_of<chemistry::Aeration>::words()[static_cast<std::size_t>(r.aeration)] + "'",
                 "not said; write care: {sun: …, surface: …}");
    constexpr double covered_share = 0.8; // of the time, where it is kept covered when not in use; judgement
    r.covered = units::of_si<units::Fraction>(covered ? covered_share : 0.0);
    r.wind = b.visit.wind ? std::optional(b.visit.wind->value) : std::nullopt;
    r.demand_per_day = b.rules.limit<units::AsChlorine>(in_spa ? "usual_demand_spa" : "usual_demand_pool").value;
    if (care != nullptr && care->used_per_day)
        r.demand_per_day = care->used_per_day->value;
    if (care != nullptr && care->made_per_day)
        r.added_per_day = chemistry::salt_cell(care->made_per_day->value);
    if (care != nullptr && care->splash)
        r.liquid_loss = *care->splash;
    else
    {
        auto const share = b.rules.limit<units::Fraction>("usual_splash_share");
        r.liquid_loss = {units::of_si<units::VolumeFlow>(r.volume.value() * share.value.value() / day),
                         units::of_si<units::VolumeFlow>(r.volume.value() * share.doubt.value() / day), "assumed"};
        b.assume("water splashed and backwashed " + b.show(share) + " of the volume a day", "not said (judgement)");
    }
}

// Doses that are given again and again.
void schedule(Bench& b, chemistry::ProductTable const& table, chemistry::DriftRequest& r)
{
    if (!b.v.care)
        return;
    std::vector<std::string> ids;
    for (auto const& p : table.products)
        ids.push_back(p.id);
    for (auto const& dose : b.v.care->doses)
    {
        if (std::find(ids.begin(), ids.end(), dose.product) == ids.end() || (!dose.weighs && !dose.holds) ||
            !dose.every)
        {
            std::string const near = fields::nearest(dose.product, ids);
            b.out.questions.push_back({b.sheet.item,
                                       "dose of '" + dose.product + "'",
                                       near.empty() || near == dose.product
                                           ? "say a known product, how much it weighs or holds, and every how often"
                                           : "no product of this name is known; did you mean '" + near + "'?",
                                       {}});
            continue;
        }
        auto const& product = table.product(dose.product);
        auto const mass = dose.weighs ? dose.weighs->value : chemistry::mass_of(product, dose.holds->value);
        double const every = dose.every->value.value();
        for (double at = every; at <= r.length.value() + 1; at += every)
            r.schedule.push_back({units::Duration::from_value(at), chemistry::added(product, mass, r.volume)});
    }
    std::stable_sort(r.schedule.begin(), r.schedule.end(), [](auto const& x, auto const& y) { return x.at < y.at; });
}

std::optional<units::Area> area(Bench const& b)
{
    if (b.v.area)
        return b.v.area->value;
    if (auto const* f = b.figure("water_volume"))
        if (auto const a = f->get<units::Area>("area"))
            return a->value;
    return std::nullopt;
}

void forecast(Bench& b, chemistry::ProductTable const& table)
{
    auto const* saturation = b.figure("saturation");
    auto const water = volume(b);
    auto const surface = area(b);
    if (saturation == nullptr)
        b.sheet.no_forecast = missing(b);
    else if (!water || !surface)
        b.sheet.no_forecast = std::string("it needs the ") +
                              (water     ? "area of the surface"
                               : surface ? "volume"
                                         : "volume and the area of the surface") +
                              ", or the shape and sizes to work them out from";
    if (!b.sheet.no_forecast.empty())
        return;
    bool const planned = b.sheet.plan && !b.sheet.plan->steps.empty();
    WaterReadings const start = planned ? b.sheet.plan->end.readings : readings(*saturation);
    try
    {
        chemistry::DriftRequest r;
        r.start = b.engine.equilibria().at_ph(chemistry::composition_of(start), start.ph).composition();
        r.doubts = doubts(*saturation);
        r.area = *surface;
        r.volume = *water;
        r.length = b.sheet.ahead;
        r.evaporation = evaporation(b, start, *surface);
        auto const usual = chemistry::assumed_fill_water(b.engine.data());
        auto const tap = fill_water(b, usual);
        r.fill = tap.value_or(usual);
        if (!tap)
            b.assume("tap water of the usual kind", "fill_water was not given");
        surroundings(b, r);
        schedule(b, table, r);
        bands(b);
        r.bands = b.sheet.bands;
        b.sheet.forecast = chemistry::forecast(b.engine.equilibria(), r, chemistry::drift_table(b.engine.data()));
    }
    catch (std::exception const& e)
    {
        if (dynamic_cast<std::logic_error const*>(&e) != nullptr &&
            dynamic_cast<std::domain_error const*>(&e) == nullptr)
            throw;
        b.sheet.no_forecast = e.what();
    }
}

// ---- swimming

void swimming(Bench& b)
{
    Swim& swim = b.sheet.swim;
    for (auto const& alarm : b.out.alarms)
        if (alarm.urgency == Urgency::stop_use)
            swim.against.push_back(b.out.findings.at(alarm.finding).name + " (" + b.out.items.at(alarm.item).name +
                                   ")");
    static constexpr std::string_view stops[] = {"free_chlorine_low",
                                                 "free_chlorine_high",
                                                 "ph_low",
                                                 "ph_high",
                                                 "water_too_hot",
                                                 "chlorine_to_cyanurate_low",
                                                 "water_readings_disagree",
                                                 "water_test_bleached"};
    bool chlorine_judged = false, ph_judged = false;
    for (auto const& f : b.out.findings)
    {
        if (f.item != b.sheet.item)
            continue;
        chlorine_judged = chlorine_judged || f.id == "free_chlorine_low";
        ph_judged = ph_judged || f.id == "ph_low" || f.id == "ph_high";
        if (f.probability <= 0.5 || std::find(std::begin(stops), std::end(stops), f.id) == std::end(stops))
            continue;
        std::string const what = f.name + " (" + b.name() + ")";
        if (std::find(swim.against.begin(), swim.against.end(), what) == swim.against.end())
            swim.against.push_back(what);
    }
    if (b.test == nullptr || !b.test->free_chlorine || !b.test->ph)
        swim.against.push_back("free chlorine and pH were not both tested");
    else if (!chlorine_judged || !ph_judged)
        swim.against.push_back("free chlorine or pH could not be judged by this test");
    if (b.out.outcome == assess::Outcome::unsafe && swim.against.empty())
        swim.against.push_back("what stands under Danger");
    swim.now = swim.against.empty();
    units::Duration wait{};
    if (b.sheet.plan)
        for (auto const& step : b.sheet.plan->steps)
            wait = std::max(wait, step.swim, [](auto x, auto y) { return x.value() < y.value(); });
    std::string const test = "a fresh test shows free chlorine and pH in their bands and the bottom is clearly seen";
    if (wait.value() > 0)
        swim.when = "each time not before " + numerics::number_text(std::round(wait.value() / units::exact::hour)) +
                    " h after the last product, and then only if " + test;
    else if (!swim.now)
        swim.when = "only when " + test;
}

// ---- in words

void say_of(Bench& b, std::string_view model, std::string_view output, std::string const& label)
{
    if (auto const* f = b.figure(model))
        for (auto const& o : f->outputs)
            if (o.shape->name == output && !o.words.empty())
                b.sheet.doing.push_back(label + o.words);
}

void doing(Bench& b)
{
    for (auto const& f : b.out.figures)
        if (f.item == b.sheet.item && f.figure.model->name == "saturation" && f.figure.computed())
            if (auto const index = f.figure.get<units::Number>("saturation_calcite"))
            {
                b.sheet.doing.push_back("balance: saturation index " + b.show(*index) + ", " + f.meaning);
                auto const& out = f.figure.output("saturation_calcite");
                b.sheet.doing.push_back("plaster and grout: " +
                                        chemistry::plaster_risk_in_words(units::of_si<units::Number>(out.low),
                                                                         units::of_si<units::Number>(out.high)));
                auto const r = readings(f.figure);
                b.sheet.doing.push_back("copper of a heater: " + chemistry::copper_risk_in_words(r.ph, r.free_chlorine,
                                                                                                 r.cyanurate,
                                                                                                 r.alkalinity, r.salt));
            }
    say_of(b, "saturation", "hand_method", "the hand method of codes and courses ");
    say_of(b, "saturation", "drift", "by itself: ");
    say_of(b, "saturation", "chlorine", "chlorine: ");
    say_of(b, "hypochlorous", "in_words", "chlorine: ");
    say_of(b, "combined_chlorine", "in_words", "combined chlorine: ");
    for (auto const& f : b.out.figures)
        if (f.figure.model->name == "heated_water" && !f.meaning.empty() &&
            f.label.find(" of " + b.name() + " ") != std::string::npos)
            b.sheet.doing.push_back(b.out.items.at(f.item).name + ": " + f.meaning);
}

void add_sayings(WaterReport& report, chemistry::ProductTable const& table)
{
    auto add = [&](std::string const& id, std::string const& say)
    {
        auto const known =
            std::any_of(report.sayings.begin(), report.sayings.end(), [&](auto const& s) { return s.first == id; });
        if (!known)
            report.sayings.emplace_back(id, say);
    };
    for (auto const& sheet : report.waters)
        if (sheet.plan)
            for (auto const& step : sheet.plan->steps)
                for (auto const& id : step.cautions)
                    add(id, table.caution(id));
}

} // namespace

WaterReport assess_water(visit::ReadVisit const& visit, Engine const& engine, units::System system,
                         units::Duration ahead)
{
    WaterReport report;
    report.assessment = assess(visit, engine, system);
    Rules const rules(engine.data(), system);
    auto const table = chemistry::product_table(engine.data());
    std::vector<Assumption> said_already; // by the assessment
    Property const property(visit.visit, said_already);
    for (auto const& [name, water] : visit.visit.waters)
    {
        WaterSheet sheet;
        sheet.ahead = ahead;
        for (std::size_t i = 0; i < report.assessment.items.size(); ++i)
            if (report.assessment.items[i].path == "waters/" + name)
                sheet.item = i;
        Bench b{engine, system, visit.visit, water, report.assessment, rules, sheet};
        b.spa = property.kind_of(sheet.item) == visit::WaterKind::spa;
        b.test = newest_test(water);
        if (auto const* saturation = b.figure("saturation"))
            b.targets = chemistry::targets_for(engine.data(), b.spa ? chemistry::Venue::spa : chemistry::Venue::pool,
                                               finish(water), sanitizer(water, readings(*saturation)),
                                               water.care && water.care->borate_wanted.value_or(false));
        doing(b);
        plan(b, table);
        forecast(b, table);
        swimming(b);
        AssessedWater const done{engine, report.assessment, rules, water, b.test, sheet.item, b.spa};
        sheet.saturation = saturation_way(done);
        sheet.chlorine = chlorine_standing(done);
        bool const nothing = sheet.plan && sheet.plan->outcome == chemistry::Outcome::nothing_to_do;
        report.something_to_do = report.something_to_do || !nothing || !sheet.swim.now;
        report.waters.push_back(std::move(sheet));
    }
    add_sayings(report, table);
    return report;
}

} // namespace padwalk::assess
