#include "assessed.hpp"
#include "catch_compat.hpp"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <sstream>

using namespace padwalk;
using assess::Assessment;
using assess::FindingState;
using tests::assessed;
using tests::engine;

namespace
{

std::string noticed(std::string const& note, std::string const& kind, std::string const& at)
{
    std::string quoted;
    for (char const c : note)
        quoted += c == '\'' ? "''" : std::string(1, c);
    return kind == at ? "noticed: ['" + quoted + "']" : "noticed: []";
}

// One of everything, and the note at one of them.
Assessment with_note(std::string const& note, std::string const& kind)
{
    auto at = [&](std::string const& here) { return noticed(note, kind, here); };
    return assessed("waters:\n  pool:\n    kind: pool\n    " + at("water") + "\n    shell: {" + at("shell") +
                    "}\n    deck: {" + at("deck") + "}\nloops:\n  a:\n    " + at("loop") + "\n    pump: {" +
                    at("pump") + "}\n    filter: {" + at("filter") + "}\n    drains:\n      one: {" + at("drain") +
                    "}\nheaters:\n  h:\n    energy: natural_gas\n    " + at("heater") + "\n    vent: {" + at("vent") +
                    "}\nfill_valves:\n  f: {" + at("fill_valve") + "}\nelectrical: {" + at("electrical") + "}\n" +
                    at("property") + "\n");
}

bool has(Assessment const& a, std::string const& id, FindingState state)
{
    return std::any_of(a.findings.begin(), a.findings.end(),
                       [&](auto const& f) { return f.id == id && !f.computed && f.state == state; });
}

bool stops_use(std::string const& id)
{
    auto const* entry = engine().knowledge().finding(id);
    return entry->if_seen && entry->if_seen->urgency == assess::Urgency::stop_use;
}

std::vector<std::string> seen(Assessment const& a)
{
    std::vector<std::string> out;
    for (auto const& f : a.findings)
        if (!f.computed && f.state == FindingState::seen)
            out.push_back(f.id);
    return out;
}

bool alarming(Assessment const& a)
{
    auto const ids = seen(a);
    return !a.danger_words.empty() || std::any_of(ids.begin(), ids.end(), stops_use);
}

struct Line
{
    std::string set, kind, note, reading;
};

std::vector<Line> lines()
{
    std::ifstream file(PADWALK_SOURCE_FOLDER "/tests/visit/phrases.tsv");
    std::vector<Line> out;
    std::string text;
    while (std::getline(file, text))
    {
        if (text.empty() || text.front() == '#')
            continue;
        std::istringstream fields(text);
        Line line;
        std::getline(fields, line.set, '\t');
        std::getline(fields, line.kind, '\t');
        std::getline(fields, line.note, '\t');
        std::getline(fields, line.reading, '\t');
        out.push_back(line);
    }
    return out;
}

bool right(Assessment const& a, Line const& line)
{
    auto const ids = seen(a);
    if (line.reading == "danger")
        return alarming(a);
    if (line.reading == "question")
        return a.findings.empty() && !a.questions.empty() && a.danger_words.empty();
    if (line.reading == "not_tested")
        return ids.empty() && std::any_of(a.not_tested.begin(), a.not_tested.end(),
                                          [](auto const& n) { return n.because.find("as noted") == 0; });
    if (line.reading.compare(0, 9, "not_seen:") == 0)
        return ids.empty() && has(a, line.reading.substr(9), FindingState::not_seen);
    std::istringstream wanted(line.reading);
    std::string id;
    std::size_t count = 0;
    for (; std::getline(wanted, id, '+'); ++count)
        if (!has(a, id, FindingState::seen))
            return false;
    return ids.size() == count;
}

bool expects(Line const& line, std::string const& id)
{
    return ("+" + line.reading + "+").find("+" + id + "+") != std::string::npos;
}

} // namespace

TEST_CASE("notes: measured set is read rightly at the stated rate, no danger lost, none invented", "[assess][notes]")
{
    std::size_t tuned = 0, tuned_right = 0, held = 0, held_right = 0;
    for (auto const& line : lines())
    {
        INFO(line.set << " / " << line.kind << " / " << line.note << " / " << line.reading);
        auto const a = with_note(line.note, line.kind);
        bool const good = right(a, line);
        (line.set == "held" ? held : tuned) += 1;
        (line.set == "held" ? held_right : tuned_right) += good ? 1U : 0U;
        std::string got;
        for (auto const& f : a.findings)
            got += f.id + (f.state == FindingState::seen ? " " : " not seen ");

        if (!good && std::getenv("PADWALK_SHOW_MISSED") != nullptr)
            std::cerr << line.set << " | " << line.kind << " | " << line.note << " | " << line.reading << " | got "
                      << got << (a.questions.empty() ? "" : a.questions.front().why) << "\n";
        std::istringstream wanted(line.reading);
        std::string id;
        bool dangerous = line.reading == "danger";
        while (std::getline(wanted, id, '+'))
            dangerous = dangerous || (engine().knowledge().finding(id) != nullptr && stops_use(id));
        INFO("got " << got);
        if (line.reading == "danger")
            CHECK(alarming(a));
        if (dangerous) // not understood may be, but never silent
            CHECK((alarming(a) || !a.questions.empty()));
        for (auto const& found : seen(a))
            if (stops_use(found) && line.reading != "danger")
                CHECK(expects(line, found));
    }
    REQUIRE(tuned + held >= 300);
    REQUIRE(held * 3 >= tuned + held);
    double const of_tuned = static_cast<double>(tuned_right) / static_cast<double>(tuned);
    double const of_held = static_cast<double>(held_right) / static_cast<double>(held);
    std::cout << "notes read rightly: tuned " << tuned_right << "/" << tuned << ", held back " << held_right << "/"
              << held << "\n";
    CHECK(of_tuned >= 0.95);
    CHECK(of_held >= 0.70);
}

TEST_CASE("notes: danger with no item to hold it is never silent", "[assess][notes]")
{
    auto const a = assessed("loops:\n  l:\n    pump: {noticed: ['maybe gas smell?']}\n");
    CHECK(a.findings.empty());
    REQUIRE(a.danger_words.size() == 1);
    CHECK(a.danger_words.front().find("maybe gas smell?") != std::string::npos);
    REQUIRE(a.questions.size() == 1);
    CHECK(a.questions.front().why.find("this may be dangerous: ") == 0);
}

TEST_CASE("notes: danger is found in free text, and said once only", "[assess][notes]")
{
    auto const one = [](std::string const& yaml) { return assessed(yaml).danger_words.size(); };
    CHECK(one("notes: The kids got zapped by the ladder.\nwaters: {pool: {}}\n") == 1);
    CHECK(one("weather: strong smell of gas\nwaters: {pool: {}}\n") == 1);
    CHECK(one("loops: {l: {pump: {notes: smelled propane}}}\n") == 1);
    CHECK(one("waters: {pool: {photos: [{file: a.jpg, caption: drain cover missing}]}}\n") == 1);
    CHECK(one("not_tested: [{what: heater, because: CO alarm was beeping}]\nwaters: {pool: {}}\n") == 1);
    CHECK(one("not_tested: [{what: CO alarm, because: no ladder}]\nwaters: {pool: {}}\n") == 0);
    CHECK(one("not_tested: [{what: smoke test of the draft, because: no smoke pencil}]\nwaters: {pool: {}}\n") == 0);
    CHECK(one("heaters: {h: {notes: smoke pencil pulled in but smoke came out of the top}}\n") == 1);
    CHECK(one("notes: no gas smell, no tingle\nwaters: {pool: {}}\n") == 0);
    CHECK(one("heaters: {h: {energy: natural_gas, noticed: [gas smell], notes: Gas smell was strong.}}\n") == 0);
}

TEST_CASE("notes: hedged danger is read as the danger until said otherwise", "[assess][notes]")
{
    auto const a = with_note("maybe gas smell?", "heater");
    REQUIRE(a.findings.size() == 1);
    CHECK(a.findings[0].id == "heater_gas_smell");
    CHECK(a.findings[0].from.find("until you say otherwise") != std::string::npos);
    CHECK(a.outcome == assess::Outcome::unsafe);
}

TEST_CASE("notes: twelve thousand notes and one very long one are read", "[assess][notes]")
{
    std::string many = "loops:\n  l:\n    pump:\n      noticed:\n";
    for (int i = 0; i < 12000; ++i)
        many += "        - grinding noise and water drips at the seal, seen " + std::to_string(i) + "\n";
    auto const visit = visit::read_visit(many, engine().instruments());
    CHECK(has(assess::assess(visit, engine()), "pump_noise_grinding", FindingState::seen));
    std::string words;
    while (words.size() < 900000)
        words += "grinding noise of the motor ";
    CHECK(engine().vocabulary().match(words, "pump").findings == std::vector<std::string>{"pump_noise_grinding"});
}
