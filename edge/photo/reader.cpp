#include "edge/photo/reader.hpp"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <optional>
#include <string>

#include "edge/photo/child.hpp"
#include "edge/photo/exif.hpp"
#include "edge/photo/kind.hpp"
#include "edge/photo/wire.hpp"

namespace hw::photo {

namespace {

class Descriptor {
public:
    /// Above the three that the child gets, whatever of these the parent has closed.
    explicit Descriptor(int fd) : fd_(fd) {
        if (fd_ < 0 || fd_ > 2) return;
        fd_ = ::fcntl(fd, F_DUPFD_CLOEXEC, 3);
        ::close(fd);
    }
    ~Descriptor() { close(); }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    void close() {
        if (fd_ >= 0) ::close(fd_);
        fd_ = -1;
    }
    [[nodiscard]] int get() const { return fd_; }
    [[nodiscard]] bool ok() const { return fd_ >= 0; }

private:
    int fd_;
};

Error unavailable() {
    return {ErrorCode::Unavailable, "The part that reads pictures could not be started. Nothing was lost: try again in a moment; close other programs if it stays so.", "photo"};
}

/// The bytes in memory that nobody can change any more.
bool filled(const Descriptor& memory, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t n = ::write(memory.get(), bytes.data(), bytes.size());
        if (n <= 0) return false;
        bytes.remove_prefix(static_cast<std::size_t>(n));
    }
    return ::fcntl(memory.get(), F_ADD_SEALS, F_SEAL_SHRINK | F_SEAL_GROW | F_SEAL_WRITE | F_SEAL_SEAL) == 0;
}

/// This program again, with the bytes as its input, the pipe as its output, and nothing else of ours.
std::optional<pid_t> started(const Descriptor& memory, const Descriptor& pipe, int cpu_s) {
    posix_spawn_file_actions_t files;
    posix_spawnattr_t how;
    if (::posix_spawn_file_actions_init(&files) != 0 || ::posix_spawnattr_init(&how) != 0) return std::nullopt;
    sigset_t none, usual;
    sigemptyset(&none);
    sigemptyset(&usual);
    for (const int s : {SIGPIPE, SIGINT, SIGTERM, SIGHUP, SIGXCPU, SIGCHLD}) sigaddset(&usual, s);
    bool ok = ::posix_spawn_file_actions_adddup2(&files, memory.get(), 0) == 0 && ::posix_spawn_file_actions_adddup2(&files, pipe.get(), 1) == 0 &&
              ::posix_spawn_file_actions_addclosefrom_np(&files, 2) == 0 && ::posix_spawnattr_setsigmask(&how, &none) == 0 && ::posix_spawnattr_setsigdefault(&how, &usual) == 0 &&
              ::posix_spawnattr_setflags(&how, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF) == 0;
    std::string name = "hidewright", verb = child_verb, seconds = std::to_string(cpu_s);
    char* const words[] = {name.data(), verb.data(), seconds.data(), nullptr};
    char* const environment[] = {nullptr};
    pid_t pid = 0;
    ok = ok && ::posix_spawn(&pid, "/proc/self/exe", &files, &how, words, environment) == 0;
    ::posix_spawn_file_actions_destroy(&files);
    ::posix_spawnattr_destroy(&how);
    return ok ? std::optional(pid) : std::nullopt;
}

/// What came through the pipe; nothing when it was too much or took too long.
std::optional<std::string> heard(const Descriptor& pipe, int wall_ms) {
    using Clock = std::chrono::steady_clock;
    constexpr std::size_t most = sizeof(AnswerHead) + 2 * std::size_t{copy_bytes_limit};
    const auto end = Clock::now() + std::chrono::milliseconds(wall_ms);
    std::string out;
    char buffer[65536];
    for (;;) {
        const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(end - Clock::now()).count();
        pollfd wait{pipe.get(), POLLIN, 0};
        const int ready = left > 0 ? ::poll(&wait, 1, static_cast<int>(left)) : 0;
        if (ready < 0 && errno == EINTR) continue;
        if (ready <= 0) return std::nullopt;
        const ssize_t n = ::read(pipe.get(), buffer, sizeof buffer);
        if (n < 0 && errno == EINTR) continue;
        if (n < 0) return std::nullopt;
        if (n == 0) return out;
        out.append(buffer, static_cast<std::size_t>(n));
        if (out.size() > most) return std::nullopt;
    }
}

int waited(pid_t pid) {
    int status = 0;
    while (::waitpid(pid, &status, 0) < 0 && errno == EINTR) {}
    return status;
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
    const Descriptor memory(::memfd_create("photo", MFD_CLOEXEC | MFD_ALLOW_SEALING));
    int ends[2];
    if (!memory.ok() || !filled(memory, bytes) || ::pipe2(ends, O_CLOEXEC) != 0) return unavailable();
    const Descriptor from(ends[0]);
    Descriptor to(ends[1]);
    if (!from.ok() || !to.ok()) return unavailable();
    const auto pid = started(memory, to, limits_.cpu_s);
    if (!pid) return unavailable();
    to.close();
    const auto answer = heard(from, limits_.wall_ms);
    if (!answer) ::kill(*pid, SIGKILL);
    const int status = waited(*pid);
    if (!answer) return too_slow();
    if (WIFSIGNALED(status)) {
        const int by = WTERMSIG(status);
        if (by == SIGXCPU) return too_slow();
        // Somebody ends the program, or the system is out of memory: not the fault of the file.
        if (by == SIGINT || by == SIGTERM || by == SIGHUP || by == SIGQUIT || by == SIGKILL) return unavailable();
        return damaged(": its reader was stopped by the system with signal " + std::to_string(by));
    }
    return understood(*answer, kind);
}

}  // namespace hw::photo
