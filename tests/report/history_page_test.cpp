// The page of a log and its pictures, read back from the page that they stand in.
#include "assessed.hpp"
#include "catch_compat.hpp"
#include "padwalk/report/history.hpp"
#include "padwalk/report/json.hpp"
#include "report/drawing_checks.hpp"
#include "report/layout.hpp"

#include <nlohmann/json.hpp>

#include <set>

using namespace padwalk;

namespace
{

using Files = std::vector<std::pair<std::string, std::string>>;

std::string visit(std::string const& date, std::string const& test, std::string const& gauge,
                  std::string const& more = {})
{
    return "on: " + date + "\nproperty: here\n" + more + "waters:\n  pool: {kind: pool, tests: [{kit: drops" +
           (test.empty() ? "" : ", " + test) + "}]}\nloops:\n  l: {filter: {" +
           (gauge.empty() ? std::string() : "gauge: " + gauge) + "}}\n";
}

assess::History log_of(Files files)
{
    return assess::history(std::move(files), tests::engine());
}

assess::History const& season()
{
    static auto const log = log_of(
        {{"1.yaml", visit("2026-05-01", "ph: 7.4, free_chlorine: 3 ppm, cyanurate: 30 ppm", "12 psi")},
         {"2.yaml", visit("2026-05-15", "ph: 7.5, free_chlorine: 2.4 ppm, cyanurate: 50 ppm", "16 psi", "notes: a\n")},
         {"3.yaml", visit("2026-05-29", "free_chlorine: 1.2 ppm, cyanurate: 75 ppm", "21 psi")},
         {"4.yaml", visit("2026-06-12", "ph: 8.1, free_chlorine: 0.4 ppm, cyanurate: 98 ppm", "12 psi", "notes: b\n")},
         {"5.yaml",
          visit("2026-06-13", "ph: 8.2, free_chlorine: 0.2 ppm, cyanurate: 99 ppm", "12 psi", "notes: c\n")}});
    return log;
}

std::string flat(std::string text)
{
    for (std::size_t at = text.find("\u00a0"); at != std::string::npos; at = text.find("\u00a0", at))
        text.replace(at, 2, " ");
    for (auto& c : text)
        c = c == '\n' ? ' ' : c;
    for (std::size_t at = text.find("  "); at != std::string::npos; at = text.find("  ", at))
        text.erase(at, 1);
    return text;
}

bool has(std::string const& text, std::string const& what)
{
    return text.find(what) != std::string::npos;
}

} // namespace

TEST_CASE("log: every picture can be read, in both systems of units, with names that stand once on the page")
{
    auto several = season();
    several.properties.push_back(several.properties.front());
    several.properties.back().name = "there";
    for (auto const system : {units::System::us, units::System::si})
    {
        auto const html = report::as_html(several, system, tests::layout());
        auto const drawings = tests::drawings_of(html);
        CHECK(drawings.size() == 8);
        std::set<std::string> ids;
        for (auto const& svg : drawings)
        {
            INFO(svg.substr(0, 300));
            auto const elements = tests::XmlReader(svg).elements();
            tests::check_readable(elements);
            CHECK(ids.insert(elements.at(1).attributes.at("id")).second);
        }
    }
}

TEST_CASE("log: what lies outside is filled, bars are drawn, the wanted range is named, marks have their numbers")
{
    auto const drawings = tests::drawings_of(report::as_html(season(), units::System::us, tests::layout()));
    auto const picture =
        std::find_if(drawings.begin(), drawings.end(), [](auto const& svg) { return has(svg, "pH (pool) over time"); });
    REQUIRE(picture != drawings.end());
    auto const elements = tests::XmlReader(*picture).elements();
    auto const count = [&](std::string const& name, std::string const& kind)
    {
        return std::count_if(elements.begin(), elements.end(),
                             [&](tests::Element const& e) { return e.name == name && e.is(kind); });
    };
    CHECK(count("circle", "part") == 2);
    CHECK(count("circle", "alert") == 2);
    CHECK(count("rect", "band") == 1);
    CHECK(count("polyline", "taken") == 2); // not over the visit without it
    std::string words;
    for (auto const& e : elements)
        words += e.name == "text" ? e.text + "|" : "";
    CHECK(has(words, "wanted|"));
    CHECK(has(words, "2026-05-01|"));
    CHECK(has(words, "2026-06-13|"));
    CHECK(has(elements.at(2).text, "2026-06-12: 8.1"));
    CHECK(has(flat(elements.at(2).text), "2026-06-13: 8.2 ± 0.2, above."));
}

TEST_CASE("log: text tells the trend, the band, the gap and no zero for it, at 80 columns and at 40")
{
    for (std::size_t const columns : {std::size_t{80}, std::size_t{40}})
    {
        auto const text = report::as_text(season(), {units::System::us, columns, false, report::Told::all});
        std::size_t start = 0;
        for (std::size_t end = text.find('\n'); end != std::string::npos; end = text.find('\n', start))
        {
            std::string const line = text.substr(start, end - start);
            INFO(line);
            CHECK(std::count_if(line.begin(), line.end(),
                                [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }) <=
                  static_cast<std::ptrdiff_t>(columns));
            start = end + 1;
        }
        auto const said = flat(text);
        CHECK(has(said, "Cyanurate (pool): 5 values"));
        CHECK(has(said, "rises by"));
        CHECK(has(said, "2026-05-29: not taken"));
        CHECK(has(said, "pH (pool): 4 values, none at 1 dated visit"));
        CHECK(has(said, "no trend that its doubt would show")); // of the gauge, which was cleaned
    }
}

TEST_CASE("log: the JSON gives values in their unit, a gap as a visit and null for what is not known")
{
    auto const tree = nlohmann::json::parse(report::json_of(report::history_tree(season(), units::System::us), true));
    bool found = false;
    for (auto const& series : tree["properties"][0]["series"])
        if (series["label"] == "ph")
        {
            found = true;
            CHECK(series["gaps"] == nlohmann::json::array({2}));
            CHECK(series["values"].size() == 4);
            CHECK(series["values"][3]["side"] == "above");
            CHECK(series["wanted"]["high"].is_number());
        }
    CHECK(found);
    CHECK(tree["properties"][0]["events"][0]["words"] == "a");
    CHECK(tree["not_read"].empty());
}
