#include "declarations.hpp"

namespace padwalk::visit
{

Record<Noticed> const& Noticed::declaration()
{
    static Record<Noticed> const record =
        Record<Noticed>("noticed", "one thing noticed, in plain words")
            .field("seen", &Noticed::seen, "what was seen, heard or felt")
            .like("grinding noise")
            .field("not_seen", &Noticed::not_seen, "what was looked for and was not there")
            .like("bubbles at the returns")
            .field("where", &Noticed::where, "where exactly")
            .short_form("seen");
    return record;
}

Record<Found> const& Found::declaration()
{
    static Record<Found> const record = Record<Found>("found", "what a technician really found")
                                            .field("was", &Found::was, "the cause that was there, by its name")
                                            .like("motor bearings worn")
                                            .field("was_not", &Found::was_not, "a cause looked for that was not there")
                                            .like("shaft seal leaking")
                                            .short_form("was");
    return record;
}

Record<NotTested> const& NotTested::declaration()
{
    static Record<NotTested> const record = Record<NotTested>("not_tested", "something not tested, with the reason")
                                                .field("what", &NotTested::what, "what was not tested")
                                                .required()
                                                .like("heater firing")
                                                .field("because", &NotTested::because, "why not")
                                                .required()
                                                .like("gas was shut off at the meter");
    return record;
}

Record<Photo> const& Photo::declaration()
{
    static Record<Photo> const record = Record<Photo>("photo", "a picture")
                                            .field("file", &Photo::file, "path of the picture")
                                            .required()
                                            .like("photos/pad.jpg")
                                            .field("caption", &Photo::caption, "what it shows")
                                            .short_form("file");
    return record;
}

Record<WaterTest> const& WaterTest::declaration()
{
    static Record<WaterTest> const record =
        Record<WaterTest>("test", "one water test")
            .field("on", &WaterTest::on, "when the sample was taken")
            .field("kit", &WaterTest::kit, "what it was tested with; gives each reading its doubt")
            .field("ph", &WaterTest::ph, "pH")
            .within("0", "14")
            .usual("6.8", "8.4")
            .read_by("ph")
            .like("7.5")
            .field("free_chlorine", &WaterTest::free_chlorine, "free chlorine")
            .within("0 ppm", "300 ppm")
            .usual("0 ppm", "20 ppm")
            .read_by("free_chlorine")
            .like("3 ppm")
            .field("total_chlorine", &WaterTest::total_chlorine, "total chlorine")
            .within("0 ppm", "300 ppm")
            .usual("0 ppm", "25 ppm")
            .read_by("free_chlorine")
            .like("3.4 ppm")
            .field("bromine", &WaterTest::bromine, "bromine, where it is used for chlorine")
            .within("0 ppm", "300 ppm")
            .usual("0 ppm", "30 ppm")
            .read_by("bromine")
            .like("4 ppm")
            .field("alkalinity", &WaterTest::alkalinity, "total alkalinity")
            .within("0 ppm", "2000 ppm")
            .usual("20 ppm", "300 ppm")
            .read_by("alkalinity")
            .like("90 ppm")
            .field("calcium", &WaterTest::calcium, "calcium hardness")
            .within("0 ppm", "5000 ppm")
            .usual("20 ppm", "1000 ppm")
            .read_by("calcium")
            .like("250 ppm")
            .field("magnesium", &WaterTest::magnesium, "magnesium hardness")
            .within("0 ppm", "5000 ppm")
            .usual("0 ppm", "500 ppm")
            .read_by("calcium")
            .like("60 ppm")
            .field("hardness", &WaterTest::hardness, "total hardness: calcium and magnesium together")
            .within("0 ppm", "10000 ppm")
            .usual("20 ppm", "1500 ppm")
            .read_by("calcium")
            .like("310 ppm")
            .field("cyanurate", &WaterTest::cyanurate, "cyanuric acid, the chlorine stabilizer")
            .within("0 ppm", "1000 ppm")
            .usual("0 ppm", "200 ppm")
            .read_by("cyanurate")
            .like("40 ppm")
            .field("borate", &WaterTest::borate, "borate, as boron")
            .within("0 ppm", "500 ppm")
            .usual("0 ppm", "100 ppm")
            .read_by("borate")
            .like("50 ppm")
            .field("salt", &WaterTest::salt, "salt")
            .within("0 ppm", "50000 ppm")
            .usual("0 ppm", "8000 ppm")
            .read_by("salt_test")
            .like("3200 ppm")
            .field("dissolved_solids", &WaterTest::dissolved_solids, "total dissolved solids")
            .within("0 ppm", "60000 ppm")
            .usual("50 ppm", "9000 ppm")
            .read_by("conductivity_meter")
            .like("900 ppm")
            .field("conductivity", &WaterTest::conductivity, "electrical conductivity")
            .within("0 uS/cm", "90000 uS/cm")
            .read_by("conductivity_meter")
            .like("1500 uS/cm")
            .field("sulfate", &WaterTest::sulfate, "sulfate, as SO4")
            .within("0 ppm", "5000 ppm")
            .usual("0 ppm", "1500 ppm")
            .read_by("sulfate")
            .like("120 ppm")
            .field("copper", &WaterTest::copper, "copper")
            .within("0 ppm", "50 ppm")
            .like("0.2 ppm")
            .field("iron", &WaterTest::iron, "iron")
            .within("0 ppm", "50 ppm")
            .like("0.1 ppm")
            .field("phosphate", &WaterTest::phosphate, "phosphate")
            .within("0 ppm", "50 ppm")
            .like("0.3 ppm")
            .field("temperature", &WaterTest::temperature, "temperature of the water")
            .within("32 degF", "130 degF")
            .usual("40 degF", "104 degF")
            .read_by("thermometer")
            .like("82 degF")
            .field("notes", &WaterTest::notes, "anything else about this test");
    return record;
}

Record<Package> const& Package::declaration()
{
    static Record<Package> const record = Record<Package>("package", "a product as bought")
                                              .field("paid", &Package::paid, "what it cost, in any one money")
                                              .within("0", "100000")
                                              .like("12.50")
                                              .field("weighs", &Package::weighs, "what is in it, by weight")
                                              .within("0.01 lb", "2000 lb")
                                              .like("4 lb")
                                              .field("holds", &Package::holds, "or by volume")
                                              .within("1 fl oz", "1000 gal")
                                              .like("1 gal");
    return record;
}

Record<RepeatedDose> const& RepeatedDose::declaration()
{
    static Record<RepeatedDose> const record =
        Record<RepeatedDose>("dose", "a dose given again and again")
            .field("product", &RepeatedDose::product, "the product, by its name in the list of products")
            .required()
            .like("liquid_chlorine_10")
            .field("weighs", &RepeatedDose::weighs, "the dose, by weight")
            .within("0.001 lb", "2000 lb")
            .like("4 oz")
            .field("holds", &RepeatedDose::holds, "or the dose by volume")
            .within("0.01 fl oz", "1000 gal")
            .like("32 fl oz")
            .field("every", &RepeatedDose::every, "how often")
            .within("6 h", "200 day")
            .like("3 day");
    return record;
}

Record<Care> const& Care::declaration()
{
    static Record<Care> const record =
        Record<Care>("care", "how the water is kept, for its dose plan and forecast")
            .field("sanitizer", &Care::sanitizer, "what disinfects it")
            .field("at_hand", &Care::at_hand, "products to plan with, by their names in the list; all where left out")
            .like("baking_soda")
            .field("prices", &Care::prices, "what packages cost, by the same names")
            .field("borate_wanted", &Care::borate_wanted, "borate is to be kept in the water")
            .field("sun", &Care::sun, "how much sun reaches the water")
            .field("surface", &Care::surface, "what stirs its surface")
            .field("evaporation", &Care::evaporation, "fall of the level by evaporation, if known")
            .within("0 in/day", "2 in/day")
            .shown_in("in/day", "mm/day")
            .like("0.2 in/day")
            .field("splash", &Care::splash, "water lost to splash, backwash and leaks")
            .within("0 gal/day", "5000 gal/day")
            .shown_in("gal/day", "L/day")
            .like("15 gal/day")
            .field("made_per_day", &Care::made_per_day, "chlorine that a cell or feeder adds in a day")
            .within("0 ppm", "50 ppm")
            .like("2 ppm")
            .field("used_per_day", &Care::used_per_day, "chlorine that bathers and dirt use up in a day")
            .within("0 ppm", "50 ppm")
            .like("1 ppm")
            .field("doses", &Care::doses, "doses given again and again");
    return record;
}

Record<Crack> const& Crack::declaration()
{
    static Record<Crack> const record = Record<Crack>("crack", "a line in the shell that may be a crack")
                                            .field("where", &Crack::where, "where it runs")
                                            .like("north wall below the skimmer")
                                            .field("width", &Crack::width, "its width, by a card held to it")
                                            .within("0 in", "4 in")
                                            .usual("0 in", "0.5 in")
                                            .read_by("crack_gauge")
                                            .like("0.4 mm")
                                            .field("length", &Crack::length, "its length")
                                            .within("0 in", "100 ft")
                                            .read_by("tape")
                                            .like("3 ft");
    return record;
}

Record<Shell> const& Shell::declaration()
{
    static Record<Shell> const record =
        with_item_fields(Record<Shell>("shell", "walls, floor and their finish")
                             .field("surface", &Shell::surface, "what the water touches")
                             .field("plastered", &Shell::plastered, "how long ago it was plastered")
                             .within("0 year", "100 year")
                             .like("3 years")
                             .field("cracks", &Shell::cracks, "lines that may be cracks"));
    return record;
}

Record<Deck> const& Deck::declaration()
{
    static Record<Deck> const record = with_item_fields(Record<Deck>("deck", "coping and deck round the water"));
    return record;
}

Record<Water> const& Water::declaration()
{
    static Record<Water> const record = with_item_fields(
        Record<Water>("water", "a pool or a spa")
            .field("kind", &Water::kind, "pool or spa")
            .field("shape", &Water::shape, "its plan; with the sizes below it gives volume and area")
            .field("length", &Water::length, "longest length")
            .within("3 ft", "500 ft")
            .usual("5 ft", "100 ft")
            .read_by("pool_tape")
            .like("32 ft")
            .field("width", &Water::width, "width")
            .within("3 ft", "300 ft")
            .usual("5 ft", "60 ft")
            .read_by("pool_tape")
            .like("16 ft")
            .field("second_width", &Water::second_width, "second width of a kidney")
            .within("3 ft", "300 ft")
            .read_by("pool_tape")
            .like("12 ft")
            .field("diameter", &Water::diameter, "diameter of a round one")
            .within("3 ft", "300 ft")
            .usual("4 ft", "60 ft")
            .read_by("pool_tape")
            .like("7 ft")
            .field("depth", &Water::depth, "water depth, or its mean")
            .within("6 in", "30 ft")
            .usual("1 ft", "12 ft")
            .read_by("depth")
            .like("3 ft 6 in")
            .field("shallow_depth", &Water::shallow_depth, "depth at the shallow end")
            .within("3 in", "30 ft")
            .read_by("depth")
            .like("3 ft 6 in")
            .field("deep_depth", &Water::deep_depth, "depth at the deep end")
            .within("6 in", "30 ft")
            .read_by("depth")
            .like("8 ft")
            .field("shallow_length", &Water::shallow_length, "length of the level shallow floor")
            .within("0 ft", "500 ft")
            .read_by("pool_tape")
            .like("14 ft")
            .field("slope_length", &Water::slope_length, "length of the slope, measured level")
            .within("0 ft", "500 ft")
            .read_by("pool_tape")
            .like("10 ft")
            .field("deep_length", &Water::deep_length, "length of the level deep floor")
            .within("0 ft", "500 ft")
            .read_by("pool_tape")
            .like("8 ft")
            .field("bench_depth", &Water::bench_depth, "water over a spa's bench")
            .within("3 in", "6 ft")
            .read_by("depth")
            .like("18 in")
            .field("bench_width", &Water::bench_width, "width of a spa's bench")
            .within("3 in", "6 ft")
            .read_by("tape")
            .like("16 in")
            .field("area", &Water::area, "water surface, if known")
            .within("5 ft2", "100000 ft2")
            .usual("20 ft2", "3000 ft2")
            .like("420 ft2")
            .field("volume", &Water::volume, "volume, if known")
            .within("20 gal", "2000000 gal")
            .usual("150 gal", "80000 gal")
            .read_by("volume")
            .like("16000 gal")
            .field("covered", &Water::covered, "kept covered when not in use")
            .field("cover_r", &Water::cover_r, "R-value printed on its cover, ft2 h degF/Btu")
            .within("0", "30")
            .read_by("cover_label")
            .like("12")
            .field("walls", &Water::walls, "what stands behind its walls: soil, a foamed cabinet or bare air")
            .field("salt_system", &Water::salt_system, "chlorine is made from salt")
            .field("limits", &Water::limits,
                   "whose published limits lead; what they leave out is judged as if nothing were chosen")
            .field("temperature", &Water::temperature, "temperature of the water")
            .within("32 degF", "130 degF")
            .usual("40 degF", "104 degF")
            .read_by("thermometer")
            .like("82 degF")
            .field("wanted_temperature", &Water::wanted_temperature, "temperature that its users want")
            .within("40 degF", "120 degF")
            .usual("70 degF", "104 degF")
            .like("84 degF")
            .field("tests", &Water::tests, "water tests; the newest by its date counts, the last where none has one")
            .field("fill_water", &Water::fill_water, "a test of the tap or well water it is filled with")
            .field("care", &Water::care, "how it is kept, for its dose plan and forecast")
            .field("bucket_test", &Water::bucket_test, "loss against a bucket's")
            .field("level_history", &Water::level_history, "the level over time")
            .field("fittings", &Water::fittings, "where things go through the shell, by depth")
            .field("shell", &Water::shell, "walls, floor and their finish")
            .field("deck", &Water::deck, "coping and deck"));
    return record;
}

} // namespace padwalk::visit
