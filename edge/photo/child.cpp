#include "edge/photo/child.hpp"

#include <fcntl.h>
#include <seccomp.h>
#include <signal.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdlib>
#include <cstring>
#include <new>

#include "edge/photo/decode.hpp"

namespace hw::photo {

namespace {

// A progressive picture of 60 million pixels needs 360 MB for its coefficients (three planes of 16 bits).
constexpr rlim_t memory_limit = rlim_t{1} << 30;
#if defined(__SANITIZE_ADDRESS__)
constexpr bool address_sanitizer = true;  // it reserves terabytes of addresses
#else
constexpr bool address_sanitizer = false;
#endif

bool limit(__rlimit_resource what, rlim_t soft, rlim_t hard) {
    const rlimit both{soft, hard};
    return ::setrlimit(what, &both) == 0;
}

bool limited(rlim_t cpu_s) {
    return (address_sanitizer || limit(RLIMIT_AS, memory_limit, memory_limit)) && limit(RLIMIT_CPU, cpu_s, cpu_s + 1) && limit(RLIMIT_NOFILE, 0, 0) &&
           limit(RLIMIT_NPROC, 0, 0) && limit(RLIMIT_FSIZE, 0, 0) && limit(RLIMIT_CORE, 0, 0);
}

/// What is not on this list ends the process. Memory without a file behind it and never to be run, the end of the pipe, the exit.
bool filtered() {
    const scmp_filter_ctx filter = seccomp_init(SCMP_ACT_KILL_PROCESS);
    if (filter == nullptr) return false;
    bool ok = true;
    const auto allow = [&](int call) { ok = ok && seccomp_rule_add(filter, SCMP_ACT_ALLOW, call, 0) == 0; };
    for (const int call : {SCMP_SYS(exit), SCMP_SYS(exit_group), SCMP_SYS(munmap), SCMP_SYS(mremap), SCMP_SYS(brk), SCMP_SYS(madvise), SCMP_SYS(rt_sigreturn)}) allow(call);
    if (address_sanitizer) allow(SCMP_SYS(sigaltstack));  // it asks for the stack before every call that does not return
    const scmp_arg_cmp to_pipe = {0, SCMP_CMP_EQ, 1, 0};
    ok = ok && seccomp_rule_add_array(filter, SCMP_ACT_ALLOW, SCMP_SYS(write), 1, &to_pipe) == 0;
    const scmp_arg_cmp not_run = {2, SCMP_CMP_MASKED_EQ, PROT_EXEC, 0}, no_file = {3, SCMP_CMP_MASKED_EQ, MAP_ANONYMOUS, MAP_ANONYMOUS};
    const scmp_arg_cmp memory[] = {not_run, no_file};
    ok = ok && seccomp_rule_add_array(filter, SCMP_ACT_ALLOW, SCMP_SYS(mmap), 2, memory) == 0;
    ok = ok && seccomp_rule_add_array(filter, SCMP_ACT_ALLOW, SCMP_SYS(mprotect), 1, &not_run) == 0;
    ok = ok && seccomp_load(filter) == 0;
    return ok;
}

/// The bytes of the parent's sealed memory, to read only; nothing when there are none.
std::string_view mapped() {
    struct stat status{};
    if (::fstat(0, &status) != 0 || status.st_size <= 0) return {};
    const auto size = static_cast<std::size_t>(status.st_size);
    void* bytes = ::mmap(nullptr, size, PROT_READ, MAP_PRIVATE, 0, 0);
    return bytes == MAP_FAILED ? std::string_view{} : std::string_view(static_cast<const char*>(bytes), size);
}

void no_memory() { refuse(Refusal::NoMemory); }

}  // namespace

bool is_child(int argc, char** argv) { return argc == 3 && std::strcmp(argv[1], child_verb) == 0; }

void child(char** argv, void (*inside)(std::string_view bytes)) {
    const auto cpu_s = static_cast<rlim_t>(std::strtoul(argv[2], nullptr, 10));
    std::set_new_handler(no_memory);
    ::prctl(PR_SET_PDEATHSIG, SIGKILL);
    warm_up();
    const std::string_view bytes = mapped();
    const bool locked = cpu_s > 0 && ::close_range(2, ~0U, 0) == 0 && ::prctl(PR_SET_DUMPABLE, 0) == 0 && ::prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 && limited(cpu_s) && filtered();
    if (!locked || bytes.empty()) refuse(Refusal::NotLockedIn);
    if (inside != nullptr) inside(bytes);
    decode_and_answer(bytes);
}

}  // namespace hw::photo
