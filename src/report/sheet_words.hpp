#pragma once
/// What stands on the field sheet whatever is asked, as page and as text alike.

#include "padwalk/visit/sheet_form.hpp"

namespace padwalk::report
{

inline constexpr char const* sheet_how =
    "Write each number as read, in the unit printed; with another unit, write the unit. Left blank is not looked at, "
    "never fine. What is printed is known already: strike it out if it is wrong.";
inline constexpr char const* sheet_rule =
    "Look, listen and read from outside. What takes a licence stays shut: open, adjust, reset and relight nothing.";
inline constexpr char const* sheet_dangers = "First, before anything else: is there any of this, now or lately?";
inline constexpr char const* sheet_noticed = "Noticed: seen, heard or felt; or looked for and not there";
inline constexpr char const* sheet_untested = "Not tested, because";
inline constexpr char const* sheet_photos = "Photo numbers";

/// Dangers that want the same done at once, together.
struct DangerBlock
{
    std::vector<std::string> asks;
    std::string say;
};
[[nodiscard]] std::vector<DangerBlock> danger_blocks(visit::SheetForm const& form);

/// 'Pump: spa loop'; the kind alone where the item has no name of its own, the name alone where it says the kind.
[[nodiscard]] std::string heading_of(visit::SheetGroup const& group);

} // namespace padwalk::report
