#include "edge/http/pages.hpp"

#include <array>
#include <cstdint>
#include <cstdio>
#include <map>
#include <string>
#include <utility>

#include "embedded/web.hpp"

namespace hw::http {

namespace {

bool ends(std::string_view text, std::string_view with) { return text.size() >= with.size() && text.substr(text.size() - with.size()) == with; }

std::string_view type_of(std::string_view path) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 9> types{{{".html", "text/html; charset=utf-8"},
                                                                                 {".js", "text/javascript; charset=utf-8"},
                                                                                 {".css", "text/css; charset=utf-8"},
                                                                                 {".txt", "text/plain; charset=utf-8"},
                                                                                 {".svg", "image/svg+xml"},
                                                                                 {".png", "image/png"},
                                                                                 {".woff2", "font/woff2"},
                                                                                 {".json", "application/json"},
                                                                                 {".webmanifest", "application/manifest+json"}}};
    for (const auto& [ending, type] : types)
        if (ends(path, ending)) return type;
    return "application/octet-stream";
}

/// FNV-1a: tells one build's file from another's; nothing is guarded by it.
std::string hash_of(std::string_view bytes) {
    std::uint64_t h = 1469598103934665603ULL;
    for (char c : bytes) h = (h ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
    char text[24];
    std::snprintf(text, sizeof text, "%016llx", static_cast<unsigned long long>(h));
    return text;
}

struct Page {
    std::string type, hash;
    std::string_view text, packed;
    bool lasting;
};

std::map<std::string_view, Page> all_pages() {
    std::map<std::string_view, Page> out;
    for (const auto& f : embedded::web)
        // The bundler puts a hash of the content into the names under assets/.
        out[f.path] = {std::string(type_of(f.path)), hash_of(f.text), f.text, f.gzip.size() < f.text.size() ? f.gzip : std::string_view{}, f.path.substr(0, 7) == "assets/"};
    return out;
}

}  // namespace

std::optional<Reply> page(std::string_view path, bool gzip) {
    static const std::map<std::string_view, Page> pages = all_pages();
    auto found = pages.find(path.substr(1));
    if (found == pages.end() && path.find('.') == std::string_view::npos) found = pages.find("index.html");
    if (found == pages.end()) return std::nullopt;
    const Page& p = found->second;
    const bool packed = gzip && !p.packed.empty();
    Reply r;
    r.type = p.type;
    r.still = packed ? p.packed : p.text;
    r.tag = "\"" + p.hash + (packed ? "-gzip\"" : "\"");
    if (packed) r.encoding = "gzip";
    r.lasting = p.lasting;
    return r;
}

}  // namespace hw::http
