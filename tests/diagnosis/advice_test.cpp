// No advice that hurts: a scan of every sentence that the knowledge can say, by who is told it.
#include "catch_compat.hpp"
#include "padwalk/diagnosis/knowledge.hpp"

#include <algorithm>
#include <sstream>

using namespace padwalk;
using diagnosis::Who;
using Words = std::vector<std::string>;

namespace
{

/// Something said, and to whom.
struct Said
{
    std::string where, item, text;
    bool to_a_trade = false; ///< else to the owner or the inspector, or to anybody
    Words cautions;
};

std::string lowered(std::string text)
{
    for (char& c : text)
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return text;
}

Words words_of(std::string const& text)
{
    Words out;
    std::string word;
    for (char const c : lowered(text) + " ")
        if ((c >= 'a' && c <= 'z') || c == '-' || c == '\'')
            word += c;
        else if (!word.empty())
        {
            out.push_back(word);
            word.clear();
        }
    return out;
}

// What one negation governs: commas carry it on, a full stop, a semicolon or a colon ends it.
std::vector<std::string> units_of(std::string const& text)
{
    std::vector<std::string> out(1);
    for (char const c : text)
        if (c == '.' || c == ';' || c == ':' || c == '!')
            out.emplace_back();
        else
            out.back() += c;
    return out;
}

Words list(std::string const& text)
{
    std::istringstream in(text);
    Words out;
    for (std::string word; in >> word;)
        out.push_back(word);
    return out;
}

// 'open*' is any word that begins so.
bool is_one(std::string const& word, Words const& forms)
{
    return std::any_of(forms.begin(), forms.end(),
                       [&](std::string const& form) {
                           return form.back() == '*' ? word.compare(0, form.size() - 1, form, 0, form.size() - 1) == 0
                                                     : word == form;
                       });
}

bool names(std::string const& text, Words const& forms)
{
    auto const words = words_of(text);
    return std::any_of(words.begin(), words.end(), [&](std::string const& w) { return is_one(w, forms); });
}

bool holds(std::string const& text, std::string const& part)
{
    return lowered(text).find(part) != std::string::npos;
}

bool any_of_these(std::string const& text, std::vector<std::string> const& parts)
{
    return std::any_of(parts.begin(), parts.end(), [&](std::string const& part) { return holds(text, part); });
}

Words const denials = list("not never nobody no nothing none without don't neither away nor");

// Whether a unit tells its reader to do one of these: not where it is denied, nor where it is said to be for a trade.
bool tells_to(std::string const& unit, Words const& verbs)
{
    auto const words = words_of(unit);
    for (std::size_t i = 0; i < words.size(); ++i)
    {
        if (!is_one(words[i], verbs))
            continue;
        bool const denied = std::any_of(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(i),
                                        [](std::string const& w) { return is_one(w, denials); }) ||
                            (i + 1 < words.size() && is_one(words[i + 1], list("no nothing none")));
        bool const kept_away = words.front() == "keep" && any_of_these(unit, {"away", "out of", "keep hands out"});
        bool const another = std::any_of(words.begin(), words.end(),
                                         [](std::string const& w)
                                         {
                                             return is_one(w, list("trade service technician* licensed contractor* "
                                                                   "electrician*"));
                                         }) ||
                             (i > 0 && words.front() == "have");
        if (!denied && !kept_away && !another)
            return true;
    }
    return false;
}

Words const opening = list("open opens opening opened unclamp* loosen* undo undoes unscrew* unbolt* remove* removing "
                           "slacken* dismantle* bleed* lift lifts lifting take takes taking tighten* crack pry part "
                           "parting");
Words const cleaning = list("clean cleans cleaning empty emptying empties rinse* degrease* change changing replace*");
Words const handling = list("hand hands finger* tool* stick rod wire cloth* reach* touch* put puts poke* feel feels "
                            "feeling spin spins spinning turn turns turning push pushing clear clears clearing");
Words const reaching = list("reach* hand hands foot feet finger* arm dive dives diving feel feels feeling");
Words const machinery = list("fan fans shaft impeller wheel belt belts blade coupling");
Words const electrical_parts = list("panel cabinet box motor terminal* controller");
Words const suctions = list("drain drains skimmer sump outlet outlets port ports suction");

bool pool_side(std::string const& item)
{
    return item == "filter" || item == "pump" || item == "loop";
}

// What holds pressure, in the words of this entry: 'it' is the filter where the entry is about one.
Words pressure_parts(std::string const& item)
{
    Words out = list("filter filters tank clamp relief pot strainer multiport");
    if (pool_side(item))
        for (char const* more : {"lid", "band"})
            out.push_back(more);
    if (item == "filter")
        out.push_back("it");
    return out;
}

bool pump_is_off(std::string const& text)
{
    return any_of_these(text, {"pump off", "locked off", "power off", "on cords", "pump is off"});
}

// Why this must not be said to an owner or an inspector; empty where nothing is wrong.
std::string wrong_for_anybody(Said const& s)
{
    for (auto const& unit : units_of(s.text))
    {
        bool const of_skimmer = names(unit, {"skimmer"});
        if (tells_to(unit, opening) && names(unit, pressure_parts(s.item)) && !of_skimmer)
            return "opens what holds pressure: " + unit;
        if (tells_to(unit, cleaning) && names(unit, pressure_parts(s.item)) && !of_skimmer &&
            (pool_side(s.item) || s.item == "heater") && !holds(unit, "backwash"))
            return "cleans what must be opened for it: " + unit;
        if (tells_to(unit, cleaning) && names(unit, {"basket", "baskets"}) && !of_skimmer && s.item != "water")
            return "empties the pot: " + unit;
        bool const machine = pool_side(s.item) || s.item == "heater" || s.item.empty();
        if (machine && tells_to(unit, handling) && names(unit, machinery) &&
            !any_of_these(unit, {"kept out", "clear of"}))
            return "hand or tool at moving parts: " + unit;
        if (tells_to(unit, opening) && names(unit, electrical_parts))
            return "opens live or hot parts: " + unit;
        if (tells_to(unit, list("backwash*")) && !pump_is_off(s.text))
            return "backwashing without the pump off: " + unit;
        if (s.item == "filter" && tells_to(unit, list("move moves moving turn")) && names(unit, {"handle"}) &&
            !pump_is_off(s.text))
            return "moves the handle with the pump running: " + unit;
    }
    return {};
}

// The same for everybody, the trades too.
std::string wrong_for_all(Said const& s)
{
    for (auto const& unit : units_of(s.text))
    {
        bool const into =
            tells_to(unit, list("reach*")) && names(unit, list("in into")) && (pool_side(s.item) || s.item == "drain");
        bool const at_suction = into || names(unit, suctions);
        if (tells_to(unit, reaching) && at_suction && !pump_is_off(s.text) &&
            !any_of_these(unit, {"out of the water", "from a pole"}))
            return "reaches into suction with the pump running: " + unit;
        if (holds(unit, "backwash") && holds(unit, "relief") && !any_of_these(unit, {"trade", "service"}))
            return "backwash and relief in one breath: " + unit;
    }
    return {};
}

bool deals_with_opening(Said const& s)
{
    Words parts = list("filter tank pot strainer lid basket baskets nest relief clamp laterals grid wet");
    auto const units = units_of(s.text);
    Words verbs = opening;
    verbs.insert(verbs.end(), cleaning.begin(), cleaning.end());
    return pool_side(s.item) &&
           std::any_of(units.begin(), units.end(),
                       [&](std::string const& unit)
                       { return names(unit, verbs) && names(unit, parts) && !names(unit, {"skimmer"}); });
}

bool has(Words const& all, std::string const& one)
{
    return std::find(all.begin(), all.end(), one) != all.end();
}

// Cautions that what is said to a trade, or by it, must carry.
std::string lacks_caution(Said const& s)
{
    if (s.to_a_trade && deals_with_opening(s) && !has(s.cautions, "pressurised_filter"))
        return "opens what holds pressure without the caution pressurised_filter";
    bool const machine = pool_side(s.item) || s.item == "heater";
    bool const worn = holds(s.text, "alarm on the belt"); // the belt of who looks
    if (machine && !worn && names(s.text, machinery) && !has(s.cautions, "rotating_machinery"))
        return "names a fan, shaft, impeller or belt without the caution rotating_machinery";
    for (auto const& unit : units_of(s.text))
        if (s.to_a_trade && machine && tells_to(unit, list("turn turns feel spin clear")) && names(unit, machinery) &&
            !pump_is_off(unit))
            return "works at a shaft or impeller without the power off: " + unit;
    return {};
}

std::vector<Said> everything(diagnosis::Knowledge const& k)
{
    std::vector<Said> out;
    for (auto const& [id, cause] : k.causes)
    {
        out.push_back({"cause " + id + ", ask", cause.item, cause.ask, cause.trade != "none", cause.cautions});
        out.push_back({"cause " + id + ", meanwhile", cause.item, cause.meanwhile, false, cause.cautions});
    }
    for (auto const& [id, finding] : k.findings)
        if (finding.if_seen)
            out.push_back({"finding " + id, finding.item, finding.if_seen->say, false, finding.if_seen->cautions});
    for (auto const& [id, check] : k.checks)
    {
        bool const trade_only = check.who == std::vector<Who>{Who::technician};
        out.push_back({"check " + id, check.item, check.name + "; " + check.needs, trade_only, check.cautions});
    }
    for (auto const& [id, caution] : k.cautions)
        out.push_back({"caution " + id, "", caution.say, false, {id}});
    return out;
}

std::string wrong(Said const& s)
{
    std::string why = s.to_a_trade ? std::string() : wrong_for_anybody(s);
    if (why.empty())
        why = wrong_for_all(s);
    return why.empty() ? lacks_caution(s) : why;
}

} // namespace

TEST_CASE("advice: the scan finds what must not be said", "[diagnosis][advice]")
{
    struct Row
    {
        char const *item, *text;
    };
    for (auto const& row : {Row{"filter", "Open the filter and look at the cartridge."},
                            Row{"filter", "Loosen the clamp a little."},
                            Row{"filter", "Pump off, take off the lid of the tank"},
                            Row{"filter", "Clean it more often."},
                            Row{"filter", "Open the air relief until it spits."},
                            Row{"filter", "Tighten the band."},
                            Row{"filter", "Backwash it when the gauge is high."},
                            Row{"filter", "Turn the handle while it runs."},
                            Row{"pump", "With the pump off, open the strainer pot and look."},
                            Row{"loop", "Empty both baskets, then read the gauges."},
                            Row{"pump", "Unscrew the lid by hand."},
                            Row{"heater", "Clean the filter with care."},
                            Row{"pump", "Spin the shaft with a stick to start it."},
                            Row{"pump", "Put a finger to the fan and feel whether it turns."},
                            Row{"pump", "Clear the impeller with a wire."},
                            Row{"heater", "Push the fan blade with a tool."},
                            Row{"pump", "Open the motor and look."},
                            Row{"electrical", "Remove the panel and look."},
                            Row{"drain", "Feel the pull of the drain by hand."},
                            Row{"drain", "Reach into the sump."},
                            Row{"loop", "Reach into the skimmer and free the flap."},
                            Row{"loop", "Dive to the suction outlet."},
                            Row{"filter", "Do not run it. Open the lid."},
                            Row{"", "Keep calm; reach to the fan with a hand."}})
    {
        INFO(row.text);
        Said s{"made up", row.item, row.text, false, {"pressurised_filter", "rotating_machinery"}};
        CHECK_FALSE(wrong(s).empty());
    }
    for (auto const& row : {Row{"filter", "Open the tank and change the sand."}, Row{"loop", "Empty the basket."},
                            Row{"pump", "Open the wet end."}, Row{"pump", "Turn the shaft by hand."}})
    {
        INFO("to a trade, without cautions: " << row.text);
        CHECK_FALSE(wrong(Said{"made up", row.item, row.text, true, {}}).empty());
    }
    CHECK_FALSE(wrong(Said{"made up", "pump", "Turn the shaft by hand.", true, {"rotating_machinery"}}).empty());
    for (auto const& row :
         {Row{"filter", "Do not open the tank, the clamp or the relief."}, Row{"filter", "Leave clamp and lid alone."},
          Row{"filter", "Opening it is for the pool service."}, Row{"pump", "Touch nothing behind the fan."},
          Row{"loop", "With the pump off, free the flap of the skimmer by hand."},
          Row{"filter", "Have it cleaned more often."}, Row{"drain", "Never reach into a drain."},
          Row{"filter", "Backwash by the maker's steps, pump off before the handle is moved."}})
    {
        INFO("may be said: " << row.text);
        Said s{"made up", row.item, row.text, false, {"pressurised_filter", "rotating_machinery"}};
        CHECK(wrong(s).empty());
    }
}

TEST_CASE("advice: no sentence tells anybody to do what can hurt them", "[diagnosis][advice]")
{
    auto const all = everything(diagnosis::read_knowledge(reference::Data::built_in()));
    REQUIRE(all.size() > 400);
    for (auto const& s : all)
        if (std::string const why = wrong(s); !why.empty())
            FAIL_CHECK(s.where << ": " << why << "\n  in: " << s.text);
}

TEST_CASE("advice: the caution on pressure says how it is let off and by whom", "[diagnosis][advice]")
{
    auto const k = diagnosis::read_knowledge(reference::Data::built_in());
    auto const* pressure = k.caution("pressurised_filter");
    REQUIRE(pressure != nullptr);
    for (char const* part : {"pump off at its switch", "disconnect locked or tagged", "valves as the maker says",
                             "standing clear of clamp and lid", "technician opens the air relief", "gauge reads zero",
                             "no hiss", "is for a pool service technician", "open nothing"})
    {
        INFO(part);
        CHECK(holds(pressure->say, part));
    }
    auto const* moving = k.caution("rotating_machinery");
    REQUIRE(moving != nullptr);
    for (char const* part :
         {"hands", "tools", "fan", "shaft", "impeller", "belt", "start by itself", "locked or tagged"})
    {
        INFO(part);
        CHECK(holds(moving->say, part));
    }
}

TEST_CASE("advice: a technician's check that opens a filter says how its pressure is let off", "[diagnosis][advice]")
{
    std::size_t met = 0;
    for (auto const& s : everything(diagnosis::read_knowledge(reference::Data::built_in())))
    {
        bool const opens =
            s.where.compare(0, 6, "check ") == 0 && s.item == "filter" && holds(s.text, "open the filter");
        if (!opens)
            continue;
        ++met;
        INFO(s.where << ": " << s.text);
        CHECK(s.to_a_trade);
        for (char const* part : {"disconnect locked off", "air relief", "step aside", "gauge reads zero", "no hiss"})
            CHECK(holds(s.text, part));
    }
    CHECK(met >= 2);
}
