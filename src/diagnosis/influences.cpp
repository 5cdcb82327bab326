#include "influences.hpp"

namespace padwalk::diagnosis
{

Fired then(Fired before, double weight)
{
    return Fired{before.not_yet * (1.0 - weight), before.by_now + before.not_yet * weight};
}

Scaled weigh(Fired fired, Likelihood const& likelihood)
{
    return Scaled{fired.not_yet} * likelihood.absent + Scaled{fired.by_now} * likelihood.present;
}

void read_influences(Network const& network, std::size_t finding, Influences& found)
{
    auto const& [name, leak, parents] = network.findings[finding];
    found.leak = Fired{1.0 - leak, leak};
    found.parents.clear();
    for (auto const& link : parents)
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
}

Influences influences(Network const& network, std::size_t finding)
{
    auto found = Influences{};
    read_influences(network, finding, found);
    return found;
}

} // namespace padwalk::diagnosis
