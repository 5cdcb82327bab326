#include "catch_compat.hpp"
#include "run_program.hpp"

#include <nlohmann/json.hpp>

using namespace padwalk;
using tests::run_program;

namespace
{

std::vector<std::string> const readings{"water",
                                        "ph=7.9",
                                        "alkalinity=130 ppm",
                                        "calcium=260 ppm",
                                        "temperature=84 degF",
                                        "volume=16000 gal",
                                        "free_chlorine=0.5 ppm",
                                        "cyanurate=40 ppm",
                                        "area=450 ft2",
                                        "kind=pool"};

std::vector<std::string> with(std::vector<std::string> more)
{
    std::vector<std::string> all = readings;
    all.insert(all.end(), more.begin(), more.end());
    return all;
}

} // namespace

TEST_CASE("water command: readings and the visit file they stand for give one sheet")
{
    auto const typed = run_program(with({"--json"}));
    std::string const visit =
        "by: owner\nwaters:\n  water:\n    volume: 16000 gal\n    area: 450 ft2\n    kind: pool\n    tests:\n"
        "      - ph: 7.9\n        alkalinity: 130 ppm\n        calcium: 260 ppm\n        temperature: "
        "84 degF\n        free_chlorine: 0.5 ppm\n        cyanurate: 40 ppm\n";
    auto const filed = run_program({"water", "visit.yaml", "--json"}, {{"visit.yaml", visit}});
    CHECK(typed.err.empty());
    CHECK(typed.out == filed.out);
    CHECK(typed.status == 2); // hardly any chlorine: nobody goes in
    auto const sheet = nlohmann::json::parse(typed.out);
    auto const& water = sheet["waters"][0];
    CHECK(water["plan"]["outcome"] == "doses");
    CHECK(water["plan"]["steps"].size() >= 1);
    for (auto const& step : water["plan"]["steps"])
    {
        CHECK_FALSE(step["what"].get<std::string>().empty());
        CHECK_FALSE(step["why"].get<std::string>().empty());
        CHECK(step["before"].contains("ph"));
        CHECK(step["after"].contains("saturation_calcite"));
        for (auto const& id : step["cautions"])
            CHECK(sheet["sayings"].contains(id.get<std::string>()));
    }
    CHECK(water["forecast"]["days"].size() == 31);
    CHECK(water["swim"]["now"] == false);
    CHECK(run_program(with({"--json", "--days", "7"})).out.size() < typed.out.size());
}

TEST_CASE("water command: what is unsafe stands first in text and on the page, and all of it is escaped")
{
    auto const text = run_program(readings);
    CHECK(text.out.find("Danger") < text.out.find("What the water is doing"));
    CHECK(text.out.find("When to swim") < text.out.find("What to add"));
    CHECK(text.out.find("Never mix two chemicals") != std::string::npos);
    auto const page = run_program(with({"--html", "water.html"}));
    REQUIRE(page.files.count("water.html") == 1);
    auto const& html = page.files.at("water.html");
    CHECK(html.find("<!doctype html>") == 0);
    CHECK(html.find("Danger") < html.find("What to add"));
    CHECK(html.find("<script") == std::string::npos);
    auto const again = run_program(with({"--html", "water.html"}), page.files);
    CHECK(again.status == 3);
    CHECK(again.out.empty());
}

TEST_CASE("water command: what is no reading, has no unit or makes no sense is said, and nothing is computed")
{
    auto const unknown = run_program({"water", "alkalinty=90 ppm", "ph=7.5"});
    CHECK(unknown.status == 3);
    CHECK(unknown.out.empty());
    CHECK(unknown.err.find("did you mean 'alkalinity'?") != std::string::npos);
    auto const unit = run_program({"water", "alkalinity=90", "ph=7.5"});
    CHECK(unit.status == 3);
    CHECK(unit.err.find("'90' has no unit") != std::string::npos);
    CHECK(run_program({"water"}).err.find("name the visit file or give readings") != std::string::npos);
    CHECK(run_program({"water", "visit.yaml", "ph=7"}).err.find("not both") != std::string::npos);
    CHECK(run_program(with({"--days", "0"})).err.find("--days is 1 to 400") != std::string::npos);
    CHECK(run_program({"water", "v.yaml"}, {{"v.yaml", "by: owner\n"}}).err.find("no water in v.yaml") !=
          std::string::npos);
    auto const quoted = run_program({"water", "ph=7.5", "notes=a \"word\" \\ and # more"});
    CHECK(quoted.err.empty());
    CHECK(quoted.status == 1); // nothing can be planned from a pH alone
}

TEST_CASE("water command: any water that can be typed ends in a sheet or a reason")
{
    for (auto const& row : std::vector<std::vector<std::string>>{
             {"ph=7.5", "alkalinity=5 ppm", "calcium=5 ppm", "temperature=33 degF", "volume=20 gal"},
             {"ph=9.9", "alkalinity=1900 ppm", "calcium=4900 ppm", "temperature=128 degF", "volume=2000000 gal"},
             {"ph=7.2", "alkalinity=20 ppm", "cyanurate=300 ppm", "calcium=200 ppm", "temperature=80 degF",
              "volume=9000 gal"},
             {"ph=7.2", "alkalinity=90 ppm", "salt=49000 ppm", "calcium=200 ppm", "temperature=80 degF",
              "volume=9000 gal"},
             {"ph=0.5", "alkalinity=0 ppm", "calcium=0 ppm", "temperature=80 degF", "volume=9000 gal", "area=300 ft2"},
             {"ph=7.5", "alkalinity=90 ppm", "calcium=200 ppm", "temperature=80 degF", "free_chlorine=290 ppm",
              "volume=9000 gal", "area=300 ft2"}})
    {
        std::vector<std::string> arguments{"water"};
        arguments.insert(arguments.end(), row.begin(), row.end());
        auto const ran = run_program(arguments);
        INFO(row.front() << " " << row[1] << "\n" << ran.err);
        CHECK(ran.err.empty());
        CHECK(ran.status >= 0);
        CHECK(ran.status <= 2);
        CHECK(ran.out.find("What to add") != std::string::npos);
    }
}
