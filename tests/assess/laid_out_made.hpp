#pragma once
/// A property's network as the program lays it out, with every finding of every item in it, and properties drawn at
/// random from it.

#include "padwalk/assess/assess.hpp"

#include <cstdint>
#include <random>
#include <set>

namespace padwalk::tests
{

/// A cause at an item, and what follows from it.
struct LaidOutCause
{
    std::string id;
    std::size_t item; ///< in the property's list of things, as Assessment::items
    std::string trade;
    bool dangerous; ///< to people
    bool watched;   ///< nobody need come
};

struct LaidOutFinding
{
    std::string id;
    std::size_t item;
};

struct LaidOut
{
    diagnosis::Network network;
    std::vector<LaidOutCause> causes;     ///< as network.causes
    std::vector<LaidOutFinding> findings; ///< as network.findings
};

/// The knowledge over the items that a visit names; what the visit found of them is not used.
[[nodiscard]] LaidOut laid_out(std::string const& visit, assess::Engine const& engine,
                               diagnosis::Knowledge const& knowledge);

/// The same numbers with every compiler, which the standard distributions do not promise.
class Chance
{
public:
    explicit Chance(std::uint32_t seed) : engine_{seed} {}
    /// From 0 to below 1.
    double share() { return static_cast<double>(engine_()) / 4294967296.0; }
    bool happens(double probability) { return share() < probability; }

private:
    std::mt19937 engine_;
};

/// The knowledge with the odds of each base rate and of each weight, of its own, off by a factor between 1 / `most` and
/// `most` (even in its logarithm, so that the odds of a base rate are 8 % larger on average for a factor of 2); on
/// request the odds of each leak too. Odds, so that all stay between 0 and 1.
[[nodiscard]] diagnosis::Knowledge perturbed(diagnosis::Knowledge knowledge, double most, bool leaks_too,
                                             Chance& chance);

/// What is truly there at one property.
struct Truth
{
    std::vector<bool> causes, findings;
};

/// By the definition in network.hpp: causes by their priors, then each finding by leak and weights.
[[nodiscard]] Truth drawn(diagnosis::Network const& network, Chance& chance);

/// Each finding is looked at with this chance, whatever the truth, and then is seen or not seen.
[[nodiscard]] std::vector<diagnosis::Evidence> looked_at(Truth const& truth, double share, Chance& chance);

/// What an assessment of the same visit found, noticed and computed, as evidence: by the rule of Workbench::computed,
/// but without the readings that it weighs together and without the sharing of one reading by several findings.
[[nodiscard]] std::vector<diagnosis::Evidence> found_by(assess::Assessment const& assessment, LaidOut const& property,
                                                        assess::Engine const& engine);

/// From which likelihood on someone is sent: data/assess/rules.yaml.
struct SendingRule
{
    explicit SendingRule(assess::Engine const& engine);
    double named, lifted, referred, danger;
};

/// Whom to send, for causes alone.
struct Sending
{
    std::string likeliest;        ///< the trade of whose named causes at least one is likeliest to be there
    std::set<std::string> trades; ///< all that are sent
};

/// By src/assess/referrals.cpp: a trade is sent for its named causes, if at least one is likely enough to be there or
/// one is a danger that is likely enough. Causes named only because many share one finding are left out.
[[nodiscard]] Sending sending(LaidOut const& property, std::vector<double> const& posterior, SendingRule const& rule);

} // namespace padwalk::tests
