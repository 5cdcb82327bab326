#include "header.hpp"

#include "bytes.hpp"

#include <algorithm>

namespace padwalk::photos
{

Header png_header(std::string_view bytes)
{
    Header out;
    out.ends = false;
    if (!stands_at(bytes, 12, "IHDR"))
    {
        out.problem = bytes.size() < 16 ? std::string(cut_short) : "is broken: its first lines make no sense";
        return out;
    }
    out.width = number_at(bytes, 16, 4, Order::big).value_or(0);
    out.height = number_at(bytes, 20, 4, Order::big).value_or(0);
    // Length, name, that many bytes, four bytes of check sum.
    std::size_t at = 8;
    while (auto const length = number_at(bytes, at, 4, Order::big))
    {
        if (stands_at(bytes, at + 4, "eXIf") && out.orientation == 1)
            out.orientation = exif_orientation(bytes.substr(at + 8, *length));
        out.ends = stands_at(bytes, at + 4, "IEND");
        if (out.ends)
            break;
        at += 12 + std::size_t{*length};
    }
    return out;
}

namespace
{

/// Makes the header as large as a part of a WebP says.
void widen(Header& header, double width, double height)
{
    header.width = std::max(header.width, width);
    header.height = std::max(header.height, height);
}

void read_webp_part(Header& out, std::string_view name, std::string_view part)
{
    auto const number = [&](std::size_t at, std::size_t count)
    { return number_at(part, at, count, Order::little).value_or(0); };
    if (name == "VP8X")
    {
        constexpr std::uint32_t moves = 0x02;
        if ((number(0, 1) & moves) != 0)
            out.problem = "is a moving WebP picture; save one picture of it as JPEG";
        widen(out, number(4, 3) + 1.0, number(7, 3) + 1.0);
    }
    else if (name == "VP8L")
    {
        std::uint32_t const sizes = number(1, 4); // 14 bits each, less one
        widen(out, (sizes & 0x3FFF) + 1.0, (sizes >> 14 & 0x3FFF) + 1.0);
    }
    else if (name == "VP8 ")
        widen(out, number(6, 2) & 0x3FFF, number(8, 2) & 0x3FFF); // the upper two bits ask for scaling
    else if (name == "EXIF")
        out.orientation = exif_orientation(part);
}

} // namespace

Header webp_header(std::string_view bytes)
{
    Header out;
    std::size_t at = 12;
    while (auto const length = number_at(bytes, at + 4, 4, Order::little))
    {
        read_webp_part(out, bytes.substr(at, 4), bytes.substr(std::min(bytes.size(), at + 8), *length));
        at += 8 + std::size_t{*length} + *length % 2;
    }
    out.ends = at <= bytes.size() + 1; // the last byte that fills up to an even count is often left out
    return out;
}

Header gif_header(std::string_view bytes)
{
    Header out;
    out.width = number_at(bytes, 6, 2, Order::little).value_or(0);
    out.height = number_at(bytes, 8, 2, Order::little).value_or(0);
    out.ends = bytes.find_last_not_of('\0') != std::string_view::npos && bytes[bytes.find_last_not_of('\0')] == ';';
    return out;
}

Header bmp_header(std::string_view bytes)
{
    Header out;
    bool const old = number_at(bytes, 14, 4, Order::little) == 12u;
    std::size_t const count = old ? 2 : 4;
    auto const side = [&](std::size_t at)
    {
        double const n = number_at(bytes, at, count, Order::little).value_or(0);
        return old || n < 2147483648.0 ? n : 4294967296.0 - n; // negative: counted from the top
    };
    out.width = side(18);
    out.height = side(18 + count);
    out.ends = bytes.size() >= number_at(bytes, 2, 4, Order::little).value_or(0);
    return out;
}

Header header_of(Kind kind, std::string_view bytes)
{
    switch (kind)
    {
    case Kind::jpeg: return jpeg_header(bytes);
    case Kind::png: return png_header(bytes);
    case Kind::webp: return webp_header(bytes);
    case Kind::gif: return gif_header(bytes);
    case Kind::bmp: return bmp_header(bytes);
    case Kind::tiff: return tiff_header(bytes);
    case Kind::heif:
    case Kind::none: break;
    }
    return {};
}

} // namespace padwalk::photos
