// The page that sets two visits side by side.
#include "assessed.hpp"
#include "catch_compat.hpp"
#include "padwalk/report/comparison.hpp"
#include "padwalk/report/json.hpp"
#include "report/layout.hpp"

#include <nlohmann/json.hpp>

using namespace padwalk;

namespace
{

struct Two
{
    assess::Assessment earlier, later;
    assess::Comparison comparison;

    Two(std::string const& then, std::string const& now)
        : earlier(tests::assessed("on: 2026-05-01\nproperty: here\n" + then)),
          later(tests::assessed("on: 2026-06-01\nproperty: here\n" + now)), comparison(assess::compare(earlier, later))
    {
    }
    [[nodiscard]] report::ComparedVisits visits() const { return {comparison, earlier, later}; }
    [[nodiscard]] std::string text(units::System system = units::System::us) const
    {
        return flat(report::as_text(visits(), {system, 80, false, report::Told::all}));
    }

    static std::string flat(std::string text)
    {
        for (std::size_t at = text.find("\u00a0"); at != std::string::npos; at = text.find("\u00a0", at))
            text.replace(at, 2, " ");
        for (auto& c : text)
            c = c == '\n' ? ' ' : c;
        for (std::size_t at = text.find("  "); at != std::string::npos; at = text.find("  ", at))
            text.erase(at, 1);
        return text;
    }
};

bool has(std::string const& text, std::string const& what)
{
    return text.find(what) != std::string::npos;
}

std::string filter(std::string const& rest)
{
    return "loops:\n  l:\n    suction_gauge: -5 inHg ± 1 inHg\n    filter: {" + rest + "}\n";
}

} // namespace

TEST_CASE("two visits: readings side by side in the unit of the value, with how many doubts they lie apart")
{
    Two const two(filter("gauge: 12 psi ± 1 psi, clean_gauge: 10 psi ± 1 psi, area: 100 ft2 ± 5 ft2"),
                  "loops:\n  l:\n    suction_gauge: -9 inHg ± 1 inHg\n    filter: {gauge: 20 psi ± 1 psi, clean_gauge: "
                  "10.5 psi ± 1 psi, media: sand}\n");
    auto const text = two.text();
    // 8 psi apart, 0.71 psi of doubt: 11 doubts; ± is two of them, 1.4
    CHECK(has(text, "Gauge (filter of l): then 12.0 ± 1.0 psi; now 20.0 ± 1.0 psi; up by 8.0 ± 1.4 psi, 11 doubts"));
    CHECK(has(text, "deeper by 4.0 ± 1.4 inHg"));
    CHECK(has(text, "Clean gauge (filter of l): then 10.0 ± 1.0 psi; now 10.5 ± 1.0 psi; agrees within doubt"));
    CHECK(has(text, "now not taken; not taken this time"));
    CHECK(has(text, "then not taken; now sand; not taken then"));
    CHECK(has(two.text(units::System::si), "up by 55 ± 10 kPa, 11 doubts"));
}

TEST_CASE("two visits: what is unsafe now and what was and was not looked at stand first, with what to do")
{
    std::string const missing = "loops:\n  l: {drains: {main: {noticed: [cover missing]}}}\n";
    Two const left(missing, "loops:\n  l: {flow: 40 gpm}\n");
    auto const text = left.text();
    CHECK(text.find("Danger: act on this first") < text.find("In short"));
    CHECK(has(text, "stood at the earlier visit; nobody looked this time, so it stands"));
    CHECK(has(text, "At once: "));
    auto const html = report::as_html(left.visits(), units::System::us, tests::layout());
    CHECK(html.find("id=\"danger\"") < html.find("id=\"answer\""));
    Two const settled(missing, "loops:\n  l: {drains: {main: {noticed: [{not_seen: cover missing}]}}}\n");
    CHECK_FALSE(has(settled.text(), "Danger: act on this first"));
    CHECK(has(settled.text(), "resolved; looked for and not seen"));
}

TEST_CASE("two visits: the JSON keeps its unit in both columns and in the change")
{
    Two const two(filter("gauge: 12 psi ± 1 psi"), filter("gauge: 20 psi ± 1 psi"));
    auto const tree =
        nlohmann::json::parse(report::json_of(report::comparison_tree(two.comparison, units::System::us), true));
    bool found = false;
    for (auto const& r : tree["readings"])
        if (r["label"] == "gauge")
        {
            found = true;
            CHECK(r["state"] == "changed");
            CHECK(r["then"]["unit"] == r["now"]["unit"]);
            CHECK(std::abs(r["change"]["by"].get<double>() -
                           (r["now"]["value"].get<double>() - r["then"]["value"].get<double>())) < 1e-6);
            CHECK(std::abs(r["change"]["doubts"].get<double>() - 8 / std::sqrt(0.5)) < 1e-6);
            CHECK(tree["items"][r["item"].get<std::size_t>()]["name"] == "filter of l");
        }
    CHECK(found);
    for (auto const* key :
         {"alarms", "open", "new", "resolved", "causes", "other_found", "figures", "findings", "remarks"})
        CHECK(tree.contains(key));
}

TEST_CASE("two visits: a temperature's change is told in degrees of the value, not as a temperature")
{
    Two const two("waters:\n  pool: {temperature: 80 degF ± 1 degF}\n",
                  "waters:\n  pool: {temperature: 90 degF ± 1 degF}\n");
    CHECK(has(two.text(), "up by 10.0 ± 1.4 °F"));
}
