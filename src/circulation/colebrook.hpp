#pragma once
/// Colebrook's equation as solvers walk it.

#include <cmath>
#include <numbers>

namespace padwalk::circulation
{

inline constexpr double usual_root = 7.25; ///< 1/sqrt f of smooth plastic at the flows of a pump: only where to begin
/// A move of this or less leaves the root within 1e-15: what is left goes with its cube, times less than 1e-3.
inline constexpr double settled_move = 1e-4;

/// Colebrook's equation in x = 1/sqrt f, at one Reynolds number and roughness over bore: x = -2 log10(r + s x).
class Colebrook
{
public:
    Colebrook(double reynolds, double roughness_share) : smooth_(2.51 / reynolds), rough_(roughness_share / 3.7) {}

    struct Step
    {
        double move;     ///< to be taken off x
        double exponent; ///< d ln h / d ln Q of the friction head: 2 and that of f, in all 2 over the slope at the root
    };

    /// Halley's step from x: Newton's with the bend of the curve, which costs no logarithm more.
    [[nodiscard]] Step step(double x) const
    {
        constexpr double k = 2 / std::numbers::ln10; // the natural logarithm is the faster one
        double const inside = rough_ + smooth_ * x;
        double const share = smooth_ / inside;
        double const value = x + k * std::log(inside), slope = 1 + k * share, bend = -k * share * share;
        return {value * slope / (slope * slope - value * bend / 2), 2 / slope};
    }

private:
    double smooth_, rough_;
};

} // namespace padwalk::circulation
