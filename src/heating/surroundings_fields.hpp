#pragma once
/// The inputs that say what surrounds a water, declared once for every figure that works with its losses.

#include "padwalk/heating/heat_loss.hpp"

#include "padwalk/fields/record.hpp"

namespace padwalk::heating
{

struct SurroundingsInput
{
    std::optional<units::Area> area;
    std::optional<units::Temperature> air_temperature;
    std::optional<units::Fraction> humidity;
    std::optional<units::Velocity> wind;
    std::optional<units::Length> altitude;
    std::optional<Activity> activity;
    std::optional<EvaporationForm> form;
    std::optional<units::Number> evaporation_scale;
    std::optional<units::Area> falling_area;
    std::optional<units::Fraction> sky_share, cloud;
    std::optional<units::Temperature> sky_temperature;
    std::optional<units::HeatFlux> sun;
    std::optional<units::Fraction> covered;
    std::optional<units::Number> cover_r;
    std::optional<Shell> shell;
    std::optional<units::Area> shell_area;
    std::optional<units::Temperature> behind_shell;
};

/// What is taken where nothing is said: the text that the figure shows, and the same as a value. A test holds them
/// equal.
struct Assumed
{
    static constexpr char const* wind = "0.5 m/s ± 0.5 m/s";
    static constexpr double wind_m_s = 0.5;
    static constexpr char const* sky_share = "75 % ± 25 %";
    static constexpr double sky_share_value = 0.75;
    static constexpr char const* cloud = "40 % ± 40 %";
    static constexpr double cloud_value = 0.40;
    static constexpr char const* scale = "1 ± 0.3";
    static constexpr char const* cover_r = "1 ± 0.6";
    static constexpr double cover_r_value = 1.0;
};

/// The body and the surroundings of what was written, the rest as Assumed. The shell counts where its area is given or
/// a volume to take it from; soil and cabinet are as warm as the air unless said.
/// Throws figures::NotComputed where area, air_temperature or humidity lack.
[[nodiscard]] WaterBody water_body(SurroundingsInput const& in, std::optional<units::Volume> volume);
[[nodiscard]] Surroundings surroundings(SurroundingsInput const& in);
/// Whether any of it was written: one field alone is then asked for the rest, never passed over.
[[nodiscard]] bool any_said(SurroundingsInput const& in);

/// A pointer to a member of a base, as one of the record that derives from it.
template <class T, class M> M T::*member_of(M SurroundingsInput::*member)
{
    return static_cast<M T::*>(member);
}

/// How a field is declared: required or assumed in figures that are about losses, left to the person in others.
template <class T> struct SurroundingsFields
{
    fields::Record<T>& record;
    bool about_losses;

    template <class M>
    fields::Record<T>&& add(char const* name, M SurroundingsInput::*member, char const* meaning) const
    {
        return std::move(record).field(name, member_of<T>(member), meaning);
    }
    void required(fields::Record<T>&& last) const
    {
        if (about_losses)
            static_cast<void>(std::move(last).required());
    }
    void otherwise(fields::Record<T>&& last, char const* text, char const* because) const
    {
        if (about_losses)
            static_cast<void>(std::move(last).otherwise(text, because));
    }
};

template <class T> void add_air(SurroundingsFields<T> const& f)
{
    using S = SurroundingsInput;
    f.required(f.add("area", &S::area, "surface of the water").within("5 ft2", "100000 ft2").like("400 ft2"));
    f.required(f.add("air_temperature", &S::air_temperature, "temperature of the air, a mean over the time asked about")
                   .within("-40 degF", "130 degF"));
    f.required(f.add("humidity", &S::humidity, "relative humidity of that air").within("1 %", "100 %"));
    f.otherwise(f.add("wind", &S::wind, "wind at the water, not at a weather station")
                    .within("0 mph", "25 mph")
                    .shown_in("mph", "m/s")
                    .like("1 mph"),
                Assumed::wind,
                "light air over a pool between houses and fences; open sites have several times as much (judgement)");
    f.otherwise(f.add("altitude", &S::altitude, "height of the place above the sea")
                    .within("-300 ft", "14000 ft")
                    .shown_in("ft", "m"),
                "0 ft", "at 5000 ft evaporation takes 5 % more and convection 13 % less");
    f.otherwise(f.add("activity", &S::activity, "what goes on in the water; equation: the form as printed"), "still",
                "most of the day nobody is in the water and no jets run");
    f.otherwise(f.add("form", &S::form, "which published form of evaporation"), "ashrae",
                "it is the one that other sources compare with");
    f.otherwise(
        f.add("evaporation_scale", &S::evaporation_scale, "how far off that form may be; convection goes with it")
            .within("0.3", "3"),
        Assumed::scale, "published forms spread about that much (judgement)");
    f.add("falling_area", &S::falling_area, "both faces of falling sheets of water, which no cover hides")
        .within("0 ft2", "10000 ft2");
}

template <class T> void add_sky_and_cover(SurroundingsFields<T> const& f)
{
    using S = SurroundingsInput;
    f.otherwise(f.add("sky_share", &S::sky_share, "share of what the water sees that is sky; 0 % indoors")
                    .within("0 %", "100 %"),
                Assumed::sky_share, "house, fence and trees hide part of it (judgement)");
    f.otherwise(f.add("cloud", &S::cloud, "share of the sky under cloud").within("0 %", "100 %"), Assumed::cloud,
                "a sky neither clear nor grey (judgement)");
    f.add("sky_temperature", &S::sky_temperature, "temperature of the sky, where it was measured")
        .within("-100 degF", "120 degF");
    f.otherwise(f.add("sun", &S::sun, "sun on a level surface, a mean over the time asked about")
                    .within("0 W/m2", "1200 W/m2")
                    .shown_in("W/m2", "W/m2"),
                "0 W/m2", "night or shade, when most is lost");
    f.otherwise(f.add("covered", &S::covered, "share of the surface under a cover").within("0 %", "100 %"), "0 %",
                "no cover was named");
    f.otherwise(
        f.add("cover_r", &S::cover_r, "R-value of the cover, ft2 h degF/Btu").within("0", "30").like("12"),
        Assumed::cover_r,
        "a thin floating sheet; a dry foam cover is sold as 12 to 18 (memory) and a soaked one has little left");
    f.otherwise(f.add("shell", &S::shell, "what holds the water"), "in_ground", "most pools are dug in");
    f.add("shell_area", &S::shell_area, "wetted floor and walls; without it a square box of area and volume")
        .within("5 ft2", "200000 ft2");
    f.add("behind_shell", &S::behind_shell, "soil, or air in the cabinet; without it as warm as the air")
        .within("-40 degF", "130 degF");
}

/// Adds the fields to a record of T, which derives from SurroundingsInput.
template <class T> fields::Record<T> with_surroundings(fields::Record<T> record, bool about_losses)
{
    SurroundingsFields<T> const fields{record, about_losses};
    add_air(fields);
    add_sky_and_cover(fields);
    return record;
}

} // namespace padwalk::heating
