// Readings and figures of two visits, matched and held against each other.
#include "comparison_parts.hpp"

#include "matching.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace padwalk::assess
{
namespace
{

// What was written is kept in a double; sums of squares of such are good to a part in 10^10 and no better.
constexpr double rounding = 1e-10;

/// Item, kind and name of a field, and how often that stood before in its visit.
using Place = std::tuple<std::size_t, ReadingOf, std::string, std::size_t>;

struct Placed
{
    ReadingTaken const* taken = nullptr;
    std::string taken_at;
};

/// Readings of one visit by their place, and their order.
struct Readings
{
    std::map<Place, Placed> by_place;
    std::vector<Place> order;
    std::size_t marks = 0;
};

// Of water tests the newest counts, one without a date for the oldest; among equals the last written.
template <class At> Readings readings_of(Assessment const& a, At const& at)
{
    Readings out;
    std::map<std::tuple<std::size_t, ReadingOf, std::string>, std::size_t> seen;
    for (auto const& taken : a.readings)
    {
        auto const key = key_of(taken);
        if (key.of == ReadingOf::level_mark)
        {
            ++out.marks;
            continue;
        }
        if (of_the_visit(taken))
            continue;
        bool const test = key.of == ReadingOf::water_test;
        std::size_t const nth = test ? 0 : seen[{at(taken.item), key.of, key.label}]++;
        Place const place{at(taken.item), key.of, key.label, nth};
        auto const [known, fresh] = out.by_place.emplace(place, Placed{&taken, key.taken_at});
        if (fresh)
            out.order.push_back(place);
        else if (key.taken_at >= known->second.taken_at)
            known->second = {&taken, key.taken_at};
    }
    return out;
}

ReadingSide side_of(Placed const& placed)
{
    return {placed.taken->reading, placed.taken->words, placed.taken_at};
}

void hold(ReadingCompared& c)
{
    if (!c.then || !c.now)
    {
        c.changed = c.then ? Changed::only_then : Changed::only_now;
        return;
    }
    bool const in_words = !c.then->words.empty() || !c.now->words.empty();
    if (in_words || c.then->reading.measure != c.now->reading.measure)
    {
        c.changed = c.then->words == c.now->words ? Changed::agrees : Changed::changed;
        return;
    }
    auto const &then = c.then->reading, &now = c.now->reading;
    c.difference = difference(then.value, then.doubt, now.value, now.doubt);
    c.changed = c.difference->changed;
    c.other_instrument = then.method != now.method;
}

// Item, model, label, and how often that stood before in its visit.
using FigurePlace = std::tuple<std::size_t, std::string, std::string, std::size_t>;

struct Figures
{
    std::map<FigurePlace, FigureEntry const*> by_place;
    std::vector<FigurePlace> order;
};

template <class At> Figures figures_of(Assessment const& a, At const& at)
{
    Figures out;
    std::map<std::tuple<std::size_t, std::string, std::string>, std::size_t> seen;
    for (auto const& entry : a.figures)
    {
        std::string const model = entry.figure.model == nullptr ? std::string() : entry.figure.model->name;
        std::size_t const nth = seen[{at(entry.item), model, entry.label}]++;
        FigurePlace const place{at(entry.item), model, entry.label, nth};
        out.by_place.emplace(place, &entry);
        out.order.push_back(place);
    }
    return out;
}

// Each towards the other: an interval need not lie evenly about its value.
Difference difference_of(figures::OutputValue const& then, figures::OutputValue const& now)
{
    bool const up = *now.value >= *then.value;
    double const from = (up ? then.high - *then.value : *then.value - then.low) / units::coverage;
    double const to = (up ? *now.value - now.low : now.high - *now.value) / units::coverage;
    return difference(*then.value, std::max(from, 0.0), *now.value, std::max(to, 0.0));
}

FigureCompared compared(FigurePlace const& place, FigureEntry const* then, FigureEntry const* now)
{
    FigureCompared c{std::get<0>(place), std::get<2>(place), std::get<1>(place), {}, {}, {}, {}, {}, {}, {}};
    if (then != nullptr)
        c.why_not_then = then->figure.why_not;
    if (now != nullptr)
        c.why_not_now = now->figure.why_not;
    if (now != nullptr)
        c.now = main_output(now->figure);
    if (then != nullptr)
        c.then = main_output(then->figure);
    if (c.then && c.now && c.then->shape->name != c.now->shape->name)
        c.then.reset(); // one of them was told by another of its outputs
    if (c.now || c.then)
        c.output = (c.now ? c.now : c.then)->shape->name;
    if (c.then && c.now)
    {
        c.difference = difference_of(*c.then, *c.now);
        c.changed = c.difference->changed;
    }
    else
        c.changed = c.then ? Changed::only_then : Changed::only_now;
    return c;
}

} // namespace

Difference difference(double then, double doubt_then, double now, double doubt_now)
{
    Difference out;
    out.by = now - then;
    out.doubt = std::sqrt(doubt_then * doubt_then + doubt_now * doubt_now);
    double const size = std::abs(out.by);
    double const room = rounding * std::max(std::abs(then), std::abs(now));
    if (out.doubt > 0)
        out.doubts = size / out.doubt;
    out.changed = size <= units::coverage * out.doubt + room ? Changed::agrees : Changed::changed;
    return out;
}

void compare_readings(Pair& pair)
{
    auto const then = readings_of(pair.then, [&](std::size_t i) { return pair.then_at(i); });
    auto const now = readings_of(pair.now, [&](std::size_t i) { return pair.now_at(i); });
    pair.out.marks_then = then.marks;
    pair.out.marks_now = now.marks;
    auto const add = [&](Place const& place, ReadingTaken const& taken)
    {
        ReadingCompared c{std::get<0>(place), std::get<2>(place), taken.shape, {}, {}, {}, {}, false};
        if (auto const found = then.by_place.find(place); found != then.by_place.end())
            c.then = side_of(found->second);
        if (auto const found = now.by_place.find(place); found != now.by_place.end())
            c.now = side_of(found->second);
        hold(c);
        pair.out.readings.push_back(std::move(c));
    };
    for (auto const& place : now.order)
        add(place, *now.by_place.at(place).taken);
    for (auto const& place : then.order)
        if (!now.by_place.contains(place))
            add(place, *then.by_place.at(place).taken);
    std::stable_sort(pair.out.readings.begin(), pair.out.readings.end(),
                     [](ReadingCompared const& a, ReadingCompared const& b) { return a.item < b.item; });
}

void compare_figures(Pair& pair)
{
    auto const then = figures_of(pair.then, [&](std::size_t i) { return pair.then_at(i); });
    auto const now = figures_of(pair.now, [&](std::size_t i) { return pair.now_at(i); });
    auto const at = [](Figures const& figures, FigurePlace const& place)
    {
        auto const found = figures.by_place.find(place);
        return found == figures.by_place.end() ? nullptr : found->second;
    };
    auto const add = [&](FigurePlace const& place)
    {
        auto c = compared(place, at(then, place), at(now, place));
        bool const in_words_alone = !c.then && !c.now && c.why_not_then.empty() && c.why_not_now.empty();
        if (!in_words_alone)
            pair.out.figures.push_back(std::move(c));
    };
    for (auto const& place : now.order)
        add(place);
    for (auto const& place : then.order)
        if (at(now, place) == nullptr)
            add(place);
}

} // namespace padwalk::assess
