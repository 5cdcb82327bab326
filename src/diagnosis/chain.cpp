#include "chain.hpp"

#include <array>

namespace padwalk::diagnosis
{
namespace
{

using elimination::Scope;
using elimination::Values;
using elimination::Variable;

constexpr auto states = std::array<bool, 2>{false, true};

Fired then(Fired before, Link const& link, bool present)
{
    return present ? padwalk::diagnosis::then(before, link.weight) : before;
}

Fired certainly(bool fired)
{
    return fired ? Fired{0.0, 1.0} : Fired{1.0, 0.0};
}

Scaled chance(Fired after, bool fired)
{
    return Scaled{fired ? after.by_now : after.not_yet};
}

/// Over the first parent and "fired by now".
Values first_table(Fired leak, Link const& link)
{
    auto values = Values{};
    for (auto const fired : states)
    {
        for (auto const present : states)
        {
            values.push_back(chance(then(leak, link, present), fired));
        }
    }
    return values;
}

/// Over "fired before", the parent and "fired by now".
Values middle_table(Link const& link)
{
    auto values = Values{};
    for (auto const fired : states)
    {
        for (auto const present : states)
        {
            for (auto const before : states)
            {
                values.push_back(chance(then(certainly(before), link, present), fired));
            }
        }
    }
    return values;
}

/// Over "fired before" and the last parent; here the observation comes in.
Values last_table(Link const& link, Likelihood const& likelihood)
{
    auto values = Values{};
    for (auto const present : states)
    {
        for (auto const before : states)
        {
            values.push_back(weigh(then(certainly(before), link, present), likelihood));
        }
    }
    return values;
}

/// Over two parents that are all there are.
Values only_table(Fired leak, Link const& first, Link const& second, Likelihood const& likelihood)
{
    auto values = Values{};
    for (auto const second_present : states)
    {
        for (auto const first_present : states)
        {
            auto const before = then(leak, first, first_present);
            values.push_back(weigh(then(before, second, second_present), likelihood));
        }
    }
    return values;
}

} // namespace

Fired then(Fired before, double weight)
{
    return Fired{before.not_yet * (1.0 - weight), before.by_now + before.not_yet * weight};
}

Scaled weigh(Fired fired, Likelihood const& likelihood)
{
    return Scaled{fired.not_yet} * likelihood.absent + Scaled{fired.by_now} * likelihood.present;
}

Influences influences(Network const& network, Finding const& finding)
{
    auto found = Influences{Fired{1.0 - finding.leak, finding.leak}, {}};
    for (auto const& link : finding.parents)
    {
        auto const prior = network.causes[link.cause].prior;
        if (prior == 1.0)
        {
            found.leak = then(found.leak, link.weight);
        }
        else if (prior > 0.0 && link.weight > 0.0)
        {
            found.parents.push_back(link);
        }
    }
    if (found.leak.not_yet == 0.0)
    {
        found.parents.clear();
    }
    return found;
}

std::vector<Scope> scopes(Chain const& chain, std::vector<Variable> const& variable_of, Variable& next)
{
    auto const variable = [&](std::size_t parent) { return variable_of[chain.parents[parent].cause]; };
    auto const last = chain.parents.size() - 1;
    if (last == 1)
    {
        return {{variable(0), variable(1)}};
    }
    auto found = std::vector<Scope>{{variable(0), next}};
    for (std::size_t parent = 1; parent < last; ++parent)
    {
        found.push_back({next, variable(parent), next + 1});
        ++next;
    }
    found.push_back({next, variable(last)});
    ++next;
    return found;
}

std::vector<Values> tables(Chain const& chain, Likelihood const& likelihood)
{
    auto const& parents = chain.parents;
    if (parents.size() == 2)
    {
        return {only_table(chain.leak, parents[0], parents[1], likelihood)};
    }
    auto found = std::vector<Values>{first_table(chain.leak, parents.front())};
    for (std::size_t parent = 1; parent + 1 < parents.size(); ++parent)
    {
        found.push_back(middle_table(parents[parent]));
    }
    found.push_back(last_table(parents.back(), likelihood));
    return found;
}

} // namespace padwalk::diagnosis
