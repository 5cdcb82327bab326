// What must not compile, and its neighbours that must.

#include "catch_compat.hpp"
#include "padwalk/units/measure.hpp"
#include "padwalk/units/quantity.hpp"

#include <type_traits>

using namespace padwalk::units;

namespace
{

template <class A, class B>
concept CanAdd = requires(A a, B b)
{
    a + b;
};
template <class A, class B>
concept CanSubtract = requires(A a, B b)
{
    a - b;
};
template <class A, class B>
concept CanMultiply = requires(A a, B b)
{
    a* b;
};
template <class A, class B>
concept CanCompare = requires(A a, B b)
{
    a < b;
};
template <class A, class B> constexpr bool becomes = std::is_convertible_v<A, B>;

// Dimensions don't mix.
static_assert(!CanAdd<VolumeFlow, Volume>);
static_assert(!CanAdd<Length, double>);
static_assert(!CanAdd<Power, Energy>);
static_assert(!CanCompare<VolumeFlow, Volume>);
static_assert(!becomes<double, Length> && !becomes<Length, double> && !std::is_constructible_v<Length, double>);
static_assert(!becomes<Pressure, Power>);

// A point is not an amount.
static_assert(!CanAdd<Temperature, Temperature>);
static_assert(!CanAdd<GaugePressure, GaugePressure>);
static_assert(!CanAdd<AbsolutePressure, AbsolutePressure>);
static_assert(!CanAdd<Ph, Ph>);
static_assert(!CanMultiply<Temperature, double> && !CanMultiply<double, Ph>);
static_assert(!CanSubtract<GaugePressure, AbsolutePressure>);
static_assert(!CanSubtract<AbsolutePressure, GaugePressure>);
static_assert(!CanCompare<GaugePressure, AbsolutePressure>);
static_assert(!becomes<Temperature, TemperatureDifference> && !becomes<TemperatureDifference, Temperature>);
static_assert(!becomes<GaugePressure, AbsolutePressure> && !becomes<Pressure, GaugePressure>);
static_assert(!CanAdd<Ph, double> && !CanAdd<Ph, Number> && !becomes<double, Ph>);

// Things that share a dimension and are still not the same.
static_assert(!CanAdd<Head, Length> && !becomes<Length, Head> && !becomes<Head, Length>);
static_assert(!CanAdd<AsChlorine, AsCalciumCarbonate> && !becomes<AsChlorine, AsCalciumCarbonate>);
static_assert(!CanAdd<AsSodiumChloride, AsItself> && !CanAdd<AsBoron, AsCyanuricAcid>);
static_assert(!CanAdd<AsChlorine, Density> && !becomes<Density, AsChlorine>);
static_assert(!CanAdd<HeatingValue, Pressure> && !becomes<Pressure, HeatingValue>);
static_assert(!CanAdd<RotationSpeed, Frequency> && !becomes<Frequency, RotationSpeed>);
static_assert(!CanAdd<Fraction, Number> && !CanAdd<Fraction, GasFraction> && !becomes<Fraction, Number>);
static_assert(!CanAdd<PhDifference, Number>);
static_assert(!CanCompare<AsChlorine, AsCalciumCarbonate>);
static_assert(!CanMultiply<AsChlorine, AsChlorine>);

// Pure numbers come and go only in so many words.
static_assert(!becomes<double, Fraction> && !becomes<Fraction, double>);
static_assert(!becomes<double, Number> && !becomes<Number, double>);
static_assert(!becomes<double, GasFraction> && !becomes<GasFraction, double>);
static_assert(!CanAdd<Fraction, double> && !CanCompare<Fraction, double>);

// Their neighbours that are meant to work.
static_assert(std::is_same_v<decltype(VolumeFlow{} * Pressure{}), Power>);
static_assert(std::is_same_v<decltype(Volume{} / Duration{}), VolumeFlow>);
static_assert(std::is_same_v<decltype(Power{} * Duration{}), Energy>);
static_assert(std::is_same_v<decltype(Temperature{} - Temperature{}), TemperatureDifference>);
static_assert(std::is_same_v<decltype(Temperature{} + TemperatureDifference{}), Temperature>);
static_assert(std::is_same_v<decltype(GaugePressure{} - GaugePressure{}), Pressure>);
static_assert(std::is_same_v<decltype(AbsolutePressure{} - AbsolutePressure{}), Pressure>);
static_assert(std::is_same_v<decltype(Ph{} - Ph{}), PhDifference>);
static_assert(std::is_same_v<decltype(Head{} + Head{}), Head>);
static_assert(std::is_same_v<decltype(2.0 * AsChlorine{}), AsChlorine>);
static_assert(std::is_same_v<decltype(AsChlorine{} / AsChlorine{}), double>);
static_assert(std::is_same_v<decltype(Head{}.plain() + Length{}), Length>);
static_assert(CanCompare<Fraction, Fraction> && CanAdd<Fraction, Fraction>);
static_assert(Quantity<Temperature> && Quantity<Fraction> && !Quantity<double>);

} // namespace

TEST_CASE("a gauge reading and the air's pressure make an absolute one", "[units]")
{
    CHECK(absolute(GaugePressure::from_value(-2e4), AbsolutePressure::from_value(101325)).value() == 81325);
    CHECK((Temperature::from_value(313) - Temperature::from_value(303)).value() == 10);
    CHECK(Head().value() == 0);
    CHECK((Head::from_value(3) / Head::from_value(2)) == 1.5);
}
