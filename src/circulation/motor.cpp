#include "padwalk/circulation/motor.hpp"

namespace padwalk::circulation
{

MotorInput motor_current(units::Power shaft, units::Voltage voltage, units::Fraction power_factor,
                         units::Fraction efficiency)
{
    units::Power const input = shaft / efficiency.value();
    return {input / (voltage * power_factor.value()), input};
}

MotorLoad motor_load(units::Current measured, units::Current nameplate, units::Number service_factor)
{
    double const share = measured / nameplate;
    return {units::of_si<units::Fraction>(share), units::of_si<units::Fraction>(share / service_factor.value())};
}

std::string load_in_words(MotorLoad const& load, units::Fraction low)
{
    if (load.of_greatest.value() > 1)
        return "above what the nameplate allows even with its service factor: the motor overheats; stop it and have an "
               "electrician or "
               "pump technician find out why";
    if (load.of_rated.value() > 1)
        return "above the rated current but within the service factor: no reserve is left; note the voltage under load";
    if (load.of_rated < low)
        return "well below the rated current: a slow speed, or a pump that moves little water";
    return "within the nameplate";
}

} // namespace padwalk::circulation
