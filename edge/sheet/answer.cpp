#include "edge/sheet/answer.hpp"

#include <cmath>
#include <cstring>
#include <string>

namespace hw::sheet_reader {

namespace {

/// Takes values off the front of the bytes; once something is missing it gives nothing any more.
class Taker {
public:
    explicit Taker(std::string_view bytes) : left_(bytes) {}

    template <class T>
    T value() {
        T out{};
        const std::string_view bytes = text(sizeof out);
        if (ok_) std::memcpy(&out, bytes.data(), sizeof out);
        return out;
    }
    std::string_view text(std::size_t size) {
        ok_ = ok_ && size <= left_.size();
        if (!ok_) return {};
        const std::string_view out = left_.substr(0, size);
        left_.remove_prefix(size);
        return out;
    }
    [[nodiscard]] bool ok() const { return ok_; }
    [[nodiscard]] bool empty() const { return left_.empty(); }
    [[nodiscard]] std::size_t size() const { return left_.size(); }

private:
    std::string_view left_;
    bool ok_ = true;
};

/// Well-formed UTF-8 without control characters (RFC 3629, section 4).
bool is_text(std::string_view text) {
    for (std::size_t i = 0; i < text.size();) {
        const auto byte = [&](std::size_t at) { return at < text.size() ? static_cast<unsigned char>(text[at]) : 0U; };
        const unsigned c = byte(i);
        const std::size_t more = c < 0x80 ? 0 : c >= 0xC2 && c < 0xE0 ? 1 : c >= 0xE0 && c < 0xF0 ? 2 : c >= 0xF0 && c < 0xF5 ? 3 : 9;
        if (more == 9 || (more == 0 && (c < 0x20 || c == 0x7F))) return false;
        for (std::size_t k = 1; k <= more; ++k)
            if ((byte(i + k) & 0xC0) != 0x80) return false;
        if ((c == 0xE0 && byte(i + 1) < 0xA0) || (c == 0xED && byte(i + 1) > 0x9F) || (c == 0xF0 && byte(i + 1) < 0x90) || (c == 0xF4 && byte(i + 1) > 0x8F)) return false;
        i += more + 1;
    }
    return true;
}

/// Blanks at the ends and inside, of every width, are the reader's affair: a word has none.
std::string without_blanks(std::string_view text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == ' ') continue;
        if (text.substr(i, 2) == "\u00A0") { ++i; continue; }
        out += text[i];
    }
    return out;
}

bool finite(double v) { return std::isfinite(v) && std::abs(v) <= 1e6; }

std::optional<sheet::Word> word_of(Taker& in, int page) {
    sheet::Word w;
    w.page = page;
    w.x0 = static_cast<double>(in.value<float>());
    w.y0 = static_cast<double>(in.value<float>());
    w.x1 = static_cast<double>(in.value<float>());
    w.y1 = static_cast<double>(in.value<float>());
    w.size_pt = static_cast<double>(in.value<float>());
    w.bold = in.value<std::uint8_t>() != 0;
    w.turned_deg = (in.value<std::uint8_t>() & 3) * 90;
    const std::string_view text = in.text(in.value<std::uint16_t>());
    const bool right = in.ok() && text.size() <= word_bytes_limit && is_text(text) && finite(w.x0) && finite(w.y0) && finite(w.x1) && finite(w.y1) && finite(w.size_pt);
    if (!right) return std::nullopt;
    w.text = without_blanks(text);
    return w;
}

}  // namespace

std::optional<AnswerHead> head_of(std::string_view answer) {
    AnswerHead head{};
    if (answer.size() < sizeof head) return std::nullopt;
    std::memcpy(&head, answer.data(), sizeof head);
    if (std::string_view(head.mark, sizeof head.mark) != answer_mark) return std::nullopt;
    if (head.refusal > static_cast<std::uint32_t>(Refusal::NotLockedIn)) return std::nullopt;
    if (head.body_bytes > body_bytes_limit || answer.size() != sizeof head + head.body_bytes) return std::nullopt;
    return head;
}

std::optional<desk::SheetContent> parse_words(const AnswerHead& head, std::string_view body) {
    if (head.pages < 1 || head.pages > pages_limit || head.attachments > attachments_limit) return std::nullopt;
    desk::SheetContent out;
    Taker in(body);
    std::uint32_t words = 0;
    for (std::uint32_t p = 1; p <= head.pages; ++p) {
        sheet::Page page;
        page.width = in.value<double>();
        page.height = in.value<double>();
        const auto count = in.value<std::uint32_t>();
        words += count <= words_limit ? count : words_limit + 1;
        if (!in.ok() || words > words_limit || !finite(page.width) || !finite(page.height)) return std::nullopt;
        for (std::uint32_t i = 0; i < count; ++i) {
            auto word = word_of(in, static_cast<int>(p));
            if (!word) return std::nullopt;
            if (!word->text.empty()) page.words.push_back(std::move(*word));
        }
        out.document.pages.push_back(std::move(page));
    }
    for (std::uint32_t i = 0; i < head.attachments; ++i) {
        desk::SheetAttachment file;
        const std::string_view name = in.text(in.value<std::uint16_t>());
        const auto size = in.value<std::uint32_t>();
        const std::string_view bytes = size <= attachment_bytes_limit ? in.text(size) : std::string_view{};
        if (!in.ok() || size > attachment_bytes_limit) return std::nullopt;
        file.name = is_text(name) ? std::string(name) : "attachment.xml";
        file.bytes = std::string(bytes);
        out.attachments.push_back(std::move(file));
    }
    return in.empty() ? std::optional(std::move(out)) : std::nullopt;
}

bool is_picture(std::string_view body) {
    constexpr std::string_view begins("\x89PNG\r\n\x1a\n\0\0\0\rIHDR", 16);
    if (body.size() < 33 || body.substr(0, begins.size()) != begins) return false;
    const auto number = [&](std::size_t at) {
        std::uint32_t out = 0;
        for (std::size_t k = 0; k < 4; ++k) out = out << 8 | static_cast<unsigned char>(body[at + k]);
        return out;
    };
    // A pixel of rounding over the limit.
    const auto fits = [](std::uint32_t side) { return side >= 1 && side <= picture_px_limit + 1; };
    return fits(number(16)) && fits(number(20));
}

}  // namespace hw::sheet_reader
