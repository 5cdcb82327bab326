// What must hold for any water, over thousands of them.
#include "catch_compat.hpp"
#include "water_row.hpp"

#include "padwalk/numerics/quasi_random.hpp"

using namespace padwalk;
using namespace padwalk::chemistry;
using namespace padwalk::tests;

namespace
{

Equilibria const& engine(std::size_t which)
{
    static reference::Data const data = reference::Data::built_in();
    static Equilibria const all[] = {Equilibria(data, CarbonateSet::plummer_busenberg, CyanurateSet::obrien),
                                     Equilibria(data, CarbonateSet::phreeqc, CyanurateSet::obrien),
                                     Equilibria(data, CarbonateSet::phreeqc, CyanurateSet::wahman)};
    return all[which % 3];
}

/// Waters from thin to strong, spread evenly over what pools, spas, wells and mistakes hold.
class Waters
{
public:
    WaterReadings next()
    {
        auto const u = sequence_.next();
        auto between = [&](std::size_t k, double low, double high) { return low + (high - low) * u[k]; };
        auto some = [&](std::size_t k, double high) { return u[k] < 0.4 ? 0.0 : (u[k] - 0.4) / 0.6 * high; };
        WaterReadings r;
        r.temperature = celsius(between(0, 0.5, 60));
        r.ph = units::Ph::from_value(between(1, 6.0, 9.5));
        r.alkalinity = mg_per_litre<units::AsCalciumCarbonate>(between(2, 5, 400));
        r.calcium = mg_per_litre<units::AsCalciumCarbonate>(between(3, 1, 1500));
        r.magnesium = mg_per_litre<units::AsCalciumCarbonate>(some(4, 500));
        r.salt = mg_per_litre<units::AsSodiumChloride>(between(5, 0, 8000));
        r.sulfate = mg_per_litre<units::AsSulfate>(some(6, 1500));
        r.borate = mg_per_litre<units::AsBoron>(some(7, 80));
        r.cyanurate = mg_per_litre<units::AsCyanuricAcid>(some(8, 200));
        r.free_chlorine = mg_per_litre<units::AsChlorine>(some(9, 25));
        return r;
    }

    /// Those that exist: alkalinity enough for their cyanurate and borate.
    template <class Test> std::size_t each(std::size_t count, Test test)
    {
        std::size_t kept = 0;
        for (std::size_t n = 0; n < count; ++n)
        {
            auto const r = next();
            // the most that each can make at pH 9.5, its hydroxide and that of calcium and magnesium
            double const claimed = 0.78 * r.cyanurate.value() + 4.7 * r.borate.value() + 0.71 * r.free_chlorine.value();
            if (r.alkalinity.value() < claimed + (r.ph.value() > 8.5 ? 0.01 : 0.001))
                continue;
            ++kept;
            test(r, engine(n));
        }
        return kept;
    }

private:
    numerics::QuasiRandom sequence_{10};
};

// Charges by the names: 'Ca+2', 'HCO3-', 'B(OH)4-'.
double charge_of(std::string const& name)
{
    std::size_t const sign = name.find_last_of("+-");
    if (sign == std::string::npos)
        return 0;
    std::string const digits = name.substr(sign + 1);
    double const size = digits.empty() ? 1 : std::stod(digits);
    return name[sign] == '-' ? -size : size;
}

struct Held
{
    double calcium = 0, magnesium = 0, sodium = 0, chloride = 0, sulfate = 0, boron = 0, carbon = 0, rings = 0;
};

// What each species holds, written by hand from its formula and not from the engine's own table.
Held held_by(std::string const& s)
{
    Held h;
    auto has = [&](char const* part) { return s.find(part) != std::string::npos; };
    h.calcium = has("Ca") ? 1 : 0;
    h.magnesium = has("Mg") ? 1 : 0;
    h.sodium = has("Na2") ? 2 : has("Na") ? 1 : 0;
    h.chloride = s == "Cl-" ? 1 : 0;
    h.sulfate = has("(SO4)2") ? 2 : has("SO4") ? 1 : 0;
    h.boron = has("B(OH)") ? 1 : 0;
    h.carbon = s == "(CO2)2" ? 2 : has("CO3") || has("CO2") ? 1 : 0;
    h.rings = has("Cy") ? 1 : 0;
    return h;
}

} // namespace

TEST_CASE("charge and every mass balance close to 1e-9 over four thousand waters", "[chemistry][equilibria][laws]")
{
    Waters waters;
    Worst charge, mass, alkalinity;
    std::size_t const kept =
        waters.each(7000,
                    [&](WaterReadings const& r, Equilibria const& e)
                    {
                        State const s = e.at_ph(composition_of(r), r.ph);
                        auto const& t = s.composition().totals;
                        Held sum;
                        double charges = 0, all = 0;
                        for (auto const& name : s.species())
                        {
                            double const m = s.molality(name).value();
                            Held const h = held_by(name);
                            sum.calcium += h.calcium * m, sum.magnesium += h.magnesium * m, sum.sodium += h.sodium * m;
                            sum.chloride += h.chloride * m, sum.sulfate += h.sulfate * m, sum.boron += h.boron * m;
                            sum.carbon += h.carbon * m, sum.rings += h.rings * m;
                            charges += charge_of(name) * m, all += std::abs(charge_of(name)) * m;
                        }
                        charge.see(charges / all, 0);
                        auto close = [&](double ours, units::Molality total)
                        {
                            if (total.value() > 0)
                                mass.see_relative(ours, total.value());
                        };
                        close(sum.calcium, t.calcium), close(sum.magnesium, t.magnesium), close(sum.sodium, t.sodium);
                        close(sum.chloride, t.chloride), close(sum.sulfate, t.sulfate), close(sum.boron, t.boron);
                        close(sum.carbon, t.carbonate), close(sum.rings, t.cyanurate);
                        auto const chlorine = s.held_chlorine() + s.hypochlorous_acid() + s.hypochlorite();
                        close(chlorine.value(), t.chlorine);
                        auto const parts = s.carbonate_alkalinity() + s.cyanurate_alkalinity() + s.borate_alkalinity() +
                                           s.hypochlorite_alkalinity();
                        alkalinity.see_relative(parts.value(), t.alkalinity.value());
                    });
    CHECK(kept > 4000);
    CHECK(charge.value() < 1e-9);
    CHECK(mass.value() < 1e-9);
    CHECK(alkalinity.value() < 1e-9);
}

TEST_CASE("pH to totals and totals to pH are each other's inverse", "[chemistry][equilibria][laws]")
{
    Waters waters;
    Worst ph, index;
    waters.each(2048,
                [&](WaterReadings const& r, Equilibria const& e)
                {
                    State const s = e.at_ph(composition_of(r), r.ph);
                    State const back = e.of(s.composition());
                    ph.see(back.ph().value(), r.ph.value());
                    index.see(back.saturation(Mineral::calcite), s.saturation(Mineral::calcite));
                    State const near = e.of(s.composition(), s);
                    ph.see(near.ph().value(), r.ph.value());
                });
    CHECK(ph.value() < 1e-8);
    CHECK(index.value() < 1e-8);
}

TEST_CASE("the index of calcite rises with pH, calcium, and warmth in a closed vessel, and falls with salt",
          "[chemistry][equilibria][laws]")
{
    Waters waters;
    waters.each(1024,
                [&](WaterReadings const& r, Equilibria const& e)
                {
                    if (r.ph.value() > 8.6)
                        return; // where carbonate itself pairs away, salt and warmth may go either way
                    auto index = [&](WaterReadings const& w)
                    { return e.at_ph(composition_of(w), w.ph).saturation(Mineral::calcite); };
                    double const here = index(r);
                    auto more = r;
                    more.ph = units::Ph::from_value(r.ph.value() + 0.05);
                    CHECK(index(more) > here);
                    more = r;
                    more.calcium = r.calcium * 1.1;
                    CHECK(index(more) > here);
                    more = r;
                    more.salt = r.salt + mg_per_litre<units::AsSodiumChloride>(500);
                    CHECK(index(more) < here);
                    Composition warm = e.at_ph(composition_of(r), r.ph).composition();
                    if (r.free_chlorine.value() > 0 || r.cyanurate.value() > 0 || r.borate.value() > 0 ||
                        r.sulfate.value() > 0 || r.magnesium.value() > 0 || r.ph.value() > 8)
                        return; // acids of their own shift pH as they warm, pairs of sulfate bind more calcium
                    warm.temperature = warm.temperature + units::TemperatureDifference::from_value(5);
                    CHECK(e.of(warm).saturation(Mineral::calcite) > here);
                });
}

TEST_CASE("carbon dioxide moves pH and no alkalinity, and its own pressure is what was asked",
          "[chemistry][equilibria][laws]")
{
    Waters waters;
    waters.each(1024,
                [&](WaterReadings const& r, Equilibria const& e)
                {
                    auto const water = e.at_ph(composition_of(r), r.ph).composition();
                    State const thin = e.at_co2(water, -3.4), thick = e.at_co2(water, -2.0);
                    CHECK(thin.ph().value() > thick.ph().value());
                    CHECK(thin.composition().totals.alkalinity == water.totals.alkalinity);
                    CHECK_THAT(thick.log_co2_pressure(), Catch::Matchers::WithinAbs(-2.0, 1e-9));
                });
}

TEST_CASE("calcite forms or dissolves until just saturated, and what is then added back returns the water",
          "[chemistry][equilibria][laws]")
{
    Waters waters;
    Worst index, ph;
    waters.each(1024,
                [&](WaterReadings const& r, Equilibria const& e)
                {
                    State const s = e.at_ph(composition_of(r), r.ph);
                    State const after = e.at_calcite(s.composition());
                    index.see(e.of(after.composition()).saturation(Mineral::calcite), 0);
                    auto const formed = s.composition().totals.calcium - after.composition().totals.calcium;
                    CHECK((formed.value() > 0) == (s.saturation(Mineral::calcite) > 0));
                    Composition back = after.composition();
                    back.totals.calcium = back.totals.calcium + formed;
                    back.totals.carbonate = back.totals.carbonate + formed;
                    back.totals.alkalinity = back.totals.alkalinity + 2.0 * formed;
                    ph.see(e.of(back).ph().value(), r.ph.value());
                });
    CHECK(index.value() < 1e-8);
    CHECK(ph.value() < 1e-7);
}

TEST_CASE("a dose and its undoing return, splitting a dose changes nothing, heating and cooling return",
          "[chemistry][equilibria][laws]")
{
    Waters waters;
    Worst ph;
    waters.each(1024,
                [&](WaterReadings const& r, Equilibria const& e)
                {
                    Composition const water = e.at_ph(composition_of(r), r.ph).composition();
                    Totals dose; // bicarbonate and acid
                    dose.sodium = units::Molality::from_value(1e-3);
                    dose.carbonate = dose.sodium;
                    dose.alkalinity = units::Molality::from_value(0.6e-3);
                    dose.chloride = units::Molality::from_value(0.4e-3);
                    Composition const once{water.totals + dose, water.temperature};
                    Composition const twice{water.totals + dose * 0.3 + dose * 0.7, water.temperature};
                    ph.see(e.of(twice).ph().value(), e.of(once).ph().value());
                    ph.see(e.of({once.totals - dose, water.temperature}).ph().value(), r.ph.value());
                    Composition hot = water;
                    hot.temperature = celsius(75);
                    Composition cold = e.of(hot).composition();
                    cold.temperature = water.temperature;
                    ph.see(e.of(cold).ph().value(), r.ph.value());
                    State const acid = e.titrated(water, units::Ph::from_value(r.ph.value() - 0.5));
                    CHECK(std::abs(charge_imbalance(acid.composition().totals).value()) < 1e-12);
                    State const again = e.of(acid.composition());
                    ph.see(again.ph().value(), r.ph.value() - 0.5);
                });
    CHECK(ph.value() < 1e-7);
}

TEST_CASE("readings become totals and totals the same readings", "[chemistry][composition]")
{
    Waters waters;
    waters.each(512,
                [&](WaterReadings const& r, Equilibria const&)
                {
                    auto const back = readings_of(composition_of(r), r.ph);
                    CHECK_THAT(back.salt.value(), Catch::Matchers::WithinAbs(r.salt.value(), 1e-12));
                    CHECK_THAT(back.calcium.value(), Catch::Matchers::WithinAbs(r.calcium.value(), 1e-12));
                    CHECK_THAT(back.alkalinity.value(), Catch::Matchers::WithinAbs(r.alkalinity.value(), 1e-12));
                    CHECK_THAT(back.sulfate.value(), Catch::Matchers::WithinAbs(r.sulfate.value(), 1e-12));
                    CHECK(std::abs(charge_imbalance(composition_of(r).totals).value()) < 1e-15);
                });
}
