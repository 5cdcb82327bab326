#include "padwalk/reference/data.hpp"

namespace padwalk::reference
{
namespace
{

using fields::Node;

void put_number(std::string& out, std::size_t value)
{
    out += std::to_string(value);
    out += ' ';
}

void put_text(std::string& out, std::string const& text)
{
    put_number(out, text.size());
    out += text;
}

void put(std::string& out, Node const& node)
{
    out += "nslm"[static_cast<std::size_t>(node.kind)];
    put_number(out, node.place.line);
    put_number(out, node.place.column);
    switch (node.kind)
    {
    case Node::Kind::nothing: break;
    case Node::Kind::scalar:
        out += node.quoted ? 'q' : 'p';
        put_text(out, node.text);
        break;
    case Node::Kind::list:
        put_number(out, node.items.size());
        for (auto const& item : node.items)
            put(out, item);
        break;
    case Node::Kind::map:
        put_number(out, node.entries.size());
        for (auto const& entry : node.entries)
        {
            put_text(out, entry.key);
            put_number(out, entry.place.line);
            put_number(out, entry.place.column);
            put(out, entry.value);
        }
        break;
    }
}

class Unpacker
{
public:
    explicit Unpacker(std::string_view text) : text_(text) {}

    Node node(int depth = 0)
    {
        if (depth > 64)
            bad();
        Node out;
        char const kind = character();
        out.place.line = number();
        out.place.column = number();
        if (kind == 's')
        {
            out.kind = Node::Kind::scalar;
            char const quoted = character();
            if (quoted != 'q' && quoted != 'p')
                bad();
            out.quoted = quoted == 'q';
            out.text = std::string(string());
        }
        else if (kind == 'l')
        {
            out.kind = Node::Kind::list;
            std::size_t const count = counted();
            for (std::size_t i = 0; i < count; ++i)
                out.items.push_back(node(depth + 1));
        }
        else if (kind == 'm')
        {
            out.kind = Node::Kind::map;
            std::size_t const count = counted();
            for (std::size_t i = 0; i < count; ++i)
            {
                std::string key(string());
                std::size_t const line = number();
                std::size_t const column = number();
                out.entries.push_back({std::move(key), {line, column}, node(depth + 1)});
            }
        }
        else if (kind != 'n')
            bad();
        return out;
    }
    void at_end() const
    {
        if (pos_ != text_.size())
            bad();
    }

private:
    std::string_view text_;
    std::size_t pos_ = 0;

    [[noreturn]] static void bad() { throw std::runtime_error("packed data is damaged"); }
    char character()
    {
        if (pos_ >= text_.size())
            bad();
        return text_[pos_++];
    }
    std::size_t number()
    {
        std::size_t value = 0;
        std::size_t digits = 0;
        char c = character();
        for (; c >= '0' && c <= '9'; c = character(), ++digits)
            value = value * 10 + static_cast<std::size_t>(c - '0');
        if (c != ' ' || digits == 0 || digits > 15)
            bad();
        return value;
    }
    std::size_t counted()
    {
        std::size_t const count = number();
        if (count > text_.size())
            bad();
        return count;
    }
    std::string_view string()
    {
        std::size_t const size = number();
        if (size > text_.size() - pos_)
            bad();
        std::string_view const out = text_.substr(pos_, size);
        pos_ += size;
        return out;
    }
};

} // namespace

std::string pack(fields::Node const& node)
{
    std::string out;
    put(out, node);
    return out;
}

fields::Node unpack(std::string_view packed)
{
    Unpacker unpacker(packed);
    fields::Node out = unpacker.node();
    unpacker.at_end();
    return out;
}

} // namespace padwalk::reference
