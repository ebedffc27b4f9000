#include "desk/photo.hpp"

#include <algorithm>

namespace hw::desk {

bool is_photo_id(std::string_view text) {
    constexpr std::size_t hex_digits = 64;
    return text.size() == hex_digits && std::all_of(text.begin(), text.end(), [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
}

Result<UploadRequest> checked(UploadRequest request) {
    constexpr std::size_t name_limit = 255;
    if (!is_photo_id(request.sha256))
        return Error{ErrorCode::InvalidInput, "Give the SHA-256 of the file as 64 digits 0 to 9 and a to f.", "sha256"};
    if (request.bytes < 1) return Error{ErrorCode::InvalidInput, "The file is empty. Choose another, or take the photograph again.", "bytes"};
    if (request.bytes > photo_bytes_limit)
        return Error{ErrorCode::OutOfRange, "The file is larger than 40 MB. Save it as JPEG, or set the camera to a smaller picture.", "bytes"};
    if (request.name.size() > name_limit) return Error{ErrorCode::InvalidInput, "The name is longer than 255 bytes. Give a shorter one.", "name"};
    for (char& c : request.name)
        if (static_cast<unsigned char>(c) < ' ' || c == '\x7f') c = '_';
    return request;
}

}  // namespace hw::desk
