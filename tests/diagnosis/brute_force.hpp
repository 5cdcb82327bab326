#pragma once

#include "padwalk/diagnosis/inference.hpp"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <random>
#include <span>
#include <string>
#include <vector>

/// The same questions answered straight from the definition, by going through all joint states of the causes.
namespace brute_force
{

using padwalk::diagnosis::Evidence;
using padwalk::diagnosis::Finding;
using padwalk::diagnosis::Network;

inline double absent(Finding const& finding, std::uint32_t causes)
{
    auto chance = 1.0 - finding.leak;
    for (auto const& link : finding.parents)
    {
        chance *= ((causes >> link.cause) & 1U) != 0 ? 1.0 - link.weight : 1.0;
    }
    return chance;
}

inline double prior(Network const& network, std::uint32_t causes)
{
    auto chance = 1.0;
    for (std::size_t i = 0; i < network.causes.size(); ++i)
    {
        auto const present = network.causes[i].prior;
        chance *= ((causes >> i) & 1U) != 0 ? present : 1.0 - present;
    }
    return chance;
}

struct Answer
{
    double evidence = 0.0;            ///< P(evidence)
    std::vector<double> with_cause;   ///< P(cause present, evidence)
    std::vector<double> with_finding; ///< P(finding there, evidence)
};

/// P(evidence, causes), and the same with each finding there.
struct Joint
{
    double evidence;
    std::vector<double> with_finding;
};

inline Joint joint(Network const& network, std::span<Evidence const> evidence, std::uint32_t causes)
{
    auto const count = network.findings.size();
    auto there = std::vector<double>(count); // P(finding there and what was observed of it | causes)
    auto not_there = std::vector<double>(count);
    for (std::size_t f = 0; f < count; ++f)
    {
        not_there[f] = absent(network.findings[f], causes);
        there[f] = 1.0 - not_there[f];
    }
    for (auto const& item : evidence)
    {
        there[item.finding] *= item.if_present;
        not_there[item.finding] *= item.if_absent;
    }
    auto found = Joint{prior(network, causes), std::vector<double>(count, prior(network, causes))};
    for (std::size_t f = 0; f < count; ++f)
    {
        found.evidence *= there[f] + not_there[f];
        for (std::size_t other = 0; other < count; ++other)
        {
            found.with_finding[other] *= other == f ? there[f] : there[f] + not_there[f];
        }
    }
    return found;
}

inline Answer answer(Network const& network, std::span<Evidence const> evidence)
{
    auto found = Answer{};
    found.with_cause.resize(network.causes.size());
    found.with_finding.resize(network.findings.size());
    for (std::uint32_t causes = 0; causes < (1U << network.causes.size()); ++causes)
    {
        auto const chance = joint(network, evidence, causes);
        found.evidence += chance.evidence;
        for (std::size_t i = 0; i < network.causes.size(); ++i)
        {
            found.with_cause[i] += ((causes >> i) & 1U) != 0 ? chance.evidence : 0.0;
        }
        for (std::size_t f = 0; f < network.findings.size(); ++f)
        {
            found.with_finding[f] += chance.with_finding[f];
        }
    }
    return found;
}

inline double log_odds(Network const& network, std::span<Evidence const> evidence, std::size_t cause)
{
    auto const found = answer(network, evidence);
    return std::log(found.with_cause[cause] / (found.evidence - found.with_cause[cause]));
}

/// The same numbers with every compiler, which the standard distributions do not promise.
class Dice
{
public:
    explicit Dice(std::uint32_t seed) : engine_{seed} {}

    double share() { return static_cast<double>(engine_()) / 4294967296.0; }

    std::size_t below(std::size_t limit) { return static_cast<std::size_t>(engine_()) % limit; }

    /// A probability that is exactly 0 or exactly 1 now and then.
    double probability(double zero, double one)
    {
        auto const lot = share();
        return lot < zero ? 0.0 : lot > 1.0 - one ? 1.0 : share();
    }

private:
    std::mt19937 engine_;
};

inline Network random_network(Dice& dice)
{
    auto network = Network{};
    auto const causes = 1 + dice.below(9);
    for (std::size_t i = 0; i < causes; ++i)
    {
        network.causes.push_back({"c" + std::to_string(i), dice.probability(0.05, 0.03)});
    }
    auto const findings = 1 + dice.below(8);
    for (std::size_t f = 0; f < findings; ++f)
    {
        auto finding = Finding{"f" + std::to_string(f), dice.probability(0.2, 0.02), {}};
        for (std::size_t i = 0; i < causes; ++i)
        {
            if (dice.share() < 0.5)
            {
                auto const at = dice.below(finding.parents.size() + 1);
                auto const place = finding.parents.begin() + static_cast<std::ptrdiff_t>(at);
                finding.parents.insert(place, {i, dice.probability(0.05, 0.1)});
            }
        }
        network.findings.push_back(finding);
    }
    return network;
}

/// Certain and uncertain evidence, on some findings more than once.
inline std::vector<Evidence> random_evidence(Network const& network, Dice& dice)
{
    auto evidence = std::vector<Evidence>{};
    auto const count = dice.below(2 * network.findings.size() + 1);
    for (std::size_t i = 0; i < count; ++i)
    {
        auto const finding = dice.below(network.findings.size());
        evidence.push_back({finding, dice.probability(0.15, 0.1), dice.probability(0.15, 0.1)});
    }
    return evidence;
}

/// Two causes that share one finding, and one finding each of their own.
inline Network two_causes()
{
    return Network{{{"a", 0.05}, {"b", 0.02}},
                   {{"both", 0.01, {{0, 0.9}, {1, 0.8}}}, {"of a", 0.1, {{0, 0.8}}}, {"of b", 0.0, {{1, 0.5}}}}};
}

} // namespace brute_force
