#pragma once
/// Licence classes of a state, by the trades of the knowledge.

#include "padwalk/assess/assessment.hpp"

namespace padwalk::assess
{

/// Who may do the work of one trade in a state.
struct TradeLicences
{
    std::string note; ///< where there is no class, or none of its own
    std::vector<LicenceClass> classes;
};

/// data/licences/STATE.yaml
struct StateLicences
{
    std::string state, board;
    std::string say; ///< beside every class
    fields::Named<TradeLicences> trades;
};

/// Throws reference::DataProblems.
[[nodiscard]] StateLicences state_licences(reference::Data const& data, visit::LicencesOf of);

} // namespace padwalk::assess
