#pragma once
/// The questions of inference.hpp put to a library made for Bayesian networks of any shape: dlib's join trees.
///
/// Nothing of padwalk's own inference is used: findings become plain tables of P(there | parents) as network.hpp
/// defines them, the trees and the sums are dlib's. Only join_tree_made.cpp includes dlib, which takes long to compile.

#include "padwalk/diagnosis/inference.hpp"

#include <optional>
#include <vector>

namespace padwalk::tests
{

/// How a network is put to the join tree. All ways mean the same; they differ in what it costs.
struct JoinTreeWay
{
    /// A finding with more parents than this is divorced from them: a chain of variables "fired by now", two parents
    /// each, instead of one table of 2^parents rows.
    std::size_t most_parents = 10;
    /// Findings without evidence are left out, as they change no cause; their probabilities are then not given.
    bool only_observed = false;
    /// A finding that is surely not there speaks of its parents one by one, by the definition in network.hpp, so each
    /// parent gets an observed child of its own instead.
    bool absent_by_parent = false;
    /// A tree with a node of more variables than this is given up: dlib would need a table of 2^that entries.
    std::size_t most_together = 15;
};

struct JoinTreeAnswer
{
    std::vector<double> causes;   ///< P(cause present | evidence), as Network::causes
    std::vector<double> findings; ///< P(finding there | evidence), as Network::findings; empty if only_observed
};

/// Certain evidence fixes the finding's value; any other is an observed child of the finding, whose chance is as the
/// two likelihoods are to each other. None where the tree would be too large.
///
/// Requires: the evidence is possible
[[nodiscard]] std::optional<JoinTreeAnswer> join_tree_answer(diagnosis::Network const& network,
                                                             std::span<diagnosis::Evidence const> evidence,
                                                             JoinTreeWay const& way = {});

} // namespace padwalk::tests
