#include "padwalk/circulation/sound_loop.hpp"

#include <stdexcept>

namespace padwalk::circulation
{

using fields::Record;

Record<GaugeFailure> const& GaugeFailure::declaration()
{
    static Record<GaugeFailure> const record =
        Record<GaugeFailure>("gauge failure", "how far off a broken gauge may read")
            .field("gauge", &GaugeFailure::gauge, "which gauge")
            .required()
            .field("by", &GaugeFailure::by, "one standard deviation")
            .field("share", &GaugeFailure::share, "the same as a share of what it should show")
            .field("source", &GaugeFailure::source, "where it comes from")
            .required();
    return record;
}

Record<SoundLoopTable> const& SoundLoopTable::declaration()
{
    using T = SoundLoopTable;
    static Record<T> const record = Record<T>("sound loop", "how well gauges can be foretold")
                                        .field("model_error", &T::model_error, "of the computed figure")
                                        .required()
                                        .field("fault_shape", &T::fault_shape, "of what a fault changes")
                                        .required()
                                        .field("failures", &T::failures, "of broken gauges, one of each kind")
                                        .required();
    return record;
}

double SoundLoopTable::broken(LoopGauge gauge, double value) const
{
    for (auto const& failure : failures)
        if (failure.gauge == gauge)
            return failure.by ? units::in_si(*failure.by) : failure.share.value_or(units::Fraction{}).value() * value;
    throw std::logic_error("data/circulation/sound_loop.yaml has no row for a gauge");
}

namespace
{

struct File
{
    SoundLoopTable table;
    static Record<File> const& declaration()
    {
        static Record<File> const record =
            Record<File>("file", "the table").field("table", &File::table, "the table").required();
        return record;
    }
};

} // namespace

SoundLoopTable sound_loop_table(reference::Data const& data)
{
    auto out = reference::read_table<File>(data, "circulation/sound_loop.yaml").table;
    out.motors = pump_power_table(data);
    return out;
}

} // namespace padwalk::circulation
