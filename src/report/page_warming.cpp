/// The section that says how long a water takes to warm, and what that and a month of it cost.

#include "plain.hpp"
#include "warming_drawing.hpp"

#include "padwalk/units/print.hpp"

#include <cmath>

namespace padwalk::report
{
namespace
{

using assess::WarmingEntry;

constexpr double beyond_interval = 0.025; ///< chance above which stopping short is within 19 cases in 20

std::string shown(figures::OutputValue const& out, units::System system)
{
    return glued(units::show_interval(*out.shape->measure, *out.value, out.low, out.high, out.shape->style(system)));
}

std::string shown_rounded(figures::OutputValue const& out, units::System system)
{
    constexpr double as_told = 0.1; // of it
    return glued(
        units::show(*out.shape->measure, *out.value, as_told * std::abs(*out.value), out.shape->style(system)));
}

// Where it may never get there the interval has no upper end.
std::string shown_of(WarmingEntry const& w, figures::OutputValue out, units::System system)
{
    if (w.stops_short < beyond_interval)
        return shown(out, system);
    auto least = out;
    least.value = least.high = least.low;
    out.low = out.high = *out.value;
    return "perhaps " + shown_rounded(out, system) + ", at least " + shown_rounded(least, system);
}

std::string shown(units::Temperature t, units::System system)
{
    constexpr double as_read = 1.0; // K: no more digits than a thermometer has
    return glued(units::show(units::Measure::temperature, units::in_si(t), as_read, {system, {}, {}}));
}

std::string name_of(assess::Assessment const& a, std::size_t item, std::string_view otherwise)
{
    return item < a.items.size() && item > 0 ? a.items[item].name : std::string(otherwise);
}

std::string tag_of(WarmingEntry const& w, units::System system)
{
    std::string const way = "from " + shown(w.from, system) + " to " + shown(w.to, system);
    if (w.stops_at)
        return way + ": never; it stops at about " + shown(*w.stops_at, system);
    if (!w.as_found.time)
        return "at " + shown(w.to, system);
    return way + (w.shortest ? ": at least " : ": ") + shown_of(w, *w.as_found.time, system) +
           (w.stops_short < beyond_interval ? "" : ", or never");
}

void add(Card& card, std::string label, std::string text)
{
    card.parts.push_back({std::move(label), {std::move(text) + "."}, Tone::plain, true});
}

std::string month_text(assess::WarmingCost const& cost, units::System system)
{
    return shown(*cost.month_energy, system) +
           (cost.month_cost ? ", cost " + shown(*cost.month_cost, system) : std::string());
}

// What the cover does: time, loss and month of the water in its other state.
std::string other_text(WarmingEntry const& w, units::System system)
{
    auto const& other = *w.other_cover;
    std::vector<std::string> said;
    if (!w.likely.empty())
        said.push_back(other.time ? "warm in " + shown(*other.time, system) : "it would not get there");
    if (other.loss)
        said.push_back("loss " + shown(*other.loss, system));
    if (other.month_energy)
        said.push_back("a month " + month_text(other, system));
    return joined(said, "; ", "; ");
}

Card warming_card(assess::Assessment const& a, WarmingEntry const& w, units::System system)
{
    auto const& cost = w.as_found;
    Card card{capitalised(name_of(a, w.water, "the water")) + ", by " + name_of(a, w.heater, "its heater"),
              tag_of(w, system),
              {},
              0,
              Tone::plain,
              {}};
    if (cost.energy)
        add(card, "Energy",
            shown_of(w, *cost.energy, system) + (w.shortest ? ", losses left out" : ", losses included"));
    if (cost.cost)
        add(card, "Cost", shown_of(w, *cost.cost, system) + ", in the money of the price");
    if (cost.loss)
        add(card, "Loss when warm", shown(*cost.loss, system) + ", in the weather of the visit");
    if (cost.month_energy)
        add(card, "A month of it", month_text(cost, system) + ", to hold " + shown(w.to, system) + " in that weather");
    if (w.other_cover)
        if (std::string const text = other_text(w, system); !text.empty())
            add(card, w.covered ? "Uncovered" : "Under a cover", text);
    if (!w.words.empty())
        card.parts.push_back({"In words", {w.words}, Tone::plain, false});
    return card;
}

void add_warming(Section& out, assess::Assessment const& a, WarmingEntry const& w, units::System system,
                 std::string const& id)
{
    out.blocks.emplace_back(warming_card(a, w, system));
    if (auto drawing = warming_drawing(a, w, system, id); !drawing.svg.empty())
        out.blocks.emplace_back(std::move(drawing));
    if (!w.basis.empty())
        out.blocks.emplace_back(Points{w.basis, Tone::quiet});
}

} // namespace

Section warming_section(assess::Assessment const& a, units::System system)
{
    Section out{"warmings", "Warming the water", {}};
    for (std::size_t i = 0; i < a.warmings.size(); ++i)
        add_warming(out, a, a.warmings[i], system, "warming-" + std::to_string(i + 1));
    return out;
}

} // namespace padwalk::report
