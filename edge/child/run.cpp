#include "edge/child/run.hpp"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <optional>

namespace hw::child {

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

/// The bytes in memory that nobody can change any more.
bool filled(const Descriptor& memory, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t n = ::write(memory.get(), bytes.data(), bytes.size());
        if (n <= 0) return false;
        bytes.remove_prefix(static_cast<std::size_t>(n));
    }
    return ::fcntl(memory.get(), F_ADD_SEALS, F_SEAL_SHRINK | F_SEAL_GROW | F_SEAL_WRITE | F_SEAL_SEAL) == 0;
}

/// With the bytes as its input, the pipe as its output, and nothing else of ours.
std::optional<pid_t> started(const Order& order, const Descriptor& memory, const Descriptor& pipe) {
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
    std::vector<std::string> words = order.words;
    std::vector<char*> pointers;
    for (auto& word : words) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    char* const environment[] = {nullptr};
    pid_t pid = 0;
    ok = ok && ::posix_spawn(&pid, order.program.c_str(), &files, &how, pointers.data(), environment) == 0;
    ::posix_spawn_file_actions_destroy(&files);
    ::posix_spawnattr_destroy(&how);
    return ok ? std::optional(pid) : std::nullopt;
}

/// What came through the pipe; nothing when it was too much or took too long.
std::optional<std::string> heard(const Descriptor& pipe, const Order& order) {
    using Clock = std::chrono::steady_clock;
    const auto end = Clock::now() + std::chrono::milliseconds(order.wall_ms);
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
        if (out.size() > order.most) return std::nullopt;
    }
}

int waited(pid_t pid) {
    int status = 0;
    while (::waitpid(pid, &status, 0) < 0 && errno == EINTR) {}
    return status;
}

}  // namespace

bool from_outside(int signal) { return signal == SIGINT || signal == SIGTERM || signal == SIGHUP || signal == SIGQUIT || signal == SIGKILL; }

Ended run(const Order& order, std::string_view bytes) {
    Ended out;
    const Descriptor memory(::memfd_create("foreign", MFD_CLOEXEC | MFD_ALLOW_SEALING));
    int ends[2];
    if (!memory.ok() || !filled(memory, bytes) || ::pipe2(ends, O_CLOEXEC) != 0) return out;
    const Descriptor from(ends[0]);
    Descriptor to(ends[1]);
    if (!from.ok() || !to.ok()) return out;
    const auto pid = started(order, memory, to);
    if (!pid) return out;
    out.started = true;
    to.close();
    auto answer = heard(from, order);
    if (!answer) ::kill(*pid, SIGKILL);
    const int status = waited(*pid);
    out.answered = answer.has_value();
    if (answer) out.answer = std::move(*answer);
    if (WIFSIGNALED(status)) out.signal = WTERMSIG(status);
    return out;
}

}  // namespace hw::child
