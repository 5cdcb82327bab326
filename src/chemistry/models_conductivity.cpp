#include "models_sanitizer.hpp"

#include "padwalk/chemistry/conductivity.hpp"
#include "padwalk/numerics/number_text.hpp"

#include <cmath>
#include <memory>

namespace padwalk::chemistry
{
namespace
{

using fields::Record;

struct ConductivityInput
{
    units::Conductivity conductivity{};
    units::AsCalciumCarbonate alkalinity{}, calcium{}, magnesium{};
    units::Ph ph{};
    units::AsSulfate sulfate{};
    units::AsBoron borate{};
    units::AsCyanuricAcid cyanurate{};
    units::AsChlorine free_chlorine{};
    units::Number theory_doubt{};

    static Record<ConductivityInput> const& declaration()
    {
        using I = ConductivityInput;
        static Record<I> const record =
            Record<I>("conductivity_salt", "salt from what a meter of conductivity shows")
                .field("conductivity", &I::conductivity, "as the meter shows it, compensated to 25 °C as most are")
                .required()
                .within("1 uS/cm", "60000 uS/cm")
                .like("3200 uS/cm")
                .field("alkalinity", &I::alkalinity, "total alkalinity as the kit reads it")
                .required()
                .within("0 ppm", "2000 ppm")
                .field("calcium", &I::calcium, "calcium hardness, not total hardness")
                .required()
                .within("0 ppm", "10000 ppm")
                .field("magnesium", &I::magnesium, "magnesium hardness: total less calcium hardness")
                .otherwise("30 ppm ± 30 ppm", "some comes with most fill water")
                .within("0 ppm", "10000 ppm")
                .field("ph", &I::ph, "pH of the water")
                .otherwise("7.6 ± 0.4", "it hardly counts")
                .within("6", "10")
                .field("sulfate", &I::sulfate, "sulfate")
                .otherwise("50 ppm ± 50 ppm", "some comes with fill water, more with dry acid")
                .within("0 ppm", "10000 ppm")
                .field("borate", &I::borate, "borate as boron")
                .otherwise("0 ppm", "borate is seldom added to a pool")
                .within("0 ppm", "500 ppm")
                .field("cyanurate", &I::cyanurate, "cyanurate (stabilizer)")
                .otherwise("0 ppm", "no cyanurate reading; it counts little")
                .within("0 ppm", "1000 ppm")
                .field("free_chlorine", &I::free_chlorine, "free chlorine")
                .otherwise("2 ppm", "it counts little")
                .within("0 ppm", "100 ppm")
                .field("theory_doubt", &I::theory_doubt, "what the computed conductivity may be off by, as a share")
                .otherwise("0 ± 0.04", "within 2 % of salt solutions, 5 % with much sulfate")
                .within("-0.2", "0.2");
        return record;
    }
};

struct ConductivityOutput
{
    units::AsSodiumChloride salt{};
    units::AsItself dissolved_solids{};
    units::Conductivity without_salt{};
    units::AsCalciumCarbonate total_hardness{};
    std::string in_words;

    static Record<ConductivityOutput> const& declaration()
    {
        using O = ConductivityOutput;
        static Record<O> const record =
            Record<O>("conductivity_salt", "what the water holds, by its conductivity")
                .field("salt", &O::salt, "salt, beside what comes with hardness and alkalinity")
                .field("dissolved_solids", &O::dissolved_solids, "all that would stay if the water were dried")
                .field("without_salt", &O::without_salt, "conductivity of the other readings alone")
                .field("total_hardness", &O::total_hardness, "calcium and magnesium hardness")
                .field("in_words", &O::in_words, "what that says");
        return record;
    }
};

WaterReadings readings(ConductivityInput const& in)
{
    WaterReadings r;
    r.temperature = units::of_si<units::Temperature>(298.15); // the meter's own reference
    r.ph = in.ph;
    r.alkalinity = in.alkalinity;
    r.calcium = in.calcium;
    r.magnesium = in.magnesium;
    r.sulfate = in.sulfate;
    r.borate = in.borate;
    r.cyanurate = in.cyanurate;
    r.free_chlorine = in.free_chlorine;
    return r;
}

ConductivityOutput computed(Equilibria const& equilibria, ConductivityTable const& table, ConductivityInput const& in)
{
    WaterReadings r = readings(in);
    auto const off = 1 + in.theory_doubt.value();
    ConductivityOutput out;
    out.without_salt = specific_conductance(equilibria.at_ph(composition_of(r), r.ph), table) * off;
    out.salt = salt_to_fit(equilibria, r, in.conductivity / off, table);
    r.salt = out.salt;
    out.dissolved_solids = dissolved_solids(r);
    out.total_hardness = in.calcium + in.magnesium;
    out.in_words = "about " + std::to_string(10 * std::lround(units::in_si(out.salt) * 100)) +
                   " ppm of salt fits; hardness, alkalinity and the rest make " +
                   numerics::number_text(100 * (out.without_salt / in.conductivity).value(), 2) +
                   " % of the conductivity";
    return out;
}

} // namespace

figures::Model conductivity_model(reference::Data const& data)
{
    return figures::model<ConductivityInput, ConductivityOutput>(
        {.name = "conductivity_salt",
         .title = "salt and dissolved solids from conductivity and the other readings",
         .equation =
             "conductivity = sum of |z| x limiting conductivity x molality x activity coefficient^(0.6/sqrt|z|) "
             "over the ions; the salt that makes it equal to the reading",
         .valid = "meters compensated to 25 °C; up to 35000 mg/L of salt. Limiting conductivities are handbook figures "
                  "from memory; they meet the conductivities of sodium and calcium chloride within 1.5 %",
         .sources = {"ion-conductivities", "appelo-2010"}},
        [equilibria = std::make_shared<Equilibria const>(data),
         table = conductivity_table(data)](ConductivityInput const& in) { return computed(*equilibria, table, in); });
}

} // namespace padwalk::chemistry
