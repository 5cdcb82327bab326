#include "rules.hpp"

#include "padwalk/numerics/quasi_random.hpp"

#include <cmath>

namespace padwalk::assess
{

fields::Record<RuleEntry> const& RuleEntry::declaration()
{
    static fields::Record<RuleEntry> const record = fields::Record<RuleEntry>("rule", "a limit or threshold")
                                                        .field("value", &RuleEntry::value, "with its doubt")
                                                        .required()
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
    fields::Named<reference::Source> sources;
    static fields::Record<RulesFile> const& declaration()
    {
        static fields::Record<RulesFile> const record = fields::Record<RulesFile>("rules", "limits and thresholds")
                                                            .field("rules", &RulesFile::rules, "limits")
                                                            .required()
                                                            .field("acts", &RulesFile::acts, "thresholds of acting")
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

Rules::Rules(reference::Data const& data)
{
    auto file = reference::read_table<RulesFile>(data, "assess/rules.yaml");
    rules_ = std::move(file.rules);
    acts_ = std::move(file.acts);
}

units::Reading Rules::reading(fields::Named<RuleEntry> const& list, std::string const& name, units::Measure measure)
{
    auto const read = units::read_quantity(found(list, name).value, measure, name);
    if (auto const* bad = std::get_if<units::TextProblem>(&read))
        throw std::logic_error("rule '" + name + "': " + bad->message);
    return std::get<units::Reading>(read);
}

std::string Rules::cited(std::string const& name) const
{
    auto const& rule = found(rules_, name);
    std::string const whose =
        rule.source.key == "judgement"
            ? "our judgement"
            : rule.source.key + (rule.source.seen == reference::Seen::memory ? ", from memory" : "");
    return rule.value + " (" + rule.meaning + "; " + whose + ")";
}

double probability_above(double value, double doubt, double limit, double limit_doubt)
{
    double const spread = std::sqrt(doubt * doubt + limit_doubt * limit_doubt);
    if (!(spread > 0))
        return value > limit ? 1.0 : value < limit ? 0.0 : 0.5;
    return numerics::standard_normal_cdf((value - limit) / spread);
}

} // namespace padwalk::assess
