#include "model_groups.hpp"

#include "padwalk/level/evaporation.hpp"
#include "padwalk/level/loss.hpp"
#include "padwalk/physics/water.hpp"

namespace padwalk::level
{
namespace
{

using fields::Record;

struct BucketInput
{
    units::Length pool_drop{};
    units::Length bucket_drop{};
    units::Duration elapsed{};
    std::optional<units::Area> area;

    static Record<BucketInput> const& declaration()
    {
        static Record<BucketInput> const record =
            Record<BucketInput>("bucket_test",
                                "a bucket of pool water on a step beside the pool's own level, both marked")
                .field("pool_drop", &BucketInput::pool_drop, "fall of the pool's level")
                .required()
                .within("-12 in", "60 in")
                .field("bucket_drop", &BucketInput::bucket_drop, "fall of the level in the bucket")
                .required()
                .within("-12 in", "24 in")
                .field("elapsed", &BucketInput::elapsed, "time between the marks")
                .required()
                .within("1 h", "60 day")
                .field("area", &BucketInput::area, "surface of the water; without it there is no volume")
                .within("5 ft2", "100000 ft2");
        return record;
    }
};

struct BucketOutput
{
    std::optional<units::VolumeFlow> leak_rate;
    units::Velocity leak_drop_rate{};
    std::string in_words;

    static Record<BucketOutput> const& declaration()
    {
        static Record<BucketOutput> const record =
            Record<BucketOutput>("bucket_test", "what the pool lost beyond the bucket")
                .field("leak_rate", &BucketOutput::leak_rate, "water lost beyond evaporation")
                .shown_in("gal/day", "L/day")
                .field("leak_drop_rate", &BucketOutput::leak_drop_rate, "fall of the level beyond evaporation")
                .shown_in("in/day", "mm/day")
                .field("in_words", &BucketOutput::in_words, "what that says");
        return record;
    }
};

struct LossInput
{
    units::Length drop{};
    units::Duration elapsed{};
    std::optional<units::Area> area;
    std::optional<units::Velocity> evaporation;

    static Record<LossInput> const& declaration()
    {
        static Record<LossInput> const record =
            Record<LossInput>("level_loss", "a falling level with nothing added")
                .field("drop", &LossInput::drop, "fall of the level, fill valve shut")
                .required()
                .within("-12 in", "60 in")
                .field("elapsed", &LossInput::elapsed, "time it took")
                .required()
                .within("1 h", "60 day")
                .field("area", &LossInput::area, "surface of the water; without it there is no volume")
                .within("5 ft2", "100000 ft2")
                .field("evaporation", &LossInput::evaporation,
                       "fall of the level by evaporation alone, as the evaporation model gives it")
                .within("0 in/day", "10 in/day");
        return record;
    }
};

struct LossOutput
{
    std::optional<units::VolumeFlow> loss_rate;
    units::Velocity drop_rate{};
    std::optional<units::VolumeFlow> beyond_evaporation;
    std::string in_words;

    static Record<LossOutput> const& declaration()
    {
        static Record<LossOutput> const record =
            Record<LossOutput>("level_loss", "what the fall amounts to")
                .field("loss_rate", &LossOutput::loss_rate, "water lost")
                .shown_in("gal/day", "L/day")
                .field("drop_rate", &LossOutput::drop_rate, "fall of the level")
                .shown_in("in/day", "mm/day")
                .field("beyond_evaporation", &LossOutput::beyond_evaporation, "water lost beyond evaporation")
                .shown_in("gal/day", "L/day")
                .field("in_words", &LossOutput::in_words, "what that says");
        return record;
    }
};

struct EvaporationInput
{
    units::Temperature water_temperature{};
    units::Temperature air_temperature{};
    units::Fraction humidity{};
    units::Velocity wind{};
    std::optional<units::Area> area;
    Activity activity = Activity::still;
    EvaporationForm form = EvaporationForm::ashrae;

    static Record<EvaporationInput> const& declaration()
    {
        static Record<EvaporationInput> const record =
            Record<EvaporationInput>("evaporation", "water that an uncovered pool or spa gives to the air")
                .field("water_temperature", &EvaporationInput::water_temperature, "temperature of the water")
                .required()
                .within("32 degF", "140 degF")
                .field("air_temperature", &EvaporationInput::air_temperature,
                       "temperature of the air, day and night together")
                .required()
                .within("-40 degF", "140 degF")
                .field("humidity", &EvaporationInput::humidity, "relative humidity of that air")
                .required()
                .within("0 %", "100 %")
                .field("wind", &EvaporationInput::wind, "wind at the water, not at a weather station")
                .otherwise("0.5 m/s ± 0.5 m/s", "light air over a pool between houses and fences; open sites have "
                                                "several times as much (judgement)")
                .within("0 m/s", "12 m/s")
                .like("1 mph")
                .field("area", &EvaporationInput::area, "surface of the water; without it there is no volume")
                .within("5 ft2", "100000 ft2")
                .field("activity", &EvaporationInput::activity,
                       "what goes on in the water; equation: the form as printed")
                .otherwise("still", "most of the day nobody is in the water and no jets run")
                .field("form", &EvaporationInput::form, "which published form")
                .otherwise("ashrae", "it is the one that other sources compare with");
        return record;
    }
};

struct EvaporationOutput
{
    std::optional<units::MassFlow> evaporation_rate;
    std::optional<units::VolumeFlow> volume_rate;
    units::Velocity level_rate{};
    std::optional<units::Power> heat;

    static Record<EvaporationOutput> const& declaration()
    {
        static Record<EvaporationOutput> const record =
            Record<EvaporationOutput>("evaporation", "water and heat that leave")
                .field("evaporation_rate", &EvaporationOutput::evaporation_rate, "mass of water")
                .shown_in("lb/h", "kg/h")
                .field("volume_rate", &EvaporationOutput::volume_rate, "volume of water")
                .shown_in("gal/day", "L/day")
                .field("level_rate", &EvaporationOutput::level_rate, "fall of the level")
                .shown_in("in/day", "mm/day")
                .field("heat", &EvaporationOutput::heat, "heat it takes")
                .shown_in("Btu/h", "kW");
        return record;
    }
};

} // namespace

std::vector<figures::Model> loss_models(reference::Data const& data)
{
    auto const rules = loss_rules(data);
    return {
        figures::model<BucketInput, BucketOutput>(
            {.name = "bucket_test",
             .title = "leak by a bucket beside the pool's level",
             .equation = "leak = (pool drop - bucket drop) area / elapsed",
             .valid = "nothing added, no rain, no splashing, fill valve shut; bucket of pool water in the same sun and "
                      "wind. Marks read to 1/16 inch leave "
                      "± 1/8 inch in the difference, so a long test shows a smaller leak. Not clamped: below zero "
                      "water came in",
             .sources = {"bucket-test-advice", "judgement"},
             .cautions = {},
             .own_doubt = 0.0},
            [rules](BucketInput const& in)
            {
                auto const leak =
                    bucket_test(in.pool_drop, in.bucket_drop, in.elapsed, in.area.value_or(units::Area()));
                return BucketOutput{in.area ? std::optional(leak.volume) : std::nullopt, leak.level,
                                    bucket_in_words(in.pool_drop, in.bucket_drop, rules)};
            }),
        figures::model<LossInput, LossOutput>(
            {.name = "level_loss",
             .title = "water lost by a falling level",
             .equation = "loss = drop area / elapsed; beyond evaporation = loss - evaporation area",
             .valid =
                 "nothing added, no rain. Without an evaporation rate only a rule of thumb, which climate overrides",
             .sources = {"austin-water-pools", "judgement"},
             .cautions = {},
             .own_doubt = 0.0},
            [rules](LossInput const& in)
            {
                auto const loss = level_loss(in.drop, in.elapsed, in.area.value_or(units::Area()));
                LossOutput out{std::nullopt, loss.level, std::nullopt,
                               loss_in_words(loss.level, in.evaporation, rules)};
                if (in.area)
                    out.loss_rate = loss.volume;
                if (in.area && in.evaporation)
                    out.beyond_evaporation = (loss.level - *in.evaporation) * *in.area;
                return out;
            })};
}

figures::Model evaporation_model(reference::Data const& data)
{
    return figures::model<EvaporationInput, EvaporationOutput>(
        {.name = "evaporation",
         .title = "evaporation of an uncovered pool or spa",
         .equation = "W = factor (95 + 0.425 v)(pw - pa)/Y, lb/(h ft2); v ft/min at the water, p inHg, Y Btu/lb; "
                     "factor still 0.74, jets 1.15, use 1.26, "
                     "equation 1. Form smith: (30.6 + 32.1 v)(pw - pa)/Y, kg/(h m2); m/s, mmHg, kJ/kg",
         .valid = "uncovered, water 32 to 140 °F; pools measured with up to 2.2 m/s (5 mph) of wind at the water, near "
                  "sea level. Own doubt 15 % (one standard "
                  "uncertainty, judgement): the two forms and the factors that others print for quiet pools spread "
                  "about that much. The factor of jets is judgement",
         .sources = {"ashrae-trans-1998-pools", "smith-lof-jones-1994", "iapws-if97", "judgement"},
         .cautions = {},
         .own_doubt = 0.15},
        [table = evaporation_table(data)](EvaporationInput const& in)
        {
            auto const flux = evaporation_flux({in.water_temperature, in.air_temperature, in.humidity, in.wind},
                                               in.form, in.activity, table);
            EvaporationOutput out;
            out.level_rate = flux / physics::density(in.water_temperature);
            if (in.area)
            {
                out.evaporation_rate = flux * *in.area;
                out.volume_rate = *out.evaporation_rate / physics::density(in.water_temperature);
                out.heat = *out.evaporation_rate * physics::latent_heat(in.water_temperature);
            }
            return out;
        });
}

} // namespace padwalk::level
