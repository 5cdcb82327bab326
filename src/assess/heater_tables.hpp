#pragma once
#include "padwalk/heating/condensation.hpp"
#include "padwalk/heating/fired_faults.hpp"

namespace padwalk::assess
{

/// One thing that a cause may do to a gas heater.
struct HeaterDoing
{
    heating::HeaterFaultKind fault = heating::HeaterFaultKind::scaled_exchanger;
    units::Fraction least{}, most{};
    static fields::Record<HeaterDoing> const& declaration();
};

/// What a cause does to a gas heater, as it can be simulated; of several, any one.
struct HeaterSignature
{
    std::vector<HeaterDoing> does;
    static fields::Record<HeaterSignature> const& declaration();
};

/// For each instrument, findings that speak of what it read.
struct HeaterSameReading
{
    std::vector<std::string> rise, clocked_input, flue_temperature, oxygen, carbon_monoxide;
    static fields::Record<HeaterSameReading> const& declaration();
    [[nodiscard]] std::vector<std::string> of(heating::HeaterGauge gauge) const;
};

/// data/assess/heater_signatures.yaml.
struct HeaterSignatures
{
    fields::Named<HeaterSignature> signatures; ///< by cause
    HeaterSameReading same_reading;
    static fields::Record<HeaterSignatures> const& declaration();
};

/// What the assessment of a gas heater looks up.
struct HeaterTables
{
    /// Throws reference::DataProblems.
    explicit HeaterTables(reference::Data const& data);

    heating::FiredHeaterTable fired;
    heating::CondensationFacts condensation;
    HeaterSignatures signatures;
};

} // namespace padwalk::assess
