#pragma once
/// A number of the data that stands alone: its unit is in its meaning.

#include "padwalk/reference/sources.hpp"
#include "padwalk/units/quantity.hpp"

namespace padwalk::heating
{

struct Constant
{
    units::Number number{};
    std::optional<units::Number> doubt; ///< one standard uncertainty
    std::string meaning;
    reference::Cited source;
    static fields::Record<Constant> const& declaration();

    [[nodiscard]] double value() const { return number.value(); }
};

} // namespace padwalk::heating
