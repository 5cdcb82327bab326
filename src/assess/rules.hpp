#pragma once
#include "padwalk/reference/sources.hpp"

namespace padwalk::assess
{

/// One limit, with its own doubt, or one threshold of acting.
struct RuleEntry
{
    std::string value;   ///< a reading's text: '8 psi ± 4 psi'
    std::string measure; ///< 'temperature', for printing in other units; empty: printed as written
    std::string meaning;
    reference::Cited source;
    static fields::Record<RuleEntry> const& declaration();
};

/// data/assess/rules.yaml: where a reading starts to speak, and how likely something must be to act on it.
class Rules
{
public:
    /// Throws reference::DataProblems.
    explicit Rules(reference::Data const& data, units::System system = units::System::us);

    /// The limit of this name as a measured value; std::logic_error where there is none or it is of another measure.
    template <units::Quantity Q> [[nodiscard]] units::Measured<Q> limit(std::string const& name) const
    {
        units::Reading const r = reading(rules_, name, units::measure_of<Q>::value);
        return {units::of_si<Q>(r.value), units::of_si<units::Difference<Q>>(r.doubt), "limit"};
    }
    /// The probability of this name.
    [[nodiscard]] double act(std::string const& name) const
    {
        return reading(acts_, name, units::Measure::fraction).value;
    }
    /// How soon a danger must be said, by its cautions: 0 first.
    [[nodiscard]] std::size_t danger_rank(std::vector<std::string> const& cautions) const;
    /// 'above 8 psi [epa-watersense-2012]', for the meaning of a figure.
    [[nodiscard]] std::string cited(std::string const& name) const;

private:
    fields::Named<RuleEntry> rules_, acts_;
    std::vector<std::string> danger_first_;
    units::System system_; ///< of the limits in sentences
    [[nodiscard]] static units::Reading reading(fields::Named<RuleEntry> const& list, std::string const& name,
                                                units::Measure measure);
};

/// The probability that a value lies above a limit, both normal: Φ((value − limit) / √(doubt² + limit's doubt²)).
[[nodiscard]] double probability_above(double value, double doubt, double limit, double limit_doubt);

template <class Q>
[[nodiscard]] double probability_above(units::Measured<Q> const& value, units::Measured<Q> const& limit)
{
    return probability_above(units::in_si(value.value), units::in_si(value.doubt), units::in_si(limit.value),
                             units::in_si(limit.doubt));
}

} // namespace padwalk::assess
