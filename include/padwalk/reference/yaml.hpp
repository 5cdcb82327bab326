#pragma once
/// Strict reading of YAML into a tree that knows its places.

#include "padwalk/fields/problems.hpp"

#include <string_view>

namespace padwalk::reference
{

/// What a text may at most be; more is refused with one clear line.
struct YamlLimits
{
    std::size_t bytes = std::size_t{1} << 20;
    std::size_t depth = 32;
    std::size_t nodes = 20000;
};

/// Reads one YAML document, plain YAML only: no anchors, aliases or tags, one document, keys that are single values,
/// quotes that close on their line. An empty text is an empty map.
///
/// The library's own document tree is not used: it keeps duplicate keys, drops a second document, swallows the file
/// after an unclosed quote and can loop for ever. Its event interface, guarded, does none of that.
///
/// Throws: fields::InputProblems
[[nodiscard]] fields::Node read_yaml(std::string_view text, YamlLimits const& limits = {});

} // namespace padwalk::reference
