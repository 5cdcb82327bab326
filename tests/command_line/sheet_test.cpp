#include "catch_compat.hpp"

#include "command_line/run_program.hpp"
#include "padwalk/visit/sheet.hpp"

using namespace padwalk;
using tests::run_program;

namespace
{

std::map<std::string, std::string> const files{
    {"v.yaml", "property: blue house\nwaters:\n  hot tub: {kind: spa}\nloops:\n  tub loop:\n    serves: [hot tub]\n"
               "    filter: {gauge: 22 psi, area: 100 ft2}\n"},
    {"bad.yaml", "loops:\n  a: {pumpe: {}}\n"}};

std::string all_parts()
{
    std::string out;
    for (auto const& part : visit::sheet_parts())
        out += (out.empty() ? "" : ",") + part;
    return out;
}

} // namespace

TEST_CASE("sheet: parts alone give a visit file to fill in, --paper the sheet for a pen")
{
    auto const file = run_program({"sheet", "--for", all_parts()});
    CHECK(file.status == 0);
    CHECK(run_program({"check", "s.yaml"}, {{"s.yaml", file.out}}).status == 0);
    auto const paper = run_program({"sheet", "--for", all_parts(), "--paper"});
    CHECK(paper.status == 0);
    CHECK(paper.err.empty());
    for (auto const* words : {"[____", "Smell of gas", "Carbon monoxide alarm sounding", "Tingle or shock",
                              "A drain cover loose", "[ ] yes  [ ] no  [ ] not checked", "# Filter: main loop", "psi"})
    {
        INFO(words);
        CHECK(paper.out.find(words) != std::string::npos);
    }
    CHECK(paper.out.find("Smell of gas") < paper.out.find("At the pad"));
    CHECK(paper.out.find("Basis:") == std::string::npos);
    CHECK(run_program({"sheet", "--paper"}).out.find("# Deck and coping: pool") != std::string::npos);
}

TEST_CASE("sheet: a visit's own items under their names, with what it knows")
{
    auto const ran = run_program({"sheet", "v.yaml"}, files);
    CHECK(ran.status == 0);
    CHECK(ran.out.find("Field sheet: blue house") == 0);
    CHECK(ran.out.find("# Filter: tub loop") != std::string::npos);
    CHECK(ran.out.find("# Water: hot tub") != std::string::npos);
    CHECK(ran.out.find("was 22 psi") != std::string::npos);
    CHECK(ran.out.find("100 ft²") != std::string::npos);
    CHECK(ran.out.find("# Heater") == std::string::npos);
    auto const part = run_program({"sheet", "v.yaml", "--for", "filter"}, files);
    CHECK(part.status == 0);
    CHECK(part.out.find("# Filter: tub loop") != std::string::npos);
    CHECK(part.out.find("hot tub") != std::string::npos); // what the loop serves
    CHECK(part.out.find("# Water") == std::string::npos);
    CHECK(run_program({"sheet", "--for", "filter", "v.yaml"}, files).out == part.out);
}

TEST_CASE("sheet: one HTML file, whole, and none is replaced unasked")
{
    auto const ran = run_program({"sheet", "v.yaml", "--html", "s.html"}, files);
    CHECK(ran.status == 0);
    CHECK(ran.out.empty());
    CHECK(ran.err.find("sheet written to s.html") == 0);
    CHECK(ran.files.at("s.html").find("<h3>Filter: tub loop</h3>") != std::string::npos);
    auto const again = run_program({"sheet", "--for", "spa", "--html", "s.html"}, ran.files);
    CHECK(again.status == 3);
    CHECK(again.files.at("s.html") == ran.files.at("s.html"));
    auto const forced = run_program({"sheet", "--for", "spa", "--html", "s.html", "--force"}, ran.files);
    CHECK(forced.status == 0);
    CHECK(forced.files.at("s.html").find("tub loop") == std::string::npos);
}

TEST_CASE("sheet: hostile names stay text")
{
    std::map<std::string, std::string> const hostile{
        {"v.yaml",
         "property: \"</style><script>alert(1)</script>\"\nloops:\n  \"<b onclick=x>\": {filter: {gauge: 22 psi}}\n"}};
    auto const html = run_program({"sheet", "v.yaml", "--html", "s.html"}, hostile).files.at("s.html");
    CHECK(html.find("<script") == std::string::npos);
    CHECK(html.find("<b ") == std::string::npos);
    CHECK(html.find("&lt;b onclick=x&gt;") != std::string::npos);
    CHECK(html.find("</style>") == html.rfind("</style>"));
}

TEST_CASE("sheet: units us or si are printed behind the boxes")
{
    auto const us = run_program({"sheet", "v.yaml"}, files),
               si = run_program({"sheet", "v.yaml", "--units", "si"}, files);
    CHECK(us.out.find("] psi") != std::string::npos);
    CHECK(us.out.find("] kPa") == std::string::npos);
    CHECK(si.out.find("] kPa") != std::string::npos);
    CHECK(si.out.find("] psi") == std::string::npos);
    CHECK(si.out.find("9.3 m²") != std::string::npos); // 100 ft², no finer than its doubt
}

TEST_CASE("sheet: what makes no sense is one clear line")
{
    auto const unknown = run_program({"sheet", "--for", "spa,sauna", "--paper"});
    CHECK(unknown.status == 3);
    CHECK(unknown.err.find("padwalk: 'sauna' is not a part of a sheet; there are: pool, spa,") == 0);
    CHECK(run_program({"sheet", "v.yaml", "--for", "sauna"}, files).err.find("'sauna' is not a part") !=
          std::string::npos);
    auto const nothing = run_program({"sheet"});
    CHECK(nothing.status == 3);
    CHECK(nothing.err.find("padwalk: say for what: padwalk sheet --for pool,") == 0);
    auto const bad = run_program({"sheet", "bad.yaml"}, files);
    CHECK(bad.status == 3);
    CHECK(bad.out.empty());
    CHECK(bad.err.find("did you mean 'pump'?") != std::string::npos);
    CHECK(run_program({"sheet", "gone.yaml"}, files).err == "padwalk: there is no file 'gone.yaml'\n");
}
