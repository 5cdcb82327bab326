#include "balance_drawing.hpp"

#include "plain.hpp"
#include "svg.hpp"

#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

using units::Measure;

constexpr double sheet_width = 360, left = 8, right = 352;
constexpr double row_height = 44, bar_height = 15, first_row = 22;

/// A share of the heat: what it is, and from where to where it goes along the bar, in watts.
struct Part
{
    std::string name;
    double from = 0.0, to = 0.0;
    double doubt = 0.0; ///< standard, of the far end
    std::string_view kind;
    bool alert = false;
};

units::Style style(units::System system)
{
    return {system, "kBtu/h", "kW"};
}

std::string heat(double watts, double doubt, units::System system)
{
    constexpr double as_shown = 0.03; // of the value, where no doubt is known
    return glued(doubt > 0 ? units::show_with_doubt(Measure::power, watts, doubt, style(system))
                           : units::show(Measure::power, watts, as_shown * std::abs(watts), style(system)));
}

bool does_not_close(heating::HeatBalance const& b)
{
    return b.apart && std::abs(b.apart->value()) > units::coverage;
}

std::vector<Part> parts_of(heating::HeatBalance const& b)
{
    std::vector<Part> out;
    if (!b.input)
        return out;
    double const input = units::in_si(*b.input);
    out.push_back({"gas in", 0, input, 0, "solid", false});
    double at = 0;
    auto add = [&](std::string name, std::optional<units::Power> const& heat, std::string_view kind)
    {
        if (!heat)
            return;
        out.push_back({std::move(name), at, at + units::in_si(*heat), 0, kind, false});
        at += units::in_si(*heat);
    };
    add("into the water", b.water, "part");
    add("up the vent", b.stack, "part");
    add("through the casing", b.jacket, "part");
    bool const both = b.water && b.stack;
    if (both && b.unexplained)
        out.push_back({at > input ? "more than went in" : "not found", std::min(at, input), std::max(at, input),
                       b.doubt ? units::in_si(*b.doubt) : 0.0, "part assumed", does_not_close(b)});
    else if (!both && at < input)
        out.push_back({b.water ? "not measured: vent" : "not measured: water", at, input, 0, "part assumed", false});
    return out;
}

class BalancePicture
{
public:
    BalancePicture(std::vector<Part> parts, units::System system, std::string id)
        : parts_(std::move(parts)), system_(system), sheet_(std::move(id), sheet_width)
    {
        for (auto const& part : parts_)
            most_ = std::max({most_, part.to + units::coverage * part.doubt});
    }

    [[nodiscard]] std::string drawn(std::vector<std::string> const& says)
    {
        for (std::size_t i = 0; i < parts_.size(); ++i)
            row(i);
        return sheet_.svg(first_row + row_height * static_cast<double>(parts_.size()), "Where the heat goes", says);
    }

private:
    std::vector<Part> parts_;
    units::System system_;
    SvgSheet sheet_;
    double most_ = 1e-9;

    [[nodiscard]] double x(double watts) const { return left + (right - left) * std::max(0.0, watts) / most_; }

    void row(std::size_t i)
    {
        auto const& part = parts_[i];
        double const base = first_row + row_height * static_cast<double>(i), top = base + 6;
        std::string_view const kind = part.alert ? "word alert haloed" : "word haloed";
        sheet_.write({left, base}, capitalised(part.name), {12.5, true, kind});
        sheet_.write({right, base}, heat(part.to - part.from, part.doubt, system_), {12.5, false, kind}, Anchor::end);
        constexpr double least = 1.5; // so that it can be seen
        double const from = x(part.from), to = std::max(x(part.to), from + least);
        sheet_.rectangle({from, top, to, top + bar_height}, 0, part.alert ? "box alert" : part.kind);
        if (part.doubt > 0)
            whisker(part, top + bar_height / 2);
        // Where the next one starts; its words stand between.
        constexpr double tick = 5;
        if (i > 0 && i + 1 < parts_.size())
        {
            sheet_.line({to, top + bar_height}, {to, top + bar_height + tick}, "fine", Layer::ground);
            sheet_.line({to, top + row_height - tick}, {to, top + row_height}, "fine", Layer::ground);
        }
    }

    /// What is left over is as long as its bar, more or less.
    void whisker(Part const& part, double y)
    {
        double const end = part.to, reach = units::coverage * part.doubt;
        double const low = x(end - reach), high = x(end + reach);
        std::string_view const kind = part.alert ? "edge alert" : "edge";
        sheet_.line({low, y}, {high, y}, kind);
        for (double const at : {low, high})
            sheet_.line({at, y - 4}, {at, y + 4}, kind);
    }
};

} // namespace

Drawing balance_drawing(heating::HeatBalance const& balance, units::System system, std::string const& id)
{
    Drawing out;
    auto const parts = parts_of(balance);
    if (parts.size() < 2)
        return out;
    std::string all;
    for (auto const& part : parts)
        all += (all.empty() ? "" : ", ") + part.name + " " + heat(part.to - part.from, part.doubt, system);
    out.in_words.push_back(capitalised(all) + ".");
    out.svg = BalancePicture(parts, system, id).drawn(out.in_words);
    bool const left_over = balance.unexplained.has_value();
    out.caption = "Heat a second: the gas that went in, and where it was found again, each bar from where the one "
                  "above it ends." +
                  std::string(left_over ? " The last bar is what is left over, with its doubt." : "");
    return out;
}

} // namespace padwalk::report
