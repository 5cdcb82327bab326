// Two visits held against each other: the pairing of their items, and what is odd about the pair.
#include "comparison_parts.hpp"

#include <algorithm>

namespace padwalk::assess
{
namespace
{

// By the place in the file as written, else as keys are compared: 'Spa' and 'spa' are one.
std::optional<std::size_t> same_place(std::vector<ItemEntry> const& items, std::string const& path)
{
    for (std::size_t i = 1; i < items.size(); ++i)
        if (items[i].path == path)
            return i;
    std::string const key = fields::normal_key(path);
    for (std::size_t i = 1; i < items.size(); ++i)
        if (fields::normal_key(items[i].path) == key)
            return i;
    return std::nullopt;
}

std::optional<Verdict> verdict_on(Assessment const& a, std::optional<std::size_t> item)
{
    if (item)
        for (auto const& verdict : a.verdicts)
            if (verdict.item == *item)
                return verdict;
    return std::nullopt;
}

enum class Order
{
    as_given,
    turned,
    same,
    not_known
};

// Dates as they are read: year first, so that texts compare as times do. A date without a time may be any of its day.
Order order_of(std::string const& then, std::string const& now)
{
    if (then.empty() || now.empty())
        return Order::not_known;
    std::size_t const length = std::min(then.size(), now.size());
    int const compared = then.compare(0, length, now, 0, length);
    if (compared != 0)
        return compared < 0 ? Order::as_given : Order::turned;
    return then.size() == now.size() ? Order::same : Order::not_known;
}

void note_order(Pair& pair)
{
    auto const& [then, now] = std::pair<std::string const&, std::string const&>(pair.then.on, pair.now.on);
    auto& notes = pair.out.notes;
    if (then.empty() || now.empty())
    {
        std::string const which = then.empty() && now.empty() ? "neither visit has a date"
                                  : then.empty()              ? "the first visit has no date"
                                                              : "the second visit has no date";
        notes.push_back(which + "; the first named is taken as the earlier");
        return;
    }
    switch (order_of(then, now))
    {
    case Order::turned:
        notes.push_back("the first visit (" + then + ") is the later one by its date; the second is of " + now +
                        ": what is 'then' and 'now' here is as they were named, so turn them round");
        break;
    case Order::same: notes.push_back("both visits are of the same moment, " + then); break;
    case Order::not_known: notes.push_back("both visits are of one day, and which came first is not written"); break;
    case Order::as_given: break;
    }
}

} // namespace

bool at_fault(std::optional<Verdict> const& verdict)
{
    return verdict && (verdict->condition == Condition::unsafe || verdict->condition == Condition::does_not_work ||
                       verdict->condition == Condition::works_with_fault);
}

Pair::Pair(Assessment const& earlier, Assessment const& later) : then(earlier), now(later)
{
    out.property = later.property.empty() ? earlier.property : later.property;
    out.on_then = earlier.on;
    out.on_now = later.on;
    pair_items();
    add_verdicts();
}

void Pair::pair_items()
{
    then_at_.assign(then.items.size(), 0);
    now_at_.assign(now.items.size(), 0);
    out.items.push_back({{}, "the property", "property", 0, 0, {}, {}, Standing::not_told});
    std::vector<bool> taken(then.items.size(), false);
    for (std::size_t i = 1; i < now.items.size(); ++i)
    {
        auto const& item = now.items[i];
        auto before = same_place(then.items, item.path);
        if (before && taken[*before])
            before.reset(); // two names that read alike: the first has it
        if (before)
        {
            taken[*before] = true;
            then_at_[*before] = out.items.size();
        }
        now_at_[i] = out.items.size();
        out.items.push_back({item.path, item.name, item.kind, before, i, {}, {}, Standing::not_told});
    }
    for (std::size_t i = 1; i < then.items.size(); ++i)
        if (!taken[i])
        {
            then_at_[i] = out.items.size();
            auto const& item = then.items[i];
            out.items.push_back({item.path, item.name, item.kind, i, std::nullopt, {}, {}, Standing::not_told});
        }
}

void Pair::add_verdicts()
{
    for (auto& item : out.items)
    {
        item.verdict_then = verdict_on(then, item.then);
        item.verdict_now = verdict_on(now, item.now);
        common_ += item.verdict_then && item.verdict_now ? 1U : 0U;
    }
}

void note_oddities(Pair& pair)
{
    note_order(pair);
    auto& notes = pair.out.notes;
    if (pair.then.property.empty() != pair.now.property.empty())
        notes.emplace_back("only one of the visits names its property; they are taken to be of the same one");
    else if (fields::normal_key(pair.then.property) != fields::normal_key(pair.now.property))
        notes.push_back("the visits name different properties: '" + pair.then.property + "' then, '" +
                        pair.now.property + "' now");
    if (pair.common() == 0)
        notes.emplace_back("nothing stands in both visits under the same name, so nothing could be matched; give items "
                           "the names that they had");
}

Comparison compare(Assessment const& earlier, Assessment const& later)
{
    Pair pair(earlier, later);
    note_oddities(pair);
    compare_readings(pair);
    compare_figures(pair);
    compare_findings(pair);
    compare_causes(pair);
    compare_alarms(pair);
    settle_matters(pair);
    return std::move(pair.out);
}

} // namespace padwalk::assess
