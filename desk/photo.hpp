// A photograph as the workshop keeps it: the bytes that came, never changed, under their own hash.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <utility>

#include "base/describe.hpp"
#include "base/result.hpp"

namespace hw::desk {

/// The way a photograph came in.
enum class Arrival { Camera, File, Import };

/// How large a photograph is asked for: the bytes that came, or a copy with the longest side of 1600 or 320 px.
enum class PhotoSize { Original, Screen, Small };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::Arrival> {
    static constexpr std::array<std::pair<desk::Arrival, std::string_view>, 3> names{
        {{desk::Arrival::Camera, "camera"}, {desk::Arrival::File, "file"}, {desk::Arrival::Import, "import"}}};
};
template <>
struct hw::EnumNames<hw::desk::PhotoSize> {
    static constexpr std::array<std::pair<desk::PhotoSize, std::string_view>, 3> names{
        {{desk::PhotoSize::Original, "original"}, {desk::PhotoSize::Screen, "screen"}, {desk::PhotoSize::Small, "small"}}};
};

namespace hw::desk {

/// Largest photograph that is taken, in bytes and in pixels; longest side of the copies.
inline constexpr int photo_bytes_limit = 40'000'000, photo_pixels_limit = 60'000'000, screen_px = 1600, small_px = 320;

struct Photo {
    std::string id;                               ///< SHA-256 of the original bytes, in hex
    int bytes = 0;
    std::string type;                             ///< "image/jpeg" or "image/png"
    int width_px = 0;                             ///< after orientation
    int height_px = 0;
    int orientation = 1;                          ///< as EXIF counts, 1 to 8
    std::string taken_at;                         ///< ISO 8601, the camera's own clock, no zone; empty when not told
    std::string arrived_at;                       ///< ISO 8601, UTC
    Arrival arrival = Arrival::File;
    std::string name;                             ///< as it was called where it came from
};
template <class Visitor>
void describe(Visitor& visit, Photo& p) {
    visit("id", p.id, About{.doc = "SHA-256 of the original bytes, in hex"});
    visit("bytes", p.bytes, About{.doc = "size of the original", .minimum = 1, .maximum = photo_bytes_limit});
    visit("type", p.type, About{.doc = "image/jpeg or image/png"});
    visit("width_px", p.width_px, About{.doc = "after orientation", .minimum = 1});
    visit("height_px", p.height_px, About{.doc = "after orientation", .minimum = 1});
    visit("orientation", p.orientation, About{.doc = "of the original, as EXIF counts", .minimum = 1, .maximum = 8});
    visit("taken_at", p.taken_at, About{.doc = "ISO 8601 by the camera's own clock, without a zone; empty when the file does not tell"});
    visit("arrived_at", p.arrived_at, About{.doc = "ISO 8601, UTC"});
    visit("arrival", p.arrival, About{.doc = "the way it came in"});
    visit("name", p.name, About{.doc = "as it was called where it came from"});
}

/// A photograph announced, before its bytes.
struct UploadRequest {
    std::string sha256;
    int bytes = 0;
    std::string name;
    Arrival arrival = Arrival::File;
};
template <class Visitor>
void describe(Visitor& visit, UploadRequest& u) {
    visit("sha256", u.sha256, About{.doc = "of the whole file, 64 small hex digits: the photograph's id", .required = true});
    visit("bytes", u.bytes, About{.doc = "size of the whole file", .minimum = 1, .maximum = photo_bytes_limit, .required = true});
    visit("name", u.name, About{.doc = "as it is called where it comes from; shown, never used as a path"});
    visit("arrival", u.arrival, About{.doc = "the way it comes in"});
}

/// Whether a text can be the id of a photograph: 64 digits 0 to 9 and a to f. Nothing else may become a file name.
bool is_photo_id(std::string_view text);

/// The announcement, with control characters of the name replaced.
/// @error InvalidInput  no SHA-256 in hex, no bytes, a name longer than 255 bytes   @error OutOfRange  more than 40 MB
Result<UploadRequest> checked(UploadRequest request);

/// Where an upload stands.
struct Upload {
    int have_bytes = 0;                           ///< from the start, without a gap: the next offset
    bool done = false;                            ///< checked, decoded and kept
};
template <class Visitor>
void describe(Visitor& visit, Upload& u) {
    visit("have_bytes", u.have_bytes, About{.doc = "what is there from the start, without a gap: the next offset", .minimum = 0});
    visit("done", u.done, About{.doc = "the photograph is whole, checked and kept"});
}

}  // namespace hw::desk
