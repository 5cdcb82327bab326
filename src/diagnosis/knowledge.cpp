#include "padwalk/diagnosis/knowledge.hpp"

namespace padwalk::diagnosis
{

using fields::Named;
using fields::Record;

Record<Shows> const& Shows::declaration()
{
    static Record<Shows> const record = Record<Shows>("shows", "a finding that the cause brings about")
                                            .field("finding", &Shows::finding, "id of the finding")
                                            .required()
                                            .field("weight", &Shows::weight, "chance that the cause alone produces it")
                                            .required();
    return record;
}

Record<CauseEntry> const& CauseEntry::declaration()
{
    static Record<CauseEntry> const record =
        Record<CauseEntry>("cause", "something that may be the matter with an item")
            .field("item", &CauseEntry::item, "kind of item")
            .required()
            .field("name", &CauseEntry::name, "short name")
            .required()
            .field("meaning", &CauseEntry::meaning, "what it means, to a client")
            .required()
            .field("base_rate", &CauseEntry::base_rate, "chance that such an item has it, before anything is seen")
            .required()
            .field("why_rate", &CauseEntry::why_rate, "reasoning of the base rate")
            .required()
            .field("raised_by", &CauseEntry::raised_by, "contexts and their factors on the odds")
            .field("only_if", &CauseEntry::only_if, "contexts without which it can't be")
            .field("trade", &CauseEntry::trade, "who must come")
            .required()
            .field("urgency", &CauseEntry::urgency, "how soon")
            .required()
            .field("hazard", &CauseEntry::hazard, "whom it can hurt")
            .required()
            .field("cautions", &CauseEntry::cautions, "what to say about safety")
            .required()
            .field("ask", &CauseEntry::ask, "what the trade should confirm or bring")
            .required()
            .field("meanwhile", &CauseEntry::meanwhile, "what this user may do")
            .required()
            .field("source", &CauseEntry::source, "where it comes from")
            .required()
            .field("shows", &CauseEntry::shows, "findings")
            .required();
    return record;
}

Record<IfSeen> const& IfSeen::declaration()
{
    static Record<IfSeen> const record =
        Record<IfSeen>("if_seen", "what follows from the finding itself")
            .field("urgency", &IfSeen::urgency, "how soon")
            .required()
            .field("trade", &IfSeen::trade, "who must come")
            .required()
            .field("say", &IfSeen::say, "what to say")
            .required()
            .field("cautions", &IfSeen::cautions, "cautions")
            .field("leave", &IfSeen::leave, "everyone leaves; no check is proposed while this stands")
            .field("alarm_from", &IfSeen::alarm_from, "chance from which a computed one counts");
    return record;
}

Record<FindingEntry> const& FindingEntry::declaration()
{
    static Record<FindingEntry> const record =
        Record<FindingEntry>("finding", "something that can be seen or computed")
            .field("item", &FindingEntry::item, "kind of item")
            .required()
            .field("name", &FindingEntry::name, "as a report says it")
            .required()
            .field("words", &FindingEntry::words, "as people say it")
            .required()
            .field("leak", &FindingEntry::leak, "chance of it with none of the causes")
            .required()
            .field("established", &FindingEntry::established, "seen or computed")
            .required()
            .field("source", &FindingEntry::source, "where it comes from")
            .required()
            .field("if_seen", &FindingEntry::if_seen, "what follows from it whatever the cause")
            .field("does_not_work", &FindingEntry::does_not_work, "an item at which it is seen does not work");
    return record;
}

Record<CheckEntry> const& CheckEntry::declaration()
{
    static Record<CheckEntry> const record =
        Record<CheckEntry>("check", "something that someone may do to know more")
            .field("item", &CheckEntry::item, "kind of item")
            .required()
            .field("name", &CheckEntry::name, "what to do")
            .required()
            .field("who", &CheckEntry::who, "who may do it safely")
            .required()
            .field("needs", &CheckEntry::needs, "what it takes")
            .required()
            .field("minutes", &CheckEntry::minutes, "how long")
            .required()
            .field("only_if", &CheckEntry::only_if, "contexts without which there is nothing to do")
            .field("risk", &CheckEntry::risk, "what it may cost the one who does it")
            .required()
            .field("cautions", &CheckEntry::cautions, "what to say about safety")
            .field("tells", &CheckEntry::tells, "findings that it settles")
            .required()
            .field("if_so", &CheckEntry::if_so, "what it means if it is there")
            .required()
            .field("if_not", &CheckEntry::if_not, "what it means if it is not")
            .required()
            .field("source", &CheckEntry::source, "where it comes from")
            .required();
    return record;
}

Record<CautionEntry> const& CautionEntry::declaration()
{
    static Record<CautionEntry> const record = Record<CautionEntry>("caution", "a safety sentence")
                                                   .field("say", &CautionEntry::say, "the sentence")
                                                   .required()
                                                   .field("source", &CautionEntry::source, "where it comes from")
                                                   .required();
    return record;
}

Record<TradeEntry> const& TradeEntry::declaration()
{
    static Record<TradeEntry> const record = Record<TradeEntry>("trade", "a licensed trade")
                                                 .field("name", &TradeEntry::name, "in full")
                                                 .required()
                                                 .field("plural", &TradeEntry::plural, "in short")
                                                 .required()
                                                 .field("why", &TradeEntry::why, "what it is licensed for")
                                                 .required()
                                                 .field("source", &TradeEntry::source, "where it comes from")
                                                 .required();
    return record;
}

Record<ContextEntry> const& ContextEntry::declaration()
{
    static Record<ContextEntry> const record = Record<ContextEntry>("context", "a circumstance that changes the odds")
                                                   .field("name", &ContextEntry::name, "in words")
                                                   .required();
    return record;
}

Record<SomethingElse> const& SomethingElse::declaration()
{
    using S = SomethingElse;
    static Record<S> const record = Record<S>("something else", "a cause that is not in the knowledge")
                                        .field("name", &S::name, "short name")
                                        .required()
                                        .field("meaning", &S::meaning, "what it means, to a client")
                                        .required()
                                        .field("ask", &S::ask, "what then")
                                        .required()
                                        .field("meanwhile", &S::meanwhile, "what this user may do")
                                        .required()
                                        .field("base_rate", &S::base_rate, "chance that an item has one")
                                        .required()
                                        .field("weight", &S::weight, "with which it shows any one finding")
                                        .required()
                                        .field("source", &S::source, "where it comes from")
                                        .required();
    return record;
}

CauseEntry SomethingElse::as_cause() const
{
    CauseEntry out;
    out.name = name, out.meaning = meaning, out.ask = ask, out.meanwhile = meanwhile;
    out.base_rate = base_rate;
    out.trade = "none";
    out.urgency = Urgency::plan;
    out.source = source;
    return out;
}

namespace
{

/// One file of data/diagnosis; any of the sections may be missing.
struct KnowledgeFile
{
    Named<CauseEntry> causes;
    Named<FindingEntry> findings;
    Named<CheckEntry> checks;
    Named<CautionEntry> cautions;
    Named<TradeEntry> trades;
    Named<ContextEntry> contexts;
    std::optional<SomethingElse> something_else;
    Named<reference::Source> sources;

    static Record<KnowledgeFile> const& declaration()
    {
        static Record<KnowledgeFile> const record =
            Record<KnowledgeFile>("knowledge", "a file of data/diagnosis")
                .field("causes", &KnowledgeFile::causes, "causes by id")
                .field("findings", &KnowledgeFile::findings, "findings by id")
                .field("checks", &KnowledgeFile::checks, "checks by id")
                .field("cautions", &KnowledgeFile::cautions, "cautions by id")
                .field("trades", &KnowledgeFile::trades, "trades by id")
                .field("contexts", &KnowledgeFile::contexts, "contexts by id")
                .field("something_else", &KnowledgeFile::something_else, "what is not known")
                .field("sources", &KnowledgeFile::sources, "works cited");
        return record;
    }
};

template <class T> void append(Named<T>& to, Named<T>&& from)
{
    for (auto& entry : from)
        to.push_back(std::move(entry));
}

template <class T> T const* found(Named<T> const& list, std::string_view id)
{
    for (auto const& [key, entry] : list)
        if (key == id)
            return &entry;
    return nullptr;
}

} // namespace

FindingEntry const* Knowledge::finding(std::string_view id) const
{
    return found(findings, id);
}
CauseEntry const* Knowledge::cause(std::string_view id) const
{
    return found(causes, id);
}
CautionEntry const* Knowledge::caution(std::string_view id) const
{
    return found(cautions, id);
}
TradeEntry const* Knowledge::trade(std::string_view id) const
{
    return found(trades, id);
}

Knowledge read_knowledge(reference::Data const& data)
{
    Knowledge out;
    for (auto const& path : data.files("diagnosis/"))
    {
        auto file = reference::read_table<KnowledgeFile>(data, path);
        append(out.causes, std::move(file.causes));
        append(out.findings, std::move(file.findings));
        append(out.checks, std::move(file.checks));
        append(out.cautions, std::move(file.cautions));
        append(out.trades, std::move(file.trades));
        append(out.contexts, std::move(file.contexts));
        if (file.something_else)
            out.something_else = *file.something_else;
    }
    return out;
}

} // namespace padwalk::diagnosis
