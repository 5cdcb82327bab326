// What goes into a page: kinds, sizes, what lies on white, what is dropped.

#include "pictures.hpp"

#include "padwalk/photos/photo.hpp"

#include <stdexcept>

using namespace padwalk;
using namespace padwalk::tests;

namespace
{

bool holds(std::string const& text, std::string_view what)
{
    return text.find(what) != std::string::npos;
}

} // namespace

TEST_CASE("a picture keeps its shape and gets no larger than asked", "[photos]")
{
    struct Case
    {
        int width, height, longest, shown_width, shown_height;
    };
    auto const c = GENERATE(Case{1600, 800, 1280, 1280, 640}, Case{800, 1600, 400, 200, 400},
                            Case{100, 50, 1280, 100, 50}, Case{1, 1, 1280, 1, 1}, Case{9000, 2, 1280, 1280, 1},
                            Case{1281, 1280, 1280, 1280, 1279}, Case{1280, 7, 1280, 1280, 7}, Case{3, 4001, 64, 1, 64});
    INFO(c.width << " by " << c.height);
    photos::PhotoSize size;
    size.longest_side = c.longest;
    auto const photo = shown(jpeg(quarters(c.width, c.height)), size);
    CHECK(photo.width == c.shown_width);
    CHECK(photo.height == c.shown_height);
    CHECK(photo.type == "image/jpeg");
    CHECK(photo.remark.empty());
    static_cast<void>(decoded(photo));
}

TEST_CASE("every kind that is read gives the same upright picture", "[photos]")
{
    auto const canvas = quarters(96, 64);
    check_upright(shown(jpeg(canvas)));
    check_upright(shown(png(canvas)));
    check_upright(shown(written([&](int* n) { return gdImageGifPtr(canvas.get(), n); })));
    check_upright(shown(written([&](int* n) { return gdImageBmpPtr(canvas.get(), n, 0); })));
    check_upright(shown(written([&](int* n) { return gdImageBmpPtr(canvas.get(), n, 1); })));
    check_upright(shown(written([&](int* n) { return gdImageWebpPtr(canvas.get(), n); })));
    check_upright(shown(written([&](int* n) { return gdImageTiffPtr(canvas.get(), n); })));
    check_upright(shown(kept("in_passes.jpg")));
    check_upright(shown(kept("moving.gif"))); // its second picture is upside down
    auto const grey = decoded(shown(kept("grey.jpg")));
    CHECK(alike(colour_at(grey, 5, 5), Colour{87, 87, 87})); // 0.299 of 220 and 0.701 of 30
}

TEST_CASE("a JPEG for printing shows its colours about as they are", "[photos]")
{
    auto const canvas = decoded(shown(kept("for_printing.jpg")));
    CHECK(alike(colour_at(canvas, 5, 5), red, 20));
    CHECK(alike(colour_at(canvas, 42, 26), yellow, 20));
}

TEST_CASE("what is clear in a picture lies on white", "[photos]")
{
    auto canvas = quarters(64, 64);
    for (int y = 0; y < 64; ++y)
        for (int x = 0; x < 32; ++x)
            canvas->tpixels[y][x] = y < 32 ? gdTrueColorAlpha(0, 0, 0, gdAlphaMax) : gdTrueColorAlpha(0, 0, 254, 64);
    auto const shown_canvas = decoded(shown(png(canvas)));
    CHECK(alike(colour_at(shown_canvas, 10, 10), white));
    CHECK(alike(colour_at(shown_canvas, 10, 50), Colour{128, 128, 255})); // 64 of 127 clear: half white, half blue
    CHECK(alike(colour_at(shown_canvas, 50, 10), green));

    // A picture of numbered colours, one of which is said to be clear.
    gdImageTrueColorToPalette(canvas.get(), 0, 16);
    gdImageColorTransparent(canvas.get(), gdImageGetPixel(canvas.get(), 50, 10));
    for (auto const& bytes : {png(canvas), written([&](int* n) { return gdImageGifPtr(canvas.get(), n); })})
        CHECK(alike(colour_at(decoded(shown(bytes)), 50, 10), white));
}

TEST_CASE("scaling takes the mean over the area of each new pixel", "[photos]")
{
    // Columns of black and white, one pixel wide: any even share of them is grey, where one in two taken would be
    // black or white throughout.
    Canvas const stripes(gdImageCreateTrueColor(512, 256), gdImageDestroy);
    for (int y = 0; y < 256; ++y)
        for (int x = 0; x < 512; ++x)
            stripes->tpixels[y][x] = x % 2 == 0 ? 0 : 0xFFFFFF;
    photos::PhotoSize size;
    size.longest_side = 128;
    auto const even = decoded(shown(png(stripes), size));
    for (int x = 0; x < 128; ++x)
        CHECK(alike(colour_at(even, x, 30), Colour{128, 128, 128}, 2));

    // 5 to 4: each new pixel covers 1.25 old ones. One white column in five gives 0.8 of one cell or 0.2 and 0.6 of
    // two.
    Canvas const lines(gdImageCreateTrueColor(80, 80), gdImageDestroy);
    for (int y = 0; y < 80; ++y)
        for (int x = 0; x < 80; ++x)
            lines->tpixels[y][x] = x % 5 == 1 ? 0xFFFFFF : 0;
    size.longest_side = 64;
    size.quality = 100;
    auto const uneven = decoded(shown(png(lines), size));
    // The white column covers 1 to 2 of 0 … 1.25 … 2.5: a quarter of it in the first cell, three quarters in the
    // second.
    CHECK(alike(colour_at(uneven, 32, 30), Colour{51, 51, 51}, 4));    // 0.25 / 1.25 of 255
    CHECK(alike(colour_at(uneven, 33, 30), Colour{153, 153, 153}, 4)); // 0.75 / 1.25 of 255
    CHECK(alike(colour_at(uneven, 34, 30), Colour{0, 0, 0}, 4));
}

TEST_CASE("place, time, maker and comment of a picture do not come out", "[photos]")
{
    for (auto const* name : {"place.jpg", "place.png", "place.webp"})
    {
        INFO(name);
        auto const bytes = kept(name);
        // What goes in: a maker, and 12 degrees, 34 minutes north as fractions of whole numbers.
        CHECK(holds(bytes, "maker of no name"));
        CHECK(holds(bytes, "2001:02:03"));
        auto const photo = shown(bytes);
        check_upright(photo); // orientation 6 was heeded
        CHECK(photo.width == 48);
        for (auto const* gone : {"Exif", "maker", "2001", "comment", "CREATOR", "gd-jpeg", "ICC", "http", "XMP"})
        {
            INFO(gone);
            CHECK_FALSE(holds(photo.bytes, gone));
        }
        // Of all segments with a length there are only JFIF, tables, frame and scan.
        std::size_t at = 2;
        while (photo.bytes.at(at + 1) != '\xDA')
        {
            auto const marker = static_cast<unsigned char>(photo.bytes[at + 1]);
            CHECK((marker == 0xE0 || marker == 0xDB || marker == 0xC0 || marker == 0xC4));
            at += 2 + static_cast<std::size_t>(static_cast<unsigned char>(photo.bytes[at + 2]) * 256 +
                                               static_cast<unsigned char>(photo.bytes[at + 3]));
        }
    }
    CHECK(holds(kept("place.jpg"), "a comment"));
}

TEST_CASE("a picture is made to fit into the bytes allowed, by less quality and then by fewer pixels", "[photos]")
{
    Canvas const noise(gdImageCreateTrueColor(640, 480), gdImageDestroy);
    std::uint32_t state = 1;
    for (int y = 0; y < 480; ++y)
        for (int x = 0; x < 640; ++x)
            noise->tpixels[y][x] = static_cast<int>((state = state * 1664525u + 1013904223u) >> 8);
    auto const bytes = jpeg(noise, 95);
    photos::PhotoSize size;
    size.most_bytes = 1'000'000;
    auto const large = shown(bytes, size);
    size.most_bytes = large.bytes.size() * 3 / 4;
    auto const coarser = shown(bytes, size);
    CHECK(coarser.bytes.size() <= size.most_bytes);
    CHECK(coarser.width == 640);
    size.most_bytes = 20'000;
    auto const smaller = shown(bytes, size);
    CHECK(smaller.bytes.size() <= size.most_bytes);
    CHECK(smaller.width < 640);
    CHECK(std::abs(smaller.width * 3 - smaller.height * 4) <= 8);
    size.most_bytes = 100;
    CHECK(why_not(bytes, size) == "can't be made as small as 100 bytes");
}

TEST_CASE("the same picture gives the same bytes", "[photos]")
{
    auto const bytes = kept("place.jpg");
    CHECK(shown(bytes).bytes == shown(bytes).bytes);
}

TEST_CASE("a size that makes no sense is the caller's mistake", "[photos]")
{
    photos::PhotoSize size;
    size.longest_side = 0;
    CHECK_THROWS_AS(photos::embedded("", size), std::invalid_argument);
    size = {};
    size.quality = 101;
    CHECK_THROWS_AS(photos::embedded("", size), std::invalid_argument);
}
