// Whose limits a reading is held against: those that lead, and what every published one says of it.
#include "water_bench.hpp"

#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace padwalk::assess
{
namespace
{

using P = chemistry::Parameter;
using chemistry::Standing;

constexpr char unconfirmed[] = "from memory, not confirmed";

chemistry::Venue venue_of(WaterBench const& b)
{
    return b.spa() ? chemistry::Venue::spa : chemistry::Venue::pool;
}

std::string name_of(P parameter)
{
    if (parameter == P::ph)
        return "pH";
    std::string name = fields::words_of<P>::words()[static_cast<std::size_t>(parameter)];
    std::replace(name.begin(), name.end(), '_', ' ');
    return name;
}

// '7.4 to 7.8', '80 to 120 ppm', 'at most 10 ppm'; the basis stands in the reading.
std::string range_text(WaterBench const& b, chemistry::Bounds const& bounds)
{
    auto const bare = [&](units::Reading const& bound)
    {
        std::string const text = b.w.show(bound);
        return text.substr(0, text.find(" as "));
    };
    if (!bounds.low || !bounds.high)
        return bounds.low ? "at least " + bare(*bounds.low) : "at most " + bare(*bounds.high);
    std::string low = bare(*bounds.low);
    std::string const high = bare(*bounds.high);
    auto const low_unit = low.find(' '), high_unit = high.find(' ');
    if (low_unit != std::string::npos && high_unit != std::string::npos &&
        low.substr(low_unit) == high.substr(high_unit))
        low.erase(low_unit);
    return low + " to " + high;
}

void assume_once(WaterBench& b, Assumption said)
{
    auto& list = b.w.out.assumptions;
    if (std::none_of(list.begin(), list.end(),
                     [&](Assumption const& a) { return a.what == said.what && a.because == said.because; }))
        list.push_back(std::move(said));
}

// What the body that was chosen leaves open comes from another: say so, end by end.
void say_of_default(WaterBench& b, P parameter, std::optional<chemistry::LeadingBound> const& bound, bool above)
{
    if (b.leads.id.empty() || !bound || bound->chosen)
        return;
    assume_once(b, {name_of(parameter) + " of " + b.w.name(b.item) + (above ? " at most " : " at least ") +
                        b.w.show(bound->bound) + whose(b, *bound),
                    "no limit of " + b.leads.name + ", chosen to lead, is known here for it; the usual one was taken"});
}

// By body: broken if any of its rows that may hold is.
void sort_by_body(WaterBench const& b, std::vector<chemistry::LimitCompared> const& compared, LimitsBroken& out)
{
    std::vector<std::string> kept, broken;
    for (auto const& one : compared)
    {
        auto& seen = one.standing == Standing::within ? kept : broken;
        if (std::find(seen.begin(), seen.end(), one.limit.body) != seen.end())
            continue;
        seen.push_back(one.limit.body);
        if (one.standing != Standing::within)
            out.broken_by.push_back({one.limit.body, one.limit.source.key, range_text(b, one.limit.bounds),
                                     one.limit.note, one.limit.source.seen == reference::Seen::memory,
                                     one.limit.set == b.leads.id});
    }
    out.kept_by = static_cast<std::size_t>(
        std::count_if(kept.begin(), kept.end(),
                      [&](auto const& body) { return std::find(broken.begin(), broken.end(), body) == broken.end(); }));
    std::stable_sort(out.broken_by.begin(), out.broken_by.end(),
                     [](BrokenLimit const& x, BrokenLimit const& y) {
                         return std::pair{!x.leads, x.from_memory} < std::pair{!y.leads, y.from_memory};
                     });
}

// What the limit that leads says, and whose it is.
void say_of_leading(chemistry::LeadingBand const& band, double value, LimitsBroken& out)
{
    double const slack = 1e-9 * std::abs(value);
    bool const below = band.low && value < band.low->bound.value - slack;
    bool const above = band.high && value > band.high->bound.value + slack;
    out.leading_verdict = !band.low && !band.high ? "" : below ? "below" : above ? "above" : "within";
    auto name = [&](std::optional<chemistry::LeadingBound> const& bound)
    {
        if (!bound)
            return std::string();
        bool const memory = bound->source.seen == reference::Seen::memory;
        return bound->body + (memory ? std::string(" (") + unconfirmed + ")" : "");
    };
    std::string const low = name(band.low), high = name(band.high);
    bool const both = !low.empty() && !high.empty() && low != high;
    out.leading = below ? low : above ? high : both ? low + " and " + high : low.empty() ? high : low;
}

} // namespace

std::string whose(WaterBench& b, chemistry::LeadingBound const& bound)
{
    std::string const of = bound.body.empty() ? "" : " of " + bound.body;
    if (bound.source.seen == reference::Seen::memory)
        return of + " (" + unconfirmed + ")";
    b.w.cited.insert(bound.source.key);
    return of + " [" + bound.source.key + "]";
}

std::string known_as(Known known)
{
    return known == Known::at_least ? "at least " : known == Known::at_most ? "at most " : "";
}

std::string known_text(WaterBench const& b, units::Reading const& reading, Known known)
{
    if (known == Known::exactly)
        return b.w.show(reading);
    return known_as(known) + units::show(reading.measure, reading.value, reading.doubt, {b.w.system, {}, {}});
}

chemistry::LeadingBand band_of(WaterBench const& b, P parameter, chemistry::Stabilizer stabilizer)
{
    return chemistry::leading_band(b.limits, b.bands, b.leads.id, parameter, venue_of(b), stabilizer);
}

void say_of_defaults(WaterBench& b, P parameter, chemistry::LeadingBand const& band)
{
    say_of_default(b, parameter, band.low, false);
    say_of_default(b, parameter, band.high, true);
}

void against_published(WaterBench& b, P parameter, units::Reading const& reading, chemistry::Stabilizer stabilizer,
                       Known known)
{
    auto compared = chemistry::compared(b.limits, parameter, venue_of(b), reading, stabilizer);
    // Of a reading that is only 'at least' it can't be said that it is below, nor that it keeps what it may exceed.
    if (known != Known::exactly)
        compared.erase(
            std::remove_if(compared.begin(), compared.end(),
                           [&](auto const& one)
                           { return one.standing != (known == Known::at_least ? Standing::above : Standing::below); }),
            compared.end());
    LimitsBroken out;
    out.item = b.item;
    out.parameter = name_of(parameter);
    out.reading = known_text(b, reading, known);
    sort_by_body(b, compared, out);
    if (out.broken_by.empty())
        return;
    say_of_leading(band_of(b, parameter, stabilizer), reading.value, out);
    b.w.out.limits_broken.push_back(std::move(out));
}

} // namespace padwalk::assess
