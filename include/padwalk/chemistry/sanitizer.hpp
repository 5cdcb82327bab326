#pragma once
/// How much of the chlorine that a kit calls free is at work, and how long it takes against what got into the water.

#include "padwalk/chemistry/equilibria.hpp"
#include "padwalk/reference/sources.hpp"

namespace padwalk::chemistry
{

/// What decides the forms of chlorine. Salt and the rest count only through ionic strength.
struct ChlorineReadings
{
    units::AsChlorine free_chlorine{};
    units::AsCyanuricAcid cyanurate{};
    units::Ph ph{};
    units::Temperature temperature{};
    units::AsSodiumChloride salt{};
};

/// Free chlorine by what it is, as the kit counts it.
struct ChlorineForms
{
    units::AsChlorine hypochlorous{}; ///< disinfects
    units::AsChlorine hypochlorite{}; ///< hardly disinfects
    units::AsChlorine held{};         ///< by cyanurate; let go as the rest is used up
    units::Fraction hypochlorous_share{};
    units::Fraction hypochlorite_share{};
    units::Fraction held_share{};
};

/// The readings in a common pool water: 100 mg/L of carbonate alkalinity and 250 mg/L of calcium hardness, which move
/// hypochlorous acid by less than 2 % between 50 and 200, and 100 and 500.
[[nodiscard]] State chlorine_state(Equilibria const& equilibria, ChlorineReadings const& readings);

/// Throws: figures::NotComputed without chlorine
[[nodiscard]] ChlorineForms chlorine_forms(State const& water);

/// Free chlorine that gives as much hypochlorous acid without cyanurate, pH, temperature and salt alike.
[[nodiscard]] units::AsChlorine equivalent_chlorine(Equilibria const& equilibria, ChlorineReadings const& readings);

/// Free chlorine needed with this cyanurate for as much hypochlorous acid as `wanted` gives without it; the readings'
/// own free chlorine is not used.
[[nodiscard]] units::AsChlorine chlorine_needed(Equilibria const& equilibria, ChlorineReadings const& readings,
                                                units::AsChlorine wanted);

/// 'of 3 ppm free chlorine 0.04 ppm (1.4 %) is hypochlorous acid, …'
[[nodiscard]] std::string forms_in_words(ChlorineForms const& forms);

enum class Incident
{
    formed_stool,
    diarrhea
};

/// Concentration times time against one incident.
struct IncidentRow
{
    Incident incident = Incident::formed_stool;
    bool stabilized = false; ///< with cyanurate in the water
    std::string organism;
    units::Number logs{};              ///< powers of ten
    units::Number ct{};                ///< mg/L x min of free chlorine
    units::AsChlorine free_chlorine{}; ///< at least
    reference::Cited source;
    static fields::Record<IncidentRow> const& declaration();
};

/// Where the published times hold.
struct ContactTable
{
    std::vector<IncidentRow> incidents;
    units::Ph ph_high{};
    units::Temperature temperature_low{};
    units::AsCyanuricAcid cyanurate_high{};
    reference::Cited conditions_source;
    fields::Named<reference::Source> sources;
    static fields::Record<ContactTable> const& declaration();
};

/// data/chemistry/contact_time.yaml; throws reference::DataProblems.
[[nodiscard]] ContactTable contact_table(reference::Data const& data);

struct ContactTime
{
    units::Number ct{}; ///< mg/L x min
    units::Duration time{};
    IncidentRow row;
};

/// How long the free chlorine must be held: ct/free chlorine.
///
/// Valid:  pH, temperature and cyanurate within the table's conditions, free chlorine at least the row's
/// Throws: figures::NotComputed saying what must change first
/// Source: the rows of data/chemistry/contact_time.yaml
[[nodiscard]] ContactTime contact_time(Incident incident, ChlorineReadings const& readings, ContactTable const& table);

[[nodiscard]] std::string contact_in_words(ContactTime const& time, ChlorineReadings const& readings);

/// Chlorine concentration times time against Giardia, mg/L x min.
///
///     below 12.5 °C:  n 0.353 (12.006 + exp(2.46 - 0.073 T + 0.125 C + 0.389 pH))
///     above:          n 0.361 (-2.216 + exp(2.69 - 0.065 T + 0.111 C + 0.361 pH)),  T in °C, C in mg/L, n powers of
///     ten
///
/// Valid:    pH 6 to 9, 0.5 to 25 °C, up to 4 mg/L (the last two from memory), no cyanurate
/// Accuracy: conservative by design: 9 % above the rule's own table at 15 °C, pH 7.5, 1.2 mg/L. The constant was read
///           as -2.216 in public code and is remembered as -2.261: 0.05 % there, at most 0.4 % in the valid range
/// Source:   [smith-1995]
/// Throws:   physics::OutOfRange
[[nodiscard]] units::Number giardia_contact(units::Number logs, units::AsChlorine free_chlorine, units::Ph ph,
                                            units::Temperature water);

} // namespace padwalk::chemistry

template <> struct padwalk::fields::words_of<padwalk::chemistry::Incident>
{
    static std::vector<std::string> words() { return {"formed_stool", "diarrhea"}; }
};
