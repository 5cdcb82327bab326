#include "padwalk/diagnosis/knowledge.hpp"

#include <algorithm>
#include <set>

namespace padwalk::diagnosis
{
namespace
{

/// Looks at the whole of the knowledge and collects what does not hold together.
class Reviewer
{
public:
    Reviewer(Knowledge const& knowledge, std::map<std::string, reference::Source> const& bibliography)
        : k_(knowledge), bibliography_(bibliography)
    {
    }

    std::vector<std::string> review()
    {
        ids(k_.causes, "cause");
        ids(k_.findings, "finding");
        ids(k_.checks, "check");
        ids(k_.cautions, "caution");
        for (auto const& [id, cause] : k_.causes)
            review_cause(id, cause);
        for (auto const& [id, finding] : k_.findings)
            review_finding(id, finding);
        for (auto const& [id, check] : k_.checks)
            review_check(id, check);
        for (auto const& [id, caution] : k_.cautions)
            cited("caution " + id, caution.source);
        for (auto const& [id, trade] : k_.trades)
            cited("trade " + id, trade.source);
        review_words();
        return std::move(out_);
    }

private:
    Knowledge const& k_;
    std::map<std::string, reference::Source> const& bibliography_;
    std::vector<std::string> out_;

    void say(std::string line) { out_.push_back(std::move(line)); }

    template <class T> void ids(fields::Named<T> const& list, std::string const& what)
    {
        std::set<std::string> met;
        for (auto const& [id, entry] : list)
            if (!met.insert(id).second)
                say(what + " " + id + " stands twice");
    }
    void cited(std::string const& what, reference::Cited const& source)
    {
        if (!bibliography_.contains(source.key))
            say(what + ": no source '" + source.key + "' in the bibliography");
    }
    void cautions_known(std::string const& what, std::vector<std::string> const& ids)
    {
        for (auto const& id : ids)
            if (k_.caution(id) == nullptr)
                say(what + ": no caution '" + id + "'");
    }
    void contexts_known(std::string const& what, std::string const& id)
    {
        bool const known =
            std::any_of(k_.contexts.begin(), k_.contexts.end(), [&](auto const& c) { return c.first == id; });
        if (!known)
            say(what + ": no context '" + id + "'");
    }
    void trade_known(std::string const& what, std::string const& id)
    {
        if (id != "none" && k_.trade(id) == nullptr)
            say(what + ": no trade '" + id + "'");
    }
    void review_cause(std::string const& id, CauseEntry const& c)
    {
        std::string const what = "cause " + id;
        cited(what, c.source);
        cautions_known(what, c.cautions);
        trade_known(what, c.trade);
        for (auto const& [context, factor] : c.raised_by)
        {
            contexts_known(what, context);
            if (!(factor.value() > 0))
                say(what + ": factor of '" + context + "' must be above 0");
        }
        for (auto const& context : c.only_if)
            contexts_known(what, context);
        if (!(c.base_rate.value() > 0 && c.base_rate.value() < 1))
            say(what + ": base rate must lie between 0 and 1");
        if (c.shows.empty())
            say(what + ": no finding can show it");
        constexpr double telling = 5; // times as likely with it as without any cause; judgement
        if (std::none_of(c.shows.begin(), c.shows.end(),
                         [&](Shows const& link)
                         {
                             auto const* finding = k_.finding(link.finding);
                             return finding != nullptr && link.weight.value() >= telling * finding->leak.value();
                         }))
            say(what + ": no finding tells it, each is nearly as frequent without it");
        if (c.why_rate.empty() || c.meaning.empty() || c.ask.empty() || c.meanwhile.empty())
            say(what + ": its reasoning, meaning, request or advice is empty");
        if (c.hazard == Hazard::people && c.cautions.empty())
            say(what + ": can hurt people and has no caution");
        std::set<std::string> met;
        for (auto const& link : c.shows)
        {
            if (k_.finding(link.finding) == nullptr)
                say(what + ": link to nothing, '" + link.finding + "'");
            if (!met.insert(link.finding).second)
                say(what + ": two links to '" + link.finding + "'");
            if (!(link.weight.value() > 0 && link.weight.value() < 1))
                say(what + ": weight of '" + link.finding + "' must lie between 0 and 1");
        }
    }
    void review_finding(std::string const& id, FindingEntry const& f)
    {
        std::string const what = "finding " + id;
        cited(what, f.source);
        if (!(f.leak.value() >= 0 && f.leak.value() < 1))
            say(what + ": leak must lie between 0 and 1");
        if (f.words.empty())
            say(what + ": no words for it");
        bool const shown = std::any_of(k_.causes.begin(), k_.causes.end(),
                                       [&](auto const& c) {
                                           return std::any_of(c.second.shows.begin(), c.second.shows.end(),
                                                              [&](Shows const& s) { return s.finding == id; });
                                       });
        if (!shown && !f.if_seen && f.established != Established::simulated)
            say(what + ": no cause shows it and nothing follows from it");
        if (f.if_seen)
        {
            cautions_known(what, f.if_seen->cautions);
            trade_known(what, f.if_seen->trade);
            if (f.if_seen->urgency == Urgency::stop_use && f.if_seen->cautions.empty())
                say(what + ": stops use and has no caution");
        }
    }
    void review_check(std::string const& id, CheckEntry const& c)
    {
        std::string const what = "check " + id;
        cited(what, c.source);
        cautions_known(what, c.cautions);
        for (auto const& context : c.only_if)
            contexts_known(what, context);
        if (c.who.empty())
            say(what + ": for nobody");
        for (auto const& told : c.tells)
            if (k_.finding(told) == nullptr)
                say(what + ": tells of nothing, '" + told + "'");
        if (c.tells.empty())
            say(what + ": tells nothing");
        if (c.risk != Risk::none && c.cautions.empty())
            say(what + ": has a risk and no caution");
        bool const trade_only = c.who == std::vector<Who>{Who::technician};
        if (c.risk == Risk::licensed && !trade_only)
            say(what + ": takes a licence, and someone else may do it");
    }
    void review_words()
    {
        std::set<std::pair<std::string, std::string>> met;
        for (auto const& [id, f] : k_.findings)
            for (auto const& phrase : f.words)
                if (!met.insert({f.item, phrase}).second)
                    say("finding " + id + ": another finding of a " + f.item + " is also called '" + phrase + "'");
    }
};

} // namespace

std::vector<std::string> knowledge_problems(Knowledge const& knowledge,
                                            std::map<std::string, reference::Source> const& bibliography)
{
    return Reviewer(knowledge, bibliography).review();
}

} // namespace padwalk::diagnosis
