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

} // namespace padwalk::visit
