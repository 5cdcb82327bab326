#include "loop_words.hpp"

#include "plain.hpp"
#include "wording.hpp"

#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

using assess::LoopPlace;
using units::Measure;

units::Style style_for(Measure measure, units::System system)
{
    auto const& info = units::info(measure);
    return {system, info.us.back().symbol, info.si.back().symbol};
}

// Flows have one unit on a loop, and what a pump takes in is told in watts by everybody. Else it is that of the
// reading, a reading near zero in the unit of its doubt.
units::Style style_of(units::Reading const& reading, LoopPlace place, units::System system)
{
    if (reading.measure == Measure::volume_flow)
        return style_for(reading.measure, system);
    if (reading.measure == Measure::power && place == LoopPlace::pump)
        return {system, "W", "W"};
    double const size = std::max(std::abs(reading.value), units::coverage * reading.doubt);
    auto const unit = units::unit_for(reading.measure, reading.value < 0 ? -size : size, {system, {}, {}});
    return {system, unit, unit};
}

std::string tenths(double value)
{
    constexpr double many = 9.95, too_many = 99.5;
    if (value >= too_many)
        return "over 99";
    return units::show_number(value, value < many ? 1 : 0);
}

// What it is called where the reading is as it should be, the larger, or the smaller.
std::string words_for(double off, bool odd, std::string_view alike, std::string_view above, std::string_view below)
{
    constexpr double next_to_nothing = 1.0;
    std::string out;
    if (!std::isfinite(off))
        out = "can't be compared";
    else
    {
        double const size = std::round(std::abs(off) * 10) / 10; // the word goes by what is printed
        if (size < next_to_nothing)
            out = odd ? std::string_view() : alike;
        else
            out = tenths(size) + " doubts " + std::string(off > 0 ? above : below) +
                  (odd || size > doubts_allowed ? "" : ", within doubt");
    }
    return !odd ? out : "the odd one out" + (out.empty() ? "" : ": " + out);
}

// An instrument sits wherever its item is, if that is one part alone.
PlaceOnLoop* instrument_place(std::vector<PlaceOnLoop>& places, std::size_t item)
{
    PlaceOnLoop* found = nullptr;
    for (auto& p : places)
        if (p.part->item == item)
        {
            if (found != nullptr)
                return nullptr;
            found = &p;
        }
    return found;
}

PlaceOnLoop* place_for(std::vector<PlaceOnLoop>& places, LoopPlace place, std::size_t item)
{
    PlaceOnLoop* found = nullptr;
    for (auto& p : places)
        if (p.part->place == place && (found == nullptr || (found->part->item != item && p.part->item == item)))
            found = &p;
    return found == nullptr && place == LoopPlace::gauge ? instrument_place(places, item) : found;
}

} // namespace

std::string flow_text(units::Measured<units::VolumeFlow> const& flow, units::System system)
{
    return glued(units::show_with_doubt(Measure::volume_flow, units::in_si(flow.value), units::in_si(flow.doubt),
                                        style_for(Measure::volume_flow, system)));
}

std::string head_text(units::Measured<units::Head> const& head, units::System system)
{
    return glued(units::show_with_doubt(Measure::head, units::in_si(head.value), units::in_si(head.doubt),
                                        style_for(Measure::head, system)));
}

std::string duty_text(assess::LoopDuty const& duty, units::System system)
{
    bool const flow = is_known(duty.flow), head = is_known(duty.head);
    return (flow ? flow_text(duty.flow, system) : "") + (flow && head ? ", " : "") +
           (head ? head_text(duty.head, system) : "");
}

std::string taken_text(assess::ReadingAgainstSound const& reading, units::System system)
{
    auto const& r = reading.reading;
    return glued(units::show_with_doubt(r.measure, r.value, r.doubt, style_of(r, reading.place, system)));
}

std::string expected_text(assess::ReadingAgainstSound const& reading, units::System system)
{
    auto const& e = reading.expected;
    auto const& like = e.measure == reading.reading.measure ? reading.reading : e;
    return glued(units::show_with_doubt(e.measure, e.value, e.doubt, style_of(like, reading.place, system)));
}

std::string off_words(assess::FlowBy const& way)
{
    return words_for(way.off, way.odd, "agrees with the others", "high", "low");
}

std::string off_words(assess::ReadingAgainstSound const& reading)
{
    bool const vacuum = reading.reading.measure == Measure::gauge_pressure && reading.reading.value < 0;
    return words_for(reading.off, reading.odd, "as expected", vacuum ? "weaker" : "high", vacuum ? "deeper" : "low");
}

std::string_view doubt_footnote()
{
    return "One doubt is the standard uncertainty of the reading and of what is known of the loop, taken together; "
           "chance alone gives more than 2 about once in 20.";
}

std::string_view place_word(LoopPlace place)
{
    switch (place)
    {
    case LoopPlace::suction: return "suction";
    case LoopPlace::strainer: return "strainer";
    case LoopPlace::pump: return "pump";
    case LoopPlace::filter: return "filter";
    case LoopPlace::roof: return "roof collector";
    case LoopPlace::heater: return "heater";
    case LoopPlace::bypass: return "heater bypass";
    case LoopPlace::returns: return "returns";
    case LoopPlace::gauge: break;
    }
    return "instrument";
}

std::vector<PlaceOnLoop> places_on(assess::Assessment const& a, assess::LoopEntry const& loop)
{
    std::vector<PlaceOnLoop> out;
    for (auto const& part : loop.parts)
        out.push_back({&part, {}, {}});
    PlaceOnLoop loose;
    for (auto const& reading : loop.readings)
    {
        auto* place = place_for(out, reading.place, reading.item);
        (place != nullptr ? *place : loose).readings.push_back(&reading);
    }
    for (auto const& fault : loop.faults)
    {
        if (fault.cause >= a.causes.size())
            continue;
        auto* place = place_for(out, fault.place, a.causes[fault.cause].item);
        (place != nullptr ? *place : loose).faults.push_back(&fault);
    }
    if (!loose.readings.empty() || !loose.faults.empty())
        out.push_back(std::move(loose));
    return out;
}

std::string part_text(assess::LoopPart const& part)
{
    std::string const name = part.name.empty() ? std::string(place_word(part.place)) : part.name;
    std::string const about = part.detail + (part.assumed ? (part.detail.empty() ? "assumed" : ", assumed") : "");
    return name + (about.empty() ? "" : " (" + about + ")");
}

std::string fault_text(assess::Assessment const& a, assess::LoopFault const& fault)
{
    auto const& cause = a.causes.at(fault.cause);
    return cause.name + ", " + chance(cause.probability);
}

} // namespace padwalk::report
