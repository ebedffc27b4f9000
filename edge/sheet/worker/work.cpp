#include "edge/sheet/worker/work.hpp"

#include <signal.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdlib>
#include <exception>
#include <new>

#include "edge/sheet/worker/answer.hpp"
#include "edge/sheet/worker/document.hpp"
#include "edge/sheet/worker/lock.hpp"

namespace hw::sheet_reader {

namespace {

/// The bytes of the caller's sealed memory, to read only; nothing when there are none.
std::string_view mapped() {
    struct stat status{};
    if (::fstat(0, &status) != 0 || status.st_size <= 0) return {};
    const auto size = static_cast<std::size_t>(status.st_size);
    void* bytes = ::mmap(nullptr, size, PROT_READ, MAP_PRIVATE, 0, 0);
    return bytes == MAP_FAILED ? std::string_view{} : std::string_view(static_cast<const char*>(bytes), size);
}

void no_memory() { refuse(Refusal::NoMemory); }
void given_up() { refuse(Refusal::Damaged); }

unsigned long number(int argc, char** argv, int at) { return at < argc ? std::strtoul(argv[at], nullptr, 10) : 0; }

}  // namespace

void work(int argc, char** argv, void (*inside)(std::string_view bytes)) {
    const std::string_view verb = argc > 1 ? argv[1] : "";
    if (verb != words_verb && verb != page_verb) ::_exit(2);
    const bool draws = verb == page_verb;
    std::set_new_handler(no_memory);
    std::set_terminate(given_up);  // what the library throws and does not catch is the file's fault
    ::prctl(PR_SET_PDEATHSIG, SIGKILL);
    // Nothing that the caller had open, also not what it forgot to close.
    const bool closed = ::close_range(2, ~0U, 0) == 0;
    const Needs needs = draws ? Needs::Typefaces : Needs::Nothing;
    prepare(needs);
    warm_up(draws);
    const std::string_view bytes = mapped();
    if (!closed || bytes.empty() || !lock_in(needs, number(argc, argv, 2))) refuse(Refusal::NotLockedIn);
    if (inside != nullptr) inside(bytes);
    if (draws) answer_page(bytes, static_cast<std::uint32_t>(number(argc, argv, 3)), static_cast<std::uint32_t>(number(argc, argv, 4)));
    answer_words(bytes);
}

}  // namespace hw::sheet_reader
