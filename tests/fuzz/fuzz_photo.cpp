// Any bytes as a picture file: a small JPEG comes out, or words. The picture may have few pixels, so that a run spends
// its time on the readers and not on large empty pictures.

#include "padwalk/photos/photo.hpp"

#include <algorithm>
#include <cstdint>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* bytes, std::size_t count)
{
    using namespace padwalk::photos;
    PhotoSize size;
    size.longest_side = 64;
    size.most_megapixels = 0.5;
    auto const result = embedded({reinterpret_cast<char const*>(bytes), count}, size);
    if (auto const* refused = std::get_if<PhotoRefused>(&result))
    {
        if (refused->why.empty())
            std::abort();
        return 0;
    }
    auto const& photo = std::get<EmbeddedPhoto>(result);
    bool const fits = photo.width >= 1 && photo.height >= 1 && std::max(photo.width, photo.height) <= size.longest_side;
    bool const whole =
        photo.bytes.substr(0, 2) == "\xFF\xD8" && photo.bytes.substr(photo.bytes.size() - 2) == "\xFF\xD9";
    if (!fits || !whole || photo.bytes.size() > size.most_bytes)
        std::abort();
    return 0;
}
