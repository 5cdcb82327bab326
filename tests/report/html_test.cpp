#include "catch_compat.hpp"

#include "padwalk/report/html.hpp"
#include "report/layout.hpp"
#include "report/sample.hpp"

#include <cmath>
#include <map>
#include <regex>

using namespace padwalk;
using tests::count;

namespace
{

std::string const nasty = "</p></style><script>alert(1)</script><img src=x onerror='y'> \"&amp; \x1b[31m \xff "
                          "\xe2\x80\xae `水` javascript:alert(1)";

// Names of tags in order, '/' before closing ones; stops at what is no tag.
std::vector<std::string> tags_of(std::string const& html)
{
    std::vector<std::string> out;
    for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1))
    {
        std::size_t const end = html.find_first_of(" >\n", at);
        out.push_back(html.substr(at + 1, end - at - 1));
    }
    return out;
}

bool stands_alone(std::string const& tag)
{
    return tag == "meta" || tag == "br" || tag == "!doctype" || tag == "rect" || tag == "col";
}

// WCAG 2: relative luminance of '#rrggbb' and contrast of two colours.
double luminance(std::string const& colour)
{
    std::string full = colour.size() == 4
                           ? std::string{'#', colour[1], colour[1], colour[2], colour[2], colour[3], colour[3]}
                           : colour;
    double out = 0;
    double const weights[] = {0.2126, 0.7152, 0.0722};
    for (std::size_t i = 0; i < 3; ++i)
    {
        double const c = std::stoi(full.substr(1 + 2 * i, 2), nullptr, 16) / 255.0;
        out += weights[i] * (c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4));
    }
    return out;
}

double contrast(std::string const& a, std::string const& b)
{
    double const x = luminance(a), y = luminance(b);
    return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

// The palettes of the style, in the order written: light, dark, paper.
std::vector<std::map<std::string, std::string>> palettes(std::string const& html)
{
    std::vector<std::map<std::string, std::string>> out;
    std::regex const block(R"(:root \{[^}]*--paper[^}]*\})"), one(R"(--([a-z]+): (#[0-9a-f]+);)");
    for (std::sregex_iterator b(html.begin(), html.end(), block), end; b != end; ++b)
    {
        std::string const text = b->str();
        std::map<std::string, std::string> palette;
        for (std::sregex_iterator c(text.begin(), text.end(), one); c != end; ++c)
            palette[(*c)[1]] = (*c)[2];
        out.push_back(palette);
    }
    return out;
}

} // namespace

TEST_CASE("every tag of the page closes where it should, whatever the visit says", "[report][html]")
{
    auto const model = tests::sample_model();
    for (auto const& assessment : {tests::sample(model), tests::hostile(model, nasty), assess::Assessment{}})
    {
        std::vector<std::string> open;
        for (auto const& tag : tags_of(report::as_html(assessment, units::System::us, tests::layout())))
        {
            if (stands_alone(tag))
                continue;
            if (tag.front() != '/')
            {
                open.push_back(tag);
                continue;
            }
            REQUIRE_FALSE(open.empty());
            CHECK(open.back() == tag.substr(1));
            open.pop_back();
        }
        CHECK(open.empty());
    }
}

TEST_CASE("a hostile visit adds no tag, no attribute and no control character", "[report][html]")
{
    auto const model = tests::sample_model();
    auto const html = report::as_html(tests::hostile(model, nasty), units::System::us, tests::layout());
    auto tags = tags_of(html);
    for (auto const& tag : tags)
    {
        INFO(tag);
        CHECK(tag != "script");
        CHECK(tag != "img");
        CHECK(tag != "a");
    }
    CHECK(count(html, "</style>") == 1);
    CHECK(html.find("&lt;script&gt;alert(1)&lt;/script&gt;") != std::string::npos);
    CHECK(html.find("&quot;&amp;amp;") != std::string::npos);
    CHECK(html.find("onerror='") == std::string::npos);
    CHECK(html.find("onerror=&#39;y&#39;") != std::string::npos);
    CHECK(html.find('\x1b') == std::string::npos);
    CHECK(html.find('\xff') == std::string::npos);
    CHECK(html.find("\xe2\x80\xae") == std::string::npos);
    CHECK(html.find("水") != std::string::npos);
}

TEST_CASE("the page stands alone", "[report][html]")
{
    auto const model = tests::sample_model();
    auto const html = report::as_html(tests::sample(model), units::System::us, tests::layout());
    for (auto const* what : {"http://", "https://", "url(", "@import", "<script", "<link", "<img", "src=", "href="})
    {
        INFO(what);
        CHECK(html.find(what) == std::string::npos);
    }
    CHECK(html.find("default-src 'none'") != std::string::npos);
    for (auto const* what :
         {"<html lang=\"en\">", "<title>Blue house, back yard, 2026-05-14 10:30</title>", "name=\"viewport\"",
          "prefers-color-scheme: dark", "@page", "@media print", "table-header-group", "break-inside: avoid"})
    {
        INFO(what);
        CHECK(html.find(what) != std::string::npos);
    }
}

TEST_CASE("the page can be read by its headings, and danger stands first", "[report][html]")
{
    auto const model = tests::sample_model();
    auto const html = report::as_html(tests::sample(model), units::System::us, tests::layout());
    CHECK(count(html, "<h1>") == 1);
    CHECK(count(html, "<h2 ") == count(html, "<section "));
    CHECK(count(html, "<caption>") == count(html, "<table "));
    CHECK(count(html, "scope=\"row\"") == count(html, "<tr ") - count(html, "<thead "));
    CHECK(count(html, "<svg ") == 2);
    CHECK(html.find("<title>Chance: likely, 82\u00a0%</title>") != std::string::npos);
    std::size_t const danger = html.find("<section class=\"danger\" id=\"danger\"");
    REQUIRE(danger != std::string::npos);
    CHECK(danger == html.find("<section "));
    CHECK(html.find("Everyone out of the water.", danger) < html.find("id=\"answer\""));
    CHECK(html.find("Keep out of the water and off wet metal", danger) < html.find("id=\"answer\""));
}

TEST_CASE("text stands off its ground in light, dark and print", "[report][html]")
{
    auto const found = palettes(report::as_html(assess::Assessment{}, units::System::us, tests::layout()));
    REQUIRE(found.size() == 3);
    for (auto const& palette : found)
        for (auto const* ink : {"ink", "faint", "accent"})
            for (auto const* ground : {"paper", "wash"})
            {
                INFO(ink << " " << palette.at(ink) << " on " << ground << " " << palette.at(ground));
                CHECK(contrast(palette.at(ink), palette.at(ground)) >= 4.5); // WCAG 2.1, 1.4.3, ordinary text
            }
}
