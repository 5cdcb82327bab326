#pragma once
#include "workbench.hpp"

#include "padwalk/chemistry/limits.hpp"

namespace padwalk::assess
{

/// One pool or spa while its readings are judged.
struct WaterBench
{
    Workbench& w;
    std::size_t item;
    visit::Water const& v;
    visit::WaterTest const* test; ///< the one that counts, or none
    visit::Taken<units::Temperature> temperature;
    visit::Taken<units::Area> area;
    std::vector<chemistry::WorkingBand> const& bands;

    [[nodiscard]] bool spa() const { return w.property.kind_of(item) == visit::WaterKind::spa; }
};

/// What the water tests say: bands, chlorine, balance, metals.
void assess_water_tests(WaterBench& bench);
/// What the level says: bucket test, marks, pump on against off.
void assess_level(WaterBench& bench);

} // namespace padwalk::assess
