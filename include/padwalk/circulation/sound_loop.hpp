#pragma once
/// What a loop's gauges would show were it sound, or were one thing wrong with it, as far as the loop is known; and how
/// well the readings that were taken fit each of these.

#include "padwalk/circulation/flow_estimates.hpp"
#include "padwalk/numerics/gaussian.hpp"
#include "padwalk/units/reading.hpp"

#include <map>
#include <tuple>

namespace padwalk::circulation
{

/// What is read on a loop.
enum class LoopGauge
{
    suction,
    pump_outlet,
    filter,
    filter_when_clean, ///< the filter's gauge as it stood when it was last cleaned
    behind_filter,
    flow_meter,
    heater_rise,
    motor_power
};

/// What of a loop may not be known well.
enum class Unsure
{
    pump_head,
    pump_flow,
    speed,
    suction_loss,
    return_loss,
    filter_loss,
    filter_loading, ///< that a sound filter carries between cleanings
    heater_loss,
    heat,         ///< that the heater gives to the water
    motor_losses, ///< power taken in over the power that the water gains
    pump_height
};

/// One standard deviation: of the natural logarithm of a factor; of the loading itself; of the height in metres.
struct LoopDoubt
{
    Unsure what = Unsure::pump_head;
    units::Number spread{};
};

/// A loop as it should be, with usual values for what is not known, and the doubt of both.
struct LoopAsKnown
{
    Plant plant;
    std::vector<LoopDoubt> doubts;
    units::Fraction clean_speed = units::Fraction::from_value(1); ///< of the pump's curve, at the clean reading
    units::Length suction_gauge_height{}, filter_gauge_height{};  ///< above the pump
    std::optional<units::Power> heat;                             ///< from the heater into the water that passes it
};

struct GaugeRead
{
    LoopGauge gauge = LoopGauge::filter;
    units::Reading reading;
};

/// Something that may be wrong, from the mildest that would be called a fault to the worst.
struct Suspicion
{
    std::optional<PlantFaultKind> fault; ///< none: only heat is lost
    units::Fraction least{}, most{};
    units::Fraction heat_lost{}; ///< share of the heater's heat that is lost at the worst
    bool always_was = false;     ///< as old as the loop, so that the clean reading shows it too
};

/// How far off a broken gauge may read: one standard deviation, by itself or as a share of what it should show.
struct GaugeFailure
{
    LoopGauge gauge = LoopGauge::filter;
    std::optional<units::Pressure> by;
    std::optional<units::Fraction> share;
    reference::Cited source;
    static fields::Record<GaugeFailure> const& declaration();
};

/// data/circulation/sound_loop.yaml, and pump_power.yaml.
struct SoundLoopTable
{
    Rule model_error, fault_shape;
    std::vector<GaugeFailure> failures;
    PumpPowerTable motors; ///< of a file of its own
    static fields::Record<SoundLoopTable> const& declaration();
    /// One standard deviation of a broken gauge, SI, where it should show `value`.
    [[nodiscard]] double broken(LoopGauge gauge, double value) const;
};

/// Throws reference::DataProblems.
[[nodiscard]] SoundLoopTable sound_loop_table(reference::Data const& data);

/// One account of the readings.
struct LoopAccount
{
    double log_likelihood = 0.0;
    double chi_squared = 0.0;          ///< of all readings together, at the severity that fits best
    units::Fraction severity{};        ///< that fits best; 0 of a sound loop
    std::vector<units::Reading> shown; ///< what each gauge would show then; doubt: of the loop alone
};

/// Holds readings against a loop.
///
/// The loop is solved (solve of plant.hpp) with its doubts each moved one standard deviation up and down; with the
/// gauges' own doubts, an error of the model and, for a fault, of the shape of what it does, that gives a normal
/// density of all readings together, in which what one gauge shows bears on what another should:
///
///     V = sum(d dT) + diag(doubt2 + (model_error y)2 + (fault_shape (y - y sound))2),   d = (y(+s) - y(-s))/2
///
/// A rise is compared by its logarithm, the others as they are.
/// The likelihood of a fault is the mean over those of twelve severities that lie between its mildest and its worst.
///
/// Accuracy: a usual plant is judgement, so is the spread of what isn't known; a reading from the sound loop is as good
///           as these.
/// Source:   definition; linear propagation as in JCGM 100:2008 [gum-2008]
/// Throws:   figures::NotComputed where the sound loop can't be solved, or a reading has no gauge on it (a rise without
///           heat)
class LoopComparison
{
public:
    LoopComparison(LoopAsKnown loop, std::vector<GaugeRead> read, PlantTable const& plants,
                   SoundLoopTable const& table);

    [[nodiscard]] std::vector<GaugeRead> const& read() const { return read_; }
    [[nodiscard]] LoopAccount const& sound() const { return sound_; }
    [[nodiscard]] PlantState const& sound_state() const { return sound_state_; }
    /// Doubt of the sound loop's flow and of the pump's head there.
    [[nodiscard]] units::VolumeFlow sound_flow_doubt() const { return flow_doubt_; }
    [[nodiscard]] units::Head sound_head_doubt() const { return head_doubt_; }
    /// (reading - sound) / root of their variances.
    [[nodiscard]] double off(std::size_t reading) const;
    /// Chi squared of the other readings against the sound loop.
    [[nodiscard]] double chi_squared_without(std::size_t reading) const;
    /// The readings were this wrong with the loop; none where no severity of it can be solved.
    [[nodiscard]] std::optional<LoopAccount> with(Suspicion const& suspicion);
    /// The same beside another fault at a known severity.
    [[nodiscard]] std::optional<LoopAccount> with_both(PlantFault const& first, Suspicion const& suspicion);
    /// The loop is sound and this one gauge broken.
    [[nodiscard]] double log_likelihood_if_broken(std::size_t reading) const;
    /// Anything at all is wrong: every gauge may be anywhere within the reach of a broken one.
    [[nodiscard]] double log_likelihood_of_anything() const;

private:
    using Moves = std::vector<std::vector<double>>; ///< of the readings, by one deviation of each doubt
    struct Shown;
    /// What makes a sound plant into the one that the readings are held against.
    struct Change
    {
        std::vector<PlantFault> faults;
        double heat_left = 1.0;
        bool always_was = false;
    };
    [[nodiscard]] std::optional<std::vector<double>> values_or_none(Plant const& plant, Change const& change,
                                                                    std::size_t clean) const;
    [[nodiscard]] Moves moves_of(Change const& change, std::vector<double> const& here) const;
    [[nodiscard]] std::vector<double> values(Plant const& plant, Change const& change, double when_clean) const;
    [[nodiscard]] double when_clean(Plant plant) const;
    [[nodiscard]] numerics::Covariance covariance(Shown const& shown) const;
    [[nodiscard]] LoopAccount account(Shown const& shown, units::Fraction severity) const;
    [[nodiscard]] std::vector<LoopAccount> const& along(Suspicion const& suspicion,
                                                        std::optional<PlantFault> const& beside);
    [[nodiscard]] std::optional<LoopAccount> average(Suspicion const& suspicion,
                                                     std::optional<PlantFault> const& beside);
    /// Of a broken gauge, one standard deviation on its scale.
    [[nodiscard]] double reach(std::size_t reading) const;
    void find_sound();
    void find_duty_doubt();

    LoopAsKnown loop_;
    std::vector<GaugeRead> read_;
    PlantTable const& plants_;
    SoundLoopTable const& table_;
    std::vector<double> taken_, taken_doubts_; ///< the readings, on the scale that each is compared on
    std::vector<double> clean_;        ///< the clean reading of the sound loop, then with each doubt up and down
    std::vector<double> sound_values_; ///< on those scales
    bool reads_clean_ = false;
    numerics::Covariance sound_covariance_{0};
    LoopAccount sound_;
    PlantState sound_state_;
    units::VolumeFlow flow_doubt_{};
    units::Head head_doubt_{};
    /// Fault, heat lost, always was; the fault beside it and its severity.
    using Kind = std::tuple<int, double, bool, int, double>;
    std::map<Kind, std::vector<LoopAccount>> along_;
};

} // namespace padwalk::circulation

template <> struct padwalk::fields::words_of<padwalk::circulation::LoopGauge>
{
    static std::vector<std::string> words()
    {
        return {"suction",       "pump_outlet", "filter",      "filter_when_clean",
                "behind_filter", "flow_meter",  "heater_rise", "motor_power"};
    }
};
