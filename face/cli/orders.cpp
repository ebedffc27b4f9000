#include "face/cli/orders.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <thread>
#include <vector>

namespace hw::cli {

namespace {

namespace fs = std::filesystem;
constexpr std::size_t longest = 400;

bool ends(const std::string& text, const std::string& with) { return text.size() > with.size() && text.compare(text.size() - with.size(), with.size(), with) == 0; }

/// An ordinary file of this account or the administrator's, read whole; no link is followed.
std::string read_order(const fs::path& file) {
    const int fd = ::open(file.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    if (fd < 0) return {};
    struct stat about {};
    std::string text(longest + 1, '\0');
    const bool ours = ::fstat(fd, &about) == 0 && S_ISREG(about.st_mode) && (about.st_uid == ::geteuid() || about.st_uid == 0);
    const ssize_t n = ours ? ::read(fd, text.data(), text.size()) : 0;
    ::close(fd);
    text.resize(n > 0 && static_cast<std::size_t>(n) <= longest ? static_cast<std::size_t>(n) : 0);
    return text;
}

}  // namespace

Result<Done> place_order(const std::string& folder, const std::string& order) {
    const fs::path orders = fs::path(folder) / "orders";
    std::error_code fault;
    fs::create_directories(orders, fault);
    fs::permissions(orders, fs::perms::owner_all, fault);
    std::string name = (orders / "XXXXXX").string();
    const int fd = ::mkstemp(name.data());
    const Error no{ErrorCode::Unavailable, "The folder " + orders.string() + " cannot be written. Run this as the account that runs the program.", "data"};
    if (fd < 0) return no;
    const bool written = ::write(fd, order.data(), order.size()) == static_cast<ssize_t>(order.size());
    ::close(fd);
    const fs::path file = name + ".order", refusal = name + ".refused";
    fs::rename(name, file, fault);
    if (!written || fault) return no;
    constexpr int patience = 100;
    for (int i = 0; i < patience && fs::exists(file); ++i) std::this_thread::sleep_for(std::chrono::milliseconds(100));
    if (fs::remove(file, fault)) return Error{ErrorCode::Unavailable, "The program that has the records open did not take the order within 10 s. Look at its log.", "data"};
    if (!fs::exists(refusal)) return Done{};
    std::ifstream in(refusal);
    std::string why;
    std::getline(in, why);
    fs::remove(refusal, fault);
    return Error{ErrorCode::Unavailable, why, ""};
}

void carry_out_orders(const std::string& folder, const std::function<Result<Done>(const std::string&)>& carry_out) {
    std::error_code fault;
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(fs::path(folder) / "orders", fault))
        if (ends(entry.path().filename().string(), ".order")) files.push_back(entry.path());
    std::sort(files.begin(), files.end(), [&](const fs::path& a, const fs::path& b) { return fs::last_write_time(a, fault) < fs::last_write_time(b, fault); });
    for (const auto& file : files) {
        const std::string order = read_order(file);
        const auto done = order.empty() ? Result<Done>(Error{ErrorCode::InvalidInput, "This is no order.", ""}) : carry_out(order);
        if (!done.ok()) {
            fs::path refusal = file;
            std::ofstream(refusal.replace_extension(".refused")) << done.error().message << "\n";
        }
        fs::remove(file, fault);
    }
}

}  // namespace hw::cli
