// The shell's section with what goes through it and the level on it, read back from its page; its terminal text and
// its JSON.
#include "assessed.hpp"
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

std::string history(std::vector<std::string> const& drops, std::string const& more = "pump: off, fill: off")
{
    std::string out = "level_history: [";
    for (std::size_t i = 0; i < drops.size(); ++i)
        out += std::string(i > 0 ? ", " : "") + "{at: 2026-06-" + std::to_string(i + 10) + " 08:00, drop: " + drops[i] +
               " in, " + more + "}";
    return out + "]";
}

std::string fitting(std::string const& kind, std::string const& depth, std::string const& name = "")
{
    return "{kind: " + kind + ", depth: " + depth + (name.empty() ? "" : ", name: " + name) + "}";
}

assess::Assessment pool(std::string const& level, std::vector<std::string> const& fittings,
                        std::string const& more = "")
{
    std::string listed;
    for (auto const& f : fittings)
        listed += (listed.empty() ? "" : ", ") + f;
    return tests::assessed("air_temperature: 75 degF\nhumidity: 50 %\nwind: 2 mph\nwaters:\n  pool: {kind: pool, area: "
                           "400 ft2, temperature: 80 degF, " +
                           level + ", fittings: [" + listed + "]" + more + "}\n");
}

std::vector<std::string> const stopped{"0", "1.9", "3.2", "3.9", "4.2", "4.4", "4.6"},
    falling{"0", "1.4", "2.8", "4.2"};
std::vector<std::string> const usual{fitting("skimmer", "4 in"), fitting("tile_line", "2.5 in"),
                                     fitting("return", "13 in"), fitting("light", "2 ft", "deep end light"),
                                     fitting("drain", "66 in")};

std::vector<std::string> crowd(std::size_t count)
{
    static std::vector<std::string> const kinds{"skimmer",      "tile_line", "light", "return",
                                                "cleaner_line", "step",      "drain"};
    std::vector<std::string> out;
    for (std::size_t i = 0; i < count; ++i)
        out.push_back(fitting(kinds[i % kinds.size()], std::to_string(2 + i / 3) + " in",
                              "the one beside the steps at the far end no " + std::to_string(i)));
    return out;
}

std::vector<assess::Assessment> const& many()
{
    static std::vector<assess::Assessment> const list{
        pool(history(stopped), usual),
        pool(history(falling), usual),
        pool(history({"0", "0.3"}), {fitting("light", "18 in")}),
        pool(history({"0", "0.2", "0.4", "0.6"}), usual),
        pool(history({"0", "1.4", "2.8", "4.2"}), {fitting("drain", "8 ft"), fitting("drain", "8 ft", "second drain"),
                                                   fitting("drain", "5 ft"), fitting("drain", "5 ft", "spa drain")}),
        pool(history({"0", "-1", "-1.5"}), {fitting("tile_line", "-1 in"), fitting("skimmer", "3 in")}),
        pool(history({"0", "20", "40", "50"}),
             {fitting("return", "12 in"), fitting("light", "50 in"), fitting("step", "20 in")}),
        pool(history(stopped), crowd(9)),
        pool(history(stopped), crowd(31)),
        pool(history(stopped), {fitting("skimmer", "4 in ± 3 in"), fitting("skimmer", "4 in", "'<b>&'"),
                                fitting("step", "4 in"), fitting("light", "4.1 in")}),
        pool("bucket_test: {pool_drop: 1.5 in, bucket_drop: 0.25 in, elapsed: 24 h, pump: off, fill: off}", usual),
        pool(history(falling, "pump: off, fill: off") + ", bucket_test: {pool_drop: 0.4 in, bucket_drop: 0.2 in, "
                                                        "elapsed: 24 h, pump: off, fill: off}",
             usual)};
    return list;
}

Elements section(assess::Assessment const& a, units::System system = units::System::us)
{
    auto const svgs = tests::drawings_of(report::as_html(a, system, tests::layout()));
    REQUIRE(svgs.size() == 2);
    return tests::XmlReader(svgs[1]).elements();
}

std::string words(Elements const& elements)
{
    std::string out;
    for (auto const& e : elements)
        if (e.name == "text")
            out += e.text + " ";
    for (std::size_t at = out.find("\u00a0"); at != std::string::npos; at = out.find("\u00a0", at))
        out.replace(at, 2, " ");
    return out;
}

constexpr double axis = 40, face = 186, outside = 210;

/// Heights of the dots on the wall and in the floor.
std::vector<double> dots(Elements const& elements)
{
    std::vector<double> out;
    for (auto const& e : elements)
        if (e.name == "circle" && e.is("solid"))
            out.push_back(e.number("cy"));
    return out;
}

double height_of_level(Elements const& elements, bool last)
{
    for (auto const& e : elements)
        if (e.name == "polyline" && e.is("line") && e.is("taken") != last)
            return tests::points_of(e).front().second;
    return -1;
}

double height_of_text(Elements const& elements, std::string const& text)
{
    for (auto const& e : elements)
        if (e.name == "text" && e.text == text)
            return e.number("y");
    return -1;
}

bool has(std::string const& text, std::string const& part)
{
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("every section of a shell is well-formed, named, in bounds, and its texts are apart and off the wall",
          "[report][level]")
{
    for (std::size_t n = 0; n < many().size(); ++n)
        for (auto const system : {units::System::us, units::System::si})
        {
            INFO("case " << n);
            auto const elements = section(many()[n], system);
            tests::check_readable(elements);
            CHECK(elements[1].text == "The shell in section");
            CHECK(elements[0].attributes.at("aria-labelledby") == "level-section-1-title level-section-1-says");
            double floor = 0;
            for (auto const& e : elements)
                if (e.name == "polyline" && e.is("pipe"))
                    floor = std::max(floor, tests::points_of(e).front().second);
            for (auto const& text : tests::texts_of(elements))
                if (text.top > 46 && text.bottom < floor)
                {
                    INFO(text.what);
                    CHECK((text.right <= face || text.left >= outside));
                }
        }
}

TEST_CASE("a shell has no section where no depth was measured", "[report][level]")
{
    auto const a = pool(history(stopped), {});
    CHECK(tests::drawings_of(report::as_html(a, units::System::us, tests::layout())).size() == 1);
}

TEST_CASE("what goes through the wall stands at its depth on the scale of the levels", "[report][level]")
{
    auto const elements = section(many()[0]);
    auto const at = dots(elements); // tile line, skimmer, return, light, drain
    REQUIRE(at.size() == 5);
    double const start = height_of_level(elements, false), last = height_of_level(elements, true);
    double const inch = (last - start) / 4.6;
    CHECK(inch > 5);
    CHECK(std::abs(at[0] - start - 2.5 * inch) < 0.2);
    CHECK(std::abs(at[1] - start - 4 * inch) < 0.2);
    CHECK(std::abs(at[2] - start - 13 * inch) < 0.5);
    // The same depths in centimetres, read off the scale's own numbers.
    auto const si = section(many()[0], units::System::si);
    double const twenty = height_of_text(si, "20") - height_of_text(si, "0");
    REQUIRE(twenty > 0);
    CHECK(std::abs((dots(si)[1] - height_of_level(si, false)) / twenty - 4 * 2.54 / 20) < 0.01);
}

TEST_CASE("what lies far below the levels stands under the break, and says its depth", "[report][level]")
{
    auto const elements = section(many()[2]);
    double low = 0;
    for (auto const& e : elements)
        if (e.name == "line" && e.is("edge") && e.number("x1") == axis && e.number("x2") == axis)
            low = e.number("y2");
    REQUIRE(low > 0);
    CHECK(dots(elements).at(0) > low);
    CHECK(has(words(elements), "18.0 in"));
    CHECK(has(words(elements), "not to scale"));
}

TEST_CASE("names beside the wall come in the order of the depths", "[report][level]")
{
    for (std::size_t const n : {0U, 1U, 7U, 9U})
    {
        auto const elements = section(many()[n]);
        auto const at = dots(elements);
        double last_name = 0;
        std::size_t names = 0;
        for (auto const& e : elements)
            if (e.name == "polyline" && e.is("fine") && tests::points_of(e).back().first == 223)
            {
                double const name = tests::points_of(e).back().second;
                CHECK(name > last_name);
                last_name = name;
                ++names;
            }
        CHECK(names == at.size());
        CHECK(std::is_sorted(at.begin(), at.end()));
    }
}

TEST_CASE("a section says in words whether the level stopped, and where the leak is likeliest", "[report][level]")
{
    auto const still = words(section(many()[0]));
    CHECK(has(still, "Stopped, but for what evaporates"));
    CHECK(has(still, "skimmer"));
    CHECK(has(still, "leak stopped at"));
    CHECK(many()[0].levels.at(0).settling->fittings.at(0).chance.value() > 0.99);
    CHECK(has(still, "4.0 in, 99 %"));
    std::size_t strong = 0;
    for (auto const& e : section(many()[0]))
        if (e.name == "text" && e.text == "skimmer")
            strong += e.attributes.count("font-weight");
    CHECK(strong == 1);
    auto const falls = words(section(many()[1]));
    CHECK(has(falls, "Still falling: "));
    CHECK(has(falls, "it would stop at"));
    auto const inlet = many()[1].levels.at(0).settling->fittings.at(2).chance.value();
    CHECK(inlet < 0.5);
    CHECK(has(falls, "13.0 in, " + std::to_string(std::lround(100 * inlet)) + " %"));
    CHECK(has(words(section(many()[3])), "No loss beyond evaporation"));
    CHECK(has(words(section(many()[2])), "three marks or more"));
    CHECK_FALSE(has(words(section(many()[2])), "would stop"));
}

TEST_CASE("a section's last mark is that of the history, not of a bucket test beside it", "[report][level]")
{
    auto const by_history = section(many()[1]), with_test = section(many()[11]);
    CHECK(has(words(with_test), "4.20 ± 0.06 in"));
    CHECK(height_of_level(by_history, true) > 0);
    CHECK(has(words(by_history), "4.20 ± 0.06 in"));
}

TEST_CASE("where more goes through the shell than there is room for, the section says how many are left out",
          "[report][level]")
{
    auto const elements = section(many()[8]);
    CHECK(dots(elements).size() == 20);
    CHECK(has(words(elements), "11 more were measured"));
}

TEST_CASE("a shell's section stands in the terminal and in JSON too", "[report][level]")
{
    auto const text = report::as_text(many()[0], {units::System::us});
    CHECK(has(text, "Stopped, but for what evaporates"));
    CHECK(has(text, "deep end light"));
    auto const json = Json::parse(report::as_json(many()[0], units::System::si));
    auto const& level = json.at("levels").at(0);
    CHECK(level.at("course").at("trend") == "stopped");
    REQUIRE(level.at("fittings").size() == 5);
    CHECK(level.at("fittings").at(1).at("kind") == "tile_line");
    CHECK(level.at("fittings").at(1).at("name") == "tile line");
    CHECK(std::abs(level.at("fittings").at(0).at("depth").at("value").get<double>() - 101.6) < 0.1);
}
