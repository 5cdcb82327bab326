#pragma once
/// Where a falling level stops: at which fitting to look.

#include "padwalk/level/level_balance.hpp"

#include <string>
#include <vector>

namespace padwalk::level
{

/// Something in the shell through which it may leak.
struct Fitting
{
    std::string name;
    units::Measured<units::Length> depth; ///< of its lowest wetted point, below the first mark; negative: above it
};

struct FittingOdds
{
    std::string name;
    double log_likelihood = 0.0; ///< of the history, over that of a leak that never stops
    units::Fraction chance{};    ///< among the fittings, elsewhere and never, each as likely beforehand
};

struct Settling
{
    double log_stops = 0.0;               ///< ln of the likelihood that it stops somewhere, over that it never does
    units::Length depth{}, low{}, high{}; ///< where, if it does: median and 95 %, below the first mark
    units::Velocity leak{};               ///< mean rate at the first mark's level, if it does
    std::vector<FittingOdds> fittings;    ///< as given
    FittingOdds elsewhere, never;         ///< at no fitting named; at the deepest place or by pressure
};

/// Weighs where a leak stops. A hole whose lowest point lies `depth` below the first mark loses with the root of the
/// water above it and nothing from there on, while evaporation goes on:
///
///     leak(fall) = q sqrt(1 - fall/depth),   0 where fall >= depth
///
/// run through each stretch from the level its first mark shows. Rates as in leak_odds; depths from nothing to
/// `deepest` are equally likely; the pump's state is taken not to matter. All else strays as in level_balance.
///
/// Valid:    one leak that discharges freely. A leak that stops near a fitting's depth may be in the wall there
/// Accuracy: that of the marks where the level has settled; before, the bend of a falling level tells little
/// Source:   orifice law
/// Throws:   as level_balance
[[nodiscard]] Settling level_settling(LevelRecord const& record, std::vector<Fitting> const& fittings,
                                      BalanceFacts const& facts);

} // namespace padwalk::level
