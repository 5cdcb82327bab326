// The list of tags that TIFF files begin with and Exif blocks hold (TIFF revision 6.0, section 2: eight bytes of head,
// then a directory of twelve-byte entries).

#include "bytes.hpp"
#include "header.hpp"

#include <algorithm>
#include <array>
#include <vector>

namespace padwalk::photos
{
namespace
{

struct Field
{
    std::uint32_t tag = 0, value = 0;
    bool single = false;      // one whole number, not negative
    std::size_t value_at = 0; // in the block
};

struct Directory
{
    Order order = Order::big;
    std::vector<Field> fields;
    bool whole = false; // it could be followed to its end
};

Directory first_directory(std::string_view block)
{
    Directory out;
    if (stands_at(block, 0, std::string_view("II*\0", 4)))
        out.order = Order::little;
    else if (!stands_at(block, 0, std::string_view("MM\0*", 4)))
        return out;
    auto const start = number_at(block, 4, 4, out.order);
    auto const count = start ? number_at(block, *start, 2, out.order) : std::nullopt;
    if (!count)
        return out;
    for (std::size_t i = 0; i < *count; ++i)
    {
        std::size_t const at = *start + 2 + 12 * i;
        auto const tag = number_at(block, at, 2, out.order);
        auto const type = number_at(block, at + 2, 2, out.order);
        auto const values = number_at(block, at + 4, 4, out.order);
        if (!tag || !type || !values || !number_at(block, at + 8, 4, out.order))
            return out;
        constexpr std::uint32_t byte = 1, two_bytes = 3, four_bytes = 4;
        std::size_t const width = *type == byte ? 1 : *type == two_bytes ? 2 : *type == four_bytes ? 4 : 0;
        Field field;
        field.tag = *tag;
        field.value_at = at + 8;
        field.single = width > 0 && *values == 1;
        if (field.single)
            field.value = *number_at(block, at + 8, width, out.order);
        out.fields.push_back(field);
    }
    out.whole = true;
    return out;
}

constexpr std::uint32_t tag_width = 256, tag_height = 257, tag_compression = 259, tag_orientation = 274,
                        tag_samples = 277, tag_tile_width = 322, tag_tile_height = 323;

/// The largest value of a tag, for a decoder may take any of several; nothing where one of them is no plain number.
std::optional<double> largest(Directory const& directory, std::uint32_t tag, double otherwise)
{
    std::optional<double> out;
    for (auto const& field : directory.fields)
    {
        if (field.tag != tag)
            continue;
        if (!field.single)
            return std::nullopt;
        out = std::max(out.value_or(0), static_cast<double>(field.value));
    }
    return out ? out : otherwise;
}

// Stored plainly, by LZW, deflate (two numbers) or runs. The others are fax, or rare and worn little by use.
constexpr std::array<double, 5> plain_compressions{1, 5, 8, 32946, 32773};

} // namespace

int exif_orientation(std::string_view block)
{
    std::string_view const name("Exif\0\0", 6);
    if (stands_at(block, 0, name))
        block.remove_prefix(name.size());
    for (auto const& field : first_directory(block).fields)
        if (field.tag == tag_orientation)
            return field.single && field.value >= 1 && field.value <= 8 ? static_cast<int>(field.value) : 1;
    return 1;
}

Header tiff_header(std::string_view bytes)
{
    Header out;
    auto const directory = first_directory(bytes);
    auto const width = largest(directory, tag_width, 0), height = largest(directory, tag_height, 0);
    auto const compression = largest(directory, tag_compression, 1);
    auto const samples = largest(directory, tag_samples, 1);
    auto const tile_width = largest(directory, tag_tile_width, 0), tile_height = largest(directory, tag_tile_height, 0);
    if (!directory.whole)
        out.problem = cut_short;
    else if (!width || !height || !compression || !samples || !tile_width || !tile_height)
        out.problem = "is broken: its first lines make no sense";
    else if (std::find(plain_compressions.begin(), plain_compressions.end(), *compression) == plain_compressions.end())
        out.problem = "is a TIFF packed in a way that is not read here; save it as JPEG";
    else if (*samples > 8)
        out.problem = "is a TIFF of more colours than a photo has; save it as JPEG";
    if (!out.problem.empty())
        return out;
    // Tiles are decoded whole, also where they are larger than the picture.
    out.width = std::max(*width, *tile_width);
    out.height = std::max(*height, *tile_height);
    if (*width == 0 || *height == 0)
        out.width = 0;
    out.orientation = exif_orientation(bytes);
    for (auto const& field : directory.fields)
        if (field.tag == tag_orientation && out.orientation_at == 0)
            out.orientation_at = field.value_at;
    return out;
}

} // namespace padwalk::photos
