#pragma once
/// Reads the drawings of a page as strict XML, and says where their texts stand.

#include <algorithm>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace padwalk::tests
{

/// Every SVG drawing of a page, each from its tag to its end.
inline std::vector<std::string> drawings_of(std::string const& html)
{
    std::vector<std::string> out;
    std::string const start = "<svg class=\"drawing\"", end = "</svg>";
    for (std::size_t at = html.find(start); at != std::string::npos; at = html.find(start, at + 1))
        out.push_back(html.substr(at, html.find(end, at) + end.size() - at));
    return out;
}

struct Element
{
    std::string name, text;
    std::map<std::string, std::string> attributes;
    std::size_t depth = 0;

    [[nodiscard]] double number(std::string const& key) const { return std::stod(attributes.at(key)); }
    [[nodiscard]] bool is(std::string const& kind) const
    {
        auto const found = attributes.find("class");
        return found != attributes.end() && (" " + found->second + " ").find(" " + kind + " ") != std::string::npos;
    }
};

/// A strict reader of what an SVG needs of XML: elements, attributes in double quotes, texts with the five entities.
/// Throws std::runtime_error at the first thing that is not well-formed.
class XmlReader
{
public:
    explicit XmlReader(std::string text) : text_(std::move(text)) {}

    std::vector<Element> elements()
    {
        element(0);
        if (at_ != text_.size())
            fail("something after the root");
        return std::move(out_);
    }

private:
    std::string text_;
    std::size_t at_ = 0;
    std::vector<Element> out_;

    [[noreturn]] void fail(std::string const& why) const
    {
        throw std::runtime_error(why + " at: " + text_.substr(at_, 60));
    }
    [[nodiscard]] bool next_is(std::string const& what) const { return text_.compare(at_, what.size(), what) == 0; }
    void expect(std::string const& what)
    {
        if (!next_is(what))
            fail("wanted '" + what + "'");
        at_ += what.size();
    }
    std::string name()
    {
        std::size_t const start = at_;
        while (at_ < text_.size() && (std::isalnum(static_cast<unsigned char>(text_[at_])) != 0 || text_[at_] == '-'))
            ++at_;
        if (at_ == start || std::isalpha(static_cast<unsigned char>(text_[start])) == 0)
            fail("wanted a name");
        return text_.substr(start, at_ - start);
    }
    // Up to one of the two ends, entities read.
    std::string characters(char end, char forbidden)
    {
        static std::map<std::string, std::string> const entities{
            {"&amp;", "&"}, {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}};
        std::string out;
        while (at_ < text_.size() && text_[at_] != end)
        {
            unsigned char const c = static_cast<unsigned char>(text_[at_]);
            if (text_[at_] == forbidden || text_[at_] == '>' || (c < 0x20 && c != '\n'))
                fail("not escaped");
            if (c != '&')
            {
                out += text_[at_++];
                continue;
            }
            auto const found = std::find_if(entities.begin(), entities.end(),
                                            [&](auto const& entity) { return next_is(entity.first); });
            if (found == entities.end())
                fail("no entity");
            out += found->second;
            at_ += found->first.size();
        }
        return out;
    }
    void element(std::size_t depth)
    {
        expect("<");
        std::size_t const place = out_.size();
        out_.push_back({name(), {}, {}, depth});
        while (next_is(" "))
        {
            ++at_;
            std::string const key = name();
            expect("=\"");
            if (!out_[place].attributes.emplace(key, characters('"', '<')).second)
                fail("attribute twice: " + key);
            expect("\"");
        }
        if (next_is("/>"))
        {
            at_ += 2;
            return;
        }
        expect(">");
        for (;;)
        {
            out_[place].text += characters('<', '\0');
            if (next_is("</"))
                break;
            element(depth + 1);
        }
        expect("</" + out_[place].name + ">");
    }
};

struct Frame
{
    double left = 0, top = 0, right = 0, bottom = 0;
    std::string what;
    [[nodiscard]] bool meets(Frame const& o) const
    {
        return left < o.right && o.left < right && top < o.bottom && o.top < bottom;
    }
};

/// Advance widths of Helvetica in thousandths of an em, as its font metrics give them (from memory); what is not Latin
/// counts as one em.
inline double ems_of(std::string const& text)
{
    static std::string const narrow = "ijl'|", thin = " .,:;!/\\ftI[]", small = "r-()`", wide = "mwMW%@&";
    double out = 0;
    for (char const c : text)
    {
        if ((static_cast<unsigned char>(c) & 0xC0U) == 0x80U)
            continue;
        bool const latin = static_cast<unsigned char>(c) < 0xD0;
        out += narrow.find(c) != std::string::npos  ? 0.222
               : thin.find(c) != std::string::npos  ? 0.278
               : small.find(c) != std::string::npos ? 0.333
               : wide.find(c) != std::string::npos  ? 0.889
               : c >= 'A' && c <= 'Z'               ? 0.70
               : latin                              ? 0.556
                                                    : 1.0;
    }
    return out;
}

inline Frame frame_of(Element const& text)
{
    double const size = text.number("font-size"), x = text.number("x"), y = text.number("y");
    bool const bold = text.attributes.count("font-weight") == 1;
    double const width = ems_of(text.text) * size * (bold ? 1.06 : 1.0);
    auto const anchor = text.attributes.find("text-anchor");
    double const left = anchor == text.attributes.end() ? x : anchor->second == "end" ? x - width : x - width / 2;
    return {left, y - 0.75 * size, left + width, y + 0.22 * size, text.text};
}

inline std::vector<Frame> texts_of(std::vector<Element> const& drawing)
{
    std::vector<Frame> out;
    for (auto const& element : drawing)
        if (element.name == "text")
            out.push_back(frame_of(element));
    return out;
}

/// The points of a polyline or polygon.
inline std::vector<std::pair<double, double>> points_of(Element const& element)
{
    std::vector<std::pair<double, double>> out;
    std::string const& text = element.attributes.at("points");
    for (std::size_t at = 0; at < text.size();)
    {
        std::size_t const comma = text.find(',', at), end = std::min(text.find(' ', at), text.size());
        out.push_back({std::stod(text.substr(at, comma - at)), std::stod(text.substr(comma + 1, end - comma - 1))});
        at = end + 1;
    }
    return out;
}

} // namespace padwalk::tests
