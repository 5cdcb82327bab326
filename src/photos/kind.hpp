#pragma once
// What a file is by its first bytes, whatever its name says.

#include <string>
#include <string_view>

namespace padwalk::photos
{

enum class Kind
{
    none, ///< no picture that is read here
    jpeg,
    png,
    webp,
    gif,
    bmp,
    tiff,
    heif ///< HEIC, AVIF
};

[[nodiscard]] Kind kind_of(std::string_view bytes);

/// 'JPEG', 'HEIC' …
[[nodiscard]] std::string name_of(Kind kind);

/// Of a file of no kind: 'it begins like a PDF', 'it looks like a video'; and what to do, where there is something.
[[nodiscard]] std::string looks_like(std::string_view bytes);

} // namespace padwalk::photos
