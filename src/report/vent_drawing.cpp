#include "vent_drawing.hpp"

#include "label_places.hpp"
#include "plain.hpp"
#include "vent_view.hpp"
#include "vent_words.hpp"

#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

using venting::JudgedRule;
using venting::Keeps;

constexpr double sheet_width = 360, top = 22, margin = 30, most_height = 300, lane = 15;
constexpr Lettering number_type{12, true, "word"};
constexpr Lettering alert_number{12, true, "word alert"};
constexpr Lettering quiet_type{12.5, false, "word quiet"};
constexpr Lettering fault_type{13, true, "word alert"};

bool is_broken(JudgedRule const& rule)
{
    return rule.keeps == Keeps::fails;
}

/// Metres to the sheet: to scale, and as large as fits.
class Scale
{
public:
    /// `beside` is kept free on the right, for the lanes of what lies above and below the end.
    Scale(Box const& metres, double beside) : metres_(metres)
    {
        constexpr double largest = 110; // per metre: a short stub is not blown up
        double const wide = metres.right - metres.left, high = metres.top - metres.bottom;
        per_metre_ = std::min({(sheet_width - 2 * margin - beside) / wide, most_height / high, largest});
        left_ = (sheet_width - beside - per_metre_ * wide) / 2;
    }
    [[nodiscard]] Spot at(Spot metres) const
    {
        return {left_ + per_metre_ * (metres.x - metres_.left),
                top + margin / 2 + per_metre_ * (metres_.top - metres.y)};
    }
    [[nodiscard]] double bottom() const { return at({0, metres_.bottom}).y; }
    [[nodiscard]] double per_metre() const { return per_metre_; }

private:
    Box metres_; ///< y upwards
    double per_metre_ = 1.0, left_ = 0.0;
};

Box bounds_of(VentView const& view)
{
    Box out{view.heater.left - 0.4, view.heater.top, view.heater.right + 0.4, view.heater.bottom};
    auto const take = [&out](Spot s)
    {
        out.left = std::min(out.left, s.x), out.right = std::max(out.right, s.x);
        out.bottom = std::min(out.bottom, s.y), out.top = std::max(out.top, s.y);
    };
    for (auto const& spot : view.pipe)
        take(spot);
    for (auto const& spot : view.roof)
        take(spot);
    for (auto const& facing : view.facing)
        take(facing.thing);
    take({0, view.ground});
    return out;
}

/// Those that are not kept, and of the others those that were measured: what can be drawn.
std::vector<JudgedRule const*> shown_rules(assess::VentEntry const& vent)
{
    std::vector<JudgedRule const*> out;
    for (auto const* rule : judged_rules(vent))
        if (rule->keeps != Keeps::holds || rule->margin)
            out.push_back(rule);
    return out;
}

double lanes_beside(VentView const& view)
{
    auto const upright =
        std::count_if(view.facing.begin(), view.facing.end(), [](Facing const& f) { return !f.level; });
    return lane * static_cast<double>(upright);
}

class VentPicture
{
public:
    VentPicture(assess::VentEntry const& vent, VentView const& view, units::System system, std::string id)
        : vent_(vent), view_(view), system_(system), rules_(shown_rules(vent)),
          scale_(bounds_of(view), lanes_beside(view)), sheet_(std::move(id), sheet_width),
          labels_({4, 4, sheet_width - 4, scale_.bottom() + 20})
    {
    }

    [[nodiscard]] std::string drawn(std::string const& title, std::vector<std::string> const& says)
    {
        ground();
        roof();
        heater();
        pipe();
        std::vector<std::vector<Spot>> places(rules_.size());
        for (std::size_t i = 0; i < rules_.size(); ++i)
            places[i] = mark_of(*rules_[i]);
        for (std::size_t i = 0; i < rules_.size(); ++i)
            numbered(i, places[i]);
        name("heater", heater_line_);
        name("ground", ground_line_);
        if (!roof_line_.empty())
            name("roof", roof_line_);
        double y = scale_.bottom() + 34;
        y = scale_bar(y);
        return sheet_.svg(legend(y), title, says);
    }

private:
    assess::VentEntry const& vent_;
    VentView const& view_;
    units::System system_;
    std::vector<JudgedRule const*> rules_;
    Scale scale_;
    SvgSheet sheet_;
    LabelPlaces labels_;
    std::vector<Spot> ground_line_, heater_line_, roof_line_;
    double level_lanes_ = 0, upright_lanes_ = 0;

    [[nodiscard]] Spot at(double x, double y) const { return scale_.at({x, y}); }
    [[nodiscard]] std::vector<Spot> on_sheet(std::vector<Spot> const& metres) const
    {
        std::vector<Spot> out;
        for (auto const& spot : metres)
            out.push_back(scale_.at(spot));
        return out;
    }

    void ground()
    {
        double const y = at(0, view_.ground).y, floor = at(0, view_.heater.bottom).y;
        double const left = at(view_.heater.left - 0.3, 0).x, right = at(view_.heater.right + 0.3, 0).x;
        std::vector<Spot> line{{8, y}};
        if (view_.sunk)
            line.insert(line.end(), {{left, y}, {left, floor}, {right, floor}, {right, y}});
        line.push_back({sheet_width - 8, y});
        sheet_.curve(line, "edge", Layer::ground);
        constexpr double every = 14, stroke = 6;
        for (double x = 14; x < sheet_width - 10; x += every)
            if (!view_.sunk || x < left - 2 || x - stroke > right + 2)
                sheet_.line({x, y + 1}, {x - stroke, y + 1 + stroke}, "fine", Layer::ground);
        labels_.keep_off(filled_in(line, 4));
        ground_line_ = filled_in({{sheet_width - 60, y}, {sheet_width - 10, y}}, 6);
    }

    void roof()
    {
        if (view_.roof.empty())
            return;
        roof_line_ = filled_in(on_sheet(view_.roof), 4);
        sheet_.curve(on_sheet(view_.roof), vent_.vent.roof_slope ? "edge" : "part assumed", Layer::ground);
        labels_.keep_off(roof_line_);
    }

    void heater()
    {
        Spot const a = at(view_.heater.left, view_.heater.top), b = at(view_.heater.right, view_.heater.bottom);
        sheet_.rectangle({a.x, a.y, b.x, b.y}, 3, "part assumed", Layer::ground);
        std::vector<Spot> const outline{a, {b.x, a.y}, b, {a.x, b.y}, a};
        labels_.keep_off(filled_in(outline, 4));
        heater_line_ = filled_in({{a.x, (a.y + b.y) / 2}, b}, 6);
    }

    void pipe()
    {
        auto const line = on_sheet(view_.pipe);
        sheet_.curve(line, "pipe");
        labels_.keep_off(filled_in(line, 4));
        Spot const end = line.back();
        bool const open_end = vent_.vent.capped == false;
        if (vent_.vent.capped)
        {
            std::vector<Spot> const cap{{end.x - 9, end.y - 4}, {end.x, end.y - 10}, {end.x + 9, end.y - 4}};
            sheet_.curve(cap, open_end ? "edge alert broken" : "edge");
            labels_.keep_off(filled_in(cap, 4));
        }
    }

    /// A line with a stroke at each end; broken, in word and in dashes, where the rule is.
    std::vector<Spot> dimension(Spot from, Spot to, bool broken, bool beyond = false)
    {
        std::string_view const kind = broken ? "edge alert broken" : "fine";
        std::string_view const stroke = broken ? "edge alert" : "fine";
        bool const level = std::abs(to.x - from.x) >= std::abs(to.y - from.y);
        sheet_.line(from, to, kind);
        for (Spot const s : {from, to})
        {
            if (beyond && s.x == to.x && s.y == to.y)
                continue;
            if (level)
                sheet_.line({s.x, s.y - 5}, {s.x, s.y + 5}, stroke);
            else
                sheet_.line({s.x - 5, s.y}, {s.x + 5, s.y}, stroke);
        }
        auto spots = filled_in({from, to}, 4);
        labels_.keep_off(spots);
        return spots;
    }

    std::vector<Spot> faced(Facing const& facing)
    {
        Spot const end = scale_.at(view_.end());
        Spot thing = scale_.at(facing.thing), from = end;
        bool const broken = is_broken(*facing.rule);
        if (facing.level)
        {
            double const y = end.y + lane * (++level_lanes_);
            from.y = thing.y = y;
        }
        else
        {
            double const x = end.x + lane * (++upright_lanes_);
            from.x = thing.x = x;
        }
        auto spots = dimension(from, thing, broken, facing.beyond);
        if (!facing.beyond)
            sheet_.circle(thing, 3.5, broken ? "solid alert" : "solid");
        return spots;
    }

    /// Where a rule sits; what is measured is drawn with its line.
    std::vector<Spot> mark_of(JudgedRule const& rule)
    {
        for (auto const& facing : view_.facing)
            if (facing.rule == &rule)
                return faced(facing);
        auto const line = on_sheet(view_.pipe);
        if (rule.id.starts_with("run_") && view_.has_run())
        {
            Spot const a = line[view_.run_from], b = line[view_.run_from + 1];
            double const y = std::max(a.y, b.y) + 12;
            return dimension({a.x, y}, {b.x, y}, is_broken(rule));
        }
        if (rule.id == "draft_hood_rise")
        {
            double const x = line.front().x - 16;
            return dimension({x, line.front().y}, {x, line.back().y}, is_broken(rule));
        }
        bool const of_run = rule.id == "slope" || rule.id == "bends" || rule.id == "buried" || rule.id == "enclosed" ||
                            rule.id == "under_deck" || rule.id.starts_with("combustibles");
        if (of_run && view_.has_run())
            return filled_in({line[view_.run_from], line[view_.run_from + 1]}, 8);
        if (rule.id == "cap")
            return {line.back()};
        if (rule.id.starts_with("pit_") || rule.id == "propane_below_grade" || rule.id == "service_space")
            return {at(view_.heater.right + 0.3, view_.heater.bottom),
                    at(view_.heater.left - 0.3, view_.heater.bottom)};
        return of_run ? filled_in(line, 8) : std::vector<Spot>{line.front()};
    }

    void numbered(std::size_t i, std::vector<Spot> const& of)
    {
        constexpr double radius = 9, near = 12;
        auto const [box, shape] = labels_.place({{2 * radius, 2 * radius}}, of);
        Spot const middle{(box.left + box.right) / 2, (box.top + box.bottom) / 2};
        Spot const anchor = nearest(of, box);
        if (distance(anchor, box) > near)
            sheet_.line(anchor, middle, "fine", Layer::ground);
        ring(middle, i);
    }

    void ring(Spot middle, std::size_t i)
    {
        bool const broken = is_broken(*rules_[i]);
        sheet_.circle(middle, 9, broken ? "box alert" : "part thin");
        sheet_.write({middle.x, middle.y + 4.2}, std::to_string(i + 1), broken ? alert_number : number_type,
                     Anchor::middle);
    }

    void name(std::string_view text, std::vector<Spot> const& of)
    {
        auto const [box, shape] = labels_.place({{text_width(text, quiet_type), quiet_type.line_height()}}, of);
        sheet_.write({box.left, box.top + 0.95 * quiet_type.size}, text, quiet_type);
    }

    double scale_bar(double y)
    {
        bool const us = system_ == units::System::us;
        double const unit = us ? 0.3048 : 1.0;
        double length = us ? 1.0 : 0.5;
        for (double const longer : {1.0, 2.0, 5.0, 10.0, 20.0, 50.0})
            if (longer * unit * scale_.per_metre() <= 90)
                length = longer;
        double const left = 16, right = left + length * unit * scale_.per_metre();
        sheet_.line({left, y}, {right, y}, "edge");
        for (double const x : {left, right})
            sheet_.line({x, y - 4}, {x, y + 4}, "edge");
        sheet_.write({right + 8, y + 4}, units::show_significant(length, 2) + (us ? " ft" : " m"), quiet_type);
        return y + 26;
    }

    double legend(double y)
    {
        constexpr double left = 34, room = sheet_width - left - 8;
        for (std::size_t i = 0; i < rules_.size(); ++i)
        {
            JudgedRule const& rule = *rules_[i];
            std::string const text = capitalised(kept_word(rule.keeps)) + ": " + vent_rule_name(rule) + ", " +
                                     vent_rule_found(rule, system_);
            Lettering const& type = is_broken(rule) ? fault_type : quiet_type;
            ring({18, y}, i);
            y = std::max(sheet_.write_lines({left, y + 4.5}, lines_within(text, room, type), type) - 4.5 + 5, y + 23);
        }
        return y - 6;
    }
};

std::vector<std::string> vent_in_words(assess::VentEntry const& vent, units::System system)
{
    std::vector<std::string> out;
    auto const& v = vent.vent;
    std::string run;
    auto const add = [&](std::optional<units::Measured<units::Length>> const& length, std::string const& what)
    {
        if (length)
            run += (run.empty() ? "" : ", ") + plain_quantity(units::Reading::of(*length), system) + what;
    };
    add(v.height, " up");
    add(v.run, " along");
    add(v.bore, " bore");
    if (!run.empty())
        out.push_back("From the heater to the end: " + run + ".");
    for (auto const* rule : judged_rules(vent))
        out.push_back(capitalised(kept_word(rule->keeps)) + ": " + vent_rule_name(*rule) + ", " +
                      vent_rule_found(*rule, system) + ".");
    return out;
}

} // namespace

Drawing vent_drawing(assess::Assessment const& a, assess::VentEntry const& vent, units::System system,
                     std::string const& id)
{
    Drawing out;
    auto const view = vent_view(vent);
    if (!view)
        return out;
    auto const says = vent_in_words(vent, system);
    std::string const name = vent.item < a.items.size() ? a.items[vent.item].name : std::string("the vent");
    out.svg = VentPicture(vent, *view, system, id).drawn(capitalised(name) + ", from the side, to scale", says);
    out.caption = "From the side, to scale. Dashed lines marked 'not kept' break a rule; thin ones do not.";
    for (auto const& sentence : view->taken)
        out.caption += " " + sentence;
    if (!says.empty())
        out.in_words = {says.front()}; // the rules stand in the table
    return out;
}

} // namespace padwalk::report
