#pragma once

namespace padwalk::report
{

/// One edge of a picture, from a round number to a round number with round steps.
struct Axis
{
    double start = 0.0, step = 1.0, end = 1.0;
    int decimals = 0; ///< of its numbers

    [[nodiscard]] int steps() const;
};

/// From at or below `low` to at or above `high`, in about so many parts.
[[nodiscard]] Axis axis_between(double low, double high, int parts);

} // namespace padwalk::report
