#pragma once
#include "padwalk/level/fill_valve.hpp"
#include "padwalk/visit/items.hpp"

namespace padwalk::assess
{

/// What a cause does to a fill valve and its level, as it can be simulated; of several, any one.
struct FillSignature
{
    std::vector<level::FillFaultKind> does;
    static fields::Record<FillSignature> const& declaration();
};

/// How a trade gets at a fill valve.
struct FillReach
{
    visit::FillAccess access = visit::FillAccess::open_box;
    std::optional<visit::DeckPour> deck; ///< none: whatever the deck
    std::string say;
    reference::Cited source;
    static fields::Record<FillReach> const& declaration();
};

/// data/assess/fill_signatures.yaml.
struct FillSignatures
{
    fields::Named<FillSignature> signatures; ///< by cause
    std::vector<FillReach> reach;
    static fields::Record<FillSignatures> const& declaration();
};

/// What the assessment of a fill valve looks up.
struct FillTables
{
    /// Throws reference::DataProblems.
    explicit FillTables(reference::Data const& data);

    level::FillValveTable valve;
    FillSignatures signatures;
};

} // namespace padwalk::assess
