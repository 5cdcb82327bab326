#include "padwalk/diagnosis/inference.hpp"

#include "brute_force.hpp"
#include "catch_compat.hpp"

#include <nlohmann/json.hpp>

#include <array>
#include <cmath>
#include <cstring>
#include <fstream>
#include <limits>
#include <string>
#include <utility>

using namespace padwalk::diagnosis;
using brute_force::two_causes;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace
{

constexpr auto infinity = std::numeric_limits<double>::infinity();

struct Case
{
    std::string name;
    Network network;
    std::vector<Evidence> evidence;
    double p_evidence;
    std::vector<double> posterior; // empty: the evidence is impossible
};

Case read_case(nlohmann::json const& entry)
{
    auto found = Case{entry["id"], {}, {}, entry["p_evidence"], {}};
    for (auto const& cause : entry["causes"])
    {
        found.network.causes.push_back({cause["name"], cause["prior"]});
    }
    for (auto const& finding : entry["findings"])
    {
        auto& added = found.network.findings.emplace_back(Finding{finding["name"], finding["leak"], {}});
        for (auto const& parent : finding["parents"])
        {
            added.parents.push_back({parent["cause"], parent["w"]});
        }
    }
    for (auto const& item : entry["evidence"])
    {
        found.evidence.push_back(item["present"].get<bool>() ? seen(item["finding"]) : not_seen(item["finding"]));
    }
    if (!entry["posterior"].is_null())
    {
        found.posterior = entry["posterior"].get<std::vector<double>>();
    }
    return found;
}

std::vector<Case> cases(std::string const& file)
{
    auto stream = std::ifstream{std::string{PADWALK_TEST_REFERENCE} + "/diagnosis/" + file};
    auto found = std::vector<Case>{};
    auto const document = nlohmann::json::parse(stream);
    for (auto const& entry : document.at("nets"))
    {
        found.push_back(read_case(entry));
    }
    return found;
}

void check_against(Case const& expected)
{
    INFO(expected.name);
    auto const found = posterior(expected.network, expected.evidence);
    REQUIRE(found.possible == !expected.posterior.empty());
    REQUIRE(found.causes.size() == expected.posterior.size());
    for (std::size_t i = 0; i < found.causes.size(); ++i)
    {
        INFO("cause " << i);
        CHECK_THAT(found.causes[i], WithinAbs(expected.posterior[i], 1e-9));
    }
    if (found.possible)
    {
        CHECK_THAT(std::exp(found.log_evidence), WithinRel(expected.p_evidence, 1e-9));
    }
    else
    {
        CHECK(found.log_evidence == -infinity);
        CHECK(expected.p_evidence == 0.0);
    }
}

bool same_bytes(std::vector<double> const& a, std::vector<double> const& b)
{
    return a.size() == b.size() && (a.empty() || std::memcmp(a.data(), b.data(), a.size() * sizeof(double)) == 0);
}

void shuffle(std::vector<Evidence>& evidence, brute_force::Dice& dice)
{
    for (auto i = evidence.size(); i > 1; --i)
    {
        std::swap(evidence[i - 1], evidence[dice.below(i)]);
    }
}

} // namespace

TEST_CASE("posteriors and P(evidence) against exact fractions: 20 two-layer networks", "[diagnosis]")
{
    auto const all = cases("noisy_or.json");
    REQUIRE(all.size() == 20);
    for (auto const& one : all)
    {
        check_against(one);
    }
}

TEST_CASE("posteriors and P(evidence) against exact fractions: edge cases and very surprising evidence", "[diagnosis]")
{
    auto const all = cases("noisy_or_edge.json");
    REQUIRE(all.size() == 14);
    for (auto const& one : all)
    {
        check_against(one);
    }
}

TEST_CASE("the order of the evidence changes no byte, against the same question in file order", "[diagnosis]")
{
    auto dice = brute_force::Dice{7};
    auto all = cases("noisy_or.json");
    for (auto const& edge : cases("noisy_or_edge.json"))
    {
        all.push_back(edge);
    }
    REQUIRE(all.size() == 34);
    for (auto& one : all)
    {
        INFO(one.name);
        for (std::size_t i = 0, given = one.evidence.size(); i < given; i += 2) // several items on a finding
        {
            auto const finding = one.evidence[i].finding;
            for (int more = 0; more < 4; ++more)
            {
                auto const either_way = dice.share();
                one.evidence.push_back({finding, 0.1 + 0.8 * dice.share(), 0.1 + 0.8 * dice.share()});
                one.evidence.push_back({finding, either_way, either_way});
            }
        }
        auto const first = posterior(one.network, one.evidence);
        auto const findings = finding_probabilities(one.network, one.evidence);
        for (int round = 0; round < 3; ++round)
        {
            shuffle(one.evidence, dice);
            auto const again = posterior(one.network, one.evidence);
            CHECK(same_bytes(first.causes, again.causes));
            CHECK(same_bytes({first.log_evidence}, {again.log_evidence}));
            CHECK(first.possible == again.possible);
        }
        CHECK(same_bytes(findings, finding_probabilities(one.network, one.evidence)));
    }
}

TEST_CASE("certain and uncertain evidence, against all joint states: 400 small random networks", "[diagnosis]")
{
    auto dice = brute_force::Dice{20240607};
    auto impossible = 0;
    for (int round = 0; round < 400; ++round)
    {
        INFO("round " << round);
        auto const network = brute_force::random_network(dice);
        auto const evidence = brute_force::random_evidence(network, dice);
        auto const expected = brute_force::answer(network, evidence);
        auto const found = posterior(network, evidence);
        auto const findings = finding_probabilities(network, evidence);
        REQUIRE(found.possible == (expected.evidence > 0.0));
        if (!found.possible)
        {
            ++impossible;
            CHECK((found.causes.empty() && findings.empty() && found.log_evidence == -infinity));
            continue;
        }
        CHECK_THAT(found.log_evidence, WithinAbs(std::log(expected.evidence), 1e-9));
        for (std::size_t i = 0; i < found.causes.size(); ++i)
        {
            CHECK_THAT(found.causes[i], WithinAbs(expected.with_cause[i] / expected.evidence, 1e-9));
        }
        REQUIRE(findings.size() == network.findings.size());
        for (std::size_t f = 0; f < findings.size(); ++f)
        {
            CHECK_THAT(findings[f], WithinAbs(expected.with_finding[f] / expected.evidence, 1e-9));
        }
    }
    CHECK(impossible > 20); // the dice do reach both kinds
    CHECK(impossible < 380);
}

TEST_CASE("eight seen findings that all share fourteen causes, against all joint states", "[diagnosis]")
{
    auto dice = brute_force::Dice{3};
    auto network = Network{};
    auto evidence = std::vector<Evidence>{};
    for (std::size_t i = 0; i < 14; ++i)
    {
        network.causes.push_back({"c" + std::to_string(i), 0.02 + 0.1 * dice.share()});
    }
    for (std::size_t f = 0; f < 8; ++f)
    {
        network.findings.push_back({"f" + std::to_string(f), 0.01 * dice.share(), {}});
        for (std::size_t i = 0; i < 14; ++i)
        {
            network.findings.back().parents.push_back({i, dice.share()});
        }
        evidence.push_back(f % 3 == 0 ? likely(f, 0.9) : seen(f));
    }
    auto const found = posterior(network, evidence);
    auto const expected = brute_force::answer(network, evidence);
    CHECK_THAT(found.log_evidence, WithinAbs(std::log(expected.evidence), 1e-9));
    for (std::size_t i = 0; i < 14; ++i)
    {
        CHECK_THAT(found.causes[i], WithinAbs(expected.with_cause[i] / expected.evidence, 1e-9));
    }
}

TEST_CASE("a hundred seen findings of eight causes, against all joint states", "[diagnosis]")
{
    auto dice = brute_force::Dice{11};
    auto network = Network{};
    auto evidence = std::vector<Evidence>{};
    for (std::size_t i = 0; i < 8; ++i)
    {
        network.causes.push_back({"c" + std::to_string(i), 0.02 + 0.1 * dice.share()});
    }
    for (std::size_t f = 0; f < 100; ++f)
    {
        network.findings.push_back({"f" + std::to_string(f), 0.1 + 0.3 * dice.share(), {}});
        for (std::size_t i = 0; i < 8; ++i)
        {
            network.findings.back().parents.push_back({(f + i) % 8, 0.5 * dice.share()});
        }
        evidence.push_back(f % 3 == 0 ? likely(f, 0.9) : seen(f));
    }
    auto const found = posterior(network, evidence);
    auto const expected = brute_force::answer(network, evidence);
    CHECK_THAT(found.log_evidence, WithinAbs(std::log(expected.evidence), 1e-9));
    for (std::size_t i = 0; i < 8; ++i)
    {
        CHECK_THAT(found.causes[i], WithinAbs(expected.with_cause[i] / expected.evidence, 1e-9));
    }
}

TEST_CASE("a tree of 255 causes in triangles of seen findings, against a sum from the leaves to the root",
          "[diagnosis]")
{
    // Cause i has the children 2i + 1 and 2i + 2; every two of such three share a seen finding.
    auto dice = brute_force::Dice{5};
    auto network = Network{};
    auto evidence = std::vector<Evidence>{};
    auto const share_finding = [&](std::size_t a, std::size_t b)
    {
        network.findings.push_back({"f", 0.01, {{a, 0.05 + 0.9 * dice.share()}, {b, 0.05 + 0.9 * dice.share()}}});
        evidence.push_back(seen(evidence.size()));
    };
    std::size_t const causes = 255;
    std::size_t const inner = causes / 2;
    for (std::size_t i = 0; i < causes; ++i)
    {
        network.causes.push_back({"c", 0.02 + 0.1 * dice.share()});
    }
    for (std::size_t i = 0; i < inner; ++i)
    {
        share_finding(i, 2 * i + 1);
        share_finding(i, 2 * i + 2);
        share_finding(2 * i + 1, 2 * i + 2);
    }
    auto const there = [&](std::size_t finding, bool first, bool second)
    {
        auto const& parents = network.findings[finding].parents;
        return 1.0 - 0.99 * (first ? 1.0 - parents[0].weight : 1.0) * (second ? 1.0 - parents[1].weight : 1.0);
    };
    auto below = std::vector<std::array<double, 2>>(causes); // P(this cause absent or present, all seen below it)
    for (std::size_t i = causes; i-- > 0;)
    {
        for (bool const here : {false, true})
        {
            auto sum = i < inner ? 0.0 : 1.0;
            for (int pair = 0; pair < 4 && i < inner; ++pair)
            {
                auto const left = pair % 2 == 1;
                auto const right = pair >= 2;
                sum += below[2 * i + 1][left] * below[2 * i + 2][right] * there(3 * i, here, left) *
                       there(3 * i + 1, here, right) * there(3 * i + 2, left, right);
            }
            below[i][here] = sum * (here ? network.causes[i].prior : 1.0 - network.causes[i].prior);
        }
    }
    auto const all = below[0][0] + below[0][1];
    auto const found = posterior(network, evidence);
    CHECK_THAT(found.log_evidence, WithinAbs(std::log(all), 1e-9));
    CHECK_THAT(found.causes[0], WithinAbs(below[0][1] / all, 1e-9));
}

TEST_CASE("evidence equally likely either way changes no byte of a posterior, against leaving it out", "[diagnosis]")
{
    for (auto one : cases("noisy_or.json"))
    {
        INFO(one.name);
        auto const before = posterior(one.network, one.evidence);
        auto expected = before.log_evidence;
        for (std::size_t f = 0; f < one.network.findings.size(); ++f)
        {
            one.evidence.push_back({f, 0.3, 0.3});
            expected += std::log(0.3);
        }
        auto const after = posterior(one.network, one.evidence);
        CHECK(same_bytes(before.causes, after.causes));
        CHECK_THAT(after.log_evidence, WithinRel(expected, 1e-12));
    }
}

TEST_CASE("likely(f, 1) is seen(f), likely(f, 0) is not_seen(f), against each other", "[diagnosis]")
{
    auto const network = two_causes();
    for (std::size_t f = 0; f < 3; ++f)
    {
        auto const yes = posterior(network, std::vector{seen(f)});
        auto const surely = posterior(network, std::vector{likely(f, 1.0)});
        CHECK(same_bytes(yes.causes, surely.causes));
        CHECK(same_bytes({yes.log_evidence}, {surely.log_evidence}));
        auto const no = posterior(network, std::vector{not_seen(f)});
        auto const hardly = posterior(network, std::vector{likely(f, 0.0)});
        CHECK(same_bytes(no.causes, hardly.causes));
        CHECK(same_bytes({no.log_evidence}, {hardly.log_evidence}));
    }
}

TEST_CASE("seen and not seen at once is impossible, against the definition, no answer is NaN", "[diagnosis]")
{
    auto const network = two_causes();
    auto const evidence = std::vector{seen(0), not_seen(0)};
    auto const found = posterior(network, evidence);
    CHECK_FALSE(found.possible);
    CHECK(found.causes.empty());
    CHECK(found.log_evidence == -infinity);
    CHECK(finding_probabilities(network, evidence).empty());
    CHECK(weights_of_evidence(network, evidence, 0).empty());
}

TEST_CASE("P(finding) without evidence, by hand: 1 - (1 - leak)(1 - prior * weight) ...", "[diagnosis]")
{
    auto const found = finding_probabilities(two_causes(), {});
    REQUIRE(found.size() == 3);
    CHECK_THAT(found[0], WithinRel(1.0 - 0.99 * (1.0 - 0.05 * 0.9) * (1.0 - 0.02 * 0.8), 1e-13));
    CHECK_THAT(found[1], WithinRel(0.1 + 0.9 * 0.05 * 0.8, 1e-13));
    CHECK_THAT(found[2], WithinRel(0.02 * 0.5, 1e-13));
}

TEST_CASE("a very unlikely finding keeps its digits, by hand: 1e-12 * 0.5 + 1e-12 * 0.25 - their product",
          "[diagnosis]")
{
    auto const network = Network{{{"a", 1e-12}, {"b", 1e-12}}, {{"f", 0.0, {{0, 0.5}, {1, 0.25}}}}};
    CHECK_THAT(finding_probabilities(network, {}).front(), WithinRel(0.75e-12 - 0.125e-24, 1e-14));
}

TEST_CASE("probabilities far below the smallest double, by hand: two causes, each against 500 silent findings",
          "[diagnosis]")
{
    // One seen finding needs a or b (weight 0.5 each); 500 findings not seen speak against either, by 1/1024 each.
    // P = 1/4 * (1/2 * 2^-5000 + 1/2 * 2^-5000 + 3/4 * 2^-10000), the last term being far below the last digit.
    auto network = Network{{{"a", 0.5}, {"b", 0.5}}, {{"alarm", 0.0, {{0, 0.5}, {1, 0.5}}}}};
    auto evidence = std::vector{seen(0)};
    for (std::size_t i = 0; i < 1000; ++i)
    {
        network.findings.push_back({"silent", 0.0, {{i % 2, 1023.0 / 1024.0}}});
        evidence.push_back(not_seen(network.findings.size() - 1));
    }
    auto const found = posterior(network, evidence);
    REQUIRE(found.possible);
    CHECK_THAT(found.log_evidence, WithinRel(std::log(0.25) - 5000.0 * std::log(2.0), 1e-14));
    CHECK_THAT(found.causes[0], WithinAbs(0.5, 1e-15));
    CHECK_THAT(found.causes[1], WithinAbs(0.5, 1e-15));
}

TEST_CASE("ten seen findings that all share forty causes, against a sum over how many causes are present",
          "[diagnosis]")
{
    // All causes and all findings alike, so with k causes present P(all seen | k) = (1 - (1 - leak)(1 - weight)^k)^10.
    auto network = Network{};
    auto evidence = std::vector<Evidence>{};
    network.causes.assign(40, Cause{"c", 0.03});
    network.findings.assign(10, Finding{"f", 0.002, {}});
    for (std::size_t f = 0; f < 10; ++f)
    {
        for (std::size_t cause = 0; cause < 40; ++cause)
        {
            network.findings[f].parents.push_back({cause, 0.4});
        }
        evidence.push_back(seen(f));
    }
    auto chance_of_k = std::pow(0.97, 40.0); // binomial, k = 0
    auto expected = 0.0;
    auto present = 0.0;
    for (int k = 0; k <= 40; ++k)
    {
        auto const both = chance_of_k * std::pow(1.0 - 0.998 * std::pow(0.6, k), 10.0);
        expected += both;
        present += both * k / 40.0;
        chance_of_k *= (40.0 - k) / (k + 1.0) * 0.03 / 0.97;
    }
    auto const found = posterior(network, evidence);
    CHECK_THAT(found.log_evidence, WithinAbs(std::log(expected), 1e-9));
    for (auto const cause : found.causes)
    {
        CHECK_THAT(cause, WithinAbs(present / expected, 1e-9));
    }
}

TEST_CASE("thirty seen findings that all share thirty causes, against the documented limit: refused", "[diagnosis]")
{
    auto network = Network{};
    auto evidence = std::vector<Evidence>{};
    for (std::size_t i = 0; i < 30; ++i)
    {
        network.causes.push_back({"c", 0.1});
        network.findings.push_back({"f", 0.1, {}});
        for (std::size_t cause = 0; cause < 30; ++cause)
        {
            network.findings.back().parents.push_back({cause, 0.5});
        }
        evidence.push_back(seen(i));
    }
    CHECK_THROWS_AS(posterior(network, evidence), TooEntangled);
}
