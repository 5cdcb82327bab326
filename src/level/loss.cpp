#include "padwalk/level/loss.hpp"

#include <cmath>

namespace padwalk::level
{

using fields::Record;

Record<LossRule> const& LossRule::declaration()
{
    static Record<LossRule> const record = Record<LossRule>("rule", "a rule of thumb for a falling level")
                                               .field("rate", &LossRule::rate, "fall of the level")
                                               .required()
                                               .field("source", &LossRule::source, "where it comes from")
                                               .required();
    return record;
}

Record<LossRules> const& LossRules::declaration()
{
    static Record<LossRules> const record =
        Record<LossRules>("loss rules", "rules of thumb for a falling level")
            .field("may_leak", &LossRules::may_leak, "more may be a leak")
            .required()
            .field("mark_reading", &LossRules::mark_reading, "how well a level mark is read, 95 %")
            .required()
            .field("mark_source", &LossRules::mark_source, "where that comes from")
            .required()
            .field("sources", &LossRules::sources, "works cited");
    return record;
}

LossRules loss_rules(reference::Data const& data)
{
    return reference::read_table<LossRules>(data, "level/loss.yaml");
}

Loss level_loss(units::Length drop, units::Duration elapsed, units::Area area)
{
    units::Velocity const level = drop / elapsed;
    return {level, level * area};
}

Loss bucket_test(units::Length pool_drop, units::Length bucket_drop, units::Duration elapsed, units::Area area)
{
    return level_loss(pool_drop - bucket_drop, elapsed, area);
}

std::string bucket_in_words(units::Length pool_drop, units::Length bucket_drop, LossRules const& rules)
{
    units::Length const doubt = rules.mark_reading * std::sqrt(4.0); // two marks on the pool, two on the bucket
    units::Length const difference = pool_drop - bucket_drop;
    if (pool_drop < units::Length() || bucket_drop < units::Length())
        return "a level rose: water came in meanwhile, so the test says nothing; repeat it in dry weather with the "
               "fill valve shut";
    if (difference > doubt)
        return "the pool lost more than the bucket: water leaves by more than evaporation; repeat with the pump on and "
               "off to tell where";
    if (difference < -doubt)
        return "the bucket lost more than the pool: water came into the pool, or the bucket stood in more wind or sun; "
               "repeat";
    return "the pool and the bucket fell alike, as far as the marks can be read: no leak shown; a longer test would "
           "show a smaller one";
}

std::string loss_in_words(units::Velocity level, std::optional<units::Velocity> evaporation, LossRules const& rules)
{
    if (level < units::Velocity())
        return "the level rose: water came in meanwhile";
    if (evaporation)
    {
        double const formula_doubt = 1.3; // two standard uncertainties of 15 %
        if (level > *evaporation * formula_doubt)
            return "the level falls faster than evaporation explains";
        if (level * formula_doubt < *evaporation)
            return "the level falls more slowly than evaporation should make it: check the readings, and whether water "
                   "is being added";
        return "evaporation explains the fall, as far as its formula is known; a small leak can hide in it";
    }
    if (level > rules.may_leak.rate)
        return "more than a quarter inch a day, which may be a leak or a dry, windy day; compare with evaporation or a "
               "bucket";
    return "no more than a quarter inch a day, which evaporation alone often takes; a small leak can hide in it";
}

} // namespace padwalk::level
