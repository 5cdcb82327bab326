#include "csv.hpp"
#include "read.hpp"

#include "padwalk/units/print.hpp"

#include <cmath>
#include <map>
#include <set>

using namespace padwalk::units;
using namespace padwalk::tests;
using Catch::Matchers::WithinRel;
using D = Dimension;

namespace
{

/// Units of one size, which is worked here from the definitions in whole numbers and decimals, not from the program's.
struct Size
{
    D dimension;
    double si;
    std::vector<std::string_view> symbols;
};

constexpr double g = 9.80665;                 // m/s2, by definition
constexpr double lb = 45359237.0 / 100000000; // kg, by definition
constexpr double in3 = 254.0 * 254 * 254 / 1e12;
constexpr double ft2 = 3048.0 * 3048 / 1e8;
constexpr double ft3 = 3048.0 * 3048 * 3048 / 1e12;
constexpr double gal = 231 * in3;
constexpr double uk_gal = 454609.0 / 100000000;
constexpr double psi = lb * g * 1e8 / (254.0 * 254);
constexpr double btu = 105505585262.0 / 100000000;

std::vector<Size> const sizes{
    {D::length, 254.0 / 10000, {"in", "inch", "inches", "\""}},
    {D::length, 3048.0 / 10000, {"ft", "foot", "feet", "'"}},
    {D::length, 9144.0 / 10000, {"yd"}},
    {D::length, 254.0 / 10000000, {"mil"}},
    {D::length, 1609344.0 / 1000, {"mi"}},
    {D::length, 1.0 / 1000, {"mm"}},
    {D::length, 1.0 / 100, {"cm"}},
    {D::length, 1, {"m"}},
    {D::length, 1000, {"km"}},
    {D::length, 1.0 / 1000000, {"um"}},

    {D::area, ft2, {"ft2", "sq ft", "sqft", "ft^2", "square feet"}},
    {D::area, 254.0 * 254 / 1e8, {"in2", "sq in", "in^2"}},
    {D::area, 1, {"m2", "m^2", "sq m"}},
    {D::area, 1.0 / 10000, {"cm2", "cm^2"}},
    {D::area, 1.0 / 1000000, {"mm2"}},
    {D::area, 43560 * ft2, {"acre"}},

    {D::volume, gal, {"gal", "gallon", "gallons", "US gal"}},
    {D::volume, uk_gal, {"UK gal", "imp gal"}},
    {D::volume, gal / 4, {"qt"}},
    {D::volume, gal / 8, {"pt"}},
    {D::volume, gal / 16, {"cup", "cups"}},
    {D::volume, gal / 128, {"fl oz", "US fl oz"}},
    {D::volume, 1.0 / 1000, {"L", "l", "litre", "litres", "liter", "liters"}},
    {D::volume, 1.0 / 1000000, {"mL", "ml"}},
    {D::volume, ft3, {"ft3", "ft^3", "cu ft", "cubic feet", "cf"}},
    {D::volume, in3, {"in3"}},
    {D::volume, 1, {"m3", "m^3"}},
    {D::volume, 43560 * ft3 / 12, {"acre in"}},

    {D::volume_flow, gal / 60, {"gpm", "gal/min", "US gpm", "US gal/min"}},
    {D::volume_flow, uk_gal / 60, {"UK gpm"}},
    {D::volume_flow, gal / 3600, {"gph", "gal/h", "gal/hr", "US gph"}},
    {D::volume_flow, gal / 86400, {"gal/day", "gpd", "gal/d", "US gal/day"}},
    {D::volume_flow, 1.0 / 60000, {"L/min", "lpm", "l/min"}},
    {D::volume_flow, 1.0 / 1000, {"L/s"}},
    {D::volume_flow, 1.0 / 3600000, {"L/h"}},
    {D::volume_flow, 1.0 / 86400000, {"L/day"}},
    {D::volume_flow, 1.0 / 60000000, {"mL/min"}},
    {D::volume_flow, 1.0 / 3600, {"m3/h", "m^3/h", "m3/hr"}},
    {D::volume_flow, 1, {"m3/s", "m^3/s"}},
    {D::volume_flow, 1.0 / 86400, {"m3/day"}},
    {D::volume_flow, ft3 / 60, {"cfm", "ft3/min"}},
    {D::volume_flow, ft3 / 3600, {"ft3/h", "cfh", "ft3/hr"}},
    {D::volume_flow, ft3, {"ft3/s"}},

    {D::mass, lb, {"lb", "lbs"}},
    {D::mass, lb / 16, {"oz"}},
    {D::mass, 1, {"kg"}},
    {D::mass, 1.0 / 1000, {"g"}},
    {D::mass, 1.0 / 1000000, {"mg"}},
    {D::mass_flow, lb / 3600, {"lb/h", "lb/hr"}},
    {D::mass_flow, 1.0 / 3600, {"kg/h"}},
    {D::mass_flow, 1, {"kg/s"}},
    {D::mass_flow, 1.0 / 1000, {"g/s"}},

    {D::velocity, 3048.0 / 10000, {"ft/s", "fps"}},
    {D::velocity, 508.0 / 100000, {"ft/min", "fpm"}},
    {D::velocity, 44704.0 / 100000, {"mph"}},
    {D::velocity, 1, {"m/s"}},
    {D::velocity, 10.0 / 36, {"km/h"}},
    {D::velocity, 254.0 / 864000000, {"in/day", "in/d"}},
    {D::velocity, 254.0 / 864000000 / 7, {"in/week"}},
    {D::velocity, 1.0 / 86400000, {"mm/day", "mm/d"}},
    {D::velocity, 1.0 / 360000, {"cm/h"}},
    {D::velocity, 1.0 / 8640000, {"cm/day"}},
    {D::velocity, gal / 60 / ft2, {"gpm/ft2", "US gpm/ft2"}},
    {D::velocity, 1.0 / 3600, {"m/h"}},

    {D::time, 1, {"s", "sec", "seconds"}},
    {D::time, 60, {"min", "minutes"}},
    {D::time, 3600, {"h", "hr", "hrs", "hour", "hours"}},
    {D::time, 86400, {"d", "day", "days"}},
    {D::time, 604800, {"week", "weeks"}},
    {D::time, 31557600, {"year", "years"}},
    {D::time, 2629800, {"month", "months"}}, // the Julian year of 365.25 days, and its twelfth

    {D::temperature, 10.0 / 18, {"degF", "deg F", "F"}},
    {D::temperature, 1, {"degC", "deg C", "C", "K"}},
    {D::temperature_difference, 10.0 / 18, {"degF", "deg F", "F"}},
    {D::temperature_difference, 1, {"degC", "deg C", "C", "K"}},

    {D::pressure, psi, {"psi"}},
    {D::gauge_only, psi, {"psig"}},
    {D::absolute_only, psi, {"psia"}},
    {D::pressure, 1000, {"kPa"}},
    {D::pressure, 1, {"Pa"}},
    {D::pressure, 1000000, {"MPa"}},
    {D::pressure, 100, {"hPa", "mbar"}},
    {D::pressure, 100000, {"bar"}},
    {D::pressure, 101325, {"atm"}},
    {D::pressure, 13595.1 * g * 0.0254, {"inHg", "in Hg", "\"Hg"}},
    {D::pressure, 13.5951 * g, {"mmHg"}},
    {D::pressure, 304.8 * g, {"ft water", "ftH2O", "ft H2O"}},
    {D::pressure, 1000 * g, {"m water", "mH2O"}},
    {D::pressure, 25.4 * g, {"in water", "inH2O", "in H2O", "in w.c.", "inwc", "in wc", "\"wc"}},
    {D::pressure, psi / 16, {"oz/in2"}},

    {D::power, btu / 3.6, {"kBtu/h", "kBtu/hr", "kBTUH", "MBH"}},
    {D::power, btu / 3600, {"Btu/h", "Btu/hr", "BTUH"}},
    {D::power, 1, {"W"}},
    {D::power, 1000, {"kW"}},
    {D::power, 550 * lb* g * 0.3048, {"hp"}},
    {D::power, 746, {"hp (electric)"}},
    {D::power, 735.49875, {"hp (metric)"}},
    {D::power, 10 * btu / 3, {"ton of refrigeration"}},
    {D::energy, btu, {"Btu"}},
    {D::energy, 1000 * btu, {"kBtu"}},
    {D::energy, 105480400, {"therm", "therms"}},
    {D::energy, 105506000, {"therm (EC)"}},
    {D::energy, 3600000, {"kWh"}},
    {D::energy, 3600, {"Wh"}},
    {D::energy, 1, {"J"}},
    {D::energy, 1000, {"kJ"}},
    {D::energy, 1000000, {"MJ"}},
    {D::energy, 1000000000, {"GJ"}},
    {D::energy_per_volume, btu / ft3, {"Btu/ft3", "Btu/cf"}},
    {D::energy_per_volume, 1000000, {"MJ/m3"}},
    {D::energy_per_volume, 3600000, {"kWh/m3"}},

    {D::rotation_speed, 1.0 / 60, {"rpm", "1/min"}},
    {D::rotation_speed, 1, {"Hz"}},
    {D::frequency, 1, {"Hz"}},
    {D::frequency, 1000, {"kHz"}},
    {D::voltage, 1, {"V", "volt", "volts"}},
    {D::voltage, 1.0 / 1000, {"mV"}},
    {D::current, 1, {"A", "amp", "amps"}},
    {D::current, 1.0 / 1000, {"mA"}},
    {D::resistance, 1, {"ohm", "ohms"}},
    {D::resistance, 1000, {"kohm"}},
    {D::resistance, 1000000, {"megohm", "Mohm"}},

    {D::mass_concentration, 1.0 / 1000, {"ppm", "mg/L", "mg/l", "g/m3"}},
    {D::mass_concentration, 1, {"g/L", "kg/m3"}},
    {D::mass_concentration, lb / ft3, {"lb/ft3"}},
    {D::mass_concentration, lb / 7000 / gal, {"gr/gal", "gpg"}},
    {D::mass_concentration, lb / 7000 / uk_gal, {"gr/UK gal"}},
    {D::mass_concentration, lb / 16 / (10000 * gal), {"oz per 10000 gal"}},
    {D::amount_concentration, 1, {"mmol/L", "mmol/l"}},
    {D::equivalent_concentration, 1, {"meq/L", "meq/l"}},
    {D::molality, 1, {"mol/kg"}},
    {D::molality, 1.0 / 1000, {"mmol/kg"}},

    {D::dynamic_viscosity, 1.0 / 1000, {"mPa s", "cP"}},
    {D::dynamic_viscosity, 1, {"Pa s"}},
    {D::kinematic_viscosity, 1.0 / 1000000, {"cSt", "mm2/s"}},
    {D::kinematic_viscosity, 1, {"m2/s"}},
    {D::specific_heat, 1, {"J/(kg K)"}},
    {D::specific_heat, 1000, {"kJ/(kg K)"}},
    {D::specific_heat, btu / lb * 18 / 10, {"Btu/(lb degF)"}},
    {D::thermal_conductivity, 1, {"W/(m K)"}},
    {D::latent_heat, 1, {"J/kg"}},
    {D::latent_heat, 1000, {"kJ/kg"}},
    {D::latent_heat, btu / lb, {"Btu/lb"}},
    {D::heat_flux, 1, {"W/m2"}},
    {D::heat_flux, btu / 3600 / ft2, {"Btu/(h ft2)"}},
    {D::mass_flux, 1, {"kg/(m2 s)"}},
    {D::mass_flux, lb / 3600 / ft2, {"lb/(h ft2)"}},
    {D::conductivity, 1.0 / 10000, {"uS/cm"}},
    {D::conductivity, 1.0 / 10, {"mS/cm"}},
    {D::conductivity, 1, {"S/m"}},

    {D::share, 1.0 / 100, {"%", "percent"}},
    {D::parts_by_volume, 1.0 / 1000000, {"ppm", "ppmv"}},
    {D::parts_by_volume, 1.0 / 100, {"%"}},
    {D::parts_by_volume, 1.0 / 1280000, {"fl oz per 10000 gal"}},
    {D::slope, 1.0 / 12, {"in/ft"}},
};

// The names that the outside table gives to what people write otherwise.
std::string our_spelling(std::string const& theirs)
{
    static std::map<std::string, std::string> const names{
        {"gpm (US)", "gpm"},
        {"gpm (UK)", "UK gpm"},
        {"CFM", "cfm"},
        {"acre inch", "acre in"},
        {"US qt", "qt"},
        {"US fl oz", "fl oz"},
        {"degF difference", "degF"},
        {"hp (mechanical)", "hp"},
        {"therm (US)", "therm"},
        {"ppm (mg/kg)", "ppm"},
        {"mg/L at 1 kg/L", "mg/L"},
        {"gr/US gal", "gr/gal"},
        {"mmol/L CaCO3", "mmol/L"},
        {"mg/L CaCO3", "mg/L"},
        {"oz per 10000 US gal", "oz per 10000 gal"},
        {"mL/m3", "ppm"},
        {"US fl oz per 10000 US gal", "fl oz per 10000 gal"},
        {"US gal", "gal"},
    };
    auto const found = names.find(theirs);
    return found == names.end() ? theirs : found->second;
}

Measure measure_of_row(CsvRow const& row)
{
    static std::map<std::string, Measure> const measures{{"pressure", Measure::gauge_pressure},
                                                         {"flow", Measure::volume_flow},
                                                         {"velocity", Measure::velocity},
                                                         {"volume", Measure::volume},
                                                         {"mass", Measure::mass},
                                                         {"length", Measure::length},
                                                         {"area", Measure::area},
                                                         {"temperature", Measure::temperature},
                                                         {"temperature difference", Measure::temperature_difference},
                                                         {"power", Measure::power},
                                                         {"energy", Measure::energy},
                                                         {"heat flux", Measure::heat_flux},
                                                         {"viscosity", Measure::kinematic_viscosity}};
    if (row.text("to_unit") == "MJ/m3")
        return Measure::heating_value;
    if (row.text("category") == "concentration")
        return row.text("to_unit") == "mL/m3"        ? Measure::gas_fraction
               : row.text("to_unit") == "kg/m3"      ? Measure::density
               : row.text("to_unit") == "mg/L CaCO3" ? Measure::as_calcium_carbonate
                                                     : Measure::as_itself;
    return measures.at(row.text("category"));
}

} // namespace

TEST_CASE("GNU Units and exact rational arithmetic give the same conversions", "[units][table][gnu-units]")
{
    for (auto const& row : reference_csv("units/units_gnu.csv"))
    {
        INFO(row.place() << ": " << row.text("value") << " " << row.text("from_unit") << " in " << row.text("to_unit"));
        Measure const measure = measure_of_row(row);
        double const si = must_read(row.text("value") + " " + our_spelling(row.text("from_unit")), measure).value;
        double const ours = in_unit(measure, si, our_spelling(row.text("to_unit")));
        // GNU Units takes older atomic weights of calcium and carbon; its molar mass is 1.2e-5 above ours, as its note
        // says.
        bool const atomic_weights = row.text("from_unit") == "mmol/L CaCO3";
        double const expected = row.text("exact").empty() ? row.number("result") : row.number("exact");
        CHECK_THAT(ours, WithinRel(expected, atomic_weights ? 2e-5 : 1e-13));
    }
}

TEST_CASE("every unit of the table has the size of its definition", "[units][table]")
{
    std::map<std::pair<D, std::string_view>, double> expected;
    for (auto const& size : sizes)
        for (auto const symbol : size.symbols)
        {
            INFO("symbol '" << symbol << "'");
            CHECK(expected.emplace(std::pair(size.dimension, symbol), size.si).second);
            CHECK(find_unit(symbol, size.dimension) != nullptr);
        }
    std::set<std::pair<D, std::string_view>> met;
    for (auto const& unit : all_units())
    {
        INFO("symbol '" << unit.symbol << "' of dimension " << static_cast<int>(unit.dimension));
        auto const found = expected.find({unit.dimension, unit.symbol});
        REQUIRE(found != expected.end()); // a row without a check
        CHECK_THAT(unit.scale, WithinRel(found->second, 1e-15));
        bool const fahrenheit = unit.dimension == D::temperature && unit.symbol.back() == 'F';
        bool const celsius = unit.dimension == D::temperature && unit.symbol.back() == 'C';
        CHECK(unit.zero == (fahrenheit ? 459.67 : celsius ? 273.15 : 0.0));
        CHECK(met.emplace(unit.dimension, unit.symbol).second); // stands once
    }
}

TEST_CASE("every unit can be read as it is listed and as it is printed", "[units][table]")
{
    for (auto const& measure : all_measures())
        for (auto const& unit : all_units())
        {
            if (unit.dimension != measure.dimension)
                continue;
            INFO("measure " << measure.name << ", unit '" << unit.symbol << "' printed '" << printed(unit.symbol)
                            << "'");
            double const expected = (300 + unit.zero) * unit.scale; // 300 is a possible temperature in every scale
            CHECK_THAT(must_read("300 " + std::string(unit.symbol), measure.measure).value, WithinRel(expected, 1e-15));
            CHECK_THAT(must_read("300 " + printed(unit.symbol), measure.measure).value, WithinRel(expected, 1e-15));
        }
}

TEST_CASE("the measures stand in the order of their enumerators and are complete", "[units][table]")
{
    auto const table = all_measures();
    REQUIRE(table.size() == static_cast<std::size_t>(Measure::number) + 1);
    for (std::size_t i = 0; i < table.size(); ++i)
    {
        auto const& m = table[i];
        INFO("measure " << m.name);
        CHECK(static_cast<std::size_t>(m.measure) == i);
        CHECK(&info(m.measure) == &m);
        CHECK_FALSE(m.name.empty());
        CHECK((m.noun.starts_with("a ") || m.noun.starts_with("an ")));
        CHECK((m.molar_mass > 0) == !m.basis.empty());
        must_read(m.example, m.measure);
        for (auto const system : {m.us, m.si})
        {
            REQUIRE_FALSE(system.empty());
            CHECK(system.front().from == 0.0);
            double before = -1;
            for (auto const& choice : system)
            {
                INFO("print unit '" << choice.symbol << "'");
                CHECK((choice.symbol.empty() ? m.dimension == D::none
                                             : find_unit(choice.symbol, m.dimension) != nullptr));
                CHECK(choice.from > before);
                before = choice.from;
            }
        }
        if (m.dimension != D::none)
            for (std::size_t from = 0; from < m.units.size();) // the units that messages list exist too
            {
                std::size_t const end = std::min(m.units.find(", ", from), m.units.size());
                std::string_view unit = m.units.substr(from, end - from);
                from = end + 2;
                unit = unit.substr(0, unit.find(" ("));
                if (unit.starts_with("or a decimal"))
                    continue;
                INFO("listed unit '" << unit << "'");
                must_read("300 " + std::string(unit), m.measure);
            }
    }
}

TEST_CASE("every dimension has a noun", "[units][table]")
{
    for (auto const& unit : all_units())
    {
        CHECK(noun(unit.dimension).substr(0, 1) == "a");
        CHECK(noun(unit.dimension) != "a quantity");
    }
    CHECK(noun(D::volume_flow) == "a flow");
    CHECK(noun(D::none) == "a pure number");
}
