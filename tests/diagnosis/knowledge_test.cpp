#include "catch_compat.hpp"
#include "padwalk/diagnosis/knowledge.hpp"

#include <cctype>
#include <set>

using namespace padwalk;

TEST_CASE("the built-in knowledge holds together", "[diagnosis][knowledge]")
{
    auto const data = reference::Data::built_in();
    diagnosis::Knowledge knowledge;
    try
    {
        knowledge = diagnosis::read_knowledge(data);
    }
    catch (reference::DataProblems const& bad)
    {
        for (auto const& p : bad.problems)
            FAIL_CHECK(bad.file << ":" << p.place.line << ":" << p.place.column << ": " << p.message);
        throw;
    }
    for (auto const& line : diagnosis::knowledge_problems(knowledge, reference::bibliography(data)))
        FAIL_CHECK(line);
    CHECK(knowledge.causes.size() >= 400);
    CHECK(knowledge.findings.size() >= 700);
    CHECK(knowledge.checks.size() >= 350);
    CHECK(knowledge.trades.size() >= 10);
}

namespace
{

/// Words in capitals amid a sentence: names.
std::vector<std::string> names_in(std::string const& text)
{
    std::vector<std::string> out;
    for (std::size_t i = 2; i < text.size(); ++i)
    {
        bool const starts = std::isupper(static_cast<unsigned char>(text[i])) != 0 && text[i - 1] == ' ' &&
                            text[i - 2] != '.' && text[i - 2] != '?' && text[i - 2] != ':' && text[i - 2] != '!';
        if (!starts)
            continue;
        std::size_t end = i;
        while (end < text.size() && std::isalnum(static_cast<unsigned char>(text[end])) != 0)
            ++end;
        out.push_back(text.substr(i, end - i));
    }
    return out;
}

} // namespace

TEST_CASE("the knowledge names no brand: no word in capitals but those known", "[diagnosis][knowledge]")
{
    std::set<std::string> const known{"US",     "GFCI",  "GFCIs",   "FLO", "OFF", "December", "Utah", "Massachusetts",
                                      "Nevada", "Texas", "Montana", "CO",  "UV",  "DE",       "LED",  "PVC",
                                      "AWG",    "C",     "F",       "V"};
    auto const knowledge = diagnosis::read_knowledge(reference::Data::built_in());
    std::size_t met = 0;
    auto look = [&](std::string const& id, std::string const& text)
    {
        INFO(id << ": " << text);
        CHECK(text.find("\u00ae") == std::string::npos);
        CHECK(text.find("\u2122") == std::string::npos);
        for (auto const& name : names_in(text))
        {
            INFO(name);
            ++met;
            CHECK(known.count(name) == 1);
        }
    };
    for (auto const& [id, c] : knowledge.causes)
        for (auto const* text : {&c.name, &c.meaning, &c.why_rate, &c.ask, &c.meanwhile})
            look(id, *text);
    for (auto const& [id, f] : knowledge.findings)
    {
        look(id, f.name);
        for (auto const& word : f.words)
            look(id, word);
    }
    for (auto const& [id, c] : knowledge.checks)
        for (auto const* text : {&c.name, &c.needs, &c.if_so, &c.if_not})
            look(id, *text);
    CHECK(met > 5); // the search finds what is there
    CHECK(names_in("turn the Knob. Then wait") == std::vector<std::string>{"Knob"});
}

TEST_CASE("every finding has at least three forms in which people say it", "[diagnosis][knowledge]")
{
    for (auto const& [id, finding] : diagnosis::read_knowledge(reference::Data::built_in()).findings)
        if (finding.established == diagnosis::Established::seen)
        {
            INFO(id);
            CHECK(finding.words.size() >= 3);
        }
}
