// Readings and figures over the visits of a log, with their trends and the bands that are wanted.
#include "history_parts.hpp"

#include "matching.hpp"
#include "property.hpp"

#include "padwalk/numerics/line_fit.hpp"

#include <algorithm>
#include <array>
#include <tuple>

namespace padwalk::assess
{
namespace
{

constexpr double seconds_in_hour = 3600;

std::optional<fields::Moment> moment_of(std::string const& text)
{
    if (text.empty())
        return std::nullopt;
    fields::ReadContext context;
    fields::FieldShape const shape;
    return fields::read_moment_node(fields::Node::scalar(text), shape, context);
}

/// Item, whether of a water test, model of a figure or nothing, label, how often that stood before in its visit.
using Place = std::tuple<std::size_t, bool, std::string, std::string, std::size_t>;

/// Gathers the values of all visits by what they are of.
class Gathering
{
public:
    explicit Gathering(LogBench& log) : log_(log) {}

    void visit(std::size_t number)
    {
        std::map<Place, std::size_t> seen; // with 0 for the last
        auto const nth = [&](Place const& place) { return seen[place]++; };
        for (auto const& taken : log_.visits[number]->assessment.readings)
            reading(number, taken, nth);
        for (auto const& entry : log_.visits[number]->assessment.figures)
            if (auto const shown = main_output(entry.figure))
            {
                std::string const model = entry.figure.model == nullptr ? "" : entry.figure.model->name;
                Place place{log_.item_at(number, entry.item), false, model + "/" + shown->shape->name, entry.label, 0};
                std::get<4>(place) = nth(place);
                auto const value = shown->reading();
                add(place, number, *log_.out.visits[number].on, value, shown->shape, model);
            }
    }

    void finish()
    {
        for (auto const& place : order_)
        {
            Series& series = all_.at(place);
            std::stable_sort(series.points.begin(), series.points.end(),
                             [](HistoryPoint const& a, HistoryPoint const& b) { return a.at.hours < b.at.hours; });
            if (series.points.size() < 2)
                continue;
            for (std::size_t i = 0; i < log_.visits.size(); ++i)
                if (log_.dated(i) && std::none_of(series.points.begin(), series.points.end(),
                                                  [i](HistoryPoint const& p) { return p.visit == i; }))
                    series.gaps.push_back(i);
            log_.out.series.push_back(std::move(series));
        }
        // The weather comes last.
        std::stable_sort(log_.out.series.begin(), log_.out.series.end(),
                         [](Series const& a, Series const& b) {
                             return std::tuple(a.item == 0, a.item, !a.figure.empty()) <
                                    std::tuple(b.item == 0, b.item, !b.figure.empty());
                         });
    }

private:
    LogBench& log_;
    std::map<Place, Series> all_;
    std::vector<Place> order_;

    template <class Nth> void reading(std::size_t number, ReadingTaken const& taken, Nth const& nth)
    {
        auto const key = key_of(taken);
        if (!taken.words.empty() || key.of == ReadingOf::level_mark || of_the_visit(taken))
            return;
        bool const test = key.of == ReadingOf::water_test;
        Place place{log_.item_at(number, taken.item), test, "", key.label, 0};
        if (!test)
            std::get<4>(place) = nth(place);
        auto const at = moment_of(key.taken_at);
        add(place, number, at ? *at : *log_.out.visits[number].on, taken.reading, taken.shape, {});
    }

    void add(Place const& place, std::size_t number, fields::Moment const& at, units::Reading const& value,
             fields::FieldShape const* shape, std::string const& model)
    {
        auto const [known, fresh] = all_.emplace(place, Series{});
        Series& series = known->second;
        if (fresh)
        {
            order_.push_back(place);
            series.item = std::get<0>(place);
            series.label = std::get<3>(place);
            series.figure = model;
            series.measure = value.measure;
            series.shape = shape;
        }
        // A water test that was carried on into the next visit's file is one test.
        bool const carried =
            std::get<1>(place) &&
            std::any_of(series.points.begin(), series.points.end(),
                        [&](HistoryPoint const& p) { return p.at.hours == at.hours && p.value == value.value; });
        if (!carried)
            series.points.push_back({at, value.value, value.doubt, number, value.method, BandSide::within, false});
    }
};

void hold_against(Series& series)
{
    for (auto& point : series.points)
    {
        double out = 0.0;
        if (series.band->low && point.value < *series.band->low)
            point.side = BandSide::below, out = *series.band->low - point.value;
        if (series.band->high && point.value > *series.band->high)
            point.side = BandSide::above, out = point.value - *series.band->high;
        point.surely = out > units::coverage * point.doubt && point.side != BandSide::within;
    }
}

void fit(Series& series)
{
    std::vector<double> when, values, doubts;
    std::size_t doubtful = 0;
    for (auto const& point : series.points)
    {
        when.push_back(point.at.hours * seconds_in_hour);
        values.push_back(point.value);
        doubts.push_back(point.doubt);
        doubtful += point.doubt > 0 ? 1U : 0U;
    }
    bool const known = doubtful == doubts.size(); // else the scatter alone says how sure it is
    if (when.front() == when.back())
        series.why_no_trend = "all values are of one moment";
    else if (!known && doubts.size() < 3)
        series.why_no_trend = "two values, and not of both is the doubt known";
    if (!series.why_no_trend.empty())
        return;
    if (!known)
        doubts.assign(doubts.size(), 1.0);
    auto const line = numerics::fit_line(when, values, doubts);
    auto const interval = numerics::slope_interval(line, known);
    series.trend = Trend{interval.slope,      interval.half_width,           line.values,
                         interval.by_scatter, line.centre / seconds_in_hour, line.at_centre};
}

using P = chemistry::Parameter;

std::optional<P> parameter_of(std::string const& field)
{
    constexpr std::array known{std::pair{"ph", P::ph},
                               std::pair{"free chlorine", P::free_chlorine},
                               std::pair{"bromine", P::bromine},
                               std::pair{"alkalinity", P::alkalinity},
                               std::pair{"calcium", P::calcium},
                               std::pair{"cyanurate", P::cyanurate},
                               std::pair{"dissolved solids", P::dissolved_solids},
                               std::pair{"copper", P::copper},
                               std::pair{"iron", P::iron},
                               std::pair{"sulfate", P::sulfate},
                               std::pair{"temperature", P::water_temperature}};
    for (auto const& [name, parameter] : known)
        if (field == name)
            return parameter;
    return std::nullopt;
}

// Too little to be seen by its test is none.
chemistry::Stabilizer stabilizer_of(visit::Water const& water)
{
    for (auto test = water.tests.rbegin(); test != water.tests.rend(); ++test)
        if (test->cyanurate)
            return units::in_si(test->cyanurate->value) > units::coverage * units::in_si(test->cyanurate->doubt)
                       ? chemistry::Stabilizer::present
                       : chemistry::Stabilizer::none;
    return chemistry::Stabilizer::either;
}

WantedBand wanted(chemistry::LeadingBand const& band)
{
    WantedBand out;
    for (auto const& [end, value, body] :
         {std::tuple{&band.low, &out.low, &out.low_body}, std::tuple{&band.high, &out.high, &out.high_body}})
        if (*end)
        {
            *value = (*end)->bound.value;
            *body = (*end)->body;
            out.from_memory = out.from_memory || (*end)->source.seen == reference::Seen::memory;
        }
    return out;
}

} // namespace

std::optional<WantedBand> wanted_band(LogBench const& log, std::size_t item, std::string const& field)
{
    auto const parameter = parameter_of(field);
    if (!parameter)
        return std::nullopt;
    for (std::size_t i = log.visits.size(); i-- > 0;)
    {
        std::vector<Assumption> assumed;
        auto const& visit = log.visits[i]->read.visit;
        Property const property(visit, assumed);
        for (std::size_t thing = 1; thing < property.things().size(); ++thing)
        {
            auto const& at = property.at(thing);
            if (at.entry.kind != "water" || log.item_at(i, thing) != item)
                continue;
            auto const& tables = log.engine.water_tables();
            std::string const set =
                at.water->limits
                    ? fields::words_of<visit::LimitsOf>::words()[static_cast<std::size_t>(*at.water->limits)]
                    : std::string();
            bool const spa = property.kind_of(thing) == visit::WaterKind::spa;
            auto const band = wanted(chemistry::leading_band(tables.limits, tables.bands, set, *parameter,
                                                             spa ? chemistry::Venue::spa : chemistry::Venue::pool,
                                                             stabilizer_of(*at.water)));
            return band.low || band.high ? std::optional(band) : std::nullopt;
        }
    }
    return std::nullopt;
}

void add_series(LogBench& log)
{
    Gathering gathering(log);
    for (std::size_t i = 0; i < log.visits.size(); ++i)
        if (log.dated(i))
            gathering.visit(i);
    gathering.finish();
    for (auto& series : log.out.series)
    {
        series.steady = std::all_of(series.points.begin(), series.points.end(),
                                    [&](HistoryPoint const& p) { return p.value == series.points.front().value; });
        if (series.figure.empty())
            series.band = wanted_band(log, series.item, series.label);
        if (series.band)
            hold_against(series);
        fit(series);
    }
}

} // namespace padwalk::assess
