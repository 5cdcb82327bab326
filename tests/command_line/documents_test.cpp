// The commands that write documents: whom they are for, files that are there, and words that make no sense.

#include "catch_compat.hpp"
#include "run_program.hpp"

#include <filesystem>
#include <fstream>

using namespace padwalk;
using tests::run_program;

namespace
{

std::string const grinding =
    "loops:\n  spa loop:\n    pump:\n      runs: yes\n      noticed:\n        - grinding noise\n"
    "        - water drips between pump and motor\n";
std::string const tingle = grinding + "electrical:\n  noticed:\n    - someone felt a tingle at the rail\n";

std::map<std::string, std::string> visit(std::string const& text)
{
    return {{"visit.yaml", text}};
}

bool has(std::string const& text, std::string const& what)
{
    return text.find(what) != std::string::npos;
}

} // namespace

TEST_CASE("client: text, or a page that is not written over")
{
    auto const text = run_program({"client", "visit.yaml"}, visit(grinding));
    CHECK(text.status == command_line::something_to_refer);
    CHECK(has(text.out, "How things stand"));
    CHECK(text.err.empty());
    auto const page = run_program({"client", "visit.yaml", "--html", "c.html"}, visit(grinding));
    CHECK(page.out.empty());
    CHECK(has(page.files.at("c.html"), "<body class=\"client\">"));
    auto files = visit(grinding);
    files["c.html"] = "mine";
    auto const refused = run_program({"client", "visit.yaml", "--html", "c.html"}, files);
    CHECK(refused.status == command_line::input_problem);
    CHECK(refused.files.at("c.html") == "mine");
    CHECK(has(run_program({"client", "visit.yaml", "--html", "c.html", "--force"}, files).files.at("c.html"), "<html"));
    CHECK(run_program({"client", "visit.yaml"}, visit(tingle)).status == command_line::unsafe);
}

TEST_CASE("refer: one trade by its id or a word of its name, or each in turn")
{
    auto const all = run_program({"refer", "visit.yaml"}, visit(tingle));
    CHECK(all.status == command_line::unsafe);
    CHECK(has(all.out, "For the licensed electrician"));
    CHECK(has(all.out, "For the licensed pool and spa contractor"));
    auto const one = run_program({"refer", "visit.yaml", "--for", "electrician"}, visit(tingle));
    CHECK(has(one.out, "For the licensed electrician"));
    CHECK_FALSE(has(one.out, "pool and spa contractor\n"));
    CHECK(run_program({"refer", "visit.yaml", "--for", "pool and spa"}, visit(tingle)).status == command_line::unsafe);
    auto const spanish =
        run_program({"refer", "visit.yaml", "--for", "electrician", "--language", "es"}, visit(tingle));
    CHECK(has(spanish.out, "Para: "));
    auto const page = run_program({"refer", "visit.yaml", "--for", "electrician", "--html", "e.html"}, visit(tingle));
    CHECK(has(page.files.at("e.html"), "<body class=\"referral\">"));
    CHECK(has(run_program({"refer", "visit.yaml", "--for", "electrician", "--html", "e.html", "--language", "es"},
                          visit(tingle))
                  .files.at("e.html"),
              "<html lang=\"es\">"));
}

TEST_CASE("refer: a trade that is not needed, several with one file, none at all")
{
    auto const unknown = run_program({"refer", "visit.yaml", "--for", "plumber"}, visit(tingle));
    CHECK(unknown.status == command_line::input_problem);
    CHECK(has(unknown.err, "no 'plumber' is needed by this visit; needed: electrician"));
    auto const several = run_program({"refer", "visit.yaml", "--html", "x.html"}, visit(tingle));
    CHECK(several.status == command_line::input_problem);
    CHECK(has(several.err, "name one with --for"));
    CHECK_FALSE(several.files.contains("x.html"));
    auto const sound = run_program({"refer", "visit.yaml"}, visit("loops:\n  a loop:\n    pump: {runs: yes}\n"));
    CHECK(sound.status == command_line::nothing_to_refer);
    CHECK(has(sound.err, "no trade is needed"));
    auto const none = run_program({"refer", "visit.yaml", "--for", "electrician"},
                                  visit("loops:\n  a loop:\n    pump: {runs: yes}\n"));
    CHECK(none.status == command_line::input_problem);
    CHECK(has(none.err, "nothing to refer"));
    CHECK(has(run_program({"refer", "visit.yaml", "--language", "fr"}, visit(tingle)).err, "en or es, not 'fr'"));
}

TEST_CASE("documents: all of them into a folder, or none where one is there")
{
    auto const ran = run_program({"documents", "visit.yaml", "--out", "out"}, visit(tingle));
    CHECK(ran.status == command_line::unsafe);
    for (auto const* name : {"client", "refer-electrician", "refer-pool_service", "record"})
    {
        INFO(name);
        CHECK(ran.files.contains(std::string("out/") + name + ".html"));
        CHECK(has(ran.out, std::string(name) + ".html"));
    }
    auto files = visit(tingle);
    files["out/record.html"] = "mine";
    auto const refused = run_program({"documents", "visit.yaml", "--out", "out"}, files);
    CHECK(refused.status == command_line::input_problem);
    CHECK(refused.files.size() == 2);
    CHECK(run_program({"documents", "visit.yaml", "--out", "out", "--force"}, files).files.at("out/record.html") !=
          "mine");
    CHECK(has(run_program({"documents", "visit.yaml"}, visit(tingle)).err, "--out FOLDER"));
    CHECK(has(run_program({"documents", "--out", "out"}, visit(tingle)).err, "name the visit file"));
}

TEST_CASE("documents: a file with mistakes writes nothing and says them")
{
    for (auto const* command : {"client", "refer", "documents"})
    {
        INFO(command);
        auto const ran = run_program({command, "visit.yaml", "--out", "out"}, visit("waters: 3\n"));
        CHECK(ran.status == command_line::input_problem);
        CHECK(ran.files.size() == 1);
        CHECK_FALSE(ran.err.empty());
    }
    auto const bad = run_program({"client", "visit.yaml"}, visit("by: inspector\nnonsense: 1\n"));
    CHECK(bad.status == command_line::input_problem);
    CHECK(has(bad.err, "unknown key 'nonsense'"));
}

TEST_CASE("documents: photos beside the visit file are embedded upright, without what the camera noted of the place")
{
    std::string const folder = std::string(PADWALK_SOURCE_FOLDER) + "/scenarios/heater-in-a-shed/";
    std::string const photo = tests::text_of_file(folder + "photos/shed-door.jpg");
    REQUIRE(has(photo, "Exif"));
    std::map<std::string, std::string> const files{{"walk/visit.yaml", tests::text_of_file(folder + "visit.yaml")},
                                                   {"walk/photos/shed-door.jpg", photo}};
    auto const ran = run_program({"client", "walk/visit.yaml", "--html", "c.html"}, files);
    auto const& html = ran.files.at("c.html");
    std::size_t const at = html.find("<img src=\"data:image/jpeg;base64,");
    REQUIRE(at != std::string::npos);
    CHECK(has(html.substr(at), "alt=\"the shed from its open door\" width=\"900\" height=\"675\""));
    CHECK_FALSE(has(html, "RXhpZg")); // 'Exif' in base64, at the one place where it could begin
    CHECK(has(html, "The photo “the rating plate” could not be shown"));
    auto const spanish = run_program({"refer", "walk/visit.yaml", "--language", "es", "--html", "r.html"}, files);
    CHECK(has(spanish.files.at("r.html"), "data:image/jpeg;base64,"));
    CHECK(has(spanish.files.at("r.html"), "No se pudo mostrar la foto"));
}
