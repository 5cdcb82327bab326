#include "model_groups.hpp"

#include "padwalk/chemistry/alkalinity.hpp"
#include "padwalk/chemistry/chlorine.hpp"
#include "padwalk/chemistry/limits.hpp"
#include "padwalk/chemistry/saturation_handbook.hpp"

namespace padwalk::chemistry
{
namespace
{

enum class AlkalinityUsed
{
    carbonate,
    total
};

} // namespace
} // namespace padwalk::chemistry

template <> struct padwalk::fields::words_of<padwalk::chemistry::AlkalinityUsed>
{
    static std::vector<std::string> words() { return {"carbonate", "total"}; }
};

namespace padwalk::chemistry
{
namespace
{

using fields::Record;

constexpr char no_cyanurate[] =
    "no cyanurate reading; with stabilized chlorine in use the true carbonate alkalinity and index are lower";
constexpr char no_borate[] = "borate is seldom added to a pool";

struct SaturationInput
{
    units::Ph ph{};
    units::Temperature water_temperature{};
    units::AsCalciumCarbonate alkalinity{};
    units::AsCalciumCarbonate calcium{};
    units::AsCyanuricAcid cyanurate{};
    units::AsBoron borate{};
    units::AsItself dissolved_solids{};
    AlkalinityUsed alkalinity_used = AlkalinityUsed::carbonate;
    units::PhDifference table_doubt{};

    static Record<SaturationInput> const& declaration()
    {
        static Record<SaturationInput> const record =
            Record<SaturationInput>("saturation_handbook",
                                    "the saturation index as codes and courses work it out by hand")
                .field("ph", &SaturationInput::ph, "pH of the water")
                .required()
                .within("3", "11")
                .field("water_temperature", &SaturationInput::water_temperature, "temperature of the water")
                .required()
                .within("32 degF", "140 degF")
                .field("alkalinity", &SaturationInput::alkalinity, "total alkalinity as the kit reads it")
                .required()
                .within("0 ppm", "2000 ppm")
                .field("calcium", &SaturationInput::calcium, "calcium hardness, not total hardness")
                .required()
                .within("0 ppm", "10000 ppm")
                .field("cyanurate", &SaturationInput::cyanurate, "cyanurate (stabilizer)")
                .otherwise("0 ppm", no_cyanurate)
                .within("0 ppm", "1000 ppm")
                .field("borate", &SaturationInput::borate, "borate as boron")
                .otherwise("0 ppm", no_borate)
                .within("0 ppm", "500 ppm")
                .field("dissolved_solids", &SaturationInput::dissolved_solids, "total dissolved solids, salt included")
                .otherwise("800 ppm ± 600 ppm",
                           "usual in pools without a salt chlorinator; with one it is several thousand")
                .within("0 ppm", "50000 ppm")
                .field("alkalinity_used", &SaturationInput::alkalinity_used,
                       "carbonate alkalinity as the trade standard has it, or total as state codes do")
                .otherwise("carbonate",
                           "only carbonate makes scale; cyanurate and borate count in the test and not in the scale")
                .field("table_doubt", &SaturationInput::table_doubt, "what the hand method itself may be off by")
                .otherwise("0 ± 0.1", "within 0.1 of exact chemistry in warm water with ordinary salt; below 70 °F it "
                                      "lies 0.1 to 0.35 too low, in salt water up to 0.18 too high")
                .within("-0.5", "0.5");
        return record;
    }
};

struct SaturationOutput
{
    units::Number handbook_index{};
    std::optional<units::AsCalciumCarbonate> carbonate_alkalinity;
    units::Ph saturation_ph{};
    units::Number temperature_factor{};
    units::Number calcium_factor{};
    units::Number alkalinity_factor{};
    units::Number constant{};
    std::string in_words;

    static Record<SaturationOutput> const& declaration()
    {
        static Record<SaturationOutput> const record =
            Record<SaturationOutput>("saturation_handbook", "the index and its parts")
                .field("handbook_index", &SaturationOutput::handbook_index, "saturation index by the hand method")
                .field("carbonate_alkalinity", &SaturationOutput::carbonate_alkalinity,
                       "alkalinity left to carbonate, where that was used")
                .field("saturation_ph", &SaturationOutput::saturation_ph, "pH at which the index would be zero")
                .field("temperature_factor", &SaturationOutput::temperature_factor, "TF")
                .field("calcium_factor", &SaturationOutput::calcium_factor, "CF")
                .field("alkalinity_factor", &SaturationOutput::alkalinity_factor, "AF")
                .field("constant", &SaturationOutput::constant, "K")
                .field("in_words", &SaturationOutput::in_words, "corrosive, balanced or scaling");
        return record;
    }
};

figures::Model saturation_model(reference::Data const& data)
{
    return figures::model<SaturationInput, SaturationOutput>(
        {.name = "saturation_handbook",
         .title = "saturation index by the hand method of state codes",
         .equation =
             "index = pH + TF + CF + AF - K, straight lines between the rows of the table; AF from carbonate "
             "alkalinity, "
             "or from total alkalinity as the codes have it; K 12.1 up to 1000 mg/L of dissolved solids, 12.2 above",
         .valid = "32 to 128 °F; calcium hardness and the alkalinity used 5 to 1000 mg/L; dissolved solids to 6000 "
                  "mg/L; with cyanurate, "
                  "pH 6.8 to 8.2. The method's own doubt enters as the input table_doubt: 0.1 holds in warm water with "
                  "ordinary salt. Below 70 °F "
                  "the index is 0.1 to 0.35 too low, from 2500 mg/L of salt 0.04 to 0.18 too high",
         .sources = {"ny-10-nycrr-6-1-30", "montana-arm-37-115", "trade-newspaper-index-band",
                     "cyanurate-factor-trade-page", "phreeqc-dat-borate"},
         .cautions = {},
         .own_doubt = 0.0},
        [handbook = handbook_table(data), factors = alkalinity_table(data)](SaturationInput const& in)
        {
            std::optional<units::AsCalciumCarbonate> carbonate;
            if (in.alkalinity_used == AlkalinityUsed::carbonate)
                carbonate =
                    carbonate_alkalinity(in.alkalinity, in.ph, in.cyanurate, in.borate, in.water_temperature, factors)
                        .carbonate;
            auto const used = carbonate.value_or(in.alkalinity);
            auto const r =
                handbook_index({in.ph, in.water_temperature, used, in.calcium, in.dissolved_solids}, handbook);
            auto const index = r.index + units::Number(in.table_doubt.plain());
            return SaturationOutput{index,
                                    carbonate,
                                    r.saturation_ph - in.table_doubt,
                                    r.temperature_factor,
                                    r.calcium_factor,
                                    r.alkalinity_factor,
                                    r.constant,
                                    index_in_words(index, handbook.band)};
        });
}

struct CarbonateInput
{
    units::AsCalciumCarbonate alkalinity{};
    units::Ph ph{};
    units::AsCyanuricAcid cyanurate{};
    units::AsBoron borate{};
    units::Temperature water_temperature{};

    static Record<CarbonateInput> const& declaration()
    {
        static Record<CarbonateInput> const record =
            Record<CarbonateInput>("carbonate_alkalinity", "the part of an alkalinity reading that is carbonate")
                .field("alkalinity", &CarbonateInput::alkalinity, "total alkalinity as the kit reads it")
                .required()
                .within("0 ppm", "2000 ppm")
                .field("ph", &CarbonateInput::ph, "pH of the water")
                .required()
                .within("3", "11")
                .field("cyanurate", &CarbonateInput::cyanurate, "cyanurate (stabilizer)")
                .otherwise("0 ppm", no_cyanurate)
                .within("0 ppm", "1000 ppm")
                .field("borate", &CarbonateInput::borate, "borate as boron")
                .otherwise("0 ppm", no_borate)
                .within("0 ppm", "500 ppm")
                .field("water_temperature", &CarbonateInput::water_temperature, "temperature of the water")
                .otherwise("77 degF", "where the acid constants are known best; it only moves the part of borate, by a "
                                      "quarter up to 104 °F")
                .within("32 degF", "140 degF");
        return record;
    }
};

struct CarbonateOutput
{
    units::AsCalciumCarbonate carbonate_alkalinity{};
    units::AsCalciumCarbonate cyanurate_part{};
    units::AsCalciumCarbonate borate_part{};

    static Record<CarbonateOutput> const& declaration()
    {
        static Record<CarbonateOutput> const record =
            Record<CarbonateOutput>("carbonate_alkalinity", "alkalinity by what it belongs to")
                .field("carbonate_alkalinity", &CarbonateOutput::carbonate_alkalinity, "alkalinity left to carbonate")
                .field("cyanurate_part", &CarbonateOutput::cyanurate_part, "what cyanurate adds to the reading")
                .field("borate_part", &CarbonateOutput::borate_part, "what borate adds to the reading");
        return record;
    }
};

figures::Model carbonate_model(reference::Data const& data)
{
    return figures::model<CarbonateInput, CarbonateOutput>(
        {.name = "carbonate_alkalinity",
         .title = "the part of an alkalinity reading that is carbonate",
         .equation = "carbonate = alkalinity - f(pH) cyanurate - g(pH, temperature) borate; f from a published table, "
                     "g = M(CaCO3)/(2 M(B)) / (1 + 10^(pK' - pH)) with boric acid's own pK'",
         .valid =
             "with cyanurate pH 6.8 to 8.2, with borate pH 6 to 9 and 0 to 60 °C. The published borate figure of 0.17 "
             "at pH 7.6 is not "
             "used: boric acid's constant gives 0.116. Own doubt 1 %: f is within 0.02 of computed factors (judgement)",
         .sources = {"cyanurate-factor-trade-page", "wahman-2018", "phreeqc-dat-borate", "trade-newspaper-alkalinity"},
         .cautions = {},
         .own_doubt = 0.01},
        [factors = alkalinity_table(data)](CarbonateInput const& in)
        {
            auto const parts =
                carbonate_alkalinity(in.alkalinity, in.ph, in.cyanurate, in.borate, in.water_temperature, factors);
            return CarbonateOutput{parts.carbonate, parts.cyanurate, parts.borate};
        });
}

struct CombinedInput
{
    units::AsChlorine total_chlorine{};
    units::AsChlorine free_chlorine{};

    static Record<CombinedInput> const& declaration()
    {
        static Record<CombinedInput> const record =
            Record<CombinedInput>("combined_chlorine", "chlorine bound to what bathers leave")
                .field("total_chlorine", &CombinedInput::total_chlorine, "total chlorine")
                .required()
                .within("0 ppm", "200 ppm")
                .field("free_chlorine", &CombinedInput::free_chlorine, "free chlorine, same kit, same sample")
                .required()
                .within("0 ppm", "200 ppm");
        return record;
    }
};

struct CombinedOutput
{
    units::AsChlorine combined{};
    std::string in_words;

    static Record<CombinedOutput> const& declaration()
    {
        static Record<CombinedOutput> const record =
            Record<CombinedOutput>("combined_chlorine", "the difference and what it says")
                .field("combined", &CombinedOutput::combined, "combined chlorine; a little below zero is reading error")
                .field("in_words", &CombinedOutput::in_words, "how much that is");
        return record;
    }
};

figures::Model combined_model(std::vector<WorkingBand> bands)
{
    return figures::model<CombinedInput, CombinedOutput>(
        {.name = "combined_chlorine",
         .title = "combined chlorine",
         .equation = "combined = total chlorine - free chlorine",
         .valid = "both from one kit and one sample. A small difference of two readings: its doubt is that of both "
                  "together. Not clamped: below zero means that the readings contradict each other",
         .sources = {"montana-arm-37-115", "logan-qld-pools", "utah-r392-302-27"},
         .cautions = {},
         .own_doubt = 0.0},
        [bands = std::move(bands)](CombinedInput const& in)
        {
            auto const combined = combined_chlorine(in.total_chlorine, in.free_chlorine);
            return CombinedOutput{combined, combined_in_words(combined, bands)};
        });
}

struct RatioInput
{
    units::AsChlorine free_chlorine{};
    units::AsCyanuricAcid cyanurate{};

    static Record<RatioInput> const& declaration()
    {
        static Record<RatioInput> const record =
            Record<RatioInput>("chlorine_to_cyanurate", "free chlorine against the cyanurate that holds it back")
                .field("free_chlorine", &RatioInput::free_chlorine, "free chlorine")
                .required()
                .within("0 ppm", "200 ppm")
                .field("cyanurate", &RatioInput::cyanurate, "cyanurate (stabilizer)")
                .required()
                .within("0 ppm", "1000 ppm");
        return record;
    }
};

struct RatioOutput
{
    units::Number ratio{};
    std::string in_words;

    static Record<RatioOutput> const& declaration()
    {
        static Record<RatioOutput> const record =
            Record<RatioOutput>("chlorine_to_cyanurate", "the ratio and what it says")
                .field("ratio", &RatioOutput::ratio, "parts of cyanurate to one of free chlorine")
                .field("in_words", &RatioOutput::in_words, "against published limits");
        return record;
    }
};

figures::Model ratio_model(std::vector<WorkingBand> bands)
{
    return figures::model<RatioInput, RatioOutput>(
        {.name = "chlorine_to_cyanurate",
         .title = "cyanurate to free chlorine",
         .equation = "ratio = cyanurate / free chlorine, mg per mg",
         .valid = "free chlorine above zero; the kit counts chlorine held by cyanurate as free",
         .sources = {"cmahc-2023", "california-22-ccr-65529", "pima-az-8-32-080", "apsp-suggested-reprint"},
         .cautions = {},
         .own_doubt = 0.0},
        [bands = std::move(bands)](RatioInput const& in)
        {
            return RatioOutput{cyanurate_ratio(in.free_chlorine, in.cyanurate),
                               ratio_in_words(in.free_chlorine, in.cyanurate, bands)};
        });
}

} // namespace

std::vector<figures::Model> models(reference::Data const& data)
{
    auto const bands = working_bands(data);
    std::vector<figures::Model> out{saturation_model(data), carbonate_model(data), combined_model(bands),
                                    ratio_model(bands)};
    for (auto const& group : {water_models(data), sanitizer_models(data)})
        out.insert(out.end(), group.begin(), group.end());
    return out;
}

} // namespace padwalk::chemistry
