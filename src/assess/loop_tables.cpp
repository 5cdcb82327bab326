#include "loop_tables.hpp"

namespace padwalk::assess
{

using fields::Record;

Record<LoopSignature> const& LoopSignature::declaration()
{
    using S = LoopSignature;
    static Record<S> const record =
        Record<S>("signature", "what a cause does to a loop")
            .field("fault", &S::fault, "fault of the simulated loop")
            .field("least", &S::least, "mildest severity that would be called a fault")
            .required()
            .field("most", &S::most, "worst severity")
            .required()
            .field("heat_lost", &S::heat_lost, "share of the heater's heat that is lost at severity 1")
            .field("always_was", &S::always_was, "as old as the loop, so that the clean reading shows it too")
            .field("at", &S::at, "place on the loop")
            .required();
    return record;
}

Record<BrokenGauges> const& BrokenGauges::declaration()
{
    static Record<BrokenGauges> const record =
        Record<BrokenGauges>("broken gauges", "the cause that is a broken instrument")
            .field("filter", &BrokenGauges::filter, "of the filter's gauge")
            .field("suction", &BrokenGauges::suction, "of the suction gauge")
            .field("flow_meter", &BrokenGauges::flow_meter, "of the flow meter")
            .field("pump_outlet", &BrokenGauges::pump_outlet, "of the gauge at the pump's outlet")
            .field("behind_filter", &BrokenGauges::behind_filter, "of the gauge behind the filter");
    return record;
}

std::string BrokenGauges::of(circulation::LoopGauge gauge) const
{
    switch (gauge)
    {
    case circulation::LoopGauge::filter: return filter;
    case circulation::LoopGauge::suction: return suction;
    case circulation::LoopGauge::flow_meter: return flow_meter;
    case circulation::LoopGauge::pump_outlet: return pump_outlet;
    case circulation::LoopGauge::behind_filter: return behind_filter;
    default: return {};
    }
}

Record<SameReading> const& SameReading::declaration()
{
    static Record<SameReading> const record =
        Record<SameReading>("same reading", "findings that speak of the same readings")
            .field("filter", &SameReading::filter, "of the filter's gauge")
            .field("suction", &SameReading::suction, "of the suction gauge")
            .field("flow_meter", &SameReading::flow_meter, "of the flow")
            .field("heater_rise", &SameReading::heater_rise, "of the heater's rise");
    return record;
}

std::vector<std::string> SameReading::of(circulation::LoopGauge gauge) const
{
    switch (gauge)
    {
    case circulation::LoopGauge::filter:
    case circulation::LoopGauge::filter_when_clean: return filter;
    case circulation::LoopGauge::suction: return suction;
    case circulation::LoopGauge::flow_meter: return flow_meter;
    case circulation::LoopGauge::heater_rise: return heater_rise;
    default: return {};
    }
}

Record<LoopSignatures> const& LoopSignatures::declaration()
{
    using L = LoopSignatures;
    static Record<L> const record = Record<L>("file", "what causes do to a loop")
                                        .field("signatures", &L::signatures, "by cause")
                                        .required()
                                        .field("broken_gauges", &L::broken_gauges, "causes that are broken instruments")
                                        .required()
                                        .field("same_reading", &L::same_reading, "findings of the same readings")
                                        .required();
    return record;
}

LoopTables::LoopTables(reference::Data const& data)
    : plants(circulation::plant_table(data)), pumps(circulation::generic_pumps(data)),
      sound(circulation::sound_loop_table(data)), pipes(circulation::pipes(data)),
      signatures(reference::read_table<LoopSignatures>(data, "assess/loop_signatures.yaml"))
{
}

} // namespace padwalk::assess
