#include "catch_compat.hpp"

#include "padwalk/report/figures.hpp"
#include "padwalk/report/json.hpp"
#include "report/sample.hpp"

#include <nlohmann/json.hpp>

using namespace padwalk;
using Json = nlohmann::ordered_json;
using tests::code_points;
using tests::lines_of;

namespace
{

std::string caution(std::string_view id)
{
    return id == "electric_shock" ? "Keep out of the water and off wet metal." : "";
}

std::map<std::string, reference::Source> bibliography()
{
    return {{"gum-2008", {"Guide to the expression of uncertainty in measurement", "JCGM", "2008", "read in part"}}};
}

} // namespace

TEST_CASE("the list of figures fits any width", "[report][figures]")
{
    figures::Catalogue catalogue;
    auto second = tests::sample_model();
    second.name = "another_one";
    second.title = "a title of some length that will have to be wrapped where the paper is narrow";
    catalogue.add({tests::sample_model(), second});
    auto const text = report::figure_list(catalogue, 80);
    CHECK(text == "another_one      a title of some length that will have to be wrapped where the\n"
                  "                 paper is narrow\n"
                  "sample_turnover  how long one turnover takes\n");
    for (std::size_t const columns : {32U, 40U, 120U})
        for (auto const& line : lines_of(report::figure_list(catalogue, columns)))
            CHECK(code_points(line) <= columns);
}

TEST_CASE("a figure is explained with all it needs and rests on", "[report][figures]")
{
    auto const model = tests::sample_model();
    auto const text = report::figure_about(model, bibliography(), caution, units::System::us, 90);
    for (auto const* said :
         {"sample_turnover: how long one turnover takes", "Keep out of the water and off wet metal.",
          "t = V / (q · share)", "volume of the water", "20 US gal to 2,000,000 US gal",
          "for example 45 gpm; must be given", "left out: 100 %, because one water on the loop is usual",
          "time for one turnover", "one minute and more", "off by 10 % either way",
          "[gum-2008] Guide to the expression of uncertainty in measurement, JCGM, 2008", "seen: read in part",
          "[not-in-the-list]"})
    {
        INFO(said);
        CHECK(text.find(said) != std::string::npos);
    }
    CHECK(text.find("Keep out of the water") < text.find("Equation"));
    for (std::size_t const columns : {32U, 40U, 80U, 120U})
        for (auto const& line :
             lines_of(report::figure_about(model, bibliography(), caution, units::System::si, columns)))
        {
            INFO(line);
            CHECK(code_points(line) <= columns);
        }
}

TEST_CASE("a figure as text shows inputs, assumptions and intervals", "[report][figures]")
{
    auto const model = tests::sample_model();
    auto const text = report::figure_text(tests::sample_figure(model), units::System::us, 80, caution);
    for (auto const* said : {"16,000 ± 1600 US gal", "45 ± 4 US gpm", "100 % (assumed: one water on the loop is usual)",
                             "360 min (300 to 420)", "slow", "19 times in 20", "Keep out of the water"})
    {
        INFO(said);
        CHECK(text.find(said) != std::string::npos);
    }
    auto const none = report::figure_text(figures::run(model, figures::Inputs()), units::System::us);
    CHECK(none.find("Not computed: needs ") != std::string::npos);
}

TEST_CASE("a figure as a tree has one unit for each output in each system", "[report][figures]")
{
    auto const model = tests::sample_model();
    auto const us =
        Json::parse(report::json_of(report::figure_tree(tests::sample_figure(model), units::System::us), false));
    CHECK(us["figure"] == "sample_turnover");
    CHECK(us["outputs"]["time"]["value"] == 355.5555556);
    CHECK(us["outputs"]["time"]["unit"] == "min");
    CHECK(us["outputs"]["time"]["low"] < us["outputs"]["time"]["value"]);
    CHECK(us["outputs"]["time"]["high"] > us["outputs"]["time"]["value"]);
    CHECK_FALSE(us["outputs"]["turns"].contains("unit"));
    CHECK_FALSE(us["outputs"]["turns"].contains("basis"));
    CHECK(us["outputs"]["chlorine"]["unit"] == "ppm");
    CHECK(us["outputs"]["chlorine"]["basis"] == "Cl2");
    CHECK(us["outputs"]["verdict"] == "slow");
    CHECK(us["assumed"] == Json::parse(R"({"share": "100 %"})"));
    CHECK_FALSE(us.contains("note"));
    CHECK_FALSE(us.contains("error"));
    auto const si =
        Json::parse(report::json_of(report::figure_tree(tests::sample_figure(model), units::System::si), false));
    CHECK(si["outputs"]["time"]["unit"] == "h");
    CHECK(si["outputs"]["chlorine"]["unit"] == "mg/L");

    // A unit does not follow the size of the value: the last unit of the measure's list, whatever it is.
    auto const& inputs = tests::TurnoverIn::declaration().shape();
    CHECK(report::stable_unit(*inputs.find("volume"), units::System::us) == "gal");
    CHECK(report::stable_unit(*inputs.find("volume"), units::System::si) == "m3");
    CHECK(report::stable_unit(*tests::TurnoverOut::declaration().shape().find("turns"), units::System::si).empty());
    CHECK(report::stable_unit(*tests::TurnoverOut::declaration().shape().find("verdict"), units::System::si).empty());
}

TEST_CASE("a figure that was not computed says why in its tree", "[report][figures]")
{
    auto const model = tests::sample_model();
    auto const fast = figures::run(model, figures::Inputs()
                                              .add("volume", tests::reading(units::Measure::volume, 0.1, 0))
                                              .add("flow", tests::reading(units::Measure::volume_flow, 0.1, 0)));
    CHECK(
        report::json_of(report::figure_tree(fast, units::System::us), false) ==
        R"({"figure":"sample_turnover","error":{"message":"a turnover under a minute is outside what this holds for"}})");
}

TEST_CASE("a record that could not be read says all that is wrong with it", "[report][figures]")
{
    auto const model = tests::sample_model();
    try
    {
        (void)figures::run_written(model, report::node_of_json(R"({"volume": "16000 gpm", "flow": 45, "pump": 1})"));
        FAIL("was taken");
    }
    catch (fields::InputProblems const& problems)
    {
        auto const j = Json::parse(report::json_of(report::error_tree("sample_turnover", problems), false));
        CHECK(j["figure"] == "sample_turnover");
        REQUIRE(j["error"]["problems"].size() == 3);
        std::string const first = j["error"]["problems"][0]["message"];
        CHECK(j["error"]["message"] == first.substr(0, first.find("; ")) + " (and 2 more)");
        CHECK(j["error"]["field"] == "volume");
        CHECK(j["error"]["problems"][0]["column"] == 13);
        CHECK(j["error"]["problems"][1]["field"] == "flow");
        CHECK(j["error"]["problems"][1]["message"].get<std::string>().find("has no unit") != std::string::npos);
        CHECK(j["error"]["problems"][2]["message"].get<std::string>().find("unknown key 'pump'") == 0);
        CHECK_FALSE(j["error"]["advice"].get<std::string>().empty());
    }
}
