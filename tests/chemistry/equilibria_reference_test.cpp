// The engine against PHREEQC 3.8.8, a general geochemistry program of the US Geological Survey, on the same constants.
#include "catch_compat.hpp"
#include "water_row.hpp"

using namespace padwalk;
using namespace padwalk::chemistry;
using namespace padwalk::tests;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace
{

Equilibria const& engine(CarbonateSet carbonate, CyanurateSet cyanurate = CyanurateSet::obrien)
{
    static reference::Data const data = reference::Data::built_in();
    static Equilibria const pb(data, CarbonateSet::plummer_busenberg), ph(data, CarbonateSet::phreeqc),
        wa(data, CarbonateSet::phreeqc, CyanurateSet::wahman);
    if (cyanurate == CyanurateSet::wahman)
        return wa;
    return carbonate == CarbonateSet::phreeqc ? ph : pb;
}

constexpr double mg = 1e-3; // kg/m3

void check_saturation_table(CarbonateSet set, std::string const& table)
{
    Worst calcite, gypsum, strength, pco2, ccpp, ph_after;
    std::size_t rows = 0;
    for (auto const& row : reference_csv("chemistry/" + table))
    {
        INFO(row.text("id"));
        auto const readings = water_of(row);
        State const s = engine(set).at_ph(composition_of(readings), readings.ph);
        calcite.see(s.saturation(Mineral::calcite), row.number("si_calcite"));
        CHECK_THAT(s.saturation(Mineral::calcite), WithinAbs(row.number("si_calcite"), 0.001));
        CHECK_THAT(s.saturation(Mineral::aragonite), WithinAbs(row.number("si_aragonite"), 0.001));
        if (!row.text("si_gypsum").empty())
        {
            gypsum.see(s.saturation(Mineral::gypsum), row.number("si_gypsum"));
            CHECK_THAT(s.saturation(Mineral::gypsum), WithinAbs(row.number("si_gypsum"), 0.002));
        }
        strength.see_relative(s.ionic_strength().value(), row.number("ionic_strength"));
        CHECK_THAT(s.ionic_strength().value(), WithinRel(row.number("ionic_strength"), 2e-3));
        CHECK_THAT(s.composition().totals.carbonate.value(), WithinRel(row.number("dic_molkg"), 2e-3));
        pco2.see(s.log_co2_pressure(), row.number("log_pco2"));
        CHECK_THAT(s.log_co2_pressure(), WithinAbs(row.number("log_pco2"), 0.002));
        CHECK_THAT(s.activity_coefficient("Ca+2"), WithinRel(row.number("gamma_ca"), 2e-3));
        CHECK_THAT(s.activity_coefficient("HCO3-"), WithinRel(row.number("gamma_hco3"), 1e-3));
        CHECK_THAT(s.molality("CaCO3").value(), WithinRel(row.number("m_caco3_aq"), 5e-3));
        CHECK_THAT(s.molality("CaHCO3+").value(), WithinRel(row.number("m_cahco3"), 5e-3));
        CHECK_THAT(s.molality("B(OH)4-").value(), WithinRel(row.number("m_boh4"), 2e-3));
        State const after = engine(set).at_calcite(s.composition());
        ccpp.see(precipitation_potential(engine(set), s.composition()).value() / mg, row.number("ccpp_mgl"));
        CHECK_THAT(precipitation_potential(engine(set), s.composition()).value() / mg,
                   WithinAbs(row.number("ccpp_mgl"), 0.1));
        ph_after.see(after.ph().value(), row.number("ph_eq"));
        CHECK_THAT(after.ph().value(), WithinAbs(row.number("ph_eq"), 0.002));
        CHECK_THAT(after.saturation(Mineral::calcite), WithinAbs(0, 1e-9));
        ++rows;
    }
    CHECK(rows == 150);
    UNSCOPED_INFO(table << ": worst calcite " << calcite.value() << ", gypsum " << gypsum.value() << ", ionic strength "
                        << strength.value() << ", log pCO2 " << pco2.value() << ", potential " << ccpp.value()
                        << " mg/L, pH after " << ph_after.value());
    CHECK(calcite.value() < 0.001);
}

void check_heating_table(CarbonateSet set, std::string const& table)
{
    Worst ph, calcite;
    for (auto const& row : reference_csv("chemistry/" + table))
    {
        INFO(row.text("id"));
        auto const readings = water_of(row);
        Composition warm = engine(set).at_ph(composition_of(readings), readings.ph).composition();
        warm.temperature = celsius(row.number("t1_c"));
        State const s = engine(set).of(warm);
        ph.see(s.ph().value(), row.number("ph1"));
        calcite.see(s.saturation(Mineral::calcite), row.number("si_calcite_t1"));
        CHECK_THAT(s.ph().value(), WithinAbs(row.number("ph1"), 0.001));
        CHECK_THAT(s.saturation(Mineral::calcite), WithinAbs(row.number("si_calcite_t1"), 0.001));
        CHECK_THAT(s.saturation(Mineral::aragonite), WithinAbs(row.number("si_aragonite_t1"), 0.001));
        CHECK_THAT(s.log_co2_pressure(), WithinAbs(row.number("log_pco2_t1"), 0.002));
        CHECK_THAT(precipitation_potential(engine(set), warm).value() / mg, WithinAbs(row.number("ccpp_t1_mgl"), 0.1));
    }
    UNSCOPED_INFO(table << ": worst pH " << ph.value() << ", calcite " << calcite.value());
    CHECK(ph.value() < 0.001);
}

// What the table's dose does to a composition.
Composition dosed(Composition water, CsvRow const& row)
{
    auto const amount = units::Molality::from_value(row.number("reagent_mmolkg") * 1e-3);
    std::string const& dose = row.text("dose");
    Totals& t = water.totals;
    if (dose == "nahco3")
        t.sodium = t.sodium + amount, t.alkalinity = t.alkalinity + amount, t.carbonate = t.carbonate + amount;
    else if (dose == "na2co3")
        t.sodium = t.sodium + 2.0 * amount, t.alkalinity = t.alkalinity + 2.0 * amount,
        t.carbonate = t.carbonate + amount;
    else if (dose == "cacl2")
        t.calcium = t.calcium + amount, t.chloride = t.chloride + 2.0 * amount;
    else if (dose == "hcl_to_ph")
        t.chloride = t.chloride + amount, t.alkalinity = t.alkalinity - amount;
    else
        t.carbonate = t.carbonate + amount;
    return water;
}

void check_dosing_table(CarbonateSet set, std::string const& table)
{
    Worst ph, calcite;
    for (auto const& row : reference_csv("chemistry/" + table))
    {
        INFO(row.text("id") << " " << row.text("dose"));
        auto const readings = water_of(row);
        Composition const before = engine(set).at_ph(composition_of(readings), readings.ph).composition();
        State const s = engine(set).of(dosed(before, row));
        ph.see(s.ph().value(), row.number("ph1"));
        calcite.see(s.saturation(Mineral::calcite), row.number("si_calcite_1"));
        CHECK_THAT(s.ph().value(), WithinAbs(row.number("ph1"), 0.002));
        CHECK_THAT(s.saturation(Mineral::calcite), WithinAbs(row.number("si_calcite_1"), 0.002));
        CHECK_THAT(alkalinity(s.composition().totals.alkalinity).value() / mg, WithinAbs(row.number("alk1_mgl"), 0.05));
        CHECK_THAT(s.ionic_strength().value(), WithinRel(row.number("ionic_strength_1"), 2e-3));
        if (row.text("dose") == "hcl_to_ph")
        { // how much acid that pH takes
            State const t = engine(set).titrated(before, units::Ph::from_value(row.number("dose_param")));
            CHECK_THAT((before.totals.alkalinity - t.composition().totals.alkalinity).value() * 1e3,
                       WithinAbs(row.number("reagent_mmolkg"), 5e-4));
        }
        if (row.text("dose") == "co2_equil")
        {
            State const t = engine(set).at_co2(before, row.number("dose_param"));
            CHECK_THAT(t.ph().value(), WithinAbs(row.number("ph1"), 0.001));
            CHECK_THAT(t.log_co2_pressure(), WithinAbs(row.number("log_pco2_1"), 1e-9));
        }
    }
    UNSCOPED_INFO(table << ": worst pH " << ph.value() << ", calcite " << calcite.value());
    CHECK(ph.value() < 0.002);
}

} // namespace

TEST_CASE("PHREEQC 3.8.8 wateq4f.dat gives the same 150 waters with the constants of Plummer and Busenberg 1982",
          "[chemistry][equilibria][wateq4f-dat]")
{
    check_saturation_table(CarbonateSet::plummer_busenberg, "si_calcite_plummer_busenberg.csv");
}

TEST_CASE("PHREEQC 3.8.8 phreeqc.dat gives the same 150 waters with its own constants",
          "[chemistry][equilibria][phreeqc-dat-388]")
{
    check_saturation_table(CarbonateSet::phreeqc, "si_calcite_phreeqc_3.8.8.csv");
}

TEST_CASE("PHREEQC 3.8.8 heats 40 waters in a closed system to the same pH and saturation in either set",
          "[chemistry][equilibria][wateq4f-dat]")
{
    check_heating_table(CarbonateSet::plummer_busenberg, "heating_plummer_busenberg.csv");
    check_heating_table(CarbonateSet::phreeqc, "heating_phreeqc_3.8.8.csv");
}

TEST_CASE("PHREEQC 3.8.8 doses and aerates 40 waters to the same pH and saturation in either set",
          "[chemistry][equilibria][phreeqc-dat-388]")
{
    check_dosing_table(CarbonateSet::plummer_busenberg, "dosing_plummer_busenberg.csv");
    check_dosing_table(CarbonateSet::phreeqc, "dosing_phreeqc_3.8.8.csv");
}

TEST_CASE("PHREEQC 3.8.8 with O'Brien's constants finds the same chlorine and cyanurate in 60 waters",
          "[chemistry][equilibria][obrien-1974]")
{
    Worst hocl, calcite;
    for (auto const& row : reference_csv("chemistry/cyanurate.csv"))
    {
        INFO(row.text("id"));
        WaterReadings r;
        r.temperature = celsius(row.number("temp_c"));
        r.ph = units::Ph::from_value(row.number("ph"));
        r.alkalinity = mg_per_litre<units::AsCalciumCarbonate>(row.number("ta_mgl"));
        r.calcium = mg_per_litre<units::AsCalciumCarbonate>(row.number("ch_mgl"));
        r.salt = mg_per_litre<units::AsSodiumChloride>(row.number("nacl_mgl"));
        r.cyanurate = mg_per_litre<units::AsCyanuricAcid>(row.number("cya_mgl"));
        r.free_chlorine = mg_per_litre<units::AsChlorine>(row.number("fc_mgl"));
        auto const water = composition_of(r);
        State const s = engine(CarbonateSet::phreeqc).at_ph(water, r.ph);
        hocl.see_relative(as_chlorine(s.hypochlorous_acid()).value() / mg, row.number("hocl_mgl"));
        CHECK_THAT(as_chlorine(s.hypochlorous_acid()).value() / mg, WithinRel(row.number("hocl_mgl"), 2e-3));
        CHECK_THAT(as_chlorine(s.hypochlorite()).value() / mg, WithinRel(row.number("ocl_mgl"), 2e-3));
        CHECK_THAT(as_chlorine(s.molality("HClCy-")).value() / mg, WithinRel(row.number("hclcy_mgl"), 2e-3));
        CHECK_THAT(as_chlorine(s.molality("H2ClCy")).value() / mg, WithinRel(row.number("h2clcy_mgl"), 2e-3));
        CHECK_THAT(as_chlorine(s.molality("ClCy-2")).value() / mg, WithinRel(row.number("clcy_mgl"), 3e-3));
        CHECK_THAT(2 * as_chlorine(s.molality("Cl2Cy-")).value() / mg, WithinRel(row.number("cl2cy_mgl"), 3e-3));
        CHECK_THAT(2 * as_chlorine(s.molality("HCl2Cy")).value() / mg, WithinRel(row.number("hcl2cy_mgl"), 4e-3));
        CHECK_THAT(3 * as_chlorine(s.molality("Cl3Cy")).value() / mg, WithinRel(row.number("cl3cy_mgl"), 5e-3));
        CHECK_THAT(s.molality("H2Cy-").value(), WithinRel(row.number("h2cy_molkg"), 2e-3));
        CHECK_THAT(s.molality("Cy-3").value(), WithinRel(row.number("cy_molkg"), 1e-2));
        CHECK_THAT(alkalinity(s.cyanurate_alkalinity()).value() / mg, WithinAbs(row.number("cya_alk_mgl"), 0.02));
        CHECK_THAT(alkalinity(s.carbonate_alkalinity()).value() / mg, WithinAbs(row.number("carb_alk_mgl"), 0.02));
        calcite.see(s.saturation(Mineral::calcite), row.number("si_calcite"));
        CHECK_THAT(s.saturation(Mineral::calcite), WithinAbs(row.number("si_calcite"), 0.001));
        State const second = engine(CarbonateSet::phreeqc, CyanurateSet::wahman).at_ph(water, r.ph);
        CHECK_THAT(as_chlorine(second.hypochlorous_acid()).value() / mg,
                   WithinRel(row.number("hocl_wa2019_mgl"), 2e-3));
        CHECK_THAT(alkalinity(second.cyanurate_alkalinity()).value() / mg,
                   WithinAbs(row.number("cya_alk_wa2019_mgl"), 0.02));
    }
    UNSCOPED_INFO("worst HOCl " << hocl.value() << ", calcite " << calcite.value());
    CHECK(hocl.value() < 2e-3);
}
