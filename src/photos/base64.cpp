#include "padwalk/photos/base64.hpp"

namespace padwalk::photos
{

std::string base64(std::string_view bytes)
{
    static constexpr char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string out;
    out.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t i = 0; i < bytes.size(); i += 3)
    {
        auto const byte = [&](std::size_t k) -> unsigned
        { return i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0; };
        unsigned const three = byte(0) << 16 | byte(1) << 8 | byte(2);
        out += letters[three >> 18 & 63];
        out += letters[three >> 12 & 63];
        out += i + 1 < bytes.size() ? letters[three >> 6 & 63] : '=';
        out += i + 2 < bytes.size() ? letters[three & 63] : '=';
    }
    return out;
}

} // namespace padwalk::photos
