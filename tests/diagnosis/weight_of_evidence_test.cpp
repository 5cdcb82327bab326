#include "padwalk/diagnosis/inference.hpp"

#include "brute_force.hpp"
#include "catch_compat.hpp"

#include <cmath>
#include <limits>
#include <vector>

using namespace padwalk::diagnosis;
using brute_force::two_causes;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace
{

constexpr auto infinity = std::numeric_limits<double>::infinity();

} // namespace

TEST_CASE("weights where findings share no cause, by hand: ln of the likelihood ratios, adding up", "[diagnosis]")
{
    auto const network = Network{{{"a", 0.05}}, {{"f", 0.1, {{0, 0.8}}}, {"g", 0.02, {{0, 0.6}}}}};
    auto const found = weights_of_evidence(network, std::vector{seen(0), not_seen(1)}, 0);
    REQUIRE(found.size() == 2);
    CHECK(found[0].finding == 0);
    CHECK_THAT(found[0].log_odds, WithinRel(std::log((0.1 + 0.9 * 0.8) / 0.1), 1e-12));
    CHECK(found[1].finding == 1);
    CHECK_THAT(found[1].log_odds, WithinRel(std::log(1.0 - 0.6), 1e-12));

    auto const present = posterior(network, std::vector{seen(0), not_seen(1)}).causes.front();
    CHECK_THAT(std::log(present / (1.0 - present)),
               WithinRel(std::log(0.05 / 0.95) + found[0].log_odds + found[1].log_odds, 1e-12));
}

TEST_CASE("weights where findings share causes, against all joint states, item by item in the order given",
          "[diagnosis]")
{
    auto const network = two_causes();
    auto const evidence = std::vector{seen(1), likely(0, 0.9), seen(0), likely(1, 0.3)};
    for (std::size_t cause = 0; cause < 2; ++cause)
    {
        auto const found = weights_of_evidence(network, evidence, cause);
        REQUIRE(found.size() == evidence.size());
        for (std::size_t i = 0; i < evidence.size(); ++i)
        {
            auto rest = evidence;
            rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i));
            auto const expected =
                brute_force::log_odds(network, evidence, cause) - brute_force::log_odds(network, rest, cause);
            CHECK(found[i].finding == evidence[i].finding);
            CHECK_THAT(found[i].log_odds, WithinAbs(expected, 1e-9));
        }
    }
    CHECK(weights_of_evidence(network, std::vector{seen(0), seen(1)}, 1)[1].log_odds < 0.0); // a explains it away
    CHECK(weights_of_evidence(network, std::vector{seen(0), {1, 0.4, 0.4}}, 0)[1].log_odds == 0.0);
}

TEST_CASE("a piece of evidence that turns 'not there' back into an open question, against all joint states",
          "[diagnosis]")
{
    auto const network = two_causes();
    auto const evidence = std::vector{likely(0, 0.9), not_seen(0)};
    auto const found = weights_of_evidence(network, evidence, 0);
    auto const expected =
        brute_force::log_odds(network, evidence, 0) - brute_force::log_odds(network, std::vector{likely(0, 0.9)}, 0);
    CHECK(found[0].log_odds == 0.0);
    CHECK_THAT(found[1].log_odds, WithinAbs(expected, 1e-9));
}

TEST_CASE("weights that settle a cause, by hand: infinite if alone, zero if another does too", "[diagnosis]")
{
    auto const network = Network{{{"a", 0.1}}, {{"only a", 0.0, {{0, 0.7}}}, {"also only a", 0.0, {{0, 0.2}}}}};
    CHECK(weights_of_evidence(network, std::vector{seen(0)}, 0)[0].log_odds == infinity);
    CHECK(weights_of_evidence(network, std::vector{seen(0), seen(1)}, 0)[0].log_odds == 0.0);

    auto const sure = Network{{{"a", 0.1}}, {{"always with a", 0.1, {{0, 1.0}}}}};
    CHECK(weights_of_evidence(sure, std::vector{not_seen(0)}, 0)[0].log_odds == -infinity);
    CHECK(weights_of_evidence(sure, std::vector{not_seen(0), not_seen(0)}, 0)[0].log_odds == 0.0);
}

TEST_CASE("weights on 200 small random networks, against all joint states", "[diagnosis]")
{
    auto dice = brute_force::Dice{99};
    auto compared = 0;
    for (int round = 0; round < 200; ++round)
    {
        INFO("round " << round);
        auto const network = brute_force::random_network(dice);
        auto const evidence = brute_force::random_evidence(network, dice);
        auto const cause = dice.below(network.causes.size());
        auto const all = brute_force::log_odds(network, evidence, cause); // NaN if impossible
        auto const found = weights_of_evidence(network, evidence, cause);
        REQUIRE(found.size() == (std::isnan(all) ? 0 : evidence.size()));
        for (std::size_t i = 0; i < found.size(); ++i)
        {
            CHECK_FALSE(std::isnan(found[i].log_odds));
            auto rest = evidence;
            rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i));
            auto const expected = all - brute_force::log_odds(network, rest, cause);
            if (std::isfinite(expected) && std::abs(all) < 12.0) // beyond, all joint states lose digits in 1 - P
            {
                CHECK_THAT(found[i].log_odds, WithinAbs(expected, 1e-9));
                ++compared;
            }
        }
    }
    CHECK(compared > 200);
}
