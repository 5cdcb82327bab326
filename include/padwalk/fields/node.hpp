#pragma once
/// What was written, before it is understood: a tree of texts that know where they stood.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace padwalk::fields
{

/// A place in a text; lines and columns count from 1, columns in bytes.
struct Place
{
    std::size_t line = 0;
    std::size_t column = 0;
};

struct Entry;

/// One node of a YAML document, a JSON line or a command line.
struct Node
{
    enum class Kind
    {
        nothing, ///< 'key:' with nothing after it
        scalar,
        list,
        map
    };

    Kind kind = Kind::nothing;
    Place place;
    bool quoted = false;
    std::string text;           ///< scalar
    std::vector<Node> items;    ///< list
    std::vector<Entry> entries; ///< map, in the order written

    [[nodiscard]] Node const* find(std::string_view key) const;
    [[nodiscard]] Node const& at(std::string_view key) const; ///< throws std::out_of_range naming the key

    static Node scalar(std::string text, Place place = {});
    static Node map(); ///< an empty one; no default argument below, as Entry is not complete here
    static Node map(std::vector<Entry> entries);
};

struct Entry
{
    std::string key;
    Place place; ///< of the key
    Node value;
};

/// Keys are compared in lower case with '-' and ' ' read as '_', so that 'Not seen' and 'not_seen' are one key.
[[nodiscard]] std::string normal_key(std::string_view key);

/// The one of `known` that was most likely meant by `written`; empty if none is near.
[[nodiscard]] std::string nearest(std::string_view written, std::vector<std::string> const& known);

} // namespace padwalk::fields
