#include "catch_compat.hpp"
#include "command_line/folder_world.hpp"
#include "command_line/run_program.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>

using namespace padwalk;
using tests::has;
using tests::run_on_folder;
using tests::run_program;
using tests::text_of_file;

namespace
{

using Folder = std::vector<std::pair<std::string, std::string>>;

std::string gauge(std::string const& date, std::string const& psi)
{
    return "on: " + date + "\nproperty: here\nloops:\n  l:\n    filter: {gauge: " + psi + " psi ± 0.5 psi}\n";
}

Folder const rising{{"1.yaml", gauge("2026-05-01", "10")},
                    {"2.yaml", gauge("2026-05-08", "12")},
                    {"3.yaml", gauge("2026-05-15", "14")}};

} // namespace

TEST_CASE("history: text, JSON and HTML of a folder")
{
    auto const text = run_on_folder({"history", "visits"}, rising);
    CHECK(text.status == 0);
    CHECK(text.err.empty());
    CHECK(has(text.out, "Here: log"));
    CHECK(has(text.out, "rises by 2.0 ± 0.3 psi a week"));
    auto const tree = nlohmann::json::parse(run_on_folder({"history", "visits", "--json"}, rising).out);
    auto const& log = tree["properties"][0];
    CHECK(log["property"] == "here");
    CHECK(log["visits"].size() == 3);
    auto const& series = log["series"][0];
    CHECK(series["label"] == "gauge");
    CHECK(series["unit"] == "psi");
    CHECK(series["figure"].is_null());
    CHECK(std::abs(series["trend"]["per_day"].get<double>() - 2.0 / 7) < 1e-8);
    CHECK(series["trend"]["shows"] == true);
    auto const html = run_on_folder({"history", "visits", "--html", "log.html"}, rising);
    CHECK(html.err == "log written to log.html\n");
    CHECK(has(html.files.at("log.html"), "<svg class=\"drawing\""));
    auto const refused = run_on_folder({"history", "visits", "--html", "log.html"}, rising, {{"log.html", "old"}});
    CHECK(refused.status == 3);
    CHECK(refused.files.at("log.html") == "old");
}

TEST_CASE("history: an empty folder, none, one visit, one that can't be read")
{
    auto const empty = run_on_folder({"history", "visits"}, {});
    CHECK(empty.status == 3);
    CHECK(empty.err == "no visit that could be read is in 'visits'\n");
    CHECK(run_on_folder({"history", "nowhere"}, {}).status == 3);
    CHECK(run_on_folder({"history"}, {}).err ==
          "padwalk: name the folder of visits, for example 'padwalk history visits'\n");
    auto const one = run_on_folder({"history", "visits"}, {rising[0]});
    CHECK(one.status == 0);
    CHECK(has(one.out, "One dated visit only"));
    auto with_bad = rising;
    with_bad.emplace_back("bad.yaml", "loops: {l: {pumpe: {}}}\n");
    auto const bad = run_on_folder({"history", "visits"}, with_bad);
    CHECK(bad.status == 0);
    CHECK(has(bad.err, "bad.yaml:1:"));
    CHECK(has(bad.err, "bad.yaml was left out; the others go on"));
    CHECK(has(bad.out, "rises by"));
    CHECK(has(bad.out, "bad.yaml could not be read"));
    CHECK(run_on_folder({"history", "visits"}, {{"bad.yaml", "{"}}).status == 3);
}

TEST_CASE("history: the order of the folder's list changes nothing, danger comes first and gives the status")
{
    auto turned = rising;
    std::reverse(turned.begin(), turned.end());
    CHECK(run_on_folder({"history", "visits"}, turned).out == run_on_folder({"history", "visits"}, rising).out);
    auto danger = rising;
    danger.emplace_back("4.yaml", "on: 2026-05-22\nproperty: here\nloops:\n  l: {drains: {main: {noticed: [cover "
                                  "missing]}}}\n");
    auto const ran = run_on_folder({"history", "visits"}, danger);
    CHECK(ran.status == 2);
    CHECK(ran.out.find("Danger") < ran.out.find("The visits"));
    danger.emplace_back("5.yaml", gauge("2026-05-29", "15"));
    auto const unseen = run_on_folder({"history", "visits"}, danger);
    CHECK(unseen.status == 2);
    CHECK(has(unseen.out, "nobody looked since"));
}

TEST_CASE("history: hostile text comes out as text")
{
    std::string const evil = "<script>alert(1)</script>";
    Folder folder;
    for (auto const* date : {"2026-05-01", "2026-05-08"})
        folder.emplace_back(std::string("<b>") + date + ".yaml",
                            "on: " + std::string(date) + "\nproperty: \"" + evil + "\"\nnotes: \"" + evil +
                                "\"\nloops:\n  \"" + evil + "\":\n    filter: {gauge: " +
                                (date[9] == '1' ? "10" : "14") + " psi ± 1 psi, notes: \"" + evil + "\"}\n");
    auto const ran = run_on_folder({"history", "visits", "--html", "log.html"}, folder);
    CHECK(ran.status == 0);
    CHECK_FALSE(has(ran.files.at("log.html"), "<script"));
    CHECK_FALSE(has(ran.files.at("log.html"), "<b>"));
    CHECK(has(ran.files.at("log.html"), "&lt;script&gt;"));
    CHECK(has(ran.out, evil));
}

TEST_CASE("history: help names both commands")
{
    auto const help = run_program({"--help"}).out;
    CHECK(has(help, "compare EARLIER LATER"));
    CHECK(has(help, "history FOLDER"));
}

TEST_CASE("scenarios: kept logs, byte for byte")
{
    std::size_t kept = 0;
    for (auto const& entry : std::filesystem::directory_iterator(std::string(PADWALK_SOURCE_FOLDER) + "/scenarios"))
    {
        std::string const folder = entry.path().string();
        if (!std::filesystem::exists(folder + "/expected.history.txt"))
            continue;
        INFO(folder);
        ++kept;
        Folder files;
        for (auto const& file : std::filesystem::directory_iterator(folder))
            if (file.path().extension() == ".yaml")
                files.emplace_back(file.path().filename().string(), text_of_file(file.path().string()));
        auto const ran = run_on_folder({"history", "visits"}, files);
        CHECK(ran.out == text_of_file(folder + "/expected.history.txt"));
        CHECK(std::to_string(ran.status) + "\n" == text_of_file(folder + "/expected.history.status"));
        CHECK(ran.err.empty());
    }
    CHECK(kept >= 1);
}
