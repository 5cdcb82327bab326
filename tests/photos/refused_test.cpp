// What is not shown, and what people are told; bytes that mean harm.

#include "pictures.hpp"

#include <ctime>

using namespace padwalk;
using namespace padwalk::tests;

namespace
{

/// A PNG's head that promises a picture; nothing behind it.
std::string png_head(std::uint32_t width, std::uint32_t height)
{
    return "\x89PNG\r\n\x1A\n" + number(13, 4, false) + "IHDR" + number(width, 4, false) + number(height, 4, false) +
           std::string("\x08\x02\0\0\0", 5) + number(0, 4, false);
}

/// A JPEG's head of one frame of three colours and one scan, without tables.
std::string jpeg_head(std::uint32_t width, std::uint32_t height, int scans)
{
    std::string out = "\xFF\xD8\xFF\xC2" + number(17, 2, false) + "\x08" + number(height, 2, false) +
                      number(width, 2, false) + std::string("\x03\x01\x22\0\x02\x11\x01\x03\x11\x01", 10);
    for (int i = 0; i < scans; ++i)
        out += std::string("\xFF\xDA\0\x0C\x03\x01\0\x02\0\x03\0\0\0\0", 14);
    return out + "\xFF\xD9";
}

/// Of the processor, not of the clock: others may want it too.
double milliseconds(std::string const& bytes)
{
    auto const start = std::clock();
    static_cast<void>(photos::embedded(bytes));
    return 1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

} // namespace

TEST_CASE("what is no picture is named by what it looks like", "[photos]")
{
    auto const no_picture = [](std::string const& what) { return "is no picture that can be read (" + what + ")"; };
    CHECK(why_not("") == "is empty");
    CHECK(why_not("%PDF-1.7\n%") == no_picture("it begins like a PDF"));
    CHECK(why_not(std::string("\0\0\0\x18"
                              "ftypmp42\0\0\0\0",
                              16)) == no_picture("it looks like a video"));
    CHECK(why_not("<!DOCTYPE html><html>") == no_picture("it begins like a web page (HTML)"));
    CHECK(why_not("<?xml version='1.0'?>\n<svg xmlns='x'/>") ==
          no_picture("it is an SVG drawing; save it as PNG or JPEG"));
    CHECK(why_not("a letter to my aunt\n") == no_picture("it looks like text"));
    CHECK(why_not("PK\x03\x04 and so on") == no_picture("it begins like a ZIP archive or an office document"));
    CHECK(why_not(std::string("\x01\x02\0\x03\x04", 5)) == no_picture("it begins like nothing that is known here"));
    CHECK(why_not("BM is how this text begins, and it goes on") == no_picture("it looks like text"));
}

TEST_CASE("a picture that is broken or not read here says so", "[photos]")
{
    std::string const early = "is broken: it ends early, as after a copy that was cut short";
    auto const picture = quarters(96, 64);
    auto const whole_png = png(picture), whole_webp = written([&](int*n) { return gdImageWebpPtr(picture.get(), n); });
    CHECK(why_not(whole_png.substr(0, whole_png.size() / 2)) == early);
    CHECK(why_not(whole_png.substr(0, 10)) == early);
    CHECK(why_not(whole_webp.substr(0, whole_webp.size() / 2)) == early);
    CHECK(why_not(written([&](int* n) { return gdImageBmpPtr(picture.get(), n, 0); }).substr(0, 2000)) == early);
    CHECK(why_not(kept("turned_1.jpg").substr(0, 200)) == early);
    CHECK(why_not("\xFF\xD8\xFF\xD9") == "is broken: there is no picture in it");
    CHECK(why_not(jpeg_head(64, 64, 1)) == "is broken: what it holds can't be read as JPEG");
    CHECK(why_not(kept("moving.webp")) == "is a moving WebP picture; save one picture of it as JPEG");
    CHECK(why_not(tags({{256, 10}, {257, 10}, {259, 4}}, true)) ==
          "is a TIFF packed in a way that is not read here; save it as JPEG");
    auto const heic = kept("turned_1.heic");
    auto const half = why_not(heic.substr(0, heic.size() / 2));
    CHECK((half == early || half.find("can't be read") != std::string::npos));
    photos::PhotoSize size;
    size.most_read = 1'000'000;
    CHECK(why_not(std::string(1'000'001, 'x'), size) == "is larger than 1 MB; save it smaller");
}

TEST_CASE("a JPEG that was cut short shows as far as it goes and says so", "[photos]")
{
    auto const bytes = jpeg(quarters(640, 480));
    auto const half = shown(bytes.substr(0, bytes.size() * 6 / 10));
    CHECK(half.remark == "ends early: part of it may be missing");
    CHECK(half.width == 640);
    auto const canvas = decoded(half);
    CHECK(alike(colour_at(canvas, 100, 20), red));
    CHECK(alike(colour_at(canvas, 500, 20), green));
    CHECK_FALSE(alike(colour_at(canvas, 500, 470), yellow));

    std::string const scan = "\xFF\xDA";
    auto const none_left = bytes.substr(0, bytes.find(scan) + 14);
    CHECK(why_not(none_left) == "is broken: nothing of its picture is left");

    auto damaged = bytes;
    for (std::size_t i = bytes.size() / 2; i < bytes.size() / 2 + 40; ++i)
        damaged[i] = '\x55';
    CHECK(shown(damaged).remark == "is damaged: part of it may look wrong");
}

TEST_CASE("a few bytes that promise a huge picture are refused before anything is decoded", "[photos]")
{
    CHECK(why_not(png_head(60000, 60000)) == "has 3600 megapixels, more than the 120 that are read; save it smaller");
    CHECK(why_not(png_head(4294967295u, 4294967295u)).find("megapixels") != std::string::npos);
    CHECK(why_not(png_head(0, 100)) == "is broken: it has no width or no height");
    CHECK(why_not(jpeg_head(65535, 65535, 1)) ==
          "has 4295 megapixels, more than the 120 that are read; save it smaller");
    CHECK(why_not("GIF89a\xFF\xFF\xFF\xFF" + std::string(20, '\0')).find("4295 megapixels") != std::string::npos);
    CHECK(why_not("BM" + std::string(12, '\0') + number(40, 4, true) + number(100000, 4, true) +
                  number(100000, 4, true) + std::string(40, '\0'))
              .find("10000 megapixels") != std::string::npos);
    CHECK(why_not(tags({{256, 60000}, {257, 60000}}, false)).find("3600 megapixels") != std::string::npos);
    CHECK(why_not(tags({{256, 10}, {257, 10}, {322, 60000}, {323, 60000}}, false)).find("3600 megapixels") !=
          std::string::npos);
    CHECK(why_not("RIFF" + number(30, 4, true) + "WEBPVP8X" + number(10, 4, true) + std::string(4, '\0') +
                  number(16383, 3, true) + number(16383, 3, true))
              .find("268 megapixels") != std::string::npos);
    CHECK(why_not(jpeg_head(4000, 3000, 2000)) ==
          "is a JPEG in 2000 passes, more than any camera writes; save it anew");
    CHECK(milliseconds(png_head(60000, 60000)) < 50);
    CHECK(milliseconds(jpeg_head(65535, 65535, 2000)) < 50);
}

TEST_CASE("a HEIC whose pieces are said to make a hundred megapixels, its head 48 by 32 pixels, takes no time",
          "[photos]")
{
    auto const bytes = kept("pieces_lie.heic"); // decoded as told, it takes seconds and most of a gigabyte
    CHECK(why_not(bytes) != "it is shown");
    CHECK(milliseconds(bytes) < 500);
}

TEST_CASE("each byte of small pictures changed in several ways: a picture or words, nothing worse", "[photos]")
{
    auto const canvas = quarters(24, 16);
    std::vector<std::string> const pictures{kept("turned_6.jpg"), kept("in_passes.jpg"), png(canvas),
                                            written([&](int* n) { return gdImageGifPtr(canvas.get(), n); }),
                                            written([&](int* n) { return gdImageWebpPtr(canvas.get(), n); })};
    photos::PhotoSize size;
    size.most_megapixels = 0.1; // a changed size should not take the time of the test
    int tried = 0, seen = 0;
    for (auto const& picture : pictures)
        for (std::size_t at = 0; at < picture.size(); ++at)
            for (int const flip : {0xFF, 0x01, 0x80})
            {
                auto changed = picture;
                changed[at] = static_cast<char>(static_cast<unsigned char>(changed[at]) ^ flip);
                auto const result = photos::embedded(changed, size);
                ++tried;
                if (std::holds_alternative<photos::EmbeddedPhoto>(result))
                    ++seen;
                else if (std::get<photos::PhotoRefused>(result).why.empty())
                    FAIL("refused without a word at byte " << at);
            }
    CHECK(tried > 5000);
    CHECK(seen > 1000);
    CHECK(seen < tried);
}

TEST_CASE("random bytes behind each kind's first bytes are refused or shown, never worse", "[photos]")
{
    std::vector<std::string> const beginnings{"",
                                              "\xFF\xD8\xFF",
                                              "\x89PNG\r\n\x1A\n",
                                              "GIF89a",
                                              std::string("II*\0", 4),
                                              std::string("MM\0*", 4),
                                              "RIFF1234WEBP",
                                              "BM",
                                              std::string("\0\0\0\x18"
                                                          "ftypheic",
                                                          12),
                                              std::string("\0\0\0\x18"
                                                          "ftypavif",
                                                          12)};
    photos::PhotoSize size;
    size.most_megapixels = 0.1;
    std::uint32_t state = 7;
    int refused = 0;
    for (int i = 0; i < 2000; ++i)
    {
        std::string bytes = beginnings[static_cast<std::size_t>(i) % beginnings.size()];
        std::size_t const length = 16u + static_cast<std::size_t>(i) % 400u;
        while (bytes.size() < length)
            bytes += static_cast<char>((state = state * 1664525u + 1013904223u) >> 24);
        auto const result = photos::embedded(bytes, size);
        refused += std::holds_alternative<photos::PhotoRefused>(result) ? 1 : 0;
    }
    CHECK(refused > 1900);
}
