#pragma once
/// Owner's sheets to draw from, and the numbers that stand on their axes.

#include "assessed.hpp"
#include "padwalk/assess/water_sheet.hpp"
#include "padwalk/units/definitions.hpp"
#include "report/drawing_checks.hpp"
#include "report/drawn.hpp"

#include <fstream>
#include <sstream>

namespace padwalk::tests
{

inline std::string const nasty = "</svg><script>alert(1)</script> & \"q\" \x1b[31m 水";

inline assess::WaterReport water_report(std::string const& yaml, units::System system = units::System::us,
                                        double days = 30)
{
    return assess::assess_water(visit::read_visit(yaml, engine().instruments()), engine(), system,
                                units::Duration::from_value(days * units::exact::day));
}

inline std::string scenario(std::string const& name)
{
    std::ifstream file(std::string(PADWALK_SOURCE_FOLDER) + "/scenarios/" + name + "/visit.yaml");
    std::stringstream out;
    out << file.rdbuf();
    return out.str();
}

/// The owner's sheets of the scenarios that have a water test.
inline std::vector<assess::WaterReport> const& scenario_waters()
{
    static std::vector<assess::WaterReport> const list{water_report(scenario("all-well")),
                                                       water_report(scenario("cloudy-water-high-cyanurate")),
                                                       water_report(scenario("spa-on-a-hard-well"))};
    return list;
}

inline std::string pool_tested(std::string const& test, std::string const& water = {})
{
    return "waters:\n  pool:\n    kind: pool\n    volume: 16000 gal\n    area: 450 ft2\n    temperature: 84 degF\n" +
           water + "    tests:\n      - {" + test + "}\n";
}

/// Where numbers stand along one axis, by two of the ticks that are written there.
struct Scale
{
    double at0 = 0.0, per_unit = 0.0;
    [[nodiscard]] double of(double value) const { return at0 + per_unit * value; }
};

/// By texts that are numbers and have this anchor; `key` is 'x' or 'y'.
inline Scale scale_of(std::vector<Element> const& elements, std::string const& key, std::string const& anchor,
                      double offset = 0.0)
{
    std::vector<Element> ticks;
    for (auto const& e : elements)
        if (e.name == "text" && e.text.find_first_not_of("+-0123456789.,") == std::string::npos &&
            e.attributes.count("text-anchor") == 1 && e.attributes.at("text-anchor") == anchor)
            ticks.push_back(e);
    if (ticks.size() < 2)
        throw std::runtime_error("no ticks");
    double const first = std::stod(ticks.front().text), last = std::stod(ticks.back().text);
    Scale out;
    out.per_unit = (ticks.back().number(key) - ticks.front().number(key)) / (last - first);
    out.at0 = ticks.front().number(key) + offset - out.per_unit * first;
    return out;
}

inline std::vector<Element> of_kind(std::vector<Element> const& elements, std::string const& name,
                                    std::string const& kind)
{
    std::vector<Element> out;
    std::copy_if(elements.begin(), elements.end(), std::back_inserter(out),
                 [&](Element const& e) { return e.name == name && e.is(kind); });
    return out;
}

/// No number that is none, and nothing of what was written into it that is not text.
inline void check_harmless(std::string const& svg)
{
    CHECK_NOTHROW(read(svg));
    for (auto const* part : {"nan", "=\"inf", "<script", "\x1b"})
        CHECK(svg.find(part) == std::string::npos);
}

} // namespace padwalk::tests
