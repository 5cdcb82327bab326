#pragma once
// What a look at something is worth, for the next best check and for the order of a walk.
#include "judge.hpp"

namespace padwalk::assess
{

constexpr double setup_minutes = 2.0; ///< getting to it and writing it down, judged

/// Something that is decided by whether at least one of some causes is there.
struct Decision
{
    std::vector<std::size_t> causes; ///< in the network
    double weight = 0.0;
    std::string const* trade = nullptr; ///< whom it sends, where it is that

    /// By what each is, taken as independent.
    template <class Chance> [[nodiscard]] double probability(Chance const& of) const
    {
        double none = 1.0;
        for (std::size_t const c : causes)
            none *= 1 - of(c);
        return 1 - none;
    }
};

struct Look
{
    double gain = 0.0;        ///< bits, weighed by what they decide
    double probability = 0.0; ///< of seeing it
    std::size_t cause = 0;    ///< whose probability it would change most, in Assessment::causes
    double if_seen = 0.0, if_not = 0.0;
    std::vector<double> by_cause; ///< fall of the uncertainty of each of the first causes, bits
    std::string sends, spares; ///< names of the trade that seeing it would call for, and that not seeing it would not
};

/// Whom to send, whether it is safe, how soon, and which of the causes named it is.
[[nodiscard]] std::vector<Decision> decisions(Workbench const& w, Weighed const& weighed);
/// What looking for one finding is worth: the expected fall of what is open about each decision. Before anything was
/// found that is by the priors alone.
[[nodiscard]] Look worth(Workbench& w, Weighed& weighed, std::vector<Decision> const& open, std::string const& id,
                         std::size_t item);
/// Whether the visit says that this check was not to be done here.
[[nodiscard]] bool said_impossible(Workbench const& w, std::size_t item, diagnosis::CheckEntry const& check);
/// Whether what the check needs to be there may be.
[[nodiscard]] bool may_be(Thing const& thing, diagnosis::CheckEntry const& check);
[[nodiscard]] diagnosis::Who who_walks(Workbench const& w);
/// Nobody is sent to look closer at what has just been called dangerous, nor at anything that starts or stops with it.
[[nodiscard]] bool too_dangerous(Workbench const& w, std::size_t item);

} // namespace padwalk::assess
