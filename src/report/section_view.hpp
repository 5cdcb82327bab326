#pragma once
/// What a drawing of the shell's section shows and where it stands on the sheet, before anything is drawn.

#include "axis.hpp"
#include "svg.hpp"

#include "padwalk/assess/assessment.hpp"

#include <string>
#include <vector>

namespace padwalk::report
{

/// Edges of the parts of the sheet, from left to right and from the top.
struct SectionSheet
{
    static constexpr double width = 360;
    static constexpr double axis = 40, face = 186, outside = 210; ///< depth scale; the wall's two faces
    static constexpr double label = 228, right = 356;             ///< of the names
    static constexpr double deck = 34, scale_top = 78, labels_top = 56;
};

/// Something that goes through the shell, where it is drawn. Depths in the axis' unit.
struct ShownFitting
{
    visit::FittingKind kind = visit::FittingKind::skimmer;
    std::string name, depth_text, chance_text; ///< no chance where nothing could be weighed
    double depth = 0.0, reach = 0.0;           ///< `reach`: two standard uncertainties
    bool likeliest = false;                    ///< than all else together
    bool to_scale = true;                      ///< others stand below the break
    double y = 0.0;                            ///< of its lowest wetted point
    std::vector<std::string> name_lines;       ///< beside the wall
    std::vector<std::string> figure_lines;     ///< below the name
    double label_top = 0.0;
};

struct SectionView
{
    Axis axis; ///< depth below the first mark
    double axis_bottom = 0.0, break_at = 0.0, floor = 0.0, bottom = 0.0;
    std::vector<ShownFitting> fittings; ///< from the top; drains, which are in the floor, last
    std::size_t left_out = 0;           ///< fittings for which there is no room

    /// Down the sheet, for a depth in the axis' unit; no deeper than the scale goes.
    [[nodiscard]] double at(double depth) const;
};

/// Likelier than all else together.
[[nodiscard]] bool is_likeliest(level::FittingOdds const& odds);
/// A depth's number in the unit of the scale: in, or cm.
[[nodiscard]] double depth_in(units::Length depth, units::System system);

constexpr Lettering name_type{12.5, false, "word"}, likely_type{12.5, true, "word"},
    figure_type{12, false, "word quiet"};

[[nodiscard]] SectionView section_view(assess::LevelEntry const& level, units::System system);

} // namespace padwalk::report
