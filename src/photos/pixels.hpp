#pragma once
// The picture on its way out: solid colours, small, upright.

#include "decode.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace padwalk::photos
{

/// Red, green, blue, from 0 to 255, row by row from the top.
struct Pixels
{
    int width = 0, height = 0;
    std::vector<std::uint8_t> colours;
};

/// Scaled down, never up, so that the longest side has at most this many pixels; clear parts on white. Each new pixel
/// is the mean over the area it covers, of the numbers as stored (not of the light they stand for, which would show
/// only in the finest patterns).
[[nodiscard]] Pixels scaled_down(gdImage& image, int longest_side);
[[nodiscard]] Pixels scaled_down(Pixels const& picture, int longest_side);

/// Turned and mirrored so that a picture stored with this orientation, 1 to 8, stands upright.
[[nodiscard]] Pixels upright(Pixels picture, int orientation);

/// All pixels but one in two hundred have the colour of the last. (A decoder that finds no data makes one block of the
/// marker that it meets and the rest grey.)
[[nodiscard]] bool is_blank(Pixels const& picture);

/// As JPEG, without any comment; empty where it can't be done.
[[nodiscard]] std::string as_jpeg(Pixels const& picture, int quality);

} // namespace padwalk::photos
