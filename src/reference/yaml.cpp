#include "padwalk/reference/yaml.hpp"

#include "padwalk/units/spelling.hpp"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <optional>
#include <sstream>

namespace padwalk::reference
{
namespace
{

using fields::Node;
using fields::Place;
using fields::Problem;

[[noreturn]] void refuse(Place place, std::size_t length, std::string message, std::string advice)
{
    throw fields::InputProblems({Problem{place, length, std::move(message), std::move(advice), {}}});
}

[[noreturn]] void refuse_alias(Place place)
{
    refuse(place, 1, "'*' refers to another place; that is not taken here",
           "write the value out, or put quotes round it");
}

Place place_of(std::string_view text, std::size_t offset)
{
    Place place{1, 1};
    for (std::size_t i = 0; i < offset && i < text.size(); ++i)
        if (text[i] == '\n')
        {
            ++place.line;
            place.column = 1;
        }
        else
            ++place.column;
    return place;
}

void check_characters(std::string_view text)
{
    for (std::size_t i = 0; i < text.size();)
    {
        std::string_view const rest = text.substr(i);
        std::size_t const length = units::character_length(rest);
        if (length == 0)
            refuse(place_of(text, i), 1, "this is not UTF-8 text",
                   "save the file as UTF-8; a photo or a PDF is not a visit");
        bool const line_end = rest.front() == '\n' || rest.starts_with("\r\n");
        if (rest.front() == '\r' && !line_end)
            refuse(place_of(text, i), 1, "a carriage return stands alone here",
                   "save the file with line ends of the usual kind (LF or CR LF)");
        if (units::is_control(rest) && !line_end && rest.front() != '\t')
            refuse(place_of(text, i), length,
                   "a control character (byte " + std::to_string(static_cast<unsigned char>(rest.front())) +
                       ") stands here",
                   "save the file as plain UTF-8 text");
        i += length;
    }
}

// Where a quote opens and does not close on its line, from this line on.
std::optional<Place> open_quote(std::string_view text, std::size_t from_line)
{
    Place place{1, 1};
    bool starts = true; // a quote here would open a quoted text
    char quote = 0;
    Place opened;
    for (std::size_t i = 0; i < text.size(); ++i, ++place.column)
    {
        char const c = text[i];
        if (c == '\n')
        {
            if (quote != 0 && opened.line >= from_line)
                return opened;
            quote = 0;
            starts = true;
            place = {place.line + 1, 0};
        }
        else if (quote != 0)
        {
            if (c == '\\' && quote == '"' && i + 1 < text.size() && text[i + 1] != '\n')
                ++i, ++place.column;
            else if (c == quote)
                quote = 0;
        }
        else if (starts && (c == '"' || c == '\''))
        {
            quote = c;
            opened = place;
        }
        else if (c == '#' && starts)
        {
            std::size_t const end = std::min(text.find('\n', i), text.size());
            i = end - 1; // the rest is a comment
        }
        else if (c != ' ')
            starts = c == ':' || c == '-' || c == '?' || c == ',' || c == '[' || c == '{';
    }
    return quote != 0 ? std::optional(opened) : std::nullopt;
}

class TreeBuilder final : public YAML::EventHandler
{
public:
    TreeBuilder(std::string_view text, YamlLimits const& limits) : text_(text), limits_(limits)
    {
        line_starts_.push_back(0);
        for (std::size_t i = 0; i < text.size(); ++i)
            if (text[i] == '\n')
                line_starts_.push_back(i + 1);
    }

    [[nodiscard]] Node take() { return root_ ? std::move(*root_) : Node::map(); }

    /// The innermost '[' or '{' that is still open.
    [[nodiscard]] std::optional<Place> open_bracket() const
    {
        for (auto at = open_.rbegin(); at != open_.rend(); ++at)
            if (auto const here = from(at->node.place); here.starts_with('[') || here.starts_with('{'))
                return at->node.place;
        return std::nullopt;
    }
    /// The last line that was understood.
    [[nodiscard]] std::size_t line() const { return line_; }

    void OnDocumentStart(YAML::Mark const& mark) override
    {
        std::string_view const here = from(at(mark));
        if (here.starts_with(','))
            refuse(at(mark), 1, "',' does not belong here",
                   "write 'name: value', or put quotes round a text that starts so");
        if (started_)
            refuse(at(mark), 0, "a second document starts here",
                   "check how far this line is set in: lines of one group start in the same column");
        started_ = true;
    }
    void OnDocumentEnd() override {}
    void OnNull(YAML::Mark const& mark, YAML::anchor_t anchor) override
    {
        no_anchor(mark, anchor);
        Node node;
        node.place = at(mark);
        add(std::move(node));
    }
    void OnAlias(YAML::Mark const& mark, YAML::anchor_t) override { refuse_alias(at(mark)); }
    void OnScalar(YAML::Mark const& mark, std::string const& tag, YAML::anchor_t anchor,
                  std::string const& value) override
    {
        no_anchor(mark, anchor);
        bool const quoted = tag == "!";
        if (!quoted)
            no_tag(mark, tag);
        Node node = Node::scalar(value, at(mark));
        node.quoted = quoted && quote_here(node.place);
        if (node.quoted)
            closes_on_its_line(node.place);
        else if (from(node.place).starts_with('!'))
            no_tag(mark, "!!");
        no_control(node);
        add(std::move(node));
    }
    void OnSequenceStart(YAML::Mark const& mark, std::string const& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value) override
    {
        open(Node::Kind::list, mark, tag, anchor);
    }
    void OnSequenceEnd() override { close(); }
    void OnMapStart(YAML::Mark const& mark, std::string const& tag, YAML::anchor_t anchor,
                    YAML::EmitterStyle::value) override
    {
        open(Node::Kind::map, mark, tag, anchor);
    }
    void OnMapEnd() override { close(); }

private:
    struct Open
    {
        Node node;
        std::optional<Node> key; ///< of a map: read, its value still to come
    };

    std::string_view text_;
    YamlLimits limits_;
    std::vector<std::size_t> line_starts_;
    std::vector<Open> open_;
    std::optional<Node> root_;
    std::size_t nodes_ = 0;
    std::size_t line_ = 1;
    bool started_ = false;

    [[nodiscard]] static Place at(YAML::Mark const& mark)
    {
        return {static_cast<std::size_t>(std::max(mark.line, 0)) + 1,
                static_cast<std::size_t>(std::max(mark.column, 0)) + 1};
    }
    [[nodiscard]] std::string_view from(Place place) const
    {
        if (place.line > line_starts_.size())
            return {};
        std::size_t const offset = line_starts_[place.line - 1] + place.column - 1;
        return offset < text_.size() ? text_.substr(offset, text_.find('\n', offset) - offset) : std::string_view{};
    }
    [[nodiscard]] bool quote_here(Place place) const
    {
        auto const rest = from(place);
        return !rest.empty() && (rest.front() == '"' || rest.front() == '\'');
    }
    void closes_on_its_line(Place place) const
    {
        auto const rest = from(place);
        for (std::size_t i = 1; i < rest.size(); ++i)
        {
            if (rest[i] == '\\' && rest.front() == '"')
                ++i;
            else if (rest[i] == rest.front())
            {
                if (rest.front() != '\'' || i + 1 >= rest.size() || rest[i + 1] != '\'')
                    return;
                ++i; // '' is one quote inside single quotes
            }
        }
        refuse(place, rest.size(), "this quote does not close on its line", "close it, or leave both quotes out");
    }
    // "\e" and its like would put back what check_characters refused.
    static void no_control(Node const& node)
    {
        for (std::size_t i = 0; i < node.text.size(); ++i)
            if (units::is_control(std::string_view(node.text).substr(i)) && node.text[i] != '\n' &&
                node.text[i] != '\t')
                refuse(node.place, 1, "an escape in this text stands for a control character",
                       "write the text without it");
    }
    static void no_anchor(YAML::Mark const& mark, YAML::anchor_t anchor)
    {
        if (anchor != 0)
            refuse(at(mark), 1, "'&' names a place to refer to; that is not taken here",
                   "write the value out, or put quotes round it");
    }
    static void no_tag(YAML::Mark const& mark, std::string const& tag)
    {
        if (!tag.empty() && tag != "?" && tag != "!")
            refuse(at(mark), 1, "'!' starts a type name; that is not taken here", "put quotes round it");
    }
    void count(Place place)
    {
        line_ = place.line;
        if (++nodes_ > limits_.nodes)
            refuse(place, 0, "more than " + std::to_string(limits_.nodes) + " values", "one file is one visit");
    }
    void open(Node::Kind kind, YAML::Mark const& mark, std::string const& tag, YAML::anchor_t anchor)
    {
        no_anchor(mark, anchor);
        no_tag(mark, tag);
        Place const place = at(mark);
        if (!open_.empty() && open_.back().node.kind == Node::Kind::map && !open_.back().key)
            refuse(place, 1, "a key must be one plain value", "write 'name: value'");
        if (open_.size() >= limits_.depth)
            refuse(place, 1, "nested more than " + std::to_string(limits_.depth) + " deep",
                   "a visit needs no more than six levels");
        count(place);
        Open next;
        next.node.kind = kind;
        next.node.place = place;
        open_.push_back(std::move(next));
    }
    void close()
    {
        Node node = std::move(open_.back().node);
        open_.pop_back();
        add_counted(std::move(node));
    }
    void add(Node node)
    {
        count(node.place);
        add_counted(std::move(node));
    }
    void add_counted(Node node)
    {
        if (open_.empty())
        {
            root_ = std::move(node);
            return;
        }
        Open& parent = open_.back();
        if (parent.node.kind == Node::Kind::list)
            parent.node.items.push_back(std::move(node));
        else if (!parent.key)
        {
            if (node.kind != Node::Kind::scalar)
                refuse(node.place, 0, "a key is missing here", "write 'name: value'");
            parent.key = std::move(node);
        }
        else
        {
            if (node.kind == Node::Kind::nothing)
                node.place = parent.key->place; // the library puts it at the next token
            parent.node.entries.push_back({parent.key->text, parent.key->place, std::move(node)});
            parent.key.reset();
        }
    }
};

// What the library could not read, in its words, at the place where a person would look.
[[noreturn]] void refuse_unreadable(YAML::Exception const& e, std::string_view text, TreeBuilder const& builder)
{
    Place place{static_cast<std::size_t>(std::max(e.mark.line, 0)) + 1,
                static_cast<std::size_t>(std::max(e.mark.column, 0)) + 1};
    auto said = [&](std::string_view words) { return e.msg.find(words) != std::string::npos; };
    if (said("EOF in scalar"))
        refuse(open_quote(text, builder.line()).value_or(place), 1, "this quote does not close on its line",
               "close it, or leave both quotes out");
    if (said("referenced anchor"))
        refuse_alias(place);
    if (said("flow not found"))
        refuse(builder.open_bracket().value_or(place), 1, "this bracket is not closed",
               "close it, or write one value per line without brackets");
    std::size_t start = 0;
    for (std::size_t i = 1; i < place.line; ++i)
        start = std::min(text.find('\n', start), text.size() - 1) + 1;
    std::string_view const line = text.substr(start, text.find('\n', start) - start);
    std::string advice =
        "write 'name: value', one per line, lines of one group in the same column; quote text that holds ': '";
    if (said("block scalar") || said("unknown token"))
        advice = "if a value starts with one of > | % @ ` , put quotes round it";
    else if (line.find('\t') != std::string_view::npos)
        advice = "set lines in with spaces, not tabs";
    refuse(place, 1, "not readable as YAML: " + e.msg, advice);
}

} // namespace

fields::Node read_yaml(std::string_view text, YamlLimits const& limits)
{
    if (text.size() > limits.bytes)
        refuse({}, 0,
               "the file has " + std::to_string(text.size()) + " bytes; at most " + std::to_string(limits.bytes) +
                   " are read",
               "one file is one visit");
    if (text.starts_with("\xEF\xBB\xBF"))
        text.remove_prefix(3);
    check_characters(text);
    std::size_t const last =
        text.find_last_not_of(" \t\r\n"); // with white space at the end an unclosed quote would pass
    std::string const trimmed(text.substr(0, last == std::string_view::npos ? 0 : last + 1));
    TreeBuilder builder(trimmed, limits);
    try
    {
        std::istringstream stream(trimmed);
        YAML::Parser parser(stream);
        parser.HandleNextDocument(builder);
        parser.HandleNextDocument(builder); // a second document, if there is one, is refused by the builder
    }
    catch (YAML::Exception const& e)
    {
        refuse_unreadable(e, trimmed, builder);
    }
    return builder.take();
}

} // namespace padwalk::reference
