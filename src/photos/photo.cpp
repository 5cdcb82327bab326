#include "padwalk/photos/photo.hpp"

#include "pixels.hpp"

#include <algorithm>
#include <stdexcept>

namespace padwalk::photos
{
namespace
{

void require_sensible(PhotoSize const& size)
{
    if (size.longest_side < 16 || size.longest_side > 8192)
        throw std::invalid_argument("the longest side of an embedded picture is 16 to 8192 pixels");
    if (size.quality < 1 || size.quality > 100)
        throw std::invalid_argument("the quality of an embedded picture is 1 to 100");
}

/// The best JPEG that is small enough: first of less quality, then of fewer pixels.
std::variant<EmbeddedPhoto, PhotoRefused> packed(Pixels picture, PhotoSize const& size)
{
    for (;;)
    {
        constexpr int step = 15, least_quality = 45; // below, the blocks show
        for (int quality = size.quality;; quality = std::max(quality - step, least_quality))
        {
            auto bytes = as_jpeg(picture, quality);
            if (bytes.empty())
                return PhotoRefused{"can't be written as JPEG"};
            if (bytes.size() <= size.most_bytes)
                return EmbeddedPhoto{std::move(bytes), "image/jpeg", picture.width, picture.height, {}};
            if (quality <= least_quality)
                break;
        }
        int const longest = std::max(picture.width, picture.height);
        if (longest <= 16)
            return PhotoRefused{"can't be made as small as " + std::to_string(size.most_bytes) + " bytes"};
        picture = scaled_down(picture, longest * 3 / 4);
    }
}

} // namespace

std::variant<EmbeddedPhoto, PhotoRefused> embedded(std::string_view bytes, PhotoSize const& size)
{
    require_sensible(size);
    if (bytes.empty())
        return PhotoRefused{"is empty"};
    if (bytes.size() > size.most_read)
        return PhotoRefused{"is larger than " + std::to_string(size.most_read / 1'000'000) + " MB; save it smaller"};
    Kind const kind = kind_of(bytes);
    if (kind == Kind::none)
        return PhotoRefused{"is no picture that can be read (" + looks_like(bytes) + ")"};
    auto decoded =
        kind == Kind::heif ? decode_heif(bytes, size.most_megapixels) : decode(kind, bytes, size.most_megapixels);
    if (!decoded.canvas)
        return PhotoRefused{decoded.problem};
    auto picture = upright(scaled_down(*decoded.canvas, size.longest_side), decoded.orientation);
    decoded.canvas.reset();
    if (!decoded.remark.empty() && is_blank(picture))
        return PhotoRefused{"is broken: nothing of its picture is left"};
    auto out = packed(std::move(picture), size);
    if (auto* const photo = std::get_if<EmbeddedPhoto>(&out))
        photo->remark = decoded.remark;
    return out;
}

} // namespace padwalk::photos
