#include "padwalk/chemistry/limits.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <stdexcept>
#include <utility>

namespace padwalk::chemistry
{
namespace
{

using fields::Record;
using Text = std::optional<std::string>;

/// A row as written: its bounds are text because their measure depends on the parameter.
struct WrittenRow
{
    Parameter parameter = Parameter::ph;
    Venue venue = Venue::all;
    Stabilizer stabilizer = Stabilizer::either;
    std::string set;
    std::string body;
    Text low, ideal_low, ideal_high, high;
    std::string note;
    std::string because;
    reference::Cited source;
    std::optional<reference::Cited> ideal_source;

    static Record<WrittenRow> const& declaration()
    {
        static Record<WrittenRow> const record =
            Record<WrittenRow>("limit", "a published limit, or one that an assessment uses")
                .field("parameter", &WrittenRow::parameter, "what it limits")
                .required()
                .field("venue", &WrittenRow::venue, "where it holds")
                .required()
                .field("stabilizer", &WrittenRow::stabilizer, "with or without cyanurate")
                .field("set", &WrittenRow::set, "id of the set it belongs to")
                .field("body", &WrittenRow::body, "who says so")
                .field("low", &WrittenRow::low, "not allowed below")
                .field("ideal_low", &WrittenRow::ideal_low, "recommended from")
                .field("ideal_high", &WrittenRow::ideal_high, "recommended to")
                .field("high", &WrittenRow::high, "not allowed above")
                .field("note", &WrittenRow::note, "condition or doubt")
                .field("because", &WrittenRow::because, "why this row is used")
                .field("source", &WrittenRow::source, "where it comes from")
                .required()
                .field("ideal_source", &WrittenRow::ideal_source, "where the ideal comes from");
        return record;
    }
};

struct WrittenSet
{
    std::string name;

    static Record<WrittenSet> const& declaration()
    {
        static Record<WrittenSet> const record = Record<WrittenSet>("limit_set", "rows that belong together")
                                                     .field("name", &WrittenSet::name, "whose they are")
                                                     .required();
        return record;
    }
};

struct WrittenLimits
{
    std::vector<WrittenRow> limits;
    std::vector<WrittenRow> working_bands;
    fields::Named<WrittenSet> sets;
    fields::Named<reference::Source> sources;

    static Record<WrittenLimits> const& declaration()
    {
        static Record<WrittenLimits> const record =
            Record<WrittenLimits>("limits", "published limits of pool and spa water")
                .field("limits", &WrittenLimits::limits, "by body")
                .required()
                .field("working_bands", &WrittenLimits::working_bands, "what an assessment uses")
                .required()
                .field("sets", &WrittenLimits::sets, "whose rows belong together, by id")
                .field("sources", &WrittenLimits::sources, "works cited");
        return record;
    }
};

constexpr char path[] = "chemistry/limits.yaml";

[[noreturn]] void refuse(std::string message)
{
    throw reference::DataProblems(
        path, {}, {{{}, 0, std::move(message), "write a bound as a reading of its parameter, low to high", {}}});
}

std::optional<units::Reading> bound(Parameter parameter, Text const& text)
{
    if (!text)
        return std::nullopt;
    auto const read = units::read_quantity(*text, measure_of(parameter), "limit");
    if (auto const* bad = std::get_if<units::TextProblem>(&read))
        refuse("limit '" + *text + "': " + bad->message);
    return std::get<units::Reading>(read);
}

Bounds bounds(WrittenRow const& row)
{
    Bounds const out{bound(row.parameter, row.low), bound(row.parameter, row.ideal_low),
                     bound(row.parameter, row.ideal_high), bound(row.parameter, row.high)};
    std::optional<double> below;
    for (auto const* one : {&out.low, &out.ideal_low, &out.ideal_high, &out.high})
        if (*one)
        {
            if (below && (*one)->value < *below)
                refuse("the limits of '" + row.body + row.because + "' are not in order");
            below = (*one)->value;
        }
    if (!below)
        refuse("a row of '" + row.body + row.because + "' has no limit");
    return out;
}

bool is_set(WrittenLimits const& table, std::string const& id)
{
    return std::any_of(table.sets.begin(), table.sets.end(), [&](auto const& set) { return set.first == id; });
}

// A row for water without, or with, cyanurate; not knowing, both may hold.
bool may_hold(Stabilizer row, Stabilizer water)
{
    return row == Stabilizer::either || water == Stabilizer::either || row == water;
}

/// How much stricter: a band that asks for more chlorine; the only use of Stabilizer today.
double lowest(WorkingBand const& band)
{
    return band.bounds.low ? band.bounds.low->value : 0.0;
}

} // namespace

units::Measure measure_of(Parameter parameter)
{
    using M = units::Measure;
    switch (parameter)
    {
    case Parameter::ph: return M::ph;
    case Parameter::free_chlorine:
    case Parameter::combined_chlorine: return M::as_chlorine;
    case Parameter::alkalinity:
    case Parameter::calcium: return M::as_calcium_carbonate;
    case Parameter::cyanurate: return M::as_cyanuric_acid;
    case Parameter::sulfate: return M::as_sulfate;
    case Parameter::bromine:
    case Parameter::dissolved_solids:
    case Parameter::copper:
    case Parameter::iron: return M::as_itself;
    case Parameter::water_temperature: return M::temperature;
    case Parameter::cyanurate_to_chlorine:
    case Parameter::saturation_index: break;
    }
    return M::number;
}

std::vector<Limit> published_limits(reference::Data const& data)
{
    std::vector<Limit> out;
    auto const table = reference::read_table<WrittenLimits>(data, path);
    for (auto const& row : table.limits)
    {
        if (!is_set(table, row.set))
            refuse("the limits of '" + row.body + "' belong to no set that is listed");
        out.push_back({row.parameter, row.venue, row.stabilizer, row.set, row.body, bounds(row), row.note, row.source});
    }
    return out;
}

std::vector<LimitSet> limit_sets(reference::Data const& data)
{
    auto const limits = published_limits(data);
    auto const has = [&](std::string const& set, Parameter parameter)
    {
        return std::any_of(limits.begin(), limits.end(),
                           [&](Limit const& limit)
                           {
                               return limit.set == set && limit.parameter == parameter && limit.venue != Venue::other &&
                                      (limit.bounds.low || limit.bounds.high);
                           });
    };
    std::vector<LimitSet> out;
    for (auto const& [id, set] : reference::read_table<WrittenLimits>(data, path).sets)
        if (has(id, Parameter::ph) && has(id, Parameter::free_chlorine))
            out.push_back({id, set.name});
    return out;
}

std::vector<WorkingBand> working_bands(reference::Data const& data)
{
    std::vector<WorkingBand> out;
    for (auto const& row : reference::read_table<WrittenLimits>(data, path).working_bands)
        out.push_back(
            {row.parameter, row.venue, row.stabilizer, bounds(row), row.because, row.source, row.ideal_source});
    return out;
}

std::vector<Limit> limits_for(std::vector<Limit> const& limits, Parameter parameter, Venue venue)
{
    std::vector<Limit> out;
    std::copy_if(limits.begin(), limits.end(), std::back_inserter(out),
                 [&](Limit const& limit)
                 { return limit.parameter == parameter && (limit.venue == venue || limit.venue == Venue::all); });
    return out;
}

WorkingBand const* working_band(std::vector<WorkingBand> const& bands, Parameter parameter, Venue venue,
                                Stabilizer stabilizer)
{
    WorkingBand const* found = nullptr;
    for (auto const& band : bands)
    {
        if (band.parameter != parameter || band.venue != venue || !may_hold(band.stabilizer, stabilizer))
            continue;
        if (found == nullptr || lowest(band) > lowest(*found))
            found = &band;
    }
    return found;
}

std::vector<LimitCompared> compared(std::vector<Limit> const& limits, Parameter parameter, Venue venue,
                                    units::Reading const& reading, Stabilizer stabilizer)
{
    if (reading.measure != measure_of(parameter))
        throw std::logic_error("a reading and its limits are of different measures");
    // A limit written in ppm and a reading worked out in kg/m3 may differ in the last digit.
    double const slack = 1e-9 * std::abs(reading.value);
    std::vector<LimitCompared> out;
    for (auto const& limit : limits_for(limits, parameter, venue))
    {
        auto const& [low, ideal_low, ideal_high, high] = limit.bounds;
        if ((!low && !high) || !may_hold(limit.stabilizer, stabilizer))
            continue;
        bool const below = low && reading.value < low->value - slack;
        bool const above = high && reading.value > high->value + slack;
        out.push_back({limit, below ? Standing::below : above ? Standing::above : Standing::within});
    }
    return out;
}

namespace
{

// Which of two rows of a set says more of a venue; of equals the first stays.
bool leads_before(Limit const& a, Limit const& b, bool stabilizer_known)
{
    auto const rank = [](Limit const& row) {
        return std::pair{row.source.seen == reference::Seen::memory, row.venue == Venue::all};
    };
    if (rank(a) != rank(b))
        return rank(a) < rank(b);
    bool const differ = a.stabilizer != b.stabilizer;
    return differ && (stabilizer_known ? b.stabilizer == Stabilizer::either
                                       : a.bounds.low && b.bounds.low && a.bounds.low->value > b.bounds.low->value);
}

std::optional<LeadingBound> bound_of_set(std::vector<Limit> const& rows, std::string const& set, Stabilizer stabilizer,
                                         std::optional<units::Reading> Bounds::*end)
{
    Limit const* best = nullptr;
    for (auto const& row : rows)
        if (row.set == set && row.bounds.*end && may_hold(row.stabilizer, stabilizer) &&
            (best == nullptr || leads_before(row, *best, stabilizer != Stabilizer::either)))
            best = &row;
    if (best == nullptr)
        return std::nullopt;
    return LeadingBound{*(best->bounds.*end), best->body, best->source, true};
}

// A working band is a choice among the rows: whose it is stands in the row of the same source.
std::optional<LeadingBound> bound_of_band(std::vector<Limit> const& limits, WorkingBand const* band,
                                          std::optional<units::Reading> Bounds::*end)
{
    if (band == nullptr || !(band->bounds.*end))
        return std::nullopt;
    auto const row = std::find_if(limits.begin(), limits.end(),
                                  [&](Limit const& limit) { return limit.source.key == band->source.key; });
    return LeadingBound{*(band->bounds.*end), row != limits.end() ? row->body : std::string(), band->source, false};
}

} // namespace

LeadingBand leading_band(std::vector<Limit> const& limits, std::vector<WorkingBand> const& bands,
                         std::string const& set, Parameter parameter, Venue venue, Stabilizer stabilizer)
{
    auto const rows = set.empty() ? std::vector<Limit>() : limits_for(limits, parameter, venue);
    auto const* band = working_band(bands, parameter, venue, stabilizer);
    LeadingBand out{bound_of_set(rows, set, stabilizer, &Bounds::low),
                    bound_of_set(rows, set, stabilizer, &Bounds::high)};
    if (!out.low)
        out.low = bound_of_band(limits, band, &Bounds::low);
    if (!out.high)
        out.high = bound_of_band(limits, band, &Bounds::high);
    // A body that allows less than the working band's other end leaves nothing between: its own end stands alone.
    if (out.low && out.high && out.low->bound.value > out.high->bound.value)
        (out.low->chosen ? out.high : out.low).reset();
    return out;
}

} // namespace padwalk::chemistry
