// The words of documents: each in every language, each used, and the Spanish of the knowledge complete.

#include "assessed.hpp"
#include "catch_compat.hpp"
#include "report/layout.hpp"

#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

using namespace padwalk;

namespace
{

std::string sources_of(std::string const& room)
{
    std::ostringstream all;
    for (auto const& entry : std::filesystem::directory_iterator(std::string(PADWALK_SOURCE_FOLDER) + "/src/" + room))
        all << std::ifstream(entry.path(), std::ios::binary).rdbuf();
    return all.str();
}

/// The numbers of a sentence, in any order: a translation changes none.
std::multiset<std::string> numbers(std::string const& text)
{
    static std::regex const number("[0-9]+([.,/][0-9]+)*");
    std::multiset<std::string> out;
    for (std::sregex_iterator i(text.begin(), text.end(), number), end; i != end; ++i)
        out.insert(i->str());
    return out;
}

report::Lexicon const& spanish()
{
    return tests::layout().words(report::Language::spanish);
}

void same_numbers(std::string const& place, std::string const& english)
{
    INFO(place << ": " << english);
    REQUIRE(spanish().knows(place));
    std::string const said = spanish().said(place, {});
    INFO(said);
    CHECK_FALSE(said.empty());
    CHECK(numbers(said) == numbers(english));
    static std::regex const leftover("(^|[^A-Za-zÀ-ÿ])(the|and|with|of|which|heater|pump|leave|until)([^A-Za-zÀ-ÿ]|$)");
    CHECK_FALSE(std::regex_search(said, leftover));
}

/// How many entries a file of the Spanish has, to find what is left over of the knowledge.
std::size_t entries(std::string const& file)
{
    return tests::engine().data().file("report/spanish/" + file).entries.front().value.entries.size();
}

} // namespace

TEST_CASE("lexicon: every key that the pages name is there, and every word is named", "[report][lexicon]")
{
    std::string const text = sources_of("report");
    for (auto const& entry : tests::engine().data().file("report/words.yaml").entries)
    {
        INFO(entry.key);
        bool const put_together = entry.key.starts_with("chance_"); // from the word for the chance
        CHECK((put_together || text.find("\"" + entry.key + "\"") != std::string::npos));
    }
    std::regex const named("words_?\\(\"([a-z_]+)\"\\)|filled\\(\"([a-z_]+)\"|spoken\\(\"([a-z_]+)\"\\)");
    std::size_t found = 0;
    for (std::sregex_iterator i(text.begin(), text.end(), named), end; i != end; ++i, ++found)
        for (std::size_t group = 1; group <= 3; ++group)
            if ((*i)[group].matched && (*i)[group] != "paragraph") // templates are filled too
            {
                std::string const key = (*i)[group];
                INFO(key);
                bool const is_template = text.find("templates_.filled(\"" + key + "\"") != std::string::npos ||
                                         text.find("templates.filled(\"" + key + "\"") != std::string::npos;
                if (!is_template)
                    CHECK_NOTHROW(tests::layout().words()(key));
            }
    CHECK(found > 60);
    CHECK_THROWS_AS(tests::layout().words()("no such word"), std::out_of_range);
}

TEST_CASE("lexicon: a word fills its place", "[report][lexicon]")
{
    CHECK(tests::layout().words().filled("about_minutes", "5 min") == "about 5 min");
    CHECK(spanish().filled("percent_under", "1 %") == "menos del 1 %");
    CHECK(tests::layout().words().said("causes/pump_bearings_worn/name", "as it is") == "as it is");
    CHECK(spanish().said("causes/no_such_cause/name", "as it is") == "as it is");
    CHECK(spanish().code() == "es");
}

TEST_CASE("lexicon: the Spanish has every cause, finding, check, caution, trade and alarm, with the same numbers",
          "[report][lexicon][spanish]")
{
    auto const& k = tests::engine().knowledge();
    for (auto const& [id, cause] : k.causes)
    {
        same_numbers("causes/" + id + "/name", cause.name);
        if (!cause.ask.empty())
            same_numbers("causes/" + id + "/ask", cause.ask);
        if (!cause.meanwhile.empty())
            same_numbers("causes/" + id + "/meanwhile", cause.meanwhile);
    }
    std::size_t alarms = 0;
    for (auto const& [id, finding] : k.findings)
    {
        same_numbers("findings/" + id, finding.name);
        if (finding.if_seen && !finding.if_seen->say.empty())
            same_numbers("alarms/" + id, finding.if_seen->say), ++alarms;
    }
    for (auto const& [id, check] : k.checks)
    {
        same_numbers("checks/" + id + "/name", check.name);
        if (!check.needs.empty())
            same_numbers("checks/" + id + "/needs", check.needs);
    }
    for (auto const& [id, caution] : k.cautions)
        same_numbers("cautions/" + id, caution.say);
    for (auto const& [id, trade] : k.trades)
    {
        same_numbers("trades/" + id + "/name", trade.name);
        same_numbers("trades/" + id + "/why", trade.why);
    }
    CHECK(entries("causes.yaml") == k.causes.size() + 1); // and what is not known here
    CHECK(entries("findings.yaml") == k.findings.size());
    CHECK(entries("checks.yaml") == k.checks.size());
    CHECK(entries("cautions.yaml") == k.cautions.size());
    CHECK(entries("trades.yaml") == k.trades.size());
    CHECK(entries("alarms.yaml") == alarms);
}

TEST_CASE("lexicon: the Spanish has every figure, its outputs, and every instrument", "[report][lexicon][spanish]")
{
    auto const& catalogue = tests::engine().catalogue();
    for (auto const& name : catalogue.names())
    {
        INFO(name);
        CHECK(spanish().knows("figures/" + name));
        for (auto const& output : catalogue.at(name).kernel->outputs().fields)
        {
            INFO(output.name);
            CHECK((!output.measure || spanish().knows("outputs/" + output.name)));
        }
    }
    for (auto const& row : tests::engine().data().file("instruments.yaml").at("instruments").entries)
    {
        INFO(row.key);
        CHECK(spanish().knows("instruments/" + row.key));
        CHECK(spanish().knows("instruments/" + row.value.at("name").text));
    }
}

TEST_CASE("layout: a template that is not well formed, or a missing file, stops with its name", "[report][layout]")
{
    CHECK_THROWS_AS(report::Layout(reference::Data::from_texts({{"a.yaml", "a: 1"}})), reference::DataProblems);
    std::vector<std::pair<std::string, std::string>> files{{"report/words.yaml", "a: {en: A, es: B}"},
                                                           {"report/style.css", "p{}"},
                                                           {"report/sheet.css", "p{}"},
                                                           {"report/glossary.yaml", "terms: []"},
                                                           {"instruments.yaml", "instruments: {}"},
                                                           {"report/card.html", "{{#a}} never closed"}};
    CHECK_THROWS_AS(report::Layout(reference::Data::from_texts(files)), reference::DataProblems);
    files.back().second = "{{a}}";
    CHECK_NOTHROW(report::Layout(reference::Data::from_texts(files)));
    files.front().second = "a: {en: A}";
    CHECK_THROWS_AS(report::Layout(reference::Data::from_texts(files)), reference::DataProblems);
}
