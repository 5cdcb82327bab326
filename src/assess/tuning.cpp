// What was found over many visits, counted.
#include "padwalk/assess/tuning.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace padwalk::assess
{

fields::Record<TuningRules> const& TuningRules::declaration()
{
    static fields::Record<TuningRules> const record =
        fields::Record<TuningRules>("tuning", "what a judged number is worth against what is found")
            .field("base_rate_cases", &TuningRules::base_rate_cases, "items with the cause")
            .required()
            .within("0.5", "1000")
            .field("weight_cases", &TuningRules::weight_cases, "looks of the rarer outcome")
            .required()
            .within("0.5", "1000")
            .field("silence", &TuningRules::silence, "of one that was ruled out")
            .required()
            .field("worth_change", &TuningRules::worth_change, "factor on the odds")
            .required()
            .within("1", "100");
    return record;
}

namespace
{

/// Each number with its reason, as the file has it.
struct TuningEntry
{
    std::string value, meaning;
    reference::Cited source;
    static fields::Record<TuningEntry> const& declaration()
    {
        static fields::Record<TuningEntry> const record =
            fields::Record<TuningEntry>("tuning_number", "one of the numbers")
                .field("value", &TuningEntry::value, "the number")
                .required()
                .field("meaning", &TuningEntry::meaning, "of what")
                .required()
                .field("source", &TuningEntry::source, "whose it is")
                .required();
        return record;
    }
};

struct TuningFile
{
    fields::Named<TuningEntry> tuning;
    static fields::Record<TuningFile> const& declaration()
    {
        static fields::Record<TuningFile> const record =
            fields::Record<TuningFile>("tuning_file", "what a judged number is worth against what is found")
                .field("tuning", &TuningFile::tuning, "by name")
                .required();
        return record;
    }
};

double odds(double chance)
{
    return chance / (1 - chance);
}

double factor(TunedChance const& chance)
{
    return std::abs(std::log(odds(chance.now) / odds(chance.old)));
}

void put_in_order(std::vector<ProposedChange>& changes)
{
    std::stable_sort(changes.begin(), changes.end(),
                     [](ProposedChange const& a, ProposedChange const& b)
                     { return a.outside() != b.outside() ? a.outside() : factor(a.chance) > factor(b.chance); });
}

std::string error_of(fields::InputProblems const& bad, std::string const& file, std::string const& text)
{
    return fields::as_text(bad.list(), file, text);
}

} // namespace

TuningRules tuning_rules(reference::Data const& data)
{
    std::string const path = "assess/tuning.yaml";
    auto const file = reference::read_table<TuningFile>(data, path);
    fields::Node numbers = fields::Node::map();
    for (auto const& [name, entry] : file.tuning)
        numbers.entries.push_back({name, {}, fields::Node::scalar(entry.value)});
    TuningRules out;
    fields::ReadContext context;
    fields::read_record(numbers, out, context);
    if (!context.problems.empty())
        throw reference::DataProblems(path, {}, context.problems);
    return out;
}

void FoundRecord::add(Assessment const& a, double silence)
{
    if (a.found.empty())
    {
        ++without;
        return;
    }
    ++visits;
    items += a.looked_into.size();
    std::set<std::pair<std::size_t, std::string>> spoken; // by item and cause
    for (auto const& found : a.found)
    {
        not_known += found.meaning == FoundMeaning::not_known ? 1U : 0U;
        unclear += found.meaning == FoundMeaning::unclear ? 1U : 0U;
        for (auto const& id : found.may_mean)
            spoken.insert({found.item, id}); // perhaps: so it is not silence either
        if (found.meaning != FoundMeaning::cause || !found.probability)
            continue;
        spoken.insert({found.item, found.cause});
        auto& cause = causes[found.cause];
        ++(found.was ? cause.there : cause.ruled_out);
        cause.expected += *found.probability;
        cause.looks.push_back({*found.probability, found.was, 1.0});
        double const truth = found.was ? 1.0 : 0.0;
        ++scores.judged;
        scores.squares += std::pow(*found.probability - truth, 2);
        scores.squares_before += std::pow(found.prior - truth, 2);
        if (!found.was)
            continue;
        ++scores.confirmed;
        scores.first += found.rank == 1 ? 1U : 0U;
        scores.in_three += found.rank >= 1 && found.rank <= 3 ? 1U : 0U;
        scores.not_told += found.rank == 0 ? 1U : 0U;
        for (auto const& shown : found.shows)
        {
            auto& link = links[{found.cause, shown.finding}];
            ++(shown.seen ? link.seen : link.not_seen);
            link.looks.push_back({shown.seen, shown.otherwise});
        }
    }
    for (auto const& looked : a.looked_into)
        for (auto const& [id, chance] : looked.chances)
            if (!spoken.contains({looked.item, id}))
            {
                auto& cause = causes[id];
                ++cause.not_spoken;
                cause.expected += chance;
                cause.looks.push_back({chance, false, silence});
            }
}

TuningProposal proposal(FoundRecord record, TuningRules const& rules, diagnosis::Knowledge const& knowledge)
{
    TuningProposal out{rules, std::move(record), {}, {}, {}};
    double const worth = std::log(rules.worth_change.value());
    for (auto const& [id, entry] : knowledge.causes)
    {
        if (auto const found = out.record.causes.find(id); found != out.record.causes.end())
        {
            auto const chance =
                tuned_base_rate(entry.base_rate.value(), rules.base_rate_cases.value(), found->second.looks);
            if (factor(chance) >= worth)
                out.base_rates.push_back({id, entry.name, {}, {}, chance, found->second, {}});
        }
        for (auto const& link : entry.shows)
            if (auto const looked = out.record.links.find({id, link.finding}); looked != out.record.links.end())
            {
                auto const chance = tuned_weight(link.weight.value(), rules.weight_cases.value(), looked->second.looks);
                if (factor(chance) >= worth)
                    out.weights.push_back({id,
                                           entry.name,
                                           link.finding,
                                           knowledge.finding(link.finding)->name,
                                           chance,
                                           {},
                                           looked->second});
            }
    }
    put_in_order(out.base_rates);
    put_in_order(out.weights);
    return out;
}

TuningProposal tune(std::vector<std::pair<std::string, std::string>> const& files, Engine const& engine)
{
    auto const rules = tuning_rules(engine.data());
    FoundRecord record;
    std::vector<FileNotRead> not_read;
    for (auto const& [file, text] : files)
        try
        {
            record.add(assess(visit::read_visit(text, engine.instruments()), engine), rules.silence.value());
        }
        catch (fields::InputProblems const& bad)
        {
            not_read.push_back({file, error_of(bad, file, text)});
        }
    auto out = proposal(std::move(record), rules, engine.knowledge());
    out.not_read = std::move(not_read);
    return out;
}

} // namespace padwalk::assess
