#pragma once
/// Made-up loops for the drawings: one with everything, and many of all shapes.

#include "report/sample.hpp"

#include "padwalk/units/definitions.hpp"

namespace padwalk::tests
{

using assess::LoopPlace;

inline constexpr double gpm = 3.785411784e-3 / 60, foot = 0.3048, psi = 6894.757293168, inch_mercury = 3386.389;

inline units::Measured<units::VolumeFlow> flow_of(double us, double doubt = 0)
{
    return {of_si<units::VolumeFlow>(us * gpm), of_si<units::VolumeFlow>(doubt * gpm), "computed"};
}

inline units::Measured<units::Head> head_of(double us, double doubt = 0)
{
    return {of_si<units::Head>(us * foot), of_si<units::Head>(doubt * foot), "computed"};
}

inline std::vector<fields::CurvePoint> curve_of(std::vector<std::pair<double, double>> const& points)
{
    std::vector<fields::CurvePoint> out;
    for (auto const& [flow, head] : points)
        out.push_back({flow_of(flow).value, head_of(head).value});
    return out;
}

/// Head that rises with the square of the flow, through one point.
inline std::vector<fields::CurvePoint> square_law(double flow, double head, double to)
{
    std::vector<std::pair<double, double>> points;
    for (int i = 0; i <= 20; ++i)
        points.push_back({to * i / 20, head * (to * i / 20 / flow) * (to * i / 20 / flow)});
    return curve_of(points);
}

inline std::vector<assess::LoopPart> all_parts()
{
    return {{LoopPlace::suction, 5, "2 drains, 1 skimmer", "2 in pipe, 40 ft of it", true},
            {LoopPlace::strainer, 5, "hair and lint basket", "", false},
            {LoopPlace::pump, 2, "pump", "1.5 hp, usual curve of that power", true},
            {LoopPlace::filter, 4, "cartridge filter", "150 sq ft, washed in April", false},
            {LoopPlace::roof, 5, "roof collector", "valve half open", false},
            {LoopPlace::heater, 3, "gas heater", "", false},
            {LoopPlace::bypass, 3, "heater bypass", "spring-loaded, in the heater's header", true},
            {LoopPlace::returns, 5, "4 returns", "3/4 in openings", true}};
}

inline std::vector<assess::ReadingAgainstSound> all_readings()
{
    auto pressure = [](double value, double doubt)
    { return reading(units::Measure::gauge_pressure, value * psi, doubt * psi); };
    auto vacuum = [](double value, double doubt)
    { return reading(units::Measure::gauge_pressure, -value * inch_mercury, doubt * inch_mercury); };
    return {{2, "suction gauge", LoopPlace::suction, vacuum(3, 0.5), vacuum(7.5, 1.1), 3.7, false},
            {4, "filter gauge", LoopPlace::filter, pressure(27, 1), pressure(18.5, 2.5), 3.2, false},
            {5, "flow meter", LoopPlace::returns, units::Reading::of(flow_of(60, 2)),
             units::Reading::of(flow_of(58, 3)), 0.6, true},
            {3, "temperature rise", LoopPlace::heater, reading(units::Measure::temperature_difference, 9.4, 0.6),
             reading(units::Measure::temperature_difference, 8.3, 0.7), 1.2, false},
            {2, "power taken in", LoopPlace::pump, reading(units::Measure::power, 1450, 40),
             reading(units::Measure::power, 1500, 90), -0.5, false}};
}

/// Item 5 of `sample`, which has its own items 0 to 4.
inline assess::LoopEntry full_loop()
{
    assess::LoopEntry loop;
    loop.item = 5;
    loop.parts = all_parts();
    loop.readings = all_readings();
    loop.flows = {{"flow meter", flow_of(60, 2), 3.9, true},
                  {"head on the pump's curve", flow_of(41, 4), -0.4, false},
                  {"heat into the water", flow_of(43, 3), 0.3, false}};
    loop.flow = flow_of(42.3, 2.4);
    loop.flow_words = "two ways agree on about 42 US gpm; the flow meter is the odd one out";
    loop.faults = {{LoopPlace::filter, 0}, {LoopPlace::pump, 1}, {LoopPlace::gauge, 0}};
    loop.pump_is_usual = true;
    loop.pump_curve = curve_of({{0, 88}, {20, 86}, {40, 80}, {60, 70}, {80, 54}, {100, 30}});
    loop.sound_system = square_law(58, 71, 110);
    loop.sound = assess::LoopDuty{flow_of(58, 3), head_of(71, 2)};
    loop.measured = assess::LoopDuty{flow_of(42, 2.4), head_of(79, 2)};
    loop.basis = {"The pump's curve was not given: that of a usual pump of 1.5 hp was taken.",
                  "The pipe was not measured: 2 in and 40 ft each way are usual."};
    return loop;
}

inline assess::Assessment with_loops(figures::Model const& model, std::vector<assess::LoopEntry> loops)
{
    auto a = sample(model);
    a.items.push_back({"loop", "spa loop", "loops/spa loop", "", "", {}});
    a.loops = std::move(loops);
    return a;
}

/// Loops of 2 to 8 parts: with and without readings, faults, branches, long names and points of all kinds.
inline std::vector<assess::LoopEntry> many_loops()
{
    std::string const long_name =
        "commercial rapid-rate sand filter, three tanks side by side, each with its own face piping, see photo 14";
    std::vector<assess::LoopEntry> out;
    for (std::size_t parts = 2; parts <= 8; ++parts)
        for (int kind = 0; kind < 8; ++kind)
        {
            auto loop = full_loop();
            loop.parts.erase(loop.parts.begin(), loop.parts.begin() + static_cast<std::ptrdiff_t>(8 - parts));
            if (kind % 2 == 1)
                loop.parts.front().name = loop.parts.front().detail = loop.readings.front().label = long_name;
            if (kind / 2 % 2 == 1)
            {
                loop.readings.clear();
                loop.faults.clear();
                loop.measured.reset();
                loop.flow.reset();
            }
            if (kind >= 4)
            {
                loop.faults.assign(5, {loop.parts.back().place, 1});
                loop.measured = kind % 2 == 0 ? assess::LoopDuty{flow_of(30.0 + 9.0 * kind, 4), {}}
                                              : assess::LoopDuty{{}, head_of(60, 5)};
                loop.pump_is_usual = false;
            }
            double const k = static_cast<double>(parts);
            loop.sound_system = square_law(20 + 8 * k, 10 * k, 110);
            loop.sound = assess::LoopDuty{flow_of(20 + 8 * k, kind), head_of(10 * k, kind)};
            out.push_back(std::move(loop));
        }
    return out;
}

} // namespace padwalk::tests
