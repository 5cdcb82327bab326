#pragma once
/// What a fill valve and its level would show were it sound, or were one thing wrong with it, and how well the readings
/// fit each of these. The same way as for loops and heaters.

#include "padwalk/level/fill_valve.hpp"
#include "padwalk/numerics/gaussian.hpp"

#include <optional>
#include <vector>

namespace padwalk::level
{

struct FillRead
{
    FillGauge gauge = FillGauge::level;
    units::Reading reading;
};

/// A valve as it should be, and how well its loss by evaporation is known; the rest of its doubts are the table's.
struct FillValveAsKnown
{
    FillValve valve;
    units::Velocity loss_doubt{}; ///< standard uncertainty
    /// Of its flow wide open, in place of the table's: one standard deviation of the natural logarithm of a factor.
    std::optional<units::Number> flow_spread = std::nullopt;
};

/// One account of the readings.
struct FillAccount
{
    double log_likelihood = 0.0;
    double chi_squared = 0.0;          ///< at the severity that fits best
    units::Fraction severity{};        ///< that fits best; 0 of a sound valve
    std::vector<units::Reading> shown; ///< what each gauge would show then; doubt: of the valve and pool alone
};

struct FillOdds
{
    std::optional<FillFaultKind> fault; ///< none: sound
    FillAccount account;
    double log_ratio = 0.0;   ///< ln of its likelihood over that of the sound valve
    units::Fraction chance{}; ///< among all of these, each as likely beforehand
};

/// Holds readings against a fill valve. The valve comes to rest (fill_at_rest) with its doubts each moved one standard
/// deviation up and down; with the gauges' own doubts, an error of the model and, for a fault, of the shape of what it
/// does, that gives a normal density of all readings together:
///
///     V = sum(d dT) + diag(doubt2 + (model_error y)2 + (fault_shape (y - y sound))2),   d = (y(+s) - y(-s))/2
///
/// The likelihood of a fault is the mean over severities from its mildest to its worst, even in the logarithm of its
/// size.
///
/// Accuracy: usual values, spreads and sizes of faults are judgement; a reading from the sound valve is as good as
/// these Source:   definition; linear propagation as in JCGM 100:2008 [gum-2008] Throws:   figures::NotComputed where
/// the sound valve can't be; std::invalid_argument for a reading without doubt
///           where nothing else makes it uncertain
class FillComparison
{
public:
    FillComparison(FillValveAsKnown known, std::vector<FillRead> read, FillValveTable const& table);

    [[nodiscard]] std::vector<FillRead> const& read() const { return read_; }
    [[nodiscard]] FillAccount const& sound() const { return sound_; }
    [[nodiscard]] FillAccount with(FillFaultKind kind) const;
    /// Anything at all is wrong: every reading may be anywhere within the reach of a broken one.
    [[nodiscard]] double log_likelihood_of_anything() const;
    /// The sound valve, then every fault, in the table's order.
    [[nodiscard]] std::vector<FillOdds> odds() const;

private:
    using Values = std::vector<double>;
    struct Change
    {
        FillFaultKind kind;
        units::Fraction severity;
    };
    [[nodiscard]] Values values(FillValve const& valve, std::optional<Change> const& change) const;
    [[nodiscard]] numerics::Covariance covariance(std::optional<Change> const& change, Values const& here) const;
    [[nodiscard]] FillAccount account(std::optional<Change> const& change) const;

    FillValveAsKnown known_;
    std::vector<FillRead> read_;
    FillValveTable const& table_;
    Values sound_values_;
    FillAccount sound_;
};

} // namespace padwalk::level
