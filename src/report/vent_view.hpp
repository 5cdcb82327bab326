#pragma once
/// A vent from the side, in metres: where its parts lie, as far as the visit tells.

#include "padwalk/assess/assessment.hpp"

#include "svg.hpp"

namespace padwalk::report
{

/// What the end faces: from the end to the thing. x is lengthwise, y upwards.
struct Facing
{
    venting::JudgedRule const* rule = nullptr;
    Spot thing;
    bool level = false;  ///< the distance runs level, else up or down
    bool beyond = false; ///< farther than the drawing goes: drawn to its edge
};

struct VentView
{
    std::vector<Spot> pipe;   ///< from the heater's outlet at 0, 0 to the end
    std::size_t run_from = 0; ///< the level run is from this spot to the next; past the end: there is none
    Box heater;               ///< top above bottom: y upwards
    double ground = 0.0;
    bool sunk = false;      ///< the heater stands lower than the ground
    std::vector<Spot> roof; ///< where the pipe passes it
    std::vector<Facing> facing;
    std::vector<std::string> taken; ///< what was taken for what was not measured, one sentence each
    [[nodiscard]] Spot end() const { return pipe.back(); }
    [[nodiscard]] bool has_run() const { return run_from + 1 < pipe.size(); }
};

/// None where neither height nor run was measured.
[[nodiscard]] std::optional<VentView> vent_view(assess::VentEntry const& vent);

} // namespace padwalk::report
