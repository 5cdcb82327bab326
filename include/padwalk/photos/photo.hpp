#pragma once
/// A picture file in, a small picture to put into a page out, or plain words why not. Touches no file.
///
/// libgd decodes and encodes (one permissive library for JPEG, WebP, GIF, BMP, TIFF); PNG goes by libpng, because
/// libgd lets it print, and HEIC and AVIF by libheif, because libgd 2.3 drops the turn written in them. Scaling,
/// turning and what stands in a header (the one tag of Exif too) are ours: it is little, the same for every kind, and a
/// header is judged before any library sees the file.

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>

namespace padwalk::photos
{

/// How large a picture may be. The numbers are judgement: a page with thirty pictures should still go by mail.
struct PhotoSize
{
    int longest_side = 1280;            ///< pixels, from 16 to 8192; never scaled up to it
    int quality = 80;                   ///< of the JPEG, from 1 to 100
    std::size_t most_bytes = 400'000;   ///< of the JPEG; it loses quality and then size until it fits
    std::size_t most_read = 40'000'000; ///< bytes of the file
    double most_megapixels = 120;       ///< of the picture in the file; a telephone of today gives up to 108
};

/// A picture made ready: upright, small, and nothing but the picture.
struct EmbeddedPhoto
{
    std::string bytes;
    std::string type;          ///< image/jpeg
    int width = 0, height = 0; ///< pixels, as shown
    std::string remark; ///< what is wrong with it though it shows, after 'the picture …': 'ends early: …'; or empty
};

/// A picture that can't be shown.
struct PhotoRefused
{
    std::string why; ///< goes on from the name of the file: 'is no picture that can be read (it begins like a PDF)'
};

/// A small JPEG of a picture.
///
/// Takes:   JPEG, PNG, WebP, GIF (the first picture), BMP, TIFF (the first page; not every compression), and HEIC and
///          AVIF as far as the installed libheif has a decoder for them.
/// Gives:   upright as the camera's orientation says (Exif tag 274 in JPEG, PNG, WebP and TIFF; the turn of the file's
///          own format in HEIC and AVIF); what is clear lies on white; scaled down by the mean over each new pixel's
///          area.
/// Drops:   all that is not the picture: place, time, camera, comments, the small preview. A colour profile is dropped
///          too, not applied: a picture in a wide colour space comes out a little duller, nothing else changes.
/// Refuses: by its header, before anything is decoded, what is too large or of more pixels than `most_megapixels`; what
///          is empty, broken, or no picture. A JPEG that ends early is shown as far as it goes, with a remark.
/// Hostile bytes: everything read here is bounds-checked; the decoders are tried by tests/fuzz/fuzz_photo.cpp.
/// Throws:  nothing but std::bad_alloc; std::invalid_argument for a `size` outside the ranges above.
[[nodiscard]] std::variant<EmbeddedPhoto, PhotoRefused> embedded(std::string_view bytes, PhotoSize const& size = {});

} // namespace padwalk::photos
