#include "padwalk/chemistry/dose_plan.hpp"

#include <algorithm>

namespace padwalk::chemistry
{
namespace
{

using fields::Record;
using Text = std::optional<std::string>;

enum class TargetReading
{
    ph,
    alkalinity,
    carbonate_alkalinity,
    calcium,
    cyanurate,
    free_chlorine,
    cyanurate_to_chlorine,
    borate,
    salt,
    sulfate,
    saturation_index
};

} // namespace
} // namespace padwalk::chemistry

template <> struct padwalk::fields::words_of<padwalk::chemistry::TargetReading>
{
    static std::vector<std::string> words()
    {
        return {"ph",        "alkalinity",    "carbonate_alkalinity",  "calcium",
                "cyanurate", "free_chlorine", "cyanurate_to_chlorine", "borate",
                "salt",      "sulfate",       "saturation_index"};
    }
};

namespace padwalk::chemistry
{
namespace
{

constexpr char path[] = "chemistry/targets.yaml";

/// A row as written: its bounds are text, for their measure depends on the reading.
struct TargetRow
{
    TargetReading reading = TargetReading::ph;
    Venue venue = Venue::all;
    std::vector<Finish> surfaces;
    std::vector<Sanitizer> sanitizers;
    Text low, aim, high;
    std::string because;
    reference::Cited source;

    static Record<TargetRow> const& declaration()
    {
        static Record<TargetRow> const record =
            Record<TargetRow>("target", "where a reading is steered to")
                .field("reading", &TargetRow::reading, "what it is for")
                .required()
                .field("venue", &TargetRow::venue, "pool, spa or both")
                .field("surfaces", &TargetRow::surfaces, "where it holds; none: all")
                .field("sanitizers", &TargetRow::sanitizers, "where it holds; none: all")
                .field("low", &TargetRow::low, "corrected below")
                .field("aim", &TargetRow::aim, "towards this")
                .field("high", &TargetRow::high, "corrected above")
                .field("because", &TargetRow::because, "why these")
                .required()
                .field("source", &TargetRow::source, "where they come from")
                .required();
        return record;
    }
};

struct FillRow
{
    units::Temperature temperature{};
    units::Ph ph{};
    units::AsCalciumCarbonate alkalinity{}, calcium{};
    reference::Cited source;

    static Record<FillRow> const& declaration()
    {
        static Record<FillRow> const record = Record<FillRow>("fill water", "assumed where none is given")
                                                  .field("temperature", &FillRow::temperature, "temperature")
                                                  .required()
                                                  .field("ph", &FillRow::ph, "pH")
                                                  .required()
                                                  .field("alkalinity", &FillRow::alkalinity, "total alkalinity")
                                                  .required()
                                                  .field("calcium", &FillRow::calcium, "calcium hardness")
                                                  .required()
                                                  .field("source", &FillRow::source, "where it comes from")
                                                  .required();
        return record;
    }
};

struct TargetFile
{
    std::vector<TargetRow> rows;
    TargetRow borate_wanted;
    FillRow assumed_fill;
    fields::Named<reference::Source> sources;

    static Record<TargetFile> const& declaration()
    {
        static Record<TargetFile> const record =
            Record<TargetFile>("targets", "where a dose plan steers to")
                .field("rows", &TargetFile::rows, "by reading; later rows go first")
                .required()
                .field("borate_wanted", &TargetFile::borate_wanted, "in place of the borate row")
                .required()
                .field("assumed_fill", &TargetFile::assumed_fill, "fill water where none is given")
                .required()
                .field("sources", &TargetFile::sources, "works cited");
        return record;
    }
};

template <class Q> std::optional<Q> read_bound(Text const& text)
{
    if (!text)
        return std::nullopt;
    auto const read = units::read_quantity(*text, units::measure_of<Q>::value, "target");
    if (auto const* bad = std::get_if<units::TextProblem>(&read))
        throw reference::DataProblems(
            path, {}, {{{}, 0, "target '" + *text + "': " + bad->message, "write a reading of its measure", {}}});
    return units::of_si<Q>(std::get<units::Reading>(read).value);
}

template <class Q> void take(TargetRow const& row, Aim<Q>& out)
{
    out = {read_bound<Q>(row.low), read_bound<Q>(row.aim), read_bound<Q>(row.high)};
    auto const in_order = [](std::optional<Q> const& a, std::optional<Q> const& b) { return !a || !b || *a <= *b; };
    if (!in_order(out.low, out.aim) || !in_order(out.aim, out.high) || !in_order(out.low, out.high))
        throw reference::DataProblems(path, {},
                                      {{{}, 0, "low, aim and high are not in order", "row: " + row.because, {}}});
}

void take(TargetRow const& row, Targets& out)
{
    switch (row.reading)
    {
    case TargetReading::ph: return take(row, out.ph);
    case TargetReading::alkalinity: return take(row, out.alkalinity);
    case TargetReading::carbonate_alkalinity: return take(row, out.carbonate_alkalinity);
    case TargetReading::calcium: return take(row, out.calcium);
    case TargetReading::cyanurate: return take(row, out.cyanurate);
    case TargetReading::free_chlorine: return take(row, out.free_chlorine);
    case TargetReading::cyanurate_to_chlorine: return take(row, out.cyanurate_to_chlorine);
    case TargetReading::borate: return take(row, out.borate);
    case TargetReading::salt: return take(row, out.salt);
    case TargetReading::sulfate: return take(row, out.sulfate);
    case TargetReading::saturation_index: return take(row, out.saturation);
    }
}

template <class E> bool holds(std::vector<E> const& list, E one)
{
    return list.empty() || std::find(list.begin(), list.end(), one) != list.end();
}

} // namespace

Targets targets_for(reference::Data const& data, Venue venue, Finish finish, Sanitizer sanitizer, bool borate_wanted)
{
    auto const file = reference::read_table<TargetFile>(data, path);
    Venue const kind = venue == Venue::spa ? Venue::spa : Venue::pool;
    Targets out;
    for (auto const& row : file.rows)
        if ((row.venue == Venue::all || row.venue == kind) && holds(row.surfaces, finish) &&
            holds(row.sanitizers, sanitizer))
            take(row, out);
    if (borate_wanted)
        take(file.borate_wanted, out);
    return out;
}

WaterReadings assumed_fill_water(reference::Data const& data)
{
    auto const fill = reference::read_table<TargetFile>(data, path).assumed_fill;
    WaterReadings out;
    out.temperature = fill.temperature;
    out.ph = fill.ph;
    out.alkalinity = fill.alkalinity;
    out.calcium = fill.calcium;
    return out;
}

} // namespace padwalk::chemistry
