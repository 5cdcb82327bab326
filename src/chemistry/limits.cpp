#include "padwalk/chemistry/limits.hpp"

#include <algorithm>
#include <iterator>
#include <stdexcept>

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

struct WrittenLimits
{
    std::vector<WrittenRow> limits;
    std::vector<WrittenRow> working_bands;
    fields::Named<reference::Source> sources;

    static Record<WrittenLimits> const& declaration()
    {
        static Record<WrittenLimits> const record =
            Record<WrittenLimits>("limits", "published limits of pool and spa water")
                .field("limits", &WrittenLimits::limits, "by body")
                .required()
                .field("working_bands", &WrittenLimits::working_bands, "what an assessment uses")
                .required()
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
    case Parameter::bromine:
    case Parameter::dissolved_solids:
    case Parameter::copper:
    case Parameter::iron:
    case Parameter::sulfate: return M::as_itself;
    case Parameter::water_temperature: return M::temperature;
    case Parameter::cyanurate_to_chlorine:
    case Parameter::saturation_index: break;
    }
    return M::number;
}

std::vector<Limit> published_limits(reference::Data const& data)
{
    std::vector<Limit> out;
    for (auto const& row : reference::read_table<WrittenLimits>(data, path).limits)
        out.push_back({row.parameter, row.venue, row.stabilizer, row.body, bounds(row), row.note, row.source});
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
        bool const holds =
            stabilizer == Stabilizer::either || band.stabilizer == Stabilizer::either || band.stabilizer == stabilizer;
        if (band.parameter != parameter || band.venue != venue || !holds)
            continue;
        if (found == nullptr || lowest(band) > lowest(*found))
            found = &band;
    }
    return found;
}

} // namespace padwalk::chemistry
