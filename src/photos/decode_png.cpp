#include "decode.hpp"

#include <png.h>

#include <cstdint>
#include <vector>

namespace padwalk::photos
{

Canvas decode_png(std::string_view bytes)
{
    png_image image{};
    image.version = PNG_IMAGE_VERSION;
    std::unique_ptr<png_image, void (*)(png_image*)> const freed(&image, png_image_free);
    if (png_image_begin_read_from_memory(&image, bytes.data(), bytes.size()) == 0)
        return nullptr;
    image.format = PNG_FORMAT_RGBA; // of whatever is in it: few colours, grey, sixteen bits
    auto const width = static_cast<int>(image.width), height = static_cast<int>(image.height);
    std::vector<std::uint8_t> colours(PNG_IMAGE_SIZE(image));
    if (png_image_finish_read(&image, nullptr, colours.data(), 0, nullptr) == 0)
        return nullptr;
    Canvas out(gdImageCreateTrueColor(width, height));
    auto const* p = colours.data();
    for (int y = 0; out && y < height; ++y)
        for (int x = 0; x < width; ++x, p += 4)
            out->tpixels[y][x] = gdTrueColorAlpha(p[0], p[1], p[2], gdAlphaMax - p[3] / 2);
    return out;
}

} // namespace padwalk::photos
