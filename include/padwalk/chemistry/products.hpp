#pragma once
/// Generic pool and spa products: what a dose of each adds to the water, and amounts that a person can measure.

#include "padwalk/chemistry/composition.hpp"
#include "padwalk/reference/sources.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace padwalk::chemistry
{

enum class Purpose
{
    lower_ph,
    raise_alkalinity,
    raise_ph,
    raise_calcium,
    raise_cyanurate,
    raise_borate,
    raise_salt,
    raise_chlorine,
    lower_chlorine
};

enum class ProductForm
{
    liquid,
    granular
};

/// What one mol of a pure substance adds to the totals, mol (alkalinity: equivalents). Taken away is below zero.
struct AddsPerMol
{
    units::Number carbonate{}, alkalinity{}, calcium{}, magnesium{}, sodium{}, chloride{}, sulfate{}, boron{},
        cyanurate{}, chlorine{};
    static fields::Record<AddsPerMol> const& declaration();
};

/// A row of data/chemistry/products.yaml.
struct Product
{
    std::string id;   ///< its key in the data
    std::string name; ///< generic, with its strength
    std::string kind; ///< the substance: products of one kind differ in strength only
    Purpose purpose = Purpose::lower_ph;
    ProductForm form = ProductForm::granular;
    std::string formula;                               ///< of the pure active substance
    std::optional<units::Fraction> strength;           ///< active substance by mass ...
    std::optional<units::Fraction> available_chlorine; ///< ... or, in its place, chlorine by mass as Cl2
    units::Density density{};                          ///< of a liquid; of a powder lying loose, good to 15 %
    AddsPerMol adds;
    std::optional<units::Number> uncertain; ///< the effect may be this many times more or less
    bool slow = false;                      ///< dissolves over days: only where nothing else of its purpose is at hand
    units::AsItself safe_dose{};            ///< product per litre of water, the most at one time
    units::Duration wait{};                 ///< pump running, before the next product
    units::Duration swim{};                 ///< before anyone goes in; then a test decides
    units::Number pool_rank{}, spa_rank{};  ///< lower is taken first where nothing else decides
    std::string how;                        ///< key of ways
    std::vector<std::string> cautions;      ///< keys of cautions
    reference::Cited source;                ///< of strength and density
    reference::Cited practice;              ///< of safe dose and waiting
    static fields::Record<Product> const& declaration();
};

/// A sentence under an id.
struct Saying
{
    std::string say;
    std::optional<reference::Cited> source;
    static fields::Record<Saying> const& declaration();
};

/// data/chemistry/products.yaml, and those cautions of data/diagnosis/people.yaml that its products name.
struct ProductTable
{
    AddsPerMol when_used; ///< one mol of chlorine as it is spent
    std::vector<Product> products;
    fields::Named<Saying> ways;
    fields::Named<Saying> cautions;

    /// std::out_of_range for an id that isn't there.
    [[nodiscard]] Product const& product(std::string_view id) const;
    [[nodiscard]] std::string const& way(std::string_view id) const;
    [[nodiscard]] std::string const& caution(std::string_view id) const;
};

/// Throws reference::DataProblems for a row without exactly one strength, a formula that can't be read, a way or
/// caution that isn't there, or one whose charges don't cancel.
[[nodiscard]] ProductTable product_table(reference::Data const& data);

/// mol per kg of a pure substance, the inverse of its molar mass: 'Na2B4O7.10H2O', 'Ca(ClO)2', by the abridged standard
/// atomic weights [iupac-2021]. Throws std::invalid_argument for a formula that can't be read.
[[nodiscard]] units::Molality moles_in(std::string_view formula);

/// Active substance in a product, mol per kg of product.
[[nodiscard]] units::Molality active_in(Product const& product);

/// What so many mol of the active substance for each kg of water add. Electroneutral.
[[nodiscard]] Totals added(AddsPerMol const& adds, units::Molality active);

/// What a dose adds to this water.
///
///     mol/kg of water = dose (mol/kg of product) / (volume 1000 kg/m3),   each total by the row's `adds`
///
/// Source:   stoichiometry with the molar masses of [iupac-2021]; strengths as the rows of data/chemistry/products.yaml
[[nodiscard]] Totals added(Product const& product, units::Mass dose, units::Volume water);

/// The dose that brings so many mol of active substance for each kg of water.
[[nodiscard]] units::Mass dose_of(Product const& product, units::Molality active, units::Volume water);

/// The dose that changes one total by so much: dose_for(bicarbonate, &Totals::alkalinity, equivalents(...), volume).
/// Throws std::invalid_argument where the product doesn't change it, or the other way.
[[nodiscard]] units::Mass dose_for(Product const& product, units::Molality Totals::*total, units::Molality change,
                                   units::Volume water);

/// Volume of an amount: of a liquid its volume, of a powder about what it fills in a cup.
[[nodiscard]] units::Volume volume_of(Product const& product, units::Mass amount);
[[nodiscard]] units::Mass mass_of(Product const& product, units::Volume amount);

/// The largest single dose for this water.
[[nodiscard]] units::Mass safe_dose(Product const& product, units::Volume water);

/// An amount in the words of a measuring cup or scale.
struct MeasuredAmount
{
    units::Mass mass{};        ///< exactly what `us` says
    units::Mass metric_mass{}; ///< exactly what `metric` says, the nearest on a metric scale or jug
    std::string us;            ///< '1 qt 1/2 cup', '2 lb 4 oz (about 3 1/2 cups)'
    std::string metric;        ///< '1.06 L', '1020 g'
};

enum class Rounding
{
    nearest,
    down,
    up
};

/// The nearest amount that can be measured; never none.
///
/// Liquids go by quarter teaspoons, half tablespoons, fluid ounces, half cups, pints, quarts and gallons; powders by
/// weight: grams on a kitchen scale below two ounces, then quarter, half and whole ounces, quarter pounds and pounds.
/// A step of the measure is at most an eighth of the amount, but for the smallest (quarter teaspoons, grams).
/// Throws std::invalid_argument unless the mass is above zero and finite.
[[nodiscard]] MeasuredAmount measured(Product const& product, units::Mass mass, Rounding rounding = Rounding::nearest);

/// The next amount more (above zero) or less; nothing below the smallest.
[[nodiscard]] std::optional<MeasuredAmount> next_measure(Product const& product, MeasuredAmount const& amount,
                                                         int direction);

} // namespace padwalk::chemistry

template <> struct padwalk::fields::words_of<padwalk::chemistry::Purpose>
{
    static std::vector<std::string> words()
    {
        return {"lower_ph",     "raise_alkalinity", "raise_ph",       "raise_calcium", "raise_cyanurate",
                "raise_borate", "raise_salt",       "raise_chlorine", "lower_chlorine"};
    }
};
template <> struct padwalk::fields::words_of<padwalk::chemistry::ProductForm>
{
    static std::vector<std::string> words() { return {"liquid", "granular"}; }
};
