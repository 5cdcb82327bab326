// The drawing of causes with their chances and the signs for and against them.
#include "../../src/report/likelihood_drawing.hpp"

#include "report/water_drawn.hpp"

#include <cmath>
#include <limits>

using namespace padwalk;
using Catch::Matchers::WithinAbs;
using report::CauseBar;
using tests::all_words;
using tests::count_kind;
using tests::of_kind;
using tests::read;

namespace
{

std::string svg_of(std::vector<CauseBar> const& causes, report::LikelihoodWords const& words = {})
{
    return report::likelihood_drawing(causes, "l", words).svg;
}

// As the referral makes them, from an assessment.
std::vector<CauseBar> bars(assess::Assessment const& a)
{
    std::vector<CauseBar> out;
    for (auto const& cause : a.causes)
    {
        CauseBar bar{cause.name + " (" + a.items.at(cause.item).name + ")", "likely, 82 %", cause.probability, {}, {}};
        for (auto const& w : cause.speaks_for)
            bar.for_it.push_back({a.findings.at(w.finding).name, w.log_odds});
        for (auto const& w : cause.speaks_against)
            bar.against_it.push_back({a.findings.at(w.finding).name, w.log_odds});
        out.push_back(std::move(bar));
    }
    return out;
}

CauseBar bar(std::string name, double chance)
{
    return {std::move(name),
            "possible, 30 %",
            chance,
            {{"weak sign", 0.5}, {"strong sign", 3}, {"middling sign", 1.5}, {"weakest sign", 0.1}},
            {{"faint doubt", -0.2}, {"great doubt", -4}, {"some doubt", -1}}};
}

CauseBar wordy(int number)
{
    std::string const name = "the bypass of the heater stuck open so that most of the water goes round the exchanger " +
                             std::to_string(number);
    std::string const sign =
        "the gauge of the filter reads more than it did when the filter was clean, by far, " + std::to_string(number);
    return {name, "more likely than not, 55 %", 0.55, {{sign, 2}, {sign, 2}, {sign, 1}}, {{sign, -2}, {sign, -1}}};
}

void check_in_bounds(std::string const& svg)
{
    auto const elements = read(svg);
    tests::check_readable(elements);
    for (auto const& e : elements)
        if (e.name == "rect")
        {
            CHECK(e.number("x") >= 7.9);
            CHECK(e.number("x") + e.number("width") <= 352);
            CHECK(e.number("width") >= 0);
        }
}

} // namespace

TEST_CASE("the causes of every scenario with causes are drawn well-formed, named and large enough to read",
          "[report][likelihood][drawing]")
{
    for (auto const* name : {"cloudy-water-high-cyanurate", "spa-pump-that-grinds", "heater-small-rise-bad-vent"})
    {
        auto const a = tests::assessed(tests::scenario(name));
        REQUIRE_FALSE(a.causes.empty());
        check_in_bounds(svg_of(bars(a)));
    }
}

TEST_CASE("a bar is as long as its chance, and its word stands beside it", "[report][likelihood][drawing]")
{
    auto const elements = read(svg_of({bar("first", 0.5), bar("second", 1), bar("third", 0), bar("fourth", 0.25)}));
    std::vector<double> lengths;
    for (auto const& e : of_kind(elements, "rect", "solid"))
        if (e.number("height") == 13)
            lengths.push_back(e.number("width"));
    REQUIRE(lengths.size() == 4);
    CHECK_THAT(lengths[0], WithinAbs(100, 0.1));
    CHECK_THAT(lengths[1], WithinAbs(200, 0.1));
    CHECK(lengths[2] < 2);
    CHECK_THAT(lengths[3], WithinAbs(50, 0.1));
    std::size_t beside = 0;
    for (auto const& e : elements)
        beside += e.text == "possible, 30 %" && e.number("x") > 208 ? 1U : 0U;
    CHECK(beside == 4);
}

TEST_CASE("the strongest three signs for a cause and two against it stand under it, strongest first, to either side",
          "[report][likelihood][drawing]")
{
    auto const elements = read(svg_of({bar("first", 0.5)}));
    std::vector<std::string> names;
    std::vector<double> lengths, sides;
    for (auto const& e : elements)
    {
        if (e.name == "text" && (e.text.find("sign") != std::string::npos || e.text.find("doubt") != std::string::npos))
            names.push_back(e.text);
        if (e.name == "rect" && e.number("height") == 8)
        {
            lengths.push_back(e.number("width"));
            sides.push_back(e.number("x") < 52 ? -1 : 1);
            CHECK(e.is(e.number("x") < 52 ? "part" : "solid"));
        }
    }
    CHECK(names == std::vector<std::string>{"strong sign", "middling sign", "weak sign", "great doubt", "some doubt"});
    CHECK(sides == std::vector<double>{1, 1, 1, -1, -1});
    REQUIRE(lengths.size() == 5);
    CHECK_THAT(lengths[0] / lengths[3], WithinAbs(3.0 / 4, 0.01)); // the size of the log odds
    CHECK_THAT(lengths[1] / lengths[0], WithinAbs(0.5, 0.01));
    auto const words = all_words(svg_of({bar("first", 0.5)}));
    CHECK(words.find("+ strong sign") != std::string::npos);
    CHECK(words.find("− great doubt") != std::string::npos);
}

TEST_CASE("nobody needs to see the bars: all stands in the description", "[report][likelihood][drawing]")
{
    auto const desc = read(svg_of({bar("the first", 0.5)})).at(2).text;
    CHECK(desc == "The first: possible, 30 %. For it: strong sign; middling sign; weak sign. Against it: great doubt; "
                  "some doubt.");
}

TEST_CASE("one cause, twelve with long names, and a hundred stay on one page, the likeliest with their signs",
          "[report][likelihood][drawing]")
{
    check_in_bounds(svg_of({wordy(1)}));
    for (int const number : {12, 100})
    {
        std::vector<CauseBar> many;
        for (int i = 0; i < number; ++i)
            many.push_back(wordy(i));
        auto const drawing = report::likelihood_drawing(many, "l");
        check_in_bounds(drawing.svg);
        CHECK(drawing.caption.find("the first causes and signs only") != std::string::npos);
        CHECK(all_words(drawing.svg).find("+ ") != std::string::npos);
        CHECK(read(drawing.svg).at(2).text.find("exchanger " + std::to_string(number - 1)) != std::string::npos);
    }
    CHECK(report::likelihood_drawing({wordy(1)}, "l").caption.find("signs only") == std::string::npos);
}

TEST_CASE("a cause without signs says so, and no causes are no drawing", "[report][likelihood][drawing]")
{
    auto const words = all_words(svg_of({{"one that stands alone", "possible, 30 %", 0.3, {}, {}}}));
    CHECK(words.find("No sign here speaks") != std::string::npos);
    check_in_bounds(svg_of({{"one that stands alone", "", 0.3, {}, {}}}));
    CHECK(svg_of({}).empty());
    CHECK(report::likelihood_drawing({}, "l").caption.empty());
}

TEST_CASE("every fixed word of the causes' drawing can be another language's", "[report][likelihood][drawing]")
{
    report::LikelihoodWords words;
    words.title = "T1", words.against = "contra", words.speaks_for = "a favor", words.for_it = "A su favor";
    words.against_it = "En contra", words.nothing = "Sin indicios.", words.caption = "C1", words.cut = "C2";
    std::vector<CauseBar> many;
    for (int i = 0; i < 30; ++i)
        many.push_back({"causa larga", "posible", 0.3, {{"indicio", 1}}, {{"otro", -1}}});
    many.insert(many.begin(), CauseBar{"sola", "posible", 0.3, {}, {}});
    auto const drawing = report::likelihood_drawing(many, "l", words);
    auto const elements = read(drawing.svg);
    CHECK(elements.at(1).text == "T1");
    CHECK(drawing.caption == "C1 C2");
    std::string const all = all_words(drawing.svg) + elements.at(2).text;
    report::LikelihoodWords const english;
    for (auto const& word : {english.title, english.against, english.for_it, english.against_it, english.nothing,
                             english.caption, english.cut, std::string(" for ")})
    {
        INFO(word);
        CHECK(all.find(word) == std::string::npos);
    }
    for (auto const* word : {"contra", "a favor", "Sin indicios.", "A su favor: indicio", "En contra: otro"})
        CHECK(all.find(word) != std::string::npos);
}

TEST_CASE("chances and weights that are no numbers, huge ones and hostile names do the causes' drawing no harm",
          "[report][likelihood][drawing]")
{
    double const none = std::numeric_limits<double>::quiet_NaN(), endless = std::numeric_limits<double>::infinity();
    std::vector<CauseBar> const bad{{tests::nasty, tests::nasty, none, {{tests::nasty, none}}, {{tests::nasty, 1e9}}},
                                    {"b", "x", endless, {{"endless", endless}, {"small", 0.5}}, {{"end", -endless}}},
                                    {"c", "x", -3, {{std::string(4000, 'w'), 1}}, {}},
                                    {"", "", 7, {{"", 0}}, {}}};
    auto const svg = svg_of(bad);
    tests::check_harmless(svg);
    check_in_bounds(svg);
    CHECK(all_words(svg).find("<script>") != std::string::npos);
}
