#include "padwalk/chemistry/drift.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/units/definitions.hpp"

#include <cmath>

namespace padwalk::chemistry
{
namespace
{

std::string whole_days(units::Duration at)
{
    return std::to_string(std::lround(units::in_si(at) / units::exact::day));
}

} // namespace

std::string exit_in_words(BandExit const& exit, units::Duration length)
{
    std::string const side = exit.above ? "above" : "below";
    if (!exit.early)
        return "not within " + whole_days(length) + " days";
    bool const at_once = exit.late && units::in_si(*exit.late) == 0;
    if (at_once)
        return "already " + side;
    std::string const early = whole_days(*exit.early);
    if (!exit.likely)
        return "likely not within " + whole_days(length) + " days, at the earliest day " + early + " (" + side + ")";
    std::string const late = exit.late ? "to " + whole_days(*exit.late) : "or not within " + whole_days(length);
    return side + " from day " + whole_days(*exit.likely) + " (" + early + " " + late + ")";
}

Totals salt_cell(units::AsChlorine made)
{
    Totals out;
    out.chlorine = molality(made);
    out.chloride = -out.chlorine;
    out.alkalinity = out.chlorine;
    return out;
}

units::AsCalciumCarbonate plateau(units::AsCalciumCarbonate fill, units::VolumeFlow evaporation, units::VolumeFlow loss)
{
    if (!(units::in_si(loss) > 0))
        throw figures::NotComputed("water that only evaporates leaves its salts behind for ever: there is no plateau");
    return fill * ((evaporation + loss) / loss).value();
}

} // namespace padwalk::chemistry
