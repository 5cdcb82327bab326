#pragma once
/// The run of a water's temperature under its heater, as likely and at both ends of what is not known.

#include "padwalk/figures/figure.hpp"
#include "padwalk/heating/heat_loss.hpp"
#include "padwalk/heating/heat_up.hpp"

namespace padwalk::assess
{

/// A water, its heater and what surrounds it, as one run of a figure takes them.
struct WarmingCase
{
    heating::Warming warming;
    heating::WaterBody body;
    heating::Surroundings around;
    bool loses = false; ///< else its losses are left out

    /// Throws physics::OutOfRange.
    [[nodiscard]] heating::HeatLoss loss_at(units::Temperature water, heating::LossFacts const& facts) const;
};

/// Of the inputs of a figure heat_up or spa_heat_loss, given and assumed.
[[nodiscard]] WarmingCase warming_case(figures::Figure const& figure);

struct WarmingCurves
{
    std::vector<heating::HeatUpPoint> likely, fast, slow; ///< empty where there is no such run
};

/// The likely curve of a figure heat_up that was computed, and the fast and the slow one at the ends of the 95 %
/// interval. All doubts move together for these: each by its part c/√Σc² of two standard uncertainties, where c is what
/// one standard uncertainty of it does to the speed half way up. Of all ways for the doubts to be off, that one is the
/// likeliest that moves the speed by two of its standard uncertainties (first order: the speed taken as linear). The
/// curves are then run with losses in full. Evaporation's own 15 % counts among the doubts.
[[nodiscard]] WarmingCurves warming_curves(figures::Figure const& heat_up, heating::LossFacts const& facts);

} // namespace padwalk::assess
