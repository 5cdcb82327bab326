#pragma once
/// One quantity of the data, with what it means and where it comes from.

#include "padwalk/reference/sources.hpp"
#include "padwalk/units/quantity.hpp"

#include <string>

namespace padwalk::level
{

template <class Q> struct Stated
{
    Q value{};
    std::string meaning;
    reference::Cited source;

    static fields::Record<Stated> const& declaration()
    {
        static fields::Record<Stated> const record =
            fields::Record<Stated>("stated", "a quantity, what it means and its source")
                .field("value", &Stated::value, "the quantity")
                .required()
                .field("meaning", &Stated::meaning, "what it is")
                .required()
                .field("source", &Stated::source, "where it comes from")
                .required();
        return record;
    }

    [[nodiscard]] double si() const { return units::in_si(value); }
};

} // namespace padwalk::level
