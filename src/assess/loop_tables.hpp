#pragma once
#include "padwalk/assess/assessment.hpp"
#include "padwalk/circulation/sound_loop.hpp"

namespace padwalk::assess
{

/// What a cause does to a loop, as circulation can simulate it.
struct LoopSignature
{
    std::optional<circulation::PlantFaultKind> fault; ///< none: only heat is lost
    units::Fraction least{}, most{};
    std::optional<units::Fraction> heat_lost;
    std::optional<bool> always_was;
    LoopPlace at = LoopPlace::pump;
    static fields::Record<LoopSignature> const& declaration();

    [[nodiscard]] circulation::Suspicion suspicion() const
    {
        return {fault, least, most, heat_lost.value_or(units::Fraction{}), always_was.value_or(false)};
    }
};

/// For each gauge a cause, or findings; empty where there is none.
struct BrokenGauges
{
    std::string filter, suction, flow_meter, pump_outlet, behind_filter;
    static fields::Record<BrokenGauges> const& declaration();
    [[nodiscard]] std::string of(circulation::LoopGauge gauge) const;
};

struct SameReading
{
    std::vector<std::string> filter, suction, flow_meter, heater_rise;
    static fields::Record<SameReading> const& declaration();
    [[nodiscard]] std::vector<std::string> of(circulation::LoopGauge gauge) const;
};

/// data/assess/loop_signatures.yaml.
struct LoopSignatures
{
    fields::Named<LoopSignature> signatures; ///< by cause
    BrokenGauges broken_gauges;
    SameReading same_reading;
    static fields::Record<LoopSignatures> const& declaration();
};

/// What the assessment of a loop looks up.
struct LoopTables
{
    /// Throws reference::DataProblems.
    explicit LoopTables(reference::Data const& data);

    circulation::PlantTable plants;
    std::vector<circulation::GenericPump> pumps;
    circulation::SoundLoopTable sound;
    circulation::Pipes pipes;
    LoopSignatures signatures;
};

} // namespace padwalk::assess
