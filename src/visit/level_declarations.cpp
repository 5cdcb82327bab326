#include "declarations.hpp"

namespace padwalk::visit
{

Record<BucketTest> const& BucketTest::declaration()
{
    static Record<BucketTest> const record =
        Record<BucketTest>("bucket_test", "level of the water against that of a bucket standing in it")
            .field("pool_drop", &BucketTest::pool_drop, "how far the water fell")
            .within("0 in", "60 in")
            .usual("0 in", "6 in")
            .read_by("level_mark")
            .like("3/4 in")
            .field("bucket_drop", &BucketTest::bucket_drop, "how far the bucket's water fell")
            .within("0 in", "30 in")
            .usual("0 in", "3 in")
            .read_by("level_mark")
            .like("1/4 in")
            .field("elapsed", &BucketTest::elapsed, "time between the marks")
            .within("10 min", "30 day")
            .usual("6 h", "7 day")
            .read_by("clock")
            .like("24 h")
            .field("pump", &BucketTest::pump, "whether the pump ran meanwhile")
            .field("fill", &BucketTest::fill, "whether the fill valve was open meanwhile");
    return record;
}

Record<LevelMark> const& LevelMark::declaration()
{
    static Record<LevelMark> const record =
        Record<LevelMark>("level_mark", "the level at one time")
            .field("at", &LevelMark::at, "when, with the time of day; later than the mark before")
            .required()
            .field("drop", &LevelMark::drop,
                   "how far the water stands below the first mark, always measured from that one; 0 at the first")
            .required()
            .within("-12 in", "60 in")
            .read_by("level_mark")
            .like("1/4 in")
            .field("pump", &LevelMark::pump, "whether the pump ran since the mark before")
            .field("fill", &LevelMark::fill, "whether the fill valve was open since the mark before")
            .field("bucket", &LevelMark::bucket,
                   "fall of the water in a bucket that stands in the pool, from its own first mark")
            .within("-12 in", "24 in")
            .read_by("level_mark")
            .like("1/4 in")
            .field("filled", &LevelMark::filled, "water let in since the mark before, by a meter or a watch")
            .within("0 gal", "200000 gal")
            .like("50 gal ± 5 gal")
            .field("backwash", &LevelMark::backwash, "water let out since the mark before, on purpose")
            .within("0 gal", "200000 gal")
            .like("200 gal ± 50 gal")
            .field("rain", &LevelMark::rain, "rain since the mark before, by a gauge")
            .within("0 in", "24 in")
            .like("0.1 in ± 0.05 in")
            .field("bathers", &LevelMark::bathers, "time in the water since the mark before, all persons together")
            .within("0 h", "2000 h")
            .like("3 h")
            .field("covered", &LevelMark::covered, "covered all the time since the mark before")
            .field("air_temperature", &LevelMark::air_temperature, "air since the mark before, day and night")
            .within("-60 degF", "140 degF")
            .read_by("weather")
            .like("68 degF")
            .field("humidity", &LevelMark::humidity, "humidity since the mark before, day and night")
            .within("0 %", "100 %")
            .read_by("humidity")
            .like("55 %")
            .field("wind", &LevelMark::wind, "wind at the water since the mark before, day and night")
            .within("0 mph", "150 mph")
            .read_by("wind")
            .shown_in("mph", "m/s")
            .like("2 mph");
    return record;
}

Record<ShellFitting> const& ShellFitting::declaration()
{
    static Record<ShellFitting> const record =
        Record<ShellFitting>("shell_fitting", "where something goes through the shell")
            .field("kind", &ShellFitting::kind, "what it is")
            .required()
            .field("name", &ShellFitting::name, "which, in your words")
            .like("deep end light")
            .field("depth", &ShellFitting::depth, "its lowest wetted point below the first level mark")
            .required()
            .within("-12 in", "20 ft")
            .read_by("tape")
            .like("4 in");
    return record;
}

Record<FillWatch> const& FillWatch::declaration()
{
    static Record<FillWatch> const record =
        Record<FillWatch>("fill_watch", "a fill valve watched over some time, with no rain and nobody in the water")
            .field("elapsed", &FillWatch::elapsed, "how long")
            .within("10 min", "60 day")
            .like("24 h")
            .field("delivered", &FillWatch::delivered, "water that came in, by a meter; 0 gal where it never ran")
            .within("0 gal", "200000 gal")
            .like("0 gal")
            .field("level_fell", &FillWatch::level_fell, "fall of the level meanwhile; 0 in where it held")
            .within("-12 in", "60 in")
            .read_by("level_mark")
            .like("0 in");
    return record;
}

Record<FillValve> const& FillValve::declaration()
{
    static Record<FillValve> const record = with_item_fields(
        Record<FillValve>("fill_valve", "what keeps the level up")
            .field("fills", &FillValve::fills, "name of the water it fills")
            .like("pool")
            .field("kind", &FillValve::kind, "how it works")
            .field("flow", &FillValve::flow, "flow when it should run")
            .within("0 gpm", "200 gpm")
            .usual("0 gpm", "20 gpm")
            .read_by("bucket_and_watch")
            .like("3 gpm")
            .field("supply_pressure", &FillValve::supply_pressure, "pressure of the supply")
            .within("0 psi", "250 psi")
            .usual("20 psi", "100 psi")
            .read_by("pressure_gauge")
            .like("55 psi")
            .field("bore", &FillValve::bore, "inside diameter of its outlet")
            .within("0.05 in", "4 in")
            .usual("0.25 in", "1.5 in")
            .like("0.5 in")
            .field("seat", &FillValve::seat, "diameter of its narrowest opening")
            .within("0.02 in", "4 in")
            .usual("0.05 in", "0.75 in")
            .like("0.2 in")
            .field("flow_when_shut", &FillValve::flow_when_shut,
                   "flow with its float held up, or while it should be shut")
            .within("0 gpm", "200 gpm")
            .usual("0 gpm", "5 gpm")
            .read_by("bucket_and_watch")
            .like("0 gpm")
            .field("travel", &FillValve::travel, "fall of the level from where it shuts to where it stands wide open")
            .within("0.05 in", "12 in")
            .read_by("tape")
            .like("1 in")
            .field("below_wanted", &FillValve::below_wanted,
                   "how far the level stands below the one that is wanted, left alone for a day; above it: negative")
            .within("-12 in", "24 in")
            .read_by("tape")
            .like("1/2 in")
            .field("day_volume", &FillValve::day_volume, "delivered in a day, by a meter with all else off")
            .within("0 gal", "100000 gal")
            .usual("0 gal", "2000 gal")
            .read_by("water_meter")
            .like("120 gal")
            .field("run_share", &FillValve::run_share, "share of the time that it runs, wide open")
            .within("0 %", "100 %")
            .read_by("timed_look")
            .like("10 %")
            .field("starts", &FillValve::starts, "openings in a day, of one that opens and shuts")
            .within("0", "500")
            .like("2 ± 1")
            .field("access", &FillValve::access, "how it can be reached")
            .field("deck", &FillValve::deck, "how the deck over it was poured")
            .field("air_gap", &FillValve::air_gap, "height of the outlet above the highest water")
            .within("-24 in", "60 in")
            .read_by("tape")
            .like("6 in")
            .field("backflow_device", &FillValve::backflow_device, "an approved backflow device is on the line")
            .field("watched", &FillValve::watched, "what came in over some time, and what the level did"));
    return record;
}

} // namespace padwalk::visit
