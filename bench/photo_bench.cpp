// How long does a photograph of a phone take to be read, in a child that can do nothing else, and how much of that is the
// price of the child? Beside it: the same file decoded whole, in this process, by the same library with no copies made.
//
// Size: 4000 × 3000, the 12 million pixels of a common phone camera, with grain in every pixel as a worn hide has it, so that
// the file is not flattered (3 to 8 MB). Best of five. With a file name the picture is written there instead.

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <fstream>
#include <functional>
#include <string>

#include "edge/photo/child.hpp"
#include "edge/photo/reader.hpp"
#include "tests/support/pictures.hpp"

namespace {

using namespace hw;

double best_ms(const std::function<void()>& work) {
    double best = 1e9;
    for (int i = 0; i < 5; ++i) {
        const auto begun = std::chrono::steady_clock::now();
        work();
        best = std::min(best, std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begun).count());
    }
    return best;
}

void line(const char* what, const std::string& bytes) {
    std::size_t copies = 0;
    const double ms = best_ms([&] { copies = photo::ChildReader().read(bytes)->screen.size(); });
    std::printf("%-44s %7.2f MB  %7.0f ms   screen copy %4zu kB\n", what, static_cast<double>(bytes.size()) / 1e6, ms, copies / 1000);
}

}  // namespace

int main(int argc, char** argv) {
    if (photo::is_child(argc, argv)) photo::child(argv);
    const std::string phone = test::jpeg_of(4000, 3000, test::grain(), {.exif = test::exif_block(6, "2024:05:17 10:11:12", true)});
    if (argc == 2) {
        std::ofstream(argv[1], std::ios::binary) << phone;
        return 0;
    }
    line("64 x 64 JPEG: the child itself", test::jpeg_of(64, 64, test::grain()));
    line("12 MP JPEG through the child", phone);
    std::printf("%-44s %7.2f MB  %7.0f ms\n", "the same, whole, in process, no copies", static_cast<double>(phone.size()) / 1e6, best_ms([&] { test::pixels_of(phone); }));
    line("12 MP JPEG, progressive", test::jpeg_of(4000, 3000, test::grain(), {.progressive = true}));
    line("12 MP PNG", test::png_of(4000, 3000, test::grain()));
    return 0;
}
