#pragma once
/// What a gas heater's instruments would show were it sound, or were one thing wrong with it, as far as the heater is
/// known; and how well the readings that were taken fit each of these. The same way as for loops.

#include "padwalk/heating/fired_heater.hpp"
#include "padwalk/numerics/gaussian.hpp"
#include "padwalk/units/reading.hpp"

#include <array>
#include <map>
#include <optional>

namespace padwalk::heating
{

/// One standard deviation of the natural logarithm of a factor (of the excess air: of air over air needed).
struct HeaterDoubt
{
    HeaterUnsure what = HeaterUnsure::flow;
    units::Number spread{};
};

/// A heater as it should be, with usual values for what is not known, and the doubt of both.
struct HeaterAsKnown
{
    FiredHeater heater;
    std::vector<HeaterDoubt> doubts;
};

struct HeaterRead
{
    HeaterGauge gauge = HeaterGauge::rise;
    units::Reading reading;
};

/// Something that may be wrong, from the mildest that would be called a fault to the worst.
struct HeaterSuspicion
{
    HeaterFaultKind fault = HeaterFaultKind::scaled_exchanger;
    units::Fraction least{}, most{};
};

/// Doubts of a heater that is known by its plate and its loop's flow alone.
[[nodiscard]] std::vector<HeaterDoubt> usual_heater_doubts(FiredHeaterTable const& table);

/// Every fault of the table, from its mildest on.
[[nodiscard]] std::vector<HeaterSuspicion> heater_suspicions(FiredHeaterTable const& table);

/// One account of the readings.
struct HeaterAccount
{
    double log_likelihood = 0.0;
    double chi_squared = 0.0;          ///< of all readings together, at the severity that fits best
    units::Fraction severity{};        ///< that fits best; 0 of a sound heater
    std::vector<units::Reading> shown; ///< what each instrument would show then; doubt: of the heater alone
};

/// Holds readings against a heater.
///
/// The heater is fired (fire of fired_heater.hpp) with its doubts each moved one standard deviation up and down; with
/// the instruments' own doubts, an error of the model and, for a fault, of the shape of what it does, that gives a
/// normal density of all readings together:
///
///     V = sum(d dT) + diag(doubt2 + (model_error y)2 + (fault_shape (y - y sound))2),   d = (y(+s) - y(-s))/2
///
/// The model's error counts of the rise over the air for the flue, of 20.9 % less it for oxygen. Carbon monoxide,
/// rise, input and flow are compared by their logarithms. The likelihood of a fault is the mean over those of twelve
/// severities that lie between its mildest and its worst.
///
/// Accuracy: usual values and their spread are judgement; a reading from the sound heater is as good as these
/// Source:   definition; linear propagation as in JCGM 100:2008 [gum-2008]
/// Throws:   figures::NotComputed where the sound heater can't be fired
class HeaterComparison
{
public:
    HeaterComparison(HeaterAsKnown known, std::vector<HeaterRead> read, FiredHeaterTable const& table);

    [[nodiscard]] std::vector<HeaterRead> const& read() const { return read_; }
    [[nodiscard]] HeaterAccount const& sound() const { return sound_; }
    [[nodiscard]] HeaterState const& sound_state() const { return sound_state_; }
    /// (reading - sound) / root of their variances.
    [[nodiscard]] double off(std::size_t reading) const;
    /// The readings were this wrong with the heater; none where no severity of it can be fired.
    [[nodiscard]] std::optional<HeaterAccount> with(HeaterSuspicion const& suspicion);
    /// The heater is sound and this one instrument broken.
    [[nodiscard]] double log_likelihood_if_broken(std::size_t reading) const;
    /// Anything at all is wrong: every instrument may be anywhere within the reach of a broken one.
    [[nodiscard]] double log_likelihood_of_anything() const;

private:
    using Values = std::vector<double>; ///< on the scale that each instrument is compared on
    struct Change
    {
        HeaterFaultKind kind;
        units::Fraction severity;
    };
    /// A heater and what no fault changes of it; none where the doubt leads to a heater that can't be.
    struct Based
    {
        FiredHeater heater;
        HeaterBase base;
    };
    [[nodiscard]] Values values(Based const& sound, std::optional<Change> const& change) const;
    [[nodiscard]] std::optional<Values> values_or_none(std::optional<Based> const& sound,
                                                       std::optional<Change> const& change) const;
    void move_heaters();
    [[nodiscard]] std::vector<Values> moves_of(std::optional<Change> const& change, Values const& here) const;
    [[nodiscard]] numerics::Covariance covariance(Values const& here, std::vector<Values> const& moves) const;
    [[nodiscard]] HeaterAccount account(Values const& here, std::vector<Values> const& moves,
                                        units::Fraction severity) const;
    [[nodiscard]] std::vector<HeaterAccount> const& along(HeaterFaultKind kind);
    [[nodiscard]] double log_density(numerics::Covariance const& covariance) const;
    [[nodiscard]] double reach(std::size_t reading) const;

    HeaterAsKnown known_;
    std::vector<HeaterRead> read_;
    FiredHeaterTable const& table_;
    std::optional<Based> here_;
    std::vector<std::array<std::optional<Based>, 2>> moved_; ///< by each doubt, up and down
    Values taken_, taken_doubts_, sound_values_;
    numerics::Covariance sound_covariance_{0};
    HeaterAccount sound_;
    HeaterState sound_state_;
    std::map<HeaterFaultKind, std::vector<HeaterAccount>> along_;
};

} // namespace padwalk::heating
