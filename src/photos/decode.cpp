#include "decode.hpp"

#include <tiffio.h>

#include <array>
#include <cmath>
#include <cstdarg>
#include <cstdio>

namespace padwalk::photos
{
namespace
{

// libgd says what is wrong through one function for the whole process; here it is kept for whoever asked last on this
// thread, and never printed. No memory is taken: the decoders call it between setjmp and longjmp.
thread_local std::array<char, 400> said{};

void keep_what_is_said(int, char const* format, std::va_list values)
{
    static_cast<void>(std::vsnprintf(said.data(), said.size(), format, values));
}

void listen()
{
    gdSetErrorMethod(keep_what_is_said);
    TIFFSetErrorHandler(nullptr);
    TIFFSetWarningHandler(nullptr);
    said[0] = '\0';
}

Canvas read_by_library(Kind kind, std::string& bytes)
{
    auto const size = static_cast<int>(bytes.size());
    switch (kind)
    {
    case Kind::jpeg: return Canvas(gdImageCreateFromJpegPtrEx(size, bytes.data(), 0));
    case Kind::png: return decode_png(bytes);
    case Kind::webp: return Canvas(gdImageCreateFromWebpPtr(size, bytes.data()));
    case Kind::gif: return Canvas(gdImageCreateFromGifPtr(size, bytes.data()));
    case Kind::bmp: return Canvas(gdImageCreateFromBmpPtr(size, bytes.data()));
    case Kind::tiff: return Canvas(gdImageCreateFromTiffPtr(size, bytes.data()));
    case Kind::heif:
    case Kind::none: break;
    }
    return nullptr;
}

bool says(std::string_view words)
{
    return std::string_view(said.data()).find(words) != std::string_view::npos;
}

// Every pass over the whole picture takes its time; a file of a few kilobytes can ask for thousands. A camera's
// JPEG has 1, one that builds up while it loads about 10.
std::string effort_problem(Header const& header)
{
    constexpr double most_passes = 50, most_pixel_passes = 1.5e9;
    double const pixel_passes = header.width * header.height * header.scans;
    if (header.scans > most_passes || pixel_passes > most_pixel_passes)
        return "is a JPEG in " + std::to_string(header.scans) + " passes, more than any camera writes; save it anew";
    return {};
}

std::string remark_on(Kind kind, Header const& header)
{
    constexpr auto early = "ends early: part of it may be missing";
    if (kind == Kind::gif && !header.ends)
        return early;
    if (kind != Kind::jpeg || said[0] == '\0')
        return {};
    if (!header.ends || says("Premature end"))
        return early;
    // Some cameras leave bytes over between segments: no harm.
    if (says("Corrupt JPEG data") && !says("extraneous bytes"))
        return "is damaged: part of it may look wrong";
    return {};
}

// libtiff turns half of the orientations itself and libgd leaves the others. So it is told that nothing is turned.
void hide_orientation(Header const& header, std::string& bytes)
{
    if (header.orientation_at == 0)
        return;
    bool const little = bytes[0] == 'I';
    for (std::size_t i = 0; i < 4; ++i)
        bytes.at(header.orientation_at + i) = '\0';
    bytes.at(header.orientation_at + (little ? 0 : 1)) = '\1';
}

} // namespace

std::string size_problem(double width, double height, double most_megapixels)
{
    if (!(width >= 1 && height >= 1))
        return "is broken: it has no width or no height";
    double const megapixels = width * height / 1e6;
    if (megapixels > most_megapixels)
        return "has " + std::to_string(std::llround(megapixels)) + " megapixels, more than the " +
               std::to_string(std::llround(most_megapixels)) + " that are read; save it smaller";
    return {};
}

Decoded decode(Kind kind, std::string_view bytes, double most_megapixels)
{
    Decoded out;
    Header const header = header_of(kind, bytes);
    out.problem = header.problem;
    if (out.problem.empty())
        out.problem = size_problem(header.width, header.height, most_megapixels);
    if (out.problem.empty() && kind == Kind::jpeg)
        out.problem = effort_problem(header);
    if (!out.problem.empty())
        return out;
    listen();
    std::string own(bytes); // libgd asks for bytes that it might change
    if (kind == Kind::tiff)
        hide_orientation(header, own);
    out.canvas = read_by_library(kind, own);
    out.orientation = header.orientation;
    if (out.canvas)
        out.remark = remark_on(kind, header);
    else
        out.problem =
            header.ends ? "is broken: what it holds can't be read as " + name_of(kind) : std::string(cut_short);
    return out;
}

} // namespace padwalk::photos
