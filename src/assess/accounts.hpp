#pragma once
#include "workbench.hpp"

namespace padwalk::assess
{

/// How likely each account makes the readings of one thing, as natural logarithms of a density.
struct Accounts
{
    double sound = 0.0;
    double anything = 0.0;                              ///< something is wrong that is not among them
    std::vector<std::pair<std::string, double>> causes; ///< by cause
    std::vector<std::pair<std::string, double>> broken; ///< by the cause that is a broken instrument

    [[nodiscard]] double best() const;
};

/// What they come to.
struct Weighing
{
    ReadingsPattern pattern;     ///< of likelihoods over the best account's; where it stands is left to the caller
    double departs = 0.0;        ///< chance that the readings are not those of a sound one
    bool nothing_fits = false;   ///< neither sound nor any one fault accounts for them
    bool by_chance_sound = true; ///< a sound one gives such readings often enough
};

/// `by_chance`: how often a sound one gives readings that lie so far off.
[[nodiscard]] Weighing weigh_accounts(Accounts const& accounts, double by_chance, Rules const& rules);

/// The findings of `ids` that were computed for this item or for what stands on it.
[[nodiscard]] std::vector<std::size_t> computed_findings(Workbench const& w, std::size_t item,
                                                         std::vector<std::string> const& ids);

} // namespace padwalk::assess
