#include "padwalk/diagnosis/inference.hpp"

#include "brute_force.hpp"
#include "catch_compat.hpp"

#include <limits>
#include <string>
#include <vector>

using namespace padwalk::diagnosis;
using brute_force::two_causes;

namespace
{

constexpr auto infinity = std::numeric_limits<double>::infinity();

template <class Action> std::string complaint_of(Action action)
{
    try
    {
        action();
    }
    catch (NetworkProblem const& problem)
    {
        return problem.what();
    }
    return "no complaint";
}

} // namespace

TEST_CASE("a network that makes no sense, against the whole message", "[diagnosis]")
{
    auto const nan = std::numeric_limits<double>::quiet_NaN();
    auto const network =
        Network{{{"scale", 1.2}, {"air", nan}},
                {{"noise", -0.5, {{0, 0.5}, {0, 0.4}, {0, 0.3}}}, {"bubbles", 0.1, {{2, 0.5}, {1, 1.5}, {0, nan}}}}};
    CHECK(complaint_of([&] { check(network); }) ==
          "causes[0] 'scale': the prior is 1.2, outside 0 to 1\n"
          "causes[1] 'air': the prior is not a number\n"
          "findings[0] 'noise': the leak is -0.5, outside 0 to 1\n"
          "findings[0] 'noise': parent 'scale' is listed more than once\n"
          "findings[1] 'bubbles': a parent is cause 2, but there are 2 causes, counted from 0\n"
          "findings[1] 'bubbles': the weight of parent 'air' is 1.5, outside 0 to 1\n"
          "findings[1] 'bubbles': the weight of parent 'scale' is not a number");
    CHECK(complaint_of([&] { (void)posterior(network, {}); }) == complaint_of([&] { check(network); }));
    CHECK(complaint_of([] { check(two_causes()); }) == "no complaint");
}

TEST_CASE("a question that makes no sense, against the whole message", "[diagnosis]")
{
    auto const network = two_causes();
    auto const evidence = std::vector<Evidence>{seen(3), {0, -1.0, 0.5}, {1, infinity, 0.5}};
    CHECK(complaint_of([&] { (void)posterior(network, evidence); }) ==
          "evidence on finding 3, but there are 3 findings, counted from 0\n"
          "evidence on finding 'both': the likelihoods -1 if present and 0.5 if absent must be finite and at least "
          "0\n"
          "evidence on finding 'of a': the likelihoods inf if present and 0.5 if absent must be finite and at least "
          "0");
    CHECK(complaint_of([&] { (void)weights_of_evidence(network, {}, 2); }) ==
          "asked about cause 2, but there are 2 causes, counted from 0");
    CHECK(complaint_of([] { (void)likely(4, 1.5); }) ==
          "evidence on finding 4: the probability is 1.5, outside 0 to 1");
}
