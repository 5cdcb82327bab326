#include "padwalk/circulation/suction.hpp"

#include "padwalk/circulation/head.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/physics/air.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/print.hpp"

namespace padwalk::circulation
{

units::Head suction_head_available(Inlet const& inlet)
{
    units::AbsolutePressure const at_gauge =
        units::absolute(inlet.reading, physics::pressure_at_altitude(inlet.altitude));
    if (at_gauge <= units::AbsolutePressure{})
        throw figures::NotComputed("no vacuum can be deeper than the air's own pressure, " +
                                   units::show(units::Measure::absolute_pressure,
                                               units::in_si(at_gauge - inlet.reading.from_zero()), 0,
                                               {units::System::us, "inHg", {}}) +
                                   " at this altitude; check the gauge and its zero");
    units::Head head =
        head_of_pressure(at_gauge - physics::vapour_pressure(inlet.water), inlet.water) + units::Head{inlet.height};
    if (inlet.velocity)
        head = head + velocity_head(*inlet.velocity);
    return head;
}

units::GaugePressure vacuum_at_boiling(units::Temperature water, units::Length altitude)
{
    return units::GaugePressure{physics::vapour_pressure(water) - physics::pressure_at_altitude(altitude)};
}

std::string suction_in_words(units::Head available, std::optional<units::Head> required, units::Number good_ratio)
{
    if (available <= units::Head{})
        return "by these readings the water boils at the pump's inlet; a pump can't run so for long, so check the "
               "gauge first, then look "
               "for a blocked basket, skimmer or closed valve on the suction side";
    if (!required)
        return "what the pump needs is not known; its maker's curve shows it as NPSHR at the flow";
    if (available < *required)
        return "less than the pump needs: it cavitates, loses head and wears; look for what holds the water back on "
               "the suction side";
    if (available < good_ratio.value() * *required)
        return "hardly more than the pump needs: noise and wear can come before the head falls";
    return "more than the pump needs, with the usual margin";
}

} // namespace padwalk::circulation
