#pragma once
/// How much water a pool or spa holds, from what a tape and a pole can measure.

#include "padwalk/fields/record.hpp"
#include "padwalk/units/quantity.hpp"

#include <optional>
#include <string>

namespace padwalk::circulation
{

/// The outline of the water seen from above.
enum class PlanShape
{
    round,         ///< diameter
    rectangle,     ///< length, width
    oval,          ///< an ellipse: length, width
    kidney,        ///< length, width and second_width: the widest places of its two ends
    free_form,     ///< area, measured or drawn
    spa_with_bench ///< diameter, or length and width; a bench of one width all around
};

/// The outline's measures; which of them a shape needs is written beside the shape.
struct Plan
{
    PlanShape shape = PlanShape::rectangle;
    std::optional<units::Length> length;
    std::optional<units::Length> width;
    std::optional<units::Length> second_width;
    std::optional<units::Length> diameter;
    std::optional<units::Area> area;
};

/// Depths of water, not of the shell. Either `depth`, or `shallow` and `deep`, with or without the three lengths.
struct Depths
{
    std::optional<units::Length> depth;
    std::optional<units::Length> shallow;
    std::optional<units::Length> deep;
    std::optional<units::Length> shallow_length; ///< of the level floor at the shallow end
    std::optional<units::Length> slope_length;   ///< of the slope between the two floors
    std::optional<units::Length> deep_length;    ///< of the level floor at the deep end
};

/// A bench all around a spa; `depth` is that of the water over it.
struct Bench
{
    std::optional<units::Length> depth;
    std::optional<units::Length> width;
};

struct WaterBody
{
    units::Volume volume{};
    units::Area area{};         ///< of the water's surface
    units::Length mean_depth{}; ///< volume / area
};

/// Area of the water's surface, m2.
///
///     round      A = pi d2 / 4
///     rectangle  A = l w
///     oval       A = pi l w / 4
///     kidney     A = k (w1 + w2) l,   k from data/circulation/rules.yaml
///     free form  A as given
///
/// Accuracy: round, rectangle, oval: exact for that outline. Kidney: a rule of the trade from memory; a kidney is not
/// one
///           shape, and we judge the rule good to about 10 %.
/// Throws:   figures::NotComputed naming the measure that is missing
[[nodiscard]] units::Area plan_area(Plan const& plan, units::Number kidney_factor);

/// Mean depth, m: `depth`; or (shallow + deep) / 2 for a floor that slopes evenly; or, with the three lengths,
///
///     (ls s + lm (s + d)/2 + ld d) / (ls + lm + ld)
///
/// which is exact where the width is the same all along, and an estimate for other outlines.
/// Throws: figures::NotComputed naming what is missing, and where depths are given in both ways or shallow is not the
/// less
[[nodiscard]] units::Length mean_depth(Depths const& depths);

/// Volume of the water, m3: area times mean depth; for a spa the part inside the bench to its full depth and the part
/// over the bench to the bench's.
///
/// Throws: figures::NotComputed as the two above; where the three lengths and the length of the pool differ by more
/// than
///         a tenth; where a bench leaves no room or is no shallower than the floor
[[nodiscard]] WaterBody water_body(Plan const& plan, Depths const& depths, Bench const& bench,
                                   units::Number kidney_factor);

/// What the figure rests on, in a sentence: 'an ellipse of the length and width; the floor slopes evenly …'.
[[nodiscard]] std::string basis_in_words(Plan const& plan, Depths const& depths);

} // namespace padwalk::circulation

template <> struct padwalk::fields::words_of<padwalk::circulation::PlanShape>
{
    static std::vector<std::string> words()
    {
        return {"round", "rectangle", "oval", "kidney", "free_form", "spa_with_bench"};
    }
};
