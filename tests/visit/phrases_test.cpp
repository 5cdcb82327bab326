#include "catch_compat.hpp"
#include "padwalk/visit/phrases.hpp"

using padwalk::visit::content_stems;
using padwalk::visit::PhraseReading;
using padwalk::visit::Vocabulary;
using Result = PhraseReading::Result;
using Words = std::vector<std::string>;

namespace
{

Vocabulary const& vocabulary()
{
    static Vocabulary const words({
        {"pump_noise_grinding", "pump", {"grinding noise", "grinds", "sounds like gravel in a blender"}},
        {"pump_noise_gravel", "pump", {"gravel noise", "cavitation"}},
        {"pump_hot", "pump", {"motor hot", "too hot to touch"}},
        {"pump_not_starting", "pump", {"does not start", "won't start", "no start"}},
        {"pump_leak_shaft", "pump", {"drip at the shaft seal", "water under the pump", "leaking seal"}},
        {"pump_leak", "pump", {"leaking"}},
        {"loop_bubbles", "loop", {"bubbles at the returns", "air in the returns"}},
        {"heater_leak", "heater", {"leaking", "drips"}},
        {"heater_hot", "heater", {"water too hot"}},
    });
    return words;
}

PhraseReading match(std::string_view note, std::string_view item = {})
{
    return vocabulary().match(note, item);
}

void understood(std::string_view note, std::string_view item, std::string const& finding)
{
    INFO("note '" << note << "'");
    auto const read = match(note, item);
    CHECK(read.result == Result::understood);
    CHECK(read.findings == Words{finding});
    CHECK(read.why.empty());
}

} // namespace

TEST_CASE("a note fits a finding when all content words of a phrase occur in it, by their stems", "[visit][phrases]")
{
    understood("grinding noise", "pump", "pump_noise_grinding");
    understood("a loud grinding noise from the pump when it runs", "pump", "pump_noise_grinding");
    understood("The pump GRINDS!", "pump", "pump_noise_grinding");
    understood("noises, grinding", "pump", "pump_noise_grinding"); // the order does not matter
    understood("bubbling at the return", "loop", "loop_bubbles");
    understood("there was water under the pump", "pump", "pump_leak_shaft");
    understood("bubbles at the returns", "", "loop_bubbles"); // among all items
}

TEST_CASE("the phrase with the most words wins", "[visit][phrases]")
{
    understood("leaking", "pump", "pump_leak");
    understood("leaking seal", "pump", "pump_leak_shaft"); // both fit; two words against one
}

TEST_CASE("a tie between findings is a question back", "[visit][phrases]")
{
    auto const tie = match("leaking");
    CHECK(tie.result == Result::several);
    CHECK(tie.findings == Words{"pump_leak", "heater_leak"});
    CHECK(tie.why == "may mean more than one thing");
    understood("leaking", "heater", "heater_leak"); // the item tells
    auto const noises = match("grinding gravel noise", "pump");
    CHECK(noises.result == Result::several);
    CHECK(noises.findings == Words{"pump_noise_grinding", "pump_noise_gravel"});
    Vocabulary const twice({{"same", "a", {"rust"}}, {"same", "b", {"rust"}}});
    CHECK(twice.match("rust", "").result == Result::understood); // one finding under two items is no tie
}

TEST_CASE("a single denial is read as looked for and not there unless the phrase itself denies", "[visit][phrases]")
{
    for (auto const* note :
         {"no bubbles at the returns", "not any bubbles at the returns", "never saw bubbles in the returns",
          "returns without bubbles", "bubbles at the returns: none", "there aren't bubbles at the returns",
          "there arent bubbles at the returns"})
    {
        INFO("note '" << note << "'");
        auto const read = match(note, "loop");
        CHECK(read.result == Result::denied);
        CHECK(read.findings == Words{"loop_bubbles"});
        CHECK(read.why.empty());
    }
    understood("it does not start", "pump", "pump_not_starting");
    understood("doesn't start", "pump", "pump_not_starting");
    understood("doesn’t start", "pump", "pump_not_starting"); // the apostrophe of phones
    understood("doesnt start", "pump", "pump_not_starting");
    understood("won't start", "pump", "pump_not_starting");
    understood("wont start", "pump", "pump_not_starting");
    understood("will not start", "pump", "pump_not_starting");
}

TEST_CASE("a hedge is a question back", "[visit][phrases]")
{
    for (auto const* note : {"maybe a grinding noise", "perhaps grinding noise", "possibly a grinding noise",
                             "might be a grinding noise", "probably grinding noise"})
    {
        INFO("note '" << note << "'");
        auto const read = match(note, "pump");
        CHECK(read.result == Result::several);
        CHECK(read.findings == Words{"pump_noise_grinding"});
        CHECK(read.why == "says 'maybe'; write it as seen, or say under not_tested why it can't be told");
    }
}

TEST_CASE("a finding's own id is taken as it is, whatever the item", "[visit][phrases]")
{
    understood("pump_hot", "pump", "pump_hot");
    understood("heater_leak", "pump", "heater_leak");
}

TEST_CASE("what fits nothing is a question back, with the nearest findings", "[visit][phrases]")
{
    auto const none = match("purple wombats", "pump");
    CHECK(none.result == Result::none);
    CHECK(none.findings.empty());
    CHECK(none.why == "fits nothing known");
    auto const near =
        match("seal dripping", "pump"); // two of the three words of 'drip at the shaft seal', one of 'leaking seal'
    CHECK(near.result == Result::none);
    CHECK(near.findings == Words{"pump_leak_shaft"});
    for (auto const* nothing : {"", "   ", "the", "!?", "\xff\xfe"})
    {
        CHECK(match(nothing, "pump").result == Result::none);
        CHECK(match(nothing, "pump").findings.empty());
    }
    CHECK(match("grinding noise", "wombat").result == Result::none);
}

TEST_CASE("stems let the forms of one word meet", "[visit][phrases][stems]")
{
    CHECK(content_stems("The pump is making a grinding noise") == Words{"pump", "mak", "grind", "nois"});
    auto same = [](std::string_view a, std::string_view b)
    {
        INFO(a << " / " << b);
        CHECK(content_stems(a) == content_stems(b));
    };
    same("leak", "leaks");
    same("leak", "leaking");
    same("leak", "leaked");
    same("drip", "dripping");
    same("trip", "tripped");
    same("noise", "noises");
    same("bubble", "bubbling");
    same("vibrate", "vibrating");
    same("crack", "cracks");
    same("battery", "batteries");
    same("switch", "switches");
    same("hiss", "hissing");
    same("loud", "louder");
    same("slow", "slowly");
    same("pump's", "pumps");
    same("can't", "cannot");
    same("cant", "can not");
    same("isn't", "is not");
    same("LEAK", "leak");
    CHECK(content_stems("gas") == Words{"gas"});
    CHECK(content_stems("glass") == Words{"glass"});
}

TEST_CASE("two denials cancel only where that is plain and what could not be told is not seen", "[visit][phrases]")
{
    Vocabulary const words(
        {{"gone", "drain", {"cover missing"}}, {"soot", "heater", {"soot"}}, {"cold", "heater", {"no heat"}}});
    CHECK(words.match("cover missing", "drain").result == Result::understood);
    CHECK(words.match("cover not missing", "drain").result == Result::denied);
    CHECK(words.match("cover could not be checked", "drain").result == Result::not_tested);
    CHECK(words.match("not sure if there is a cover", "drain").result == Result::not_tested);
    CHECK(words.match("no soot", "heater").findings == Words{"soot"});
    CHECK(words.match("no soot", "heater").result == Result::denied);
    CHECK(words.match("no CO alarm", "heater").result == Result::none);
    CHECK(words.match("no CO alarm", "heater").findings.empty()); // a denial alone suggests nothing
}

TEST_CASE("a note that says two things is read as two", "[visit][phrases]")
{
    auto const both = vocabulary().read("grinding noise and leaking seal", "pump");
    REQUIRE(both.size() == 2);
    CHECK(both[0].findings == Words{"pump_noise_grinding"});
    CHECK(both[1].findings == Words{"pump_leak_shaft"});
}

TEST_CASE("words of danger are found in any text unless denied", "[visit][danger]")
{
    using padwalk::visit::danger_in;
    for (auto const* text : {"maybe gas smell?", "smelled rotten eggs", "CO alarm was beeping", "got zapped", "GAS",
                             "no heat, gas smell", "not sure, gas smell", "kid's foot got stuck on the drain"})
    {
        INFO(text);
        CHECK_FALSE(danger_in(text).empty());
    }
    for (auto const* text : {"no gas smell", "no CO alarm", "no CO alarm fitted", "no tingle", "did not smell any gas",
                             "gas heater leaks water", "shocked the pool yesterday", "float stuck", ""})
    {
        INFO(text);
        CHECK(danger_in(text).empty());
    }
}

TEST_CASE("hard, hardness and hardly are three words", "[visit][phrases][stems]")
{
    CHECK(content_stems("hardly") != content_stems("hard"));
    CHECK(content_stems("hardness") != content_stems("hard"));
    CHECK(content_stems("heater") != content_stems("heat"));
}
