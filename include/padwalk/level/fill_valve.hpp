#pragma once
/// A fill valve at work: what it delivers, where the level rests under a loss, and what its faults look like.

#include "padwalk/level/water_hammer.hpp"
#include "padwalk/units/reading.hpp"

#include <optional>
#include <string>
#include <vector>

namespace padwalk::level
{

enum class FillKind
{
    float_valve, ///< throttles: it opens in proportion to the fall below its set level, wide open at `travel`
    level_sensor ///< opens wide at `travel` below its set level and shuts at the set level
};

enum class FillFaultKind
{
    dead,
    weak,
    stuck_open,
    set_too_high,
    set_too_low,
    hammering,
    leaking_through,
    hides_leak ///< the valve is sound; the pool leaks and the valve makes it up
};

/// What can be read at a fill valve and of its level.
enum class FillGauge
{
    level,          ///< of the pool, below the level that is wanted (length)
    day_volume,     ///< that it delivers in a day, by a meter (volume)
    run_share,      ///< delivered over what it would deliver wide open all day (share)
    starts,         ///< openings in a day (number); of a float valve 0
    flow_held_down, ///< with the float held down or while it runs (flow)
    flow_held_up,   ///< with the float held up or while it is shut (flow)
    peak_pressure   ///< on a gauge with a follower, when it shuts (gauge pressure)
};

enum class FillUnsure
{
    flow,
    travel,
    closing,
    overflow
};

struct FillDoubtRule
{
    FillUnsure what = FillUnsure::flow;
    units::Number spread{}; ///< one standard deviation of the natural logarithm of a factor
    reference::Cited source;
    static fields::Record<FillDoubtRule> const& declaration();
};

struct FillFaultRule
{
    FillFaultKind fault = FillFaultKind::dead;
    std::string name;
    units::Number mildest{}, worst{};
    std::string meaning;
    reference::Cited source;
    static fields::Record<FillFaultRule> const& declaration();
};

/// How far off a reading may be when anything at all is wrong: one of these, by what it measures.
struct FillFailure
{
    FillGauge gauge = FillGauge::level;
    std::optional<units::Length> by;
    std::optional<units::Volume> volume;
    std::optional<units::Fraction> share;
    std::optional<units::Number> number;
    std::optional<units::VolumeFlow> flow;
    std::optional<units::Pressure> pressure;
    reference::Cited source;
    static fields::Record<FillFailure> const& declaration();
};

struct WallRow
{
    PipeWall wall = PipeWall::copper;
    units::Number stiffness{}; ///< Young's modulus, MPa
    units::Number spread{};
    reference::Cited source;
    static fields::Record<WallRow> const& declaration();
};

/// data/level/fill_valve.yaml
struct FillValveTable
{
    Stated<units::Length> float_travel, sensor_band, overflow, line_bore, line_length, level_doubt;
    Stated<units::Duration> float_closing, sensor_closing, watched;
    Stated<units::Number> model_error, fault_shape, water_stiffness;
    std::vector<FillDoubtRule> doubts;
    std::vector<FillFaultRule> faults;
    std::vector<FillFailure> failures;
    std::vector<WallRow> walls;
    fields::Named<reference::Source> sources;
    static fields::Record<FillValveTable> const& declaration();

    [[nodiscard]] FillFaultRule const& fault(FillFaultKind kind) const;
    [[nodiscard]] units::Pressure wall_stiffness(PipeWall wall) const;
    /// One standard deviation, SI, of a reading when anything at all is wrong.
    [[nodiscard]] double reach(FillGauge gauge) const;
};

/// Throws reference::DataProblems.
[[nodiscard]] FillValveTable fill_valve_table(reference::Data const& data);

/// A valve and the pool it keeps full.
struct FillValve
{
    FillKind kind = FillKind::float_valve;
    units::VolumeFlow flow{};      ///< wide open: see wide_open_flow
    units::Length travel{};        ///< float_travel or sensor_band of the table where it is not known
    units::Length overflow{};      ///< height above the wanted level from which water runs off
    units::Area area{};            ///< of the water
    units::Velocity loss{};        ///< fall of the level by evaporation (and leak) if nothing came in
    units::GaugePressure supply{}; ///< at rest
    units::Velocity wave{};        ///< speed of a pressure wave in the line, see wave_speed; 0: no blow is worked out
    units::Length line_length{}, line_bore{};
    units::Duration closing{};
    // What a fault changes.
    units::Length set_high{};    ///< set level above the level that is wanted
    units::VolumeFlow through{}; ///< passes when shut
    units::Fraction stuck{};     ///< share of the flow that runs whatever the level
    std::optional<units::Duration> dead_for;
};

/// Flow of a valve wide open: its seat as an orifice, and the line before it as one that passes `line` by itself at the
/// same pressure.
///
///     1/Q² = 1/Q_seat² + 1/Q_line²,   Q_seat by orifice_flow
///
/// Source:   orifice law; losses in a row add
[[nodiscard]] units::VolumeFlow wide_open_flow(units::VolumeFlow seat, std::optional<units::VolumeFlow> line);

/// A valve and its pool as they settle.
struct FillAtRest
{
    bool holds = true;      ///< the valve keeps up with the loss
    units::Length below{};  ///< level below the wanted one at rest; of a sensor the mean; negative: above. Where the
                            ///< valve doesn't keep up: after `watched`
    units::Volume day{};    ///< delivered in a day
    units::Fraction run{};  ///< of what it would deliver wide open all day
    units::Number starts{}; ///< in a day
    units::VolumeFlow held_down{}, held_up{};
    units::GaugePressure peak{}; ///< when it shuts
    units::Velocity falls{};     ///< fall of the level that goes on where the valve doesn't keep up
};

/// Where the level rests. With q = flow/area and a float valve
///
///     below = travel·loss/q - set_high,        a sensor:  below = travel/2 - set_high,
///     starts = (loss/travel)(1 - loss/q)
///
/// If more runs in than is lost, whatever the level, the water rises to the overflow and runs off.
///
/// Valid:    steady loss, no waves. A float that hangs, and hysteresis of a worn seat, are not in it
/// Source:   geometry; A proportional to the fall near closing [common-practice]
/// Throws:   figures::NotComputed without flow (unless dead), area or travel
[[nodiscard]] FillAtRest fill_at_rest(FillValve const& valve, FillValveTable const& table);

/// Time in which a valve brings a level back from `below` its set level to within `near` of where it rests.
///
///     float: wide open until `travel`: (below - travel)/(q - loss), then (travel/q) ln((h - rest)/near)
///     sensor: below/(q - loss), up to the set level
///
/// None where it doesn't keep up with the loss.
/// Throws:   as fill_at_rest
[[nodiscard]] std::optional<units::Duration> time_to_make_up(FillValve const& valve, units::Length below,
                                                             units::Length near);

/// The valve with a fault. Severity 0 is the mildest that would be called one, 1 the worst.
/// Throws:   figures::NotComputed for a severity outside 0 to 1
[[nodiscard]] FillValve with_fill_fault(FillValve valve, FillFaultKind kind, units::Fraction severity,
                                        FillValveTable const& table);

} // namespace padwalk::level

template <> struct padwalk::fields::words_of<padwalk::level::FillKind>
{
    static std::vector<std::string> words() { return {"float_valve", "level_sensor"}; }
};
template <> struct padwalk::fields::words_of<padwalk::level::FillFaultKind>
{
    static std::vector<std::string> words()
    {
        return {"dead",        "weak",      "stuck_open",      "set_too_high",
                "set_too_low", "hammering", "leaking_through", "hides_leak"};
    }
};
template <> struct padwalk::fields::words_of<padwalk::level::FillGauge>
{
    static std::vector<std::string> words()
    {
        return {"level", "day_volume", "run_share", "starts", "flow_held_down", "flow_held_up", "peak_pressure"};
    }
};
template <> struct padwalk::fields::words_of<padwalk::level::FillUnsure>
{
    static std::vector<std::string> words() { return {"flow", "travel", "closing", "overflow"}; }
};
