#pragma once
#include "padwalk/assess/assessment.hpp"

#include <set>

namespace padwalk::assess
{

/// One item of the visit with what the rules need to know of it.
struct Thing
{
    ItemEntry entry;
    bool mentioned = true; ///< stands in the visit file; others are only there to carry causes
    visit::Item const* base = nullptr;
    visit::Water const* water = nullptr;
    visit::Loop const* loop = nullptr;
    visit::Pump const* pump = nullptr;
    visit::Filter const* filter = nullptr;
    visit::Drain const* drain = nullptr;
    visit::Heater const* heater = nullptr;
    visit::Vent const* vent = nullptr;
    visit::FillValve const* fill_valve = nullptr;
    visit::Shell const* shell = nullptr;
    std::set<std::size_t> loops;    ///< places of the loops it is part of
    std::set<std::size_t> waters;   ///< places of the waters it is, is part of, or serves
    bool water_side = false;        ///< water, shell, deck, fill valve
    bool property_wide = false;     ///< the property itself, electrical protection
    std::set<std::string> holds;    ///< contexts that hold for certain
    std::set<std::string> possible; ///< contexts that hold or were not said
};

/// The visit as a list of things that stand in relation. things[0] is the property.
class Property
{
public:
    Property(visit::Visit const& visit, std::vector<Assumption>& assumptions);

    [[nodiscard]] std::vector<Thing> const& things() const { return things_; }
    [[nodiscard]] Thing const& at(std::size_t i) const { return things_.at(i); }
    /// Whether what is wrong with one may show at the other.
    [[nodiscard]] bool related(std::size_t a, std::size_t b) const;
    /// Things of this kind that are the same as, or related to, thing a.
    [[nodiscard]] std::vector<std::size_t> of_kind(std::string_view kind, std::size_t a) const;
    [[nodiscard]] visit::WaterKind kind_of(std::size_t water) const
    {
        return things_.at(water).holds.contains("spa") ? visit::WaterKind::spa : visit::WaterKind::pool;
    }
    /// The first part of this kind on the loop, or none.
    [[nodiscard]] std::optional<std::size_t> part(std::size_t loop, std::string_view kind) const;

    /// The chance of a context of which nothing was said: one among those of its kind; 1 if it has no others.
    [[nodiscard]] static double share_when_not_said(std::string const& context);

private:
    std::vector<Thing> things_;

    std::size_t add(Thing thing);
    void add_waters(visit::Visit const& visit, std::vector<Assumption>& assumptions);
    void add_loops(visit::Visit const& visit, std::vector<Assumption>& assumptions);
    void add_heaters(visit::Visit const& visit, std::vector<Assumption>& assumptions);
    void add_fill_valves(visit::Visit const& visit, std::vector<Assumption>& assumptions);
    [[nodiscard]] std::optional<std::size_t> named(std::string_view kind, std::string const& name) const;
    [[nodiscard]] std::vector<std::size_t> all(std::string_view kind) const;
    void add_contexts(visit::Visit const& visit);
};

} // namespace padwalk::assess
