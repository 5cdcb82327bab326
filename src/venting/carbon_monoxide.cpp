#include "padwalk/venting/carbon_monoxide.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/physics/combustion.hpp"

#include <algorithm>
#include <stdexcept>

namespace padwalk::venting
{

using fields::Record;

namespace
{

/// Above this share of oxygen nearly all of the sample is air; judgement.
constexpr double most_oxygen = 0.18;

struct LimitTable
{
    fields::Named<CarbonMonoxideLimit> limits;
    fields::Named<CarbonMonoxideAction> actions;
    fields::Named<reference::Source> sources;
    static Record<LimitTable> const& declaration()
    {
        static Record<LimitTable> const record = Record<LimitTable>("carbon_monoxide", "limits for carbon monoxide")
                                                     .field("limits", &LimitTable::limits, "by id")
                                                     .required()
                                                     .field("actions", &LimitTable::actions, "what to do, by id")
                                                     .required()
                                                     .field("sources", &LimitTable::sources, "works cited");
        return record;
    }
};

} // namespace

Record<CarbonMonoxideLimit> const& CarbonMonoxideLimit::declaration()
{
    using Row = CarbonMonoxideLimit;
    static Record<Row> const record =
        Record<Row>("limit", "one limit of one body")
            .field("where", &Row::where, "air that people breathe, or flue gas")
            .required()
            .field("body", &Row::body, "who set it")
            .required()
            .field("meaning", &Row::meaning, "for whom, or what happens there")
            .required()
            .field("limit", &Row::limit, "the limit")
            .required()
            .field("printed", &Row::printed, "as the body prints it")
            .field("averaged", &Row::averaged, "over this time; none: a ceiling or a single reading")
            .field("source", &Row::source, "where it comes from")
            .required();
    return record;
}

std::vector<CarbonMonoxideLimit> carbon_monoxide_limits(reference::Data const& data)
{
    std::vector<CarbonMonoxideLimit> out;
    for (auto const& [id, row] : reference::read_table<LimitTable>(data, "venting/carbon_monoxide.yaml").limits)
    {
        out.push_back(row);
        out.back().id = id;
    }
    return out;
}

Record<CarbonMonoxideAction> const& CarbonMonoxideAction::declaration()
{
    using Row = CarbonMonoxideAction;
    static Record<Row> const record = Record<Row>("action", "what to do at once from a level on")
                                          .field("from", &Row::from, "level in air that people breathe")
                                          .required()
                                          .field("say", &Row::say, "what to do at once")
                                          .required()
                                          .field("because", &Row::because, "whose level it is")
                                          .required()
                                          .field("leave", &Row::leave, "everyone out")
                                          .field("source", &Row::source, "where it comes from")
                                          .required();
    return record;
}

CarbonMonoxideActions carbon_monoxide_actions(reference::Data const& data)
{
    CarbonMonoxideActions out;
    for (auto const& [id, row] : reference::read_table<LimitTable>(data, "venting/carbon_monoxide.yaml").actions)
    {
        out.push_back(row);
        out.back().id = id;
    }
    std::stable_sort(out.begin(), out.end(), [](auto const& a, auto const& b) { return a.from < b.from; });
    return out;
}

CarbonMonoxideAction const& action_at(units::GasFraction reading, CarbonMonoxideActions const& actions)
{
    CarbonMonoxideAction const* reached = nullptr;
    double const rounding = 1e-9; // 35 ppm written as a share must reach 35 ppm
    for (auto const& row : actions)
        if (reading >= row.from * (1 - rounding))
            reached = &row;
    if (reached == nullptr)
        throw std::logic_error("venting/carbon_monoxide.yaml has no action for so little");
    return *reached;
}

CarbonMonoxideLimit const& limit_of(std::vector<CarbonMonoxideLimit> const& limits, std::string_view id)
{
    for (auto const& row : limits)
        if (row.id == id)
            return row;
    throw std::logic_error("venting/carbon_monoxide.yaml has no limit '" + std::string(id) + "'");
}

units::GasFraction carbon_monoxide_air_free(units::GasFraction measured, units::Fraction oxygen)
{
    if (oxygen.value() > most_oxygen)
        throw figures::NotComputed(
            "over 18 % oxygen: the sample is nearly all room air, not flue gas; nothing can be told from it");
    return measured * physics::air_free_factor(oxygen).value();
}

std::string flue_in_words(units::GasFraction air_free, std::vector<CarbonMonoxideLimit> const& limits)
{
    if (air_free > limit_of(limits, "flue_vented_heating").limit)
        return "above the limit listed for vented heaters: leave the heater off and have a combustion technician find "
               "out why";
    if (air_free > limit_of(limits, "flue_water_heater").limit)
        return "below the limit listed for vented heaters but above that for water heaters and well above good "
               "practice: a combustion technician must look before it is used";
    if (air_free > limit_of(limits, "flue_good_practice").limit)
        return "above good practice: a combustion technician should look before it is used again";
    return "within good practice; it must also be steady, and the air people breathe is another reading";
}

} // namespace padwalk::venting
