// The data sheets in memory, and a reader that takes lines of text for a sheet: for tests of what is around them.
#pragma once

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <map>
#include <string>
#include <vector>

#include "desk/digest.hpp"
#include "desk/ports.hpp"

namespace hw::test {

/// A page of lines as words with boxes: ten points high, six wide a letter; a tab goes to the next column.
inline sheet::Document document_of(const std::vector<std::vector<std::string>>& pages) {
    sheet::Document out;
    for (const auto& lines : pages) {
        sheet::Page page{595, 842, {}};
        double y = 40;
        for (std::string line : lines) {
            const bool bold = !line.empty() && (line[0] == '*' || line[0] == '#');
            if (bold) line.erase(0, 1);
            double x = 50, column = 50;
            std::string word;
            const auto finish = [&] {
                if (word.empty()) return;
                const double end = x + 6.0 * static_cast<double>(word.size());
                page.words.push_back({x, y, end, y + 10, static_cast<int>(out.pages.size()) + 1, word, 10, bold, 0});
                x = end + 3;
                word.clear();
            };
            for (const char c : line) {
                if (c == ' ' || c == '\t') finish();
                if (c == '\t') x = column += 140;
                if (c != ' ' && c != '\t') word += c == '\xb0' ? std::string("\u00b0") : std::string(1, c);
            }
            finish();
            y += 14;
        }
        out.pages.push_back(std::move(page));
    }
    return out;
}

/// Takes for a sheet what begins with "SHEET" and gives `content`; "SHEET BAD" cannot be read, "SHEET BUSY" not now.
class PlainSheetReader : public desk::SheetReader {
public:
    Result<desk::SheetContent> read(std::string_view bytes) override {
        if (bytes.substr(0, 9) == "SHEET BAD" || bytes.substr(0, 5) != "SHEET") return Error{ErrorCode::InvalidInput, "The file is damaged.", "sheet.damaged"};
        if (bytes.substr(0, 10) == "SHEET BUSY") return Error{ErrorCode::Unavailable, "Try again in a moment.", "sheet"};
        ++read_count;
        return content;
    }
    Result<std::string> page(std::string_view, int number, int dpi) override {
        if (number < 1 || number > static_cast<int>(content.document.pages.size())) return Error{ErrorCode::NotFound, "There is no such page.", "page"};
        return "page " + std::to_string(number) + " at " + std::to_string(dpi);
    }
    desk::SheetContent content;
    int read_count = 0;
};

class MemorySheets : public desk::Sheets {
public:
    /// As long as a real one; FNV-1a is enough to tell a test's files apart.
    std::string id_of(std::string_view bytes) override {
        std::uint64_t h = 1469598103934665603ULL;
        for (const char c : bytes) h = (h ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
        char text[17];
        std::snprintf(text, sizeof text, "%016llx", static_cast<unsigned long long>(h));
        return std::string(48, '0') + text;
    }
    Result<Done> keep(const desk::DigestAnswer& reading, const desk::SheetRow& row, std::string_view bytes) override {
        if (kept_.emplace(row.id, Kept{reading, row, std::string(bytes)}).second) order_.push_back(row.id);
        return Done{};
    }
    Result<desk::DigestAnswer> reading(const std::string& id) override {
        HW_TRY(found, find(id));
        return found->reading;
    }
    Result<std::string> file(const std::string& id) override {
        HW_TRY(found, find(id));
        return found->bytes;
    }
    Result<std::vector<desk::SheetRow>> sheets(const desk::Page& page) override {
        std::vector<desk::SheetRow> out;
        bool begun = page.after.empty();
        for (auto id = order_.rbegin(); id != order_.rend() && static_cast<int>(out.size()) < page.limit; ++id) {
            if (begun) out.push_back(kept_.at(*id).row);
            begun = begun || *id == page.after;
        }
        return out;
    }
    Result<desk::SheetRow> row(const std::string& id) override {
        HW_TRY(found, find(id));
        return found->row;
    }
    Result<Done> keep_row(const desk::SheetRow& row) override {
        HW_TRY(found, find(row.id));
        const auto arrived = found->row.arrived_at, name = found->row.name;
        found->row = row;
        found->row.arrived_at = arrived;
        found->row.name = name;
        return Done{};
    }
    Result<std::vector<desk::SheetCorrection>> corrections(const std::string& sheet) override {
        std::vector<desk::SheetCorrection> out;
        for (const auto& c : said_)
            if (c.sheet == sheet) out.push_back(c);
        return out;
    }
    Result<Done> append(const desk::SheetCorrection& c) override {
        for (const auto& same : said_)
            if (same.id == c.id) {
                if (same.sheet == c.sheet && same.key == c.key && same.value == c.value && same.how == c.how) return Done{};
                return Error{ErrorCode::Conflict, "This id was used for another correction.", "id"};
            }
        said_.push_back(c);
        return Done{};
    }

private:
    struct Kept {
        desk::DigestAnswer reading;
        desk::SheetRow row;
        std::string bytes;
    };
    Result<Kept*> find(const std::string& id) {
        const auto it = kept_.find(id);
        if (it == kept_.end()) return Error{ErrorCode::NotFound, "There is no data sheet \"" + id.substr(0, 64) + "\".", "sheet"};
        return &it->second;
    }
    std::map<std::string, Kept> kept_;
    std::vector<std::string> order_;
    std::vector<desk::SheetCorrection> said_;
};

}  // namespace hw::test
