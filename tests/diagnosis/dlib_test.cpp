// The exact inference against dlib's join trees: a library for Bayesian networks of any shape, written by others, that
// knows nothing of noisy-OR. dlib 19.24 (Debian), bayes_utils.h.

#include "brute_force.hpp"
#include "catch_compat.hpp"
#include "data_folder.hpp"
#include "join_tree_made.hpp"

#include "padwalk/diagnosis/knowledge.hpp"

#include <set>

using namespace padwalk::diagnosis;
using brute_force::Dice;
using Catch::Matchers::WithinAbs;
using padwalk::tests::join_tree_answer;
using padwalk::tests::JoinTreeAnswer;
using padwalk::tests::JoinTreeWay;

namespace
{

constexpr double tolerance = 1e-9; ///< as promised in inference.hpp

/// 3 to 12 causes, 3 to 12 findings, each finding with 1 to 6 parents.
Network network_of_dice(Dice& dice)
{
    Network network;
    std::size_t const causes = 3 + dice.below(10), findings = 3 + dice.below(10);
    for (std::size_t c = 0; c < causes; ++c)
        network.causes.push_back({"c" + std::to_string(c), dice.probability(0.02, 0.02)});
    for (std::size_t f = 0; f < findings; ++f)
    {
        Finding finding{"f" + std::to_string(f), dice.probability(0.2, 0.02), {}};
        std::set<std::size_t> parents;
        for (std::size_t wanted = 1 + dice.below(6); wanted > 0; --wanted)
            parents.insert(dice.below(causes));
        for (std::size_t const parent : parents)
            finding.parents.push_back({parent, dice.probability(0.05, 0.1)});
        network.findings.push_back(std::move(finding));
    }
    return network;
}

/// Some findings seen, some not, some likely, some of them told of twice, the others not looked at.
std::vector<Evidence> evidence_of_dice(Network const& network, Dice& dice, double looked_at, double seen_share)
{
    std::vector<Evidence> evidence;
    for (std::size_t f = 0; f < network.findings.size(); ++f)
    {
        if (dice.share() >= looked_at)
            continue;
        double const lot = dice.share();
        if (lot < seen_share)
            evidence.push_back(seen(f));
        else if (lot < 0.75)
            evidence.push_back(not_seen(f));
        for (std::size_t more = lot < 0.75 ? dice.below(2) : 1 + dice.below(2); more > 0; --more)
            evidence.push_back({f, 0.001 + 0.999 * dice.share(), 0.001 + 0.999 * dice.share()});
    }
    return evidence;
}

void check_causes(std::vector<double> const& found, std::vector<double> const& expected)
{
    REQUIRE(found.size() == expected.size());
    for (std::size_t i = 0; i < found.size(); ++i)
    {
        INFO("cause " << i);
        CHECK_THAT(found[i], WithinAbs(expected[i], tolerance));
    }
}

JoinTreeAnswer answered(Network const& network, std::vector<Evidence> const& evidence, JoinTreeWay const& way = {})
{
    auto const answer = join_tree_answer(network, evidence, way);
    REQUIRE(answer);
    return *answer;
}

/// The causes of one kind of item, every finding that they show, with the base rates, leaks and weights of the data.
Network network_of(Knowledge const& knowledge, std::string const& item)
{
    Network network;
    std::vector<CauseEntry const*> entries;
    for (auto const& [id, cause] : knowledge.causes)
        if (cause.item == item)
        {
            network.causes.push_back({id, cause.base_rate.value()});
            entries.push_back(&cause);
        }
    for (auto const& [id, entry] : knowledge.findings)
    {
        Finding finding{id, entry.leak.value(), {}};
        for (std::size_t c = 0; c < entries.size(); ++c)
            for (auto const& shown : entries[c]->shows)
                if (shown.finding == id)
                    finding.parents.push_back({c, shown.weight.value()});
        if (!finding.parents.empty())
            network.findings.push_back(std::move(finding));
    }
    return network;
}

} // namespace

TEST_CASE("causes and findings of 150 random networks, against dlib's join trees", "[diagnosis][dlib]")
{
    Dice dice(20261126);
    int impossible = 0, fixed = 0, uncertain = 0;
    for (int round = 0; round < 150; ++round)
    {
        INFO("round " << round);
        auto const network = network_of_dice(dice);
        auto const evidence = evidence_of_dice(network, dice, 0.7, 0.4);
        auto const found = posterior(network, evidence);
        if (!found.possible)
        {
            ++impossible; // a division by zero in any join tree
            continue;
        }
        for (auto const& item : evidence)
            ++(item.if_present > 0 && item.if_absent > 0 ? uncertain : fixed);
        auto const tables = answered(network, evidence);
        check_causes(found.causes, tables.causes);
        auto const findings = finding_probabilities(network, evidence);
        REQUIRE(findings.size() == tables.findings.size());
        for (std::size_t f = 0; f < findings.size(); ++f)
        {
            INFO("finding " << f);
            CHECK_THAT(findings[f], WithinAbs(tables.findings[f], tolerance));
        }
    }
    CHECK(impossible < 75); // the dice do reach what is to be compared
    CHECK(fixed > 200);
    CHECK(uncertain > 200);
}

TEST_CASE("one table, a chain of parents and evidence parent by parent are the same network to dlib",
          "[diagnosis][dlib]")
{
    // So that the ways used for the larger networks are known to be exact ones, apart from padwalk.
    Dice dice(5);
    for (int round = 0; round < 20; ++round)
    {
        INFO("round " << round);
        auto const network = network_of_dice(dice);
        auto const evidence = evidence_of_dice(network, dice, 0.7, 0.3);
        if (!posterior(network, evidence).possible)
            continue;
        auto const tables = answered(network, evidence);
        check_causes(answered(network, evidence, JoinTreeWay{0, false, false, 15}).causes, tables.causes);
        check_causes(answered(network, evidence, JoinTreeWay{10, true, false, 15}).causes, tables.causes);
        check_causes(answered(network, evidence, JoinTreeWay{10, true, true, 15}).causes, tables.causes);
    }
}

TEST_CASE("the knowledge of each kind of item with random evidence, against dlib's join trees", "[diagnosis][dlib]")
{
    auto const knowledge = read_knowledge(padwalk::tests::data_from_folder());
    std::set<std::string> kinds;
    for (auto const& [id, cause] : knowledge.causes)
        kinds.insert(cause.item);
    REQUIRE(kinds.count("pump") == 1);
    Dice dice(11);
    for (auto const& kind : kinds)
    {
        auto const network = network_of(knowledge, kind);
        for (int round = 0; round < 4; ++round)
        {
            INFO(kind << ", round " << round);
            auto const evidence = evidence_of_dice(network, dice, 0.3, 0.2);
            auto const found = posterior(network, evidence);
            REQUIRE(found.possible);
            check_causes(found.causes, answered(network, evidence, JoinTreeWay{6, true, true, 15}).causes);
        }
    }
}
