#pragma once
/// The history of a level as data: marks, what went on between them, and the weather.

#include "padwalk/level/evaporation.hpp"
#include "padwalk/units/reading.hpp"

#include <optional>
#include <vector>

namespace padwalk::level
{

/// Whether water could come in by the fill.
enum class FillState
{
    shut,
    open,
    unknown ///< treated as open
};

/// Weather and water over some time: means of day and night together.
struct LevelWeather
{
    units::Measured<units::Temperature> water, air;
    units::Measured<units::Fraction> humidity;
    units::Measured<units::Velocity> wind; ///< at the water
};

/// Where the level stood. Readings of different marks err independently, the first mark's as well.
struct LevelMark
{
    units::Duration at{};                ///< since any one moment, the same for all marks
    units::Duration at_doubt{};          ///< standard uncertainty
    units::Measured<units::Length> fall; ///< below the first mark; negative: above it. The first mark's value is 0
    std::optional<units::Measured<units::Length>> bucket_fall; ///< of a bucket in the pool, below its own first mark
};

/// What went on from one mark to the next.
struct LevelStretch
{
    std::optional<units::Fraction> pump; ///< share of the time that the pump ran; none: not known
    FillState fill = FillState::shut;
    std::optional<units::Measured<units::Volume>> filled; ///< by a meter, or the valve's flow times its run
    Activity activity = Activity::still;
    units::Fraction activity_share = units::Fraction::from_value(1); ///< of the time; the rest is still
    units::Area falling_area{};               ///< both faces of sheets that fall while the activity goes on
    units::Measured<units::Fraction> covered; ///< share of surface and time under a cover
    units::Measured<units::Length> rain;
    units::Duration bather_time{};           ///< persons times time in the water
    units::Measured<units::Volume> backwash; ///< let out on purpose, of any kind
    std::optional<LevelWeather> weather;     ///< of this stretch, where it is known apart
};

struct LevelRecord
{
    std::vector<LevelMark> marks;
    std::vector<LevelStretch> stretches; ///< one fewer than marks
    std::optional<LevelWeather> weather; ///< for every stretch without its own
    std::optional<units::Area> area;     ///< of the water; volumes need it

    /// Time from the first mark to the last.
    [[nodiscard]] units::Duration length() const;
};

/// Water comes in during this stretch and nobody knows how much.
[[nodiscard]] bool unmetered(LevelStretch const& stretch);

/// Throws: figures::NotComputed where a record can't be weighed: fewer than two marks, stretches that don't match them,
/// times that don't rise, a mark without doubt, a share outside 0 to 1, or a volume without an area
void require_weighable(LevelRecord const& record);

} // namespace padwalk::level

template <> struct padwalk::fields::words_of<padwalk::level::FillState>
{
    static std::vector<std::string> words() { return {"shut", "open", "unknown"}; }
};
