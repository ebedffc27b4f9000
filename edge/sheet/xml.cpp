#include "edge/sheet/xml.hpp"

#include <algorithm>
#include <cctype>
#include <cstdint>
#include <map>
#include <optional>

namespace hw::sheet_reader {

namespace {

constexpr int depth_limit = 64;
constexpr int elements_limit = 200'000;
constexpr std::size_t attributes_limit = 64;
// Namespaces: how many one element and the whole file may declare, and how long a name may be, since each element below holds a copy.
// A data sheet declares two or three, of some thirty letters.
constexpr std::size_t spaces_limit = 32, all_spaces_limit = 500, space_bytes_limit = 256;

bool blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

/// Letters that may stand in a name; those beyond ASCII are let through, they do no harm here.
bool in_name(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '-' || c == '.' || c == ':' || static_cast<unsigned char>(c) >= 0x80; }

void put_character(std::string& out, std::uint32_t c) {
    if (c < 0x80) out += static_cast<char>(c);
    else if (c < 0x800) { out += static_cast<char>(0xC0 | c >> 6); out += static_cast<char>(0x80 | (c & 0x3F)); }
    else if (c < 0x10000) { out += static_cast<char>(0xE0 | c >> 12); out += static_cast<char>(0x80 | (c >> 6 & 0x3F)); out += static_cast<char>(0x80 | (c & 0x3F)); }
    else { out += static_cast<char>(0xF0 | c >> 18); out += static_cast<char>(0x80 | (c >> 12 & 0x3F)); out += static_cast<char>(0x80 | (c >> 6 & 0x3F)); out += static_cast<char>(0x80 | (c & 0x3F)); }
}

bool is_character(std::uint32_t c) { return c == 0x9 || c == 0xA || c == 0xD || (c >= 0x20 && c <= 0xD7FF) || (c >= 0xE000 && c <= 0xFFFD) || (c >= 0x10000 && c <= 0x10FFFF); }

using Spaces = std::map<std::string, std::string>;

class Parser {
public:
    explicit Parser(std::string_view bytes) : left_(bytes) {}

    std::optional<XmlElement> document() {
        if (left_.substr(0, 3) == "\xEF\xBB\xBF") left_.remove_prefix(3);
        if (!declaration() || !between()) return std::nullopt;
        XmlElement root;
        if (!element(root, Spaces{}, 0) || !between() || !left_.empty()) return std::nullopt;
        return root;
    }

private:
    bool takes(std::string_view what) {
        if (left_.substr(0, what.size()) != what) return false;
        left_.remove_prefix(what.size());
        return true;
    }
    void blanks() {
        while (!left_.empty() && blank(left_[0])) left_.remove_prefix(1);
    }
    /// Everything before `end`, and past it.
    std::optional<std::string_view> until(std::string_view end) {
        const auto at = left_.find(end);
        if (at == std::string_view::npos) return std::nullopt;
        const std::string_view out = left_.substr(0, at);
        left_.remove_prefix(at + end.size());
        return out;
    }

    bool declaration() {
        if (!takes("<?xml")) return true;
        const auto text = until("?>");
        if (!text) return false;
        const auto at = text->find("encoding");
        if (at == std::string_view::npos) return true;
        std::string name;
        for (const char c : text->substr(at + 8))
            if (std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-') name += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
            else if (!name.empty()) break;
        return name == "utf-8" || name == "us-ascii" || name == "ascii";
    }

    /// Blanks, comments and instructions outside of elements. A document type is refused by not being taken.
    bool between() {
        for (;;) {
            blanks();
            if (takes("<!--")) { if (!until("-->")) return false; }
            else if (takes("<?")) { if (!until("?>")) return false; }
            else return true;
        }
    }

    std::string_view name() {
        std::size_t n = 0;
        while (n < left_.size() && in_name(left_[n])) ++n;
        const std::string_view out = left_.substr(0, n);
        left_.remove_prefix(n);
        return out;
    }

    /// Text with its references replaced.
    static bool put_text(std::string& out, std::string_view text) {
        constexpr std::pair<std::string_view, char> named[] = {{"lt", '<'}, {"gt", '>'}, {"amp", '&'}, {"quot", '"'}, {"apos", '\''}};
        for (std::size_t i = 0; i < text.size(); ++i) {
            const auto c = static_cast<unsigned char>(text[i]);
            if (c < 0x20 && !blank(text[i])) return false;
            if (c != '&') { out += text[i]; continue; }
            const auto end = text.find(';', i);
            if (end == std::string_view::npos || end - i > 12) return false;
            const std::string_view what = text.substr(i + 1, end - i - 1);
            const auto* known = std::find_if(std::begin(named), std::end(named), [&](const auto& n) { return n.first == what; });
            if (known != std::end(named)) out += known->second;
            else if (!put_numbered(out, what)) return false;
            i = end;
        }
        return true;
    }
    static bool put_numbered(std::string& out, std::string_view what) {
        if (what.size() < 2 || what[0] != '#') return false;
        const bool hex = what[1] == 'x';
        std::uint32_t c = 0;
        const std::string_view digits = what.substr(hex ? 2 : 1);
        if (digits.empty() || digits.size() > 8) return false;
        for (const char d : digits) {
            const int v = d >= '0' && d <= '9' ? d - '0' : hex && d >= 'a' && d <= 'f' ? d - 'a' + 10 : hex && d >= 'A' && d <= 'F' ? d - 'A' + 10 : -1;
            if (v < 0) return false;
            c = c * (hex ? 16U : 10U) + static_cast<std::uint32_t>(v);
            if (c > 0x10FFFF) return false;
        }
        if (!is_character(c)) return false;
        put_character(out, c);
        return true;
    }

    /// Attributes of a tag, up to its end. Namespaces that it declares go into `declared`.
    bool attributes(XmlElement& e, Spaces& declared) {
        std::size_t count = 0;
        for (;;) {
            blanks();
            if (left_.empty() || left_[0] == '>' || left_[0] == '/') return true;
            const std::string key(name());
            if (key.empty() || ++count > attributes_limit) return false;
            blanks();
            if (!takes("=")) return false;
            blanks();
            const char quote = left_.empty() ? ' ' : left_[0];
            if (quote != '"' && quote != '\'') return false;
            left_.remove_prefix(1);
            const auto raw = until(std::string_view(&quote, 1));
            std::string value;
            if (!raw || raw->find('<') != std::string_view::npos || !put_text(value, *raw)) return false;
            const bool space = key == "xmlns" || key.rfind("xmlns:", 0) == 0;
            if (space && (value.size() > space_bytes_limit || key.size() > space_bytes_limit || declared.size() == spaces_limit || ++spaces_ > all_spaces_limit)) return false;
            if (space) declared[key == "xmlns" ? "" : key.substr(6)] = value;
            else if (key.find(':') == std::string::npos) e.attributes.emplace_back(key, value);
        }
    }

    bool element(XmlElement& e, const Spaces& around, int depth) {
        if (depth > depth_limit || ++elements_ > elements_limit || !takes("<")) return false;
        const std::string full(name());
        if (full.empty() || full[0] == '-' || full[0] == '.' || std::isdigit(static_cast<unsigned char>(full[0])) != 0) return false;
        Spaces spaces;
        if (!attributes(e, spaces)) return false;
        // Most elements declare nothing and look at what stands around them.
        const bool own = !spaces.empty();
        if (own) spaces.insert(around.begin(), around.end());
        return named(e, full, own ? spaces : around, depth);
    }

    /// What follows the attributes.
    bool named(XmlElement& e, const std::string& full, const Spaces& spaces, int depth) {
        const auto colon = full.find(':');
        e.name = colon == std::string::npos ? full : full.substr(colon + 1);
        const auto space = spaces.find(colon == std::string::npos ? "" : full.substr(0, colon));
        if (space != spaces.end()) e.space = space->second;
        else if (colon != std::string::npos) return false;
        if (takes("/>")) return true;
        if (!takes(">")) return false;
        if (!content(e, spaces, depth)) return false;
        if (name() != full) return false;
        blanks();
        return takes(">");
    }

    /// Up to and past "</".
    bool content(XmlElement& e, const Spaces& spaces, int depth) {
        std::string text;
        for (;;) {
            if (left_.empty()) return false;
            if (takes("</")) break;
            if (takes("<!--")) { if (!until("-->")) return false; }
            else if (takes("<![CDATA[")) {
                const auto raw = until("]]>");
                if (!raw) return false;
                text += *raw;
            } else if (takes("<?")) { if (!until("?>")) return false; }
            else if (left_[0] == '<') {
                e.children.emplace_back();
                if (!element(e.children.back(), spaces, depth + 1)) return false;
            } else {
                const std::string_view raw = left_.substr(0, left_.find('<'));
                left_.remove_prefix(raw.size());
                if (!put_text(text, raw)) return false;
            }
        }
        const auto from = text.find_first_not_of(" \t\r\n"), to = text.find_last_not_of(" \t\r\n");
        if (from != std::string::npos) e.text = text.substr(from, to - from + 1);
        return true;
    }

    std::string_view left_;
    int elements_ = 0;
    std::size_t spaces_ = 0;
};

}  // namespace

const XmlElement* XmlElement::child(std::string_view child_name) const {
    const auto found = std::find_if(children.begin(), children.end(), [&](const XmlElement& c) { return c.name == child_name; });
    return found == children.end() ? nullptr : &*found;
}

const XmlElement* XmlElement::at(std::initializer_list<std::string_view> path) const {
    const XmlElement* here = this;
    for (const auto step : path) {
        if (here == nullptr) return nullptr;
        here = here->child(step);
    }
    return here;
}

std::string_view XmlElement::attribute(std::string_view attribute_name) const {
    for (const auto& [key, value] : attributes)
        if (key == attribute_name) return value;
    return {};
}

Result<XmlElement> parse_xml(std::string_view bytes) {
    auto root = Parser(bytes).document();
    if (!root) return Error{ErrorCode::InvalidInput, "The attached XML is not well formed, has a document type, or is not in UTF-8.", "xml"};
    return std::move(*root);
}

}  // namespace hw::sheet_reader
