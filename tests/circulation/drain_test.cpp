#include "padwalk/circulation/drain.hpp"

#include "catch_compat.hpp"
#include "data_folder.hpp"
#include "padwalk/circulation/filter.hpp"
#include "padwalk/circulation/models.hpp"
#include "padwalk/figures/catalogue.hpp"
#include "written.hpp"

using namespace padwalk;
using namespace padwalk::circulation;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using tests::in;
using tests::number;
using tests::q;

namespace
{

// The first part that the text does not hold, with the text; empty if it holds them all.
std::string missing(std::string const& text, std::initializer_list<char const*> parts)
{
    for (char const* part : parts)
        if (text.find(part) == std::string::npos)
            return std::string("'") + part + "' is not in '" + text + "'";
    return {};
}

figures::Figure run(std::string const& model, std::initializer_list<std::pair<std::string, std::string>> entries)
{
    static std::vector<figures::Model> const models = circulation::models(tests::data_from_folder());
    return figures::run_written(tests::find(models, model), tests::record(entries));
}

std::string words(figures::Figure const& figure, char const* output = "in_words")
{
    INFO(figure.why_not);
    REQUIRE(figure.computed());
    return figure.output(output).words;
}

FilterLoad load(char const* clean, char const* now, char const* clean_speed, char const* speed)
{
    return filter_loading({q<units::GaugePressure>(clean), q<units::GaugePressure>(now),
                           q<units::RotationSpeed>(clean_speed), q<units::RotationSpeed>(speed)},
                          q<units::Pressure>("8 psi"), number(2));
}

} // namespace

TEST_CASE("with one of two drains blocked the other carries the whole flow, as Utah R392-302-21 asks of it",
          "[circulation]")
{
    auto const flow = cover_flow({q<units::VolumeFlow>("100 gpm"), number(2), q<units::VolumeFlow>("120 gpm")});
    CHECK_THAT(in(flow.each, "gpm"), WithinRel(50.0, 1e-12));
    CHECK_THAT(in(*flow.each_one_blocked, "gpm"), WithinRel(100.0, 1e-12));
    CHECK_THAT(flow.of_rating_one_blocked->value(), WithinRel(100 / 120.0, 1e-12));
    auto const three = cover_flow({q<units::VolumeFlow>("90 gpm"), number(3), std::nullopt});
    CHECK_THAT(in(*three.each_one_blocked, "gpm"), WithinRel(45.0, 1e-12));
    CHECK(!three.of_rating);
    auto const single = cover_flow({q<units::VolumeFlow>("90 gpm"), number(1), q<units::VolumeFlow>("120 gpm")});
    CHECK(!single.each_one_blocked);
    CHECK_THROWS_AS(cover_flow({q<units::VolumeFlow>("90 gpm"), number(1.5), std::nullopt}), figures::NotComputed);
}

TEST_CASE("a missing, broken, expired or unlisted cover closes the water whatever its rating", "[circulation]")
{
    for (std::string const state : {"missing", "broken or loose", "expired", "not listed"})
    {
        INFO(state);
        auto const figure = run("drain_cover_flow", {{"flow", "10 gpm"},
                                                     {"outlets", "2"},
                                                     {"cover_rating", "200 gpm"},
                                                     {"cover_state", state},
                                                     {"unblockable", "yes"}});
        CHECK(missing(words(figure), {"close the water: pump off, everyone out"}) == "");
    }
    CHECK(missing(words(run("drain_cover_flow", {{"flow", "10 gpm"}, {"outlets", "2"}})),
                  {"no flow rating", "close the water"}) == "");
}

TEST_CASE("drain covers in words by their share of the rating", "[circulation]")
{
    auto const said = [](char const* flow, char const* outlets, char const* unblockable)
    {
        return words(run("drain_cover_flow", {{"flow", flow},
                                              {"outlets", outlets},
                                              {"cover_rating", "100 gpm"},
                                              {"cover_state", "sound"},
                                              {"unblockable", unblockable}}));
    };
    CHECK(said("90 gpm", "2", "no") == "within the rating, with one outlet blocked too");
    CHECK(missing(said("150 gpm", "2", "no"), {"with one outlet blocked", "close the water"}) == "");
    CHECK(missing(said("250 gpm", "2", "no"), {"more flow than", "close the water"}) == "");
    CHECK(missing(said("90 gpm", "1", "no"), {"whole suction", "licensed pool contractor"}) == "");
    CHECK(missing(said("90 gpm", "1", "yes"), {"within the rating of a single outlet"}) == "");
    CHECK(missing(said("110 gpm", "1", "yes"), {"close the water"}) == "");
    auto const unseen = run("drain_cover_flow", {{"flow", "90 gpm"}, {"outlets", "2"}, {"cover_rating", "100 gpm"}});
    CHECK(missing(words(unseen), {"look whether each cover is whole"}) == "");
    CHECK(missing(words(unseen, "published"), {"Utah public pools", "APSP-16", "not exceeded (from memory)"}) == "");
    CHECK(unseen.model->cautions == std::vector<std::string>{"suction_entrapment"});
}

TEST_CASE("filter gauge at another speed - the square law of the Hydraulic Institute's 10 % speed cut", "[circulation]")
{
    // At 90 % speed the heads 213, 206 and 117 ft become 173, 167 and 95: a filter no dirtier shows no rise.
    CHECK_THAT(in(load("21.3 psi", "17.3 psi", "1000 rpm", "900 rpm").rise_at_clean_speed, "psi"), WithinAbs(0, 0.1));
    auto const dirty = load("12 psi", "15 psi", "3000 rpm", "2400 rpm");
    CHECK_THAT(in(dirty.rise, "psi"), WithinRel(3.0, 1e-12));
    CHECK_THAT(in(dirty.rise_at_clean_speed, "psi"), WithinRel(15 / 0.64 - 12, 1e-12));
    CHECK_THAT(dirty.of_cleaning_rise.value(), WithinRel((15 / 0.64 - 12) / 8, 1e-12));
    CHECK_THROWS_AS(load("12 psi", "15 psi", "3000 rpm", "1400 rpm"), figures::NotComputed);
    CHECK_THROWS_AS(load("0 psi", "15 psi", "3000 rpm", "3000 rpm"), figures::NotComputed);
}

TEST_CASE("filter_loading as written, where 10 psi over clean is due by the US federal advice of 5 to 10",
          "[circulation]")
{
    auto const at = [](char const* now) { return run("filter_loading", {{"clean_gauge", "12 psi"}, {"gauge", now}}); };
    CHECK(missing(words(at("22 psi")),
                  {"due for cleaning; the pool service", "never open or loosen a filter under pressure"}) == "");
    CHECK(missing(words(at("18 psi")), {"cleaning is near"}) == "");
    CHECK(words(at("14 psi")) == "not due for cleaning by its gauge");
    CHECK(words(at("11.5 psi")) == "not due for cleaning by its gauge");
    CHECK(missing(words(at("9 psi")), {"lower than when it was clean"}) == "");
    CHECK(missing(words(at("22 psi"), "published"),
                  {"US federal advice: 5 to 10 psi", "operator courses: 8 to 10 psi", "(from memory)"}) == "");
    auto const due = at("20 psi");
    auto const& share = due.output("share_of_cleaning_rise");
    CHECK_THAT(*share.value, WithinRel(1.0, 1e-12));
    CHECK(share.low < 0.75); // 8 ± 3 psi
    CHECK(share.high > 1.4);
    CHECK(run("filter_loading", {{"clean_gauge", "12 psi"}, {"gauge", "20 psi"}, {"speed", "3000 rpm"}})
              .why_not.find("one speed alone says nothing") == 0);
}

TEST_CASE("turnover, velocity and filter rate say what published codes ask, and whose", "[circulation]")
{
    auto const seven = run("turnover", {{"volume", "21000 gal"}, {"flow", "50 gpm"}, {"water", "public pool"}});
    CHECK(missing(words(seven, "published"),
                  {"Montana: at most 6 h (not kept)", "Pima County, Arizona: at most 8 h (kept)",
                   "goes by the mean depth (not given)"}) == "");
    auto const shallow = run("turnover", {{"volume", "12000 gal"},
                                          {"flow", "50 gpm"}, // 4 h
                                          {"water", "public pool"},
                                          {"mean_depth", "2 ft"}});
    CHECK(missing(words(shallow, "published"), {"classes A, B and C: at most 3 h (not kept)"}) == "");
    auto const spa = run("turnover", {{"volume", "400 gal"}, {"flow", "16 gpm"}, {"water", "public spa"}});
    CHECK(words(spa, "published") == "Iowa: at most 30 min (kept); Montana: at most 30 min (kept); Pima County, "
                                     "Arizona: at most 30 min (kept)");
    auto const fast = [](char const* flow)
    {
        return words(run("turnover", {{"volume", "12000 gal"}, {"flow", flow}, {"water", "residential pool"}}),
                     "published");
    };
    CHECK(fast("36 gpm") == "California energy code: no faster than 6 h, or 36 US gpm where that is more (kept)");
    CHECK(missing(fast("40 gpm"), {"(not kept)"}) == "");
    CHECK(words(run("turnover", {{"volume", "12000 gal"}, {"flow", "36 gpm"}}), "published").empty());

    auto const pipe = words(run("pipe_velocity", {{"flow", "73 gpm"}, {"bore", "2.058 in"}, {"side", "suction"}}),
                            "published"); // 7.04 ft/s
    CHECK(missing(pipe, {"Nevada public pools: 6 ft/s (not kept)",
                         "American standard for residential pools: 8 ft/s (kept, from memory)"}) == "");
    auto const rate = words(run("filter_rate", {{"flow", "60 gpm"}, {"area", "4 ft2"}, {"medium", "sand"}}),
                            "published"); // 15 gpm/ft2
    CHECK(missing(rate, {"Georgia, high-rate, bed of 15 in or more: 15 US gpm/ft² (kept)",
                         "Georgia, high-rate, bed under 15 in: 12 US gpm/ft² (not kept)"}) == "");
    CHECK(rate.find("cartridge") == std::string::npos);
}
