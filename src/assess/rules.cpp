#include "rules.hpp"

#include "padwalk/numerics/quasi_random.hpp"
#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{

fields::Record<RuleEntry> const& RuleEntry::declaration()
{
    static fields::Record<RuleEntry> const record = fields::Record<RuleEntry>("rule", "a limit or threshold")
                                                        .field("value", &RuleEntry::value, "with its doubt")
                                                        .required()
                                                        .field("measure", &RuleEntry::measure, "what it measures")
                                                        .field("meaning", &RuleEntry::meaning, "of what")
                                                        .required()
                                                        .field("source", &RuleEntry::source, "whose it is")
                                                        .required();
    return record;
}

namespace
{

struct RulesFile
{
    fields::Named<RuleEntry> rules, acts;
    std::vector<std::string> danger_first;
    fields::Named<reference::Source> sources;
    static fields::Record<RulesFile> const& declaration()
    {
        static fields::Record<RulesFile> const record =
            fields::Record<RulesFile>("rules", "limits and thresholds")
                .field("rules", &RulesFile::rules, "limits")
                .required()
                .field("acts", &RulesFile::acts, "thresholds of acting")
                .required()
                .field("danger_first", &RulesFile::danger_first, "cautions in the order in which dangers are said")
                .required()
                .field("sources", &RulesFile::sources, "works cited");
        return record;
    }
};

RuleEntry const& found(fields::Named<RuleEntry> const& list, std::string const& name)
{
    for (auto const& [key, rule] : list)
        if (key == name)
            return rule;
    throw std::logic_error("no rule '" + name + "' in data/assess/rules.yaml");
}

} // namespace

Rules::Rules(reference::Data const& data, units::System system) : system_(system)
{
    auto file = reference::read_table<RulesFile>(data, "assess/rules.yaml");
    rules_ = std::move(file.rules);
    acts_ = std::move(file.acts);
    danger_first_ = std::move(file.danger_first);
}

units::Reading Rules::reading(fields::Named<RuleEntry> const& list, std::string const& name, units::Measure measure)
{
    auto const read = units::read_quantity(found(list, name).value, measure, name);
    if (auto const* bad = std::get_if<units::TextProblem>(&read))
        throw std::logic_error("rule '" + name + "': " + bad->message);
    return std::get<units::Reading>(read);
}

std::size_t Rules::danger_rank(std::vector<std::string> const& cautions) const
{
    for (std::size_t i = 0; i < danger_first_.size(); ++i)
        if (std::find(cautions.begin(), cautions.end(), danger_first_[i]) != cautions.end())
            return i;
    return danger_first_.size();
}

std::string Rules::cited(std::string const& name) const
{
    auto const& rule = found(rules_, name);
    std::string const whose =
        rule.source.key == "judgement"
            ? "our judgement"
            : rule.source.key + (rule.source.seen == reference::Seen::memory ? ", from memory" : "");
    std::string limit = rule.value;
    for (auto const& m : units::all_measures())
        if (m.name == rule.measure)
            if (auto const read = units::read_quantity(rule.value, m.measure, name);
                auto const* reading = std::get_if<units::Reading>(&read))
                limit = units::show_with_doubt(m.measure, reading->value, reading->doubt, {system_, {}, {}});
    return limit + " (" + rule.meaning + "; " + whose + ")";
}

double probability_above(double value, double doubt, double limit, double limit_doubt)
{
    double const spread = std::sqrt(doubt * doubt + limit_doubt * limit_doubt);
    if (!(spread > 0))
        return value > limit ? 1.0 : value < limit ? 0.0 : 0.5;
    return numerics::standard_normal_cdf((value - limit) / spread);
}

} // namespace padwalk::assess
