// How long does a data sheet of ten pages take from bytes to facts, the program that reads it included, and how much is that beside
// a general-purpose reader on the same file: `pdftotext -bbox` (poppler-utils), which gives words with boxes, started the same way?
//
// Size: ten pages of 55 lines, some 4,000 words, as a sheet with its annexes has; and the longest of the open corpus, with its
// own typefaces. Aim: 250 ms for the ten pages. Best of seven; without pdftotext its column stays empty.

#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <string>
#include <vector>

#include "core/sheet/facts.hpp"
#include "edge/sheet/reader.hpp"
#include "tests/support/pdfs.hpp"

namespace {

using namespace hw;

double best_ms(const std::function<void()>& work) {
    double best = 1e9;
    for (int i = 0; i < 7; ++i) {
        const auto begun = std::chrono::steady_clock::now();
        work();
        best = std::min(best, std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begun).count());
    }
    return best;
}

/// The sixteen sections, then annexes until there are ten pages.
std::string ten_pages() {
    std::vector<std::vector<std::string>> pages = test::sheet_lines();
    for (auto& page : pages)
        while (page.size() < 55) page.push_back("");
    while (pages.size() < 10) {
        std::vector<std::string> lines{"Annex: exposure scenario " + std::to_string(pages.size() - 1)};
        while (lines.size() < 55) lines.push_back("Wear suitable gloves tested to the standard and keep the room well aired, line " + std::to_string(lines.size()));
        pages.push_back(lines);
    }
    return test::pdf_of(pages);
}

/// Exit code of a program that says nothing.
int run(const std::vector<std::string>& words) {
    posix_spawn_file_actions_t files;
    posix_spawn_file_actions_init(&files);
    for (const int fd : {1, 2}) posix_spawn_file_actions_addopen(&files, fd, "/dev/null", 1, 0);
    std::vector<char*> pointers;
    for (const auto& word : words) pointers.push_back(const_cast<char*>(word.c_str()));
    pointers.push_back(nullptr);
    pid_t pid = 0;
    int status = -1;
    if (posix_spawnp(&pid, pointers[0], &files, nullptr, pointers.data(), environ) == 0) waitpid(pid, &status, 0);
    posix_spawn_file_actions_destroy(&files);
    return status;
}

void line(const char* what, const std::string& bytes, const std::string& worker) {
    sheet_reader::ChildReader reader({}, worker);
    const auto content = reader.read(bytes);
    if (!content.ok()) {
        std::printf("%-34s cannot be read: %s\n", what, content.error().message.c_str());
        return;
    }
    std::size_t words = 0;
    for (const auto& page : content->document.pages) words += page.words.size();
    const double read_ms = best_ms([&] { static_cast<void>(reader.read(bytes)); });
    const double facts_ms = best_ms([&] { static_cast<void>(sheet::read(content->document)); });
    const double page_ms = best_ms([&] { static_cast<void>(reader.page(bytes, 1, 110)); });
    const std::filesystem::path file = std::filesystem::temp_directory_path() / ("sheet_bench_" + std::to_string(getpid()) + ".pdf");
    std::ofstream(file, std::ios::binary) << bytes;
    const double other_ms = run({"pdftotext", "-v"}) >= 0 ? best_ms([&] { run({"pdftotext", "-bbox", file.string(), "-"}); }) : 0;
    std::filesystem::remove(file);
    std::printf("%-34s %3zu pages %6zu words  words %5.0f ms + facts %5.1f ms = %5.0f ms   a page drawn %4.0f ms", what, content->document.pages.size(), words, read_ms, facts_ms, read_ms + facts_ms, page_ms);
    if (other_ms > 0) std::printf("   pdftotext -bbox %5.0f ms: ratio %.2f", other_ms, (read_ms + facts_ms) / other_ms);
    std::printf("\n");
}

}  // namespace

int main() {
    const std::string worker = HW_SHEET_WORKER;
    line("one page: the program itself", test::pdf_of({{"A page"}}), worker);
    line("ten pages", ten_pages(), worker);
    std::ifstream in(std::string(HW_SHEETS) + "/en-cleaner-45.pdf", std::ios::binary);
    line("the longest of the open corpus", {std::istreambuf_iterator<char>(in), {}}, worker);
    return 0;
}
