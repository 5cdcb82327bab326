// The drawing of where a heater's heat goes, read back from its page; its table, its terminal text and its JSON.
#include "assessed.hpp"
#include "catch_compat.hpp"
#include "padwalk/report/html.hpp"
#include "padwalk/report/json.hpp"
#include "padwalk/report/text.hpp"
#include "report/drawing_checks.hpp"
#include "report/layout.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

using namespace padwalk;
using Json = nlohmann::ordered_json;

namespace
{

using Elements = std::vector<tests::Element>;

heating::HeatBalance balance(double water, double stack, double doubt, double input = 100e3)
{
    auto const power = [](double v) { return units::of_si<units::Power>(v); };
    auto const number = [](double v) { return units::Number::from_value(v); };
    heating::HeatBalance b;
    b.input = power(input);
    b.jacket = power(2e3);
    if (water > 0)
        b.water = power(water);
    if (stack > 0)
        b.stack = power(stack);
    if (b.water && b.stack)
    {
        double const gap = input - water - stack - 2e3;
        b.unexplained = power(gap);
        b.doubt = power(doubt);
        b.apart = number(gap / doubt);
    }
    return b;
}

assess::Assessment with(heating::HeatBalance const& b, std::string const& words = "it closes")
{
    auto a = tests::assessed("heaters:\n  h: {energy: natural_gas, input: 400 kBtu/h}\n");
    assess::HeaterEntry entry;
    entry.item = a.items.size() - 1;
    entry.balance = b;
    entry.balance_words = words;
    a.heaters = {entry};
    return a;
}

Elements drawn(assess::Assessment const& a, units::System system = units::System::us)
{
    auto const svgs = tests::drawings_of(report::as_html(a, system, tests::layout()));
    REQUIRE(svgs.size() == 1);
    return tests::XmlReader(svgs[0]).elements();
}

Elements bars(Elements const& all)
{
    Elements out;
    for (auto const& e : all)
        if (e.name == "rect")
            out.push_back(e);
    return out;
}

bool says(Elements const& all, std::string const& words)
{
    for (auto const& e : all)
        if (e.name == "text" && e.text.find(words) != std::string::npos)
            return true;
    return false;
}

} // namespace

TEST_CASE("every drawing of a balance is well-formed, named, in bounds, and its texts are apart", "[report][heater]")
{
    for (auto const& b : {balance(80e3, 16e3, 4e3), balance(40e3, 16e3, 4e3), balance(120e3, 16e3, 4e3),
                          balance(80e3, 0, 0), balance(0, 16e3, 0), balance(1, 1, 90e3), balance(99e3, 60e3, 1e3),
                          balance(4e2, 1e2, 10, 5e2), balance(8e5, 2e5, 3e5, 1.2e6)})
        for (auto const system : {units::System::us, units::System::si})
        {
            auto const elements = drawn(with(b), system);
            tests::check_readable(elements);
            CHECK(elements[1].text == "Where the heat goes");
            std::string const& box = elements.front().attributes.at("viewBox");
            double const width = 360, height = std::stod(box.substr(box.rfind(' ')));
            for (auto const& e : bars(elements))
            {
                CHECK(e.number("x") >= 0);
                CHECK(e.number("width") > 0);
                CHECK(e.number("x") + e.number("width") <= width + 0.2);
                CHECK(e.number("y") + e.number("height") <= height);
            }
        }
}

TEST_CASE("each bar of a balance starts where the one above ends, and is as long as its heat", "[report][heater]")
{
    auto const all = bars(drawn(with(balance(60e3, 20e3, 5e3))));
    REQUIRE(all.size() == 5); // gas, water, vent, casing, what is left over
    double const scale = all[0].number("width") / 100e3;
    CHECK(std::abs(all[1].number("width") - 60e3 * scale) < 0.3);
    CHECK(std::abs(all[2].number("width") - 20e3 * scale) < 0.3);
    CHECK(std::abs(all[1].number("x") - all[0].number("x")) < 0.2);
    for (std::size_t i = 2; i < all.size(); ++i)
        CHECK(std::abs(all[i].number("x") - all[i - 1].number("x") - all[i - 1].number("width")) < 0.3);
    CHECK(std::abs(all[4].number("x") + all[4].number("width") - all[0].number("x") - all[0].number("width")) < 0.3);
}

TEST_CASE("what does not close is told by word and dash, not by colour alone", "[report][heater]")
{
    auto const open = drawn(with(balance(40e3, 16e3, 4e3)));
    CHECK(says(open, "Not found"));
    CHECK(bars(open).back().is("alert"));
    auto const closed = drawn(with(balance(80e3, 16e3, 4e3)));
    CHECK_FALSE(bars(closed).back().is("alert"));
    auto const more = drawn(with(balance(120e3, 16e3, 4e3)));
    CHECK(says(more, "More than went in"));
    CHECK(says(drawn(with(balance(80e3, 0, 0))), "Not measured"));
}

TEST_CASE("a balance stands in the terminal and in JSON too, and its words as text", "[report][heater]")
{
    auto const a = with(balance(40e3, 16e3, 4e3), "<b>heat</b> is missing");
    auto const text = report::as_text(a, {units::System::si});
    CHECK(text.find("does not close") != std::string::npos);
    CHECK(text.find("not found 42 ± 8 kW") != std::string::npos);
    auto const html = report::as_html(a, units::System::us, tests::layout());
    CHECK(html.find("<b>heat") == std::string::npos);
    auto const json = Json::parse(report::as_json(a, units::System::si));
    auto const& b = json.at("heaters").at(0).at("balance");
    CHECK(b.at("unexplained").at("value") == 42);
    CHECK(b.at("unexplained").at("plus_minus") == 8);
    CHECK(b.at("water").at("unit") == "kW");
}
