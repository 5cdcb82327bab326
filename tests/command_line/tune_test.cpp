#include "catch_compat.hpp"

#include "padwalk/command_line/program.hpp"
#include "padwalk/reference/yaml.hpp"

#include <nlohmann/json.hpp>

#include <map>
#include <sstream>

using namespace padwalk;

namespace
{

using Files = std::map<std::string, std::string>;

struct Ran
{
    int status = -1;
    std::string out, err;
    Files written;
};

/// `padwalk tune` on a folder in memory.
Ran tune(std::vector<std::string> const& more, Files const& folder, Files const& there = {})
{
    std::istringstream in;
    std::ostringstream out, err;
    Ran ran;
    ran.written = there;
    command_line::World world{in,
                              out,
                              err,
                              false,
                              80,
                              [](std::string const& path) -> std::string
                              { throw command_line::FileProblem("there is no file '" + path + "'"); },
                              [&](std::string const& path, std::string const& text, bool replace)
                              {
                                  if (!replace && ran.written.contains(path))
                                      throw command_line::FileProblem("'" + path + "' is there already");
                                  ran.written[path] = text;
                              },
                              [&](std::string const& path, std::function<bool(std::string_view)> const& wanted)
                                  -> std::vector<std::pair<std::string, std::string>>
                              {
                                  if (path != "visits")
                                      throw command_line::FileProblem("there is no folder '" + path + "'");
                                  std::vector<std::pair<std::string, std::string>> listed;
                                  for (auto const& file : folder)
                                      if (wanted(file.first))
                                          listed.push_back(file);
                                  return listed;
                              }};
    std::vector<std::string> arguments{"tune"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    ran.status = command_line::run(arguments, world);
    ran.out = out.str();
    ran.err = err.str();
    return ran;
}

std::string pump(std::string const& found)
{
    return "loops:\n  l:\n    pump: {noticed: [grinding noise]" + (found.empty() ? "" : ", found: [" + found + "]") +
           "}\n";
}

Files clogged(int n)
{
    Files out;
    for (int i = 0; i < n; ++i)
        out["v" + std::to_string(i) + ".yaml"] = pump("impeller clogged");
    return out;
}

fields::Node const& at(fields::Node const& map, std::string const& key)
{
    for (auto const& entry : map.entries)
        if (entry.key == key)
            return entry.value;
    FAIL("no key " << key);
    return map;
}

} // namespace

TEST_CASE("tune: proposes on standard output, as YAML that reads back and as JSON with the same numbers")
{
    auto const yaml = tune({"visits"}, clogged(12));
    CHECK(yaml.status == 0);
    CHECK(yaml.err.empty());
    CHECK(yaml.written.empty());
    CHECK(yaml.out.find("# ") == 0);
    CHECK(yaml.out.find("nothing is changed") != std::string::npos);
    CHECK(yaml.out.find("Not corrected for") != std::string::npos);
    auto const read = reference::read_yaml(yaml.out);
    auto const json = nlohmann::json::parse(tune({"visits", "--json"}, clogged(12)).out);
    auto const& first = at(read, "base_rates").items.at(0);
    CHECK(at(first, "cause").text == "pump_impeller_clogged");
    CHECK(json["base_rates"][0]["cause"] == "pump_impeller_clogged");
    CHECK(json["base_rates"].size() == at(read, "base_rates").items.size());
    CHECK(json["link_weights"].size() == at(read, "link_weights").items.size());
    for (auto const* key : {"old", "new", "low", "high"})
        CHECK(std::stod(at(first, key).text) == json["base_rates"][0][key].get<double>());
    CHECK(at(first, "would_change").text == json["base_rates"][0]["would_change"]);
    CHECK(at(first, "would_change").text.find("found at 12 of 12 items looked into") != std::string::npos);
    CHECK(json["base_rates"][0]["counts"]["there"] == 12);
    CHECK(json["visits"]["with_found"] == 12);
    CHECK(json["scores"]["causes_confirmed"] == 12);
    CHECK(json["scores"]["brier_score"].get<double>() > 0.5); // a grinding noise speaks for bearings
    CHECK(json["about"].size() >= 3);
}

TEST_CASE("tune: --out writes a file whole and replaces one only with --force")
{
    auto const fresh = tune({"visits", "--out", "p.yaml"}, clogged(3));
    CHECK(fresh.status == 0);
    CHECK(fresh.out.empty());
    CHECK(fresh.written.size() == 1);
    CHECK(fresh.written.at("p.yaml") == tune({"visits"}, clogged(3)).out);
    auto const refused = tune({"visits", "--out", "p.yaml"}, clogged(3), {{"p.yaml", "old"}});
    CHECK(refused.status == 3);
    CHECK(refused.written.at("p.yaml") == "old");
    CHECK(tune({"visits", "--out", "p.yaml", "--force"}, clogged(3), {{"p.yaml", "old"}}).written.at("p.yaml") !=
          "old");
}

TEST_CASE("tune: a file that can't be read is named with its error, and the others go on")
{
    auto files = clogged(2);
    files["sub/bad.yaml"] = "loops:\n  l: {pumpe: {}}\n";
    auto const ran = tune({"visits", "--json"}, files);
    CHECK(ran.status == 0);
    CHECK(ran.err.find("sub/bad.yaml:2:7: error: unknown key 'pumpe'") == 0);
    CHECK(ran.err.find("sub/bad.yaml was left out") != std::string::npos);
    auto const json = nlohmann::json::parse(ran.out);
    CHECK(json["visits"]["with_found"] == 2);
    REQUIRE(json["not_read"].size() == 1);
    CHECK(json["not_read"][0]["file"] == "sub/bad.yaml");
    CHECK(tune({"visits"}, {{"bad.yaml", "{"}}).status == 3); // none could be read
}

TEST_CASE("tune: a folder without any found, an empty one, none")
{
    auto const ran = tune({"visits"}, {{"a.yaml", pump("")}});
    CHECK(ran.status == 0);
    CHECK(ran.err.find("has a 'found:'") != std::string::npos);
    CHECK(ran.out.find("nothing to learn from") != std::string::npos);
    CHECK(at(reference::read_yaml(ran.out), "base_rates").items.empty());
    CHECK(tune({"visits"}, {}).err.find("has a 'found:'") != std::string::npos);
    CHECK(tune({"nowhere"}, {}).status == 3);
    CHECK(tune({}, {}).err == "padwalk: name the folder of visits, for example 'padwalk tune visits'\n");
}

TEST_CASE("tune: free words that break a line or a quote stay within the file")
{
    auto const ran = tune({"visits"}, {{"a \"b\": #c.yaml", "loops: [\n"}, {"b.yaml", pump("impeller clogged")}});
    auto const read = reference::read_yaml(ran.out);
    CHECK(at(at(read, "not_read").items.at(0), "file").text == "a \"b\": #c.yaml");
}
