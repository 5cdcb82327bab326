#pragma once
/// What every drawing of a page must keep: named, in bounds, its texts large enough and apart, its colours the style
/// sheet's.

#include "catch_compat.hpp"
#include "report/svg_reader.hpp"

namespace padwalk::tests
{

inline void check_readable(std::vector<Element> const& elements)
{
    CHECK(elements.at(1).name == "title");
    CHECK(elements.at(2).name == "desc");
    CHECK(elements.at(2).text.size() > 20);
    std::string const& box = elements.front().attributes.at("viewBox");
    double const width = std::stod(box.substr(4)), height = std::stod(box.substr(box.rfind(' ')));
    CHECK(width == 360);
    CHECK(height < 1000);
    auto const texts = texts_of(elements);
    for (std::size_t i = 0; i < texts.size(); ++i)
    {
        INFO(texts[i].what << ": " << texts[i].left << " to " << texts[i].right << ", " << texts[i].top);
        CHECK(texts[i].left >= 0);
        CHECK(texts[i].top >= 0);
        CHECK(texts[i].right <= width);
        CHECK(texts[i].bottom <= height);
        for (std::size_t k = 0; k < i; ++k)
        {
            INFO(texts[k].what);
            CHECK_FALSE(texts[i].meets(texts[k]));
        }
    }
    for (auto const& element : elements)
    {
        if (element.name == "text")
            CHECK(element.number("font-size") >= 12);
        CHECK(element.attributes.count("style") == 0);
        CHECK(element.attributes.count("fill") == 0);
    }
}

} // namespace padwalk::tests
