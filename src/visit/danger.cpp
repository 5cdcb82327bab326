// Words that must never count for nothing. What they are read as, and what is no danger after all, is judgement: to
// stop for nothing costs a question, to pass over one can cost a life.
#include "padwalk/visit/phrases.hpp"

#include "stems.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <sstream>

namespace padwalk::visit
{
namespace
{

using Words = std::vector<std::string>;

struct Rule
{
    std::string_view finding, item;
    std::array<std::string_view, 3> sets; ///< one word of each must be said; 'smell*' is any word that begins so
    std::string_view unless = {};         ///< words that make it something else
    std::string_view at = {};             ///< kinds of item; empty for any
    std::string_view not_at = {};
};

constexpr std::string_view gas = "gas gassy propane lpg methane natgas";
constexpr std::string_view smell =
    "smell* smelt odor* odour* stink* stank whiff* reek* sniff* hiss* leak* leek* fumes escap*";
constexpr std::string_view sounding = "beep* chirp* sound* went going goes ring* rang scream* blar* trigger* activ* "
                                      "trip* off high alert* alarming";
constexpr std::string_view quiet_alarm =
    "no missing absent without lacks lacking need* install* fitted fit present recommend* works working tested test ok "
    "new expired old not add is there has near";
constexpr std::string_view cover = "cover covers grate grates lid grille";
constexpr std::string_view gone = "gone missing off absent removed lost fell came";
constexpr std::string_view broken = "broke* crack* bust* bust shatter* split chip* brittle damaged";
constexpr std::string_view loose = "loose wobbl* wiggl* lift* rock* rattl* unscrewed popped moves shift*";
constexpr std::string_view held = "stuck trap* caught sucked held entrap* pinned pulled tangled";
constexpr std::string_view body = "hair leg legs arm arms hand hands foot feet finger* toe* limb* kid kids child* "
                                  "swimmer* person people someone somebody bather* girl boy man woman butt body he she "
                                  "me him her towel swimsuit suit shirt";
constexpr std::string_view drain = "drain drains suction";

constexpr auto rules = std::to_array<Rule>({
    {"heater_gas_smell", "heater", {gas, smell, ""}, "flue exhaust"},
    {"heater_gas_smell", "heater", {"rotten rotting bad", "egg eggs", ""}},
    {"heater_gas_smell", "heater", {"skunk*", "", ""}},
    {"heater_gas_smell", "heater", {"sulfur* sulphur* mercaptan", "smell* odor* odour* stink*", ""}},
    {"heater_co_alarm", "heater", {"co co2 monoxide", "alarm* detector* monitor* sensor", ""}, quiet_alarm},
    {"heater_co_alarm", "heater", {"co co2 monoxide", sounding, ""}},
    {"heater_co_alarm", "heater", {"monoxide", "", ""}, quiet_alarm},
    {"heater_co_alarm", "heater", {"co", "poison* ppm reading exposure leak* smell*", ""}},
    {"heater_co_alarm",
     "heater",
     {"detector* alarm*", "beep* chirp* sound* went going goes ring* scream* blar*", ""},
     "pool gate door level water salt flow drive code"},
    {"heater_co_symptoms", "heater", {"passed pass passing", "out", ""}, "leaf leaves water inspection test"},
    {"heater_co_symptoms",
     "heater",
     {"faint* dizz* lightheaded headache* headed nausea* nauseous woozy vomit* "
      "unconscious fainted",
      "", ""},
     "faint"},
    {"heater_co_symptoms", "heater", {"sick ill", "feel* felt got get* people tenant* kid* everyone", ""}},
    {"electrical_tingling", "electrical", {"zap* jolt* tingl* electrocut* electrified tickl*", "", ""}},
    {"electrical_tingling",
     "electrical",
     {"shock*", "", ""},
     "chlorine treatment superchlor* algae dose* bag bags after weekly need* green cloudy added pool* last yesterday"},
    {"electrical_tingling",
     "electrical",
     {"shock*",
      "felt feel* got gets get gave gives electric* touch* ladder rail "
      "handrail metal somebody someone kid kids me him her swimmer* bather*",
      ""},
     "chlorine treatment superchlor*"},
    {"electrical_tingling",
     "electrical",
     {"buzz*", "touch* rail* handrail* ladder* hand hands finger* feel* felt", ""},
     "capacitor"},
    {"electrical_tingling", "electrical", {"current electricity", "feel* felt water", ""}, "motor amps tide"},
    {"heater_flame_rollout",
     "heater",
     {"flame flames fire",
      "outside licking roll* shoot* shot caught escap* cabinet "
      "extinguisher department front",
      ""},
     "",
     "",
     "pump electrical"},
    {"heater_flame_rollout", "heater", {"smoke smokes smoking smoked smoky", "", ""}, "alarm detector", "heater vent"},
    {"pump_burnt_smell", "pump", {"smoke smokes smoking smoked smoky fire flames", "", ""}, "alarm detector", "pump"},
    {"electrical_hot_smell",
     "electrical",
     {"smoke smokes smoking smoked smoky flames", "", ""},
     "alarm detector",
     "",
     "heater vent pump"},
    {"electrical_hot_smell",
     "electrical",
     {"fire",
      "caught outside cabinet extinguisher department panel box small "
      "outlet wire wires",
      ""},
     "",
     "",
     "heater vent pump"},
    {"electrical_hot_smell", "electrical", {"arcing arced sparks sparking sparked", "", ""}, "", "", "heater"},
    {"drain_cover_gone", "drain", {cover, gone, ""}, "", "drain"},
    {"drain_cover_cracked", "drain", {cover, broken, ""}, "", "drain"},
    {"drain_cover_loose", "drain", {cover, loose, ""}, "", "drain"},
    {"drain_cover_gone", "drain", {cover, gone, drain}, "channel strip", "", "drain"},
    {"drain_cover_cracked", "drain", {cover, broken, drain}, "channel strip", "", "drain"},
    {"drain_cover_loose", "drain", {cover, loose, drain}, "channel strip", "", "drain"},
    {"drain_only_one_seen",
     "drain",
     {"only just sole", "one 1 single", "drain drains outlet outlets"},
     "than plug plugs screw screws cover covers grate lid valve line pan channel strip deck floor roof",
     "",
     "electrical heater deck vent fill_valve shell filter"},
    {"drain_hair_or_cloth_caught", "drain", {held, body, ""}, "float valve", "drain water loop property"},
    {"drain_hair_or_cloth_caught", "drain", {held, body, drain}},
    {"drain_hair_or_cloth_caught",
     "drain",
     {"stuck sucked entrap*", "to drain drains suction", ""},
     "leaves toy net "
     "pole float valve hose debris",
     "drain"},
});

bool one_of(std::string_view list, std::string const& word)
{
    while (!list.empty())
    {
        auto const end = std::min(list.find(' '), list.size());
        auto const form = list.substr(0, end);
        list.remove_prefix(std::min(end + 1, list.size()));
        if (form.empty())
            continue;
        if (form.back() == '*' ? word.compare(0, form.size() - 1, form.substr(0, form.size() - 1)) == 0 : form == word)
            return true;
    }
    return false;
}

constexpr std::string_view between = "any sign signs of evidence smell* odor odour strong detectable noticeable the a "
                                     "faint slight obvious notice* feel felt detect* see seen find get got has have "
                                     "been is are was were visible current major co gas carbon monoxide alarm fitted";

// Whether a denial stands right before this word, with nothing between but 'any sign of' or 'leaks or'.
bool denied_at(Words const& words, std::size_t i)
{
    for (std::size_t k = i; k-- > 0;)
    {
        std::string const& w = words[k];
        if (words::is_denial(w))
            return k + 1 >= words.size() || words[k + 1] != "sure";
        bool const listed = k + 1 < words.size() && one_of("or nor", words[k + 1]);
        if (!one_of(between, w) && !one_of("or nor", w) && !listed)
            return false;
    }
    return false;
}

// 'gas smell: none', 'smell of gas not noticed'
bool denied_after(Words const& words, std::size_t last)
{
    std::size_t k = last + 1;
    while (k < words.size() && one_of(", is was were at all", words[k]))
        ++k;
    if (k >= words.size())
        return false;
    if (one_of("none nil negative", words[k]) || (words[k] == "no" && k + 1 == words.size()))
        return true;
    return words[k] == "not" && k + 1 < words.size() &&
           one_of("noticed present detected found seen observed tested checked smelled felt done been", words[k + 1]);
}

std::optional<Danger> told(Rule const& rule, Words const& words, std::string_view item)
{
    if ((!rule.at.empty() && !one_of(rule.at, std::string(item))) || one_of(rule.not_at, std::string(item)))
        return std::nullopt;
    Danger out{std::string(rule.finding), std::string(rule.item), {}, {}, false};
    std::size_t first = words.size(), last = 0;
    for (auto const set : rule.sets)
    {
        if (set.empty())
            continue;
        std::size_t i = 0;
        while (i < words.size() &&
               (!one_of(set, words[i]) || std::find(out.words.begin(), out.words.end(), words[i]) != out.words.end()))
            ++i;
        if (i == words.size())
            return std::nullopt;
        out.words.push_back(words[i]);
        first = std::min(first, i);
        last = std::max(last, i);
        out.denied = out.denied || denied_at(words, i);
    }
    for (auto const& word : words)
        if (one_of(rule.unless, word))
            return std::nullopt;
    out.denied = out.denied || denied_after(words, last);
    return out;
}

// A gas heater that leaks water leaks no gas.
bool of_the_appliance(Danger const& d, Words const& words)
{
    if (d.finding != "heater_gas_smell" || d.words.size() < 2 || d.words[1].compare(0, 2, "le") != 0)
        return false;
    auto const place = std::find(words.begin(), words.end(), d.words[0]);
    return place + 1 < words.end() && one_of("heater heaters furnace fired unit boiler water", *(place + 1));
}

// 'GAS', 'gas??': the one word is enough.
bool gas_alone(Words const& words)
{
    bool said = false;
    for (auto const& word : words)
    {
        if (one_of("gas propane", word))
            said = true;
        else if (!words::is_filler(word) && !words::is_hedge(word) && word != ",")
            return false;
    }
    return said;
}

struct Sentence
{
    std::string text;
    Words words;
};

std::vector<Sentence> sentences(std::string_view text)
{
    std::vector<Sentence> out(1);
    auto finish = [&out]
    {
        std::string piece;
        std::istringstream pieces(out.back().text);
        while (std::getline(pieces, piece, ','))
        {
            for (auto& word : words::split(piece))
            {
                auto& so_far = out.back().words;
                if (word == "but")
                    word = ",";
                // The smoke of a test is made to see the draft.
                if (!so_far.empty() && so_far.back() == "smoke" && one_of("test* pencil* match* stick* puffer*", word))
                    so_far.back() = "puff";
                so_far.push_back(std::move(word));
            }
            out.back().words.emplace_back(",");
        }
        if (!out.back().words.empty())
            out.emplace_back();
    };
    for (char const c : text)
    {
        bool const end = c == '.' || c == ';' || c == '!' || c == '\n' || out.back().text.size() > 2000;
        if (end)
            finish();
        else
            out.back().text += c == ':' ? ',' : c;
    }
    finish();
    out.pop_back();
    return out;
}

} // namespace

std::vector<Danger> dangers(std::string_view text, std::string_view item)
{
    std::vector<Danger> out;
    auto add = [&out](Danger d, Sentence const& sentence)
    {
        d.sentence = sentence.text;
        for (auto& known : out)
            if (known.finding == d.finding)
            {
                if (known.denied && !d.denied && known.sentence != d.sentence)
                    known = std::move(d);
                return;
            }
        out.push_back(std::move(d));
    };
    for (auto const& sentence : sentences(text))
    {
        if (gas_alone(sentence.words))
            add({"heater_gas_smell", "heater", {}, {"gas"}, false}, sentence);
        for (auto const& rule : rules)
            if (auto d = told(rule, sentence.words, item); d && !of_the_appliance(*d, sentence.words))
                add(std::move(*d), sentence);
    }
    return out;
}

std::vector<std::string> danger_in(std::string_view text)
{
    std::vector<std::string> out;
    for (auto const& d : dangers(text))
    {
        std::string said;
        for (auto const& word : d.words)
            said += (said.empty() ? "" : " ") + word;
        if (!d.denied && std::find(out.begin(), out.end(), said) == out.end())
            out.push_back(said);
    }
    return out;
}

} // namespace padwalk::visit
