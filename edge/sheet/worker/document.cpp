#include "edge/sheet/worker/document.hpp"

#include <png.h>
#include <poppler-document.h>
#include <poppler-embedded-file.h>
#include <poppler-image.h>
#include <poppler-page-renderer.h>
#include <poppler-page.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <limits>
#include <memory>
#include <string>
#include <vector>

#include "edge/sheet/worker/answer.hpp"

namespace hw::sheet_reader {

namespace {

void silent(const std::string&, void*) {}

std::unique_ptr<poppler::document> opened(std::string_view bytes) {
    if (bytes.size() > static_cast<std::size_t>(std::numeric_limits<int>::max())) return nullptr;
    return std::unique_ptr<poppler::document>(poppler::document::load_from_raw_data(bytes.data(), static_cast<int>(bytes.size())));
}

/// The document, once it may be read.
std::unique_ptr<poppler::document> readable(std::string_view bytes) {
    auto document = opened(bytes);
    if (document == nullptr) refuse(Refusal::Damaged);
    if (document->is_locked()) refuse(Refusal::Locked);
    const int pages = document->pages();
    if (pages <= 0) refuse(Refusal::Damaged);
    if (static_cast<std::uint32_t>(pages) > pages_limit) refuse(Refusal::TooManyPages, static_cast<std::uint32_t>(pages));
    return document;
}

/// UTF-16 of any form of trouble to UTF-8: what is no character becomes the replacement character.
std::string utf8_of(const poppler::ustring& text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        std::uint32_t c = text[i];
        const bool high = c >= 0xD800 && c < 0xDC00, low = c >= 0xDC00 && c < 0xE000;
        if (high && i + 1 < text.size() && text[i + 1] >= 0xDC00 && text[i + 1] < 0xE000) c = 0x10000 + ((c - 0xD800) << 10) + (text[++i] - 0xDC00U);
        else if (high || low) c = 0xFFFD;
        if (c < 0x20 || c == 0x7F) c = ' ';
        if (c < 0x80) out += static_cast<char>(c);
        else if (c < 0x800) { out += static_cast<char>(0xC0 | c >> 6); out += static_cast<char>(0x80 | (c & 0x3F)); }
        else if (c < 0x10000) { out += static_cast<char>(0xE0 | c >> 12); out += static_cast<char>(0x80 | (c >> 6 & 0x3F)); out += static_cast<char>(0x80 | (c & 0x3F)); }
        else { out += static_cast<char>(0xF0 | c >> 18); out += static_cast<char>(0x80 | (c >> 12 & 0x3F)); out += static_cast<char>(0x80 | (c >> 6 & 0x3F)); out += static_cast<char>(0x80 | (c & 0x3F)); }
    }
    return out;
}

struct Box {
    double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
};
struct Sheet {
    double width = 0, height = 0;
    int turn = 0;  ///< quarter turns clockwise of most of its text, beyond what the page itself says
    std::vector<poppler::text_box> words;
};

/// A page as its own entry turns it, and how its text lies on it.
Sheet sheet_of(const poppler::page& page) {
    Sheet out;
    const poppler::rectf box = page.page_rect();
    const bool side = page.orientation() == poppler::page::landscape || page.orientation() == poppler::page::seascape;
    out.width = side ? box.height() : box.width();
    out.height = side ? box.width() : box.height();
    out.words = page.text_list(poppler::page::text_list_include_font);
    std::array<std::size_t, 4> letters{};
    for (const auto& word : out.words) letters[static_cast<std::size_t>(word.rotation() & 3)] += word.text().size();
    out.turn = static_cast<int>(std::max_element(letters.begin(), letters.end()) - letters.begin());
    return out;
}

/// Where a box lies once the page is turned so that most of it reads upright.
Box upright(const Sheet& sheet, const poppler::rectf& r) {
    const double x0 = r.left(), y0 = r.top(), x1 = r.right(), y1 = r.bottom(), w = sheet.width, h = sheet.height;
    switch (sheet.turn) {
        case 1: return {y0, w - x1, y1, w - x0};
        case 2: return {w - x1, h - y1, w - x0, h - y0};
        case 3: return {h - y1, x0, h - y0, x1};
        default: return {x0, y0, x1, y1};
    }
}

template <class T>
void put(std::string& out, T value) {
    char bytes[sizeof value];
    std::memcpy(bytes, &value, sizeof value);
    out.append(bytes, sizeof value);
}

float within(double value) {
    constexpr double most = 1e6;  // points; nonsense of the file stays finite
    return std::isfinite(value) ? static_cast<float>(std::clamp(value, -most, most)) : 0.0F;
}

bool is_bold(const std::string& font) {
    std::string name;
    for (const char c : font) name += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    for (const char* word : {"bold", "black", "heavy", "demi"})
        if (name.find(word) != std::string::npos) return true;
    return false;
}

std::uint32_t put_page(std::string& out, const Sheet& sheet) {
    const bool side = sheet.turn % 2 == 1;
    put(out, static_cast<double>(within(side ? sheet.height : sheet.width)));
    put(out, static_cast<double>(within(side ? sheet.width : sheet.height)));
    const std::size_t count_at = out.size();
    std::uint32_t count = 0;
    put(out, count);
    for (const auto& word : sheet.words) {
        const std::string text = utf8_of(word.text());
        if (text.empty() || text.size() > word_bytes_limit) continue;
        const Box box = upright(sheet, word.bbox());
        for (const double v : {box.x0, box.y0, box.x1, box.y1}) put(out, within(v));
        put(out, word.has_font_info() ? within(word.get_font_size()) : 0.0F);
        put(out, static_cast<std::uint8_t>(word.has_font_info() && is_bold(word.get_font_name())));
        put(out, static_cast<std::uint8_t>((word.rotation() - sheet.turn) & 3));
        put(out, static_cast<std::uint16_t>(text.size()));
        out += text;
        ++count;
    }
    std::memcpy(out.data() + count_at, &count, sizeof count);
    return count;
}

bool ends(std::string text, std::string_view end) {
    for (char& c : text) c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    return text.size() >= end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0;
}

/// What XML the document carries, at most a few.
std::uint32_t put_attachments(std::string& out, const poppler::document& document) {
    if (!document.has_embedded_files()) return 0;
    std::uint32_t count = 0;
    for (poppler::embedded_file* file : document.embedded_files()) {
        if (count == attachments_limit || file == nullptr || !file->is_valid()) continue;
        const std::string name = file->name().substr(0, 255);
        if (!ends(name, ".xml") && !ends(file->mime_type(), "xml")) continue;
        const poppler::byte_array data = file->data();
        if (data.empty() || data.size() > attachment_bytes_limit) continue;
        put(out, static_cast<std::uint16_t>(name.size()));
        out += name;
        put(out, static_cast<std::uint32_t>(data.size()));
        out.append(data.data(), data.size());
        ++count;
    }
    return count;
}

/// A page of our own, in typefaces that it does not bring.
constexpr std::string_view sample = R"(%PDF-1.4
1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj
2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj
3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 60 60]/Contents 4 0 R/Resources<</Font<</F 5 0 R/G 6 0 R>>>>>>endobj
4 0 obj<</Length 61>>stream
BT /F 9 Tf 5 40 Td (Ab 1) Tj /G 9 Tf 0 -12 Td (Ab 1) Tj ET   
endstream endobj
5 0 obj<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>endobj
6 0 obj<</Type/Font/Subtype/TrueType/BaseFont/Arial-BoldMT>>endobj
trailer<</Root 1 0 R>>
)";

poppler::image drawn(const poppler::page& page, double dpi, poppler::rotation_enum turn) {
    poppler::page_renderer renderer;
    renderer.set_render_hint(poppler::page_renderer::antialiasing);
    renderer.set_render_hint(poppler::page_renderer::text_antialiasing);
    renderer.set_image_format(poppler::image::format_rgb24);
    return renderer.render_page(&page, dpi, dpi, -1, -1, -1, -1, turn);
}

std::string png_of(const poppler::image& image) {
    png_image png{};
    png.version = PNG_IMAGE_VERSION;
    png.width = static_cast<png_uint_32>(image.width());
    png.height = static_cast<png_uint_32>(image.height());
    png.format = PNG_FORMAT_RGB;
    png.flags = PNG_IMAGE_FLAG_FAST;
    png_alloc_size_t bytes = 0;
    if (png_image_write_to_memory(&png, nullptr, &bytes, 0, image.const_data(), image.bytes_per_row(), nullptr) == 0) refuse(Refusal::Damaged);
    std::string out(bytes, '\0');
    if (png_image_write_to_memory(&png, out.data(), &bytes, 0, image.const_data(), image.bytes_per_row(), nullptr) == 0) refuse(Refusal::Damaged);
    out.resize(bytes);
    return out;
}

}  // namespace

void warm_up(bool draws) {
    poppler::set_debug_error_function(silent, nullptr);
    // Kept until the end: the library drops what it has set up with the last document.
    static std::unique_ptr<poppler::document> kept;
    kept = opened(sample);
    if (kept == nullptr) return;
    const std::unique_ptr<poppler::page> page(kept->create_page(0));
    if (page == nullptr) return;
    if (draws) drawn(*page, 36, poppler::rotate_0);
}

void answer_words(std::string_view bytes) {
    const auto document = readable(bytes);
    const int pages = document->pages();
    std::string body;
    std::uint32_t words = 0;
    for (int i = 0; i < pages; ++i) {
        const std::unique_ptr<poppler::page> page(document->create_page(i));
        words += put_page(body, page != nullptr ? sheet_of(*page) : Sheet{});
        if (words > words_limit || body.size() > body_bytes_limit / 2) refuse(Refusal::TooManyWords, static_cast<std::uint32_t>(pages));
    }
    const std::uint32_t attachments = put_attachments(body, *document);
    answer(static_cast<std::uint32_t>(pages), attachments, body);
}

void answer_page(std::string_view bytes, std::uint32_t number, std::uint32_t dpi) {
    const auto document = readable(bytes);
    const auto pages = static_cast<std::uint32_t>(document->pages());
    if (number < 1 || number > pages) refuse(Refusal::NoSuchPage, pages);
    const std::unique_ptr<poppler::page> page(document->create_page(static_cast<int>(number - 1)));
    if (page == nullptr) refuse(Refusal::Damaged, pages);
    const Sheet sheet = sheet_of(*page);
    const double side = std::max(sheet.width, sheet.height);
    if (!(side > 0) || !(std::min(sheet.width, sheet.height) > 0)) refuse(Refusal::Damaged, pages);
    constexpr double points_per_inch = 72;
    const double fine = std::min(static_cast<double>(dpi), picture_px_limit * points_per_inch / side);
    constexpr poppler::rotation_enum back[4] = {poppler::rotate_0, poppler::rotate_270, poppler::rotate_180, poppler::rotate_90};
    const poppler::image image = drawn(*page, fine, back[sheet.turn]);
    if (!image.is_valid()) refuse(Refusal::Damaged, pages);
    answer(pages, 0, png_of(image));
}

}  // namespace hw::sheet_reader
