#pragma once
/// Bytes as text, for a picture inside a page.

#include <string>
#include <string_view>

namespace padwalk::photos
{

/// Base 64 with the alphabet A–Z a–z 0–9 + /, filled up with '=', without line breaks. Source: RFC 4648, section 4.
[[nodiscard]] std::string base64(std::string_view bytes);

} // namespace padwalk::photos
