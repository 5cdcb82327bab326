#pragma once
// Numbers out of bytes that may lie: every look is checked against the end.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace padwalk::photos
{

enum class Order
{
    big,   // the highest byte first, 'MM'
    little // the lowest byte first, 'II'
};

/// The number of `count` bytes (1 to 4) at `at`; nothing where the bytes end before.
inline std::optional<std::uint32_t> number_at(std::string_view bytes, std::size_t at, std::size_t count, Order order)
{
    if (at > bytes.size() || bytes.size() - at < count)
        return std::nullopt;
    std::uint32_t out = 0;
    for (std::size_t i = 0; i < count; ++i)
    {
        std::size_t const k = order == Order::big ? i : count - 1 - i;
        out = out << 8 | static_cast<unsigned char>(bytes[at + k]);
    }
    return out;
}

/// Whether the bytes at `at` are these.
inline bool stands_at(std::string_view bytes, std::size_t at, std::string_view what)
{
    return at <= bytes.size() && bytes.substr(at, what.size()) == what;
}

} // namespace padwalk::photos
