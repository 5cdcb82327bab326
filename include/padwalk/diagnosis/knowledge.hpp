#pragma once
/// What the trade knows, read from data/diagnosis: causes, findings, the links between them, checks, trades and
/// cautions. Kinds of item are words here; this room knows no pump.

#include "padwalk/diagnosis/network.hpp"
#include "padwalk/reference/sources.hpp"

#include <map>

namespace padwalk::diagnosis
{

enum class Urgency
{
    watch,   ///< nobody need come; look again
    plan,    ///< at the next planned visit
    soon,    ///< within days
    stop_use ///< do not use until it is put right
};

enum class Hazard
{
    none,
    property,
    people
};

enum class Established
{
    seen,     ///< looked at, heard, felt
    figure,   ///< computed from readings
    simulated ///< readings weighed together: what causes show of it is computed for each loop
};

enum class Who
{
    inspector,
    technician,
    owner
};

/// What a check may cost the one who does it; its cautions say how.
enum class Risk
{
    none,    ///< looking, listening, reading an instrument, asking
    some,    ///< something to mind: an edge, hot pipe, test chemicals, a switch
    licensed ///< opening, measuring live, draining: only for who is licensed and equipped for it
};

struct Shows
{
    std::string finding;
    units::Fraction weight{};
    static fields::Record<Shows> const& declaration();
};

struct CauseEntry
{
    std::string item, name, meaning;
    units::Fraction base_rate{};
    std::string why_rate;
    fields::Named<units::Number> raised_by; ///< context and the factor by which it changes the odds
    std::vector<std::string> only_if;
    std::string trade;
    Urgency urgency = Urgency::plan;
    Hazard hazard = Hazard::none;
    std::vector<std::string> cautions;
    std::string ask, meanwhile;
    reference::Cited source;
    std::vector<Shows> shows;
    static fields::Record<CauseEntry> const& declaration();
};

/// What follows from a finding that is dangerous or faulty in itself, whatever its cause.
struct IfSeen
{
    Urgency urgency = Urgency::soon;
    std::string trade, say;
    std::vector<std::string> cautions;
    std::optional<bool> leave;                 ///< everyone leaves; no check is proposed while this stands
    std::optional<units::Fraction> alarm_from; ///< chance from which a computed one counts; otherwise the general rule
    static fields::Record<IfSeen> const& declaration();
};

struct FindingEntry
{
    std::string item, name;
    std::vector<std::string> words;
    units::Fraction leak{};
    Established established = Established::seen;
    reference::Cited source;
    std::optional<IfSeen> if_seen;
    std::optional<bool> does_not_work; ///< an item at which it is seen does not do what it is for
    static fields::Record<FindingEntry> const& declaration();
};

struct CheckEntry
{
    std::string item, name;
    std::vector<Who> who;
    std::string needs;
    units::Number minutes{};
    std::vector<std::string> only_if; ///< contexts without which there is nothing to do
    Risk risk = Risk::none;
    std::vector<std::string> cautions;
    std::vector<std::string> tells;
    std::string if_so, if_not; ///< what it means if what it looks for is there, and if it is not
    reference::Cited source;
    static fields::Record<CheckEntry> const& declaration();
};

struct CautionEntry
{
    std::string say;
    reference::Cited source;
    static fields::Record<CautionEntry> const& declaration();
};

struct TradeEntry
{
    std::string name, plural, why;
    reference::Cited source;
    static fields::Record<TradeEntry> const& declaration();
};

struct ContextEntry
{
    std::string name;
    static fields::Record<ContextEntry> const& declaration();
};

/// A cause that is not in the knowledge: it may be behind anything that is seen at an item.
struct SomethingElse
{
    std::string name, meaning, ask, meanwhile;
    units::Fraction base_rate{}; ///< of an item
    units::Fraction weight{};    ///< with which it shows any one finding of the item
    reference::Cited source;
    static fields::Record<SomethingElse> const& declaration();
    /// The same as a cause of any item.
    [[nodiscard]] CauseEntry as_cause() const;
};

/// All of data/diagnosis together.
struct Knowledge
{
    fields::Named<CauseEntry> causes;
    fields::Named<FindingEntry> findings;
    fields::Named<CheckEntry> checks;
    fields::Named<CautionEntry> cautions;
    fields::Named<TradeEntry> trades; ///< in the order to call them in, most urgent first
    fields::Named<ContextEntry> contexts;
    SomethingElse something_else;

    [[nodiscard]] FindingEntry const* finding(std::string_view id) const;
    [[nodiscard]] CauseEntry const* cause(std::string_view id) const;
    [[nodiscard]] CautionEntry const* caution(std::string_view id) const;
    [[nodiscard]] TradeEntry const* trade(std::string_view id) const;
};

/// Reads every file of data/diagnosis; throws reference::DataProblems for what is not as declared.
[[nodiscard]] Knowledge read_knowledge(reference::Data const& data);

/// What is wrong with the knowledge as a whole: ids that stand twice, links to nothing, a cause that no finding can
/// show, a source that no bibliography holds, a hazard to people without a caution, a check for nobody. One line each.
[[nodiscard]] std::vector<std::string> knowledge_problems(Knowledge const& knowledge,
                                                          std::map<std::string, reference::Source> const& bibliography);

} // namespace padwalk::diagnosis

template <> struct padwalk::fields::words_of<padwalk::diagnosis::Urgency>
{
    static std::vector<std::string> words() { return {"watch", "plan", "soon", "stop_use"}; }
};
template <> struct padwalk::fields::words_of<padwalk::diagnosis::Hazard>
{
    static std::vector<std::string> words() { return {"none", "property", "people"}; }
};
template <> struct padwalk::fields::words_of<padwalk::diagnosis::Established>
{
    static std::vector<std::string> words() { return {"seen", "figure", "simulated"}; }
};
template <> struct padwalk::fields::words_of<padwalk::diagnosis::Risk>
{
    static std::vector<std::string> words() { return {"none", "some", "licensed"}; }
};
template <> struct padwalk::fields::words_of<padwalk::diagnosis::Who>
{
    static std::vector<std::string> words() { return {"inspector", "technician", "owner"}; }
};
