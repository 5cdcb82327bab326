#pragma once
/// A made-up house in tests, and its state in the units of its gauges.

#include "catch_compat.hpp"
#include "data_folder.hpp"
#include "padwalk/circulation/plant.hpp"
#include "written.hpp"

namespace padwalk::tests
{

using namespace padwalk::circulation;

inline units::Fraction share(double value)
{
    return units::of_si<units::Fraction>(value);
}

struct Tables
{
    PlantTable plant;
    std::vector<GenericPump> pumps;
};

inline Tables const& tables()
{
    static Tables const all = []
    {
        auto const data = tests::data_from_folder();
        return Tables{plant_table(data), generic_pumps(data)};
    }();
    return all;
}

inline Pipe pipe(std::string const& bore, std::string const& length, double k)
{
    return {q<units::Length>(bore), q<units::Length>(length), number(k), q<units::Length>("0.0015 mm"), number(150)};
}

/// Two drains, a skimmer, a 1.5 hp pump of the generic family, sand, a heater, two returns.
inline Plant house()
{
    Plant p;
    p.suctions = {{"skimmer", SuctionKind::skimmer, 0, pipe("2.058 in", "30 ft", 3), {}},
                  {"drain 1", SuctionKind::main_drain, 0, pipe("1.601 in", "40 ft", 4), {}},
                  {"drain 2", SuctionKind::main_drain, 0, pipe("1.601 in", "44 ft", 4), {}}};
    p.suction_trunk = pipe("2.058 in", "6 ft", 2);
    PlantPump pump;
    pump.name = "pump";
    pump.curve = generic_curve(q<units::Power>("1.5 hp"), tables().pumps);
    p.pumps = {pump};
    p.filter = PlantFilter{FilterMedium::sand, q<units::Area>("4.9 ft2"), {}, {}};
    p.heater = PlantHeater{};
    p.return_trunk = pipe("2.058 in", "15 ft", 4);
    for (auto const* name : {"return 1", "return 2"})
    {
        PlantReturn r;
        r.name = name;
        r.pipe = pipe("1.601 in", "40 ft", 4);
        r.nozzle = q<units::Length>("1 in");
        p.returns.push_back(r);
    }
    p.pad_height = q<units::Length>("2 ft");
    p.water = q<units::Temperature>("80 degF");
    return p;
}

inline PlantState state(Plant const& plant)
{
    return solve(plant, tables().plant);
}

inline double psi(std::optional<units::GaugePressure> const& g)
{
    REQUIRE(g);
    return units::in_si(*g) / units::in_si(q<units::Pressure>("1 psi"));
}

inline double gpm(units::VolumeFlow flow)
{
    return in(flow, "gpm");
}

} // namespace padwalk::tests
