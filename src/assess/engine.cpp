#include "telling.hpp"

#include "padwalk/chemistry/models.hpp"
#include "padwalk/circulation/models.hpp"
#include "padwalk/heating/models.hpp"
#include "padwalk/level/models.hpp"
#include "padwalk/venting/models.hpp"

#include "fill_tables.hpp"
#include "heater_bench.hpp"
#include "heater_tables.hpp"
#include "loop_bench.hpp"
#include "loop_tables.hpp"
#include "workbench.hpp"

namespace padwalk::assess
{

figures::Catalogue catalogue(reference::Data const& data)
{
    figures::Catalogue out;
    out.add(chemistry::models(data));
    out.add(circulation::models(data));
    out.add(heating::models(data));
    out.add(level::models(data));
    out.add(venting::models(data));
    return out;
}

namespace
{

std::vector<visit::Phrase> phrases(diagnosis::Knowledge const& knowledge)
{
    std::vector<visit::Phrase> out;
    for (auto const& [id, finding] : knowledge.findings)
    {
        out.push_back({id, finding.item, finding.words});
        out.back().words.push_back(finding.name); // what a report calls it is understood too
    }
    return out;
}

} // namespace

WaterTables::WaterTables(reference::Data const& data)
    : bands(chemistry::working_bands(data)), limits(chemistry::published_limits(data)),
      sets(chemistry::limit_sets(data)), index_band(chemistry::handbook_table(data).band),
      conductivity(chemistry::conductivity_table(data)), level(level::balance_facts(data))
{
}

Engine::Engine(reference::Data data)
    : data_(std::move(data)), instruments_(reference::instruments(data_)), catalogue_(assess::catalogue(data_)),
      knowledge_(diagnosis::read_knowledge(data_)), vocabulary_(phrases(knowledge_)),
      bibliography_(reference::bibliography(data_)), equilibria_(data_), water_tables_(data_),
      loop_tables_(std::make_unique<LoopTables const>(data_)),
      heater_tables_(std::make_unique<HeaterTables const>(data_)),
      fill_tables_(std::make_unique<FillTables const>(data_))
{
}

Engine::~Engine() = default;

namespace
{

// Figures and findings, everything but what they amount to.
void lay_out(Workbench& bench)
{
    assess_waters(bench); // first: the loops need volumes
    auto loops = read_loops(bench);
    auto const heaters = assess_heaters(bench);
    assess_loops(loops);             // after the heaters: a rise measures the flow
    assess_heater_readings(heaters); // after the loops: a rise that they took counts there
    assess_fill_valves(bench);
    read_found(bench);
    read_notes(bench);
    tell_dew_from_leak(heaters);
    assess_outlets(bench);
    list_readings(bench);
}

} // namespace

Assessment assess(visit::ReadVisit const& visit, Engine const& engine, units::System system,
                  std::vector<std::string> about)
{
    Workbench bench(visit, engine, system, std::move(about));
    lay_out(bench);
    judge(bench);
    return std::move(bench.out);
}

Walked assess_walk(visit::ReadVisit const& visit, Engine const& engine, units::System system)
{
    Workbench bench(visit, engine, system);
    lay_out(bench);
    Walked out;
    judge(bench, out.telling);
    out.dangers = open_dangers(bench);
    out.assessment = std::move(bench.out);
    return out;
}

} // namespace padwalk::assess
