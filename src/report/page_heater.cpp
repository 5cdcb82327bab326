/// The section that shows where a gas heater's heat goes, and holds its readings against a sound one.

#include "balance_drawing.hpp"
#include "loop_words.hpp"
#include "plain.hpp"
#include "sound_table.hpp"

#include <cmath>

namespace padwalk::report
{
namespace
{

constexpr std::string_view doubt_of_heaters =
    "One doubt is the standard uncertainty of the reading and of what is known of the heater, taken together; chance "
    "alone gives more than 2 about once in 20.";

Card heater_card(assess::Assessment const& a, assess::HeaterEntry const& heater)
{
    std::string const name = heater.item < a.items.size() ? a.items[heater.item].name : std::string("the heater");
    Card card{capitalised(name), {}, {}, 0, Tone::plain, {}};
    if (heater.balance && heater.balance->apart)
    {
        bool const closes = std::abs(heater.balance->apart->value()) <= units::coverage;
        card.tag = closes ? "its heat balance closes within its doubt" : "its heat balance does not close";
    }
    if (!heater.balance_words.empty())
        card.parts.push_back(
            {{}, {capitalised(heater.balance_words) + (heater.balance_words.back() == '.' ? "" : ".")}});
    return card;
}

} // namespace

Section heater_section(assess::Assessment const& a, units::System system)
{
    Section out{"heaters", "Heat, in and out", {}};
    for (std::size_t i = 0; i < a.heaters.size(); ++i)
    {
        auto const& heater = a.heaters[i];
        out.blocks.emplace_back(heater_card(a, heater));
        if (heater.balance)
            if (auto drawing = balance_drawing(*heater.balance, system, "heat-" + std::to_string(i + 1));
                !drawing.svg.empty())
                out.blocks.emplace_back(std::move(drawing));
        if (!heater.readings.empty())
        {
            out.blocks.emplace_back(sound_table(heater.readings,
                                                "Each reading, and what this heater would show were it sound",
                                                "a sound heater", system));
            out.blocks.emplace_back(Paragraph{std::string(doubt_of_heaters), Tone::quiet});
        }
        if (!heater.basis.empty())
            out.blocks.emplace_back(Points{heater.basis, Tone::quiet});
    }
    return out;
}

} // namespace padwalk::report
