#pragma once
// Pictures made for the tests, and what came out, looked at.

#include "padwalk/photos/photo.hpp"

#include "catch_compat.hpp"

#include <gd.h>

#include <array>
#include <fstream>
#include <memory>
#include <sstream>
#include <string>
#include <vector>

namespace padwalk::tests
{

using Colour = std::array<int, 3>;
using Canvas = std::unique_ptr<gdImage, void (*)(gdImage*)>;

constexpr Colour red{220, 30, 30}, green{30, 200, 30}, blue{30, 30, 220}, yellow{230, 230, 40}, white{255, 255, 255};

inline int of_gd(Colour const& c)
{
    return gdTrueColor(c[0], c[1], c[2]);
}

/// Red, green above blue, yellow.
inline Canvas quarters(int width, int height)
{
    Canvas out(gdImageCreateTrueColor(width, height), gdImageDestroy);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
        {
            bool const right = 2 * x >= width, below = 2 * y >= height;
            out->tpixels[y][x] = of_gd(below ? (right ? yellow : blue) : (right ? green : red));
        }
    return out;
}

template <typename Write> std::string written(Write const& write)
{
    int count = 0;
    std::unique_ptr<void, void (*)(void*)> const bytes(write(&count), gdFree);
    REQUIRE(bytes);
    return {static_cast<char const*>(bytes.get()), static_cast<std::size_t>(count)};
}

inline std::string jpeg(Canvas const& canvas, int quality = 92)
{
    return written([&](int* count) { return gdImageJpegPtr(canvas.get(), count, quality); });
}

inline std::string png(Canvas const& canvas)
{
    gdImageSaveAlpha(canvas.get(), 1);
    return written([&](int* count) { return gdImagePngPtr(canvas.get(), count); });
}

/// A number in so many bytes, the highest first or last.
inline std::string number(std::uint32_t value, int bytes, bool little)
{
    std::string out;
    for (int i = 0; i < bytes; ++i)
        out += static_cast<char>(value >> 8 * (little ? i : bytes - 1 - i) & 0xFF);
    return out;
}

/// A TIFF block of these tags (number, value), each a number of two bytes, after a directory that begins at once.
inline std::string tags(std::vector<std::array<std::uint32_t, 2>> const& list, bool little)
{
    std::string out = (little ? "II" : "MM") + number(42, 2, little) + number(8, 4, little) +
                      number(static_cast<std::uint32_t>(list.size()), 2, little);
    for (auto const& [tag, value] : list)
        out += number(tag, 2, little) + number(3, 2, little) + number(1, 4, little) + number(value, 2, little) +
               std::string(2, '\0');
    return out + std::string(4, '\0');
}

/// A JPEG with a block of Exif put behind its first two bytes.
inline std::string with_exif(std::string const& jpeg, std::string const& block)
{
    std::string const segment = std::string("Exif\0\0", 6) + block;
    return jpeg.substr(0, 2) + "\xFF\xE1" + number(static_cast<std::uint32_t>(segment.size() + 2), 2, false) + segment +
           jpeg.substr(2);
}

inline std::string kept(std::string const& name)
{
    std::ifstream stream(std::string(PADWALK_SOURCE_FOLDER) + "/tests/photos/pictures/" + name, std::ios::binary);
    REQUIRE(stream);
    std::ostringstream out;
    out << stream.rdbuf();
    return out.str();
}

inline photos::EmbeddedPhoto shown(std::string_view bytes, photos::PhotoSize const& size = {})
{
    auto result = photos::embedded(bytes, size);
    if (auto const* refused = std::get_if<photos::PhotoRefused>(&result))
        FAIL("refused: " << refused->why);
    return std::get<photos::EmbeddedPhoto>(std::move(result));
}

inline std::string why_not(std::string_view bytes, photos::PhotoSize const& size = {})
{
    auto const result = photos::embedded(bytes, size);
    auto const* const refused = std::get_if<photos::PhotoRefused>(&result);
    return refused == nullptr ? "it is shown" : refused->why;
}

inline Canvas decoded(photos::EmbeddedPhoto const& photo)
{
    std::string bytes = photo.bytes;
    Canvas out(gdImageCreateFromJpegPtr(static_cast<int>(bytes.size()), bytes.data()), gdImageDestroy);
    REQUIRE(out);
    CHECK(out->sx == photo.width);
    CHECK(out->sy == photo.height);
    return out;
}

inline Colour colour_at(Canvas const& canvas, int x, int y)
{
    int const pixel = gdImageGetTrueColorPixel(canvas.get(), x, y);
    return {gdTrueColorGetRed(pixel), gdTrueColorGetGreen(pixel), gdTrueColorGetBlue(pixel)};
}

/// Whether two colours differ by no more than packing as JPEG may change a plain surface.
inline bool alike(Colour const& a, Colour const& b, int within = 12)
{
    for (std::size_t c = 0; c < 3; ++c)
        if (std::abs(a[c] - b[c]) > within)
            return false;
    return true;
}

/// Checks that the middles of the four quarters are red, green, blue, yellow.
inline void check_upright(photos::EmbeddedPhoto const& photo)
{
    auto const canvas = decoded(photo);
    int const w = photo.width, h = photo.height;
    CHECK(alike(colour_at(canvas, w / 4, h / 4), red));
    CHECK(alike(colour_at(canvas, 3 * w / 4, h / 4), green));
    CHECK(alike(colour_at(canvas, w / 4, 3 * h / 4), blue));
    CHECK(alike(colour_at(canvas, 3 * w / 4, 3 * h / 4), yellow));
}

} // namespace padwalk::tests
