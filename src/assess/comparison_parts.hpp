#pragma once
/// The parts of a comparison of two visits, each over the items that were paired.

#include "padwalk/assess/comparison.hpp"

namespace padwalk::assess
{

/// Two assessments with their items paired.
class Pair
{
public:
    Pair(Assessment const& earlier, Assessment const& later);

    Assessment const& then;
    Assessment const& now;
    Comparison out;

    /// Where an item of either visit stands in Comparison::items.
    [[nodiscard]] std::size_t then_at(std::size_t item) const { return then_at_.at(item); }
    [[nodiscard]] std::size_t now_at(std::size_t item) const { return now_at_.at(item); }
    /// Something of it was in both files.
    [[nodiscard]] std::size_t common() const { return common_; }

private:
    std::vector<std::size_t> then_at_, now_at_;
    std::size_t common_ = 0;

    void pair_items();
    void add_verdicts();
};

void compare_readings(Pair& pair);
void compare_figures(Pair& pair);
void compare_findings(Pair& pair);
void compare_causes(Pair& pair);
void compare_alarms(Pair& pair); ///< after the findings
void settle_matters(Pair& pair); ///< after all of them
void note_oddities(Pair& pair);

/// Unsafe, dead or at fault.
[[nodiscard]] bool at_fault(std::optional<Verdict> const& verdict);

} // namespace padwalk::assess
