#include "padwalk/circulation/network.hpp"

#include "network_parts.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/physics/water.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace padwalk::circulation
{
namespace
{

using figures::NotComputed;

constexpr int most_steps = 200;
constexpr double closure = 1e-11;   ///< of the largest drop
constexpr double least_largest = 1; ///< m, stands for the largest drop where all are small
constexpr double first_flow = 2e-3; ///< m3/s round every ring to begin with: a house's, 30 gpm
constexpr double short_of = 0.5;    ///< share of the slope along a step that may be left at its end, down …
constexpr double beyond = 0.1;      ///< … or up again: a convex function falls on the way to the first, and to the
                                    ///< second unless it bends so sharply that the steps run out

std::string quoted(std::string const& name)
{
    return "'" + name + "'";
}

/// The flows round the rings for one choice of open links.
class Search
{
public:
    Search(Network const& network, std::vector<LinkLaw> const& laws, std::vector<bool> const& open)
        : network_(network), laws_(laws), rings_(network, open), round_(rings_.size(), first_flow),
          flow_(network.links.size()), drops_(network.links.size()), head_(network.nodes.size()), error_(rings_.size())
    {
    }

    void run()
    {
        require_some_loss();
        look();
        while (!closed())
        {
            if (++steps_ > most_steps)
                throw NotComputed("the flows do not settle: after " + std::to_string(most_steps) +
                                  " steps the head does not close round the ring through " + quoted(worst_ring()));
            step();
        }
    }

    [[nodiscard]] Rings const& rings() const { return rings_; }
    [[nodiscard]] std::vector<double> const& flow() const { return flow_; }
    [[nodiscard]] std::vector<Drop> const& drops() const { return drops_; }
    [[nodiscard]] std::vector<double> const& head() const { return head_; }
    [[nodiscard]] int steps() const { return steps_; }
    [[nodiscard]] double imbalance() const
    {
        double worst = 0;
        for (double e : error_)
            worst = std::max(worst, std::abs(e));
        return worst;
    }
    [[nodiscard]] double tolerance() const
    {
        double largest = least_largest;
        for (auto const& d : drops_)
            largest = std::max(largest, std::abs(d.head));
        return closure * largest;
    }

private:
    void look()
    {
        rings_.flows(round_, flow_);
        for (std::size_t l = 0; l < flow_.size(); ++l)
            drops_[l] = rings_.passages(l).empty() ? laws_[l].at(0) : laws_[l].at(flow_[l]);
        rings_.heads(drops_, head_);
        rings_.errors(drops_, head_, error_);
    }

    [[nodiscard]] bool closed() const { return imbalance() <= tolerance(); }

    [[nodiscard]] std::string const& worst_ring() const
    {
        std::size_t worst = 0;
        for (std::size_t r = 0; r < error_.size(); ++r)
            if (!(std::abs(error_[r]) <= std::abs(error_[worst])))
                worst = r;
        return network_.links[rings_.closing(worst)].name;
    }

    /// Slope of the content along the direction at this share of it; leaves the search there.
    double slope_at(double share, std::vector<double> const& from, std::vector<double> const& direction)
    {
        for (std::size_t r = 0; r < round_.size(); ++r)
            round_[r] = from[r] + share * direction[r];
        look();
        return std::inner_product(error_.begin(), error_.end(), direction.begin(), 0.0);
    }

    void step()
    {
        std::vector<double> direction(error_);
        for (double& d : direction)
            d = -d;
        rings_.curvature(drops_, curvature_);
        if (!solve_definite(curvature_, direction))
            throw NotComputed("the flows do not settle round the ring through " + quoted(worst_ring()));
        std::vector<double> const from = round_;
        double const start = std::inner_product(error_.begin(), error_.end(), direction.begin(), 0.0);
        double const before = std::abs(start);
        double low = 0, at_low = start, high = 1, at_high = slope_at(high, from, direction);
        for (int doubled = 0; at_high < -short_of * before && !closed(); ++doubled)
        {
            if (doubled > 60)
                throw NotComputed("nothing limits the flow round the ring through " + quoted(worst_ring()));
            low = high, at_low = at_high;
            high *= 2;
            at_high = slope_at(high, from, direction);
        }
        // Regula falsi; the end that stays twice is halved (Illinois). A check valve about to open is a bend that holds
        // even that up, so every third cut is through the middle.
        for (int cut = 0, side = 0; at_high > beyond * before && !closed(); ++cut)
        {
            if (cut > 100)
                throw NotComputed("the flow round the ring through " + quoted(worst_ring()) + " jumps");
            double const share =
                cut % 3 == 2 ? low + (high - low) / 2 : (low * at_high - high * at_low) / (at_high - at_low);
            double const at_share = slope_at(share, from, direction);
            if (at_share > 0)
            {
                high = share, at_high = at_share;
                at_low = side > 0 ? at_low / 2 : at_low;
                side = 1;
                continue;
            }
            if (at_share >= -short_of * before)
                return;
            low = share, at_low = at_share;
            at_high = side < 0 ? at_high / 2 : at_high;
            side = -1;
        }
    }

    /// Links without any loss in one ring carry whatever they like; that is no answer.
    void require_some_loss() const
    {
        std::vector<bool> lossy(rings_.size(), false);
        for (std::size_t l = 0; l < laws_.size(); ++l)
            if (!rings_.passages(l).empty() && (laws_[l].is_pump() || laws_[l].at(first_flow).head > 0))
                for (auto const& p : rings_.passages(l))
                    lossy[p.ring] = true;
        for (std::size_t r = 0; r < lossy.size(); ++r)
            if (!lossy[r])
                throw NotComputed("the ring through " + quoted(network_.links[rings_.closing(r)].name) +
                                  " loses no head at all, so its flow can't be told; give it a length or a loss");
    }

    Network const& network_;
    std::vector<LinkLaw> const& laws_;
    Rings rings_;
    std::vector<double> round_, flow_;
    std::vector<Drop> drops_;
    std::vector<double> head_, error_, curvature_;
    int steps_ = 0;
};

void require_tied(Network const& network)
{
    for (auto const& l : network.links)
    {
        static_cast<void>(network.nodes.at(l.from));
        static_cast<void>(network.nodes.at(l.to));
        if (l.from == l.to)
            throw NotComputed(quoted(l.name) + " begins and ends at " + quoted(network.nodes[l.from].name));
    }
    Rings const all(network, std::vector<bool>(network.links.size(), true));
    for (std::size_t n = 0; n < network.nodes.size(); ++n)
        if (!all.reached(n))
            throw NotComputed(quoted(network.nodes[n].name) + " is tied to no water surface");
}

void require_pumps_reached(Network const& network, std::vector<bool> const& open)
{
    Rings const rings(network, open);
    for (std::size_t l = 0; l < network.links.size(); ++l)
        if (open[l] && std::holds_alternative<PumpCurve>(network.links[l].element) &&
            !rings.reached(network.links[l].from))
            throw NotComputed("shut valves cut " + quoted(network.links[l].name) + " off from every water surface");
}

/// Shuts the check valves that the leak runs back through, and opens those that would open; true if it changed any.
bool move_check_valves(Network const& network, Search const& found, std::vector<bool>& open)
{
    bool moved = false;
    for (std::size_t l = 0; l < network.links.size(); ++l)
    {
        auto const& link = network.links[l];
        if (!link.one_way || link.shut)
            continue;
        if (open[l] && found.flow()[l] < 0)
        {
            open[l] = false;
            moved = true;
        }
        else if (!open[l] && found.rings().reached(link.from) && found.rings().reached(link.to))
        {
            double const push = found.head()[link.from] - found.head()[link.to] - found.drops()[l].head;
            if (push > 10 * found.tolerance())
                open[l] = moved = true;
        }
    }
    return moved;
}

NetworkState state_of(Network const& network, std::vector<LinkLaw> const& laws, std::vector<bool> const& open,
                      Search const& found)
{
    NetworkState state;
    for (std::size_t l = 0; l < network.links.size(); ++l)
    {
        auto const& link = network.links[l];
        bool const both = found.rings().reached(link.from) && found.rings().reached(link.to);
        state.flow.push_back(units::of_si<units::VolumeFlow>(found.flow()[l]));
        double const across = both ? found.head()[link.from] - found.head()[link.to] : 0;
        state.drop.push_back(units::of_si<units::Head>(open[l] ? found.drops()[l].head : across));
        if (open[l])
            laws[l].require_valid(found.flow()[l]);
    }
    for (std::size_t n = 0; n < network.nodes.size(); ++n)
        state.head.push_back(found.rings().reached(n) ? std::optional(units::of_si<units::Head>(found.head()[n]))
                                                      : std::nullopt);
    state.imbalance = units::of_si<units::Head>(found.imbalance());
    return state;
}

} // namespace

std::size_t Network::water(std::string name, units::Length level)
{
    nodes.push_back({std::move(name), level, level});
    return nodes.size() - 1;
}

std::size_t Network::junction(std::string name, units::Length elevation)
{
    nodes.push_back({std::move(name), elevation, std::nullopt});
    return nodes.size() - 1;
}

std::size_t Network::link(std::string name, std::size_t from, std::size_t to, NetworkElement element)
{
    links.push_back({std::move(name), from, to, std::move(element), false, false});
    return links.size() - 1;
}

std::size_t Network::check_valve(std::string name, std::size_t from, std::size_t to, NetworkElement element)
{
    std::size_t const l = link(std::move(name), from, to, std::move(element));
    links[l].one_way = true;
    return l;
}

NetworkState solve(Network const& network, units::Temperature water)
{
    require_tied(network);
    units::KinematicViscosity const viscosity = physics::kinematic_viscosity(water);
    std::vector<LinkLaw> laws;
    std::vector<bool> open;
    for (auto const& link : network.links)
    {
        laws.emplace_back(link, network.formula, viscosity);
        open.push_back(!link.shut);
    }
    require_pumps_reached(network, open);
    int steps = 0;
    for (std::size_t round = 0; round <= 2 * network.links.size(); ++round)
    {
        Search search(network, laws, open);
        search.run();
        steps += search.steps();
        if (move_check_valves(network, search, open))
            continue;
        NetworkState state = state_of(network, laws, open, search);
        state.steps = steps;
        return state;
    }
    throw NotComputed("the check valves of the network do not settle open or shut");
}

} // namespace padwalk::circulation
