// The drawings of a circulation loop, read back from the page that they stand in.

#include "catch_compat.hpp"

#include "report/drawn.hpp"

#include <set>

using namespace padwalk;
using tests::all_words;
using tests::count_kind;
using tests::drawn;
using tests::read;

namespace
{

std::string const nasty = "</svg><script>alert(1)</script> \"double\" 'single' & &amp; ]]> <![CDATA[ \x1b[31m \xff 水 "
                          "averyveryverylongwordwithoutanyspacethatnolineofanydrawingcouldeverholdinonepiece";

assess::LoopEntry hostile_loop()
{
    auto loop = tests::full_loop();
    for (auto& part : loop.parts)
        part.name = part.detail = nasty;
    for (auto& reading : loop.readings)
        reading.label = nasty;
    for (auto& way : loop.flows)
        way.way = nasty;
    loop.flow_words = nasty;
    loop.basis = {nasty};
    return loop;
}

std::vector<assess::LoopEntry> every_loop()
{
    auto loops = tests::many_loops();
    loops.push_back(tests::full_loop());
    loops.push_back(hostile_loop());
    return loops;
}

/// The drawings of all of them, made once.
std::vector<std::string> const& every_drawing()
{
    static auto const list = drawn(every_loop());
    return list;
}

} // namespace

TEST_CASE("the reader of the drawings refuses what is no XML", "[report][drawing]")
{
    for (auto const* bad : {"<a>", "<a></b>", "<a b=\"1\" b=\"2\"/>", "<a b='1'/>", "<a>x & y</a>", "<a>x > y</a>",
                            "<a b=\"<\"/>", "<a/><b/>", "<a>&nbsp;</a>", "<1/>"})
    {
        INFO(bad);
        CHECK_THROWS_AS(read(bad), std::runtime_error);
    }
    CHECK(read("<a b=\"&lt;\">x<c/>y</a>").size() == 2);
}

TEST_CASE("every drawing is well-formed XML with a name and a story, whatever the visit says", "[report][drawing]")
{
    std::set<std::string> ids;
    auto const& drawings = every_drawing();
    REQUIRE(drawings.size() == 2 * every_loop().size());
    for (auto const& svg : drawings)
    {
        auto const elements = read(svg);
        CHECK(elements.front().attributes.at("role") == "img");
        REQUIRE(elements[1].name == "title");
        REQUIRE(elements[2].name == "desc");
        CHECK(elements[1].text.size() > 5);
        CHECK(elements[2].text.size() > 20);
        CHECK(elements.front().attributes.at("aria-labelledby") ==
              elements[1].attributes.at("id") + " " + elements[2].attributes.at("id"));
        for (auto const& element : elements)
            if (element.attributes.count("id") == 1)
                CHECK(ids.insert(element.attributes.at("id")).second); // each once on the page
    }
    CHECK(ids.size() == 2 * drawings.size());
}

TEST_CASE("a drawing has no script, no reference, no colour and no style of its own", "[report][drawing]")
{
    std::set<std::string> const elements{"svg",      "title",   "desc",   "line", "rect",
                                         "polyline", "polygon", "circle", "text"};
    std::set<std::string> const attributes{"class",
                                           "viewBox",
                                           "preserveAspectRatio",
                                           "role",
                                           "aria-labelledby",
                                           "id",
                                           "x",
                                           "y",
                                           "x1",
                                           "y1",
                                           "x2",
                                           "y2",
                                           "width",
                                           "height",
                                           "rx",
                                           "cx",
                                           "cy",
                                           "r",
                                           "points",
                                           "font-size",
                                           "font-weight",
                                           "text-anchor"};
    for (auto const& svg : every_drawing())
        for (auto const& element : read(svg))
        {
            INFO(element.name);
            CHECK(elements.count(element.name) == 1);
            for (auto const& [key, value] : element.attributes)
            {
                INFO(key);
                CHECK(attributes.count(key) == 1);
            }
        }
}

TEST_CASE("user text stands in a drawing as it was written, and as nothing else", "[report][drawing]")
{
    auto const drawings = drawn({hostile_loop()});
    auto const words = all_words(drawings.front());
    CHECK(words.find("<script>alert(1)</script>") != std::string::npos);
    CHECK(words.find("\"double\"") != std::string::npos);
    CHECK(words.find("'single' &") != std::string::npos);
    CHECK(words.find("水") != std::string::npos);
    CHECK(words.find('\x1b') == std::string::npos);
    CHECK(drawings.front().find("<script") == std::string::npos);
    CHECK(read(drawings.front())[2].text.find("averyveryverylongword") != std::string::npos);
}

TEST_CASE("all text of a drawing lies on it and is large enough on a phone", "[report][drawing]")
{
    for (auto const& svg : every_drawing())
    {
        auto const elements = read(svg);
        std::string const& box = elements.front().attributes.at("viewBox");
        std::size_t const space = box.rfind(' ');
        double const width = std::stod(box.substr(4)), height = std::stod(box.substr(space));
        CHECK(width == 360); // a phone of 390 pixels leaves 358 for it
        for (auto const& text : tests::texts_of(elements))
        {
            INFO(text.what << ": " << text.left << " to " << text.right << ", " << text.top << " to " << text.bottom);
            CHECK(text.left >= 0);
            CHECK(text.top >= 0);
            CHECK(text.right <= width);
            CHECK(text.bottom <= height);
        }
        for (auto const& element : elements)
            if (element.name == "text")
                CHECK(element.number("font-size") >= 12);
    }
}

TEST_CASE("no two texts of a drawing lie over each other", "[report][drawing]")
{
    for (auto const& svg : every_drawing())
    {
        auto const texts = tests::texts_of(read(svg));
        CHECK(texts.size() > 4);
        for (std::size_t i = 0; i < texts.size(); ++i)
            for (std::size_t k = 0; k < i; ++k)
            {
                INFO(texts[i].what << " | " << texts[k].what);
                CHECK_FALSE(texts[i].meets(texts[k]));
            }
    }
}

TEST_CASE("no text lies over a mark, a pipe or a curve", "[report][drawing]")
{
    for (auto const& svg : every_drawing())
    {
        auto const elements = read(svg);
        auto const texts = tests::texts_of(elements);
        for (auto const& element : elements)
        {
            bool const mark = element.is("solid") || element.is("pipe") || element.is("line");
            if (!mark || element.attributes.count("points") == 0)
                continue;
            auto const points = tests::points_of(element);
            for (auto const& text : texts)
                for (std::size_t i = 1; i < points.size(); ++i)
                    for (double share = 0; share <= 1; share += 0.125)
                    {
                        double const x = points[i - 1].first + share * (points[i].first - points[i - 1].first);
                        double const y = points[i - 1].second + share * (points[i].second - points[i - 1].second);
                        if (text.meets({x, y, x, y, {}}))
                        {
                            INFO(text.what << " over " << element.attributes.at("class") << " at " << x << ", " << y);
                            CHECK(text.what.empty());
                        }
                    }
        }
    }
}

TEST_CASE("the way of the water shows each part, reading and fault in order", "[report][drawing]")
{
    auto const svg = drawn({tests::full_loop()}).front();
    auto const words = all_words(svg);
    std::size_t at = 0;
    for (auto const* word : {"From the water",
                             "flow 42 ± 5 US gpm",
                             "2 drains, 1 skimmer",
                             "2 in pipe, 40 ft of it, assumed",
                             "suction gauge",
                             "-3.0 ± 1.0 inHg",
                             "a sound loop",
                             "-8 ± 2 inHg",
                             "3.7 doubts weaker",
                             "Hair and lint basket",
                             "Pump",
                             "1450 ± 80 W",
                             "as expected",
                             "Motor bearings worn",
                             "likely, 82 %",
                             "Cartridge filter",
                             "27 ± 2 psi",
                             "18 ± 5 psi",
                             "3.2 doubts high",
                             "Flue blocked",
                             "possible, 31 %",
                             "Roof collector",
                             "Gas heater",
                             "1.2 doubts high, within doubt",
                             "Heater bypass",
                             "4 returns",
                             "flow meter",
                             "60 ± 4 US gpm",
                             "the odd one out",
                             "Back to the water"})
    {
        INFO(word << " in " << words.substr(at));
        std::size_t const found = words.find(word, at);
        REQUIRE(found != std::string::npos);
        at = found;
    }
    auto const elements = read(svg);
    CHECK(count_kind(elements, "rect", "allowed") == 5);  // a small scale for each reading
    CHECK(count_kind(elements, "rect", "alert") == 3);    // a flagged box for each fault
    CHECK(count_kind(elements, "polyline", "pipe") == 2); // the roof's branch and the bypass
    std::size_t const assumed = count_kind(elements, "polygon", "assumed") + count_kind(elements, "circle", "assumed");
    CHECK(assumed == 4);
}

TEST_CASE("a bypass takes in the heater beside it, before or behind", "[report][drawing]")
{
    using assess::LoopPlace;
    auto loop = tests::full_loop();
    loop.readings.clear();
    loop.faults.clear();
    auto branch_and_heater = [&](std::vector<assess::LoopPart> parts)
    {
        loop.parts = std::move(parts);
        double top = 0, bottom = 0, heater = 0;
        for (auto const& element : read(drawn({loop}).front()))
        {
            if (element.name == "polyline" && element.is("pipe"))
            {
                top = tests::points_of(element).front().second;
                bottom = tests::points_of(element).back().second;
            }
            if (element.name == "rect" && element.is("part") && element.number("rx") == 2)
                heater = element.number("y");
        }
        return std::vector<double>{top, heater, bottom};
    };
    assess::LoopPart const pump{LoopPlace::pump, 2, "pump", "", false},
        heater{LoopPlace::heater, 3, "heater", "", false}, bypass{LoopPlace::bypass, 3, "bypass", "", false};
    for (auto const& parts : {std::vector{pump, heater, bypass}, std::vector{pump, bypass, heater}})
    {
        auto const y = branch_and_heater(parts);
        CHECK(y[0] < y[1]);
        CHECK(y[1] + 34 < y[2]);
    }
    auto const alone = branch_and_heater({heater, pump, bypass});
    CHECK(alone[1] + 34 < alone[0]);
}

TEST_CASE("what belongs to no part on the way is still drawn", "[report][drawing]")
{
    auto loop = tests::full_loop();
    loop.parts.resize(3);
    auto const words = all_words(drawn({loop}).front());
    std::size_t const elsewhere = words.find("Not tied to one part");
    REQUIRE(elsewhere != std::string::npos);
    CHECK(words.find("27 ± 2 psi") > elsewhere);
    CHECK(words.find("1450 ± 80 W") < elsewhere);
}

TEST_CASE("an instrument sits at its item where that is one part alone", "[report][drawing]")
{
    auto loop = tests::full_loop();
    loop.faults.clear();
    loop.readings = {loop.readings[1]}; // of the filter
    loop.readings[0].place = assess::LoopPlace::gauge;
    auto order = [&]
    {
        auto const words = all_words(drawn({loop}).front());
        std::size_t const reading = words.find("27 ± 2 psi");
        return std::vector<bool>{reading > words.find("Cartridge filter"), reading < words.find("Roof collector"),
                                 words.find("Not tied to one part") != std::string::npos};
    };
    CHECK(order() == std::vector<bool>{true, true, false});
    loop.readings[0].item = 5; // the loop itself, which is several parts
    CHECK(order() == std::vector<bool>{true, false, true});
}

TEST_CASE("three faults are flagged at a place, and more are counted", "[report][drawing]")
{
    auto loop = tests::full_loop();
    loop.faults.assign(5, {assess::LoopPlace::pump, 1});
    auto const svg = drawn({loop}).front();
    CHECK(count_kind(read(svg), "rect", "alert") == 3);
    CHECK(all_words(svg).find("and 2 less likely") != std::string::npos);
    loop.faults = {{assess::LoopPlace::pump, 99}}; // no such cause
    CHECK(count_kind(read(drawn({loop}).front()), "rect", "alert") == 0);
}

TEST_CASE("a loop without readings is drawn plainly", "[report][drawing]")
{
    auto loop = tests::full_loop();
    loop.readings.clear();
    loop.faults.clear();
    loop.flow.reset();
    auto const words = all_words(drawn({loop}).front());
    CHECK(words.find("Roof collector") != std::string::npos);
    CHECK(words.find("sound") == std::string::npos);
}

TEST_CASE("the same loop gives the same drawings, and numbers that are none do no harm", "[report][drawing]")
{
    CHECK(drawn(every_loop()) == every_drawing());
    auto loop = tests::full_loop();
    double const none = std::numeric_limits<double>::quiet_NaN(), endless = std::numeric_limits<double>::infinity();
    loop.readings[0].off = none;
    loop.readings[1].off = -endless;
    loop.sound = assess::LoopDuty{tests::flow_of(none), tests::head_of(70)};
    loop.measured = assess::LoopDuty{tests::flow_of(42, endless), tests::head_of(79, 2)};
    for (auto const& svg : drawn({loop}))
    {
        CHECK_NOTHROW(read(svg));
        CHECK(svg.find("nan") == std::string::npos);
        CHECK(svg.find("inf") == std::string::npos);
    }
    CHECK(all_words(drawn({loop}).front()).find("can't be compared") != std::string::npos);
}
