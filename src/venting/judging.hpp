#pragma once
#include "padwalk/venting/vent_rules.hpp"

#include <cmath>

namespace padwalk::venting
{

/// The rule of this id, not yet judged.
[[nodiscard]] JudgedRule of(VentRules const& rules, std::string const& id);
[[nodiscard]] JudgedRule of(ClearanceRule const& rule);

void decide(JudgedRule& judged, Keeps keeps, std::string found);

/// By the margin: what is within the doubt of the reading can't be told.
void decide_by_margin(JudgedRule& judged, double margin, double doubt);

template <class Q> void at_least(JudgedRule& judged, units::Measured<Q> const& found, Q limit)
{
    units::Measured<Q> const margin{found.value - limit, found.doubt, "margin"};
    judged.measured = units::Reading::of(found);
    judged.limit = units::Reading::exact(limit);
    judged.margin = units::Reading::of(margin);
    decide_by_margin(judged, units::in_si(margin.value), units::in_si(margin.doubt));
}

template <class Q> void at_most(JudgedRule& judged, units::Measured<Q> const& found, units::Measured<Q> const& limit)
{
    units::Measured<Q> const margin{limit.value - found.value,
                                    units::of_si<Q>(std::hypot(units::in_si(found.doubt), units::in_si(limit.doubt))),
                                    "margin"};
    judged.measured = units::Reading::of(found);
    judged.limit = units::Reading::of(limit);
    judged.margin = units::Reading::of(margin);
    decide_by_margin(judged, units::in_si(margin.value), units::in_si(margin.doubt));
}

/// The end: rise above the hood, roof, distances to what it faces.
void judge_end(VentAsFound const& found, VentRules const& rules, std::vector<JudgedRule>& out);
/// The pit: water, gas, a person's way out, service. Nothing where there is none.
void judge_pit(VentAsFound const& found, VentRules const& rules, std::vector<JudgedRule>& out);

} // namespace padwalk::venting
