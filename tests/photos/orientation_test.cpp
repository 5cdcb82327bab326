// The camera's turn, in all eight values and every way it is written.

#include "pictures.hpp"

using namespace padwalk;
using namespace padwalk::tests;

namespace
{

/// The picture as a camera stores it with this orientation. Written out place by place from the words of Exif for tag
/// 274 ("the 0th row is the visual top …"), not by the formulas of the program.
Canvas stored(Canvas const& upright, int orientation)
{
    int const w = upright->sx, h = upright->sy;
    bool const sideways = orientation >= 5;
    Canvas out(gdImageCreateTrueColor(sideways ? h : w, sideways ? w : h), gdImageDestroy);
    for (int y = 0; y < h; ++y)
        for (int x = 0; x < w; ++x)
        {
            int const pixel = upright->tpixels[y][x];
            int const from_top = y, from_bottom = h - 1 - y, from_left = x, from_right = w - 1 - x;
            auto const put = [&](int row, int column) { out->tpixels[row][column] = pixel; };
            switch (orientation)
            {
            case 1: put(from_top, from_left); break;     // row 0 is the top, column 0 the left side
            case 2: put(from_top, from_right); break;    // top, right
            case 3: put(from_bottom, from_right); break; // bottom, right
            case 4: put(from_bottom, from_left); break;  // bottom, left
            case 5: put(from_left, from_top); break;     // row 0 is the left side, column 0 the top
            case 6: put(from_right, from_top); break;    // right, top
            case 7: put(from_right, from_bottom); break; // right, bottom
            case 8: put(from_left, from_bottom); break;  // left, bottom
            default: FAIL("no such orientation");
            }
        }
    return out;
}

/// Of eight numbers in a row in one strip, uncompressed.
std::string tiff(Canvas const& canvas, int orientation, bool little)
{
    auto const side = [](int n) { return static_cast<std::uint32_t>(n); };
    std::uint32_t const entries = 11, pixels_at = 8 + 2 + 12 * entries + 4 + 6;
    std::uint32_t const bits_at = pixels_at - 6;
    std::string out = tags({{256, side(canvas->sx)},
                            {257, side(canvas->sy)},
                            {258, 8},
                            {259, 1},
                            {262, 2},
                            {273, pixels_at},
                            {274, side(orientation)},
                            {277, 3},
                            {278, side(canvas->sy)},
                            {279, side(3 * canvas->sx * canvas->sy)},
                            {284, 1}},
                           little);
    // Bits per sample are three numbers, which stand elsewhere.
    std::size_t const bits_entry = 10 + 2 * 12;
    out.replace(bits_entry + 4, 8, number(3, 4, little) + number(bits_at, 4, little));
    out += number(8, 2, little) + number(8, 2, little) + number(8, 2, little);
    for (int y = 0; y < canvas->sy; ++y)
        for (int x = 0; x < canvas->sx; ++x)
            for (int const c : colour_at(canvas, x, y))
                out += static_cast<char>(c);
    return out;
}

} // namespace

TEST_CASE("all eight orientations of Exif, in both orders of bytes, give the upright picture", "[photos]")
{
    auto const upright = quarters(96, 64);
    for (int orientation = 1; orientation <= 8; ++orientation)
        for (bool const little : {true, false})
        {
            INFO("orientation " << orientation << (little ? ", little end first" : ", big end first"));
            auto const block = tags({{0x0112, static_cast<std::uint32_t>(orientation)}}, little);
            auto const photo = shown(with_exif(jpeg(stored(upright, orientation)), block));
            CHECK(photo.width == 96);
            check_upright(photo);
            auto const page = shown(tiff(stored(upright, orientation), orientation, little));
            CHECK(page.width == 96);
            check_upright(page);
        }
}

TEST_CASE("Pillow: all eight orientations in JPEG, as its exif_transpose shows them", "[photos]")
{
    for (int orientation = 1; orientation <= 8; ++orientation)
    {
        INFO(orientation);
        auto const photo = shown(kept("turned_" + std::to_string(orientation) + ".jpg"));
        CHECK(photo.width == 48);
        check_upright(photo);
    }
}

TEST_CASE("libheif: all eight turns in HEIC and two in AVIF, or the advice to save as JPEG", "[photos]")
{
    std::vector<std::string> names{"turned_5.avif", "turned_8.avif"};
    for (int orientation = 1; orientation <= 8; ++orientation)
        names.push_back("turned_" + std::to_string(orientation) + ".heic");
    for (auto const& name : names)
    {
        INFO(name);
        auto const result = photos::embedded(kept(name));
        if (auto const* refused = std::get_if<photos::PhotoRefused>(&result))
        { // libheif was installed without this decoder
            CHECK(refused->why == "is a HEIC or AVIF picture that can't be read here; save it as JPEG");
            WARN(name << " can't be read by this system's libheif");
            continue;
        }
        auto const& photo = std::get<photos::EmbeddedPhoto>(result);
        CHECK(photo.width == 48);
        check_upright(photo);
    }
}

TEST_CASE("an orientation that makes no sense leaves the picture as it is", "[photos]")
{
    auto const picture = jpeg(quarters(96, 64));
    auto const whole = tags({{0x0112, 6}}, true);
    std::vector<std::string> const blocks{tags({{0x0112, 0}}, true),
                                          tags({{0x0112, 9}}, false),
                                          tags({{0x0112, 65535}}, true),
                                          "II",
                                          "nothing of the kind",
                                          "",
                                          whole.substr(0, whole.size() - 8), // the entry is cut
                                          "II*" + std::string(1, '\0') + "\xFF\xFF\xFF\xFF"};
    for (auto const& block : blocks)
    {
        auto const photo = shown(with_exif(picture, block));
        CHECK(photo.width == 96);
        check_upright(photo);
    }
}
