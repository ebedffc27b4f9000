#include "edge/photo/kind.hpp"

#include <algorithm>
#include <array>
#include <string>

namespace hw::photo {

namespace {

using namespace std::string_view_literals;

constexpr std::string_view as_jpeg = "Set the camera of the phone to JPEG (often called \"most compatible\") and take it again, or share it as JPEG.";
constexpr std::string_view save_as_jpeg = "Save it as JPEG, and send that.";

/// What is often sent instead of a photograph.
struct Other {
    std::size_t at;
    std::string_view bytes, what, remedy;
};
constexpr std::array<Other, 25> others{{
    {4, "ftyphe"sv, "a HEIC picture", as_jpeg},
    {4, "ftypmif1"sv, "a HEIC picture", as_jpeg},
    {4, "ftypmsf1"sv, "a HEIC picture", as_jpeg},
    {4, "ftypavi"sv, "an AVIF picture", as_jpeg},
    {4, "ftypcrx "sv, "a raw file of a camera", "Set the camera to JPEG, or to raw and JPEG, and send the JPEG."},
    {4, "ftyp"sv, "a film", "Take a photograph, or save one frame of the film as JPEG."},
    {0, "GIF8"sv, "a GIF picture", save_as_jpeg},
    {8, "WEBP"sv, "a WebP picture", save_as_jpeg},
    {0, "II*\0"sv, "a raw file of a camera, or a TIFF picture", "Set the camera to JPEG, or to raw and JPEG, and send the JPEG."},
    {0, "MM\0*"sv, "a raw file of a camera, or a TIFF picture", "Set the camera to JPEG, or to raw and JPEG, and send the JPEG."},
    {0, "IIRO"sv, "a raw file of a camera", "Set the camera to JPEG, or to raw and JPEG, and send the JPEG."},
    {0, "IIRS"sv, "a raw file of a camera", "Set the camera to JPEG, or to raw and JPEG, and send the JPEG."},
    {0, "IIU\0"sv, "a raw file of a camera", "Set the camera to JPEG, or to raw and JPEG, and send the JPEG."},
    {0, "\xff\x0a"sv, "a JPEG XL picture", as_jpeg},
    {0, "\0\0\0\x0cJXL "sv, "a JPEG XL picture", as_jpeg},
    {0, "\0\0\0\x0cjP  "sv, "a JPEG 2000 picture", save_as_jpeg},
    {0, "BM"sv, "a BMP picture", save_as_jpeg},
    {0, "%PDF"sv, "a PDF", "Photograph the page, or save its picture as JPEG."},
    {0, "<svg"sv, "an SVG drawing", "Save it as PNG, and send that."},
    {0, "<?xml"sv, "a file of text", "Send a JPEG or PNG picture."},
    {0, "<"sv, "a web page", "Save the picture itself as JPEG or PNG, not the page around it."},
    {0, "PK\x03\x04"sv, "an archive", "Unpack it, and send the pictures one by one."},
    {0, "\x1a\x45\xdf\xa3"sv, "a film", "Take a photograph, or save one frame of the film as JPEG."},
    {8, "AVI "sv, "a film", "Take a photograph, or save one frame of the film as JPEG."},
    {0, "8BPS"sv, "a layered picture of an image editor", save_as_jpeg},
}};

bool stands(std::string_view text, std::size_t at, std::string_view bytes) { return text.size() >= at + bytes.size() && text.substr(at, bytes.size()) == bytes; }

}  // namespace

Result<Kind> kind_of(std::string_view first_bytes) {
    if (stands(first_bytes, 0, "\xff\xd8\xff"sv)) return Kind::Jpeg;
    if (stands(first_bytes, 0, "\x89PNG\r\n\x1a\n"sv)) return Kind::Png;
    const auto* found = std::find_if(others.begin(), others.end(), [&](const Other& o) { return stands(first_bytes, o.at, o.bytes); });
    if (found != others.end()) return Error{ErrorCode::InvalidInput, "This is " + std::string(found->what) + ". " + std::string(found->remedy), "photo"};
    return Error{ErrorCode::InvalidInput, "This is no picture that can be read here. Send a JPEG or PNG.", "photo"};
}

}  // namespace hw::photo
