#include "danger_cards.hpp"

#include "plain.hpp"
#include "wording.hpp"

#include <algorithm>
#include <regex>

namespace padwalk::report
{
namespace
{

void add(Card& card, std::string label, std::vector<std::string> texts, Tone tone = Tone::plain)
{
    if (!texts.empty())
        card.parts.push_back({std::move(label), std::move(texts), tone, false});
}

bool stops(assess::Alarm const& alarm, std::string_view of_trade)
{
    return alarm.urgency == assess::Urgency::stop_use && (of_trade.empty() || alarm.trade == of_trade);
}

/// Everything that stops use at one item, in the order of the alarms.
class AtItem
{
public:
    AtItem(assess::Assessment const& a, Spoken const& say, Lexicon const& words, std::size_t item)
        : a_(a), say_(say), words_(words), item_(item)
    {
    }

    void add_alarm(assess::Alarm const& alarm)
    {
        alarmed_ = true;
        std::string const name = say_.finding(a_.findings.at(alarm.finding));
        if (first_.empty())
        {
            first_ = name;
            at_once_ = without_keys(say_.alarm(alarm));
        }
        else if (name != first_)
            once(also_, capitalised(name) + ": " + without_keys(say_.alarm(alarm)));
        for (std::size_t const water : alarm.closes)
            once(closed_, say_.item(water));
    }
    // What may be behind an alarm stands with its item; without one a cause is a danger of its own.
    void add_cause(assess::CauseEntryOf const& cause)
    {
        std::string const name = say_.cause(cause) + ", " + say_.chance(cause.probability);
        if (first_.empty())
        {
            first_ = name;
            at_once_ = say_.meanwhile(cause);
        }
        else if (!alarmed_)
            once(also_, capitalised(name) + ": " + say_.meanwhile(cause));
    }
    [[nodiscard]] std::size_t item() const { return item_; }
    [[nodiscard]] Card card() const
    {
        Card out{capitalised(say_.at_item(first_, item_)), {}, {}, 0, Tone::danger, {}};
        if (!at_once_.empty())
            add(out, words_("at_once"), {at_once_}, Tone::danger);
        add(out, words_("closed_until_then"), closed_.empty() ? closed_ : std::vector{joined(closed_, ", ", ", ")},
            Tone::danger);
        add(out, words_("also_there"), also_, Tone::danger);
        return out;
    }

private:
    assess::Assessment const& a_;
    Spoken const& say_;
    Lexicon const& words_;
    std::size_t item_;
    std::string first_, at_once_;
    bool alarmed_ = false;
    std::vector<std::string> also_, closed_;
};

AtItem& at(std::vector<AtItem>& list, assess::Assessment const& a, Spoken const& say, Lexicon const& words,
           std::size_t item)
{
    auto const known = std::find_if(list.begin(), list.end(), [&](AtItem const& i) { return i.item() == item; });
    if (known != list.end())
        return *known;
    list.emplace_back(a, say, words, item);
    return list.back();
}

} // namespace

std::vector<Card> danger_cards(assess::Assessment const& a, Spoken const& say, Lexicon const& words,
                               std::string_view of_trade)
{
    std::vector<AtItem> items;
    for (auto const& alarm : a.alarms)
        if (stops(alarm, of_trade))
            at(items, a, say, words, alarm.item).add_alarm(alarm);
    for (auto const& cause : a.causes)
        if (cause.urgency == assess::Urgency::stop_use && cause.hurts_people &&
            (of_trade.empty() || cause.trade == of_trade))
            at(items, a, say, words, cause.item).add_cause(cause);
    std::vector<Card> out;
    for (auto const& item : items)
        out.push_back(item.card());
    return out;
}

std::optional<Card> danger_words_card(assess::Assessment const& a, Lexicon const& words)
{
    if (a.danger_words.empty())
        return std::nullopt;
    std::vector<std::string> said;
    for (auto const& w : a.danger_words)
        said.push_back(quoted(w));
    Card card{words.filled("danger_words", joined(said, ", ", ", ")), {}, {}, 0, Tone::danger, {}};
    add(card, words("if_so"), {words("danger_words_do")}, Tone::danger);
    return card;
}

std::string without_keys(std::string text)
{
    // '[turnover-codes]', and '; turnover-codes' at the end of what stands in brackets
    static std::regex const cited(" \\[[a-z0-9]+(-[a-z0-9]+)*\\]"),
        in_brackets("; [a-z0-9]+(-[a-z0-9]+)+(, from memory)?\\)");
    return std::regex_replace(std::regex_replace(text, cited, ""), in_brackets, "$2)");
}

} // namespace padwalk::report
