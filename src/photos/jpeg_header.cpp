#include "bytes.hpp"
#include "header.hpp"

#include <algorithm>

namespace padwalk::photos
{
namespace
{

// Bytes after 0xFF (Recommendation ITU-T T.81, table B.1).
constexpr std::uint32_t start_of_picture = 0xD8, end_of_picture = 0xD9, start_of_scan = 0xDA, first_restart = 0xD0,
                        last_restart = 0xD7, stuffed = 0x00, alone = 0x01, exif_segment = 0xE1;

bool is_frame(std::uint32_t marker)
{
    return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
}

bool has_no_length(std::uint32_t marker)
{
    return marker == alone || marker == start_of_picture || (marker >= first_restart && marker <= last_restart);
}

struct Marker
{
    std::uint32_t name = 0;
    std::size_t after = 0; // where what follows it begins
};

/// The next marker at or after `at`. Coded data may hold 0xFF before 0x00 or restarts: those are no markers there.
std::optional<Marker> next_marker(std::string_view bytes, std::size_t at, bool in_scan)
{
    for (;;)
    {
        at = bytes.find('\xFF', at);
        if (at == std::string_view::npos)
            return std::nullopt;
        while (at < bytes.size() && bytes[at] == '\xFF')
            ++at;
        auto const name = number_at(bytes, at, 1, Order::big);
        if (!name)
            return std::nullopt;
        ++at;
        bool const data = *name == stuffed || (in_scan && *name >= first_restart && *name <= last_restart);
        if (!data)
            return Marker{*name, at};
    }
}

} // namespace

Header jpeg_header(std::string_view bytes)
{
    Header out;
    out.scans = 0;
    out.ends = false;
    bool turn_known = false, in_scan = false;
    std::size_t at = 2;
    while (auto const marker = next_marker(bytes, at, in_scan))
    {
        at = marker->after;
        if (marker->name == end_of_picture)
        {
            out.ends = true;
            break;
        }
        if (has_no_length(marker->name))
            continue;
        auto const length = number_at(bytes, at, 2, Order::big);
        if (!length || *length < 2)
            break;
        auto const segment = bytes.substr(at + 2, *length - 2);
        if (is_frame(marker->name) && out.width == 0)
        {
            out.height = number_at(segment, 1, 2, Order::big).value_or(0);
            out.width = number_at(segment, 3, 2, Order::big).value_or(0);
        }
        if (marker->name == exif_segment && !turn_known && stands_at(segment, 0, std::string_view("Exif\0\0", 6)))
        {
            out.orientation = exif_orientation(segment);
            turn_known = true;
        }
        in_scan = marker->name == start_of_scan;
        out.scans += in_scan ? 1 : 0;
        at = std::min(bytes.size(), at + *length);
    }
    if (out.scans == 0 || out.width == 0 || out.height == 0)
        out.problem = out.ends ? "is broken: there is no picture in it" : std::string(cut_short);
    return out;
}

} // namespace padwalk::photos
