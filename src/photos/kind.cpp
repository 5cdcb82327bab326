#include "kind.hpp"

#include "bytes.hpp"

#include <algorithm>
#include <array>
#include <cctype>

namespace padwalk::photos
{
namespace
{

using std::string_view_literals::operator""sv;

struct Sign
{
    std::size_t at;
    std::string_view bytes;
    Kind kind;
};

constexpr std::array signs{
    Sign{0, "\xFF\xD8\xFF"sv, Kind::jpeg}, Sign{0, "\x89PNG\r\n\x1A\n"sv, Kind::png},
    Sign{0, "GIF87a"sv, Kind::gif},        Sign{0, "GIF89a"sv, Kind::gif},
    Sign{0, "II*\0"sv, Kind::tiff},        Sign{0, "MM\0*"sv, Kind::tiff},
};

// Brands of a file of boxes ('ftyp') that hold still pictures; other files of boxes are videos.
constexpr std::array picture_brands{"heic"sv, "heix"sv, "heim"sv, "heis"sv, "hevc"sv, "hevx"sv,
                                    "mif1"sv, "msf1"sv, "avif"sv, "avis"sv, "mif2"sv};

bool is_of_pictures(std::string_view bytes)
{
    if (!stands_at(bytes, 4, "ftyp"))
        return false;
    return std::any_of(picture_brands.begin(), picture_brands.end(),
                       [&](std::string_view brand) { return stands_at(bytes, 8, brand); });
}

struct Stranger
{
    std::size_t at;
    std::string_view bytes;
    std::string_view words;
};

constexpr std::array strangers{
    Stranger{0, "%PDF"sv, "it begins like a PDF"},
    Stranger{0, "PK\x03\x04"sv, "it begins like a ZIP archive or an office document"},
    Stranger{0, "\xD0\xCF\x11\xE0"sv, "it begins like an old office document"},
    Stranger{0, "\x1A\x45\xDF\xA3"sv, "it looks like a video"},
    Stranger{4, "ftyp"sv, "it looks like a video"},
    Stranger{4, "moov"sv, "it looks like a video"},
    Stranger{8, "AVI "sv, "it looks like a video"},
    Stranger{0, "\x00\x00\x01\xBA"sv, "it looks like a video"},
    Stranger{0, "RIFF"sv, "it looks like a sound recording"},
    Stranger{0, "ID3"sv, "it looks like a sound recording"},
    Stranger{0, "OggS"sv, "it looks like a recording"},
    Stranger{0, "8BPS"sv, "it is a drawing with layers; save it as JPEG"},
    Stranger{0, "\xFF\x0A"sv, "it is a JPEG XL picture; save it as JPEG"},
    Stranger{4, "JXL "sv, "it is a JPEG XL picture; save it as JPEG"},
    Stranger{4, "jP  "sv, "it is a JPEG 2000 picture; save it as JPEG"},
    Stranger{0, "II+\0"sv, "it is a TIFF for very large pictures; save it as JPEG"},
    Stranger{0, "MM\0+"sv, "it is a TIFF for very large pictures; save it as JPEG"},
    Stranger{0, "\x1F\x8B"sv, "it begins like a compressed file"},
};

bool is_text(std::string_view bytes)
{
    auto const start = bytes.substr(0, 256);
    return std::all_of(start.begin(), start.end(),
                       [](char c)
                       {
                           auto const b = static_cast<unsigned char>(c);
                           return b >= 0x20 ? b != 0x7F : c == '\t' || c == '\n' || c == '\r';
                       });
}

std::string text_words(std::string_view bytes)
{
    std::string start(bytes.substr(0, 1024));
    std::transform(start.begin(), start.end(), start.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    if (start.find("<svg") != std::string::npos)
        return "it is an SVG drawing; save it as PNG or JPEG";
    if (start.find("<html") != std::string::npos || start.find("<!doctype html") != std::string::npos)
        return "it begins like a web page (HTML)";
    return "it looks like text";
}

} // namespace

Kind kind_of(std::string_view bytes)
{
    for (auto const& sign : signs)
        if (stands_at(bytes, sign.at, sign.bytes))
            return sign.kind;
    if (stands_at(bytes, 0, "RIFF") && stands_at(bytes, 8, "WEBP"))
        return Kind::webp;
    if (is_of_pictures(bytes))
        return Kind::heif;
    // Two letters are little to go by: the length of the head must fit too.
    auto const head = number_at(bytes, 14, 4, Order::little);
    if (stands_at(bytes, 0, "BM") && head && *head >= 12 && *head <= 124)
        return Kind::bmp;
    return Kind::none;
}

std::string name_of(Kind kind)
{
    switch (kind)
    {
    case Kind::jpeg: return "JPEG";
    case Kind::png: return "PNG";
    case Kind::webp: return "WebP";
    case Kind::gif: return "GIF";
    case Kind::bmp: return "BMP";
    case Kind::tiff: return "TIFF";
    case Kind::heif: return "HEIC or AVIF";
    case Kind::none: break;
    }
    return "unknown";
}

std::string looks_like(std::string_view bytes)
{
    for (auto const& stranger : strangers)
        if (stands_at(bytes, stranger.at, stranger.bytes))
            return std::string(stranger.words);
    if (is_text(bytes))
        return text_words(bytes);
    return "it begins like nothing that is known here";
}

} // namespace padwalk::photos
