#include "decode.hpp"

#include <libheif/heif.h>

#include <algorithm>
#include <cmath>

namespace padwalk::photos
{
namespace
{

struct Release
{
    void operator()(heif_context* context) const { heif_context_free(context); }
    void operator()(heif_image_handle* handle) const { heif_image_handle_release(handle); }
    void operator()(heif_image* image) const { heif_image_release(image); }
};

constexpr int longest_side = 16384;

std::string words_of(heif_error const& error)
{
    if (error.code == heif_error_Unsupported_feature || error.code == heif_error_Unsupported_filetype ||
        error.code == heif_error_Decoder_plugin_error)
        return "is a HEIC or AVIF picture that can't be read here; save it as JPEG";
    if (error.subcode == heif_suberror_Security_limit_exceeded)
        return "is broken, or more than " + std::to_string(longest_side) + " pixels long; save it smaller";
    if (error.subcode == heif_suberror_End_of_data)
        return std::string(cut_short);
    return "is broken: what it holds can't be read as HEIC or AVIF";
}

/// Into a canvas of libgd, whose transparency goes from 0 (solid) to 127 (clear).
Canvas canvas_of(heif_image const& image, int width, int height)
{
    int stride = 0;
    auto const* const bytes = heif_image_get_plane_readonly(&image, heif_channel_interleaved, &stride);
    if (bytes == nullptr || stride < 4 * width)
        return nullptr;
    Canvas out(gdImageCreateTrueColor(width, height));
    for (int y = 0; out && y < height; ++y)
    {
        auto const* p = bytes + static_cast<std::ptrdiff_t>(stride) * y;
        for (int x = 0; x < width; ++x, p += 4)
            out->tpixels[y][x] = gdTrueColorAlpha(p[0], p[1], p[2], gdAlphaMax - p[3] / 2);
    }
    return out;
}

using Handle = std::unique_ptr<heif_image_handle, Release>;

/// What the file says of its size is held against the limit; and the decoder to what the file says, for a picture that
/// is pasted from pieces tells its size a second time, where only the decoder sees it.
std::string bounded(heif_context& context, heif_image_handle const& handle, double most_megapixels)
{
    int const width = heif_image_handle_get_ispe_width(&handle), height = heif_image_handle_get_ispe_height(&handle);
    auto problem = size_problem(width, height, most_megapixels);
    if (problem.empty())
    {
        // The limit is an area, told by the side of a square; coded pictures are up to a block larger than shown ones.
        constexpr double block = 64;
        double const area = (width + block) * (height + block);
        heif_context_set_maximum_image_size_limit(&context, static_cast<int>(std::ceil(std::sqrt(area))));
    }
    return problem;
}

heif_error decode_as_colours(heif_image_handle const& handle, heif_image** out)
{
    std::unique_ptr<heif_decoding_options, void (*)(heif_decoding_options*)> const options(
        heif_decoding_options_alloc(), heif_decoding_options_free);
    options->convert_hdr_to_8bit = 1;
    return heif_decode_image(&handle, out, heif_colorspace_RGB, heif_chroma_interleaved_RGBA, options.get());
}

} // namespace

Decoded decode_heif(std::string_view bytes, double most_megapixels)
{
    Decoded out;
    auto const failed = [&](heif_error const& error)
    {
        if (error.code != heif_error_Ok)
            out.problem = words_of(error);
        return error.code != heif_error_Ok;
    };
    std::unique_ptr<heif_context, Release> const context(heif_context_alloc());
    heif_context_set_maximum_image_size_limit(context.get(), longest_side);
    if (failed(heif_context_read_from_memory_without_copy(context.get(), bytes.data(), bytes.size(), nullptr)))
        return out;
    heif_image_handle* first = nullptr;
    if (failed(heif_context_get_primary_image_handle(context.get(), &first)))
        return out;
    Handle const handle(first);
    out.problem = bounded(*context, *handle, most_megapixels);
    heif_image* decoded = nullptr;
    if (!out.problem.empty() || failed(decode_as_colours(*handle, &decoded)))
        return out;
    std::unique_ptr<heif_image, Release> const image(decoded);
    int const width = heif_image_get_width(decoded, heif_channel_interleaved);
    int const height = heif_image_get_height(decoded, heif_channel_interleaved);
    out.problem = size_problem(width, height, most_megapixels);
    if (out.problem.empty())
        out.canvas = canvas_of(*decoded, width, height);
    if (out.problem.empty() && !out.canvas)
        out.problem = "is broken: what it holds can't be read as HEIC or AVIF";
    return out;
}

} // namespace padwalk::photos
