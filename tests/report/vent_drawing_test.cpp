// The drawing of a vent, read back from the page that it stands in, and its section and JSON.
#include "assessed.hpp"
#include "catch_compat.hpp"
#include "padwalk/report/html.hpp"
#include "padwalk/report/json.hpp"
#include "padwalk/report/text.hpp"
#include "report/drawing_checks.hpp"
#include "report/layout.hpp"

#include <nlohmann/json.hpp>

#include <limits>

using namespace padwalk;
using Json = nlohmann::ordered_json;

namespace
{

using Elements = std::vector<tests::Element>;

assess::Assessment of(std::string const& vent, std::string const& heater = "energy: natural_gas, stands: room",
                      std::string const& room = "")
{
    return tests::assessed("air_temperature: 60 degF\nheaters:\n  h: {" + heater + ", vent: {" + vent + "}" +
                           (room.empty() ? "" : ", room: {" + room + "}") + "}\n");
}

std::vector<std::string> drawn(assess::Assessment const& a, units::System system = units::System::us)
{
    return tests::drawings_of(report::as_html(a, system, tests::layout()));
}

std::string const full_vent =
    "kind: draft_hood, category: I, made_of: [single_wall], height: 4 ft, run: 8 ft, slope: 1 %, bore: 7 in, "
    "outlet_bore: 8 in, elbows: 3, capped: no, buried: no, enclosed: no, under_deck: yes, combustibles: 2 in, "
    "outlet_pressure: 0.05 in water, roof_slope: 4, above_roof: 0.5 ft, from_wall: 12 ft, clearances: "
    "{opening_beside: 2 ft, forced_inlet_above: 1 ft, grade_above: 9 ft, inside_corner: 4 ft, meter_beside: 3 ft, "
    "property_line_beside: 60 ft, opening_above: 6 in, other_vent_beside: -1 ft}";

std::vector<assess::Assessment> const& many()
{
    static std::vector<assess::Assessment> const list{
        of(full_vent, "energy: natural_gas, stands: room, input: 250 kBtu/h"),
        of("height: 3 ft, run: 20 ft, kind: draft_hood, clearances: {grade_above: 4 in, walkway_above: 4 ft}",
           "energy: propane, stands: pit",
           "depth: 5 ft, drain: none, water: 3 in, gas_way_out: no, person_way_out: no, lid: closed, service_space: 14 "
           "in"),
        of("kind: draft_hood, height: 30 ft"),
        of("kind: fan, run: 12 ft, clearances: {opening_below: 1 ft}"),
        of("kind: draft_hood, height: -2 ft, run: 6 ft, slope: -8 %, capped: yes"),
        of("kind: draft_hood, height: 6 ft, run: 0 ft, capped: yes, above_roof: 2 ft"),
        of("kind: draft_hood, height: 0 ft, run: 0 ft"),
        of("kind: draft_hood, height: 200 ft, run: 300 ft, clearances: {grade_above: 200 ft}")};
    return list;
}

std::string words(Elements const& elements)
{
    std::string out;
    for (auto const& element : elements)
        if (element.name == "text")
            out += element.text + " ";
    for (std::size_t at = out.find("\u00a0"); at != std::string::npos; at = out.find("\u00a0", at))
        out.replace(at, 2, " ");
    return out;
}

Elements read(std::string const& svg)
{
    return tests::XmlReader(svg).elements();
}

} // namespace

TEST_CASE("every drawing of a vent is well-formed, named, in bounds and large enough to read", "[report][vent]")
{
    for (auto const& a : many())
        for (auto const system : {units::System::us, units::System::si})
        {
            auto const svgs = drawn(a, system);
            REQUIRE(svgs.size() == 1);
            auto const elements = read(svgs[0]);
            tests::check_readable(elements);
            CHECK(elements[1].text.find("to scale") != std::string::npos);
            double const width = 360;
            for (auto const& element : elements)
            {
                if (element.name == "line")
                    for (auto const* key : {"x1", "x2"})
                    {
                        CHECK(element.number(key) >= 0);
                        CHECK(element.number(key) <= width);
                    }
            }
        }
}

TEST_CASE("the run and the height are drawn to one scale, which the bar gives", "[report][vent]")
{
    auto const elements = read(drawn(of("kind: draft_hood, height: 6 ft, run: 9 ft, slope: 0 %")).at(0));
    double run = 0, height = 0;
    for (auto const& element : elements)
        if (element.name == "polyline" && element.is("pipe"))
        {
            auto const points = tests::points_of(element);
            run = points.back().first - points.front().first;
            height = points.front().second - points.back().second;
        }
    CHECK(std::abs(run / height - 1.5) < 0.01);
    double bar = 0;
    std::string length;
    for (auto const& element : elements)
    {
        bool const level = element.name == "line" && element.is("edge") && element.number("y1") == element.number("y2");
        if (level && element.number("x1") == 16)
            bar = element.number("x2") - element.number("x1");
        if (element.name == "text" && element.text.size() < 6 && element.text.find(" ft") != std::string::npos)
            length = element.text;
    }
    REQUIRE_FALSE(length.empty());
    CHECK(std::abs(bar / std::stod(length) - run / 9) < 0.2);
}

TEST_CASE("what is not kept is told by word and dash, what is kept in quiet", "[report][vent]")
{
    auto const elements = read(drawn(many()[0]).at(0));
    std::size_t dashed = 0, not_kept = 0, kept = 0;
    for (auto const& element : elements)
    {
        dashed += element.name == "line" && element.is("alert") && element.is("broken") ? 1U : 0U;
        bool const first_line = element.name == "text";
        if (first_line && element.text.starts_with("Not kept: "))
        {
            ++not_kept;
            CHECK(element.is("alert"));
            CHECK(element.attributes.at("font-weight") == "600");
        }
        if (first_line && element.text.starts_with("Kept: "))
        {
            ++kept;
            CHECK(element.is("quiet"));
        }
    }
    CHECK(dashed >= 5); // run, rise, roof and openings
    CHECK(not_kept >= 9);
    CHECK(kept >= 2);
    std::string const all = words(elements);
    for (auto const* part : {"level run, 8 ft, at most 3 ft: 5 ft too much", "beside an opening, 2 ft", "it has no cap",
                             "ground", "heater", "roof"})
    {
        INFO(part << " in " << all);
        CHECK(all.find(part) != std::string::npos);
    }
}

TEST_CASE("a sunk heater stands below the ground line", "[report][vent]")
{
    auto const ground_points = [](assess::Assessment const& a)
    {
        auto const elements = read(drawn(a).at(0));
        for (auto const& element : elements)
            if (element.name == "polyline" && element.is("edge"))
                return tests::points_of(element).size();
        return std::size_t{0};
    };
    CHECK(ground_points(many()[1]) == 6); // down the wall, along the floor, up again
    CHECK(ground_points(many()[2]) == 2);
}

TEST_CASE("without height and run there is a table and no drawing", "[report][vent]")
{
    auto const a = of("capped: no, buried: yes");
    CHECK(drawn(a).empty());
    std::string const text = report::as_text(a, {});
    CHECK(text.find("Vents") != std::string::npos);
    CHECK(text.find("it has no cap") != std::string::npos);
    CHECK(report::as_text(of("material: pipe"), {}).find("\nVents") == std::string::npos);
}

TEST_CASE("the section says that what was seen is enough, who decides, and what is from memory", "[report][vent]")
{
    std::string text = report::as_text(many()[0], {});
    for (auto& c : text)
        c = c == '\n' ? ' ' : c;
    for (std::size_t at = text.find("  "); at != std::string::npos; at = text.find("  ", at))
        text.erase(at, 1);
    for (auto const* part : {"What was seen of the run is enough to leave the heater off; no symptom is needed",
                             "The maker's instructions and local code rule", "from memory, not confirmed",
                             "a test for spill by a technician decides"})
    {
        INFO(part);
        CHECK(text.find(part) != std::string::npos);
    }
}

TEST_CASE("what was not looked at is said to be not known", "[report][vent]")
{
    std::string const text = report::as_text(many()[2], {});
    std::size_t const missing = text.find("Not known: ");
    REQUIRE(missing != std::string::npos);
    CHECK(text.find("cap (not looked at)", missing) != std::string::npos);
}

TEST_CASE("vents stand in JSON with each rule, its edition and how it was seen", "[report][vent]")
{
    auto const j = Json::parse(report::as_json(many()[0], units::System::us));
    REQUIRE(j["vents"].size() == 1);
    auto const& vent = j["vents"][0];
    CHECK(j["items"][vent["item"].get<std::size_t>()]["kind"] == "vent");
    CHECK_FALSE(vent["draft_in_words"].get<std::string>().empty());
    bool run = false;
    for (auto const& rule : vent["rules"])
    {
        CHECK_FALSE(rule["edition"].get<std::string>().empty());
        CHECK(j["sources"].contains(rule["key"].get<std::string>()));
        if (rule["rule"] == "run_single_wall")
        {
            run = true;
            CHECK(rule["keeps"] == "fails");
            CHECK(rule["seen"] == "from memory, not confirmed");
            CHECK(rule["margin"]["value"].get<double>() < 0);
        }
    }
    CHECK(run);
    CHECK(Json::parse(report::as_json(tests::assessed("by: owner\n"), units::System::us))["vents"].empty());
}

TEST_CASE("numbers that are none and names that are hostile do a vent's drawing no harm", "[report][vent]")
{
    auto a = many()[0];
    auto& vent = a.vents.at(0);
    double const none = std::numeric_limits<double>::quiet_NaN();
    vent.vent.height->value = units::of_si<units::Length>(none);
    vent.vent.run->value = units::of_si<units::Length>(std::numeric_limits<double>::infinity());
    for (auto& rule : vent.rules)
    {
        if (rule.measured)
            rule.measured->value = none;
        rule.found = "</svg><script>alert(1)</script> & \x1b[31m 水";
    }
    a.items[vent.item].name = "<b>\"vent\"</b>";
    auto const svgs = drawn(a);
    REQUIRE(svgs.size() == 1);
    CHECK_NOTHROW(read(svgs[0]));
    for (auto const* bad : {"points=\"nan", "=\"nan", "=\"inf", "<script"})
        CHECK(svgs[0].find(bad) == std::string::npos);
}
