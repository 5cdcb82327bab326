#pragma once
/// Where a water stands, as plain data for its pictures: its saturation on its way, its chlorine beside its stabilizer.

#include "padwalk/chemistry/saturation_handbook.hpp"
#include "padwalk/units/quantity.hpp"
#include "padwalk/units/reading.hpp"

#include <optional>
#include <string>
#include <vector>

namespace padwalk::assess
{

/// The saturation index of calcite at one place of the water's way, with its 95 % interval.
struct SaturationPlace
{
    std::string name; ///< 'pool, as tested', 'heater, at its hot wall'
    units::Temperature temperature{};
    units::Number index{}, low{}, high{};
};

struct SaturationWay
{
    std::vector<SaturationPlace> places; ///< in the order of the flow, the water as tested first
    units::Number low{}, high{};         ///< corrosive below, scaling above
    std::string low_of, high_of;         ///< whose ends these are, with the key of the source
};

/// Free chlorine that disinfects as fast, at this pH and temperature, as `bare` does without cyanurate.
struct EqualWork
{
    struct At
    {
        units::AsCyanuricAcid cyanurate{};
        units::AsChlorine free_chlorine{};
    };
    units::AsChlorine bare{};
    std::vector<At> line; ///< by rising cyanurate, from none
};

/// Which side of the cyanurate's number its test can't see: beyond its scale it gives one end only.
enum class ScaleEnd
{
    within,
    at_least,
    at_most
};

struct ChlorineStanding
{
    units::Measured<units::AsChlorine> free_chlorine;
    std::optional<units::Measured<units::AsCyanuricAcid>> cyanurate; ///< none: not tested, or not to be trusted
    ScaleEnd cyanurate_is = ScaleEnd::within;
    std::optional<units::AsChlorine> least, most; ///< free chlorine that a bathing water may have
    std::string least_of, most_of;                ///< whose limits these are, with the key of the source
    std::optional<units::Number> most_cyanurate;  ///< parts of cyanurate to one of free chlorine
    std::string most_cyanurate_of;
    std::vector<EqualWork> equal_work; ///< empty without a pH and a temperature to be trusted
};

} // namespace padwalk::assess
