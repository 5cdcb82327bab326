#include "padwalk/diagnosis/network.hpp"

#include "wording.hpp"

namespace padwalk::diagnosis
{
namespace
{

using Problems = std::vector<std::string>;

std::string place(char const* list, std::size_t position, std::string const& name)
{
    return std::string{list} + "[" + std::to_string(position) + "] '" + name + "': ";
}

bool is_probability(double value)
{
    return value >= 0.0 && value <= 1.0; // false for NaN
}

/// `times` counts how often this finding has named each cause so far.
void check_parent(Network const& network, std::size_t number, std::size_t position, std::vector<std::size_t>& times,
                  Problems& problems)
{
    auto const& finding = network.findings[number];
    auto const& link = finding.parents[position];
    if (link.cause >= network.causes.size())
    {
        problems.push_back(place("findings", number, finding.name) + "a parent is cause " + std::to_string(link.cause) +
                           ", but " + how_many(network.causes.size(), "cause") + ", counted from 0");
        return;
    }
    auto const& parent = network.causes[link.cause].name;
    if (!is_probability(link.weight))
    {
        problems.push_back(place("findings", number, finding.name) + "the weight of parent '" + parent + "' " +
                           not_a_probability(link.weight));
    }
    if (++times[link.cause] == 2) // once per parent, however often it comes back
    {
        problems.push_back(place("findings", number, finding.name) + "parent '" + parent +
                           "' is listed more than once");
    }
}

} // namespace

void check(Network const& network)
{
    auto problems = Problems{};
    for (std::size_t i = 0; i < network.causes.size(); ++i)
    {
        auto const& cause = network.causes[i];
        if (!is_probability(cause.prior))
        {
            problems.push_back(place("causes", i, cause.name) + "the prior " + not_a_probability(cause.prior));
        }
    }
    auto times = std::vector<std::size_t>(network.causes.size());
    for (std::size_t i = 0; i < network.findings.size(); ++i)
    {
        auto const& finding = network.findings[i];
        if (!is_probability(finding.leak))
        {
            problems.push_back(place("findings", i, finding.name) + "the leak " + not_a_probability(finding.leak));
        }
        for (std::size_t parent = 0; parent < finding.parents.size(); ++parent)
        {
            check_parent(network, i, parent, times, problems);
        }
        for (auto const& link : finding.parents)
        {
            if (link.cause < times.size())
            {
                times[link.cause] = 0;
            }
        }
    }
    if (!problems.empty())
    {
        throw NetworkProblem{in_lines(problems)};
    }
}

} // namespace padwalk::diagnosis
