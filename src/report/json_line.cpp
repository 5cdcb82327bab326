/// Reading one line of JSON: strictly, with places.

#include "padwalk/report/json.hpp"

#include <nlohmann/json.hpp>

#include <iterator>

namespace padwalk::report
{
namespace
{

using fields::Node;
using fields::Place;
using nlohmann::json;

constexpr std::size_t deepest = 16;

[[noreturn]] void refuse(std::size_t offset, std::size_t length, std::string message, std::string advice)
{
    throw fields::InputProblems({fields::Problem{{1, offset + 1}, length, std::move(message), std::move(advice), {}}});
}

/// Characters that count how many of them were taken, so that events can be given places.
class Cursor
{
public:
    using iterator_category = std::input_iterator_tag;
    using value_type = char;
    using difference_type = std::ptrdiff_t;
    using pointer = char const*;
    using reference = char const&;

    Cursor(char const* at, std::size_t* taken) : at_(at), taken_(taken) {}
    reference operator*() const { return *at_; }
    Cursor& operator++()
    {
        ++at_;
        ++*taken_;
        return *this;
    }
    Cursor operator++(int)
    {
        Cursor before = *this;
        ++*this;
        return before;
    }
    friend bool operator!=(Cursor const& a, Cursor const& b) { return a.at_ != b.at_; }

private:
    char const* at_;
    std::size_t* taken_;
};

/// Builds nodes from the library's events. Between two events stand only blanks, commas, colons and brackets.
class LineBuilder final : public nlohmann::json_sax<json>
{
public:
    LineBuilder(std::string_view line, std::size_t const& taken) : line_(line), taken_(taken) {}

    [[nodiscard]] Node take() { return std::move(root_); }

    bool null() override { return add({}); }
    bool boolean(bool value) override { return add(scalar(value ? "yes" : "no")); }
    bool number_integer(number_integer_t) override { return add(scalar(number_here())); }
    bool number_unsigned(number_unsigned_t) override { return add(scalar(number_here())); }
    bool number_float(number_float_t, string_t const&) override { return add(scalar(number_here())); }
    bool string(string_t& value) override
    {
        Node node = scalar(value);
        node.quoted = true;
        return add(std::move(node));
    }
    bool binary(binary_t&) override { return false; }
    bool start_object(std::size_t) override { return open(Node::Kind::map); }
    bool end_object() override { return close(); }
    bool start_array(std::size_t) override { return open(Node::Kind::list); }
    bool end_array() override { return close(); }
    bool key(string_t& value) override
    {
        std::size_t const start = next_start();
        for (auto const& entry : open_.back().node.entries)
            if (entry.key == value)
                refuse(start, taken_ - start,
                       "'" + value + "' stands twice, first in column " + std::to_string(entry.place.column),
                       "keep one of them");
        open_.back().node.entries.push_back({value, {1, start + 1}, {}});
        done_ = taken_;
        return true;
    }
    bool parse_error(std::size_t position, std::string const&, json::exception const& error) override
    {
        std::string why = error.what(); // '[json.exception…] parse error at line 1, column 7: syntax error …'
        for (auto const* lead : {"] ", "column "})
            if (std::size_t const at = why.find(lead); at != std::string::npos)
                why.erase(0, at + std::string_view(lead).size());
        if (std::size_t const at = why.find(": "); at < 8) // npos is not
            why.erase(0, at + 2);
        refuse(position > 0 ? position - 1 : 0, 1, "not readable as JSON: " + why,
               "a line is one object, for example {\"flow\": \"45 gpm\"}");
    }

private:
    struct Open
    {
        Node node;
    };

    std::string_view line_;
    std::size_t const& taken_;
    std::size_t done_ = 0; ///< where the event before ended
    std::vector<Open> open_;
    Node root_;

    [[nodiscard]] std::size_t next_start() const
    {
        return std::min(line_.find_first_not_of(" \t\r\n,:", done_), line_.size());
    }
    [[nodiscard]] Node scalar(std::string text) const { return Node::scalar(std::move(text), {1, next_start() + 1}); }
    // The digits as they were written, so that nothing is rounded on the way.
    [[nodiscard]] std::string number_here() const
    {
        std::size_t const start = next_start();
        std::size_t const end = std::min(line_.find_first_not_of("0123456789+-.eE", start), line_.size());
        return std::string(line_.substr(start, end - start));
    }
    bool open(Node::Kind kind)
    {
        std::size_t const start = next_start();
        if (open_.size() >= deepest)
            refuse(start, 1, "nested more than " + std::to_string(deepest) + " deep",
                   "a record of readings needs two or three levels");
        if (open_.empty() && kind != Node::Kind::map)
            refuse(start, 1, "a list stands here, not an object",
                   "a line is one object, for example {\"flow\": \"45 gpm\"}");
        Node node;
        node.kind = kind;
        node.place = {1, start + 1};
        open_.push_back({std::move(node)});
        done_ = taken_;
        return true;
    }
    bool close()
    {
        Node node = std::move(open_.back().node);
        open_.pop_back();
        if (open_.empty())
            root_ = std::move(node);
        else
            put(std::move(node));
        done_ = taken_;
        return true;
    }
    bool add(Node node)
    {
        if (open_.empty())
            refuse(next_start(), 1, "a single value stands here, not an object",
                   "a line is one object, for example {\"flow\": \"45 gpm\"}");
        if (node.kind == Node::Kind::nothing)
            node.place = {1, next_start() + 1};
        // The library reads one character past a number; what follows is a blank, a comma or a bracket.
        std::size_t const length = node.kind == Node::Kind::scalar && !node.quoted ? node.text.size() : 0;
        bool const is_number = length > 0 && line_.substr(node.place.column - 1, length) == node.text;
        done_ = is_number ? node.place.column - 1 + length : taken_;
        put(std::move(node));
        return true;
    }
    void put(Node node)
    {
        Node& parent = open_.back().node;
        if (parent.kind == Node::Kind::list)
            parent.items.push_back(std::move(node));
        else
            parent.entries.back().value = std::move(node);
    }
};

} // namespace

Node node_of_json(std::string_view line)
{
    if (line.find_first_not_of(" \t\r\n") == std::string_view::npos)
        refuse(0, 0, "the line is empty", "a line is one object, for example {\"flow\": \"45 gpm\"}");
    std::size_t taken = 0;
    LineBuilder builder(line, taken);
    Cursor const first(line.data(), &taken);
    std::size_t ignored = 0;
    Cursor const last(line.data() + line.size(), &ignored);
    if (!json::sax_parse(first, last, &builder))
        refuse(0, line.size(), "not readable as JSON", "a line is one object, for example {\"flow\": \"45 gpm\"}");
    return builder.take();
}

} // namespace padwalk::report
