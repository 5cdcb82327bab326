#pragma once
/// Adding to the text of a visit file: whatever stands in it stays, comments, order and spelling included.

#include <string>
#include <utility>
#include <vector>

namespace padwalk::visit
{

/// The way to a place in a visit file, key by key from the top. 'the_last' is the last entry of a list.
using Keys = std::vector<std::string>;
inline constexpr char const* the_last = "-";

/// One entry of a list: fields and their texts, in order; a single field without a name is a bare text.
using EntryFields = std::vector<std::pair<std::string, std::string>>;

/// The way to an item by its path in an assessment, 'loops/spa loop/pump'; names may hold a '/' if they stand in the
/// text.
///
/// Throws: fields::InputProblems where the text is no YAML
[[nodiscard]] Keys keys_of(std::string const& text, std::string const& path);

/// The text with a value more. What is on the way and not there yet is added; a blank field is filled. An empty value
/// adds the blank: an item of which nothing was said.
///
/// Nothing is ever cut out of the text: the result is the text with something put in at one place, or two. It is read
/// back and held against what was wanted, so a text that is written in a way not foreseen here is refused, not spoilt.
///
/// Throws: fields::InputProblems where the text is no YAML; std::invalid_argument where a value stands there already,
/// or the text has no place for it that can be found
[[nodiscard]] std::string with_value(std::string const& text, Keys const& at, std::string const& value);

/// The text with an entry more in the list at `at`; otherwise as with_value. A single value that stands for a list
/// becomes its first entry.
[[nodiscard]] std::string with_entry(std::string const& text, Keys const& at, EntryFields const& entry);

} // namespace padwalk::visit
