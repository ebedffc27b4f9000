#include "edge/sheet/worker/lock.hpp"

#include <fcntl.h>
#include <fontconfig/fontconfig.h>
#include <iconv.h>
#include <seccomp.h>
#include <signal.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/syscall.h>
#include <sys/ucontext.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <string>
#include <vector>

namespace hw::sheet_reader {

namespace {

constexpr rlim_t memory_limit = rlim_t{512} << 20;
constexpr rlim_t open_limit = 1024;
constexpr std::size_t typefaces_limit = 900;
#if defined(__SANITIZE_ADDRESS__)
constexpr bool address_sanitizer = true;  // it reserves terabytes of addresses
#else
constexpr bool address_sanitizer = false;
#endif

/// A typeface of this machine, opened before the doors were shut.
struct Typeface {
    std::string path;
    int fd = -1;
};
std::vector<Typeface>& typefaces() {
    static std::vector<Typeface> all;
    return all;
}

void open_typefaces() {
    const rlimit open{open_limit, open_limit};
    ::setrlimit(RLIMIT_NOFILE, &open);
    if (FcInit() == FcFalse) return;
    const FcFontSet* set = FcConfigGetFonts(FcConfigGetCurrent(), FcSetSystem);
    for (int i = 0; set != nullptr && i < set->nfont && typefaces().size() < typefaces_limit; ++i) {
        FcChar8* name = nullptr;
        if (FcPatternGetString(set->fonts[i], FC_FILE, 0, &name) != FcResultMatch) continue;
        const std::string path = reinterpret_cast<const char*>(name);
        if (const int fd = ::open(path.c_str(), O_RDONLY | O_CLOEXEC); fd >= 0) typefaces().push_back({path, fd});
    }
}

/// glibc loads the tables of a character set when it first meets it, which is too late behind the filter.
void open_character_sets() {
    constexpr const char* pairs[][2] = {{"UTF-16", "UTF-8"}, {"UTF-8", "UTF-16"}, {"UTF-8", "UTF-16LE"}, {"UTF-16LE", "UTF-8"}};
    for (const auto& [to, from] : pairs) {
        iconv_t way = ::iconv_open(to, from);  // stays open
        if (way == reinterpret_cast<iconv_t>(-1)) continue;
        char in[] = "ab", out[16];
        char *at = in, *into = out;
        std::size_t left = 2, room = sizeof out;
        ::iconv(way, &at, &left, &into, &room);
    }
}

bool limit(__rlimit_resource what, rlim_t soft, rlim_t hard) {
    const rlimit both{soft, hard};
    return ::setrlimit(what, &both) == 0;
}

bool limited(Needs needs, rlim_t cpu_s) {
    return (address_sanitizer || limit(RLIMIT_AS, memory_limit, memory_limit)) && limit(RLIMIT_CPU, cpu_s, cpu_s + 1) && (needs == Needs::Typefaces || limit(RLIMIT_NOFILE, 0, 0)) &&
           limit(RLIMIT_NPROC, 0, 0) && limit(RLIMIT_FSIZE, 0, 0) && limit(RLIMIT_CORE, 0, 0);
}

#if defined(__x86_64__)
/// The library asks to open a file. If it is a typeface that was opened before, it gets that; of everything else there is none.
void asked_to_open(int, siginfo_t*, void* context) {
    auto& registers = static_cast<ucontext_t*>(context)->uc_mcontext.gregs;
    const char* path = reinterpret_cast<const char*>(registers[REG_RSI]);
    long result = -ENOENT;
    if ((registers[REG_RDX] & O_ACCMODE) == O_RDONLY && path != nullptr)
        for (const auto& face : typefaces())
            if (face.path == path) {
                const long fd = ::syscall(SYS_dup, face.fd);
                if (fd >= 0) ::syscall(SYS_lseek, fd, 0, SEEK_SET);
                result = fd >= 0 ? fd : -EMFILE;
                break;
            }
    registers[REG_RAX] = result;
}

bool answers_opening() {
    struct sigaction action{};
    action.sa_sigaction = asked_to_open;
    action.sa_flags = SA_SIGINFO | SA_NODEFER;
    return ::sigaction(SIGSYS, &action, nullptr) == 0;
}
constexpr bool can_answer_opening = true;
#else
bool answers_opening() { return true; }
constexpr bool can_answer_opening = false;  // pages without typefaces of their own stay bare
#endif

/// What is not on this list ends the process. Memory that is never to be run, the end of the pipe, the exit; and a plain no to
/// what the libraries ask out of habit.
bool filtered(Needs needs) {
    const scmp_filter_ctx filter = seccomp_init(SCMP_ACT_KILL_PROCESS);
    if (filter == nullptr) return false;
    bool ok = true;
    const auto rule = [&](std::uint32_t what, std::initializer_list<int> calls) {
        for (const int call : calls) ok = ok && seccomp_rule_add(filter, what, call, 0) == 0;
    };
    const auto rule_if = [&](std::uint32_t what, int call, std::initializer_list<scmp_arg_cmp> when) {
        ok = ok && seccomp_rule_add_array(filter, what, call, static_cast<unsigned>(when.size()), when.begin()) == 0;
    };
    rule(SCMP_ACT_ALLOW, {SCMP_SYS(exit), SCMP_SYS(exit_group), SCMP_SYS(munmap), SCMP_SYS(mremap), SCMP_SYS(brk), SCMP_SYS(madvise), SCMP_SYS(rt_sigreturn), SCMP_SYS(rt_sigprocmask), SCMP_SYS(futex),
                          SCMP_SYS(restart_syscall), SCMP_SYS(clock_gettime), SCMP_SYS(gettimeofday), SCMP_SYS(getrandom), SCMP_SYS(sysinfo), SCMP_SYS(close)});
    if (address_sanitizer) rule(SCMP_ACT_ALLOW, {SCMP_SYS(sigaltstack)});
    rule(SCMP_ACT_ERRNO(ENOENT), {SCMP_SYS(access), SCMP_SYS(faccessat), SCMP_SYS(faccessat2), SCMP_SYS(stat), SCMP_SYS(lstat), SCMP_SYS(readlink), SCMP_SYS(readlinkat)});
    rule(SCMP_ACT_ERRNO(ENOTTY), {SCMP_SYS(ioctl)});
    rule(SCMP_ACT_ERRNO(EPERM), {SCMP_SYS(uname), SCMP_SYS(prlimit64), SCMP_SYS(getrlimit), SCMP_SYS(sched_getaffinity), SCMP_SYS(writev)});
    // Warnings of the libraries go nowhere.
    rule_if(SCMP_ACT_ALLOW, SCMP_SYS(write), {{0, SCMP_CMP_EQ, 1, 0}});
    rule_if(SCMP_ACT_ERRNO(EBADF), SCMP_SYS(write), {{0, SCMP_CMP_NE, 1, 0}});
    rule_if(SCMP_ACT_ALLOW, SCMP_SYS(mprotect), {{2, SCMP_CMP_MASKED_EQ, PROT_EXEC, 0}});
    if (needs == Needs::Nothing) {
        rule(SCMP_ACT_ERRNO(ENOENT), {SCMP_SYS(openat), SCMP_SYS(open), SCMP_SYS(newfstatat), SCMP_SYS(fstat)});
        rule(SCMP_ACT_ERRNO(EBADF), {SCMP_SYS(read), SCMP_SYS(lseek), SCMP_SYS(fcntl)});
        rule_if(SCMP_ACT_ALLOW, SCMP_SYS(mmap), {{2, SCMP_CMP_MASKED_EQ, PROT_EXEC, 0}, {3, SCMP_CMP_MASKED_EQ, MAP_ANONYMOUS, MAP_ANONYMOUS}});
    } else {
        rule(can_answer_opening ? SCMP_ACT_TRAP : SCMP_ACT_ERRNO(ENOENT), {SCMP_SYS(openat)});
        rule(SCMP_ACT_ERRNO(ENOENT), {SCMP_SYS(open)});
        rule(SCMP_ACT_ALLOW, {SCMP_SYS(read), SCMP_SYS(pread64), SCMP_SYS(lseek), SCMP_SYS(fstat), SCMP_SYS(dup), SCMP_SYS(fcntl)});
        // Of an open file, not of a path.
        rule_if(SCMP_ACT_ALLOW, SCMP_SYS(newfstatat), {{3, SCMP_CMP_MASKED_EQ, AT_EMPTY_PATH, AT_EMPTY_PATH}});
        rule_if(SCMP_ACT_ERRNO(ENOENT), SCMP_SYS(newfstatat), {{3, SCMP_CMP_MASKED_EQ, AT_EMPTY_PATH, 0}});
        rule_if(SCMP_ACT_ALLOW, SCMP_SYS(mmap), {{2, SCMP_CMP_MASKED_EQ, PROT_EXEC, 0}});
    }
    ok = ok && seccomp_load(filter) == 0;
    return ok;
}

}  // namespace

void prepare(Needs needs) {
    open_character_sets();
    if (needs == Needs::Typefaces) open_typefaces();
}

bool lock_in(Needs needs, unsigned long cpu_s) {
    return cpu_s > 0 && (needs == Needs::Nothing || answers_opening()) && ::prctl(PR_SET_DUMPABLE, 0) == 0 && ::prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 && limited(needs, cpu_s) && filtered(needs);
}

}  // namespace hw::sheet_reader
