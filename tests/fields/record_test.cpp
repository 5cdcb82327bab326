#include "sample.hpp"

using namespace padwalk;
using namespace padwalk::tests;
using Catch::Matchers::WithinRel;
using fields::Node;

TEST_CASE("a record reads every form of field", "[fields][record]")
{
    Sample const s = must_read({{"flow", text("45 ± 5 gpm")},
                                {"temperature", text("104 degF")},
                                {"words", text("behind the hedge")},
                                {"runs", text("Yes")},
                                {"colour", text("light green")},
                                {"at", text("2026-05-14 10:30")},
                                {"curve", text("0 gpm:80 ft, 40 gpm:68 ft, 1,000 gpm:40 ft")},
                                {"part", map({{"length", text("3 ft")}, {"where", text("under")}})},
                                {"noticed", list({text("grinding noise"), map({{"not_seen", text("bubbles")}})})},
                                {"names", list({text("pool"), text("spa")})},
                                {"colours", list({text("black"), text("clear")})},
                                {"parts", map({{"suction", map({{"length", text("40 ft")}})}, {"return", blank()}})},
                                {"counts", map({{"elbow", text("4")}, {"tee", text("2")}})}});
    CHECK_THAT(units::in_si(s.gauge), WithinRel(18 * 6894.757293168361, 1e-12));
    CHECK_THAT(units::in_si(s.flow->value), WithinRel(45 * 6.30901964e-5, 1e-12));
    CHECK_THAT(units::in_si(s.flow->doubt), WithinRel(2.5 * 6.30901964e-5, 1e-12));
    CHECK(s.flow->method == "written");
    CHECK_THAT(units::in_si(s.temperature->value), WithinRel(313.15, 1e-12));
    CHECK(s.words == "behind the hedge");
    CHECK(s.runs == true);
    CHECK(s.colour == Colour::light_green);
    CHECK(s.at->text == "2026-05-14 10:30");
    REQUIRE(s.curve->size() == 3);
    CHECK_THAT(units::in_si((*s.curve)[2].flow), WithinRel(1000 * 6.30901964e-5, 1e-12));
    CHECK_THAT(units::in_si((*s.curve)[2].head), WithinRel(40 * 0.3048, 1e-12));
    CHECK(s.part->where == "under");
    REQUIRE(s.noticed.size() == 2);
    CHECK(s.noticed[0].seen == "grinding noise"); // the short form
    CHECK(s.noticed[1].not_seen == "bubbles");
    CHECK(s.names == std::vector<std::string>{"pool", "spa"});
    CHECK(s.colours == std::vector{Colour::black, Colour::clear});
    REQUIRE(s.parts.size() == 2);
    CHECK(s.parts[0].first == "suction");
    CHECK(s.parts[0].second.length.has_value());
    CHECK(s.parts[1].first == "return"); // an item of which nothing was said
    CHECK(units::in_si(s.counts.at(1).second) == 2);
}

TEST_CASE("what was left out stays absent", "[fields][record]")
{
    Sample const s = must_read({});
    CHECK_FALSE(s.flow.has_value());
    CHECK_FALSE(s.runs.has_value());
    CHECK_FALSE(s.colour.has_value());
    CHECK(s.noticed.empty());
}

TEST_CASE("an unknown key is refused, with the nearest known one", "[fields][record][keys]")
{
    auto const near = must_refuse({{"temprature", text("104 degF")}});
    CHECK(near.message == "unknown key 'temprature' under sample");
    CHECK(near.advice == "did you mean 'temperature'?");
    CHECK(near.place.line == 2);
    CHECK(near.length == 10);
    CHECK(must_read({{"Flow", text("45 gpm")}}).flow.has_value()); // case can't change the meaning of a key
    CHECK(must_refuse({{"flow", text("45 gpm")}, {"FLOW", text("4 gpm")}}).message.find("stands twice") !=
          std::string::npos);
    CHECK(must_refuse({{"wombat", text("1")}}).advice == "known here: gauge, flow, temperature, words, runs, colour, "
                                                         "at, curve, part, noticed, names, colours, parts, counts");
    auto const inner = must_refuse({{"part", map({{"lenght", text("3 ft")}})}});
    CHECK(inner.path == "part");
    CHECK(inner.message == "unknown key 'lenght' under part");
}

TEST_CASE("a key may stand once, whichever way it is spelled", "[fields][record][keys]")
{
    auto const twice = must_refuse({{"words", text("a")}, {"words", text("b")}});
    CHECK(twice.message == "'words' stands twice under sample, first in line 2");
    CHECK(twice.place.line == 3);
    CHECK(twice.advice == "keep one of them");
    auto const spelled = must_refuse({{"noticed", list({map({{"not_seen", text("a")}, {"not seen", text("b")}})})}});
    CHECK(spelled.message == "'not seen' stands twice under note, first in line 1");
    CHECK(must_refuse({{"noticed", list({map({{"not-seen", text("a")}, {"not_seen", text("b")}})})}}).message ==
          "'not_seen' stands twice under note, first in line 1");
    CHECK(must_read({{"noticed", list({map({{"not seen", text("bubbles")}})})}}).noticed.at(0).not_seen == "bubbles");
    CHECK(must_refuse({{"parts", map({{"a", blank()}, {"a", blank()}})}}).message ==
          "'a' stands twice under parts, first in line 1");
    CHECK(must_refuse({{"parts", map({{"", blank()}})}}).message == "a name is empty under parts");
}

TEST_CASE("a required field must be there, and not blank", "[fields][record]")
{
    auto const problems_of = [](Node const& node, bool partial)
    {
        Sample out;
        fields::ReadContext context;
        context.partial = partial;
        bool const good = fields::read_record(node, out, context);
        CHECK(good == context.problems.empty());
        return context.problems;
    };
    auto const missing = problems_of(map({{"words", text("x")}}), false);
    REQUIRE(missing.size() == 1);
    CHECK(missing[0].message == "sample has no 'gauge': filter gauge");
    CHECK(missing[0].advice == "add 'gauge: 12 psi'");
    auto const left_blank = problems_of(map({{"gauge", blank()}}), false);
    REQUIRE(left_blank.size() == 1);
    CHECK(left_blank[0].message == "sample has no 'gauge': filter gauge");
    CHECK(problems_of(map({{"words", text("x")}}), true).empty());
}

TEST_CASE("blanks of a sheet that was not filled in are told by path", "[fields][record]")
{
    fields::ReadContext context;
    read_sample({{"flow", blank()}, {"part", map({{"length", blank()}})}}, context);
    CHECK(context.problems.empty());
    CHECK(context.blanks == std::vector<std::string>{"flow", "part/length"});
}

TEST_CASE("a form that is not the field's is refused", "[fields][record]")
{
    CHECK(must_refuse({{"flow", list({text("45 gpm")})}}).message == "flow is one value, but a list stands here");
    CHECK(must_refuse({{"flow", map({{"value", text("45 gpm")}})}}).advice == "write 'flow: 45 gpm'");
    CHECK(must_refuse({{"part", text("3 ft")}}).message == "part is a group of fields, but a single value stands here");
    CHECK(must_refuse({{"noticed", map({{"seen", text("noise")}})}}).message ==
          "noticed is a list, but a group of fields stands here");
    CHECK(must_refuse({{"noticed", map({{"seen", text("noise")}})}}).advice == "start each line with '- '");
    CHECK(must_read({{"noticed", text("noise")}}).noticed.size() == 1); // a list of one
    CHECK(must_refuse({{"names", list({list({})})}}).message == "names is one value, but a list stands here");
    CHECK(must_refuse({{"parts", list({})}}).message == "parts is a group of fields, but a list stands here");
    CHECK(must_refuse({{"noticed", list({blank()})}}).message == "note is a group of fields, but nothing stands here");
    Sample out;
    fields::ReadContext context;
    CHECK_FALSE(fields::read_record(text("18 psi"), out, context));
    CHECK(context.problems.at(0).message == "sample is a group of fields, but a single value stands here");
}

TEST_CASE("a value that can't be is refused, an odd one is used and told", "[fields][record][range]")
{
    auto const refused = must_refuse({{"temperature", text("31 degF")}});
    CHECK(refused.message == "temperature of '31 degF' can't be");
    CHECK(refused.advice == "between 32 °F and 130 °F is possible; check the number and its unit");
    CHECK(refused.path == "temperature");
    CHECK_FALSE(must_read({{"temperature", text("32 degF")}}).temperature->value.value() <
                273.1499999); // the limits themselves are in
    CHECK(must_read({{"temperature", text("130 degF")}}).temperature.has_value());
    CHECK(must_refuse({{"counts", map({{"elbow", text("201")}})}}).message == "counts of '201' can't be");

    Sample out;
    fields::ReadContext context;
    CHECK(fields::read_record(map({{"gauge", text("90 psi", 7, 3)}}), out, context));
    REQUIRE(context.oddities.size() == 1);
    CHECK(context.oddities[0].message == "gauge of 90 psi is unusual");
    CHECK(context.oddities[0].advice == "usual is 2 psi to 40 psi; look again at the reading and its unit");
    CHECK(context.oddities[0].place.line == 7);
    CHECK_THAT(units::in_si(out.gauge), WithinRel(90 * 6894.757293168361, 1e-12));
}

TEST_CASE("a problem of a quantity points at the part of the text that is wrong", "[fields][record]")
{
    auto const bad = must_refuse({{"flow", text("45 gmp", 4, 9)}});
    CHECK(bad.place.line == 4);
    CHECK(bad.place.column == 12);
    CHECK(bad.length == 3);
    CHECK(bad.message == "'gmp' is not a unit of flow");
    Node quoted = text("45 gmp", 4, 9);
    quoted.quoted = true;
    CHECK(must_refuse({{"flow", quoted}}).place.column == 13);
}

TEST_CASE("choices: case and spacing aside, the nearest one offered", "[fields][record][choice]")
{
    CHECK(must_read({{"colour", text("Light-Green")}}).colour == Colour::light_green);
    CHECK(must_refuse({{"colour", text("blak")}}).message == "'blak' is not a colour I know");
    CHECK(must_refuse({{"colour", text("blak")}}).advice == "did you mean 'black'? (clear, light_green, black)");
    CHECK(must_refuse({{"colour", text("purple")}}).advice == "one of: clear, light_green, black");
    CHECK(must_refuse({{"colours", list({text("clear"), text("purple")})}}).path == "colours/2");
}

TEST_CASE("yes and no in the ways people write them", "[fields][record]")
{
    for (char const* yes : {"yes", "YES", "true", "y", "on"})
        CHECK(must_read({{"runs", text(yes)}}).runs == true);
    for (char const* no : {"no", "No", "false", "n", "off"})
        CHECK(must_read({{"runs", text(no)}}).runs == false);
    CHECK(must_refuse({{"runs", text("maybe")}}).message == "runs is yes or no; 'maybe' is neither");
    CHECK(must_refuse({{"runs", text("1")}}).message == "runs is yes or no; '1' is neither");
}

TEST_CASE("dates exist in the calendar and count hours from 1970", "[fields][record][moment]")
{
    auto hours = [](std::string const& date) { return must_read({{"at", text(date)}}).at->hours; };
    CHECK(hours("1970-01-01") == 0);
    CHECK(hours("1970-01-02 1:30") == 25.5);
    CHECK(hours("1970-01-02 01:30") == 25.5);
    CHECK(hours("2000-03-01") ==
          11017 * 24.0); // days to 2000-03-01 by counting: 30 years x 365 + 7 leap days + 31 + 29
    CHECK(hours("2026-05-14T10:30") == hours("2026-05-14 10:30"));
    CHECK(hours("2024-03-01") - hours("2024-02-28") == 48);
    CHECK(hours("2023-03-01") - hours("2023-02-28") == 24);
    CHECK(hours("2025-01-01") - hours("2024-01-01") == 366 * 24);
    CHECK(hours("2000-02-29") > 0);
    CHECK(hours("1969-12-31 23:00") == -1);
    for (char const* bad :
         {"2023-02-29", "1900-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "2026-05-00", "2026-5-14", "14.05.2026",
          "05/14/2026", "2026-05-14 24:00", "2026-05-14 10:60", "2026-05-14 10:30:00", "1776-07-04", "", "yesterday",
          "2026-05-14x10:30", "2026-05-1\xc2\xbd"})
    {
        INFO("date '" << bad << "'");
        CHECK(must_refuse({{"at", text(bad)}}).message ==
              "'" + std::string(bad) + "' is not a date; at wants year-month-day, with a time if you like");
    }
}

TEST_CASE("pump curves in every way to write one, falling and in order", "[fields][record][curve]")
{
    auto same = [](Node const& node)
    {
        auto const curve = must_read({{"curve", node}}).curve;
        REQUIRE(curve.has_value());
        REQUIRE(curve->size() == 3);
        CHECK_THAT(units::in_si((*curve)[1].flow), WithinRel(40 * 6.30901964e-5, 1e-12));
        CHECK_THAT(units::in_si((*curve)[1].head), WithinRel(68 * 0.3048, 1e-12));
    };
    same(text("0 gpm:80 ft, 40 gpm:68 ft, 75 gpm:40 ft"));
    same(text("0 gpm: 80 ft; 40 gpm: 68 ft; 75 gpm: 40 ft"));
    same(list({text("0 gpm at 80 ft"), text("40 gpm at 68 ft"), text("75 gpm at 40 ft")}));
    same(list({map({{"0 gpm", text("80 ft")}}), map({{"40 gpm", text("68 ft")}}), map({{"75 gpm", text("40 ft")}})}));
    same(map({{"0 gpm", text("80 ft")}, {"40 gpm", text("68 ft")}, {"75 gpm", text("40 ft")}}));

    CHECK(must_refuse({{"curve", text("0 gpm:80 ft, 40 gpm:68 ft")}}).message ==
          "a pump curve wants three or more points; 2 given");
    CHECK(must_refuse({{"curve", text("0 gpm:80 ft, 40 gpm:68 ft, 30 gpm:40 ft")}}).message ==
          "the points of a pump curve must go up in flow and down in head");
    CHECK(must_refuse({{"curve", text("0 gpm:80 ft, 40 gpm:90 ft, 75 gpm:40 ft")}}).message ==
          "the points of a pump curve must go up in flow and down in head");
    CHECK(must_refuse({{"curve", text("0 gpm:80 ft, 40 gpm, 75 gpm:40 ft")}}).message ==
          "'40 gpm' is not a point of a curve");
    CHECK(must_refuse({{"curve", text("0 gpm:80 ft, 40 psi:68 ft, 75 gpm:40 ft")}}).message ==
          "'40 psi' is a pressure; a curve point's flow is a flow");
    CHECK(must_refuse({{"curve", text("0 gpm:80 ft, 40 gpm:68 psi, 75 gpm:40 ft")}}).message ==
          "'68 psi' is a pressure; a curve point's head is a head");
}

TEST_CASE("instruments give the doubt that was not written, and see the whole record", "[fields][record][instruments]")
{
    fields::ReadContext context;
    std::vector<std::string> asked;
    std::vector<std::pair<std::string, units::Reading>> readings;
    context.readings = &readings;
    context.instruments = [&](units::Reading const& reading, std::string const& row, Node const& record)
    {
        asked.push_back(row + (record.find("where") != nullptr ? "@" + record.at("where").text : std::string()));
        return fields::InstrumentDoubt{reading.value / 10, "ruler"};
    };
    Sample const s = read_sample(
        {{"flow", text("45 ± 5 gpm")}, {"part", map({{"where", text("under")}, {"length", text("3 ft")}})}}, context);
    CHECK(context.problems.empty());
    CHECK(asked == std::vector<std::string>{"tape@under"}); // the written doubt wins, the gauge has no instrument
    CHECK_THAT(units::in_si(s.part->length->doubt), WithinRel(0.3 * 0.3048, 1e-12));
    CHECK(s.part->length->method == "ruler");
    CHECK(s.flow->method == "written");
    REQUIRE(readings.size() == 3);
    CHECK(readings[0].first == "gauge");
    CHECK(readings[2].first == "length");
    CHECK(readings[2].second.method == "ruler");
}

TEST_CASE("all problems of a record come at once, each with its path", "[fields][record]")
{
    fields::ReadContext context;
    read_sample({{"flow", text("45 psi")},
                 {"wombat", text("x")},
                 {"runs", text("perhaps")},
                 {"part", map({{"length", text("200 ft")}})},
                 {"noticed", list({text("noise"), map({{"sene", text("x")}})})},
                 {"parts", map({{"suction", map({{"length", text("3 psi")}})}})}},
                context);
    std::vector<std::string> paths;
    for (auto const& p : context.problems)
        paths.push_back(p.path);
    std::sort(paths.begin(), paths.end());
    CHECK(paths == std::vector<std::string>{"", "flow", "noticed/2", "part/length", "parts/suction/length", "runs"});
}

TEST_CASE("a declaration that contradicts itself is a mistake of the program", "[fields][record]")
{
    fields::FieldShape shape;
    shape.name = "gauge";
    shape.measure = units::Measure::gauge_pressure;
    CHECK_THROWS_AS(fields::declared_value("45 gpm", shape), std::logic_error);
    CHECK_THAT(fields::declared_value("18 psi", shape), WithinRel(18 * 6894.757293168361, 1e-12));
}

TEST_CASE("shapes describe themselves for help", "[fields][shape]")
{
    auto const& shape = Sample::declaration().shape();
    CHECK(shape.find("gauge")->describe(units::System::us) == "a pressure, -15 psi to 150 psi");
    CHECK(shape.find("gauge")->sample() == "12 psi");
    CHECK(shape.find("flow")->describe(units::System::si) == "a flow");
    CHECK(shape.find("flow")->sample() == "45 gpm");
    CHECK(shape.find("colour")->describe(units::System::us) == "clear | light_green | black");
    CHECK(shape.find("colours")->describe(units::System::us) == "a list of: clear, light_green, black");
    CHECK(shape.find("at")->describe(units::System::us) == "a date, or a date and time");
    CHECK(shape.find("parts")->describe(units::System::us) == "a group for each, under a name of your own");
    CHECK(shape.find("wombat") == nullptr);
    CHECK(shape.find("noticed")->inner() == &Note::declaration().shape());
}

TEST_CASE("keys and nearest names", "[fields][node]")
{
    CHECK(fields::normal_key("not seen-here") == "not_seen_here");
    std::vector<std::string> const known{"free_chlorine", "total_chlorine", "filter_gauge", "on"};
    CHECK(fields::nearest("free chlorin", known) == "free_chlorine");
    CHECK(fields::nearest("gauge", known) == "filter_gauge");
    CHECK(fields::nearest("wombat", known).empty());
    CHECK(fields::nearest("", known).empty());
    CHECK(fields::nearest(std::string(100, 'x'), known).empty());
    Node const node = map({{"a", text("1")}});
    CHECK(node.at("a").text == "1");
    CHECK(node.find("b") == nullptr);
    CHECK_THROWS_AS(node.at("b"), std::out_of_range);
}
