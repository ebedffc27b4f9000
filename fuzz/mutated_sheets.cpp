// Data sheets with seeded damage through the real worker: each must end in words, in facts or in a refusal; the caller never ends.
//   mutated_sheets COUNT WORKER FOLDER…     so many in all, spread over the files of the folders; every fifth is also drawn
// A file that the worker was ended for is a refusal like any other; how many there were is printed.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "core/sheet/facts.hpp"
#include "edge/sheet/reader.hpp"

namespace {

std::string bytes_of(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// Bytes overwritten, bits flipped, pieces left out, doubled or moved, numbers blown up, the end cut off.
std::string damaged(std::string bytes, std::mt19937& random) {
    for (unsigned n = 1 + random() % 8; n > 0 && bytes.size() > 16; --n) {
        const std::size_t at = 8 + random() % (bytes.size() - 8), size = 1 + random() % 200;
        switch (random() % 7) {
            case 0: bytes[at] = static_cast<char>(random() % 256); break;
            case 1: bytes[at] = static_cast<char>(bytes[at] ^ static_cast<char>(1U << random() % 8)); break;
            case 2: bytes.erase(at, size); break;
            case 3: bytes.insert(at, bytes.substr(at, size)); break;
            case 4: {
                const std::string piece = bytes.substr(at, size);
                bytes.insert(8 + random() % (bytes.size() - 8), piece);
                break;
            }
            case 5: {
                // The next number of the file becomes a large one: lengths, counts and sizes stand in decimal.
                const auto digit = std::find_if(bytes.begin() + static_cast<std::ptrdiff_t>(at), bytes.end(), [](char c) { return c >= '0' && c <= '9'; });
                if (digit != bytes.end()) bytes.insert(digit, random() % 2 == 0 ? '-' : '9'), bytes.insert(digit, 1 + random() % 8, '9');
                break;
            }
            default:
                if (random() % 4 == 0) bytes.resize(at);
                break;
        }
    }
    return bytes;
}

}  // namespace

int main(int argc, char** argv) {
    using namespace hw;
    if (argc < 4) return 2;
    const int count = std::atoi(argv[1]);
    std::vector<std::filesystem::path> files;
    for (int i = 3; i < argc; ++i)
        for (const auto& entry : std::filesystem::directory_iterator(argv[i]))
            if (entry.path().extension() == ".pdf") files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    if (files.empty()) {
        std::puts("no PDF in these folders");
        return 1;
    }
    sheet_reader::ChildReader reader({}, argv[2]);
    std::map<std::string, int> ends;
    int wrong = 0, ended_by_the_system = 0;
    for (int i = 0; i < count; ++i) {
        std::mt19937 random(static_cast<std::uint32_t>(i));
        const auto& file = files[static_cast<std::size_t>(i) % files.size()];
        const std::string bytes = damaged(bytes_of(file), random);
        const auto content = reader.read(bytes);
        std::string end = content.ok() ? "" : content.error().where;
        if (content.ok()) {
            const auto facts = sheet::read(content->document);
            end = facts.ok() ? "facts" : facts.error().where;
        } else {
            // Neither a fault of our own nor "try again": the file is at fault, and the refusal says so.
            if (content.error().code != ErrorCode::InvalidInput && content.error().code != ErrorCode::OutOfRange) {
                std::printf("%s with damage %d: %s\n", file.filename().c_str(), i, content.error().message.c_str());
                ++wrong;
            }
            if (content.error().message.find("stopped by the system") != std::string::npos) {
                std::printf("%s with damage %d: %s\n", file.filename().c_str(), i, content.error().message.c_str());
                ++ended_by_the_system;
            }
        }
        ++ends[end];
        if (i % 5 == 0) {
            const auto page = reader.page(bytes, 1, 72);
            if (!page.ok() && (page.error().code == ErrorCode::Unavailable || page.error().code == ErrorCode::Bug)) {
                std::printf("%s with damage %d, drawn: %s\n", file.filename().c_str(), i, page.error().message.c_str());
                ++wrong;
            }
        }
    }
    std::printf("%d damaged files:", count);
    for (const auto& [end, n] : ends) std::printf("  %s %d", end.c_str(), n);
    std::printf("; the worker was ended by the system for %d; %d wrong\n", ended_by_the_system, wrong);
    return wrong == 0 ? 0 : 1;
}
