#include "axis.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{

int Axis::steps() const
{
    return static_cast<int>(std::lround((end - start) / step));
}

Axis axis_between(double low, double high, int parts)
{
    Axis out;
    double const raw = high > low && std::isfinite(high - low) ? (high - low) / parts : 1.0;
    double const ten = std::pow(10.0, std::floor(std::log10(raw)));
    for (double const times : {1.0, 2.0, 5.0, 10.0})
        if (out.step = times * ten; out.step >= raw * (1 - 1e-9))
            break;
    double const from = std::isfinite(low) ? low : 0.0;
    out.start = out.step * std::floor(from / out.step + 1e-9);
    out.end = std::max(out.start + out.step,
                       out.step * std::ceil((std::isfinite(high) ? high : from + out.step) / out.step - 1e-9));
    out.decimals = std::max(0, -static_cast<int>(std::floor(std::log10(out.step) + 1e-9)));
    return out;
}

} // namespace padwalk::report
