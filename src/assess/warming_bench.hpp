#pragma once
#include "heater_bench.hpp"
#include "warming_curves.hpp"

#include "padwalk/heating/fuel_price.hpp"

namespace padwalk::assess
{

/// One water at its heater, from what it is to what is wanted of it.
struct WarmingBench
{
    HeaterBench& b;
    std::size_t water;
    visit::Water const& v;
    bool spa;
    heating::LossFacts const& facts;
    visit::Taken<units::Temperature> now;
    visit::Taken<units::Volume> volume;
    visit::Taken<units::Area> area;
    WarmingEntry entry;
    std::string evaporates; ///< what evaporation takes while still and with jets, as a clause

    [[nodiscard]] Workbench& w() const { return b.w; }
    [[nodiscard]] std::string at_wanted() const { return w().show(units::Reading::exact(entry.to)); }
    void basis(std::string sentence) { entry.basis.push_back(std::move(sentence)); }
};

/// The word of a choice, as models and files have it.
template <class E> [[nodiscard]] std::string word(E value)
{
    return fields::words_of<E>::words()[static_cast<std::size_t>(value)];
}

/// An output that was computed and has a value.
[[nodiscard]] std::optional<figures::OutputValue> told(figures::Figure const& figure, std::string_view name);

/// What goes into spa_heat_loss for the water at the temperature wanted, under a cover or not.
[[nodiscard]] figures::Inputs loss_inputs(WarmingBench const& m, bool covered);

/// The figure spa_heat_loss of the water at the temperature wanted, in the weather of the visit; none where that can't
/// be worked out. Either way the basis says why or by what.
[[nodiscard]] std::optional<figures::Figure> losses(WarmingBench& m);

/// What input and efficiency give to the water.
[[nodiscard]] units::Measured<units::Power> heat_of(units::Measured<units::Power> const& input,
                                                    units::Measured<units::Fraction> const& efficiency);

struct Price
{
    units::Measured<units::Number> price;
    heating::SoldUnit per;
};

/// Of what this heater runs on.
[[nodiscard]] std::optional<Price> own_price(HeaterBench const& b);

/// Energy and cost of a month at the temperature wanted with that loss; nothing where the heater can't hold it. The
/// figure is kept under the label, if there is one and any price was given.
void add_month(WarmingBench& m, figures::Figure const& loss, WarmingCost& out, std::string const& label);
/// Which price is missing.
void say_of_price(WarmingBench& m);

} // namespace padwalk::assess
