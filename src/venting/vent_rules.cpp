#include "padwalk/venting/vent_rules.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace padwalk::venting
{

using fields::Record;

Record<VentRule> const& VentRule::declaration()
{
    static Record<VentRule> const record = Record<VentRule>("rule", "one rule of a vent")
                                               .field("asks", &VentRule::asks, "what it asks")
                                               .required()
                                               .field("edition", &VentRule::edition, "of which text")
                                               .required()
                                               .field("length", &VentRule::length, "the distance it names")
                                               .field("share", &VentRule::share, "the share it names")
                                               .field("number", &VentRule::number, "the number it names")
                                               .field("source", &VentRule::source, "where it comes from")
                                               .required();
    return record;
}

Record<PipeRule> const& PipeRule::declaration()
{
    static Record<PipeRule> const record = Record<PipeRule>("pipe", "what a kind of pipe bears")
                                               .field("kind", &PipeRule::kind, "which kind")
                                               .required()
                                               .field("categories", &PipeRule::categories, "that it is made for")
                                               .required()
                                               .field("note", &PipeRule::note, "what else to know")
                                               .field("source", &PipeRule::source, "where it comes from")
                                               .required();
    return record;
}

Record<VentRules> const& VentRules::declaration()
{
    static Record<VentRules> const record = Record<VentRules>("vent_rules", "what holds a flue")
                                                .field("rules", &VentRules::rules, "by id")
                                                .required()
                                                .field("pipes", &VentRules::pipes, "what each kind bears")
                                                .required()
                                                .field("sources", &VentRules::sources, "works cited");
    return record;
}

VentRule const& VentRules::rule(std::string_view id) const
{
    for (auto const& [name, row] : rules)
        if (name == id)
            return row;
    throw std::logic_error("venting/vent_rules.yaml has no rule '" + std::string(id) + "'");
}

PipeRule const* VentRules::pipe(PipeKind kind) const
{
    auto const row = std::find_if(pipes.begin(), pipes.end(), [kind](PipeRule const& p) { return p.kind == kind; });
    return row == pipes.end() ? nullptr : &*row;
}

VentRules vent_rules(reference::Data const& data)
{
    auto out = reference::read_table<VentRules>(data, "venting/vent_rules.yaml");
    out.clearances = clearance_rules(data);
    return out;
}

bool condenses(units::Fraction efficiency, VentRules const& rules)
{
    return efficiency > rules.rule("condensing").share.value();
}

Category category_of(bool under_pressure, bool may_condense)
{
    if (under_pressure)
        return may_condense ? Category::IV : Category::III;
    return may_condense ? Category::II : Category::I;
}

ClearanceRule const* roof_rule(units::Number rise_in_12, bool by_table, VentRules const& rules)
{
    if (!by_table)
        return &rule_of(rules.clearances, ClearanceId::roof_other);
    struct Step
    {
        double to;
        ClearanceId id;
    };
    static constexpr std::array<Step, 12> steps{{{6, ClearanceId::roof_to_6_in_12},
                                                 {7, ClearanceId::roof_to_7_in_12},
                                                 {8, ClearanceId::roof_to_8_in_12},
                                                 {9, ClearanceId::roof_to_9_in_12},
                                                 {10, ClearanceId::roof_to_10_in_12},
                                                 {11, ClearanceId::roof_to_11_in_12},
                                                 {12, ClearanceId::roof_to_12_in_12},
                                                 {14, ClearanceId::roof_to_14_in_12},
                                                 {16, ClearanceId::roof_to_16_in_12},
                                                 {18, ClearanceId::roof_to_18_in_12},
                                                 {20, ClearanceId::roof_to_20_in_12},
                                                 {21, ClearanceId::roof_to_21_in_12}}};
    for (auto const& step : steps)
        if (rise_in_12.value() <= step.to)
            return &rule_of(rules.clearances, step.id);
    return nullptr;
}

} // namespace padwalk::venting
