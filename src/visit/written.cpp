#include "padwalk/visit/written.hpp"

#include "padwalk/fields/node.hpp"
#include "padwalk/reference/yaml.hpp"

#include <algorithm>
#include <cctype>
#include <optional>
#include <stdexcept>
#include <utility>

namespace padwalk::visit
{
namespace
{

using fields::Node;
using fields::Place;

/// What is to be put at a place: a value, or an entry of a list.
struct Payload
{
    std::optional<std::string> value;
    EntryFields entry;
};

bool bare(Payload const& payload)
{
    return payload.entry.size() == 1 && payload.entry.front().first.empty();
}

// ---- as a tree

fields::Entry* entry_at(Node& map, std::string const& key)
{
    for (auto& entry : map.entries)
        if (entry.key == key)
            return &entry;
    for (auto& entry : map.entries)
        if (fields::normal_key(entry.key) == fields::normal_key(key))
            return &entry;
    return nullptr;
}

Node tree_of(Payload const& payload)
{
    if (payload.value)
        return payload.value->empty() ? Node() : Node::scalar(*payload.value);
    if (bare(payload))
        return Node::scalar(payload.entry.front().second);
    Node map = Node::map();
    for (auto const& [field, text] : payload.entry)
        map.entries.push_back({field, {}, Node::scalar(text)});
    return map;
}

// The change on the tree; `in_front` of a list's entries where its text has them in brackets.
void put(Node& node, Keys const& at, std::size_t from, Payload const& payload, bool in_front)
{
    if (from == at.size())
    {
        if (payload.value)
        {
            if (node.kind != Node::Kind::nothing)
                throw std::invalid_argument("a value stands there already");
            node = tree_of(payload);
            return;
        }
        if (node.kind == Node::Kind::scalar)
        {
            Node list;
            list.items.push_back(std::exchange(node, Node()));
            node = std::move(list);
        }
        if (node.kind == Node::Kind::map)
            throw std::invalid_argument("a list was expected there");
        node.kind = Node::Kind::list;
        node.items.insert(in_front ? node.items.begin() : node.items.end(), tree_of(payload));
        return;
    }
    if (at[from] == the_last)
    {
        if (node.kind == Node::Kind::nothing)
            node.kind = Node::Kind::list;
        if (node.kind != Node::Kind::list)
            throw std::invalid_argument("a list was expected there");
        if (node.items.empty())
            node.items.emplace_back();
        return put(node.items.back(), at, from + 1, payload, in_front);
    }
    if (node.kind == Node::Kind::nothing)
        node.kind = Node::Kind::map;
    if (node.kind != Node::Kind::map)
        throw std::invalid_argument("'" + at[from] + "' can't stand under a single value");
    if (auto* entry = entry_at(node, at[from]))
        return put(entry->value, at, from + 1, payload, in_front);
    node.entries.push_back({at[from], {}, Node()});
    put(node.entries.back().value, at, from + 1, payload, in_front);
}

// The order of keys says nothing, that of a list does.
bool same(Node const& a, Node const& b)
{
    if (a.kind != b.kind || a.text != b.text || a.items.size() != b.items.size() ||
        a.entries.size() != b.entries.size())
        return false;
    if (!std::equal(a.items.begin(), a.items.end(), b.items.begin(), same))
        return false;
    return std::all_of(a.entries.begin(), a.entries.end(),
                       [&](fields::Entry const& entry)
                       {
                           Node const* other = b.find(entry.key);
                           return other != nullptr && same(entry.value, *other);
                       });
}

// ---- as text

bool plain(std::string const& text)
{
    static std::vector<std::string> const words{"yes", "no", "true", "false", "on", "off", "null", "y", "n", "~"};
    if (text.empty() || text.front() == ' ' || text.back() == ' ' || text.front() == '-')
        return false;
    return std::all_of(text.begin(), text.end(),
                       [](char c)
                       {
                           return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == ' ' || c == '.' ||
                                  c == '_' || c == '-' || c == '/';
                       }) &&
           std::find(words.begin(), words.end(), fields::normal_key(text)) == words.end();
}

std::string quoted(std::string const& text)
{
    if (plain(text))
        return text;
    std::string out = "\"";
    for (char const c : text)
    {
        if (c == '"' || c == '\\')
            out += '\\';
        out += c;
    }
    return out + "\"";
}

// 'yes' is a value of its own and a text only in quotes; here a value is meant as it was typed.
std::string as_value(std::string const& value)
{
    return value.empty() || value == "yes" || value == "no" ? value : quoted(value);
}

using Lines = std::vector<std::string>;

Lines block_of(Keys const& at, std::size_t from, Payload const& payload)
{
    Lines out;
    if (from == at.size())
    {
        if (bare(payload))
            return {"- " + quoted(payload.entry.front().second)};
        for (auto const& [field, text] : payload.entry)
            out.push_back((out.empty() ? "- " : "  ") + field + ": " + quoted(text));
        return out;
    }
    if (at[from] == the_last)
    {
        for (auto const& line : block_of(at, from + 1, payload))
            out.push_back((out.empty() ? "- " : "  ") + line);
        return out;
    }
    if (from + 1 == at.size() && payload.value)
        return {quoted(at[from]) + ":" + (payload.value->empty() ? "" : " ") + as_value(*payload.value)};
    out.push_back(quoted(at[from]) + ":");
    for (auto const& line : block_of(at, from + 1, payload))
        out.push_back("  " + line);
    return out;
}

std::string flow_of(Keys const& at, std::size_t from, Payload const& payload)
{
    if (from == at.size())
    {
        if (payload.value)
            return as_value(*payload.value);
        if (bare(payload))
            return quoted(payload.entry.front().second);
        std::string fields;
        for (auto const& [field, text] : payload.entry)
            fields += (fields.empty() ? "" : ", ") + field + ": " + quoted(text);
        return "{" + fields + "}";
    }
    bool const list = from + 1 == at.size() && !payload.value;
    std::string const inner = list ? "[" + flow_of(at, from + 1, payload) + "]" : flow_of(at, from + 1, payload);
    if (at[from] == the_last)
        return "[" + inner + "]";
    return "{" + quoted(at[from]) + ": " + inner + "}";
}

std::string without_braces(std::string const& flow)
{
    return flow.substr(1, flow.size() - 2);
}

/// A text by its lines.
class Page
{
public:
    explicit Page(std::string text) : text_(std::move(text))
    {
        starts_.push_back(0);
        for (std::size_t i = 0; i < text_.size(); ++i)
            if (text_[i] == '\n')
                starts_.push_back(i + 1);
        if (starts_.back() == text_.size() && starts_.size() > 1)
            starts_.pop_back();
    }

    [[nodiscard]] std::string const& text() const { return text_; }
    [[nodiscard]] std::size_t offset(Place place) const
    {
        if (place.line == 0 || place.line > starts_.size())
            throw std::invalid_argument("the place can't be found in the text");
        return std::min(starts_[place.line - 1] + place.column - 1, text_.size());
    }
    [[nodiscard]] bool starts(Place place, char c) const
    {
        return place.line > 0 && offset(place) < text_.size() && text_[offset(place)] == c;
    }
    [[nodiscard]] std::size_t count() const { return starts_.size(); }
    [[nodiscard]] std::string line(std::size_t number) const
    {
        std::size_t const from = starts_.at(number - 1);
        std::string out = text_.substr(from, text_.find('\n', from) - from);
        while (!out.empty() && (out.back() == '\r' || out.back() == ' '))
            out.pop_back();
        return out;
    }
    [[nodiscard]] std::string put_in(std::size_t at, std::string const& more) const
    {
        return text_.substr(0, at) + more + text_.substr(at);
    }
    /// Lines put in behind this one, set in by `indent`.
    [[nodiscard]] std::string behind(std::size_t number, std::size_t indent, Lines const& lines) const
    {
        std::size_t const end = number == 0 ? 0 : text_.find('\n', starts_.at(number - 1));
        std::string const lead = end == std::string::npos ? newline() : "";
        std::string more;
        for (auto const& one : lines)
            more += std::string(indent, ' ') + one + newline();
        return put_in(end == std::string::npos ? text_.size() : number == 0 ? 0 : end + 1, lead + more);
    }
    [[nodiscard]] std::string before(std::size_t number, std::size_t indent, Lines const& lines) const
    {
        return behind(number - 1, indent, lines);
    }
    /// The last line of a group that begins on this line in this column; comments that are set in as far belong to it.
    [[nodiscard]] std::size_t last_of_group(std::size_t first, std::size_t indent, bool list) const;

private:
    std::string text_;
    std::vector<std::size_t> starts_;

    [[nodiscard]] std::string newline() const { return text_.find("\r\n") == std::string::npos ? "\n" : "\r\n"; }
};

std::size_t Page::last_of_group(std::size_t first, std::size_t indent, bool list) const
{
    std::size_t last = first;
    for (std::size_t n = first + 1; n <= count(); ++n)
    {
        std::string const here = line(n);
        std::size_t const in = here.find_first_not_of(' ');
        if (in == std::string::npos)
            continue;
        if (here[in] == '#')
        {
            if (in >= indent && !(list && in == indent))
                last = n;
            continue;
        }
        bool const marks_end = in == 0 && (here.starts_with("---") || here.starts_with("..."));
        bool const goes_on = in > indent || (in == indent && (!list || here[in] == '-'));
        if (marks_end || !goes_on)
            break;
        last = n;
    }
    return last;
}

/// The deepest thing on the way that is there.
struct Found
{
    Node const* node = nullptr;
    fields::Entry const* entry = nullptr; ///< whose value it is
    bool in_brackets = false;             ///< stands in a list or map in brackets
    std::size_t next = 0;                 ///< of the keys: the first that is not there
};

Found descend(Node& root, Keys const& at, Page const& page)
{
    Found found{&root, nullptr, false, 0};
    Node* node = &root;
    while (found.next < at.size())
    {
        bool const group = node->kind == Node::Kind::map || node->kind == Node::Kind::list;
        if (group && node != &root && (page.starts(node->place, '{') || page.starts(node->place, '[')))
            found.in_brackets = true;
        if (node == &root && group && page.starts(node->place, '{'))
            found.in_brackets = true;
        if (at[found.next] == the_last)
        {
            if (node->kind != Node::Kind::list || node->items.empty())
                return found;
            node = &node->items.back();
            found.entry = nullptr;
        }
        else
        {
            auto* entry = node->kind == Node::Kind::map ? entry_at(*node, at[found.next]) : nullptr;
            if (entry == nullptr)
                return found;
            node = &entry->value;
            found.entry = entry;
        }
        found.node = node;
        ++found.next;
    }
    return found;
}

std::size_t behind_colon(Page const& page, fields::Entry const& entry)
{
    std::size_t const key = page.offset(entry.place);
    bool const as_written = page.text().compare(key, entry.key.size(), entry.key) == 0;
    std::size_t const colon = page.text().find(':', as_written ? key + entry.key.size() : key);
    if (colon == std::string::npos)
        throw std::invalid_argument("the place can't be found in the text");
    return colon + 1;
}

// Ways to put it into a map that is there, the neatest first.
void into_map(Page const& page, Found const& found, Keys const& at, Payload const& payload,
              std::vector<std::string>& ways)
{
    Node const& map = *found.node;
    if (map.entries.empty() && !page.starts(map.place, '{'))
        ways.push_back(page.behind(page.text().empty() ? 0 : page.count(), 0, block_of(at, found.next, payload)));
    if (page.starts(map.place, '{'))
        ways.push_back(page.put_in(page.offset(map.place) + 1, without_braces(flow_of(at, found.next, payload)) +
                                                                   (map.entries.empty() ? "" : ", ")));
    if (map.entries.empty() || map.entries.front().place.line == 0)
        return;
    Place const first = map.entries.front().place;
    std::size_t const indent = first.column - 1;
    Lines const lines = block_of(at, found.next, payload);
    ways.push_back(page.behind(page.last_of_group(first.line, indent, false), indent, lines));
    if (page.line(first.line).find_first_not_of(' ') == indent)
        ways.push_back(page.before(first.line, indent, lines));
}

// A key that nothing stands behind.
void into_blank(Page const& page, Found const& found, Keys const& at, Payload const& payload,
                std::vector<std::string>& ways)
{
    if (found.entry == nullptr)
        return;
    bool const whole = found.next == at.size();
    std::size_t const colon = behind_colon(page, *found.entry);
    if (whole && payload.value)
        ways.push_back(page.put_in(colon, " " + as_value(*payload.value)));
    else if (found.in_brackets)
        ways.push_back(page.put_in(
            colon, " " + (whole ? "[" + flow_of(at, found.next, payload) + "]" : flow_of(at, found.next, payload))));
    else
        ways.push_back(
            page.behind(found.entry->place.line, found.entry->place.column - 1 + 2, block_of(at, found.next, payload)));
}

void into_list(Page const& page, Found const& found, Payload const& payload, std::vector<std::string>& ways)
{
    Node const& list = *found.node;
    if (page.starts(list.place, '['))
        ways.push_back(
            page.put_in(page.offset(list.place) + 1, flow_of({}, 0, payload) + (list.items.empty() ? "" : ", ")));
    if (list.items.empty())
        return;
    std::size_t const first = list.items.front().place.line;
    std::string const line = page.line(first);
    std::size_t const dash = line.find_first_not_of(' ');
    if (dash != std::string::npos && line[dash] == '-')
        ways.push_back(page.behind(page.last_of_group(first, dash, true), dash, block_of({}, 0, payload)));
}

// 'noticed: grinding noise' is a list of one: it becomes the list's first entry.
void into_single(Page const& page, Found const& found, Payload const& payload, std::vector<std::string>& ways)
{
    Node const& single = *found.node;
    std::size_t const at = page.offset(single.place);
    std::size_t end = at + single.text.size();
    if (single.quoted)
        end = page.text().find(page.text()[at], at + 1) + 1;
    if (end <= page.text().size())
        ways.push_back(page.text().substr(0, at) + "[" + flow_of({}, 0, payload) + ", " +
                       page.text().substr(at, end - at) + "]" + page.text().substr(end));
}

std::string put_into(std::string const& text, Keys const& at, Payload const& payload)
{
    if (payload.value)
        static_cast<void>(reference::read_yaml("value: " + quoted(*payload.value))); // refuses what no file may hold
    for (auto const& [field, said] : payload.entry)
        static_cast<void>(reference::read_yaml((field.empty() ? "entry" : field) + ": " + quoted(said)));
    Node root = reference::read_yaml(text);
    Page const page(text);
    Found const found = descend(root, at, page);
    Node last = root, first = root;
    put(last, at, 0, payload, false);
    put(first, at, 0, payload, true);
    std::vector<std::string> ways;
    bool const whole = found.next == at.size();
    if (found.node->kind == Node::Kind::nothing)
        into_blank(page, found, at, payload, ways);
    else if (found.node->kind == Node::Kind::map && !whole)
        into_map(page, found, at, payload, ways);
    else if (found.node->kind == Node::Kind::list && whole)
        into_list(page, found, payload, ways);
    else if (found.node->kind == Node::Kind::scalar && whole)
        into_single(page, found, payload, ways);
    for (auto const& way : ways)
        try
        {
            Node const read = reference::read_yaml(way);
            if (same(read, last) || same(read, first))
                return way;
        }
        catch (fields::InputProblems const&)
        {
            // the next way
        }
    throw std::invalid_argument("no place for it was found in the text; write it there by hand");
}

} // namespace

Keys keys_of(std::string const& text, std::string const& path)
{
    Node const root = reference::read_yaml(text);
    Node const* node = &root;
    Keys out;
    std::string rest = path;
    while (!rest.empty())
    {
        std::string key = rest.substr(0, rest.find('/'));
        if (node != nullptr)
            for (auto const& entry : node->entries)
                if (bool const whole = rest == entry.key || rest.starts_with(entry.key + "/");
                    whole && entry.key.size() > key.size())
                    key = entry.key;
        node = node == nullptr ? nullptr : node->find(key);
        out.push_back(key);
        rest = rest.size() > key.size() ? rest.substr(key.size() + 1) : std::string();
    }
    return out;
}

std::string with_value(std::string const& text, Keys const& at, std::string const& value)
{
    return put_into(text, at, {value, {}});
}

std::string with_entry(std::string const& text, Keys const& at, EntryFields const& entry)
{
    return put_into(text, at, {std::nullopt, entry});
}

} // namespace padwalk::visit
