#pragma once
/// Carbon monoxide: the reading in a flue as if no extra air had thinned it, and the published limits.

#include "padwalk/reference/sources.hpp"
#include "padwalk/units/quantity.hpp"

#include <optional>

namespace padwalk::venting
{

/// What air a limit is for.
enum class WhereBreathed
{
    ambient, ///< air that people breathe
    flue     ///< the gas in a vent, air free
};

} // namespace padwalk::venting

template <> struct padwalk::fields::words_of<padwalk::venting::WhereBreathed>
{
    static std::vector<std::string> words() { return {"ambient", "flue"}; }
};

namespace padwalk::venting
{

/// One limit of one body.
struct CarbonMonoxideLimit
{
    std::string id;
    WhereBreathed where = WhereBreathed::ambient;
    std::string body;    ///< who set it
    std::string meaning; ///< for whom, what happens there
    units::GasFraction limit{};
    std::string printed;                     ///< as the body prints it, where that isn't ppm
    std::optional<units::Duration> averaged; ///< none: a ceiling, or an instant reading
    reference::Cited source;
    static fields::Record<CarbonMonoxideLimit> const& declaration(); ///< without the id, which is the key
};

/// data/venting/carbon_monoxide.yaml in its order. Throws reference::DataProblems.
[[nodiscard]] std::vector<CarbonMonoxideLimit> carbon_monoxide_limits(reference::Data const& data);

/// The row with this id; std::logic_error if there is none.
[[nodiscard]] CarbonMonoxideLimit const& limit_of(std::vector<CarbonMonoxideLimit> const& limits, std::string_view id);

/// What to do at once from a level on.
struct CarbonMonoxideAction
{
    std::string id;
    units::GasFraction from{};
    std::string say;     ///< at once; never asks anybody to go in
    std::string because; ///< whose level it is
    bool leave = false;  ///< everyone out
    reference::Cited source;
    static fields::Record<CarbonMonoxideAction> const& declaration(); ///< without the id, which is the key
};

using CarbonMonoxideActions = std::vector<CarbonMonoxideAction>;

/// The actions of data/venting/carbon_monoxide.yaml, by rising level; the first is from nothing on. Throws
/// reference::DataProblems.
[[nodiscard]] CarbonMonoxideActions carbon_monoxide_actions(reference::Data const& data);

/// The action of the highest level that the reading reaches; std::logic_error where there is none.
[[nodiscard]] CarbonMonoxideAction const& action_at(units::GasFraction reading, CarbonMonoxideActions const& actions);

/// Carbon monoxide with all excess air taken out: CO · 20.9 / (20.9 - O2), O2 in % of dry gas.
///
/// Valid:    O2 from 0 to 18 %: above, nearly all of the sample is air and the factor (over 7) is mostly doubt
/// (judgement) Source:   [combustion-analysis-trade-article-1] Throws:   figures::NotComputed above 18 %
[[nodiscard]] units::GasFraction carbon_monoxide_air_free(units::GasFraction measured, units::Fraction oxygen);

/// What an air-free reading means against the limits listed for flues, in one sentence.
[[nodiscard]] std::string flue_in_words(units::GasFraction air_free, std::vector<CarbonMonoxideLimit> const& limits);

} // namespace padwalk::venting
