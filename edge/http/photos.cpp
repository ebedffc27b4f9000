#include "edge/http/photos.hpp"

#include <charconv>
#include <iterator>
#include <utility>

#include "desk/photo.hpp"
#include "edge/codec/codec.hpp"

namespace hw::http {

namespace {

Error none() { return {ErrorCode::Unavailable, "Photographs are not kept here.", "photo"}; }

Reply begin(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_upload_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    return ports.photos == nullptr ? failed(none(), asked.id) : told(ports.photos->begin(*request), asked.id);
}

Reply append(const Asked& asked, desk::Ports& ports) {
    int offset = 0;
    const char* end = asked.offset.data() + asked.offset.size();
    const auto [stopped, fault] = std::from_chars(asked.offset.data(), end, offset);
    if (fault != std::errc{} || stopped != end || offset < 0)
        return failed({ErrorCode::InvalidInput, "Give the offset of the first byte sent, from 0, as ?offset=.", "offset"}, asked.id);
    return ports.photos == nullptr ? failed(none(), asked.id) : told(ports.photos->append(asked.argument, offset, asked.body), asked.id);
}

Reply list(const Asked& asked, desk::Ports& ports) {
    if (ports.photos == nullptr) return failed(none(), asked.id);
    return listed(asked, [&](const desk::Page& page) { return ports.photos->photos(page); });
}

Reply show(const Asked& asked, desk::Ports& ports) { return ports.photos == nullptr ? failed(none(), asked.id) : told(ports.photos->photo(asked.argument), asked.id); }

/// Bytes that somebody sent: named by their hash alone, never run, kept by the browser of whoever may see them.
template <desk::PhotoSize size>
Reply file(const Asked& asked, desk::Ports& ports) {
    if (ports.photos == nullptr) return failed(none(), asked.id);
    const auto photo = ports.photos->photo(asked.argument);
    if (!photo.ok()) return failed(photo.error(), asked.id);
    auto bytes = ports.photos->file(photo->id, size);
    if (!bytes.ok()) return failed(bytes.error(), asked.id);
    constexpr bool original = size == desk::PhotoSize::Original;
    Reply r;
    r.body = *std::move(bytes);
    r.type = original ? photo->type : "image/jpeg";
    r.tag = "\"" + photo->id + (original ? "" : size == desk::PhotoSize::Screen ? "-screen" : "-small") + "\"";
    r.lasting = r.inert = true;
    r.attached = original;
    if (original) r.file_name = photo->id.substr(0, 16) + (photo->type == "image/png" ? ".png" : ".jpg");
    return r;
}

using desk::Role;

constexpr Handler handlers[] = {
    {{"GET", "/api/photos", Role::Reader}, list},
    {{"POST", "/api/photos", Role::Technician}, begin},
    {{"POST", "/api/photos/{id}/bytes", Role::Technician}, append},
    {{"GET", "/api/photos/{id}", Role::Reader}, show},
    {{"GET", "/api/photos/{id}/original", Role::Reader}, file<desk::PhotoSize::Original>},
    {{"GET", "/api/photos/{id}/screen", Role::Reader}, file<desk::PhotoSize::Screen>},
    {{"GET", "/api/photos/{id}/small", Role::Reader}, file<desk::PhotoSize::Small>},
};

}  // namespace

Handlers photo_handlers() { return {handlers, std::size(handlers)}; }

bool takes_bytes(std::string_view path) {
    constexpr std::string_view begins = "/api/photos/", ends = "/bytes";
    return path.size() > begins.size() + ends.size() && path.substr(0, begins.size()) == begins && path.substr(path.size() - ends.size()) == ends;
}

}  // namespace hw::http
