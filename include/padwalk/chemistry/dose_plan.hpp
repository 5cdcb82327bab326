#pragma once
/// From the water that is there to a band of readings: which products, how much, in what order, and why.
///
/// Start with targets_for and plan_doses. A plan is computed, rounded to amounts that can be measured, computed again
/// step by step with those, and checked against the band: it lands, or says that it can't.

#include "padwalk/chemistry/equilibria.hpp"
#include "padwalk/chemistry/limits.hpp"
#include "padwalk/chemistry/products.hpp"

namespace padwalk::chemistry
{

/// The words of visit::Surface.
enum class Finish
{
    plaster,
    vinyl,
    fiberglass,
    tile,
    paint,
    other
};

enum class Sanitizer
{
    chlorine, ///< without cyanurate
    stabilized_chlorine,
    salt_cell,
    bromine ///< not planned itself: free chlorine is left alone
};

/// Outside low to high a reading is corrected, towards aim; inside, it is left alone. Nothing: no limit.
template <class Q> struct Aim
{
    std::optional<Q> low, aim, high;
};

struct Targets
{
    Aim<units::Ph> ph;
    Aim<units::AsCalciumCarbonate> alkalinity;           ///< as the test reads it
    Aim<units::AsCalciumCarbonate> carbonate_alkalinity; ///< without cyanurate, borate and hypochlorite
    Aim<units::AsCalciumCarbonate> calcium;
    Aim<units::AsCyanuricAcid> cyanurate;
    Aim<units::AsChlorine> free_chlorine;
    Aim<units::Number> cyanurate_to_chlorine; ///< raises low and aim of free chlorine
    Aim<units::AsBoron> borate;
    Aim<units::AsSodiumChloride> salt;
    Aim<units::AsSulfate> sulfate;
    Aim<units::Number> saturation; ///< index of calcite
};

/// Differences smaller than these are not corrected: a test's doubt, say. Whatever is corrected lands in the band
/// itself.
struct IgnoreWithin
{
    units::PhDifference ph{};
    units::AsCalciumCarbonate alkalinity{}, calcium{};
    units::AsCyanuricAcid cyanurate{};
    units::AsChlorine free_chlorine{};
    units::AsSodiumChloride salt{};
    units::Number saturation{};
};

/// The bands of data/chemistry/targets.yaml for a water; what is no spa goes by the rows of pools. Throws
/// reference::DataProblems.
[[nodiscard]] Targets targets_for(reference::Data const& data, Venue venue, Finish finish, Sanitizer sanitizer,
                                  bool borate_wanted = false);

/// The tap water that is assumed where none is given, from the same file.
[[nodiscard]] WaterReadings assumed_fill_water(reference::Data const& data);

/// What an owner paid for a package, in any one money.
struct Price
{
    std::string product; ///< id
    double paid = 0.0;
    units::Mass contents{}; ///< of the package; mass_of(product, volume) for a jug
};

struct PlanRequest
{
    WaterReadings now;
    units::Volume volume{}; ///< 50 gal to 5,000,000 gal
    Venue venue = Venue::pool;
    Targets targets;
    std::optional<WaterReadings> fill_water; ///< nothing: `assumed_fill`, and the plan says so
    WaterReadings assumed_fill;
    std::vector<std::string> available; ///< ids; none: every product of the table
    std::vector<Price> prices;
    IgnoreWithin ignore;
    bool may_drain = true;
    int most_parts = 12; ///< more doses of one product than this are not a plan
};

/// A water on the way.
struct WaterAt
{
    WaterReadings readings;
    units::AsCalciumCarbonate carbonate_alkalinity{};
    units::Number saturation{};
};

struct DoseStep
{
    enum class Kind
    {
        replace_water,
        let_chlorine_fall,
        dose,
        aerate
    };

    Kind kind = Kind::dose;
    std::string product;                  ///< id, for a dose
    std::optional<MeasuredAmount> amount; ///< for a dose
    units::Fraction share{};              ///< of the water to replace
    int part = 1, parts = 1;              ///< of the doses of this product
    WaterAt before, after;                ///< after also gives the reading to stop at: pH for aeration, chlorine
    std::string what;                     ///< 'Add 2 lb 4 oz (about 3 1/2 cups) of baking soda (sodium bicarbonate)'
    std::string why;
    std::string how;
    units::Duration wait{};            ///< before the next step
    units::Duration swim{};            ///< before anyone goes in
    bool retest = false;               ///< before the next step
    std::vector<std::string> cautions; ///< ids of the product table
};

enum class Outcome
{
    nothing_to_do,
    doses,         ///< the steps lead into the band
    replace_water, ///< no dose gets there; the steps, of which the first replaces a share of the water, do
    cannot         ///< nothing that was found does; `answer` says why
};

struct DosePlan
{
    Outcome outcome = Outcome::nothing_to_do;
    std::string answer;               ///< in a sentence or two
    std::vector<std::string> outside; ///< what is out of its band now, with both, in words
    std::vector<DoseStep> steps;
    units::Fraction replace{}; ///< least share of the water to replace, to a whole percent
    std::string because;       ///< the reading that asks for it: 'cyanurate'
    WaterAt now, end;
    std::vector<std::string> products;    ///< ids, in the order of use, each once
    std::optional<double> cost;           ///< where every product used has a price, in its money
    std::vector<std::string> assumptions; ///< and what to bear in mind of this water
    std::vector<std::string> general;     ///< what holds for every step
};

/// The plan with fewest products; of these the cheapest where all have prices, else the one that the data ranks first,
/// then the lightest. Amounts go to the aims, or to the edge of the band where the aims would take too many doses.
/// Water is replaced only where no dose gets there, and as little of it as does. A reducer is taken only where chlorine
/// is more than twice too high, to save days, and never so much that chlorine could end below its aim.
///
/// Order: replace water, let chlorine fall, alkalinity up, pH and alkalinity by borax, soda ash, acid and aeration,
/// calcium, salt, chlorine last; cyanuric and boric acid lower pH, so they go before pH is set, but after calcium
/// where pH is low and soda ash or borax raises it. Never two kinds of chlorine. Acid goes in parts that keep pH at 7.0
/// as read or above, with aeration between them where alkalinity must come down; no dose is larger than the product's
/// safe dose.
///
/// Valid:    readings that Equilibria takes; 50 to 5,000,000 gal
/// Accuracy: `end` is what the rounded amounts come to by Equilibria; dissolving, losses and tests are not in it
/// Source:   the rows of data/chemistry/products.yaml and targets.yaml
/// Throws:   figures::NotComputed, physics::OutOfRange for readings that no water has or another volume;
///           std::out_of_range for an id that isn't in the table
[[nodiscard]] DosePlan plan_doses(Equilibria const& equilibria, ProductTable const& table, PlanRequest const& request);

} // namespace padwalk::chemistry

template <> struct padwalk::fields::words_of<padwalk::chemistry::Finish>
{
    static std::vector<std::string> words() { return {"plaster", "vinyl", "fiberglass", "tile", "paint", "other"}; }
};
template <> struct padwalk::fields::words_of<padwalk::chemistry::Sanitizer>
{
    static std::vector<std::string> words() { return {"chlorine", "stabilized_chlorine", "salt_cell", "bromine"}; }
};
