// Whom to send: the fewest trades that cover what is likely and all that is dangerous, and nobody else.
#include "assessed.hpp"
#include "catch_compat.hpp"

#include "padwalk/assess/licences.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

using namespace padwalk;
using assess::Urgency;
using tests::assessed;
using tests::engine;

namespace
{

constexpr double referred = 0.3, danger_referred = 0.1, danger_stops = 0.25; // data/assess/rules.yaml

std::vector<std::pair<std::string, std::string>> scenario_visits()
{
    std::vector<std::pair<std::string, std::string>> out;
    for (auto const& entry : std::filesystem::directory_iterator(std::string(PADWALK_SOURCE_FOLDER) + "/scenarios"))
        if (std::ifstream stream(entry.path() / "visit.yaml"); stream)
        {
            std::ostringstream text;
            text << stream.rdbuf();
            out.emplace_back(entry.path().filename().string(), text.str());
        }
    std::sort(out.begin(), out.end());
    return out;
}

bool calls(assess::CauseEntryOf const& cause)
{
    return cause.trade != "none" && cause.urgency != Urgency::watch;
}

/// What calls a trade for certain, recounted: an alarm, a danger that is not unlikely, or causes that are together
/// likely enough.
bool needed(assess::Assessment const& a, std::string const& trade)
{
    double none = 1;
    for (auto const& alarm : a.alarms)
        if (alarm.trade == trade)
            return true;
    for (auto const& cause : a.causes)
        if (cause.trade == trade && calls(cause))
        {
            if (cause.hurts_people && cause.probability >= danger_referred)
                return true;
            none *= 1 - cause.probability;
        }
    return 1 - none >= referred;
}

std::string cracked_spa = "waters:\n  pool: {}\nloops:\n  l:\n    pump: {noticed: [grinding noise]}\n";

} // namespace

TEST_CASE("referrals: in every scenario just those trades are sent that something calls for, each once")
{
    auto const visits = scenario_visits();
    REQUIRE(visits.size() >= 10);
    for (auto const& [name, yaml] : visits)
    {
        INFO(name);
        auto const a = assessed(yaml);
        std::set<std::string> sent;
        for (auto const& referral : a.referrals)
            CHECK(sent.insert(referral.trade).second);
        for (auto const& [trade, entry] : engine().knowledge().trades)
        {
            INFO(trade);
            CHECK(sent.contains(trade) == needed(a, trade));
        }
    }
}

TEST_CASE("referrals: what is likely or dangerous has its trade, in every scenario")
{
    for (auto const& [name, yaml] : scenario_visits())
    {
        INFO(name);
        auto const a = assessed(yaml);
        for (auto const& cause : a.causes)
        {
            bool const wants = calls(cause) && cause.probability >= (cause.hurts_people ? danger_referred : referred);
            bool const has = std::any_of(a.referrals.begin(), a.referrals.end(),
                                         [&](auto const& r) { return r.trade == cause.trade; });
            INFO(cause.id);
            CHECK((!wants || has));
        }
    }
}

TEST_CASE("referrals: urgency is that of what it comes for, and an unlikely but deadly cause stops use")
{
    std::size_t unlikely_and_deadly = 0;
    for (auto const& [id, cause] : engine().knowledge().causes)
        for (auto const& shown : cause.shows)
        {
            auto const& finding = *engine().knowledge().finding(shown.finding);
            if (cause.item != "heater" || finding.item != "heater" || finding.if_seen ||
                cause.urgency != Urgency::stop_use)
                continue;
            auto const a = assessed("heaters:\n  h: {energy: natural_gas, noticed: [" + shown.finding + "]}\n");
            for (auto const& told : a.causes)
            {
                auto const& entry = *engine().knowledge().cause(told.id);
                bool const stops = entry.urgency == Urgency::stop_use;
                double const from = told.hurts_people ? danger_stops : 0.5;
                INFO(shown.finding << ": " << told.id << " " << told.probability);
                CHECK((told.urgency == Urgency::stop_use) == (stops && told.probability >= from));
                bool const deadly = told.hurts_people && told.urgency == Urgency::stop_use;
                if (deadly && told.probability < 0.5)
                    ++unlikely_and_deadly;
                if (deadly)
                    CHECK(a.outcome == assess::Outcome::unsafe);
            }
            for (auto const& referral : a.referrals)
                for (std::size_t const c : referral.causes)
                    CHECK(referral.urgency >= a.causes[c].urgency);
        }
    CHECK(unlikely_and_deadly > 0);
}

TEST_CASE("referrals: nobody is sent where nobody is needed")
{
    for (auto const* yaml : {"loops:\n  l:\n    pump: {runs: yes}\n", "waters:\n  pool:\n",
                             "heaters:\n  h: {energy: heat_pump, found: [{was_not: low refrigerant charge}]}\n",
                             "loops:\n  l:\n    pump: {noticed: [{not_seen: grinding noise}]}\n"})
    {
        INFO(yaml);
        CHECK(assessed(yaml).referrals.empty());
    }
}

TEST_CASE("licences: the state that a visit names says the class at each trade, and changes nothing else")
{
    auto const plain = assessed(cracked_spa), named = assessed("licences: california\n" + cracked_spa);
    REQUIRE(plain.referrals.size() == 1);
    REQUIRE(named.referrals.size() == 1);
    CHECK(plain.referrals[0].licences.empty());
    CHECK(plain.licences_of.empty());
    CHECK(named.licences_of == "California");
    CHECK(named.licences_say.find("Local rules decide") != std::string::npos);
    auto const& classes = named.referrals[0].licences;
    REQUIRE(classes.size() == 2);
    CHECK(classes[0].name == "C-53 Swimming Pool");
    CHECK_FALSE(classes[0].from_memory);
    CHECK(classes[1].from_memory);
    CHECK(named.referrals[0].trade == plain.referrals[0].trade);
    CHECK(named.referrals[0].causes == plain.referrals[0].causes);
    CHECK(named.summary == plain.summary);
    auto cites = [](assess::Assessment const& a, std::string const& key)
    { return std::any_of(a.sources.begin(), a.sources.end(), [&](auto const& s) { return s.first == key; }); };
    CHECK(cites(named, "california-7027-5"));
    CHECK_FALSE(cites(named, "california-classes")); // here it only stands for what is from memory
    CHECK_FALSE(cites(plain, "california-7027-5"));
}

TEST_CASE("licences: every state that may be named has its file, and every trade a class or a reason why none")
{
    auto const words = fields::words_of<visit::LicencesOf>::words();
    CHECK(engine().data().files("licences/").size() == words.size());
    for (std::size_t i = 0; i < words.size(); ++i)
    {
        INFO(words[i]);
        auto const state = assess::state_licences(engine().data(), static_cast<visit::LicencesOf>(i));
        REQUIRE(state.trades.size() == engine().knowledge().trades.size());
        for (auto const& [id, trade] : engine().knowledge().trades)
        {
            INFO(id);
            auto const found = std::find_if(state.trades.begin(), state.trades.end(),
                                            [&name = id](auto const& entry) { return entry.first == name; });
            REQUIRE(found != state.trades.end());
            CHECK((!found->second.classes.empty() || !found->second.note.empty()));
            bool memory = false;
            for (auto const& one : found->second.classes)
            {
                CHECK((!memory || one.from_memory)); // those seen first
                memory = one.from_memory;
                CHECK(engine().bibliography().contains(one.key));
            }
        }
        CHECK(state.say.find("Local rules decide") != std::string::npos);
    }
}

TEST_CASE("referrals: a trade is sent for what its causes share, however many they are and none of them likely")
{
    auto const a = assessed("waters:\n  pool: {area: 400 ft2, bucket_test: {pool_drop: 1.5 in, bucket_drop: 0.25 in, "
                            "elapsed: 24 h, fill: off}}\n");
    REQUIRE(a.referrals.size() == 1); // for one finding one trade is enough
    CHECK(a.referrals[0].trade == "leak_specialist");
    for (auto const& cause : a.causes)
        CHECK(cause.probability < referred);
    CHECK(needed(a, "leak_specialist"));
}
