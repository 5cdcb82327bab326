#pragma once

#include "scaled.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

namespace padwalk::diagnosis
{

/// A number in a cheap form, and whether a product has fallen out of the range in which that form keeps all its
/// digits: then all is to be computed again with `Scaled`, which has no such range.
using Lost = bool;

inline double times(double a, double b, Lost& lost)
{
    auto const product = a * b;
    lost |= product < std::numeric_limits<double>::min() && a != 0.0 && b != 0.0;
    return product;
}

inline Scaled times(Scaled a, Scaled b, Lost& /*never*/)
{
    return a * b;
}

inline void take(Scaled from, double& to, Lost& lost)
{
    to = from.value();
    lost |= !from.is_zero() && !(to >= std::numeric_limits<double>::min() && std::isfinite(to));
}

inline void take(Scaled from, Scaled& to, Lost& /*never*/)
{
    to = from;
}

/// Divides by the power of two just above the largest value, and returns its exponent.
inline std::int64_t level(std::vector<double>& values, Lost& lost)
{
    int exponent = 0;
    std::frexp(*std::max_element(values.begin(), values.end()), &exponent);
    auto const factor = std::ldexp(1.0, -exponent);
    for (auto& value : values)
    {
        value = times(value, factor, lost);
    }
    return exponent;
}

inline std::int64_t level(std::vector<Scaled>& /*need it not*/, Lost& /*never*/)
{
    return 0;
}

/// A table over yes/no variables, as many as are open. Bit k of a position is the state of the k-th of them.
template <class Number> class Frontier
{
public:
    [[nodiscard]] std::vector<Number> const& values() const { return values_; }
    [[nodiscard]] bool lost() const { return lost_; }

    std::int64_t level() { return diagnosis::level(values_, lost_); }

    /// One more variable, which multiplies by one number where it is "no" and by the other where it is "yes".
    void insert(unsigned bit, Number no, Number yes)
    {
        auto const run = std::size_t{1} << bit;
        auto lost = lost_;
        auto const old = values_.size();
        values_.resize(2 * old);
        for (auto block = old; block > 0; block -= run) // from the end, so that nothing is overwritten unread
        {
            auto const* const from = &values_[block - run];
            auto* const to = &values_[2 * (block - run)];
            for (auto i = run; i-- > 0;)
            {
                auto const value = from[i];
                to[run + i] = times(value, yes, lost);
                to[i] = times(value, no, lost);
            }
        }
        lost_ = lost;
    }

    /// Sums a variable out, times one number where it is "no" and times the other where it is "yes".
    void remove(unsigned bit, Number no, Number yes)
    {
        auto const run = std::size_t{1} << bit;
        auto lost = lost_;
        for (std::size_t block = 0; block < values_.size(); block += 2 * run)
        {
            auto const* const from = &values_[block];
            auto* const to = &values_[block / 2];
            for (std::size_t i = 0; i < run; ++i)
            {
                to[i] = times(from[i], no, lost) + times(from[run + i], yes, lost);
            }
        }
        values_.resize(values_.size() / 2);
        lost_ = lost;
    }

    /// A cause, where present, makes a finding fire that has not yet: P(still not) = `not_yet`, P(now) = `by_now`.
    void fire(unsigned cause, unsigned finding, Number not_yet, Number by_now)
    {
        auto lost = lost_;
        where_present(cause, finding,
                      [&](Number& before, Number& after)
                      {
                          after = after + times(before, by_now, lost);
                          before = times(before, not_yet, lost);
                      });
        lost_ = lost;
    }

    /// The same seen from the end: what follows a state is what follows the two that it may lead to.
    void fire_back(unsigned cause, unsigned finding, Number not_yet, Number by_now)
    {
        auto lost = lost_;
        where_present(cause, finding,
                      [&](Number& before, Number& after)
                      { before = times(before, not_yet, lost) + times(after, by_now, lost); });
        lost_ = lost;
    }

private:
    /// Each pair of entries that differ in the finding only ("not yet", "by now"), where the cause is present.
    template <class Act> void where_present(unsigned cause, unsigned finding, Act const& act)
    {
        auto const present = std::size_t{1} << cause;
        auto const fired = std::size_t{1} << finding;
        auto const low = std::min(present, fired);
        auto const high = std::max(present, fired);
        for (std::size_t outer = 0; outer < values_.size(); outer += 2 * high)
        {
            for (auto inner = outer; inner < outer + high; inner += 2 * low)
            {
                auto* const before = &values_[inner + present];
                auto* const after = before + fired;
                for (std::size_t i = 0; i < low; ++i)
                {
                    act(before[i], after[i]);
                }
            }
        }
    }

    std::vector<Number> values_ = std::vector<Number>(1, Number{1.0});
    Lost lost_ = false;
};

} // namespace padwalk::diagnosis
