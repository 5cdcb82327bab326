// The history of a level as evidence for and against a leak: by the balance of the room `level`, not by limits.
#include "level_course.hpp"
#include "water_bench.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/physics/range.hpp"
#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace padwalk::assess
{
namespace
{

using units::Measured;

/// Logistic: the probability that stands for these natural log odds.
double chance(double log_odds)
{
    return 1 / (1 + std::exp(-log_odds));
}

/// Builds what `level` weighs from what was written.
class RecordBuilder
{
public:
    RecordBuilder(WaterBench& b, LevelEntry& entry) : b_(b), entry_(entry) {}

    /// The marks of the history; false where there are fewer than two.
    bool by_history()
    {
        auto const& written = b_.v.level_history;
        if (written.size() < 2)
            return false;
        bool said = true;
        for (std::size_t i = 0; i < written.size(); ++i)
        {
            mark(written, i);
            if (i > 0)
                stretch(written[i]);
            said = said && (i == 0 || written[i].fill);
        }
        if (!said)
            entry_.basis.emplace_back("Where the fill valve was not spoken of it is taken as shut.");
        entry_.last_mark = written.size() - 1;
        if (std::none_of(written.begin(), written.end(), [](auto const& m) { return m.bucket; }))
            append_bucket_test();
        common();
        return true;
    }

    /// The bucket test alone.
    bool by_bucket()
    {
        if (!two_marks())
            return false;
        entry_.last_mark = 1;
        if (!b_.v.bucket_test->fill)
            entry_.basis.emplace_back("The fill valve is taken as shut; it was not said.");
        common();
        return true;
    }

private:
    WaterBench& b_;
    LevelEntry& entry_;

    bool two_marks()
    {
        if (!b_.v.bucket_test)
            return false;
        auto const& t = *b_.v.bucket_test;
        if (!t.pool_drop || !t.elapsed)
            return false;
        level::LevelMark first, last;
        // A drop is read as the distance of two marks.
        auto const one_mark = units::of_si<units::Length>(units::in_si(t.pool_drop->doubt) / std::sqrt(2.0));
        first.fall = {units::Length{}, one_mark, "mark"};
        last.fall = {t.pool_drop->value, one_mark, "mark"};
        if (t.bucket_drop)
        {
            auto const of_bucket = units::of_si<units::Length>(units::in_si(t.bucket_drop->doubt) / std::sqrt(2.0));
            first.bucket_fall = Measured<units::Length>{units::Length{}, of_bucket, "mark"};
            last.bucket_fall = Measured<units::Length>{t.bucket_drop->value, of_bucket, "mark"};
        }
        last.at = t.elapsed->value;
        last.at_doubt = units::of_si<units::Duration>(units::in_si(t.elapsed->doubt));
        entry_.record.marks = {first, last};
        entry_.record.stretches.emplace_back();
        states(entry_.record.stretches.back(), t.pump, t.fill);
        return true;
    }

    void mark(std::vector<visit::LevelMark> const& written, std::size_t i)
    {
        using units::exact::hour;
        auto const& from = written.front();
        auto const& w = written[i];
        auto const time = time_of(w);
        level::LevelMark out;
        out.at = units::of_si<units::Duration>((time.hours - time_of(from).hours) * hour);
        out.at_doubt = units::of_si<units::Duration>(time.doubt * hour);
        out.fall = {w.drop->value - from.drop->value, w.drop->doubt, w.drop->method};
        if (w.bucket)
        {
            auto const start = from.bucket ? from.bucket->value : units::Length{};
            out.bucket_fall = Measured<units::Length>{w.bucket->value - start, w.bucket->doubt, w.bucket->method};
        }
        else if (i == 0 && std::any_of(written.begin(), written.end(), [](auto const& m) { return m.bucket; }))
            out.bucket_fall = Measured<units::Length>{units::Length{}, w.drop->doubt, "mark"};
        entry_.record.marks.push_back(std::move(out));
    }

    /// A bucket test stands beside the history at a time of its own; what went on between them says nothing.
    void append_bucket_test()
    {
        LevelEntry test;
        RecordBuilder of_test(b_, test);
        if (!of_test.two_marks())
            return;
        auto& record = entry_.record;
        auto const between = units::of_si<units::Duration>(units::exact::hour);
        level::LevelStretch gap;       // anything may have come or gone
        constexpr double anything = 8; // m3, standard; judgement: more than half a foot of any small pool
        gap.backwash = {units::Volume{}, units::of_si<units::Volume>(anything), "not watched"};
        record.stretches.push_back(gap);
        auto const at = record.marks.back().at + between;
        auto const fall = record.marks.back().fall.value;
        for (auto mark : test.record.marks)
        {
            mark.at = mark.at + at;
            mark.fall.value = mark.fall.value + fall;
            record.marks.push_back(std::move(mark));
        }
        record.stretches.push_back(test.record.stretches.front());
        entry_.basis.emplace_back("The bucket test is taken as apart from the marks, after them.");
    }

    static void states(level::LevelStretch& s, std::optional<visit::Switch> pump, std::optional<visit::Switch> fill)
    {
        if (pump)
            s.pump = units::of_si<units::Fraction>(*pump == visit::Switch::on ? 1.0 : 0.0);
        s.fill = fill == visit::Switch::on ? level::FillState::open : level::FillState::shut;
    }

    void stretch(visit::LevelMark const& w)
    {
        level::LevelStretch s;
        states(s, w.pump, w.fill);
        s.filled = w.filled;
        if (w.rain)
            s.rain = *w.rain;
        if (w.backwash)
            s.backwash = *w.backwash;
        if (w.bathers)
            s.bather_time = w.bathers->value;
        constexpr double tight = 0.05; // judgement: how much of a covered surface may lie open
        if (w.covered)
            s.covered = {units::of_si<units::Fraction>(*w.covered ? 1 - tight : 0.0),
                         units::of_si<units::Fraction>(*w.covered ? tight : 0.0), "said"};
        else if (b_.v.covered.value_or(false))
            s.covered = half_covered();
        if (w.air_temperature && w.humidity && b_.temperature)
            s.weather = level::LevelWeather{*b_.temperature, *w.air_temperature, *w.humidity, wind(w.wind)};
        entry_.record.stretches.push_back(std::move(s));
    }

    /// Kept covered, and how long and how tight was not said: judgement.
    static Measured<units::Fraction> half_covered()
    {
        return {units::of_si<units::Fraction>(0.5), units::of_si<units::Fraction>(0.25), "judgement"};
    }

    Measured<units::Velocity> wind(visit::Taken<units::Velocity> const& told) const
    {
        return told ? *told : b_.w.rules.limit<units::Velocity>("usual_wind");
    }

    void common()
    {
        auto const& visit = b_.w.visit;
        // Where no volume was noted the surface only bounds what an open fill may have brought: any will do.
        constexpr double usual_area = 37; // m2, 400 ft2; judgement
        auto const noted = [](level::LevelStretch const& s)
        { return s.filled || units::in_si(s.backwash.value) > 0 || units::in_si(s.bather_time) > 0; };
        auto const& all = entry_.record.stretches;
        if (b_.area)
            entry_.record.area = b_.area->value;
        else if (std::none_of(all.begin(), all.end(), noted))
            entry_.record.area = units::of_si<units::Area>(usual_area);
        bool const known = b_.temperature && visit.air_temperature && visit.humidity;
        if (known)
        {
            entry_.record.weather =
                level::LevelWeather{*b_.temperature, *visit.air_temperature, *visit.humidity, wind(visit.wind)};
            entry_.basis.emplace_back("The weather of the visit is taken for all of the time, with a doubt for that.");
            if (!visit.wind)
                entry_.basis.push_back("The wind was not told; " +
                                       b_.w.show(b_.w.rules.limit<units::Velocity>("usual_wind"), "mph") +
                                       " is taken.");
        }
        else if (std::none_of(entry_.record.stretches.begin(), entry_.record.stretches.end(),
                              [](auto const& s) { return s.weather.has_value(); }))
            entry_.basis.emplace_back("No weather is known: a usual evaporation is taken, with a wide doubt. Water and "
                                      "air temperature and humidity would narrow it, a bucket most.");
        if (b_.v.covered.value_or(false))
            for (auto& s : entry_.record.stretches)
                if (!(s.covered.value.value() > 0) && !(s.covered.doubt.value() > 0))
                    s.covered = half_covered();
    }
};

std::string rate_text(Workbench const& w, level::LeakRate const& rate)
{
    return w.show(rate.estimate, "in/day");
}

std::string words_of(Workbench const& w, LevelEntry const& entry)
{
    auto const& balance = entry.balance;
    auto const& odds = balance.odds;
    auto const shown = [&](units::Velocity v)
    {
        constexpr double as_told = 0.05; // of it
        double const si = units::in_si(v);
        return units::show(units::Measure::velocity, si, as_told * si, {w.system, "in/day", "mm/day"});
    };
    auto const evaporated = balance.foretold.back().fall;
    std::string out = "the level fell " + w.show(entry.record.marks.back().fall) + " in " +
                      w.show(units::Reading::exact(entry.record.length()), "h") + "; without a leak it would have " +
                      "fallen " + w.show(evaporated) + "; beyond that " + rate_text(w, balance.leak);
    out += "; that is " + leak_weight(odds.log_ratio).words;
    return out + "; the least leak that this could have shown is " + shown(balance.least_shown);
}

/// How much likelier one place makes the history than the other two do, as log odds; zero weight where there is no
/// leak.
double place_odds(level::LevelBalance const& balance, level::LeakPlace place)
{
    double here = 0, rest = 0;
    double most = -1e300;
    for (auto const& p : balance.places)
        most = std::max(most, p.log_likelihood);
    for (auto const& p : balance.places)
        (p.place == place ? here : rest) += std::exp(p.log_likelihood - most);
    return std::log(std::max(here, 1e-300)) - std::log(std::max(rest / 2, 1e-300));
}

void sides(WaterBench& b, LevelEntry const& entry)
{
    auto const& balance = entry.balance;
    if (!balance.on || !balance.off || balance.odds.log_ratio <= 0)
        return; // where nothing is lost, 'the same' says nothing
    double const leak = 1 - balance.odds.none.value();
    std::string const from =
        "beyond evaporation, pump on " + rate_text(b.w, *balance.on) + ", off " + rate_text(b.w, *balance.off);
    using level::LeakPlace;
    for (auto const& [id, place] : {std::pair{"water_loss_more_on", LeakPlace::pressure_side},
                                    std::pair{"water_loss_more_off", LeakPlace::suction_side},
                                    std::pair{"water_loss_same_on_off", LeakPlace::shell}})
        b.w.computed(b.item, id, 0.5 + (chance(place_odds(balance, place)) - 0.5) * leak, from);
}

/// How much likelier the level stops at fittings of these kinds than they are beforehand, as log odds.
double stops_at(LevelEntry const& entry, std::vector<visit::ShellFitting> const& fittings,
                std::vector<visit::FittingKind> const& kinds)
{
    double const each = 1.0 / static_cast<double>(entry.settling->fittings.size() + 2); // elsewhere and never too
    bool const at_others = std::find(kinds.begin(), kinds.end(), visit::FittingKind::inlet) != kinds.end();
    double now = at_others ? entry.settling->elsewhere.chance.value() : 0, before = at_others ? each : 0;
    for (std::size_t i = 0; i < fittings.size(); ++i)
        if (std::find(kinds.begin(), kinds.end(), *fittings[i].kind) != kinds.end())
            now += entry.settling->fittings[i].chance.value(), before += each;
    auto const log_odds = [](double p) { return std::log(p / (1 - p)); };
    constexpr double edge = 1e-9;
    return before > 0 ? log_odds(std::clamp(now, edge, 1 - edge)) - log_odds(std::clamp(before, edge, 1 - edge)) : 0;
}

std::vector<FittingEntry> fittings_of(visit::Water const& water)
{
    std::vector<FittingEntry> out;
    for (auto const& f : water.fittings)
    {
        std::string name = f.name;
        if (name.empty())
        {
            name = fields::words_of<visit::FittingKind>::words()[static_cast<std::size_t>(*f.kind)];
            std::replace(name.begin(), name.end(), '_', ' ');
        }
        out.push_back({*f.kind, {std::move(name), *f.depth}});
    }
    return out;
}

void settling(WaterBench& b, LevelEntry& entry)
{
    auto const& fittings = b.v.fittings;
    if (fittings.empty() || entry.record.marks.size() < 3)
        return;
    std::vector<level::Fitting> given;
    for (auto const& f : entry.fittings)
        given.push_back(f.place);
    entry.settling = level::level_settling(entry.record, given, b.w.engine.water_tables().level);
    if (entry.balance.odds.log_ratio <= 0)
        return;
    auto const& s = *entry.settling;
    std::string const from = "if it stops falling, it does at " + b.w.show(units::Reading::exact(s.depth), "in") +
                             " (" + b.w.show(units::Reading::exact(s.low), "in") + " to " +
                             b.w.show(units::Reading::exact(s.high), "in") + ") below the first mark";
    using visit::FittingKind;
    for (auto const& [id, kinds] :
         {std::pair{"water_level_stops",
                    std::vector{FittingKind::inlet, FittingKind::cleaner_line, FittingKind::step, FittingKind::drain}},
          std::pair{"water_level_stops_skimmer", std::vector{FittingKind::skimmer, FittingKind::tile_line}},
          std::pair{"water_level_stops_light", std::vector{FittingKind::light}}})
        if (double const odds = stops_at(entry, fittings, kinds); odds != 0)
            b.w.computed(b.item, id, chance(odds), from);
}

void enter(WaterBench& b, LevelEntry& entry)
{
    auto const& balance = entry.balance;
    // Evaporation is not known so badly that water would rise by itself.
    constexpr double far = 3; // standard uncertainties; judgement
    if (units::in_si(balance.leak.estimate.value) < -far * units::in_si(balance.leak.estimate.doubt))
    {
        b.w.out.questions.push_back({b.item,
                                     "level of " + b.w.name(b.item),
                                     "fell less than evaporation takes: did rain, a hose or a fill valve bring water "
                                     "that was not noted? Until that is known it argues neither for nor against a leak",
                                     {}});
        return;
    }
    double const p = leak_weight(balance.odds.log_ratio).probability;
    b.w.computed(b.item, "loss_above_evaporation", p, entry.words);
    b.w.computed(b.item, "level_holds", 1 - p, entry.words);
    sides(b, entry);
    settling(b, entry);
}

} // namespace

LeakWeight leak_weight(double log_odds)
{
    constexpr double hardly = 1.5, beyond_words = 1000; // judgement
    double const times = std::exp(std::abs(log_odds));
    std::string words = "as likely with a leak as without";
    if (times >= hardly)
        words = (times > beyond_words ? std::string("over 1000") : units::show_significant(times, 2)) +
                " times likelier " + (log_odds > 0 ? "with a leak than without" : "without a leak than with one");
    return {chance(log_odds), words};
}

void weigh_level(WaterBench& b)
{
    LevelEntry entry;
    entry.item = b.item;
    entry.fittings = fittings_of(b.v);
    RecordBuilder builder(b, entry);
    if (!builder.by_history() && !builder.by_bucket())
        return;
    auto const& facts = b.w.engine.water_tables().level;
    if (std::all_of(entry.record.stretches.begin(), entry.record.stretches.end(),
                    [](auto const& s) { return level::unmetered(s); }) ||
        units::in_si(entry.record.length()) < units::exact::hour)
        return; // said where the figures are worked out
    try
    {
        entry.balance = level::level_balance(entry.record, facts);
        entry.sought = facts.table.target_leak.value;
        entry.watch_longer = level::watch_longer(entry.record, entry.sought, facts);
        entry.words = words_of(b.w, entry);
        enter(b, entry);
        entry.course = level_course(entry, facts);
        b.w.out.levels.push_back(std::move(entry));
    }
    catch (figures::NotComputed const& why)
    {
        b.w.out.not_tested.push_back({b.item, "level against evaporation", why.what()});
    }
    catch (physics::OutOfRange const& why)
    {
        b.w.out.not_tested.push_back({b.item, "level against evaporation", why.what()});
    }
}

} // namespace padwalk::assess
