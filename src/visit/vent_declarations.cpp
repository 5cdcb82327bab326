#include "declarations.hpp"

namespace padwalk::visit
{
namespace
{

Record<Vent>&& with_run(Record<Vent>&& record)
{
    return std::move(record)
        .field("height", &Vent::height, "rise from the heater to its end")
        .within("-20 ft", "200 ft")
        .usual("0 ft", "60 ft")
        .read_by("tape")
        .like("6 ft")
        .field("run", &Vent::run, "its horizontal run")
        .within("0 ft", "300 ft")
        .usual("0 ft", "40 ft")
        .read_by("tape")
        .like("4 ft")
        .field("slope", &Vent::slope,
               "rise of the level part towards its end; a quarter inch in each foot is 2.1 %, falling is negative")
        .within("-100 %", "100 %")
        .usual("-10 %", "60 %")
        .read_by("slope")
        .like("2.1 %")
        .field("bore", &Vent::bore, "its inside diameter")
        .within("1 in", "36 in")
        .usual("2 in", "16 in")
        .like("8 in")
        .field("outlet_bore", &Vent::outlet_bore, "inside diameter of the heater's own outlet")
        .within("1 in", "36 in")
        .usual("2 in", "16 in")
        .like("8 in")
        .field("elbows", &Vent::elbows, "how many bends of about a right angle")
        .within("0", "20")
        .like("2")
        .field("elbows_60", &Vent::elbows_60, "how many bends of about 60 degrees")
        .within("0", "20")
        .like("0")
        .field("elbows_45", &Vent::elbows_45, "how many bends of 45 degrees or less")
        .within("0", "20")
        .like("2");
}

Record<Vent>&& with_way(Record<Vent>&& record)
{
    return std::move(record)
        .field("buried", &Vent::buried, "whether a part of it lies in the ground")
        .field("enclosed", &Vent::enclosed, "whether a part of it runs inside a wall, floor or attic")
        .field("under_deck", &Vent::under_deck, "whether a part of it runs under a deck, terrace or stair")
        .field("combustibles", &Vent::combustibles, "from the pipe to wood or anything else that burns, the nearest")
        .within("0 in", "20 ft")
        .read_by("tape")
        .like("6 in")
        .field("outlet_pressure", &Vent::outlet_pressure,
               "pressure at the heater's outlet while it fires, against the air beside it; a pull is negative")
        .within("-2 in water", "2 in water")
        .usual("-0.3 in water", "0.5 in water")
        .read_by("draft_gauge")
        .like("-0.03 in water");
}

Record<Vent>&& with_end(Record<Vent>&& record)
{
    return std::move(record)
        .field("capped", &Vent::capped, "whether its end has its cap")
        .field("roof_slope", &Vent::roof_slope,
               "where it passes a roof: its rise over its run, 4/12; a number above 1 is the rise in 12")
        .within("0", "40")
        .usual("0", "21")
        .like("4")
        .field("above_roof", &Vent::above_roof, "its end above the roof where it passes, measured straight up")
        .within("-10 ft", "60 ft")
        .read_by("tape")
        .like("1.5 ft")
        .field("from_wall", &Vent::from_wall, "from its end level to the nearest wall or roof that is higher")
        .within("0 ft", "200 ft")
        .read_by("tape")
        .like("10 ft")
        .field("clearances", &Vent::clearances,
               "distances from its end, by rule: see 'padwalk figure vent_clearance'; below is negative")
        .within("-30 ft", "200 ft")
        .read_by("tape")
        .like("{opening_beside: 3 ft}");
}

} // namespace

Record<Vent> const& Vent::declaration()
{
    static Record<Vent> const record = with_item_fields(with_end(with_way(with_run(
        Record<Vent>("vent", "flue run of the heater and its end")
            .field(
                "kind", &Vent::kind,
                "draft hood, fan, direct (air by its own pipe) or top made for outdoors: as the plate or the look says")
            .field("category", &Vent::category, "vent category on the heater's plate")
            .field("made_of", &Vent::made_of, "kinds of pipe, in the order of the run")
            .like("[single_wall]")
            .field("material", &Vent::material, "what it is made of, in your words")
            .like("galvanised single wall")))));
    return record;
}

Record<Room> const& Room::declaration()
{
    static Record<Room> const record =
        Record<Room>("room", "the room, shed or pit the heater stands in")
            .field("volume", &Room::volume, "its volume")
            .within("5 ft3", "1000000 ft3")
            .usual("20 ft3", "20000 ft3")
            .read_by("volume")
            .shown_in("ft3", "m3")
            .like("600 ft3")
            .field("high_opening", &Room::high_opening, "opening near the top, as measured")
            .within("0 in2", "20000 in2")
            .read_by("nameplate")
            .like("100 in2")
            .field("low_opening", &Room::low_opening, "opening near the bottom, as measured")
            .within("0 in2", "20000 in2")
            .read_by("nameplate")
            .like("100 in2")
            .field("air_from", &Room::air_from, "where the openings lead")
            .field("louvre", &Room::louvre, "what covers them")
            .field("other_input", &Room::other_input, "input of all other fuel appliances in the room together")
            .within("0 kW", "3000 kBtu/h")
            .read_by("nameplate")
            .like("40 kBtu/h")
            .field("depth", &Room::depth, "how far its floor lies below the ground outside, seen from above")
            .within("0 ft", "30 ft")
            .usual("0 ft", "12 ft")
            .read_by("tape")
            .like("4 ft")
            .field("drain", &Room::drain, "what takes water out of it")
            .field("water", &Room::water, "water standing on its floor, seen from above")
            .within("0 in", "20 ft")
            .read_by("tape")
            .like("0 in")
            .field("gas_way_out", &Room::gas_way_out,
                   "an opening at its floor to lower ground, by which gas heavier than air can run off")
            .field("person_way_out", &Room::person_way_out, "steps or a fixed ladder to get out")
            .field("lid", &Room::lid, "what covers it")
            .field("service_space", &Room::service_space, "free space before the heater for whoever services it")
            .within("0 ft", "30 ft")
            .read_by("tape")
            .like("30 in");
    return record;
}

} // namespace padwalk::visit
