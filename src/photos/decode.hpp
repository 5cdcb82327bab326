#pragma once
// A file's picture as libgd holds it. Only decode*.cpp and pixels.cpp see libgd.

#include "header.hpp"

#include <gd.h>

#include <memory>
#include <string>
#include <string_view>

namespace padwalk::photos
{

struct Destroy
{
    void operator()(gdImage* image) const { gdImageDestroy(image); }
};
using Canvas = std::unique_ptr<gdImage, Destroy>;

/// A picture, or `problem`; with `remark` where it shows and yet is not whole. Both as in photo.hpp.
struct Decoded
{
    Canvas canvas;
    int orientation = 1; ///< what is still to be turned
    std::string remark;
    std::string problem;
};

/// What a decoder may not go beyond.
[[nodiscard]] std::string size_problem(double width, double height, double most_megapixels);

/// By libpng's own short way in, for libgd lets it print its warnings. Nothing where it is broken.
[[nodiscard]] Canvas decode_png(std::string_view bytes);

/// Any kind but HEIC and AVIF: PNG by libpng, the others by libgd.
[[nodiscard]] Decoded decode(Kind kind, std::string_view bytes, double most_megapixels);

/// HEIC and AVIF, by libheif; already upright.
[[nodiscard]] Decoded decode_heif(std::string_view bytes, double most_megapixels);

} // namespace padwalk::photos
