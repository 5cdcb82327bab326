#include "catch_compat.hpp"

#include "padwalk/fields/problems.hpp"
#include "padwalk/visit/visit.hpp"
#include "padwalk/visit/written.hpp"

#include <filesystem>
#include <fstream>
#include <sstream>

using namespace padwalk;
using visit::Keys;
using visit::the_last;
using visit::with_entry;
using visit::with_value;

namespace
{

// Every byte of the text before, in its order, is in the text after.
bool only_added(std::string const& before, std::string const& after)
{
    std::size_t next = 0;
    for (char const c : after)
        if (next < before.size() && before[next] == c)
            ++next;
    return next == before.size();
}

} // namespace

TEST_CASE("written: a value goes to the end of its group, behind comments that belong to it")
{
    std::string const text = "# mine\n"
                             "loops:\n"
                             "  spa loop:\n"
                             "    pump:\n"
                             "      runs: yes # since May\n"
                             "      # ask about its age\n"
                             "\n"
                             "    filter: {media: sand}\n"
                             "notes: all of it\n";
    CHECK(with_value(text, {"loops", "spa loop", "pump", "age"}, "3 years") == "# mine\n"
                                                                               "loops:\n"
                                                                               "  spa loop:\n"
                                                                               "    pump:\n"
                                                                               "      runs: yes # since May\n"
                                                                               "      # ask about its age\n"
                                                                               "      age: 3 years\n"
                                                                               "\n"
                                                                               "    filter: {media: sand}\n"
                                                                               "notes: all of it\n");
}

TEST_CASE("written: entries of lists in lines, in brackets, of a blank field, of a single value, and of none")
{
    visit::EntryFields const seen{{"seen", "drip at the seal"}};
    Keys const at{"loops", "l", "pump", "noticed"};
    struct Row
    {
        std::string before, after;
    };
    for (
        auto const& row :
        {Row{"", "loops:\n  l:\n    pump:\n      noticed:\n        - seen: drip at the seal\n"},
         Row{"# only this", "# only this\nloops:\n  l:\n    pump:\n      noticed:\n        - seen: drip at the seal\n"},
         Row{"loops:\n  l:\n    pump:\n      noticed:\n      - hum\n      - seen: rust\n        where: below\n    "
             "filter:\n",
             "loops:\n  l:\n    pump:\n      noticed:\n      - hum\n      - seen: rust\n        where: below\n      - "
             "seen: drip at the seal\n    filter:\n"},
         Row{"loops: {l: {pump: {noticed: [hum]}}}\n",
             "loops: {l: {pump: {noticed: [{seen: drip at the seal}, hum]}}}\n"},
         Row{"loops:\n  l: {pump: {runs: yes}}\n",
             "loops:\n  l: {pump: {noticed: [{seen: drip at the seal}], runs: yes}}\n"},
         Row{"loops:\n  l:\n    pump:\n      noticed:   # what was seen\n        # - grinding\n      runs: yes\n",
             "loops:\n  l:\n    pump:\n      noticed:   # what was seen\n        - seen: drip at the seal\n        # - "
             "grinding\n      runs: yes\n"},
         Row{"loops:\n  l:\n    pump:\n      noticed: \"hum: loud\" # at noon\n",
             "loops:\n  l:\n    pump:\n      noticed: [{seen: drip at the seal}, \"hum: loud\"] # at noon\n"},
         Row{"loops: {l: }\n", "loops: {l: {pump: {noticed: [{seen: drip at the seal}]}} }\n"}})
    {
        INFO(row.before);
        CHECK(with_entry(row.before, at, seen) == row.after);
        CHECK(only_added(row.before, with_entry(row.before, at, seen)));
    }
}

TEST_CASE("written: a blank field is filled in its line, a value that stands is not replaced")
{
    CHECK(with_value("loops:\n  l:\n    pump:\n      runs:     # whether it runs\n", {"loops", "l", "pump", "runs"},
                     "no") == "loops:\n  l:\n    pump:\n      runs: no     # whether it runs\n");
    CHECK_THROWS_AS(with_value("by: owner\n", {"by"}, "inspector"), std::invalid_argument);
    CHECK_THROWS_AS(with_value("by: [", {"on"}, "2026-05-05"), fields::InputProblems);
}

TEST_CASE("written: what is written comes back, whatever is in it")
{
    for (std::string const words :
         {"it's \"loud\" : # yes", "- dash", "yes", "{a", "tab and \\ slash", "ü 18 °C", "* &"})
    {
        INFO(words);
        auto const text = with_entry("by: owner\n", {"noticed"}, {{"seen", words}, {"where", "there"}});
        auto const read = visit::read_visit(text, {});
        REQUIRE(read.visit.noticed.size() == 1);
        CHECK(read.visit.noticed.front().seen == words);
        CHECK(read.visit.noticed.front().where == "there");
    }
    CHECK_THROWS_AS(with_entry("by: owner\n", {"noticed"}, {{"seen", "\xff\xfe"}}), fields::InputProblems);
}

TEST_CASE("written: the last test of a water, begun and gone on with")
{
    Keys const ph{"waters", "pool", "tests", the_last, "ph"},
        chlorine{"waters", "pool", "tests", the_last, "free_chlorine"};
    auto const begun = with_value("waters:\n  pool:\n    kind: pool\n", ph, "7.4");
    CHECK(begun == "waters:\n  pool:\n    kind: pool\n    tests:\n      - ph: 7.4\n");
    CHECK(with_value(begun, chlorine, "2 ppm") ==
          "waters:\n  pool:\n    kind: pool\n    tests:\n      - ph: 7.4\n        free_chlorine: 2 ppm\n");
}

TEST_CASE("written: block text, lines that end like Windows', a file without its last line's end")
{
    std::string const folded = "waters:\n  pool:\n    notes: |\n      first\n      # no comment\n    kind: pool\n";
    CHECK(with_value(folded, {"waters", "pool", "covered"}, "yes") == folded + "    covered: yes\n");
    std::string const last = "waters:\n  pool:\n    notes: |\n      first\n\n      # no comment\n\n";
    auto const after = with_value(last, {"waters", "pool", "covered"}, "yes");
    CHECK(only_added(last, after));
    CHECK(with_value("by: owner\r\nwaters:\r\n  pool:\r\n    kind: pool", {"waters", "pool", "covered"}, "no") ==
          "by: owner\r\nwaters:\r\n  pool:\r\n    kind: pool\r\n    covered: no\r\n");
}

TEST_CASE("written: names with a slash are found by what stands in the text")
{
    std::string const text = "loops:\n  pool/spa loop:\n    pump: {runs: yes}\n";
    CHECK(visit::keys_of(text, "loops/pool/spa loop/pump") == Keys{"loops", "pool/spa loop", "pump"});
    CHECK(visit::keys_of(text, "electrical") == Keys{"electrical"});
}

TEST_CASE("written: every scenario takes a note and a reading at each of its groups, and nothing is lost")
{
    std::size_t files = 0;
    for (auto const& folder : std::filesystem::directory_iterator(std::string(PADWALK_SOURCE_FOLDER) + "/scenarios"))
    {
        std::ifstream stream(folder.path() / "visit.yaml", std::ios::binary);
        std::ostringstream all;
        all << stream.rdbuf();
        std::string const text = all.str();
        if (text.empty())
            continue;
        ++files;
        INFO(folder.path().string());
        auto const before = visit::read_visit(text, {}).visit;
        std::vector<Keys> places{{}};
        for (auto const& entry : before.waters)
            places.push_back({"waters", entry.first}), places.push_back({"waters", entry.first, "shell"});
        for (auto const& entry : before.loops)
            places.push_back({"loops", entry.first, "pump"}), places.push_back({"loops", entry.first, "filter"});
        for (auto const& entry : before.heaters)
            places.push_back({"heaters", entry.first}), places.push_back({"heaters", entry.first, "vent"});
        std::string now = text;
        for (auto const& place : places)
        {
            Keys at = place;
            at.push_back("noticed");
            std::string const next = with_entry(now, at, {{"not_seen", "rust"}});
            CHECK(only_added(now, next));
            now = next;
        }
        auto const after = visit::read_visit(now, {}).visit;
        CHECK(after.noticed.size() == before.noticed.size() + 1);
        for (std::size_t i = 0; i < before.waters.size(); ++i)
            CHECK(after.waters[i].second.noticed.size() == before.waters[i].second.noticed.size() + 1);
    }
    CHECK(files >= 8);
}
