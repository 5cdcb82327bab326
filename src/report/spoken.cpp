#include "spoken.hpp"

#include "figure_words.hpp"
#include "padwalk/report/text.hpp"
#include "plain.hpp"
#include "wording.hpp"

#include <algorithm>

namespace padwalk::report
{
namespace
{

// 'loops/spa loop/pump' by its steps.
std::vector<std::string> steps_of(std::string const& path)
{
    std::vector<std::string> out;
    std::size_t from = 0;
    for (std::size_t at = path.find('/'); at != std::string::npos; from = at + 1, at = path.find('/', from))
        out.push_back(path.substr(from, at - from));
    out.push_back(path.substr(from));
    return out;
}

// An interval's '(5.9 to 7)'.
std::string in_spanish(std::string interval)
{
    for (std::size_t at = interval.find(" to "); at != std::string::npos; at = interval.find(" to ", at))
        interval.replace(at, 4, " a ");
    return interval;
}

std::string as_key(std::string_view words)
{
    std::string out(words);
    for (char& c : out)
        c = c == ' ' || c == '\'' ? '_' : c;
    return out;
}

} // namespace

std::string Spoken::cause(assess::CauseEntryOf const& cause) const
{
    return words_.said("causes/" + cause.id + "/name", cause.name);
}

std::string Spoken::ask(assess::CauseEntryOf const& cause) const
{
    return cause.ask.empty() ? std::string() : words_.said("causes/" + cause.id + "/ask", cause.ask);
}

std::string Spoken::meanwhile(assess::CauseEntryOf const& cause) const
{
    return cause.meanwhile.empty() ? std::string() : words_.said("causes/" + cause.id + "/meanwhile", cause.meanwhile);
}

std::string Spoken::finding(assess::FindingEntryOf const& finding) const
{
    return words_.said("findings/" + finding.id, finding.name);
}

std::string Spoken::alarm(assess::Alarm const& alarm) const
{
    return words_.said("alarms/" + a_.findings.at(alarm.finding).id, alarm.say);
}

std::string Spoken::caution(std::string const& id, std::string const& english) const
{
    return words_.said("cautions/" + id, english);
}

std::string Spoken::check(assess::TradeCheck const& check) const
{
    return words_.said("checks/" + check.id + "/name", check.name);
}

std::string Spoken::needs(assess::TradeCheck const& check) const
{
    return check.needs.empty() ? std::string() : words_.said("checks/" + check.id + "/needs", check.needs);
}

std::string Spoken::trade(assess::Referral const& referral) const
{
    return words_.said("trades/" + referral.trade + "/name", referral.name);
}

std::string Spoken::licensed_for(assess::Referral const& referral) const
{
    return words_.said("trades/" + referral.trade + "/why", referral.why);
}

std::string Spoken::item(std::size_t item) const
{
    auto const& entry = a_.items.at(item);
    if (item == 0)
        return words_("the_property");
    if (english())
        return entry.name;
    auto const steps = steps_of(entry.path);
    std::string const kind = "kinds/" + entry.kind;
    if (steps.size() == 1)
        return words_.said(kind + "/name", entry.name);
    if (steps.back() != entry.kind || steps.size() < 3)
        return entry.name;
    std::string out = words_.said(kind + "/of", entry.name);
    if (auto const at = out.find("{}"); at != std::string::npos)
        out.replace(at, 2, "«" + steps[steps.size() - 2] + "»");
    return out;
}

std::string Spoken::at_item(std::string const& what, std::size_t item) const
{
    return item == 0 ? what : what + " (" + this->item(item) + ")";
}

// What tells one of several of a kind, from what stands before the English label.
std::string Spoken::before(assess::ReadingTaken const& taken) const
{
    auto const between = [&](std::string_view from, std::string_view to)
    {
        std::size_t const start = taken.label.find(from), begin = start + from.size();
        if (start == std::string::npos)
            return std::string();
        return taken.label.substr(begin, to.empty() ? std::string::npos : taken.label.find(to, begin) - begin);
    };
    std::string which = taken.record, name = taken.when;
    if (taken.record == "valve")
        name = between("valve ", ", ");
    else if (taken.record == "crack")
        name = between("(", ")");
    else if (taken.record == "pipe")
        which = taken.label.starts_with("suction") ? "suction" : "return";
    else if (taken.shape->name == "carbon_monoxide_at")
        which = taken.shape->name, name = between("carbon monoxide at ", "");
    std::string out = words_.said("before/" + which, {});
    if (auto const at = out.find("{}"); at != std::string::npos)
        out = name.empty() ? std::string() : out.replace(at, 2, name);
    return out;
}

std::string Spoken::reading(assess::ReadingTaken const& taken) const
{
    std::string const label = plain_name(taken.label);
    if (english() || taken.shape == nullptr)
        return label;
    if (taken.shape->name == "carbon_monoxide_at")
        return before(taken);
    std::string const place = "fields/" + taken.record + "." + taken.shape->name;
    return words_.knows(place) ? before(taken) + words_.said(place, label) : label;
}

std::string Spoken::reading_value(assess::ReadingTaken const& taken, units::System system) const
{
    std::string const text = reading_text(taken, system);
    return taken.words.empty() ? text : words_.said("words/" + text, text);
}

std::string Spoken::instrument(assess::ReadingTaken const& taken) const
{
    std::string const name = instrument_of(taken);
    if (name == "doubt as written")
        return words_("doubt_as_written");
    return name.empty() ? name : words_.said("instruments/" + name, name);
}

std::string Spoken::figure(assess::FigureEntry const& entry) const
{
    if (english() || entry.figure.model == nullptr)
        return entry.label;
    std::string const place = "figures/" + entry.figure.model->name;
    return words_.knows(place) ? at_item(words_.said(place, entry.label), entry.item) : entry.label;
}

std::string Spoken::figure_values(assess::FigureEntry const& entry, units::System system) const
{
    if (english())
        return numbers_text(entry, system);
    std::vector<std::string> out;
    for (auto const* value : worth_showing(entry.figure))
        if (value->value && value->shape->measure) // sentences are English
            out.push_back(words_.said("outputs/" + value->shape->name, plain_name(value->shape->name)) + " " +
                          in_spanish(output_text(*value, system)));
    return joined(out, "; ", "; ");
}

std::string Spoken::chance(double probability) const
{
    std::string const said = percent(probability);
    std::string const number = said.substr(said.find_first_of("0123456789"));
    return words_("chance_" + as_key(probability_word(probability))) + ", " +
           (said.starts_with("under")  ? words_.filled("percent_under", number)
            : said.starts_with("over") ? words_.filled("percent_over", number)
                                       : number);
}

std::string Spoken::how_soon(assess::Urgency urgency) const
{
    switch (urgency)
    {
    case assess::Urgency::stop_use: return words_("soon_stop_use");
    case assess::Urgency::soon: return words_("soon_soon");
    case assess::Urgency::plan: return words_("soon_plan");
    case assess::Urgency::watch: break;
    }
    return words_("soon_watch");
}

std::string Spoken::walker(visit::By by) const
{
    switch (by)
    {
    case visit::By::inspector: return words_("by_inspector");
    case visit::By::technician: return words_("by_technician");
    case visit::By::owner: break;
    }
    return words_("by_owner");
}

} // namespace padwalk::report
