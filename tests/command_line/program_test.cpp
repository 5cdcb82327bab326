#include "catch_compat.hpp"
#include "run_program.hpp"

#include <nlohmann/json.hpp>

using namespace padwalk;
using tests::run_program;

TEST_CASE("program: help fits a screen and names every command and option")
{
    auto const help = run_program({"--help"});
    CHECK(help.status == 0);
    CHECK(std::count(help.out.begin(), help.out.end(), '\n') <= 24);
    for (auto const* word :
         {"assess",  "client",  "refer",  "documents", "water",      "next",    "why",    "walk",
          "tune",    "check",   "figure", "sheet",     "schema",     "--units", "--json", "--html",
          "--force", "--lines", "--data", "--version", "--language", "--for",   "--out",  "exit status"})
        CHECK(help.out.find(word) != std::string::npos);
    CHECK(run_program({}).out == help.out);
    CHECK(run_program({"assess", "--help"}).out == help.out);
    std::size_t longest = 0, start = 0;
    for (std::size_t i = 0; i < help.out.size(); ++i)
        if (help.out[i] == '\n')
        {
            longest = std::max(longest, i - start);
            start = i + 1;
        }
    CHECK(longest <= 82);
}

TEST_CASE("program: usage errors are one clear line and status 3")
{
    struct Row
    {
        std::vector<std::string> arguments;
        std::string err;
    };
    for (auto const& row :
         {Row{{"asess", "v.yaml"}, "padwalk: unknown command 'asess'; did you mean 'assess'?\n"},
          Row{{"frobnicate"}, "padwalk: unknown command 'frobnicate'; 'padwalk --help' lists them\n"},
          Row{{"assess"}, "padwalk: name the visit file, for example 'padwalk assess visit.yaml'\n"},
          Row{{"assess", "missing.yaml"}, "padwalk: there is no file 'missing.yaml'\n"},
          Row{{"figure", "turnovr"}, "padwalk: no figure 'turnovr'; did you mean 'turnover'?\n"},
          Row{{"figure", "--lines"},
              "padwalk: --lines wants the name of one figure and no key=value, for example 'padwalk figure turnover "
              "--lines'\n"},
          Row{{"assess", "v.yaml", "--units", "metric"}, "padwalk: --units is us or si, not 'metric'\n"},
          Row{{"schema", "--data", "nowhere"}, ""}})
    {
        auto const ran = run_program(row.arguments);
        INFO(row.arguments.front());
        if (!row.err.empty())
        {
            CHECK(ran.status == 3);
            CHECK(ran.err == row.err);
            CHECK(ran.out.empty());
        }
    }
}

TEST_CASE(
    "program: all problems of a file in one go, with the line, a caret and what would pass, nothing is calculated")
{
    auto const ran = run_program(
        {"assess", "v.yaml"},
        {{"v.yaml",
          "waters:\n  pool:\n    tests: [{ph: 15, free_chlorin: 2 ppm}]\nloops:\n  l:\n    suction_gauge: 45 gpm\n"}});
    CHECK(ran.status == 3);
    CHECK(ran.out.empty());
    CHECK(ran.err == "v.yaml:3:18: error: ph of '15' can't be\n"
                     "    3 |     tests: [{ph: 15, free_chlorin: 2 ppm}]\n"
                     "      |                  ^^\n"
                     "  between 0 and 14 is possible; check the number and its unit\n"
                     "v.yaml:3:22: error: unknown key 'free_chlorin' under test\n"
                     "    3 |     tests: [{ph: 15, free_chlorin: 2 ppm}]\n"
                     "      |                      ^^^^^^^^^^^^\n"
                     "  did you mean 'free_chlorine'?\n"
                     "v.yaml:6:20: error: '45 gpm' is a flow; suction_gauge is a pressure\n"
                     "    6 |     suction_gauge: 45 gpm\n"
                     "      |                    ^^^^^^\n"
                     "  write it like '18 psi'\n"
                     "3 errors; nothing was calculated\n");
}

TEST_CASE("program: exit status says nothing to refer, something, unsafe")
{
    CHECK(run_program({"assess", "-"}, {}, "loops:\n  l:\n    pump: {runs: yes}\n").status == 0);
    CHECK(run_program({"assess", "-"}, {}, "loops:\n  l:\n    pump: {noticed: [grinding noise]}\n").status == 1);
    CHECK(run_program({"assess", "-"}, {}, "heaters:\n  h: {noticed: [smell of gas]}\n").status == 2);
}

TEST_CASE("program: why explains one cause, next says what to check, and both say what is unsafe first")
{
    std::string const visit = "by: inspector\nloops:\n  l: {pump: {runs: yes, age: 12 years, noticed: [grinding noise "
                              "from the motor]}}\n";
    auto const why = run_program({"why", "v.yaml", "worn", "bearings"}, {{"v.yaml", visit}});
    CHECK(why.status == 1);
    for (auto const* part :
         {"Motor bearings worn", "Before anything is seen", "What was looked at", "What was not", "natural log"})
        CHECK(why.out.find(part) != std::string::npos);
    CHECK(why.out.find("Whom to call") == std::string::npos);
    auto const json =
        nlohmann::json::parse(run_program({"why", "v.yaml", "worn bearings", "--json"}, {{"v.yaml", visit}}).out);
    CHECK(json.at("asked").at(0).at("id") == "pump_bearings_worn");
    CHECK(
        run_program({"next", "v.yaml"}, {{"v.yaml", "loops:\n  l: {pump: {runs: yes}}\n"}}).out.find("Nothing that") !=
        std::string::npos);
    auto const next = run_program({"next", "v.yaml"},
                                  {{"v.yaml", "by: inspector\nloops:\n  l: {noticed: [weak flow at the returns]}\n"}});
    CHECK(next.status == 1);
    CHECK(next.out.find("What you could check next") != std::string::npos);
    CHECK(next.out.find("if not: ") != std::string::npos);
    CHECK(next.out.find("Item by item") == std::string::npos);
    auto const unsafe =
        run_program({"next", "v.yaml"}, {{"v.yaml", "heaters:\n  h: {energy: propane, noticed: [smell of gas]}\n"}});
    CHECK(unsafe.status == 2);
    CHECK(unsafe.out.find("No check is proposed") != std::string::npos);
    CHECK(unsafe.out.find("leave") != std::string::npos);
    auto refused = [&](std::vector<std::string> arguments, std::string const& said)
    {
        auto const ran = run_program(arguments, {{"v.yaml", visit}});
        CHECK(ran.status == 3);
        INFO(ran.err);
        CHECK(ran.err.find(said) != std::string::npos);
    };
    refused({"why", "v.yaml"}, "say which cause");
    refused({"why", "v.yaml", "purple", "elephants"}, "no cause is called");
    refused({"why", "v.yaml", "leak"}, "may mean");
    refused({"why", "v.yaml", "vent_uncapped"}, "can't be at this property");
    refused({"next"}, "name the visit file");
}

TEST_CASE("program: how a fill valve is reached is said once to each trade that comes for it")
{
    auto const ran =
        run_program({"assess", "v.yaml"},
                    {{"v.yaml", "waters:\n  pool: {kind: pool}\nfill_valves:\n  f: {fills: pool, flow: 0 gpm, "
                                "access: cast_in, deck: one_piece}\n"}});
    std::string const said = "How it is reached";
    std::size_t const calls = ran.out.find("Whom to call"), items = ran.out.find("Item by item");
    std::string const referrals = ran.out.substr(calls, items - calls);
    std::size_t const first = referrals.find(said);
    CHECK(first != std::string::npos);
    CHECK(referrals.find("cuts into the shell") == referrals.rfind("cuts into the shell"));
}

TEST_CASE("program: a page is written whole, and an existing file is not replaced unless told to")
{
    std::map<std::string, std::string> const files{{"v.yaml", "loops:\n  l:\n    pump: {runs: yes}\n"},
                                                   {"old.html", "old"}};
    auto const fresh = run_program({"assess", "v.yaml", "--html", "new.html"}, files);
    CHECK(fresh.status == 0);
    CHECK(fresh.files.at("new.html").starts_with("<!doctype html>"));
    CHECK(fresh.err == "report written to new.html\n");
    auto const refused = run_program({"assess", "v.yaml", "--html", "old.html"}, files);
    CHECK(refused.status == 3);
    CHECK(refused.files.at("old.html") == "old");
    CHECK(run_program({"assess", "v.yaml", "--html", "old.html", "--force"}, files).files.at("old.html") != "old");
}

TEST_CASE("program: figures on the command line: turnover of 18,500 gal at 42 gpm is 7.34 h (gal / (60 gpm))")
{
    auto const ran = run_program({"figure", "turnover", "volume=18500 gal", "flow=42 gpm", "--json"});
    REQUIRE(ran.status == 0);
    auto const json = nlohmann::json::parse(ran.out);
    CHECK(json["figure"] == "turnover");
    CHECK(json["outputs"]["turnover"]["unit"] == "h");
    CHECK(std::abs(json["outputs"]["turnover"]["value"].get<double>() - 18500.0 / 42 / 60) < 1e-9);
    auto const doubted =
        nlohmann::json::parse(run_program({"figure", "turnover", "volume=18500 gal", "flow=42 ± 4 gpm", "--json"}).out);
    CHECK(doubted["outputs"]["turnover"]["low"].get<double>() < 7.0);
    CHECK(doubted["outputs"]["turnover"]["high"].get<double>() > 7.7);
}

TEST_CASE("program: figure lines answer each line and never stop at a bad one")
{
    std::string const input = "{\"volume\": \"18500 gal\", \"flow\": \"42 gpm\"}\n"
                              "not json\n"
                              "{\"volume\": \"18500 gal\"}\n"
                              "\n"
                              "{\"volume\": \"18500 gal\", \"flow\": \"42 psi\"}\n"
                              "{\"volume\": 18500, \"flow\": \"42 gpm\"}\n"
                              "{\"volume\": \"18500 gal\", \"flow\": \"42 gpm\", \"flow\": \"1 gpm\"}\n"
                              "[1]\n"
                              "{\"volume\": \"70 m3\", \"flow\": \"160 L/min\"}\n";
    auto const ran = run_program({"figure", "turnover", "--lines"}, {}, input);
    CHECK(ran.status == 0);
    std::vector<nlohmann::json> lines;
    std::istringstream stream(ran.out);
    for (std::string line; std::getline(stream, line);)
        lines.push_back(nlohmann::json::parse(line));
    REQUIRE(lines.size() == 8);
    CHECK(lines[0].contains("outputs"));
    for (std::size_t i : {1u, 2u, 3u, 4u, 5u, 6u})
    {
        INFO(i);
        CHECK(lines[i].contains("error"));
        CHECK_FALSE(lines[i]["error"]["message"].get<std::string>().empty());
    }
    CHECK(lines[3]["error"]["message"] == "'42 psi' is a pressure");
    CHECK(lines[3]["error"]["problems"][0]["message"] == "'42 psi' is a pressure; flow wants a flow, such as 45 gpm");
    CHECK(lines[1]["line"] == 2);
    CHECK(lines[3]["line"] == 5); // the blank line before is counted
    CHECK_FALSE(lines[0].contains("line"));
    CHECK(std::abs(lines[7]["outputs"]["turnover"]["value"].get<double>() - 70.0 / 0.160 / 60) < 1e-9);
}

TEST_CASE("program: figure --json without a name lists names and titles")
{
    auto const list = nlohmann::json::parse(run_program({"figure", "--json"}).out);
    REQUIRE(list.is_array());
    CHECK(list.size() > 20);
    for (auto const& one : list)
    {
        CHECK_FALSE(one["figure"].get<std::string>().empty());
        CHECK_FALSE(one["title"].get<std::string>().empty());
    }
}

TEST_CASE("program: a key given twice on the command line has no line to name")
{
    auto const ran = run_program({"figure", "turnover", "volume=18500 gal", "flow=42 gpm", "flow=1 gpm"});
    CHECK(ran.status == 3);
    CHECK(ran.err.find("'flow' stands twice") != std::string::npos);
    CHECK(ran.err.find("line 0") == std::string::npos);
}

TEST_CASE("program: a pure number may be a JSON number or a string")
{
    auto const ran = run_program({"figure", "orifice_flow", "--lines"}, {},
                                 "{\"bore\": \"1/8 in\", \"pressure\": \"60 psi\", \"coefficient\": 0.62}\n{\"bore\": "
                                 "\"1/8 in\", \"pressure\": \"60 psi\", \"coefficient\": \"0.62\"}\n");
    std::istringstream stream(ran.out);
    std::string one, two;
    std::getline(stream, one);
    std::getline(stream, two);
    CHECK(one == two);
    CHECK(one.find("\"outputs\"") != std::string::npos);
}

TEST_CASE("program: every figure lists and explains itself")
{
    auto const list = run_program({"figure"});
    CHECK(list.status == 0);
    for (auto const* name :
         {"turnover", "total_dynamic_head", "heater_rise", "gas_input", "combustion_air", "carbon_monoxide_air_free",
          "saturation_handbook", "carbonate_alkalinity", "bucket_test", "evaporation", "dilution", "suction_margin",
          "pipe_velocity", "water_volume", "heat_up", "operating_point"})
    {
        INFO(name);
        CHECK(list.out.find(name) != std::string::npos);
        auto const about = run_program({"figure", name});
        CHECK(about.status == 0);
        CHECK(about.out.find("[") != std::string::npos); // a source key
    }
}

TEST_CASE("program: schema is JSON, draft 2020-12, a sheet reads back as a visit")
{
    auto const schema = nlohmann::json::parse(run_program({"schema"}).out);
    CHECK(schema["$schema"] == "https://json-schema.org/draft/2020-12/schema");
    auto const sheet = run_program({"sheet", "--for", "spa,pump,heater"});
    CHECK(sheet.status == 0);
    CHECK(run_program({"check", "s.yaml"}, {{"s.yaml", sheet.out}}).status == 0);
    CHECK(run_program({"sheet", "--for", "submarine"}).status == 3);
}

TEST_CASE("program: units us or si change what is printed and not what is found")
{
    std::map<std::string, std::string> const files{
        {"v.yaml", "waters:\n  spa: {shape: round, diameter: 2 m, depth: 90 cm, temperature: 37 degC}\n"}};
    auto const us = run_program({"assess", "v.yaml"}, files);
    auto const si = run_program({"assess", "v.yaml", "--units", "si"}, files);
    CHECK(us.status == si.status);
    CHECK(us.out.find("US gal") != std::string::npos);
    CHECK(si.out.find("US gal") == std::string::npos);
    CHECK(si.out.find("°C") != std::string::npos);
}
