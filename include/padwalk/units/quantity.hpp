#pragma once
/// The quantity types of padwalk. Start here.
///
/// Plain dimensions are Boost.Units quantities in SI. Where two things share a dimension and must still not be
/// mixed (a head and a pipe length, alkalinity as CaCO3 and chlorine as Cl2), a `Kind` wraps the quantity with a tag.
/// Where a reading is a point on a scale and not an amount (a temperature, a gauge pressure, a pH), a `Point` does.
///
/// Dimensionless Boost quantities convert to and from double silently; `Fraction` and `Number` are Kinds, so they
/// don't.

#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/amount.hpp>
#include <boost/units/systems/si/area.hpp>
#include <boost/units/systems/si/base.hpp>
#include <boost/units/systems/si/current.hpp>
#include <boost/units/systems/si/dimensionless.hpp>
#include <boost/units/systems/si/dynamic_viscosity.hpp>
#include <boost/units/systems/si/electric_potential.hpp>
#include <boost/units/systems/si/energy.hpp>
#include <boost/units/systems/si/frequency.hpp>
#include <boost/units/systems/si/kinematic_viscosity.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/mass.hpp>
#include <boost/units/systems/si/mass_density.hpp>
#include <boost/units/systems/si/power.hpp>
#include <boost/units/systems/si/pressure.hpp>
#include <boost/units/systems/si/resistance.hpp>
#include <boost/units/systems/si/temperature.hpp>
#include <boost/units/systems/si/time.hpp>
#include <boost/units/systems/si/velocity.hpp>
#include <boost/units/systems/si/volume.hpp>

namespace padwalk::units
{

namespace bu = boost::units;

/// A base dimension to a power. Boost keeps a zero power in its list, which would make the quotient of two quantities
/// another type than the quantity declared here; so a zero power is no dimension at all.
template <class Base, long N> struct BasePower
{
    using type = typename bu::static_power<typename Base::dimension_type, bu::static_rational<N>>::type;
};
template <class Base> struct BasePower<Base, 0>
{
    using type = bu::dimensionless_type;
};
template <class A, class B> using TimesDimension = typename boost::mpl::times<A, B>::type;

/// The SI quantity with length^L mass^M time^T temperature^K current^I.
template <long L, long M, long T, long K = 0, long I = 0>
using Si = bu::quantity<
    bu::unit<TimesDimension<TimesDimension<TimesDimension<typename BasePower<bu::length_base_dimension, L>::type,
                                                          typename BasePower<bu::mass_base_dimension, M>::type>,
                                           typename BasePower<bu::time_base_dimension, T>::type>,
                            TimesDimension<typename BasePower<bu::temperature_base_dimension, K>::type,
                                           typename BasePower<bu::current_base_dimension, I>::type>>,
             bu::si::system>>;

using Length = bu::quantity<bu::si::length>;
using Area = bu::quantity<bu::si::area>;
using Volume = bu::quantity<bu::si::volume>;
using VolumeFlow = Si<3, 0, -1>;
using Mass = bu::quantity<bu::si::mass>;
using MassFlow = Si<0, 1, -1>;
using Velocity = bu::quantity<bu::si::velocity>;
using Duration = bu::quantity<bu::si::time>;
using Pressure = bu::quantity<bu::si::pressure>; ///< a difference of two pressures; readings are Points, below
using Power = bu::quantity<bu::si::power>;
using Energy = bu::quantity<bu::si::energy>;
using Voltage = bu::quantity<bu::si::electric_potential>;
using Current = bu::quantity<bu::si::current>;
using Resistance = bu::quantity<bu::si::resistance>;
using Density = bu::quantity<bu::si::mass_density>;
using DynamicViscosity = bu::quantity<bu::si::dynamic_viscosity>;
using KinematicViscosity = bu::quantity<bu::si::kinematic_viscosity>;
using TemperatureDifference = bu::quantity<bu::si::temperature>;
using SpecificHeat = Si<2, 0, -2, -1>;        ///< J/(kg K)
using ThermalConductivity = Si<1, 1, -3, -1>; ///< W/(m K)
using LatentHeat = Si<2, 0, -2>;              ///< J/kg
using HeatFlux = Si<0, 1, -3>;                ///< W/m2
using MassFlux = Si<-2, 1, -1>;               ///< kg/(m2 s)
using Conductivity = Si<-3, -1, 3, 0, 2>;     ///< electrical, S/m
using Frequency = bu::quantity<bu::si::frequency>;
using Dimensionless = bu::quantity<bu::si::dimensionless>;

/// An amount that may only be mixed with its own kind. Adds, subtracts, scales and divides like a quantity.
template <class Tag, class Plain_> class Kind
{
public:
    using Plain = Plain_;

    constexpr Kind() : plain_(Plain::from_value(0.0)) {}
    constexpr explicit Kind(Plain plain) : plain_(plain) {}

    /// The same amount without its kind: the one way out, so that leaving is written down.
    [[nodiscard]] constexpr Plain plain() const { return plain_; }
    [[nodiscard]] constexpr double value() const { return plain_.value(); }
    [[nodiscard]] static constexpr Kind from_value(double si) { return Kind(Plain::from_value(si)); }

    friend constexpr Kind operator+(Kind a, Kind b) { return Kind(a.plain_ + b.plain_); }
    friend constexpr Kind operator-(Kind a, Kind b) { return Kind(a.plain_ - b.plain_); }
    friend constexpr Kind operator-(Kind a) { return Kind(-a.plain_); }
    friend constexpr Kind operator*(Kind a, double k) { return Kind(a.plain_ * k); }
    friend constexpr Kind operator*(double k, Kind a) { return Kind(a.plain_ * k); }
    friend constexpr Kind operator/(Kind a, double k) { return Kind(a.plain_ / k); }
    friend constexpr double operator/(Kind a, Kind b) { return a.value() / b.value(); }
    friend constexpr bool operator==(Kind a, Kind b) { return a.value() == b.value(); }
    friend constexpr bool operator!=(Kind a, Kind b) { return a.value() != b.value(); }
    friend constexpr bool operator<(Kind a, Kind b) { return a.value() < b.value(); }
    friend constexpr bool operator>(Kind a, Kind b) { return a.value() > b.value(); }
    friend constexpr bool operator<=(Kind a, Kind b) { return a.value() <= b.value(); }
    friend constexpr bool operator>=(Kind a, Kind b) { return a.value() >= b.value(); }

private:
    Plain plain_;
};

/// A point on a scale. Two points can't be added; their difference is an amount, and an amount moves a point.
template <class Tag, class Difference_> class Point
{
public:
    using Difference = Difference_;

    constexpr Point() : from_zero_(Difference::from_value(0.0)) {}
    constexpr explicit Point(Difference from_zero) : from_zero_(from_zero) {}

    [[nodiscard]] constexpr Difference from_zero() const { return from_zero_; }
    [[nodiscard]] constexpr double value() const { return from_zero_.value(); }
    [[nodiscard]] static constexpr Point from_value(double si) { return Point(Difference::from_value(si)); }

    friend constexpr Difference operator-(Point a, Point b) { return a.from_zero_ - b.from_zero_; }
    friend constexpr Point operator+(Point a, Difference d) { return Point(a.from_zero_ + d); }
    friend constexpr Point operator-(Point a, Difference d) { return Point(a.from_zero_ - d); }
    friend constexpr bool operator==(Point a, Point b) { return a.value() == b.value(); }
    friend constexpr bool operator!=(Point a, Point b) { return a.value() != b.value(); }
    friend constexpr bool operator<(Point a, Point b) { return a.value() < b.value(); }
    friend constexpr bool operator>(Point a, Point b) { return a.value() > b.value(); }
    friend constexpr bool operator<=(Point a, Point b) { return a.value() <= b.value(); }
    friend constexpr bool operator>=(Point a, Point b) { return a.value() >= b.value(); }

private:
    Difference from_zero_;
};

using Fraction = Kind<struct FractionTag, Dimensionless>;         ///< a share of a whole: efficiency, humidity, O2
using GasFraction = Kind<struct GasFractionTag, Dimensionless>;   ///< share by volume in a gas, read in ppm: CO
using Number = Kind<struct NumberTag, Dimensionless>;             ///< a pure number: loss coefficient, index, factor
using Head = Kind<struct HeadTag, Length>;                        ///< height of the liquid pumped, not a pipe's length
using RotationSpeed = Kind<struct RotationSpeedTag, Frequency>;   ///< revolutions per second
using HeatingValue = Kind<struct HeatingValueTag, Si<-1, 1, -2>>; ///< J/m3 of gas; the dimension is also a pressure's

using AsCalciumCarbonate = Kind<struct AsCalciumCarbonateTag, Density>; ///< alkalinity, hardness
using AsChlorine = Kind<struct AsChlorineTag, Density>;                 ///< free, combined, total chlorine as Cl2
using AsSodiumChloride = Kind<struct AsSodiumChlorideTag, Density>;     ///< salt
using AsBoron = Kind<struct AsBoronTag, Density>;                       ///< borate
using AsCyanuricAcid = Kind<struct AsCyanuricAcidTag, Density>;         ///< cyanurate, stabilizer
using AsSulfate = Kind<struct AsSulfateTag, Density>;                   ///< sulfate as SO4
using AsHydrogenChloride = Kind<struct AsHydrogenChlorideTag, Density>; ///< acid added, as pure HCl
using AsBicarbonate = Kind<struct AsBicarbonateTag, Density>;           ///< salt added, as pure NaHCO3
using AsCarbonate = Kind<struct AsCarbonateTag, Density>;               ///< salt added, as pure Na2CO3
using AsCalciumChloride = Kind<struct AsCalciumChlorideTag, Density>;   ///< salt added, as pure CaCl2
using AsItself = Kind<struct AsItselfTag, Density>;                     ///< dissolved solids, a metal
/// Amount of a dissolved substance, or its equivalents, per kg of water, mol/kg.
using Molality =
    Kind<struct MolalityTag,
         bu::quantity<
             bu::unit<typename boost::mpl::divides<bu::amount_dimension, bu::mass_dimension>::type, bu::si::system>>>;

using PhDifference = Kind<struct PhDifferenceTag, Dimensionless>;
using Ph = Point<struct PhTag, PhDifference>;
using Temperature = Point<struct TemperatureTag, TemperatureDifference>; ///< zero is absolute zero
using GaugePressure = Point<struct GaugePressureTag, Pressure>; ///< zero is the air's pressure; vacuum is negative
using AbsolutePressure = Point<struct AbsolutePressureTag, Pressure>; ///< zero is none

/// The SI value of any quantity, kind or point, for a solver's kernel.
template <class Q> [[nodiscard]] constexpr double in_si(Q const& quantity)
{
    return quantity.value();
}

/// A quantity, kind or point from its SI value.
template <class Q> [[nodiscard]] constexpr Q of_si(double value)
{
    return Q::from_value(value);
}

/// Absolute pressure of a gauge reading in air of the given pressure.
[[nodiscard]] constexpr AbsolutePressure absolute(GaugePressure reading, AbsolutePressure air)
{
    return air + reading.from_zero();
}

} // namespace padwalk::units
