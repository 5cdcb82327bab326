#pragma once
// What a picture file says of itself before any of it is decoded. A strict reader of our own: the sizes it gives are
// what a decoder will take memory for, so whatever it can't follow is refused, not handed on.

#include "kind.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace padwalk::photos
{

struct Header
{
    double width = 0, height = 0; ///< pixels, as stored; the largest where a file says several
    int orientation = 1;          ///< 1 to 8, Exif tag 274: where the first row and column of the stored picture belong
    std::size_t orientation_at = 0; ///< of a TIFF: where that number stands in the file; 0 is nowhere
    int scans = 1;                  ///< passes over the whole picture that a JPEG holds
    bool ends = true;               ///< the file reaches its own end
    std::string problem;            ///< after the name of the file; nothing may be decoded where it is not empty
};

/// The header of a file of any kind but HEIC and AVIF, which libheif reads.
[[nodiscard]] Header header_of(Kind kind, std::string_view bytes);

[[nodiscard]] Header jpeg_header(std::string_view bytes);
[[nodiscard]] Header png_header(std::string_view bytes);
[[nodiscard]] Header webp_header(std::string_view bytes);
[[nodiscard]] Header gif_header(std::string_view bytes);
[[nodiscard]] Header bmp_header(std::string_view bytes);
[[nodiscard]] Header tiff_header(std::string_view bytes);

/// The orientation in a block of Exif, with or without the 'Exif' before it; 1 where there is none that makes sense.
[[nodiscard]] int exif_orientation(std::string_view block);

constexpr std::string_view cut_short = "is broken: it ends early, as after a copy that was cut short";

} // namespace padwalk::photos
