#pragma once
/// Networks in tests: made from plain SI numbers, and the two laws that every solved one obeys.

#include "catch_compat.hpp"
#include "csv.hpp"
#include "padwalk/circulation/network.hpp"
#include "written.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::tests
{

using namespace padwalk::circulation;

inline units::Length metre(double value)
{
    return units::of_si<units::Length>(value);
}

inline units::Head head(double value)
{
    return units::of_si<units::Head>(value);
}

inline units::VolumeFlow flow(double value)
{
    return units::of_si<units::VolumeFlow>(value);
}

inline units::Temperature celsius(double value)
{
    return units::of_si<units::Temperature>(value + 273.15);
}

inline PumpCurve power_curve(double h0, double q1, double h1, double q2, double h2, double speed)
{
    return PumpCurve({{flow(0), head(h0)}, {flow(q1), head(h1)}, {flow(q2), head(h2)}},
                     units::of_si<units::Fraction>(speed));
}

inline PumpCurve row_curve(tests::CsvRow const& r, std::string const& prefix)
{
    return power_curve(r.number(prefix + "h0_m"), r.number(prefix + "q1_m3s"), r.number(prefix + "h1_m"),
                       r.number(prefix + "q2_m3s"), r.number(prefix + "h2_m"), r.number("speed"));
}

inline Pipe plastic(double bore, double length, double k)
{
    return {metre(bore), metre(length), number(k), metre(1.5e-6), number(150)};
}

inline double at(NetworkState const& s, std::size_t link)
{
    return units::in_si(s.flow.at(link));
}

inline void check_balance(Network const& n, NetworkState const& s)
{
    std::vector<double> kept(n.nodes.size(), 0);
    double largest = 0;
    for (std::size_t l = 0; l < n.links.size(); ++l)
    {
        kept[n.links[l].from] -= at(s, l);
        kept[n.links[l].to] += at(s, l);
        largest = std::max(largest, std::abs(at(s, l)));
    }
    for (std::size_t k = 0; k < kept.size(); ++k)
        if (!n.nodes[k].level && !(std::abs(kept[k]) <= 1e-12 * largest))
            FAIL("node " << n.nodes[k].name << " keeps " << kept[k] << " m3/s");
}

/// What a link adds by itself before anything flows: a pump its head at no flow.
inline double resting_head(NetworkLink const& link)
{
    auto const* pump = std::get_if<PumpCurve>(&link.element);
    return pump ? pump->greatest_head().value() : 0;
}

inline void check_heads(Network const& n, NetworkState const& s)
{
    for (std::size_t l = 0; l < n.links.size(); ++l)
    {
        auto const a = s.head[n.links[l].from], b = s.head[n.links[l].to];
        if (!a || !b)
            continue;
        double const across = (*a - *b).value(), off = std::abs(across - s.drop[l].value());
        bool const held = n.links[l].shut || (n.links[l].one_way && at(s, l) == 0), shut = n.links[l].shut;
        if (n.links[l].one_way && (at(s, l) < 0 || (held && !shut && across > 1e-8 - resting_head(n.links[l]))))
            FAIL(n.links[l].name << " runs back, or is held open the right way: " << at(s, l) << " m3/s, " << across
                                 << " m");
        if (!held && !(off <= 1e-8))
            FAIL(n.links[l].name << " is off by " << off << " m");
    }
}

} // namespace padwalk::tests
