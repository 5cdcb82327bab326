#include "heater_tables.hpp"

namespace padwalk::assess
{

using fields::Record;
using heating::HeaterGauge;

Record<HeaterDoing> const& HeaterDoing::declaration()
{
    using D = HeaterDoing;
    static Record<D> const record = Record<D>("doing", "one thing that a cause may do to a gas heater")
                                        .field("fault", &D::fault, "fault of the simulated heater")
                                        .required()
                                        .field("least", &D::least, "mildest severity that would be called a fault")
                                        .required()
                                        .field("most", &D::most, "worst severity")
                                        .required();
    return record;
}

Record<HeaterSignature> const& HeaterSignature::declaration()
{
    static Record<HeaterSignature> const record =
        Record<HeaterSignature>("signature", "what a cause does to a gas heater")
            .field("does", &HeaterSignature::does, "any one of these")
            .required();
    return record;
}

Record<HeaterSameReading> const& HeaterSameReading::declaration()
{
    using S = HeaterSameReading;
    static Record<S> const record = Record<S>("same reading", "findings that speak of the same readings")
                                        .field("rise", &S::rise, "of the thermometers")
                                        .field("clocked_input", &S::clocked_input, "of meter and watch")
                                        .field("flue_temperature", &S::flue_temperature, "of the flue's thermometer")
                                        .field("oxygen", &S::oxygen, "of the flue's oxygen or carbon dioxide")
                                        .field("carbon_monoxide", &S::carbon_monoxide, "of the flue's carbon monoxide");
    return record;
}

std::vector<std::string> HeaterSameReading::of(HeaterGauge gauge) const
{
    switch (gauge)
    {
    case HeaterGauge::rise: return rise;
    case HeaterGauge::clocked_input: return clocked_input;
    case HeaterGauge::flue_temperature: return flue_temperature;
    case HeaterGauge::oxygen:
    case HeaterGauge::carbon_dioxide: return oxygen;
    case HeaterGauge::carbon_monoxide: return carbon_monoxide;
    case HeaterGauge::flow_meter: break;
    }
    return {};
}

Record<HeaterSignatures> const& HeaterSignatures::declaration()
{
    using H = HeaterSignatures;
    static Record<H> const record = Record<H>("file", "what causes do to a gas heater")
                                        .field("signatures", &H::signatures, "by cause")
                                        .required()
                                        .field("same_reading", &H::same_reading, "findings of the same readings")
                                        .required();
    return record;
}

HeaterTables::HeaterTables(reference::Data const& data)
    : fired(heating::fired_heater_table(data)), condensation(heating::condensation_facts(data)),
      signatures(reference::read_table<HeaterSignatures>(data, "assess/heater_signatures.yaml"))
{
}

} // namespace padwalk::assess
