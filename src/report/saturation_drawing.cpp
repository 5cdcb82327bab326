#include "saturation_drawing.hpp"

#include "axis.hpp"
#include "plain.hpp"
#include "svg.hpp"

#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

using assess::SaturationPlace;
using assess::SaturationWay;
using units::Measure;

constexpr double sheet_width = 360, left = 12, right = 348;
constexpr double strip_height = 20;
constexpr Lettering quiet_type{12, false, "word quiet haloed"};
constexpr Lettering name_type{12.5, true, "word haloed"};
constexpr Lettering value_type{12.5, false, "word haloed"};

std::string index_text(SaturationPlace const& p)
{
    return glued(units::show_interval(Measure::number, p.index.value(), p.low.value(), p.high.value(), {}));
}

std::string at_temperature(units::Temperature t, units::System system)
{
    constexpr double as_read = 1.0; // K: no more digits than a thermometer has
    return glued(units::show(Measure::temperature, units::in_si(t), as_read, {system, {}, {}}));
}

/// What the interval reaches into.
std::string zones(SaturationPlace const& p, SaturationWay const& way)
{
    std::vector<std::string> words;
    if (p.low < way.low)
        words.emplace_back("corrosive");
    if (p.high >= way.low && p.low <= way.high)
        words.emplace_back("balanced");
    if (p.high > way.high)
        words.emplace_back("scaling");
    return (words.size() > 1 ? "may be " : "") + joined(words, ", ", " or ");
}

bool beside_the_band(SaturationPlace const& p, SaturationWay const& way)
{
    return p.high < way.low || p.low > way.high;
}

bool whole(SaturationPlace const& p)
{
    return std::isfinite(p.index.value()) && std::isfinite(p.low.value()) && std::isfinite(p.high.value()) &&
           std::isfinite(units::in_si(p.temperature));
}

class SaturationPicture
{
public:
    SaturationPicture(SaturationWay const& way, std::vector<SaturationPlace> places, units::System system,
                      std::string id)
        : way_(way), places_(std::move(places)), system_(system), sheet_(std::move(id), sheet_width)
    {
        double low = way.low.value(), high = way.high.value();
        for (auto const& p : places_)
            low = std::min(low, p.low.value()), high = std::max(high, p.high.value());
        // Room for the word on either side of the band.
        double const room = 0.42 * (high - low);
        axis_ = axis_between(std::min(low, way.low.value() - room), std::max(high, way.high.value() + room), 6);
    }

    [[nodiscard]] std::string drawn(std::vector<std::string> const& says)
    {
        double y = zone_words();
        for (auto const& place : places_)
            y = row(place, y);
        return sheet_.svg(scale(y), "The saturation index along the water's way", says);
    }

private:
    SaturationWay const& way_;
    std::vector<SaturationPlace> places_;
    units::System system_;
    SvgSheet sheet_;
    Axis axis_;

    [[nodiscard]] double x(double index) const
    {
        return left + (right - left) * (index - axis_.start) / (axis_.end - axis_.start);
    }

    /// What the three parts of the scale mean. Returns where the rows start.
    double zone_words()
    {
        constexpr double apart = 5;
        constexpr std::string_view middle = "balanced";
        double const from = x(way_.low.value()), to = x(way_.high.value());
        bool const fits = to - from > text_width(middle, name_type) + 2 * apart;
        double base = 16;
        sheet_.write({(from + to) / 2, base}, middle, name_type, Anchor::middle);
        if (!fits)
            base += name_type.line_height();
        sheet_.write({from - apart, base}, "corrosive", name_type, Anchor::end);
        sheet_.write({to + apart, base}, "scaling", name_type);
        base += quiet_type.line_height();
        sheet_.write({from - apart, base}, "eats plaster", quiet_type, Anchor::end);
        sheet_.write({to + apart, base}, "scale forms", quiet_type);
        return base + 12;
    }

    double row(SaturationPlace const& p, double y)
    {
        std::string const value = index_text(p);
        double const room = right - left - text_width(value, value_type) - 10;
        double const base = y + name_type.size;
        sheet_.write({right, base}, value, value_type, Anchor::end);
        double const next =
            sheet_.write_lines({left, base}, lines_within(capitalised(p.name), room, name_type, 3), name_type);
        sheet_.write({left, next}, at_temperature(p.temperature, system_) + ": " + zones(p, way_), quiet_type);
        double const top = next + 7;
        strip(p, top);
        return top + strip_height + 12;
    }

    void strip(SaturationPlace const& p, double top)
    {
        double const from = x(way_.low.value()), to = x(way_.high.value()), middle = top + strip_height / 2;
        sheet_.rectangle({from, top, to, top + strip_height}, 0, "allowed", Layer::ground);
        sheet_.line({left, top + strip_height}, {right, top + strip_height}, "fine", Layer::ground);
        bool const alert = beside_the_band(p, way_);
        std::string_view const kind = alert ? "edge alert" : "edge";
        double const low = x(p.low.value()), high = x(p.high.value());
        sheet_.line({low, middle}, {high, middle}, kind);
        for (double const end : {low, high})
            sheet_.line({end, middle - 5}, {end, middle + 5}, kind);
        sheet_.circle({x(p.index.value()), middle}, 4.5, alert ? "solid alert" : "solid");
    }

    /// Below the last row. Returns the height of the sheet.
    double scale(double y)
    {
        for (int i = 0; i <= axis_.steps(); ++i)
        {
            double const value = axis_.start + i * axis_.step;
            sheet_.line({x(value), y - 12}, {x(value), y - 7}, "edge", Layer::ground);
            Anchor const anchor = i == 0 ? Anchor::start : i == axis_.steps() ? Anchor::end : Anchor::middle;
            double const edge = i == 0 ? left - 4 : i == axis_.steps() ? right + 4 : x(value);
            sheet_.write({edge, y + 6}, (value > 1e-9 ? "+" : "") + units::show_number(value, axis_.decimals),
                         quiet_type, anchor);
        }
        sheet_.write({right + 4, y + 23}, "saturation index", quiet_type, Anchor::end);
        return y + 32;
    }
};

std::string band_text(SaturationWay const& way)
{
    auto const end = [](units::Number n) { return (n.value() > 0 ? "+" : "") + units::show_significant(n.value(), 3); };
    std::string const whose = way.low_of == way.high_of ? way.low_of : way.low_of + " and " + way.high_of;
    return end(way.low) + " to " + end(way.high) + (whose.empty() ? "" : ", " + whose);
}

} // namespace

Drawing saturation_drawing(SaturationWay const& way, units::System system, std::string const& id)
{
    Drawing out;
    std::vector<SaturationPlace> places;
    std::copy_if(way.places.begin(), way.places.end(), std::back_inserter(places), whole);
    if (places.empty() || !(way.low < way.high))
        return out;
    std::vector<std::string> says;
    for (auto const& p : places)
        says.push_back(capitalised(p.name) + " at " + at_temperature(p.temperature, system) + ": " + index_text(p) +
                       ", " + zones(p, way) + ".");
    out.svg = SaturationPicture(way, places, system, id).drawn(says);
    out.caption = "Whether the water dissolves plaster or leaves scale" +
                  std::string(places.size() > 1 ? ", place by place on its way" : "") +
                  ": the dot is the likeliest index, the bar where it may lie, 19 times in 20. The shaded part is "
                  "balanced (" +
                  band_text(way) + ").";
    return out;
}

} // namespace padwalk::report
