#pragma once
/// Readings: a value, its doubt and where it came from; reading them from what people write.

#include "padwalk/units/measure.hpp"
#include "padwalk/units/unit_table.hpp"

#include <string>
#include <string_view>
#include <variant>

namespace padwalk::units
{

/// A written '± a' is taken as the range the writer would bet on 19 times in 20, so a = 2 standard uncertainties
/// (coverage factor 2, JCGM 100:2008 6.3.3 [gum-2008]). Printed '±' and intervals mean the same, so what is
/// printed can be read back.
inline constexpr double coverage = 2.0;

/// The amount by which two values of Q differ.
template <class Q> struct difference_of
{
    using type = Q;
};
template <class Tag, class D> struct difference_of<Point<Tag, D>>
{
    using type = D;
};
template <class Q> using Difference = typename difference_of<Q>::type;

/// A measured value. `method` says how it was had: an instrument's name, 'nameplate', 'assumed', 'computed'.
template <Quantity Q> struct Measured
{
    Q value{};
    Difference<Q> doubt{}; ///< standard uncertainty, same unit
    std::string method;
};

/// A measured value with its type as data: what the catalogue and the reports pass around.
struct Reading
{
    Measure measure = Measure::number;
    double value = 0.0; ///< SI
    double doubt = 0.0; ///< standard uncertainty, SI
    std::string method;
    bool doubt_written = false; ///< the text carried its own ±

    template <Quantity Q> static Reading of(Measured<Q> const& m)
    {
        return {measure_of<Q>::value, in_si(m.value), in_si(m.doubt), m.method, false};
    }
    template <Quantity Q> static Reading exact(Q value)
    {
        return {measure_of<Q>::value, in_si(value), 0.0, "given", false};
    }
};

/// Where and why a text is not a reading; offsets are bytes of the text as given.
struct TextProblem
{
    std::size_t offset = 0;
    std::size_t length = 0;
    std::string message;
    std::string advice; ///< what would pass
};

/// Read what a person writes for a field of this measure.
///
/// Takes '18 psi', '-6 inHg', '333,000 Btu/h', '40 °C', '1 ft 6 in', '1 1/2 in', '5 gr/gal', '90 ppm as CaCO3', '7.6',
/// and doubt as '18 ± 1 psi', '18 +/- 1 psi', '45 gpm ± 5 %'. A unit is required unless the measure is a pure
/// number. Case is forgiven where it can't change the meaning ('GPM'), refused where it can ('mpa').
/// `field` is the name used in messages.
[[nodiscard]] std::variant<Reading, TextProblem> read_quantity(std::string_view text, Measure measure,
                                                               std::string_view field);

/// A number as people write it ('333,000', '1 1/2', '.5', '1.5e-6'), the whole text; none if it is not one.
[[nodiscard]] std::variant<double, TextProblem> read_number(std::string_view text, std::string_view field);

} // namespace padwalk::units
