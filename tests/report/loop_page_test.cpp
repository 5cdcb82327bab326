// A loop's section in the terminal, in HTML and in JSON.

#include "catch_compat.hpp"

#include "padwalk/report/html.hpp"
#include "padwalk/report/json.hpp"
#include "padwalk/report/text.hpp"
#include "report/layout.hpp"
#include "report/loop_sample.hpp"
#include "report/svg_reader.hpp"

#include <nlohmann/json.hpp>

#include <cctype>

using namespace padwalk;
using tests::count;
using Json = nlohmann::ordered_json;

namespace
{

assess::Assessment assessed(std::vector<assess::LoopEntry> loops = {tests::full_loop()})
{
    static auto const model = tests::sample_model();
    return tests::with_loops(model, std::move(loops));
}

std::string in_one_line(std::string text)
{
    std::string out;
    for (char const c : text)
        if (!(std::isspace(static_cast<unsigned char>(c)) != 0 && !out.empty() && out.back() == ' '))
            out += c == '\n' ? ' ' : c;
    return out;
}

std::string section_of(std::string const& text)
{
    std::size_t const start = text.find("Readings against a sound loop");
    return start == std::string::npos ? "" : text.substr(start, text.find("Figures ─", start) - start);
}

std::string as_text(assess::Assessment const& a, report::TextOptions const& options = {})
{
    return in_one_line(section_of(report::as_text(a, options)));
}

// The numbers of a text as they are written: '42', '-3.0', '1,500'.
std::vector<std::string> numbers_of(std::string const& text)
{
    std::vector<std::string> out;
    std::string number;
    for (char const c : text + " ")
        if (std::isdigit(static_cast<unsigned char>(c)) != 0 || (!number.empty() && (c == '.' || c == ',')))
            number += c;
        else if (!number.empty())
        {
            while (number.back() == '.' || number.back() == ',')
                number.pop_back();
            out.push_back(number);
            number.clear();
        }
    return out;
}

} // namespace

TEST_CASE("the section holds each reading against a sound loop and says how far off it is", "[report][loop]")
{
    auto const text = as_text(assessed());
    for (auto const* line :
         {"Spa loop: flow 42 ± 5 US gpm", "Two ways agree on about 42 US gpm; the flow meter is the odd one out.",
          "suction gauge: -3.0 ± 1.0 inHg; sound: -8 ± 2 inHg; 3.7 doubts weaker",
          "filter gauge: 27 ± 2 psi; sound: 18 ± 5 psi; 3.2 doubts high",
          "flow meter: 60 ± 4 US gpm; sound: 58 ± 6 US gpm; the odd one out",
          "temperature rise: 17 ± 2 °F; sound: 15 ± 3 °F; 1.2 doubts high, within doubt",
          "power taken in: 1450 ± 80 W; sound: 1500 ± 180 W; as expected",
          "flow meter: 60 ± 4 US gpm; the odd one out: 3.9 doubts high",
          "head on the pump's curve: 41 ± 8 US gpm; agrees with the others",
          "2 drains, 1 skimmer (2 in pipe, 40 ft of it, assumed) → hair and lint basket → pump",
          "What may be wrong, pump: motor bearings worn, likely, 82 %.",
          "A sound loop would run at 58 ± 6 US gpm, "
          "71 ± 4 ft.",
          "Measured: 42 ± 5 US gpm, 79 ± 4 ft.", "A usual pump of this power (not its own curve): 88 ft at 0 US gpm",
          "- The pipe was not measured: 2 in and 40 ft each way are usual."})
    {
        INFO(line << " in " << text);
        CHECK(text.find(line) != std::string::npos);
    }
}

TEST_CASE("words for how far off go by the number that is printed", "[report][loop]")
{
    auto words = [](double off, bool odd)
    {
        auto loop = tests::full_loop();
        loop.readings = {loop.readings[1]};
        loop.readings[0].off = off;
        loop.readings[0].odd = odd;
        auto const text = as_text(assessed({loop}));
        std::size_t const at = text.find("sound: 18 ± 5 psi; ") + std::string("sound: 18 ± 5 psi; ").size();
        return text.substr(at, text.find(" The flow", at) - at);
    };
    CHECK(words(0, false) == "as expected");
    CHECK(words(0.94, false) == "as expected");
    CHECK(words(0.96, false) == "1.0 doubts high, within doubt");
    CHECK(words(-2.04, false) == "2.0 doubts low, within doubt");
    CHECK(words(-2.06, false) == "2.1 doubts low");
    CHECK(words(14.4, false) == "14 doubts high");
    CHECK(words(-1e9, false) == "over 99 doubts low");
    CHECK(words(0.3, true) == "the odd one out");
    CHECK(words(-1.5, true) == "the odd one out: 1.5 doubts low");
}

TEST_CASE("the terminal says every number that the drawings show", "[report][loop]")
{
    for (auto const system : {units::System::us, units::System::si})
    {
        auto const a = assessed();
        auto const said = numbers_of(as_text(a, {system, 100, false}));
        std::size_t shown = 0;
        for (auto const& svg : tests::drawings_of(report::as_html(a, system, tests::layout())))
            for (auto const& element : tests::XmlReader(svg).elements())
            {
                if (element.name != "text" || element.is("quiet"))
                    continue; // the ticks of an axis are no facts; details are checked above
                for (auto const& number : numbers_of(element.text))
                {
                    INFO(element.text << ": " << number);
                    CHECK(std::find(said.begin(), said.end(), number) != said.end());
                    ++shown;
                }
            }
        CHECK(shown > 25);
    }
}

TEST_CASE("a loop's quantities are in the user's units, a reading's two in the same", "[report][loop]")
{
    auto const si = as_text(assessed(), {units::System::si, 80, false});
    CHECK(si.find("filter gauge: 186 ± 14 kPa; sound: 130 ± 30 kPa") != std::string::npos);
    CHECK(si.find("flow 9.6 ± 1.1 m³/h") != std::string::npos);
    CHECK(si.find("psi") == std::string::npos);
    CHECK(si.find("inHg") == std::string::npos);
    auto loop = tests::full_loop();
    loop.readings = {loop.readings[0]};
    loop.readings[0].expected.value = 2 * tests::psi; // a pressure where a vacuum was read
    CHECK(as_text(assessed({loop})).find("sound: 4 ± 2 inHg") != std::string::npos);
    loop = tests::full_loop();
    loop.readings = {loop.readings[4]};
    loop.readings[0].reading.value = 3900; // a heater's power would be in Btu/h
    CHECK(as_text(assessed({loop})).find("power taken in: 3900 ± 80 W; sound: 1500 ± 180 W") != std::string::npos);
    loop.readings[0].expected.measure = units::Measure::volume_flow; // what should not be still has units
    CHECK(as_text(assessed({loop})).find("gpm") != std::string::npos);
}

TEST_CASE("the page shows two figures for a loop, under the strict policy", "[report][loop][html]")
{
    auto const html = report::as_html(assessed(), units::System::us, tests::layout());
    CHECK(count(html, "<figure>") == 2);
    CHECK(count(html, "<figcaption>") == 2);
    CHECK(html.find("As the water runs, from top to bottom.") != std::string::npos);
    CHECK(html.find("default-src 'none'; style-src 'unsafe-inline'") != std::string::npos);
    CHECK(html.find("The way of the water: 2 drains") > html.find("<desc")); // only inside the story
    CHECK(count(html, "The way of the water: 2 drains") == 1);
    std::size_t const section = html.find("<section class=\"loops\" id=\"loops\"");
    REQUIRE(section != std::string::npos);
    CHECK(section < html.find("id=\"figures\""));
    CHECK(count(html.substr(section, html.find("</section>", section) - section), " style=\"") == 0);
    CHECK(section > html.find("id=\"meanwhile\""));
}

TEST_CASE("every class of a drawing is known to the style sheet", "[report][loop][html]")
{
    auto const html = report::as_html(assessed(tests::many_loops()), units::System::us, tests::layout());
    auto const style = html.substr(html.find("<style>"), html.find("</style>") - html.find("<style>"));
    std::size_t kinds = 0;
    for (auto const& svg : tests::drawings_of(html))
        for (auto const& element : tests::XmlReader(svg).elements())
        {
            auto const found = element.attributes.find("class");
            if (found == element.attributes.end())
                continue;
            std::istringstream words(found->second);
            for (std::string word; words >> word; ++kinds)
            {
                INFO(word);
                bool const known = style.find("." + word + " ") != std::string::npos ||
                                   style.find("." + word + ".") != std::string::npos;
                CHECK(known);
            }
        }
    CHECK(kinds > 100);
    // Colours are those of the page, which follow light, dark and paper.
    auto const drawn = style.substr(style.find(".drawing {"), style.find("footer {") - style.find(".drawing {"));
    CHECK(drawn.find('#') == std::string::npos);
    CHECK(drawn.find("var(--ink)") != std::string::npos);
    // They are for drawings alone.
    std::istringstream lines(drawn);
    for (std::string line; std::getline(lines, line);)
    {
        INFO(line);
        CHECK(line.compare(0, 8, ".drawing") == 0);
    }
}

TEST_CASE("a loop of which little is known is said in few words", "[report][loop]")
{
    assess::LoopEntry bare;
    bare.item = 5;
    bare.parts = {{assess::LoopPlace::pump, 2, "", "", false}, {assess::LoopPlace::returns, 5, "", "", true}};
    auto const text = as_text(assessed({bare}));
    CHECK(text.find("Spa loop The way of the water: pump → returns (assumed) → back to the water.") !=
          std::string::npos);
    CHECK(text.find("doubt") == std::string::npos);
    CHECK(text.find("sound loop would") == std::string::npos);

    bare.flow = tests::flow_of(45, 3);
    bare.flows = {{"flow meter", tests::flow_of(45, 3), 0, false}};
    auto const one_way = as_text(assessed({bare}));
    CHECK(one_way.find("Spa loop: flow 45 ± 6 US gpm, by flow meter") != std::string::npos);
    CHECK(one_way.find("each way it can be had") == std::string::npos);
    CHECK(as_text(assessed({})).empty());
}

TEST_CASE("no line of the section is wider than the terminal", "[report][loop]")
{
    for (std::size_t const columns : {40U, 60U, 80U})
        for (auto const& line : tests::lines_of(report::as_text(assessed(), {units::System::us, columns, false})))
        {
            INFO(line);
            CHECK(tests::code_points(line) <= columns);
        }
}

TEST_CASE("a loop as JSON carries all of it, in the units of the system", "[report][loop][json]")
{
    auto const j = Json::parse(report::as_json(assessed(), units::System::us))["loops"];
    REQUIRE(j.size() == 1);
    CHECK(j[0]["item"] == 5);
    CHECK(j[0]["readings"].size() == 5);
    CHECK(j[0]["readings"][1] == Json::parse(R"({"item": 4, "label": "filter gauge", "place": "filter",
        "reading": {"value": 27, "unit": "psi", "plus_minus": 2},
        "expected": {"value": 18.5, "unit": "psi", "plus_minus": 5}, "off": 3.2, "odd": false})"));
    CHECK(j[0]["readings"][2]["odd"] == true);
    CHECK(j[0]["readings"][4]["reading"] == Json::parse(R"({"value": 1450, "unit": "W", "plus_minus": 80})"));
    CHECK(j[0]["flows"][0] == Json::parse(R"({"way": "flow meter",
        "flow": {"value": 60, "unit": "gpm", "plus_minus": 4}, "off": 3.9, "odd": true})"));
    CHECK(j[0]["flow"] == Json::parse(R"({"value": 42.3, "unit": "gpm", "plus_minus": 4.8})"));
    CHECK(j[0]["flow_in_words"] == "two ways agree on about 42 US gpm; the flow meter is the odd one out");
    CHECK(j[0]["parts"][6] == Json::parse(R"({"place": "bypass", "item": 3, "name": "heater bypass",
        "detail": "spring-loaded, in the heater's header", "assumed": true})"));
    CHECK(j[0]["faults"][1] == Json::parse(R"({"place": "pump", "cause": 1})"));
    CHECK(j[0]["faults"][2]["place"] == "gauge");
    CHECK(j[0]["pump_is_usual"] == true);
    CHECK(j[0]["pump_curve"].size() == 6);
    CHECK(j[0]["pump_curve"][1] ==
          Json::parse(R"({"flow": {"value": 20, "unit": "gpm"}, "head": {"value": 86, "unit": "ft"}})"));
    CHECK(j[0]["sound_system"].size() == 21);
    CHECK(j[0]["sound"]["head"] == Json::parse(R"({"value": 71, "unit": "ft", "plus_minus": 4})"));
    CHECK(j[0]["measured"]["flow"]["value"] == 42);
    CHECK(j[0]["basis"].size() == 2);
    auto const si = Json::parse(report::as_json(assessed(), units::System::si))["loops"][0];
    CHECK(si["flow"]["unit"] == "m3/h");
    CHECK(si["pump_curve"][0]["head"] == Json::parse(R"({"value": 26.8224, "unit": "m"})"));
    assess::LoopEntry bare;
    auto const b = Json::parse(report::as_json(assessed({bare}), units::System::us))["loops"][0];
    CHECK(b["flow"].is_null());
    CHECK(b["measured"].is_null());
    CHECK(b["readings"].empty());
}
