#include "padwalk/circulation/plant.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::circulation
{

using fields::Record;

Record<ValvePosition> const& ValvePosition::declaration()
{
    static Record<ValvePosition> const record =
        Record<ValvePosition>("valve position", "loss of a valve part open")
            .field("opening", &ValvePosition::opening, "share of the way from shut to open")
            .required()
            .field("coefficient", &ValvePosition::coefficient, "loss coefficient on the valve's bore")
            .required();
    return record;
}

Record<ValveTable> const& ValveTable::declaration()
{
    static Record<ValveTable> const record = Record<ValveTable>("valve", "losses of one kind of valve")
                                                 .field("rows", &ValveTable::rows, "from nearly shut to open")
                                                 .required()
                                                 .field("source", &ValveTable::source, "where they come from")
                                                 .required();
    return record;
}

Record<ValveTables> const& ValveTables::declaration()
{
    static Record<ValveTables> const record = Record<ValveTables>("valves", "losses of valves by kind")
                                                  .field("ball", &ValveTables::ball, "ball or diverter valve")
                                                  .required()
                                                  .field("butterfly", &ValveTables::butterfly, "butterfly valve")
                                                  .required()
                                                  .field("gate", &ValveTables::gate, "gate valve")
                                                  .required();
    return record;
}

Record<FilterKind> const& FilterKind::declaration()
{
    static Record<FilterKind> const record =
        Record<FilterKind>("filter kind", "loss of a filter at the flow its area is meant for")
            .field("medium", &FilterKind::medium, "what filters")
            .required()
            .field("at_per_square_foot", &FilterKind::at_per_square_foot, "that flow through one square foot")
            .within("0.05 gpm", "50 gpm")
            .required()
            .field("linear", &FilterKind::linear, "loss that goes with flow")
            .required()
            .field("quadratic", &FilterKind::quadratic, "loss that goes with flow squared")
            .required()
            .field("dirty", &FilterKind::dirty, "what full loading adds")
            .required()
            .field("source", &FilterKind::source, "where it comes from")
            .required();
    return record;
}

Record<GenericPump> const& GenericPump::declaration()
{
    static Record<GenericPump> const record = Record<GenericPump>("generic pump", "one of a family, no product's")
                                                  .field("rated", &GenericPump::rated, "rated shaft power")
                                                  .required()
                                                  .field("curve", &GenericPump::curve, "head against flow")
                                                  .required()
                                                  .field("source", &GenericPump::source, "where it comes from")
                                                  .required();
    return record;
}

Record<PlantTable> const& PlantTable::declaration()
{
    using T = PlantTable;
    static Record<T> const record =
        Record<T>("plant", "losses of the parts of a house's loop, and what faults do to them")
            .field("valves", &T::valves, "valves part open")
            .required()
            .field("filters", &T::filters, "filters by kind")
            .required()
            .field("skimmer", &T::skimmer, "loss of a skimmer")
            .required()
            .field("main_drain", &T::main_drain, "loss of a main drain")
            .required()
            .field("strainer", &T::strainer, "loss of a clean strainer")
            .required()
            .field("most_clogging", &T::most_clogging, "what full clogging closes")
            .required()
            .field("heater", &T::heater, "loss of a heater")
            .required()
            .field("check_valve", &T::check_valve, "loss of a check valve")
            .required()
            .field("nozzle", &T::nozzle, "discharge coefficient")
            .required()
            .field("bypassed_loss", &T::bypassed_loss, "loss that a filter keeps with its bed or cloth open")
            .required()
            .field("scaled_loss", &T::scaled_loss, "times that scale multiplies a heater's loss")
            .required()
            .field("air_head", &T::air_head, "head lost to air")
            .required()
            .field("clogged_head", &T::clogged_head, "head lost to clogging")
            .required()
            .field("clogged_flow", &T::clogged_flow, "flow lost to clogging")
            .required()
            .field("worn_head", &T::worn_head, "head lost to wear")
            .required()
            .field("worn_flow", &T::worn_flow, "flow lost to wear")
            .required()
            .field("reversed_head", &T::reversed_head, "head kept turning backwards")
            .required()
            .field("reversed_flow", &T::reversed_flow, "flow kept turning backwards")
            .required();
    return record;
}

namespace
{

struct PlantFile
{
    PlantTable table;
    fields::Named<reference::Source> sources;
    static Record<PlantFile> const& declaration()
    {
        static Record<PlantFile> const record = Record<PlantFile>("file", "the table and the works it cites")
                                                    .field("table", &PlantFile::table, "the table")
                                                    .required()
                                                    .field("sources", &PlantFile::sources, "works cited");
        return record;
    }
};

struct PumpFile
{
    std::vector<GenericPump> pumps;
    static Record<PumpFile> const& declaration()
    {
        static Record<PumpFile> const record = Record<PumpFile>("file", "the generic family")
                                                   .field("pumps", &PumpFile::pumps, "by rated power")
                                                   .required();
        return record;
    }
};

} // namespace

PlantTable plant_table(reference::Data const& data)
{
    return reference::read_table<PlantFile>(data, "circulation/plant.yaml").table;
}

std::vector<GenericPump> generic_pumps(reference::Data const& data)
{
    auto pumps = reference::read_table<PumpFile>(data, "circulation/generic_pumps.yaml").pumps;
    std::sort(pumps.begin(), pumps.end(), [](auto const& a, auto const& b) { return a.rated < b.rated; });
    return pumps;
}

std::optional<units::Number> valve_loss(Valve const& valve, ValveTables const& tables)
{
    auto const& rows = (valve.kind == ValveKind::ball        ? tables.ball
                        : valve.kind == ValveKind::butterfly ? tables.butterfly
                                                             : tables.gate)
                           .rows;
    double const opening = valve.opening.value();
    if (!(opening >= 0 && opening <= 1))
        throw figures::NotComputed("a valve's opening lies between shut, 0, and open, 1");
    for (std::size_t i = 0; i < rows.size(); ++i)
    {
        if (opening > rows[i].opening.value())
            continue;
        if (opening == rows[i].opening.value())
            return rows[i].coefficient;
        if (i == 0)
            return std::nullopt;
        double const low = rows[i - 1].opening.value(), high = rows[i].opening.value();
        double const share = (opening - low) / (high - low);
        double const from = std::log(rows[i - 1].coefficient.value()), to = std::log(rows[i].coefficient.value());
        return units::of_si<units::Number>(std::exp(from + share * (to - from)));
    }
    return rows.back().coefficient;
}

std::vector<fields::CurvePoint> generic_curve(units::Power rated, std::vector<GenericPump> const& family)
{
    auto const show = [](units::Power p) {
        return units::show(units::Measure::power, units::in_si(p), 0, {units::System::us, "hp", {}});
    };
    if (family.empty() || !(rated >= family.front().rated) || rated > family.back().rated)
        throw figures::NotComputed("the generic pumps don't reach " + show(rated) + "; give the pump's own curve");
    std::size_t i = 1;
    while (i + 1 < family.size() && rated > family[i].rated)
        ++i;
    double const share =
        units::in_si(rated - family[i - 1].rated) / units::in_si(family[i].rated - family[i - 1].rated);
    std::vector<fields::CurvePoint> curve;
    for (std::size_t p = 0; p < family[i].curve.size(); ++p)
    {
        auto const &a = family[i - 1].curve.at(p), &b = family[i].curve[p];
        curve.push_back({a.flow + share * (b.flow - a.flow), a.head + share * (b.head - a.head)});
    }
    return curve;
}

} // namespace padwalk::circulation
