#include "models_parts.hpp"

#include "padwalk/circulation/volume.hpp"
#include "padwalk/units/definitions.hpp"

namespace padwalk::circulation
{
namespace
{

using fields::Record;
using units::Length;

struct VolumeInput
{
    PlanShape shape = PlanShape::rectangle;
    std::optional<Length> length, width, second_width, diameter;
    std::optional<units::Area> area;
    std::optional<Length> depth, shallow_depth, deep_depth, shallow_length, slope_length, deep_length;
    std::optional<Length> bench_depth, bench_width;

    static Record<VolumeInput> const& declaration()
    {
        static Record<VolumeInput> const record =
            Record<VolumeInput>("water_volume", "the measures of the water")
                .field("shape", &VolumeInput::shape, "outline seen from above")
                .required()
                .field("length", &VolumeInput::length, "longest inside length")
                .within("2 ft", "500 ft")
                .field("width", &VolumeInput::width, "inside width; of a kidney, of its larger end")
                .within("2 ft", "300 ft")
                .field("second_width", &VolumeInput::second_width, "of a kidney, inside width of its smaller end")
                .within("2 ft", "300 ft")
                .field("diameter", &VolumeInput::diameter, "inside diameter")
                .within("2 ft", "300 ft")
                .field("area", &VolumeInput::area, "surface of the water, of a free form")
                .within("4 ft2", "200000 ft2")
                .field("depth", &VolumeInput::depth,
                       "depth of the water where it is the same all over; in a spa, over its floor")
                .within("0.2 ft", "40 ft")
                .field("shallow_depth", &VolumeInput::shallow_depth, "depth of the water at the shallow end")
                .within("0.1 ft", "40 ft")
                .field("deep_depth", &VolumeInput::deep_depth, "depth of the water at the deep end")
                .within("0.2 ft", "40 ft")
                .field("shallow_length", &VolumeInput::shallow_length, "length of the level shallow floor")
                .within("0 ft", "500 ft")
                .field("slope_length", &VolumeInput::slope_length, "length of the slope, measured level")
                .within("0 ft", "500 ft")
                .field("deep_length", &VolumeInput::deep_length, "length of the level deep floor")
                .within("0 ft", "500 ft")
                .field("bench_depth", &VolumeInput::bench_depth, "depth of the water over the bench of a spa")
                .within("0.1 ft", "5 ft")
                .field("bench_width", &VolumeInput::bench_width, "width of the bench of a spa")
                .within("0.2 ft", "5 ft");
        return record;
    }
};

struct VolumeOutput
{
    units::Volume volume{};
    units::Area area{};
    Length mean_depth{};
    std::string in_words;

    static Record<VolumeOutput> const& declaration()
    {
        static Record<VolumeOutput> const record =
            Record<VolumeOutput>("water_volume", "how much water there is")
                .field("volume", &VolumeOutput::volume, "volume of the water")
                .shown_in("gal", "m3")
                .field("area", &VolumeOutput::area, "surface of the water")
                .shown_in("ft2", "m2")
                .field("mean_depth", &VolumeOutput::mean_depth, "mean depth")
                .shown_in("ft", "m")
                .field("in_words", &VolumeOutput::in_words, "what the figure rests on");
        return record;
    }
};

VolumeOutput water_volume(VolumeInput const& in, units::Number kidney_factor)
{
    Plan const plan{in.shape, in.length, in.width, in.second_width, in.diameter, in.area};
    Depths const depths{in.depth, in.shallow_depth, in.deep_depth, in.shallow_length, in.slope_length, in.deep_length};
    WaterBody const body = water_body(plan, depths, Bench{in.bench_depth, in.bench_width}, kidney_factor);
    return {body.volume, body.area, body.mean_depth, basis_in_words(plan, depths)};
}

struct TurnoverInput
{
    units::Volume volume{};
    units::VolumeFlow flow{};
    std::optional<WaterKind> water;
    std::optional<Length> mean_depth;

    static Record<TurnoverInput> const& declaration()
    {
        static Record<TurnoverInput> const record =
            Record<TurnoverInput>("turnover", "how long the pump takes to move the whole volume once")
                .field("volume", &TurnoverInput::volume, "water in the pool or spa")
                .required()
                .within("1 gal", "2000000 gal")
                .field("flow", &TurnoverInput::flow, "flow through the filter")
                .required()
                .within("0.1 gpm", "5000 gpm")
                .field("water", &TurnoverInput::water, "whose water; with it, what published codes ask is told")
                .field("mean_depth", &TurnoverInput::mean_depth, "mean depth, by which one code goes")
                .within("0.2 ft", "40 ft");
        return record;
    }
};

struct TurnoverOutput
{
    units::Duration turnover{};
    std::string published;

    static Record<TurnoverOutput> const& declaration()
    {
        static Record<TurnoverOutput> const record =
            Record<TurnoverOutput>("turnover", "time for one turnover")
                .field("turnover", &TurnoverOutput::turnover, "time for one turnover")
                .shown_in("h", "h")
                .field("published", &TurnoverOutput::published,
                       "what published codes ask, whose they are, and if kept");
        return record;
    }
};

struct FilterRateInput
{
    units::VolumeFlow flow{};
    units::Area area{};
    std::optional<FilterMedium> medium;

    static Record<FilterRateInput> const& declaration()
    {
        static Record<FilterRateInput> const record =
            Record<FilterRateInput>("filter_rate", "how hard a filter works")
                .field("flow", &FilterRateInput::flow, "flow through the filter")
                .required()
                .within("0.1 gpm", "5000 gpm")
                .field("area", &FilterRateInput::area, "filter area from its plate")
                .required()
                .within("0.2 ft2", "5000 ft2")
                .field("medium", &FilterRateInput::medium, "what filters; with it, published limits are told");
        return record;
    }
};

struct FilterRateOutput
{
    units::Velocity rate{};
    std::string published;

    static Record<FilterRateOutput> const& declaration()
    {
        static Record<FilterRateOutput> const record =
            Record<FilterRateOutput>("filter_rate", "flow over area")
                .field("rate", &FilterRateOutput::rate, "flow over area, a velocity")
                .shown_in("gpm/ft2", "m/h")
                .field("published", &FilterRateOutput::published, "published limits, whose they are, and if kept");
        return record;
    }
};

} // namespace

void add_water_models(std::vector<figures::Model>& models, Rules const& rules, Published const& published)
{
    units::Number const kidney = rules.kidney_factor.value;
    models.push_back(figures::model<VolumeInput, VolumeOutput>(
        {.name = "water_volume",
         .title = "volume, surface and mean depth of the water from its measures",
         .equation =
             "volume = area x mean depth. Areas: round pi d²/4; rectangle l w; oval pi l w/4; kidney 0.45 (w1 + w2) l. "
             "Mean depth: the one depth; (shallow + deep)/2; or by the lengths of shallow floor, slope and deep floor. "
             "A spa's bench: area x bench depth, plus the floor inside the bench x the rest of the depth",
         .valid = "plain outlines. Steps, coves, rounded corners and sloping walls are not counted: the doubt of 5 % "
                  "(standard) is our judgement "
                  "and covers them and the kidney's rule of thumb",
         .sources = {"judgement", "common-practice"},
         .own_doubt = 0.05},
        [kidney](VolumeInput const& in) { return water_volume(in, kidney); }));
    models.push_back(figures::model<TurnoverInput, TurnoverOutput>(
        {.name = "turnover",
         .title = "time to move the whole volume through the filter once",
         .equation = "turnover = volume / flow",
         .valid = "steady flow. One turnover doesn't treat every drop: in a well mixed pool 37 % has not yet passed "
                  "the filter. Codes bind the waters they name, mostly public ones; for a home they are a yardstick",
         .sources = {"common-practice", "iowa-641-15", "montana-37-115", "circ-pima-county", "circ-mil-hdbk-1027",
                     "circ-dc-25-c409", "circ-california-150p"}},
        [](TurnoverInput const& in) {
            return TurnoverOutput{in.volume / in.flow, {}};
        },
        [limits = published.turnovers](TurnoverInput const& in, TurnoverOutput& out)
        {
            if (in.water)
                out.published = turnover_in_words(out.turnover, *in.water, in.mean_depth, in.flow, limits);
        }));
    models.push_back(figures::model<FilterRateInput, FilterRateOutput>(
        {.name = "filter_rate",
         .title = "flow through each unit of filter area",
         .equation = "rate = flow / area",
         .valid = "the whole area clean and in use. The filter's own plate sets its greatest flow. Codes bind the "
                  "waters they name, mostly public ones; for a home they are a yardstick",
         .sources = {"common-practice", "ga-dph-511", "circ-mil-hdbk-1027", "circ-loudoun-county", "utah-r392-302",
                     "circ-oak-forest", "circ-sunset-city", "circ-filter-standard", "circ-california-150p",
                     "circ-apsp-5"}},
        [](FilterRateInput const& in) {
            return FilterRateOutput{in.flow / in.area, {}};
        },
        [limits = published.filter_rates](FilterRateInput const& in, FilterRateOutput& out)
        {
            if (in.medium)
                out.published = filter_rate_in_words(out.rate, *in.medium, limits);
        }));
}

} // namespace padwalk::circulation
