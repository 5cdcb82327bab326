#include "pixels.hpp"

#include "bytes.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

namespace padwalk::photos
{
namespace
{

std::size_t index(int n)
{
    return static_cast<std::size_t>(n);
}

/// Where a row or column goes: `share` of its `whole` to `cell`, the rest to the next. In whole numbers, so exact.
struct Span
{
    std::size_t cell = 0;
    std::uint32_t share = 0, rest = 0;
};

/// `from` old places onto `to` new ones, to <= from: an old place is `to` wide and a new one `from`.
std::vector<Span> spans(int from, int to)
{
    std::vector<Span> out(index(from));
    for (std::size_t i = 0; i < out.size(); ++i)
    {
        std::uint64_t const begin = i * index(to), end = begin + index(to);
        std::uint64_t const cell = begin / index(from), edge = (cell + 1) * index(from);
        auto const share = static_cast<std::uint32_t>(std::min(end, edge) - begin);
        out[i] = {static_cast<std::size_t>(cell), share, static_cast<std::uint32_t>(index(to)) - share};
    }
    return out;
}

using Row = std::vector<std::uint8_t>;
using FillRow = std::function<void(int y, Row& colours)>;

/// Adds a row, three colours a pixel, onto the cells it covers.
void add_row(Row const& row, std::vector<Span> const& columns, std::vector<std::uint64_t>& sums)
{
    std::fill(sums.begin(), sums.end(), 0);
    auto const* colour = row.data();
    for (auto const& span : columns)
    {
        auto* const cell = sums.data() + 3 * span.cell;
        for (std::size_t c = 0; c < 3; ++c)
            cell[c] += std::uint64_t{span.share} * colour[c];
        if (span.rest > 0)
            for (std::size_t c = 0; c < 3; ++c)
                cell[3 + c] += std::uint64_t{span.rest} * colour[c];
        colour += 3;
    }
}

Pixels averaged(int width, int height, int longest_side, FillRow const& fill)
{
    double const scale = std::min(1.0, static_cast<double>(longest_side) / std::max(width, height));
    auto const scaled = [&](int side) { return std::clamp(static_cast<int>(std::lround(side * scale)), 1, side); };
    Pixels out{scaled(width), scaled(height), {}};
    auto const columns = spans(width, out.width), rows = spans(height, out.height);
    std::size_t const wide = 3 * index(out.width);
    Row row(3 * index(width));
    std::vector<std::uint64_t> sums(wide), cells(wide), next(wide);
    std::uint64_t const area = std::uint64_t{index(width)} * index(height);
    out.colours.reserve(wide * index(out.height));
    for (int y = 0; y < height; ++y)
    {
        fill(y, row);
        add_row(row, columns, sums);
        auto const& span = rows[index(y)];
        for (std::size_t i = 0; i < wide; ++i)
        {
            cells[i] += sums[i] * span.share;
            next[i] += sums[i] * span.rest;
        }
        bool const full = y + 1 == height || rows[index(y) + 1].cell != span.cell;
        if (!full)
            continue;
        for (std::size_t i = 0; i < wide; ++i)
            out.colours.push_back(static_cast<std::uint8_t>((cells[i] + area / 2) / area));
        cells.swap(next);
        std::fill(next.begin(), next.end(), 0);
    }
    return out;
}

void put_on_white(int pixel, std::uint8_t* out)
{
    int const clear = gdTrueColorGetAlpha(pixel);
    if (clear == 0) // most pixels of most pictures: spare them the division
    {
        out[0] = static_cast<std::uint8_t>(gdTrueColorGetRed(pixel));
        out[1] = static_cast<std::uint8_t>(gdTrueColorGetGreen(pixel));
        out[2] = static_cast<std::uint8_t>(gdTrueColorGetBlue(pixel));
        return;
    }
    auto const mixed = [&](int colour)
    { return static_cast<std::uint8_t>((colour * (gdAlphaMax - clear) + 255 * clear + gdAlphaMax / 2) / gdAlphaMax); };
    out[0] = mixed(gdTrueColorGetRed(pixel));
    out[1] = mixed(gdTrueColorGetGreen(pixel));
    out[2] = mixed(gdTrueColorGetBlue(pixel));
}

constexpr int clear_white = gdTrueColorAlpha(255, 255, 255, gdAlphaMax);

/// The colours that a picture of few colours names by number; a number without colour is clear.
std::array<int, gdMaxColors> palette_of(gdImage const& image)
{
    std::array<int, gdMaxColors> out{};
    out.fill(clear_white);
    for (int i = 0; i < std::min(image.colorsTotal, gdMaxColors); ++i)
        if (i != image.transparent)
            out[index(i)] = gdTrueColorAlpha(image.red[i], image.green[i], image.blue[i], image.alpha[i]);
    return out;
}

/// Leaves out the comment that libgd writes into each JPEG. It stands before the coded data.
std::string without_comments(std::string_view jpeg)
{
    std::string out(jpeg.substr(0, 2));
    std::size_t at = 2;
    while (auto const length = number_at(jpeg, at + 2, 2, Order::big))
    {
        constexpr char comment = '\xFE', start_of_scan = '\xDA';
        char const name = jpeg[at + 1];
        if (name == start_of_scan)
            break;
        if (name != comment)
            out += jpeg.substr(at, 2 + *length);
        at += 2 + std::size_t{*length};
    }
    return out += jpeg.substr(std::min(at, jpeg.size()));
}

} // namespace

Pixels scaled_down(gdImage& image, int longest_side)
{
    auto const palette = palette_of(image);
    auto const fill = [&](int y, Row& row)
    {
        auto* out = row.data();
        for (int x = 0; x < image.sx; ++x, out += 3)
        {
            int pixel = image.trueColor != 0 ? image.tpixels[y][x] : palette[image.pixels[y][x]];
            if (image.trueColor != 0 && pixel == image.transparent)
                pixel = clear_white;
            put_on_white(pixel, out);
        }
    };
    return averaged(image.sx, image.sy, longest_side, fill);
}

Pixels scaled_down(Pixels const& picture, int longest_side)
{
    return averaged(picture.width, picture.height, longest_side,
                    [&](int y, Row& row)
                    {
                        auto const* const from = picture.colours.data() + 3 * index(picture.width) * index(y);
                        std::copy(from, from + row.size(), row.begin());
                    });
}

Pixels upright(Pixels picture, int orientation)
{
    if (orientation <= 1 || orientation > 8)
        return picture;
    // Row 0 of the stored picture is the shown picture's top, bottom, left or right edge, column 0 another.
    bool const sideways = orientation >= 5;
    bool const from_right = orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8;
    bool const from_bottom = orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7;
    int const width = picture.width, height = picture.height;
    Pixels out{sideways ? height : width, sideways ? width : height, {}};
    out.colours.reserve(picture.colours.size());
    for (int y = 0; y < out.height; ++y)
        for (int x = 0; x < out.width; ++x)
        {
            int const across = sideways ? y : x, down = sideways ? x : y; // in the stored picture, before mirroring
            int const column = from_right ? width - 1 - across : across;
            int const line = from_bottom ? height - 1 - down : down;
            auto const* const from = picture.colours.data() + 3 * (index(line) * index(width) + index(column));
            out.colours.insert(out.colours.end(), from, from + 3);
        }
    return out;
}

bool is_blank(Pixels const& picture)
{
    auto const& c = picture.colours;
    std::size_t others = 0;
    for (std::size_t i = 0; i + 3 <= c.size(); i += 3)
        others += std::equal(c.end() - 3, c.end(), c.begin() + static_cast<std::ptrdiff_t>(i)) ? 0U : 1U;
    return 200 * others <= c.size() / 3;
}

std::string as_jpeg(Pixels const& picture, int quality)
{
    Canvas const canvas(gdImageCreateTrueColor(picture.width, picture.height));
    if (!canvas)
        return {};
    auto const* p = picture.colours.data();
    for (int y = 0; y < picture.height; ++y)
        for (int x = 0; x < picture.width; ++x, p += 3)
            canvas->tpixels[y][x] = gdTrueColor(p[0], p[1], p[2]);
    int count = 0;
    std::unique_ptr<void, void (*)(void*)> const bytes(gdImageJpegPtr(canvas.get(), &count, quality), gdFree);
    if (!bytes)
        return {};
    return without_comments({static_cast<char const*>(bytes.get()), index(count)});
}

} // namespace padwalk::photos
