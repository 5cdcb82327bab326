#include "padwalk/heating/models.hpp"

#include "padwalk/figures/figure.hpp"
#include "padwalk/heating/condensation.hpp"
#include "padwalk/heating/fuel_price.hpp"
#include "padwalk/heating/gas.hpp"
#include "padwalk/heating/heat_loss.hpp"
#include "padwalk/heating/heat_pump.hpp"
#include "padwalk/reference/yaml.hpp"
#include "padwalk/units/definitions.hpp"

#include "catch_compat.hpp"
#include "data_folder.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::units::exact;

namespace
{

figures::Figure written(std::string const& name, std::string const& yaml)
{
    static std::vector<figures::Model> const all = heating::models(tests::data_from_folder());
    for (auto const& model : all)
        if (model.name == name)
            return figures::run_written(model, reference::read_yaml(yaml));
    throw std::logic_error("no model '" + name + "'");
}

double value(figures::Figure const& figure, std::string const& output, double unit)
{
    return figure.output(output).value.value() / unit;
}

constexpr double kbtu_per_hour = 1000 * btu / hour;

} // namespace

TEST_CASE("every heating model says that the maker's instructions and local code rule, and warns", "[heating]")
{
    auto const models = heating::models(tests::data_from_folder());
    std::vector<std::string> names;
    for (auto const& model : models)
    {
        INFO(model.name);
        names.push_back(model.name);
        CHECK(model.valid.find("the maker's instructions and local code rule") != std::string::npos);
        CHECK_FALSE(model.cautions.empty());
        CHECK_FALSE(model.sources.empty());
    }
    CHECK(names == std::vector<std::string>{"heater_rise", "heat_flow_estimate", "heat_up", "electric_rise",
                                            "heater_cycle", "gas_input", "altitude_derate", "heater_efficiency",
                                            "spa_heat_loss", "heating_cost", "heat_pump", "dew_point_flue",
                                            "heat_balance", "flue_gas"});
}

TEST_CASE("every work that a heating model or table names stands in the bibliography", "[heating]")
{
    auto const data = tests::data_from_folder();
    auto const works = reference::bibliography(data);
    for (auto const& model : heating::models(data))
        for (auto const& key : model.sources)
        {
            INFO(model.name << ": " << key);
            CHECK(works.count(key) == 1);
        }
    auto const facts = heating::gas_facts(data);
    for (auto const& [name, gas] : facts.gases)
        CHECK(works.count(gas.source.key) == 1);
    CHECK(works.count(facts.derate.source.key) == 1);
    CHECK(works.count(facts.base.source.key) == 1);
    std::vector<reference::Cited> rows;
    auto const losses = heating::loss_facts(data);
    auto const& t = losses.table;
    for (auto const* row : {&t.bowen, &t.thin_air, &t.emissivity, &t.sky_clear, &t.sky_dew, &t.cloud_1, &t.cloud_2,
                            &t.cloud_3, &t.sun_absorbed, &t.cover_cut, &t.outer_film})
        rows.push_back(row->source);
    for (auto const& row : t.shells)
        rows.push_back(row.source);
    for (auto const& row : losses.evaporation.activity)
        rows.push_back(row.source);
    for (auto const& row : heating::fuel_prices(data).sold)
        rows.push_back(row.source);
    auto const pump = heating::heat_pump_facts(data);
    for (auto const* row : {&pump.rating_air, &pump.rating_humidity, &pump.rating_water, &pump.lift_added,
                            &pump.capacity_per_kelvin, &pump.capacity_per_water_kelvin, &pump.frost_approach,
                            &pump.works_well_from, &pump.cop_least, &pump.cop_most})
        rows.push_back(row->source);
    auto const flue = heating::condensation_facts(data);
    for (auto const& row : flue.fuels)
        rows.push_back(row.source);
    rows.push_back(flue.air_oxygen.source), rows.push_back(flue.tube_warmer.source);
    CHECK(rows.size() == 36);
    for (auto const& row : rows)
    {
        INFO(row.key);
        CHECK(works.count(row.key) == 1);
    }
}

TEST_CASE("heater_rise: 400 kBtu/h, 82 %, 60 gpm, 40 degC give 11.0 F (equipment facts, computed)", "[heating]")
{
    auto const figure =
        written("heater_rise", "{input: 400 kBtu/h, efficiency: 82 %, flow: 60 gpm, inlet_temperature: 40 degC}");
    CHECK(std::abs(value(figure, "rise", fahrenheit_degree) - 11.0) <= 0.05);
    CHECK(std::abs(value(figure, "outlet_temperature", 1) - (313.15 + value(figure, "rise", 1))) <= 1e-9);
    auto const assumed = written("heater_rise", "{input: 400 kBtu/h, efficiency: 82 %, flow: 60 gpm}");
    CHECK(assumed.inputs.back().assumed);
    CHECK(std::abs(value(assumed, "rise", fahrenheit_degree) - 11.0) <=
          0.1); // the assumed 80 F moves it by half a per cent
}

TEST_CASE("gas_input: the assumed heating value is the table's usual one and brings its doubt", "[heating]")
{
    auto const figure = written("gas_input", "{dial: 2 ft3, elapsed: 20 s}");
    CHECK(std::abs(value(figure, "volume_rate", cubic_foot / hour) - 360) <= 1e-9);
    auto const usual = heating::gas_facts(tests::data_from_folder()).gases.front().second.usual;
    CHECK(std::abs(value(figure, "input", 1) / (360 * cubic_foot / hour * usual.value()) - 1) <= 1e-9);
    CHECK(value(figure, "correction", 1) == 1.0);
    auto const& input =
        figure.output("input"); // 60 of 1030 Btu/ft3 is 5.8 %; 256 points find the ends within a few per cent of that
    CHECK(std::abs((input.high - input.low) / 2 / *input.value - 60.0 / 1030) <= 0.004);
}

TEST_CASE("gas_input: an uncompensated meter at altitude burns less than it turns", "[heating]")
{
    std::string const common = "dial: 2 ft3, elapsed: 20 s, heating_value: 1030 Btu/ft3, altitude: 5000 ft";
    auto const plain = written("gas_input", "{" + common + "}");
    auto const corrected = written("gas_input", "{" + common + ", compensated: no}");
    CHECK(std::abs(value(plain, "input", kbtu_per_hour) - 370.8) <= 1e-6);
    CHECK(value(corrected, "volume_rate", 1) == value(plain, "volume_rate", 1));
    CHECK(std::abs(value(corrected, "input", 1) - value(plain, "input", 1) * value(corrected, "correction", 1)) <=
          1e-6);
    // Air 17 % down from 14.696 psi, 7 in water up, over 14.73: (12.2 + 0.25)/14.73.
    CHECK(std::abs(value(corrected, "correction", 1) - 0.847) <= 0.003);
}

TEST_CASE("altitude_derate gives both readings of the rule", "[heating]")
{
    auto const figure = written("altitude_derate", "{nameplate: 400 kBtu/h, altitude: 5000 ft}");
    CHECK(std::abs(value(figure, "input_from_sea_level", kbtu_per_hour) - 320) <= 1e-6);
    CHECK(std::abs(value(figure, "input_from_2000_ft", kbtu_per_hour) - 352) <= 1e-6);
}

TEST_CASE(
    "heater_efficiency: 60 gpm, 11 F, 371 kBtu/h are 0.88, which calls the flow in doubt (equipment facts, computed)",
    "[heating]")
{
    auto const figure =
        written("heater_efficiency", "{rise: 11 degF, flow: 60 gpm, input: 371 kBtu/h, inlet_temperature: 104 degF}");
    CHECK(std::abs(value(figure, "efficiency", 1) - 0.88) <= 0.005);
    CHECK(figure.output("in_words").words == "more than a heater that doesn't condense can reach: unless this one "
                                             "condenses, the flow or the rise is read too high");
}

TEST_CASE("heat_flow_estimate inverts heater_rise to 1e-9", "[heating]")
{
    auto const rise =
        written("heater_rise", "{input: 333 kBtu/h, efficiency: 82 %, flow: 47 gpm, inlet_temperature: 93 degF}");
    auto const models = heating::models(tests::data_from_folder());
    figures::Inputs inputs;
    inputs.add("input", units::Reading::exact(units::of_si<units::Power>(333 * kbtu_per_hour)))
        .add("efficiency", units::Reading::exact(units::Fraction::from_value(0.82)))
        .add("rise", units::Reading::exact(units::of_si<units::TemperatureDifference>(value(rise, "rise", 1))))
        .add("inlet_temperature",
             units::Reading::exact(units::of_si<units::Temperature>((93 + fahrenheit_zero) * fahrenheit_degree)));
    auto const flow = figures::run(models[1], inputs);
    REQUIRE(models[1].name == "heat_flow_estimate");
    CHECK(std::abs(value(flow, "flow", us_gallon / minute) / 47 - 1) <= 1e-9);
}

TEST_CASE(
    "heat_up: 925 gal by 36 F with 400 kBtu/h at 82 % take 0.84 h, losses that win are said (heat facts, computed)",
    "[heating]")
{
    auto const figure =
        written("heat_up", "{volume: 3500 L, from: 20 degC, to: 40 degC, input: 400 kBtu/h, efficiency: 82 %}");
    CHECK(std::abs(value(figure, "time", hour) - 0.84) <= 0.005);
    CHECK(std::abs(value(figure, "energy_used", 1) * 0.82 / value(figure, "heat_needed", 1) - 1) <= 1e-9);
    auto const cold = written(
        "heat_up", "{volume: 1500 L, from: 20 degC, to: 40 degC, input: 5.5 kW, efficiency: 100 %, loss: 6 kW}");
    CHECK(cold.why_not == "the losses take all the heat: the water never gets that warm");
}

TEST_CASE("electric_rise: 1000 L with 5.5 kW rise 4.8 K in the assumed hour (heat facts, computed)", "[heating]")
{
    auto const figure = written("electric_rise", "{volume: 1000 L, power: 5.5 kW}");
    CHECK(std::abs(value(figure, "rise", 1) - 4.8) <= 0.05);
}
