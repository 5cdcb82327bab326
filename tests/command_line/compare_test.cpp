#include "catch_compat.hpp"
#include "command_line/folder_world.hpp"
#include "command_line/run_program.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>

using namespace padwalk;
using tests::has;
using tests::run_program;
using tests::text_of_file;

namespace
{

using Files = std::map<std::string, std::string>;

std::string visit(std::string const& date, std::string const& pump)
{
    return "on: " + date + "\nproperty: here\nloops:\n  l:\n    pump: {" + pump + "}\n";
}

std::string const grinds = visit("2026-05-01", "runs: yes, noticed: [grinding noise]");
std::string const mended =
    visit("2026-05-08", "runs: yes, noticed: [{not_seen: grinding noise}], found: [{was: motor bearings worn}]");
std::string const missing_cover =
    "on: 2026-05-08\nproperty: here\nloops:\n  l: {drains: {main: {noticed: [cover missing]}}}\n";

} // namespace

TEST_CASE("compare: text, JSON and HTML of a return visit, and the status by what is left")
{
    Files const files{{"a.yaml", grinds}, {"b.yaml", mended}, {"c.yaml", missing_cover}};
    auto const text = run_program({"compare", "a.yaml", "b.yaml"}, files);
    CHECK(text.status == 0);
    CHECK(text.err.empty());
    CHECK(has(text.out, "Here: two visits compared"));
    CHECK(has(text.out, "Confirmed on site: motor bearings worn (pump of l)"));
    CHECK(has(text.out, "resolved; looked for and not seen"));
    auto const json = run_program({"compare", "a.yaml", "b.yaml", "--json"}, files);
    auto const tree = nlohmann::json::parse(json.out);
    CHECK(tree["left"] == "nothing");
    CHECK(tree["resolved"].size() == 1);
    CHECK(tree["causes"][0]["id"] == "pump_bearings_worn");
    CHECK(tree["causes"][0]["found"] == "confirmed");
    CHECK(tree["on"]["now"] == "2026-05-08");
    auto const html = run_program({"compare", "a.yaml", "b.yaml", "--html", "c.html"}, files);
    CHECK(html.err == "comparison written to c.html\n");
    CHECK(has(html.files.at("c.html"), "Whom to call now") == has(html.out, "Whom to call now"));
    CHECK(has(html.files.at("c.html"), "<!doctype html>"));
    Files const there{{"a.yaml", grinds}, {"b.yaml", mended}, {"c.html", "old"}};
    auto const refused = run_program({"compare", "a.yaml", "b.yaml", "--html", "c.html"}, there);
    CHECK(refused.status == 3);
    CHECK(refused.files.at("c.html") == "old");
    CHECK(run_program({"compare", "a.yaml", "b.yaml", "--html", "c.html", "--force"}, there).files.at("c.html") !=
          "old");
    CHECK(run_program({"compare", "b.yaml", "a.yaml"}, files).status == 1);
    auto const unsafe = run_program({"compare", "a.yaml", "c.yaml"}, files);
    CHECK(unsafe.status == 2);
    CHECK(unsafe.out.find("Danger") < unsafe.out.find("In short"));
}

TEST_CASE("compare: the same file twice, wrong order, nothing in common: said at the top")
{
    Files const files{{"a.yaml", grinds}, {"b.yaml", mended}, {"c.yaml", "waters:\n  pool: {temperature: 80 degF}\n"}};
    auto const twice = run_program({"compare", "a.yaml", "a.yaml"}, files);
    CHECK(twice.status == 1);
    CHECK(has(twice.out, "Both files are the same"));
    CHECK(has(run_program({"compare", "b.yaml", "a.yaml"}, files).out, "later one by its date"));
    auto const apart = run_program({"compare", "a.yaml", "c.yaml"}, files);
    CHECK(has(apart.out, "nothing could be matched"));
    CHECK(has(apart.out, "only in the earlier file"));
}

TEST_CASE("compare: what can't be read, and what was asked wrongly")
{
    Files const files{{"a.yaml", grinds}, {"bad.yaml", "loops: {l: {pumpe: {}}}\n"}};
    auto const bad = run_program({"compare", "a.yaml", "bad.yaml"}, files);
    CHECK(bad.status == 3);
    CHECK(bad.out.empty());
    CHECK(has(bad.err, "bad.yaml:1:"));
    CHECK(has(bad.err, "nothing was compared"));
    CHECK(run_program({"compare", "a.yaml", "none.yaml"}, files).status == 3);
    for (auto const& arguments : {std::vector<std::string>{"compare"}, std::vector<std::string>{"compare", "a.yaml"},
                                  std::vector<std::string>{"compare", "a.yaml", "a.yaml", "a.yaml"}})
        CHECK(run_program(arguments, files).err ==
              "padwalk: name two visit files, the earlier first: padwalk compare visit.yaml return.yaml\n");
    CHECK(run_program({"compare", "-", "-"}, files).status == 3);
    CHECK(run_program({"compare", "a.yaml", "-"}, files, mended).status == 0);
}

TEST_CASE("compare: hostile text comes out as text")
{
    std::string const evil = "<script>alert(1)</script> & \\\"x\\\"";
    auto const hostile = [&](std::string const& date)
    {
        return "on: " + date + "\nproperty: \"" + evil + "\"\nnotes: \"" + evil + "\"\nloops:\n  \"" + evil +
               "\":\n    pump:\n      noticed: [\"grinding noise " + evil + "\"]\n      found: [{was: \"" + evil +
               "\"}]\n      not_tested: [{what: \"" + evil + "\", because: \"" + evil + "\"}]\n";
    };
    Files const files{{"a.yaml", hostile("2026-05-01")}, {"b.yaml", hostile("2026-05-02")}};
    auto const ran = run_program({"compare", "a.yaml", "b.yaml", "--html", "c.html"}, files);
    CHECK(ran.status != 3);
    std::string const& html = ran.files.at("c.html");
    CHECK_FALSE(has(html, "<script"));
    CHECK(has(html, "&lt;script&gt;"));
    CHECK(has(ran.out, "<script>"));
    CHECK_FALSE(nlohmann::json::parse(run_program({"compare", "a.yaml", "b.yaml", "--json"}, files).out).empty());
}

TEST_CASE("scenarios: kept comparisons, byte for byte")
{
    std::size_t kept = 0;
    for (auto const& entry : std::filesystem::directory_iterator(std::string(PADWALK_SOURCE_FOLDER) + "/scenarios"))
    {
        std::string const folder = entry.path().string();
        if (!std::filesystem::exists(folder + "/return.yaml"))
            continue;
        INFO(folder);
        ++kept;
        auto const ran = run_program({"compare", "visit.yaml", "return.yaml"},
                                     {{"visit.yaml", text_of_file(folder + "/visit.yaml")},
                                      {"return.yaml", text_of_file(folder + "/return.yaml")}});
        CHECK(ran.out == text_of_file(folder + "/expected.compare.txt"));
        CHECK(std::to_string(ran.status) + "\n" == text_of_file(folder + "/expected.compare.status"));
        CHECK(ran.err.empty());
    }
    CHECK(kept >= 1);
}
