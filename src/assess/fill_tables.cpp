#include "fill_tables.hpp"

namespace padwalk::assess
{

using fields::Record;

Record<FillSignature> const& FillSignature::declaration()
{
    static Record<FillSignature> const record =
        Record<FillSignature>("signature", "what a cause does to a fill valve and its level")
            .field("does", &FillSignature::does, "any one of these faults of the simulated valve")
            .required();
    return record;
}

Record<FillReach> const& FillReach::declaration()
{
    static Record<FillReach> const record = Record<FillReach>("reach", "how a trade gets at a fill valve")
                                                .field("access", &FillReach::access, "as noted")
                                                .required()
                                                .field("deck", &FillReach::deck, "as noted; left out: whatever it is")
                                                .field("say", &FillReach::say, "what to say")
                                                .required()
                                                .field("source", &FillReach::source, "where it comes from")
                                                .required();
    return record;
}

Record<FillSignatures> const& FillSignatures::declaration()
{
    static Record<FillSignatures> const record =
        Record<FillSignatures>("file", "what causes do to a fill valve, and how it is reached")
            .field("signatures", &FillSignatures::signatures, "by cause")
            .required()
            .field("reach", &FillSignatures::reach, "by how it lies; of two that fit the first")
            .required();
    return record;
}

FillTables::FillTables(reference::Data const& data)
    : valve(level::fill_valve_table(data)),
      signatures(reference::read_table<FillSignatures>(data, "assess/fill_signatures.yaml"))
{
}

} // namespace padwalk::assess
