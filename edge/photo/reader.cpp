#include "edge/photo/reader.hpp"

#include <signal.h>

#include <cstring>
#include <optional>
#include <string>

#include "edge/child/run.hpp"
#include "edge/photo/child.hpp"
#include "edge/photo/exif.hpp"
#include "edge/photo/kind.hpp"
#include "edge/photo/wire.hpp"

namespace hw::photo {

namespace {

Error unavailable() {
    return {ErrorCode::Unavailable, "The part that reads pictures could not be started. Nothing was lost: try again in a moment; close other programs if it stays so.", "photo"};
}

Error damaged(const std::string& how) {
    return {ErrorCode::InvalidInput, "The picture is damaged or is not what it says it is" + how + ". Save it as a new JPEG, or take it again.", "photo"};
}

Error too_slow() { return {ErrorCode::InvalidInput, "Reading the picture took too long and was stopped. Save it as a new JPEG, or set the camera to a smaller picture.", "photo"}; }

Error refusal_of(Refusal refusal) {
    switch (refusal) {
        case Refusal::CutShort: return {ErrorCode::InvalidInput, "The picture ends too early: it was not copied whole to where it comes from. Copy or take it again.", "photo"};
        case Refusal::TooManyPixels: return {ErrorCode::OutOfRange, "The picture has more than 60 million pixels. Set the camera to a smaller picture, or save a smaller copy.", "photo"};
        case Refusal::PrintColours: return {ErrorCode::InvalidInput, "The picture is in the colours of print (CMYK). Save it as an RGB JPEG.", "photo"};
        case Refusal::NoMemory: return {ErrorCode::InvalidInput, "The picture needs more memory than one may take. Save it as a new JPEG, or set the camera to a smaller picture.", "photo"};
        case Refusal::NotLockedIn: return {ErrorCode::Unavailable, "The part that reads pictures could not be shut off from the rest of this machine, so it read nothing. The system must offer system-call filters (seccomp).", "photo"};
        default: return damaged("");
    }
}

/// The block at the head of an answer, when every figure in it can be true.
std::optional<AnswerHead> head_of(const std::string& answer) {
    AnswerHead head{};
    if (answer.size() < sizeof head) return std::nullopt;
    std::memcpy(&head, answer.data(), sizeof head);
    const auto within = [](std::uint32_t value, std::uint32_t most) { return value >= 1 && value <= most; };
    if (std::string_view(head.mark, sizeof head.mark) != answer_mark) return std::nullopt;
    if (head.refusal != 0) return head;
    const bool sizes = within(head.width_px, desk::photo_pixels_limit) && within(head.height_px, desk::photo_pixels_limit) && within(head.orientation, 8) &&
                       within(head.screen_bytes, copy_bytes_limit) && within(head.small_bytes, copy_bytes_limit);
    return sizes && answer.size() == sizeof head + head.screen_bytes + head.small_bytes ? std::optional(head) : std::nullopt;
}

/// A date that the child tells is read again: it is shown and kept.
std::string date_of(const AnswerHead& head) {
    std::string date(head.taken_at, ::strnlen(head.taken_at, sizeof head.taken_at));
    if (date.size() != 19) return {};
    std::string as_exif = date;
    as_exif[4] = as_exif[7] = ':';
    as_exif[10] = ' ';
    return iso_date(as_exif) == date ? date : std::string{};
}

Result<desk::PhotoContent> understood(const std::string& answer, Kind kind) {
    const auto head = head_of(answer);
    if (!head) return damaged("");
    if (head->refusal != 0) return refusal_of(static_cast<Refusal>(head->refusal));
    desk::PhotoContent out;
    out.type = kind == Kind::Jpeg ? "image/jpeg" : "image/png";
    out.width_px = static_cast<int>(head->width_px);
    out.height_px = static_cast<int>(head->height_px);
    out.orientation = static_cast<int>(head->orientation);
    out.taken_at = date_of(*head);
    out.screen = answer.substr(sizeof *head, head->screen_bytes);
    out.small = answer.substr(sizeof *head + head->screen_bytes);
    return out;
}

}  // namespace

Result<Done> ChildReader::look(std::string_view first_bytes) {
    HW_TRY(kind, kind_of(first_bytes));
    static_cast<void>(kind);
    return Done{};
}

Result<desk::PhotoContent> ChildReader::read(std::string_view bytes) {
    HW_TRY(kind, kind_of(bytes));
    if (bytes.size() > static_cast<std::size_t>(desk::photo_bytes_limit)) return Error{ErrorCode::OutOfRange, "The file is larger than 40 MB. Save it as JPEG, or set the camera to a smaller picture.", "photo"};
    constexpr std::size_t most = sizeof(AnswerHead) + 2 * std::size_t{copy_bytes_limit};
    const child::Ended ended = child::run({"/proc/self/exe", {"hidewright", child_verb, std::to_string(limits_.cpu_s)}, limits_.wall_ms, most}, bytes);
    if (!ended.started) return unavailable();
    if (!ended.answered || ended.signal == SIGXCPU) return too_slow();
    if (child::from_outside(ended.signal)) return unavailable();
    if (ended.signal != 0) return damaged(": its reader was stopped by the system with signal " + std::to_string(ended.signal));
    return understood(ended.answer, kind);
}

}  // namespace hw::photo
