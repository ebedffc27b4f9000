// The plain main of every fuzz program: replays the files of the folders it is given, each as it is and with small
// changes drawn from a fixed seed, so that fuzzers never rot and a run is the same everywhere.
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

constexpr int changes_per_file = 2000;

void feed(const std::string& bytes) { LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()); }

/// One to four bytes overwritten, left out, or doubled.
std::string changed(std::string bytes, std::mt19937& random) {
    for (unsigned n = 1 + random() % 4; n > 0 && !bytes.empty(); --n) {
        const std::size_t at = random() % bytes.size();
        switch (random() % 3) {
            case 0: bytes[at] = static_cast<char>(random() % 256); break;
            case 1: bytes.erase(at, 1 + random() % 8); break;
            default: bytes.insert(at, bytes.substr(at, 1 + random() % 8)); break;
        }
    }
    return bytes;
}

}  // namespace

int main(int argc, char** argv) {
    int files = 0;
    std::mt19937 random(1);
    for (int i = 1; i < argc; ++i)
        for (const auto& entry : std::filesystem::directory_iterator(argv[i])) {
            std::ifstream in(entry.path(), std::ios::binary);
            const std::string bytes{std::istreambuf_iterator<char>(in), {}};
            feed(bytes);
            for (int n = 0; n < changes_per_file; ++n) feed(changed(bytes, random));
            ++files;
        }
    std::printf("%d files replayed, each with %d changes\n", files, changes_per_file);
    return files > 0 ? 0 : 1;
}
