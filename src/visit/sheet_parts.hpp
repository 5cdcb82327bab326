#pragma once
/// What belongs to which part of a walk: for the visit file to fill in and for the sheet on paper alike.

#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace padwalk::visit
{

using Parts = std::set<std::string, std::less<>>;

/// An item of a named group that the sheet begins: its name, what of it is known by the part chosen, and its parts.
struct Start
{
    std::string name;
    std::vector<std::pair<std::string, std::string>> known;
    Parts parts;
};

/// The items that a sheet for these parts begins with in a group of the visit ('waters', 'loops' …).
[[nodiscard]] std::vector<Start> starts(std::string_view group, Parts const& parts);

/// Whether a field of this name is on a sheet only for some parts.
[[nodiscard]] bool is_gated(std::string_view field);

/// Whether a field of a record is on a sheet for these parts.
[[nodiscard]] bool is_wanted(std::string_view record, std::string_view field, Parts const& parts);

/// The parts as a set. With none, all of them; the kinds of heater stand for 'heater', as they say more.
///
/// Throws: std::invalid_argument for an unknown part, naming those there are
[[nodiscard]] Parts chosen_parts(std::vector<std::string> const& parts);

} // namespace padwalk::visit
