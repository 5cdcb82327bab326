#include "padwalk/units/measure.hpp"

#include "padwalk/units/definitions.hpp"

#include <array>

namespace padwalk::units
{
namespace
{

using M = Measure;
using D = Dimension;
using namespace exact;

using Choices = PrintUnit const[];
constexpr PrintUnit none[] = {{""}};
constexpr PrintUnit length_us[] = {{"in"}, {"ft", 2 * foot}};
constexpr PrintUnit length_si[] = {{"mm"}, {"cm", 0.1}, {"m", 1.0}};
constexpr PrintUnit head_us[] = {{"ft"}};
constexpr PrintUnit head_si[] = {{"m"}};
constexpr PrintUnit area_us[] = {{"in2"}, {"ft2", 4 * square_foot}};
constexpr PrintUnit area_si[] = {{"cm2"}, {"m2", 0.4}};
constexpr PrintUnit volume_us[] = {{"fl oz"}, {"gal", 0.25 * us_gallon}};
constexpr PrintUnit volume_si[] = {{"mL"}, {"L", 1e-3}, {"m3", 10.0}};
constexpr PrintUnit flow_us[] = {{"gal/day"}, {"gpm", 0.25 * us_gallon / minute}};
constexpr PrintUnit flow_si[] = {{"L/day"}, {"L/min", 1e-3 / minute}, {"m3/h", 6.0 / hour}};
constexpr PrintUnit mass_us[] = {{"oz"}, {"lb", pound}};
constexpr PrintUnit mass_si[] = {{"g"}, {"kg", 1.0}};
constexpr PrintUnit mass_flow_us[] = {{"lb/h"}};
constexpr PrintUnit mass_flow_si[] = {{"kg/h"}};
constexpr PrintUnit velocity_us[] = {{"in/day"}, {"ft/s", 0.01 * foot}};
constexpr PrintUnit velocity_si[] = {{"mm/day"}, {"m/s", 3e-3}};
constexpr PrintUnit duration[] = {{"s"}, {"min", 120.0}, {"h", 2 * hour}, {"day", 3 * day}, {"year", 2 * 365.25 * day}};
constexpr PrintUnit temperature_us[] = {{"degF"}};
constexpr PrintUnit temperature_si[] = {{"degC"}};
constexpr PrintUnit pressure_us[] = {{"in water"}, {"psi", 0.7 * exact::psi}};
constexpr PrintUnit pressure_si[] = {{"Pa"}, {"kPa", 1e3}};
constexpr PrintUnit power_us[] = {{"W"}, {"kBtu/h", 3500.0}};
constexpr PrintUnit power_si[] = {{"W"}, {"kW", 1e3}};
constexpr PrintUnit energy_us[] = {{"kWh"}};
constexpr PrintUnit energy_si[] = {{"kWh"}};
constexpr PrintUnit heating_us[] = {{"Btu/ft3"}};
constexpr PrintUnit heating_si[] = {{"MJ/m3"}};
constexpr PrintUnit rpm[] = {{"rpm"}};
constexpr PrintUnit hertz[] = {{"Hz"}};
constexpr PrintUnit volts[] = {{"V"}};
constexpr PrintUnit amps[] = {{"A"}};
constexpr PrintUnit ohms[] = {{"ohm"}, {"megohm", 1e5}};
constexpr PrintUnit density_us[] = {{"lb/ft3"}};
constexpr PrintUnit density_si[] = {{"kg/m3"}};
constexpr PrintUnit viscosity[] = {{"mPa s"}};
constexpr PrintUnit kinematic[] = {{"mm2/s"}};
constexpr PrintUnit specific_us[] = {{"Btu/(lb degF)"}};
constexpr PrintUnit specific_si[] = {{"kJ/(kg K)"}};
constexpr PrintUnit conduct[] = {{"W/(m K)"}};
constexpr PrintUnit latent_us[] = {{"Btu/lb"}};
constexpr PrintUnit latent_si[] = {{"kJ/kg"}};
constexpr PrintUnit flux_us[] = {{"Btu/(h ft2)"}};
constexpr PrintUnit flux_si[] = {{"W/m2"}};
constexpr PrintUnit mass_flux_us[] = {{"lb/(h ft2)"}};
constexpr PrintUnit mass_flux_si[] = {{"kg/(m2 s)"}};
constexpr PrintUnit electrolyte[] = {{"uS/cm"}};
constexpr PrintUnit ppm[] = {{"ppm"}};
constexpr PrintUnit mg_per_litre[] = {{"mg/L"}};
constexpr PrintUnit molal[] = {{"mmol/kg"}, {"mol/kg", 0.1}};
constexpr PrintUnit percent[] = {{"%"}};

constexpr std::string_view concentration_units = "ppm, mg/L, g/L, gr/gal, mmol/L";

constexpr auto table = std::to_array<MeasureInfo>({
    {M::length, "length", "a length", D::length, "", 0, "1 ft 6 in", "in, ft, mm, cm, m", length_us, length_si},
    {M::head, "head of water", "a head", D::length, "", 0, "48 ft", "ft, m", head_us, head_si},
    {M::area, "area", "an area", D::area, "", 0, "400 ft2", "ft2, in2, m2, cm2", area_us, area_si},
    {M::volume, "volume", "a volume", D::volume, "", 0, "18500 gal", "gal (US), L, m3, ft3, fl oz", volume_us,
     volume_si},
    {M::volume_flow, "flow", "a flow", D::volume_flow, "", 0, "45 gpm", "gpm, gal/day, L/min, m3/h, ft3/h", flow_us,
     flow_si},
    {M::mass, "mass", "a mass", D::mass, "", 0, "2 lb", "lb, oz, kg, g", mass_us, mass_si},
    {M::mass_flow, "mass flow", "a mass flow", D::mass_flow, "", 0, "7.4 lb/h", "lb/h, kg/h", mass_flow_us,
     mass_flow_si},
    {M::velocity, "velocity", "a velocity", D::velocity, "", 0, "6 ft/s", "ft/s, m/s, mph, in/day, mm/day", velocity_us,
     velocity_si},
    {M::duration, "time", "a time", D::time, "", 0, "24 h", "s, min, h, day, year", duration, duration},
    {M::temperature, "temperature", "a temperature", D::temperature, "", 0, "104 degF", "degF, degC, K", temperature_us,
     temperature_si},
    {M::temperature_difference, "temperature difference", "a temperature difference", D::temperature_difference, "", 0,
     "12 degF", "degF, degC, K", temperature_us, temperature_si},
    {M::pressure_difference, "pressure difference", "a pressure", D::pressure, "", 0, "8 psi",
     "psi, kPa, in water, inHg", pressure_us, pressure_si},
    {M::gauge_pressure, "gauge pressure", "a pressure", D::pressure, "", 0, "18 psi",
     "psi, kPa, bar, inHg (vacuum is negative: -6 inHg)", pressure_us, pressure_si},
    {M::absolute_pressure, "absolute pressure", "a pressure", D::pressure, "", 0, "14.7 psia", "psia, kPa, inHg, atm",
     pressure_us, pressure_si},
    {M::power, "power", "a power", D::power, "", 0, "400 kBtu/h", "kBtu/h, Btu/h, kW, W, hp", power_us, power_si},
    {M::energy, "energy", "an energy", D::energy, "", 0, "35 kWh", "kWh, Btu, therm, MJ", energy_us, energy_si},
    {M::heating_value, "heating value", "a heating value", D::energy_per_volume, "", 0, "1030 Btu/ft3",
     "Btu/ft3, MJ/m3", heating_us, heating_si},
    {M::rotation_speed, "speed of rotation", "a speed of rotation", D::rotation_speed, "", 0, "3450 rpm", "rpm", rpm,
     rpm},
    {M::frequency, "frequency", "a frequency", D::frequency, "", 0, "120 Hz", "Hz, kHz", hertz, hertz},
    {M::voltage, "voltage", "a voltage", D::voltage, "", 0, "230 V", "V", volts, volts},
    {M::current, "current", "a current", D::current, "", 0, "7.2 A", "A, mA", amps, amps},
    {M::resistance, "resistance", "a resistance", D::resistance, "", 0, "2 megohm", "ohm, kohm, megohm", ohms, ohms},
    {M::density, "density", "a density", D::mass_concentration, "", 0, "997 kg/m3", "kg/m3, lb/ft3", density_us,
     density_si},
    {M::dynamic_viscosity, "viscosity", "a viscosity", D::dynamic_viscosity, "", 0, "1.0 mPa s", "mPa s, cP", viscosity,
     viscosity},
    {M::kinematic_viscosity, "kinematic viscosity", "a kinematic viscosity", D::kinematic_viscosity, "", 0, "1.0 cSt",
     "cSt, mm2/s, m2/s", kinematic, kinematic},
    {M::specific_heat, "specific heat", "a specific heat", D::specific_heat, "", 0, "4.18 kJ/(kg K)",
     "kJ/(kg K), Btu/(lb degF)", specific_us, specific_si},
    {M::thermal_conductivity, "thermal conductivity", "a thermal conductivity", D::thermal_conductivity, "", 0,
     "0.6 W/(m K)", "W/(m K)", conduct, conduct},
    {M::latent_heat, "latent heat", "a latent heat", D::latent_heat, "", 0, "2435 kJ/kg", "kJ/kg, Btu/lb", latent_us,
     latent_si},
    {M::heat_flux, "heat flux", "a heat flux", D::heat_flux, "", 0, "200 W/m2", "W/m2, Btu/(h ft2)", flux_us, flux_si},
    {M::mass_flux, "mass flux", "a mass flux", D::mass_flux, "", 0, "0.05 lb/(h ft2)", "lb/(h ft2), kg/(m2 s)",
     mass_flux_us, mass_flux_si},
    {M::conductivity, "electrical conductivity", "a conductivity", D::conductivity, "", 0, "1500 uS/cm", "uS/cm, mS/cm",
     electrolyte, electrolyte},
    {M::as_calcium_carbonate, "concentration as CaCO3", "a concentration", D::mass_concentration, "CaCO3",
     calcium_carbonate_molar_mass, "90 ppm", concentration_units, ppm, mg_per_litre},
    {M::as_chlorine, "concentration as Cl2", "a concentration", D::mass_concentration, "Cl2", chlorine_molar_mass,
     "3 ppm", concentration_units, ppm, mg_per_litre},
    {M::as_sodium_chloride, "concentration as NaCl", "a concentration", D::mass_concentration, "NaCl",
     sodium_chloride_molar_mass, "3200 ppm", concentration_units, ppm, mg_per_litre},
    {M::as_boron, "concentration as B", "a concentration", D::mass_concentration, "B", boron_molar_mass, "50 ppm",
     concentration_units, ppm, mg_per_litre},
    {M::as_cyanuric_acid, "concentration as cyanuric acid", "a concentration", D::mass_concentration, "cyanuric acid",
     cyanuric_acid_molar_mass, "40 ppm", concentration_units, ppm, mg_per_litre},
    {M::as_sulfate, "concentration as SO4", "a concentration", D::mass_concentration, "SO4", sulfate_molar_mass,
     "120 ppm", concentration_units, ppm, mg_per_litre},
    {M::as_hydrogen_chloride, "concentration as HCl", "a concentration", D::mass_concentration, "HCl",
     hydrogen_chloride_molar_mass, "20 ppm", concentration_units, ppm, mg_per_litre},
    {M::as_bicarbonate, "concentration as NaHCO3", "a concentration", D::mass_concentration, "NaHCO3",
     sodium_bicarbonate_molar_mass, "50 ppm", concentration_units, ppm, mg_per_litre},
    {M::as_carbonate, "concentration as Na2CO3", "a concentration", D::mass_concentration, "Na2CO3",
     sodium_carbonate_molar_mass, "20 ppm", concentration_units, ppm, mg_per_litre},
    {M::as_calcium_chloride, "concentration as CaCl2", "a concentration", D::mass_concentration, "CaCl2",
     calcium_chloride_molar_mass, "80 ppm", concentration_units, ppm, mg_per_litre},
    {M::as_itself, "concentration", "a concentration", D::mass_concentration, "", 0, "800 ppm",
     "ppm, mg/L, g/L, gr/gal", ppm, mg_per_litre},
    {M::molality, "molality", "a molality", D::molality, "", 0, "1.8 mmol/kg", "mmol/kg, mol/kg", molal, molal},
    {M::ph, "pH", "a pH", D::none, "", 0, "7.5", "none", none, none},
    {M::ph_difference, "pH difference", "a pH difference", D::none, "", 0, "0.2", "none", none, none},
    {M::fraction, "share", "a share", D::share, "", 0, "82 %", "%, or a decimal from 0 to 1", percent, percent},
    {M::gas_fraction, "share by volume", "a share by volume", D::parts_by_volume, "", 0, "50 ppm", "ppm, %", ppm, ppm},
    {M::number, "number", "a pure number", D::none, "", 0, "1.5", "none", none, none},
});

} // namespace

MeasureInfo const& info(Measure measure)
{
    return table[static_cast<std::size_t>(measure)];
}

std::span<MeasureInfo const> all_measures()
{
    return table;
}

std::string_view noun(Dimension dimension)
{
    switch (dimension)
    {
    case D::gauge_only: return "a gauge pressure";
    case D::absolute_only: return "an absolute pressure";
    case D::amount_concentration:
    case D::equivalent_concentration:
    case D::mass_concentration: return "a concentration";
    case D::slope: return "a slope";
    case D::length: return "a length";
    case D::none: return "a pure number";
    default: break;
    }
    for (auto const& row : table)
        if (row.dimension == dimension)
            return row.noun;
    return "a quantity";
}

} // namespace padwalk::units
