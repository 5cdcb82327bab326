// What is resolved, what is open still and what is new, and what that amounts to.
#include "comparison_parts.hpp"

#include <algorithm>

namespace padwalk::assess
{
namespace
{

/// Sorts what two visits say of each thing into resolved, open and new.
class Matters
{
public:
    explicit Matters(Pair& pair) : pair_(pair), c_(pair.out) {}

    void settle()
    {
        for (auto const& finding : c_.findings)
            add_finding(finding);
        for (auto const& cause : c_.causes)
            if (cause.stops_use && cause.found == FoundAs::confirmed)
                add_found_danger(cause);
        for (std::size_t i = 1; i < c_.items.size(); ++i)
            settle_item(i);
        for (auto* list : {&c_.open, &c_.fresh, &c_.resolved})
            std::stable_sort(list->begin(), list->end(),
                             [](Matter const& a, Matter const& b) { return a.danger > b.danger; });
        c_.left = what_is_left();
    }

private:
    Pair& pair_;
    Comparison& c_;

    // An alarm of the most urgent kind that is not known to be gone.
    [[nodiscard]] bool alarms(std::size_t item, std::string const& finding) const
    {
        return std::any_of(c_.alarms.begin(), c_.alarms.end(),
                           [&](AlarmCompared const& alarm)
                           {
                               return alarm.item == item && alarm.finding == finding &&
                                      alarm.urgency == Urgency::stop_use && alarm.state != AlarmNow::gone;
                           });
    }

    void add_finding(FindingCompared const& f)
    {
        bool const danger = alarms(f.item, f.id);
        if (f.standing == Standing::resolved)
            c_.resolved.push_back({f.item, f.name, "looked for and not seen", false});
        if (f.standing == Standing::open)
            c_.open.push_back({f.item, f.name,
                               !f.now                           ? "not looked at this time"
                               : f.now == FindingState::unclear ? "can't be told this time"
                                                                : "seen again",
                               danger});
        if (f.standing == Standing::fresh)
            c_.fresh.push_back({f.item, f.name,
                                !f.then                           ? "not looked at then"
                                : f.then == FindingState::unclear ? "could not be told then"
                                                                  : "looked for and not seen then",
                                danger});
    }

    // A danger that was found is settled by whoever looks again and does not find it, or by an item that works.
    void add_found_danger(CauseCompared const& cause)
    {
        auto const& item = c_.items.at(cause.item);
        bool const found_now =
            std::any_of(pair_.now.found.begin(), pair_.now.found.end(),
                        [&](FoundEntry const& entry) {
                            return entry.stops_use && entry.cause == cause.id && pair_.now_at(entry.item) == cause.item;
                        });
        if (found_now)
            c_.open.push_back({cause.item, cause.name, "found on site; unsafe unless it was put right since", true});
        else if (item.verdict_now && item.verdict_now->condition == Condition::works)
            c_.resolved.push_back({cause.item, cause.name, "found then; it works now", false});
        else
            c_.open.push_back({cause.item, cause.name, "found then; nothing says that it was put right", true});
    }

    [[nodiscard]] bool named(std::vector<Matter> const& list, std::size_t item) const
    {
        return std::any_of(list.begin(), list.end(), [item](Matter const& m) { return m.item == item; });
    }

    // Its own danger, and not that of an alarm which closes it.
    [[nodiscard]] static bool own_danger(Assessment const& a, std::optional<std::size_t> item)
    {
        if (!item)
            return false;
        return std::any_of(a.alarms.begin(), a.alarms.end(),
                           [&](Alarm const& alarm)
                           { return alarm.item == *item && alarm.urgency == Urgency::stop_use; }) ||
               std::any_of(a.found.begin(), a.found.end(),
                           [&](FoundEntry const& found) { return found.item == *item && found.stops_use; }) ||
               std::any_of(a.causes.begin(), a.causes.end(),
                           [&](CauseEntryOf const& cause)
                           { return cause.item == *item && cause.urgency == Urgency::stop_use; });
    }

    void settle_item(std::size_t i)
    {
        auto& item = c_.items[i];
        bool const was = at_fault(item.verdict_then), is = at_fault(item.verdict_now);
        bool const works = item.verdict_now && item.verdict_now->condition == Condition::works;
        say_of_item(i, item, was, is, works);
        item.standing = named(c_.open, i)       ? Standing::open
                        : named(c_.fresh, i)    ? Standing::fresh
                        : named(c_.resolved, i) ? Standing::resolved
                        : works                 ? Standing::well
                                                : Standing::not_told;
    }

    // Where none of its findings says it: a fault that stands in a cause or a field alone.
    void say_of_item(std::size_t i, ItemCompared const& item, bool was, bool is, bool works)
    {
        bool const said = named(c_.open, i) || named(c_.fresh, i);
        bool const unsafe_then = was && item.verdict_then->condition == Condition::unsafe;
        if (was && works && !said && !named(c_.resolved, i))
            c_.resolved.push_back({i, item.verdict_then->because, "it works now", false});
        else if (was && !is && !works && !said)
        {
            bool const danger = unsafe_then && own_danger(pair_.then, item.then);
            if (danger || !named(c_.resolved, i))
                c_.open.push_back({i, item.verdict_then->because,
                                   item.verdict_now && item.verdict_now->condition == Condition::cannot_tell
                                       ? "can't be told this time"
                                       : "not looked at this time",
                                   danger});
        }
        else if (is && !said)
        {
            bool const danger = item.verdict_now->condition == Condition::unsafe && own_danger(pair_.now, item.now);
            (was ? c_.open : c_.fresh).push_back({i, item.verdict_now->because, "so it stands now", danger});
        }
    }

    [[nodiscard]] Left what_is_left() const
    {
        auto const danger = [](Matter const& m) { return m.danger; };
        if (pair_.now.outcome == Outcome::unsafe || std::any_of(c_.open.begin(), c_.open.end(), danger) ||
            std::any_of(c_.fresh.begin(), c_.fresh.end(), danger))
            return Left::unsafe;
        bool const more = !c_.open.empty() || !c_.fresh.empty() || pair_.now.outcome != Outcome::nothing_found;
        return more ? Left::something : Left::nothing;
    }
};

} // namespace

void settle_matters(Pair& pair)
{
    Matters(pair).settle();
}

} // namespace padwalk::assess
