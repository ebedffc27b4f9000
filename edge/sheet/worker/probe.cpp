// For tests: the worker as it is, but once it is locked in it tries what the file tells it to.
#include <fcntl.h>
#include <sys/mman.h>
#include <sys/socket.h>
#include <signal.h>
#include <unistd.h>

#include <cstddef>
#include <cstdint>
#include <string>

#include "edge/sheet/worker/answer.hpp"
#include "edge/sheet/worker/work.hpp"

namespace {

using namespace hw::sheet_reader;

ssize_t went_on = 0;

/// What must not succeed did: an answer that the caller takes for a sheet of one empty page.
[[noreturn]] void got_in() {
    const std::string body(2 * sizeof(double) + sizeof(std::uint32_t), '\0');
    answer(1, 0, body);
}

void misbehave(std::string_view bytes) {
    constexpr std::string_view mark = "%PDF-TEST:";
    if (bytes.substr(0, mark.size()) != mark) return;
    const std::string what(bytes.substr(mark.size()));
    if (what == "open") { if (::open("/etc/hostname", O_RDONLY) >= 0) got_in(); }
    else if (what.rfind("create ", 0) == 0) { if (::open(what.c_str() + 7, O_WRONLY | O_CREAT, 0600) >= 0) got_in(); }
    else if (what == "connect") { if (::socket(AF_INET, SOCK_STREAM, 0) >= 0) got_in(); }
    else if (what == "connect to a neighbour") { if (::socket(AF_UNIX, SOCK_STREAM, 0) >= 0) got_in(); }
    else if (what == "exec") ::execl("/bin/true", "true", nullptr);
    else if (what == "fork") { if (::fork() >= 0) got_in(); }
    else if (what == "kill") { if (::kill(::getppid(), 0) == 0) got_in(); }
    else if (what == "write elsewhere") { if (::write(2, "x", 1) == 1) got_in(); }
    else if (what == "run memory") { if (::mmap(nullptr, 4096, PROT_READ | PROT_WRITE | PROT_EXEC, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0) != MAP_FAILED) got_in(); }
    else if (what == "make runnable") {
        void* p = ::mmap(nullptr, 4096, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
        if (::mprotect(p, 4096, PROT_READ | PROT_EXEC) == 0) got_in();
    } else if (what == "allocate") {
        char* volatile p = new char[std::size_t{4} << 30];
        *p = 1;
        got_in();
    } else if (what == "loop") for (volatile unsigned i = 0;;) { i = i + 1; }
    else if (what == "crash") {
        volatile std::uintptr_t nowhere = 8;
        *reinterpret_cast<volatile int*>(nowhere) = 1;
    } else if (what == "lie") {
        const std::string lie(20, 'x');
        went_on = ::write(1, lie.data(), lie.size());
        ::_exit(0);
    } else if (what == "pour") {
        const std::string block(1 << 20, 'x');
        for (;;) if (::write(1, block.data(), block.size()) < 0) ::_exit(0);
    } else if (what == "nothing") ::_exit(0);
}

}  // namespace

int main(int argc, char** argv) { work(argc, argv, misbehave); }
