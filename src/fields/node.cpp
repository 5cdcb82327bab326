#include "padwalk/fields/node.hpp"

#include "padwalk/units/spelling.hpp"

#include <algorithm>
#include <stdexcept>

namespace padwalk::fields
{

Node const* Node::find(std::string_view key) const
{
    for (auto const& entry : entries)
        if (entry.key == key)
            return &entry.value;
    return nullptr;
}

Node const& Node::at(std::string_view key) const
{
    if (Node const* found = find(key))
        return *found;
    throw std::out_of_range("no entry '" + std::string(key) + "'");
}

Node Node::scalar(std::string text, Place place)
{
    Node node;
    node.kind = Kind::scalar;
    node.place = place;
    node.text = std::move(text);
    return node;
}

Node Node::map()
{
    return map(std::vector<Entry>{});
}

Node Node::map(std::vector<Entry> entries)
{
    Node node;
    node.kind = Kind::map;
    node.entries = std::move(entries);
    return node;
}

std::string normal_key(std::string_view key)
{
    std::string out(key);
    std::replace(out.begin(), out.end(), ' ', '_');
    std::replace(out.begin(), out.end(), '-', '_');
    for (char& c : out)
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return out;
}

std::string nearest(std::string_view written, std::vector<std::string> const& known)
{
    if (written.empty() || written.size() > 60)
        return {};
    std::string const key = normal_key(written);
    std::string best;
    std::size_t least = std::max<std::size_t>(1, key.size() / 3) + 1;
    for (auto const& candidate : known)
    {
        std::size_t const d = units::edits(key, candidate);
        if (d < least)
        {
            least = d;
            best = candidate;
        }
    }
    if (!best.empty())
        return best;
    for (auto const& candidate : known) // 'gauge' for 'filter_gauge'
        if (key.size() >= 4 && candidate.find(key) != std::string::npos)
            return candidate;
    return {};
}

} // namespace padwalk::fields
