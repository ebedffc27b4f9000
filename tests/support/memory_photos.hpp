// The photographs in memory, and a reader that looks no further than the first bytes: for tests of what is around them.
#pragma once

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "desk/ports.hpp"
#include "edge/store/sha256.hpp"

namespace hw::test {

/// Takes for a photograph what begins with "PHOTO"; its copies are words. "PHOTO BAD" cannot be read, "PHOTO BUSY" not now.
class PlainReader : public desk::PhotoReader {
public:
    Result<Done> look(std::string_view first_bytes) override {
        if (first_bytes.substr(0, 5) == "PHOTO") return Done{};
        return Error{ErrorCode::InvalidInput, "This is no photograph. Send a JPEG.", "photo"};
    }
    Result<desk::PhotoContent> read(std::string_view bytes) override {
        HW_TRY(looked, look(bytes));
        static_cast<void>(looked);
        ++read_count;
        if (bytes.substr(0, 9) == "PHOTO BAD") return Error{ErrorCode::InvalidInput, "The picture is damaged. Take it again.", "photo"};
        if (busy) return Error{ErrorCode::Unavailable, "Try again in a moment.", "photo"};
        return desk::PhotoContent{"image/jpeg", 40, 30, 6, "2024-05-17T10:11:12", "screen of " + std::string(bytes), "small of " + std::string(bytes)};
    }
    int read_count = 0;
    bool busy = false;
};

class MemoryPhotos : public desk::Photos {
public:
    MemoryPhotos(desk::PhotoReader& reader, desk::Clock& clock) : reader_(reader), clock_(clock) {}

    Result<desk::Upload> begin(const desk::UploadRequest& request) override {
        HW_TRY(asked, desk::checked(request));
        if (const auto it = kept_.find(asked.sha256); it != kept_.end()) return desk::Upload{it->second.photo.bytes, true};
        Part& part = parts_[asked.sha256];
        part.request = asked;
        if (part.bytes.size() > static_cast<std::size_t>(asked.bytes)) part.bytes.clear();
        return stand(part);
    }
    Result<desk::Upload> append(const std::string& id, int offset, std::string_view bytes) override {
        if (offset < 0) return Error{ErrorCode::InvalidInput, "Give the offset from 0.", "offset"};
        if (const auto it = kept_.find(id); it != kept_.end()) return desk::Upload{it->second.photo.bytes, true};
        const auto it = parts_.find(id);
        if (it == parts_.end()) return Error{ErrorCode::NotFound, "Begin it again.", "id"};
        Part& part = it->second;
        const auto at = static_cast<std::size_t>(offset), total = static_cast<std::size_t>(part.request.bytes), have = part.bytes.size();
        if (bytes.size() > total || at > total - bytes.size()) return Error{ErrorCode::InvalidInput, "More than was announced.", "offset"};
        if (have == 0 && at == 0 && bytes.size() >= 16)
            if (const auto kind = reader_.look(bytes); !kind.ok()) {
                parts_.erase(it);
                return kind.error();
            }
        if (at <= have && at + bytes.size() > have) part.bytes += bytes.substr(have - at);
        return stand(part);
    }
    Result<desk::Photo> photo(const std::string& id) override {
        const auto it = kept_.find(id);
        if (it == kept_.end()) return Error{ErrorCode::NotFound, "There is no such photograph.", "id"};
        return it->second.photo;
    }
    Result<std::vector<desk::Photo>> photos(const desk::Page& page) override {
        std::vector<desk::Photo> out;
        bool begun = page.after.empty();
        for (auto it = order_.rbegin(); it != order_.rend() && out.size() < static_cast<std::size_t>(std::clamp(page.limit, 1, 200)); ++it) {
            if (begun) out.push_back(kept_.at(*it).photo);
            begun = begun || *it == page.after;
        }
        return out;
    }
    Result<std::string> file(const std::string& id, desk::PhotoSize size) override {
        const auto it = kept_.find(id);
        if (it == kept_.end()) return Error{ErrorCode::NotFound, "There is no such photograph.", "id"};
        return size == desk::PhotoSize::Original ? it->second.bytes : size == desk::PhotoSize::Screen ? it->second.content.screen : it->second.content.small;
    }

private:
    struct Part {
        desk::UploadRequest request;
        std::string bytes;
    };
    struct Kept {
        desk::Photo photo;
        std::string bytes;
        desk::PhotoContent content;
    };

    Result<desk::Upload> stand(const Part& part) {
        if (part.bytes.size() < static_cast<std::size_t>(part.request.bytes)) return desk::Upload{static_cast<int>(part.bytes.size()), false};
        const Part whole = part;
        const std::string& id = whole.request.sha256;
        if (store::sha256(whole.bytes) != id) {
            parts_.erase(id);
            return Error{ErrorCode::InvalidInput, "Another hash. Begin again.", "sha256"};
        }
        const auto content = reader_.read(whole.bytes);
        if (!content.ok()) {
            if (content.error().code != ErrorCode::Unavailable) parts_.erase(id);
            return content.error();
        }
        kept_[id] = {{id, whole.request.bytes, content->type, content->width_px, content->height_px, content->orientation, content->taken_at, clock_.now_utc(), whole.request.arrival, whole.request.name}, whole.bytes, *content};
        order_.push_back(id);
        parts_.erase(id);
        return desk::Upload{whole.request.bytes, true};
    }

    desk::PhotoReader& reader_;
    desk::Clock& clock_;
    std::map<std::string, Part> parts_;
    std::map<std::string, Kept> kept_;
    std::vector<std::string> order_;
};

}  // namespace hw::test
