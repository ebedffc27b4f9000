#include "face/cli/photos.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>

#include "edge/store/sha256.hpp"

namespace hw::cli {

std::string line_of(const desk::Photo& p) {
    return p.id + "  " + p.arrived_at.substr(0, 10) + "  " + std::to_string(p.width_px) + " × " + std::to_string(p.height_px) + "  " + p.name;
}

std::string text_of(const desk::Photo& p) {
    return p.id + "\n" + p.name + ", " + p.type + ", " + std::to_string(p.bytes) + " bytes, " + std::to_string(p.width_px) + " × " + std::to_string(p.height_px) + " px\n" +
           "taken " + (p.taken_at.empty() ? "at a time the file does not tell" : p.taken_at + " by the camera's clock") + ", arrived " + p.arrived_at + "\n";
}

Result<desk::PhotoSize> parse_photo_size(const std::string& word) {
    for (const auto& [size, name] : EnumNames<desk::PhotoSize>::names)
        if (name == word) return size;
    return Error{ErrorCode::InvalidInput, "Choose original, screen or small.", "size"};
}

Result<desk::Photo> add_photo(const std::string& file, desk::Photos& photos) {
    std::error_code fault;
    const auto size = std::filesystem::file_size(file, fault);
    if (fault) return Error{ErrorCode::NotFound, "The file " + file + " cannot be read.", "file"};
    desk::UploadRequest request;
    request.sha256 = std::string(64, '0');
    request.bytes = size > static_cast<std::uintmax_t>(desk::photo_bytes_limit) ? desk::photo_bytes_limit + 1 : static_cast<int>(size);
    request.name = std::filesystem::path(file).filename().string();
    request.arrival = desk::Arrival::Import;
    HW_TRY(checked, desk::checked(request));  // its size is refused before it is read
    std::ifstream in(file, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), {}};
    checked.sha256 = store::sha256(bytes);
    checked.bytes = static_cast<int>(bytes.size());
    HW_TRY(begun, photos.begin(checked));
    if (!begun.done) {
        HW_TRY(upload, photos.append(checked.sha256, 0, bytes));
        HW_EXPECTS(upload.done);
    }
    return photos.photo(checked.sha256);
}

}  // namespace hw::cli
