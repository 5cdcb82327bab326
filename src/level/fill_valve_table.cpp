#include "padwalk/level/fill_valve.hpp"

#include "padwalk/units/definitions.hpp"

#include <stdexcept>

namespace padwalk::level
{

using fields::Record;

Record<FillDoubtRule> const& FillDoubtRule::declaration()
{
    using D = FillDoubtRule;
    static Record<D> const record = Record<D>("doubt", "how badly something is known of a fill valve")
                                        .field("what", &D::what, "of what")
                                        .required()
                                        .field("spread", &D::spread, "of its natural logarithm")
                                        .required()
                                        .field("source", &D::source, "where it comes from")
                                        .required();
    return record;
}

Record<FillFaultRule> const& FillFaultRule::declaration()
{
    using F = FillFaultRule;
    static Record<F> const record = Record<F>("fault", "what one fault does at its worst")
                                        .field("fault", &F::fault, "which")
                                        .required()
                                        .field("name", &F::name, "in words")
                                        .required()
                                        .field("mildest", &F::mildest, "at severity 0")
                                        .required()
                                        .field("worst", &F::worst, "at severity 1")
                                        .required()
                                        .field("meaning", &F::meaning, "what these are")
                                        .required()
                                        .field("source", &F::source, "where it comes from")
                                        .required();
    return record;
}

Record<FillFailure> const& FillFailure::declaration()
{
    using F = FillFailure;
    static Record<F> const record = Record<F>("failure", "how far off a reading may be")
                                        .field("gauge", &F::gauge, "which")
                                        .required()
                                        .field("by", &F::by, "a length")
                                        .field("volume", &F::volume, "a volume")
                                        .field("share", &F::share, "a share")
                                        .field("number", &F::number, "a number")
                                        .field("flow", &F::flow, "a flow")
                                        .field("pressure", &F::pressure, "a pressure")
                                        .field("source", &F::source, "where it comes from")
                                        .required();
    return record;
}

Record<WallRow> const& WallRow::declaration()
{
    using W = WallRow;
    static Record<W> const record = Record<W>("wall", "stiffness of a pipe's wall")
                                        .field("wall", &W::wall, "of what")
                                        .required()
                                        .field("stiffness", &W::stiffness, "Young's modulus, MPa")
                                        .required()
                                        .field("spread", &W::spread, "one standard deviation, as a share")
                                        .required()
                                        .field("source", &W::source, "where it comes from")
                                        .required();
    return record;
}

namespace
{

using Table = Record<FillValveTable>;
using T = FillValveTable;

template <class Member> Table with(Table table, char const* name, Member member, char const* meaning)
{
    return std::move(table).field(name, member, meaning).required();
}

} // namespace

Table const& FillValveTable::declaration()
{
    static Table const record = []
    {
        Table t("fill valves", "how they throttle and fail");
        t = with(std::move(t), "float_travel", &T::float_travel, "of a float valve");
        t = with(std::move(t), "sensor_band", &T::sensor_band, "of a level sensor");
        t = with(std::move(t), "overflow", &T::overflow, "above the set level");
        t = with(std::move(t), "line_bore", &T::line_bore, "of a fill line");
        t = with(std::move(t), "line_length", &T::line_length, "of a fill line");
        t = with(std::move(t), "float_closing", &T::float_closing, "time");
        t = with(std::move(t), "sensor_closing", &T::sensor_closing, "time");
        t = with(std::move(t), "watched", &T::watched, "time");
        t = with(std::move(t), "model_error", &T::model_error, "share");
        t = with(std::move(t), "fault_shape", &T::fault_shape, "share");
        t = with(std::move(t), "level_doubt", &T::level_doubt, "of a set level");
        t = with(std::move(t), "doubts", &T::doubts, "of what is known");
        t = with(std::move(t), "faults", &T::faults, "and what they do");
        t = with(std::move(t), "failures", &T::failures, "of readings");
        t = with(std::move(t), "water_stiffness", &T::water_stiffness, "bulk modulus, MPa");
        t = with(std::move(t), "walls", &T::walls, "of pipes");
        return std::move(t).field("sources", &T::sources, "works cited");
    }();
    return record;
}

FillFaultRule const& FillValveTable::fault(FillFaultKind kind) const
{
    for (auto const& row : faults)
        if (row.fault == kind)
            return row;
    throw std::logic_error("data/level/fill_valve.yaml has no row for a fault");
}

units::Pressure FillValveTable::wall_stiffness(PipeWall wall) const
{
    constexpr double megapascal = 1e6;
    for (auto const& row : walls)
        if (row.wall == wall)
            return units::of_si<units::Pressure>(row.stiffness.value() * megapascal);
    throw std::logic_error("data/level/fill_valve.yaml has no row for a wall");
}

double FillValveTable::reach(FillGauge gauge) const
{
    auto const or_nothing = [](auto const& quantity) { return quantity ? units::in_si(*quantity) : 0.0; };
    for (auto const& f : failures)
        if (f.gauge == gauge)
            return or_nothing(f.by) + or_nothing(f.volume) + or_nothing(f.share) + or_nothing(f.number) +
                   or_nothing(f.flow) + or_nothing(f.pressure);
    throw std::logic_error("data/level/fill_valve.yaml has no row for a gauge");
}

FillValveTable fill_valve_table(reference::Data const& data)
{
    return reference::read_table<FillValveTable>(data, "level/fill_valve.yaml");
}

} // namespace padwalk::level
