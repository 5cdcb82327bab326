#pragma once
/// Values between the rows of a table. Nothing is read off beyond its first and last row.

#include <memory>
#include <span>
#include <stdexcept>

namespace padwalk::numerics
{

/// The table itself is unusable: sizes differ, too few rows, x not strictly increasing, a value not finite.
struct BadTable : std::invalid_argument
{
    using std::invalid_argument::invalid_argument;
};

/// The place asked for lies before the first row or after the last.
struct OutsideTable : std::domain_error
{
    OutsideTable(double at, double low, double high);

    double at;
    double low;
    double high;
};

/// Straight lines between the rows (x[i], y[i]); exact at every row, the first and the last included.
///
/// Throws: BadTable (two rows at least), OutsideTable naming the place and the range, also for NaN.
[[nodiscard]] double linear_table(std::span<double const> x, std::span<double const> y, double at);

/// A smooth curve through every row that turns only where the rows turn: piecewise cubic Hermite with the slopes of
/// [fritsch-butland-1984]. Where rows rise the curve rises, and it stays between neighbouring rows: no overshoot.
///
/// Rows:   two at least; two give a straight line.
/// Throws: BadTable on construction; OutsideTable from at() and slope(), also for NaN.
class MonotoneCurve
{
public:
    MonotoneCurve(std::span<double const> x, std::span<double const> y);

    [[nodiscard]] double at(double x) const;
    [[nodiscard]] double slope(double x) const; ///< dy/dx
    [[nodiscard]] double low() const { return low_; }
    [[nodiscard]] double high() const { return high_; }

private:
    struct Cubic;

    void require_inside(double x) const;

    double low_ = 0.0;
    double high_ = 0.0;
    std::shared_ptr<Cubic const> cubic_; // never changes, so copies of a curve share it
};

} // namespace padwalk::numerics
