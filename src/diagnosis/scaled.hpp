#pragma once

#include <cmath>
#include <cstdint>

namespace padwalk::diagnosis
{

/// A number of at least 0 that carries its own exponent, so that no product of probabilities underflows.
/// Each operation rounds once, as `double` does.
class Scaled
{
public:
    Scaled() = default;

    /// value · 2^exponent, for a finite value of at least 0
    explicit Scaled(double value, std::int64_t exponent = 0)
    {
        int shift = 0;
        mantissa_ = std::frexp(value, &shift);
        exponent_ = is_zero() ? 0 : exponent + shift;
    }

    [[nodiscard]] bool is_zero() const { return mantissa_ == 0.0; }

    /// The power of two just above this number; 0 for zero.
    [[nodiscard]] std::int64_t exponent() const { return exponent_; }

    /// This number as a `double`: 0 where it is too small, infinity where it is too large.
    [[nodiscard]] double value() const
    {
        auto const limit = std::int64_t{4000};
        auto const exponent = exponent_ > limit ? limit : exponent_ < -limit ? -limit : exponent_;
        return std::ldexp(mantissa_, static_cast<int>(exponent));
    }

    /// Natural logarithm; minus infinity for zero.
    [[nodiscard]] double log() const
    {
        auto const ln_2 = 0.693147180559945309417;
        return std::log(mantissa_) + static_cast<double>(exponent_) * ln_2;
    }

    friend Scaled operator*(Scaled a, Scaled b) { return Scaled{a.mantissa_ * b.mantissa_, a.exponent_ + b.exponent_}; }

    /// Requires: b is not zero
    friend Scaled operator/(Scaled a, Scaled b) { return Scaled{a.mantissa_ / b.mantissa_, a.exponent_ - b.exponent_}; }

    friend Scaled operator+(Scaled a, Scaled b)
    {
        if (a.is_zero() || (!b.is_zero() && a.exponent_ < b.exponent_))
        {
            return b.is_zero() ? a : b + a;
        }
        auto const apart = a.exponent_ - b.exponent_;
        if (b.is_zero() || apart > 64) // b is below the last bit of a
        {
            return a;
        }
        return Scaled{a.mantissa_ + std::ldexp(b.mantissa_, static_cast<int>(-apart)), a.exponent_};
    }

    friend bool operator==(Scaled a, Scaled b) { return a.mantissa_ == b.mantissa_ && a.exponent_ == b.exponent_; }

private:
    double mantissa_ = 0.0; // 0, or 0.5 to below 1
    std::int64_t exponent_ = 0;
};

} // namespace padwalk::diagnosis
