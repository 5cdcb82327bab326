#pragma once
/// Joins a visit to the models, figures to findings, findings to causes, causes to referrals.

#include "padwalk/assess/assessment.hpp"
#include "padwalk/chemistry/conductivity.hpp"
#include "padwalk/chemistry/equilibria.hpp"
#include "padwalk/chemistry/limits.hpp"
#include "padwalk/chemistry/saturation_handbook.hpp"
#include "padwalk/diagnosis/inference.hpp"
#include "padwalk/figures/catalogue.hpp"
#include "padwalk/visit/phrases.hpp"

#include <memory>

namespace padwalk::assess
{

/// What the assessment of a water looks up.
struct WaterTables
{
    explicit WaterTables(reference::Data const& data);

    std::vector<chemistry::WorkingBand> bands;
    std::vector<chemistry::Limit> limits;
    std::vector<chemistry::LimitSet> sets;
    chemistry::IndexBand index_band;
    chemistry::ConductivityTable conductivity;
    level::BalanceFacts level;
};

struct LoopTables;   // what the assessment of a loop looks up: src/assess/loop_tables.hpp
struct HeaterTables; // and of a gas heater: src/assess/heater_tables.hpp
struct FillTables;   // and of a fill valve: src/assess/fill_tables.hpp

/// Everything the program knows, read once from the data.
class Engine
{
public:
    /// Throws reference::DataProblems.
    explicit Engine(reference::Data data);
    Engine(Engine const&) = delete;
    Engine& operator=(Engine const&) = delete;
    ~Engine();

    [[nodiscard]] reference::Data const& data() const { return data_; }
    [[nodiscard]] fields::Instruments const& instruments() const { return instruments_; }
    [[nodiscard]] figures::Catalogue const& catalogue() const { return catalogue_; }
    [[nodiscard]] diagnosis::Knowledge const& knowledge() const { return knowledge_; }
    [[nodiscard]] visit::Vocabulary const& vocabulary() const { return vocabulary_; }
    [[nodiscard]] std::map<std::string, reference::Source> const& bibliography() const { return bibliography_; }
    /// The default sets of constants.
    [[nodiscard]] chemistry::Equilibria const& equilibria() const { return equilibria_; }
    [[nodiscard]] WaterTables const& water_tables() const { return water_tables_; }
    [[nodiscard]] LoopTables const& loop_tables() const { return *loop_tables_; }
    [[nodiscard]] HeaterTables const& heater_tables() const { return *heater_tables_; }
    [[nodiscard]] FillTables const& fill_tables() const { return *fill_tables_; }

private:
    reference::Data data_;
    fields::Instruments instruments_;
    figures::Catalogue catalogue_;
    diagnosis::Knowledge knowledge_;
    visit::Vocabulary vocabulary_;
    std::map<std::string, reference::Source> bibliography_;
    chemistry::Equilibria equilibria_;
    WaterTables water_tables_;
    std::unique_ptr<LoopTables const> loop_tables_;
    std::unique_ptr<HeaterTables const> heater_tables_;
    std::unique_ptr<FillTables const> fill_tables_;
};

/// All models of all rooms.
[[nodiscard]] figures::Catalogue catalogue(reference::Data const& data);

/// The whole job. Figures point into the engine's catalogue, so the engine must outlive the result.
/// Same visit, same assessment, byte for byte.
/// `system` is that of the quantities in its sentences.
/// `about`: ids of causes to be explained in full besides, in Assessment::asked.
[[nodiscard]] Assessment assess(visit::ReadVisit const& visit, Engine const& engine,
                                units::System system = units::System::us, std::vector<std::string> about = {});

/// Ids of the causes that these words may mean: one id, every cause of that name, or all whose names hold each of the
/// words, whatever their endings. Empty if there is none.
[[nodiscard]] std::vector<std::string> causes_meant(Engine const& engine, std::string const& words);

} // namespace padwalk::assess
