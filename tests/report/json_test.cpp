#include "catch_compat.hpp"

#include "padwalk/report/json.hpp"
#include "report/sample.hpp"

#include <nlohmann/json.hpp>

using namespace padwalk;
using fields::Node;
using fields::Tree;
using Json = nlohmann::ordered_json;

namespace
{

std::string const nasty = "\"quotes\" \\ </script> \x1b[31m \xff\xc0 \xe2\x80\xae 水\nline";

fields::Problem refused(std::string const& line)
{
    try
    {
        (void)report::node_of_json(line);
    }
    catch (fields::InputProblems const& problems)
    {
        REQUIRE(problems.list().size() == 1);
        return problems.list().front();
    }
    FAIL("was taken: " << line);
    return {};
}

std::vector<std::string> keys_of(Json const& object)
{
    std::vector<std::string> out;
    for (auto const& [key, value] : object.items())
        out.push_back(key);
    return out;
}

} // namespace

TEST_CASE("an assessment as JSON has its stable keys, also when empty", "[report][json]")
{
    std::vector<std::string> const keys{
        "outcome",    "alarms",    "summary",    "property",  "on",        "by",          "weather",       "notes",
        "items",      "verdicts",  "causes",     "referrals", "next",      "figures",     "limits_broken", "loops",
        "levels",     "fills",     "heaters",    "vents",     "warmings",  "readings",    "findings",      "found",
        "undecided",  "explained", "robustness", "asked",     "questions", "assumptions", "not_tested",    "oddities",
        "left_blank", "conflict",  "cautions",   "sources"};
    auto const model = tests::sample_model();
    CHECK(keys_of(Json::parse(report::as_json(tests::sample(model), units::System::us))) == keys);
    CHECK(keys_of(Json::parse(report::as_json(assess::Assessment{}, units::System::us))) == keys);
}

TEST_CASE("an assessment as JSON carries its content", "[report][json]")
{
    auto const model = tests::sample_model();
    auto const j = Json::parse(report::as_json(tests::sample(model), units::System::us));
    CHECK(j["outcome"] == "unsafe");
    CHECK(j["by"] == "inspector");
    CHECK(j["items"][2]["path"] == "loops/spa loop/pump");
    CHECK(j["alarms"][0]["urgency"] == "stop_use");
    CHECK(j["findings"][j["alarms"][0]["finding"].get<std::size_t>()]["id"] == "tingle");
    CHECK(j["verdicts"][1]["condition"] == "works_with_fault");
    CHECK(j["causes"][1]["probability"] == 0.82);
    CHECK(j["causes"][1]["in_words"] == "likely");
    CHECK(j["causes"][1]["evidence"]["for"][0]["log_odds"] == 3.4);
    CHECK(j["causes"][1]["evidence"]["against"][0]["finding"] == 1);
    CHECK(j["findings"][1]["state"] == "not_seen");
    CHECK(j["referrals"][2]["how_soon"] == "within days");
    CHECK(j["next"][0]["tells"].size() == 2);
    CHECK(j["oddities"][0]["line"] == 14);
    CHECK(j["sources"]["gum-2008"]["year"] == "2008");
    CHECK(j["cautions"]["electric_shock"].get<std::string>().find("Keep out of the water") == 0);
    CHECK(j["readings"][0]["reading"] == Json::parse(R"({"value": 18, "unit": "psi", "plus_minus": 2})"));
    CHECK(j["readings"][1]["reading"]["basis"] == "cyanuric acid");
    auto const& figure = j["figures"][0];
    CHECK(figure["name"] == "sample_turnover");
    CHECK(figure["inputs"]["flow"]["unit"] == "gpm");
    CHECK(figure["inputs"]["flow"]["value"] == 45);
    CHECK(figure["inputs"]["share"]["assumed"] == true);
    CHECK(figure["outputs"]["time"]["value"] == 355.5555556); // 16,000 / 45, ten digits
    CHECK(figure["outputs"]["time"]["low"] < 355.5);
    CHECK(figure["outputs"]["verdict"] == "slow");
    CHECK(figure["not_computed"].is_null());
    CHECK(j["figures"][1]["not_computed"] == "needs flow: flow of the loop");
}

TEST_CASE("published limits that a reading breaks stand in JSON, body by body", "[report][json]")
{
    assess::Assessment a;
    a.items = {{"property", "a house", "", "", "", {}}};
    a.limits_broken.push_back({0,
                               "pH",
                               "7.9",
                               {{"This State", "state-rule", "7.4 to 7.8", "indoor", false, true},
                                {"Old Book", "book-memory", "at most 7.7", "", true, false}},
                               5,
                               "This State",
                               "above"});
    auto const j = Json::parse(report::as_json(a, units::System::us))["limits_broken"];
    REQUIRE(j.size() == 1);
    CHECK(j[0] == Json::parse(R"({"item": 0, "parameter": "pH", "reading": "7.9", "broken_by": [
        {"body": "This State", "key": "state-rule", "bound": "7.4 to 7.8", "note": "indoor", "seen": "", "leads": true},
        {"body": "Old Book", "key": "book-memory", "bound": "at most 7.7", "note": "",
         "seen": "from memory, not confirmed", "leads": false}],
        "kept_by": 5, "leading": "This State", "leading_verdict": "above"})"));
}

TEST_CASE("a hostile visit still makes JSON that reads back", "[report][json]")
{
    auto const model = tests::sample_model();
    auto const text = report::as_json(tests::hostile(model, nasty), units::System::si);
    auto const j = Json::parse(text);
    CHECK(j["summary"].get<std::string>() == "\"quotes\" \\ </script> \x1b[31m \ufffd\ufffd \xe2\x80\xae 水\nline");
    CHECK(text.find('\x1b') == std::string::npos); // written as \u001b
    CHECK(j["sources"].size() == 1);
}

TEST_CASE("numbers in JSON have at most ten digits and no needless ones", "[report][json]")
{
    auto text = [](double value) { return report::json_of(Tree(value), false); };
    CHECK(text(3) == "3");
    CHECK(text(-0.0) == "0");
    CHECK(text(0.1 + 0.2) == "0.3");
    CHECK(text(1.0 / 3) == "0.3333333333");
    CHECK(text(2.0 / 3e7) == "6.666666667e-08");
    CHECK(text(123456.7890123) == "123456.789");
    CHECK(text(1e300) == "1e+300");
    CHECK(text(std::numeric_limits<double>::infinity()) == "null");
    CHECK(text(std::numeric_limits<double>::quiet_NaN()) == "null");
}

TEST_CASE("a tree as JSON keeps its order, on one line or indented", "[report][json]")
{
    Tree tree = Tree::map();
    tree.add("z", 1).add("a", Tree::list().push(true).push(Tree()).push("x\xff")).add("empty", Tree::map());
    CHECK(report::json_of(tree, false) == "{\"z\":1,\"a\":[true,null,\"x\ufffd\"],\"empty\":{}}");
    CHECK(report::json_of(Tree::map().add("z", 1), true) == "{\n  \"z\": 1\n}\n");
}

TEST_CASE("a line of JSON becomes the record as it was written", "[report][json]")
{
    Node const node = report::node_of_json(
        R"( {"flow": "45 gpm", "n": 1.50, "big": 12345678901234567890123, "e": -2E-3, "yes": true,"no":false , "none": null,
 "list": [1, "two", [3]], "in": {"deep": 0.1} } )");
    REQUIRE(node.kind == Node::Kind::map);
    CHECK(node.entries.size() == 9);
    CHECK(node.at("flow").text == "45 gpm");
    CHECK(node.at("flow").quoted);
    CHECK(node.at("flow").place.column == 11);
    CHECK(node.entries[0].place.column == 3);
    CHECK(node.at("n").text == "1.50");
    CHECK_FALSE(node.at("n").quoted);
    CHECK(node.at("n").place.column == 26);
    CHECK(node.at("big").text == "12345678901234567890123");
    CHECK(node.at("e").text == "-2E-3");
    CHECK(node.at("yes").text == "yes");
    CHECK(node.at("no").text == "no");
    CHECK(node.at("none").kind == Node::Kind::nothing);
    REQUIRE(node.at("list").items.size() == 3);
    CHECK(node.at("list").items[0].text == "1");
    CHECK(node.at("list").items[1].text == "two");
    CHECK(node.at("list").items[2].items.at(0).text == "3");
    CHECK(node.at("in").at("deep").text == "0.1");
    CHECK(report::node_of_json("{}").kind == Node::Kind::map);
    CHECK(report::node_of_json(R"({"a":"A é \" \\"})").at("a").text == "A é \" \\");
}

TEST_CASE("places of a line of JSON point at what was written", "[report][json]")
{
    std::string const line = R"({"a":1,"b" : [ 22, "x\"y" , true ],"c":{"d":null}})";
    Node const node = report::node_of_json(line);
    auto at = [&](std::size_t column) { return line.substr(column - 1); };
    CHECK(at(node.entries[0].place.column).find("\"a\"") == 0);
    CHECK(at(node.at("a").place.column).find("1,") == 0);
    CHECK(at(node.entries[1].place.column).find("\"b\"") == 0);
    CHECK(at(node.at("b").place.column).find("[ 22") == 0);
    CHECK(at(node.at("b").items[0].place.column).find("22,") == 0);
    CHECK(at(node.at("b").items[1].place.column).find("\"x") == 0);
    CHECK(at(node.at("b").items[2].place.column).find("true") == 0);
    CHECK(at(node.entries[2].place.column).find("\"c\"") == 0);
    CHECK(at(node.at("c").entries[0].place.column).find("\"d\"") == 0);
    CHECK(at(node.at("c").at("d").place.column).find("null") == 0);
}

TEST_CASE("a line that is no object of JSON is refused with its column", "[report][json]")
{
    CHECK(refused("").message == "the line is empty");
    CHECK(refused("  ").message == "the line is empty");
    CHECK(refused("[1]").message == "a list stands here, not an object");
    CHECK(refused(" 5").message == "a single value stands here, not an object");
    CHECK(refused("\"x\"").place.column == 1);
    CHECK(refused(R"({"a": 1, "b": 2, "a": 3})").message == "'a' stands twice, first in column 2");
    CHECK(refused(R"({"a": 1, "b": 2, "a": 3})").place.column == 18);
    CHECK(refused(R"({"x": {"a": 1, "a": 2}})").place.column == 16);
    for (auto const* line : {"{", "{\"a\"}", "{\"a\":}", "{\"a\":1,}", "{a:1}", "{'a':1}", "{\"a\":01}", "{\"a\":NaN}",
                             "{\"a\":+1}", "{\"a\":.5}", "{\"a\":1} x", "{\"a\":1}{}", "{\"a\":\"\xff\"}",
                             "{\"a\":\"\t\"}", "{\"a\":1e999}", "{\"a\":\"\\ud800\"}", "// c\n{}", "{\"a\":tru}"})
    {
        INFO(line);
        auto const problem = refused(line);
        CHECK(problem.message.find("not readable as JSON: ") == 0);
        CHECK(problem.message.find("exception") == std::string::npos);
        CHECK(problem.place.line == 1);
        CHECK(problem.place.column >= 1);
        CHECK(problem.advice.find("45 gpm") != std::string::npos);
    }
    CHECK(refused("{\"a\":1,}").place.column == 8);
    CHECK(refused("{\"a\":1} x").place.column == 9);
}

TEST_CASE("nesting of a line of JSON has an end", "[report][json]")
{
    auto nested = [](std::size_t depth)
    { return "{\"a\":" + std::string(depth - 1, '[') + std::string(depth - 1, ']') + "}"; };
    CHECK_NOTHROW(report::node_of_json(nested(16)));
    CHECK(refused(nested(17)).message == "nested more than 16 deep");
    CHECK(refused(nested(17)).place.column == 21); // '{"a":' and fifteen brackets come before it
    CHECK(refused("{\"a\":" + std::string(100000, '[')).message == "nested more than 16 deep");
}
