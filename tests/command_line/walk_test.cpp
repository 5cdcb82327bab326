#include "assessed.hpp"
#include "catch_compat.hpp"
#include "padwalk/assess/telling.hpp"
#include "padwalk/visit/written.hpp"
#include "run_program.hpp"

#include <functional>
#include <set>

using namespace padwalk;
using tests::Ran;
using tests::run_program;
using Files = std::map<std::string, std::string>;

namespace
{

Ran walked(std::string const& input, Files files = {}, std::vector<std::string> const& more = {})
{
    std::vector<std::string> arguments{"walk", "v.yaml"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return run_program(arguments, std::move(files), input);
}

/// The last question that stands in an output.
std::string last_question(std::string const& out)
{
    std::string const shown = out.substr(0, out.size() - 3); // without ' > '
    return shown.substr(shown.rfind('\n') + 1);
}

/// Answers each question when it is asked; none: the input ends.
using Player = std::function<std::optional<std::string>(std::string const& question, std::string const& all)>;

class Typing : public std::streambuf
{
public:
    Typing(std::ostringstream const& seen, Player player) : seen_(seen), player_(std::move(player)) {}

private:
    std::ostringstream const& seen_;
    Player player_;
    std::string line_;

    int_type underflow() override
    {
        std::string const all = seen_.str();
        auto const answer = player_(last_question(all), all);
        if (!answer)
            return traits_type::eof();
        line_ = *answer + "\n";
        setg(line_.data(), line_.data(), line_.data() + line_.size());
        return traits_type::to_int_type(line_.front());
    }
};

/// A walk with someone who reads the questions.
Ran played(Player player, Files files = {}, std::vector<std::string> const& arguments = {"walk", "v.yaml"})
{
    Ran ran;
    ran.files = std::move(files);
    std::ostringstream out, err;
    Typing typing(out, std::move(player));
    std::istream in(&typing);
    auto world = tests::world_of(in, out, err, ran.files);
    ran.status = command_line::run(arguments, world);
    ran.out = out.str();
    ran.err = err.str();
    return ran;
}

bool has(std::string const& text, std::string const& part)
{
    return text.find(part) != std::string::npos;
}

/// Every line of the text before stands in the text after, in the same order.
bool lines_kept(std::string const& before, std::string const& after)
{
    std::istringstream old_lines(before), new_lines(after);
    std::string wanted, line;
    while (std::getline(old_lines, wanted))
    {
        bool found = false;
        while (!found && std::getline(new_lines, line))
            found = line == wanted;
        if (!found)
            return false;
    }
    return true;
}

/// A sound property: none of the signs, yes to what runs, the example for readings.
std::string sound(std::string const& question)
{
    if (has(question, "normal control?"))
        return "y";
    if (has(question, "such as "))
    {
        std::string const from = question.substr(question.find("such as ") + 8);
        return from.substr(0, from.find(", or ?"));
    }
    if (has(question, " 1 "))
        return "1";
    return has(question, " 0 ") ? "0" : "n";
}

// A filter pump that everything else was said of: little is left to ask.
constexpr char const* small_visit =
    "# the little spa\n"
    "by: inspector\n"
    "waters:\n"
    "  spa: {kind: spa, temperature: 99 degF, shell: {surface: fiberglass}}   # own thermometer\n"
    "loops:\n"
    "  filter loop:\n"
    "    # shared by nobody\n"
    "    serves: [spa]\n"
    "    equipment: above_water\n"
    "    pump:\n"
    "      runs: yes\n"
    "      noticed:\n"
    "        - grinding noise   # at noon\n"
    "    filter: {media: cartridge}\n"
    "electrical:\n"
    "  noticed:\n"
    "    - not_seen: tingle or shock felt in the water or at metal\n"
    "notes: keep me\n";

} // namespace

TEST_CASE("walk: dangers are asked about before everything else, with their cautions")
{
    auto const ran = walked("");
    CHECK(ran.status == 0);
    CHECK(ran.files.empty());
    CHECK(has(ran.out, "smell of gas"));
    CHECK(has(ran.out, "a drain cover missing"));
    CHECK(has(ran.out, "leave at once"));
    CHECK_FALSE(has(ran.out, "Who walks"));
    CHECK(has(ran.out, "nothing was written"));
}

TEST_CASE("walk: gas ends it at once with what to do, and is in the file")
{
    auto const ran = walked(" 1 \n");
    CHECK(ran.status == 2);
    CHECK(has(ran.out, "Leave now with everyone"));
    CHECK_FALSE(has(ran.out, "Who walks"));
    CHECK(has(ran.files.at("v.yaml"), "- seen: smell of gas at the heater"));
    auto const again = walked("n\nn\nn\n", ran.files); // and nobody is sent back in by starting again
    CHECK(again.status == 2);
    CHECK(has(again.out, "The walk ends here"));
    CHECK(again.files == ran.files);
    auto const known = walked("1\n", {{"v.yaml", "by: owner\nheaters:\n  gas heater: {energy: natural_gas}\n"}});
    CHECK(known.status == 2);
    CHECK(has(known.out, "Leave now with everyone"));
    CHECK(known.files.at("v.yaml") ==
          "by: owner\nheaters:\n  gas heater: {noticed: [{seen: smell of gas at the heater}], energy: natural_gas}\n");
}

TEST_CASE("walk: at an open drain nobody is asked to check anything on its loop")
{
    std::size_t answers = 0;
    auto const ran = played(
        [&](std::string const& question, std::string const&) -> std::optional<std::string>
        {
            if (++answers > 20)
                return std::nullopt;
            return has(question, "none of these") && answers == 1 ? "2" : sound(question);
        },
        {{"v.yaml", "by: inspector\nwaters:\n  pool: {kind: pool}\nloops:\n  pool loop:\n    serves: [pool]\n    "
                    "drains: {main drain: }\n"}});
    CHECK(ran.status == 2);
    CHECK(has(ran.out, "STOP: cover missing (main drain of pool loop)"));
    CHECK(has(ran.out, "can hold a person under water"));
    CHECK(has(ran.files.at("v.yaml"), "seen: cover missing"));
    CHECK_FALSE(has(ran.out, "\nPump of pool loop\n"));
    CHECK_FALSE(has(ran.out, "\nMain drain of pool loop\n"));
}

TEST_CASE("walk: from nothing to the end with wet hands, and everything asked reads back as just that")
{
    std::size_t answers = 0;
    std::vector<std::string> asked;
    auto const ran = played(
        [&](std::string const& question, std::string const&) -> std::optional<std::string>
        {
            ++answers;
            if (answers > 600)
                return std::nullopt;
            if (answers % 7 == 0)
                return "   "; // Enter alone
            if (answers % 11 == 0)
                return "xk"; // nonsense
            if (has(question, "none of these"))
                return "  N ";
            if (has(question, "Who walks"))
                return " I";
            if (has(question, "Today's date"))
                return answers % 2 == 0 ? "14.5.26" : " 2026-05-14 ";
            if (has(question, "for example 1477"))
                return " 2 8 ";
            std::string const answer = sound(question);
            bool const sign = answer == "0";
            if (sign)
                asked.push_back(question.substr(2, question.find('?') - 2));
            return sign && answers % 5 == 1   ? "NN"
                   : sign && answers % 5 == 2 ? "No  "
                   : answer == "y"            ? " YES"
                                              : answer;
        });
    INFO(ran.out.substr(ran.out.size() > 3000 ? ran.out.size() - 3000 : 0));
    CHECK(has(ran.out, "Nothing is left that would tell more within a walk."));
    CHECK(has(ran.out, "Next: padwalk assess v.yaml"));
    CHECK(ran.err.empty());
    CHECK(asked.size() > 20);
    auto const& text = ran.files.at("v.yaml");
    CHECK(has(text, "by: inspector\n"));
    CHECK(run_program({"check", "v.yaml"}, ran.files).status == 0);
    CHECK(ran.status == run_program({"assess", "v.yaml"}, ran.files).status);
    auto const assessment = tests::assessed(text);
    CHECK(assessment.questions.empty());
    CHECK(assessment.danger_words.empty());
    std::set<std::string> not_seen;
    for (auto const& finding : assessment.findings)
        if (!finding.computed)
        {
            CHECK(finding.state == assess::FindingState::not_seen);
            std::string name = finding.name;
            name[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(name[0])));
            not_seen.insert(name);
        }
    for (auto const& name : asked)
    {
        INFO(name);
        CHECK(not_seen.contains(name));
    }
}

TEST_CASE("walk: every finding that may be asked is read by its id as just that, seen or not")
{
    auto const& knowledge = tests::engine().knowledge();
    std::string const head =
        "waters:\n  pool:\n    kind: pool\nloops:\n  l:\n    drains:\n      d:\nheaters:\n  h:\n    "
        "energy: natural_gas\n  e:\n    energy: heat_pump\nfill_valves:\n  f:\n";
    std::map<std::string, visit::Keys> const places{{"water", {"waters", "pool"}},
                                                    {"shell", {"waters", "pool", "shell"}},
                                                    {"deck", {"waters", "pool", "deck"}},
                                                    {"loop", {"loops", "l"}},
                                                    {"pump", {"loops", "l", "pump"}},
                                                    {"filter", {"loops", "l", "filter"}},
                                                    {"drain", {"loops", "l", "drains", "d"}},
                                                    {"heater", {"heaters", "h"}},
                                                    {"vent", {"heaters", "h", "vent"}},
                                                    {"fill_valve", {"fill_valves", "f"}},
                                                    {"electrical", {"electrical"}}};
    std::size_t read = 0;
    for (auto const& [id, finding] : knowledge.findings)
        if (finding.established == diagnosis::Established::seen)
        {
            INFO(id);
            auto const parts = tests::engine().vocabulary().read(id, finding.item);
            REQUIRE(parts.size() == 1);
            CHECK(parts.front().result == visit::PhraseReading::Result::understood);
            CHECK(parts.front().findings == std::vector<std::string>{id});
            ++read;
        }
    CHECK(read > 300);
    // Those that good news deny: their ids are no good news.
    std::set<std::string> denied;
    for (auto const& row : tests::engine().data().file("visit/good_news.yaml").at("good_news").items)
        denied.insert(row.at("finding").text);
    for (auto const& id : denied)
    {
        INFO(id);
        auto at = places.at(knowledge.finding(id)->item);
        at.push_back("noticed");
        auto const assessment = tests::assessed(visit::with_entry(head, at, {{"seen", id}}));
        CHECK(std::count_if(assessment.findings.begin(), assessment.findings.end(),
                            [&](auto const& f) { return f.id == id && f.state == assess::FindingState::seen; }) == 1);
    }
}

TEST_CASE("walk: left after every answer and gone on with gives the same file")
{
    std::vector<std::string> const answers{
        "n", "t", "2026-05-14", "28",           "y", "1",      "1", "3", "n",      "y", "?", "c", "3", "n", "xx",
        "",  "y", "n",          "rattling lid", "0", "18 psi", "n", "0", "81 degF"};
    std::string all;
    for (auto const& line : answers)
        all += line + "\n";
    auto const at_once = walked(all);
    Files files;
    std::string pending; // 'c' and its reason are one answer
    for (auto const& line : answers)
    {
        pending += line + "\n";
        if (line != "c")
            files = walked(std::exchange(pending, {}), files).files;
    }
    CHECK(files.at("v.yaml") == at_once.files.at("v.yaml"));
    CHECK(has(files.at("v.yaml"), "because: no instrument for it"));
    CHECK(has(files.at("v.yaml"), "because: \"looked, and could not tell\""));
}

TEST_CASE("walk: the last answer is taken back, whatever it was")
{
    auto const begun = walked("n\ni\n2026-05-14\n1\n");
    for (std::string const answer : {"y", "n", "s", "?", "c\n1", "rattling lid"})
    {
        INFO(answer);
        auto const ran = walked(answer + "\nb\n", begun.files);
        CHECK(ran.files == begun.files);
        CHECK(has(ran.out, "Taken back."));
    }
    CHECK(has(walked("b\n", begun.files).out, "Nothing to take back"));
    auto const start = walked("n\ni\ns\n1\nb\nb\nb\nt\ns\n2\n");
    CHECK(has(start.files.at("v.yaml"), "by: technician"));
    CHECK(has(start.files.at("v.yaml"), "spa loop:"));
    CHECK_FALSE(has(start.files.at("v.yaml"), "pool"));
}

TEST_CASE("walk: a file with mistakes is refused and left alone")
{
    for (std::string const text : {"by: nobody\nwaters: 3\n", "by: [", "loops:\n\tl:\n"})
    {
        INFO(text);
        auto const ran = walked("n\nn\n", {{"v.yaml", text}});
        CHECK(ran.status == 3);
        CHECK(ran.files.at("v.yaml") == text);
        CHECK(has(ran.err, "v.yaml:"));
        CHECK(has(ran.err, "error"));
        CHECK(ran.out.empty());
    }
    CHECK(run_program({"walk", "-"}, {}, "n\n").status == 3);
}

TEST_CASE("walk: comments, notes and order of a file stay through a whole walk")
{
    std::size_t answers = 0;
    auto const ran = played([&](std::string const& question, std::string const&) -> std::optional<std::string>
                            { return ++answers > 12 ? std::nullopt : std::optional(sound(question)); },
                            {{"v.yaml", small_visit}});
    auto const& text = ran.files.at("v.yaml");
    CHECK(text.size() > std::string(small_visit).size() + 150);
    for (std::string const kept : {"# the little spa\n", "# own thermometer\n", "    # shared by nobody\n",
                                   "        - grinding noise   # at noon\n", "notes: keep me\n"})
        CHECK(has(text, kept));
    auto const assessment = tests::assessed(text);
    CHECK(assessment.notes == "keep me");
    CHECK(std::count_if(assessment.findings.begin(), assessment.findings.end(),
                        [](auto const& f) { return f.id == "pump_noise_grinding"; }) == 1);
    std::string const by_lines = "# mine\nby: owner\nwaters:\n  pool:\n    # the blue one\n    kind: pool\n# end\n";
    CHECK(lines_kept(by_lines, walked("n\ny\nn\nn\n1\nn\nn\n", {{"v.yaml", by_lines}}).files.at("v.yaml")));
}

TEST_CASE("walk: a reading with a wrong unit or none is explained and asked again")
{
    std::size_t tries = 0;
    std::string said;
    auto const ran = played(
        [&](std::string const& question, std::string const& all) -> std::optional<std::string>
        {
            if (!has(question, "such as ") || !has(question, "gauge"))
                return tries > 0 || all.size() > 400000 ? std::nullopt : std::optional(sound(question));
            said = all;
            std::vector<std::string> const typed{"18 gpm", "18", "y", "900 psi", "1.2 bar"};
            return tries < typed.size() ? std::optional(typed[tries++]) : std::nullopt;
        },
        {{"v.yaml", "by: inspector\nwaters:\n  pool:\n    kind: pool\nloops:\n  l:\n    pump:\n      runs: yes\n"}});
    CHECK(tries == 5);
    CHECK(has(ran.out, "'18 gpm' is a flow"));
    CHECK(has(ran.out, "A reading is asked, such as"));
    CHECK(has(ran.out, "can't be"));
    CHECK(has(ran.files.at("v.yaml"), "gauge: 1.2 bar\n"));
    CHECK_FALSE(has(ran.files.at("v.yaml"), "900"));
}

TEST_CASE("walk: own words are noted where they belong, and it says how they were read")
{
    auto const ran = walked("drip at the seal\nfrobnicates the gadget wildly\nwobble\n", {{"v.yaml", small_visit}});
    auto const& text = ran.files.at("v.yaml");
    CHECK(has(text, "seen: frobnicates the gadget wildly"));
    CHECK(has(ran.out, "not understood"));
    CHECK_FALSE(has(text, "wobble"));
    CHECK(has(ran.out, "Not understood."));
}

TEST_CASE("walk: skipped questions come back once, and then it ends")
{
    std::set<std::string> skipped;
    std::size_t questions = 0;
    auto const ran = played(
        [&](std::string const& question, std::string const&) -> std::optional<std::string>
        {
            skipped.insert(question);
            return ++questions > 400 ? "q" : "s";
        },
        {{"v.yaml", small_visit}});
    CHECK(has(ran.out, "Once more what was skipped."));
    CHECK(has(ran.out, "Nothing is left"));
    CHECK(questions == 2 * skipped.size());
    CHECK(ran.files.at("v.yaml") == small_visit);
}

TEST_CASE("walk: what 0 denies was shown before")
{
    std::size_t zeros = 0;
    auto const ran = played(
        [&](std::string const& question, std::string const&) -> std::optional<std::string>
        {
            std::string const answer = has(question, "none of these") ? "n" : sound(question);
            zeros += answer == "0" ? 1U : 0U;
            return zeros > 12 ? std::nullopt : std::optional(answer);
        },
        {{"v.yaml", "by: inspector\nwaters:\n  pool: {kind: pool}\nloops:\n  pool loop:\n    serves: [pool]\n"}});
    CHECK(zeros > 5);
    std::istringstream words(ran.out);
    std::string shown;
    for (std::string word; words >> word;)
        shown += word + " ";
    std::set<std::string> on_arrival; // asked about in shorter words
    for (auto const& danger : assess::first_dangers(tests::engine()))
        on_arrival.insert(danger.finding);
    std::size_t denied = 0;
    for (auto const& f : tests::assessed(ran.files.at("v.yaml")).findings)
        if (!f.computed && f.state == assess::FindingState::not_seen && !on_arrival.contains(f.id))
        {
            ++denied;
            INFO(f.name);
            CHECK(shown.find(f.name.substr(1)) != std::string::npos); // its first letter may be a capital
        }
    CHECK(denied > zeros);
}

TEST_CASE("walk: a file that can't be written says so, and a file that others changed is not overwritten")
{
    Files files{{"v.yaml", small_visit}};
    std::istringstream in("n\nn\n");
    std::ostringstream out, err;
    bool changed = false;
    auto world = tests::world_of(in, out, err, files);
    world.read_file = [&](std::string const& path)
    { return files.at(path) + (std::exchange(changed, true) ? "# theirs\n" : ""); };
    world.write_file = [&](std::string const&, std::string const&, bool)
    { throw command_line::FileProblem("'v.yaml' can't be written"); };
    CHECK(command_line::run({"walk", "v.yaml"}, world) == 3);
    CHECK(has(err.str(), "was changed by someone else"));
    world.read_file = [&](std::string const& path) { return files.at(path); };
    std::istringstream more("n\nn\n");
    auto again = tests::world_of(more, out, err, files, {});
    again.read_file = world.read_file;
    again.write_file = world.write_file;
    CHECK(command_line::run({"walk", "v.yaml"}, again) == 3);
    CHECK(has(err.str(), "'v.yaml' can't be written"));
    CHECK(files.at("v.yaml") == small_visit);
}

TEST_CASE("walk: the same input gives the same output, and without a name the file is visit.yaml")
{
    std::string const input = "n\no\ns\n2\ny\n1\n0\n0\n";
    auto const one = walked(input), two = walked(input);
    CHECK(one.out == two.out);
    CHECK(one.files == two.files);
    CHECK(run_program({"walk"}, {}, input).files.at("visit.yaml") == one.files.at("v.yaml"));
    CHECK(has(walked("n\no\ns\n2\ny\n1\n", {}, {"--units", "si"}).out, "Walk of v.yaml"));
}
