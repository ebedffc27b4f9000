// Pieces and meters in memory: for tests.
#pragma once

#include <algorithm>
#include <cstdio>
#include <map>
#include <string>
#include <vector>

#include "desk/meters.hpp"
#include "desk/ports.hpp"
#include "edge/codec/codec.hpp"

namespace hw::test {

class MemoryJournal : public desk::Journal {
public:
    Result<std::vector<desk::KeptEntry>> entries(const std::string& piece) override {
        std::vector<desk::KeptEntry> out;
        for (const auto& [of, k] : entries_)
            if (of == piece) out.push_back(k);
        if (out.empty()) return Error{ErrorCode::NotFound, "There is no piece \"" + piece + "\".", "piece"};
        return out;
    }
    Result<int> append(const desk::PieceRow& row, const std::vector<desk::KeptEntry>& given) override {
        auto all = entries_;
        for (desk::KeptEntry k : given) {
            if (k.entry.id.empty()) k.entry.id = new_id();
            const auto it = std::find_if(all.begin(), all.end(), [&](const auto& e) { return e.second.entry.id == k.entry.id; });
            if (it != all.end()) {
                if (it->first != row.id || body(it->second.entry) != body(k.entry)) return Error{ErrorCode::Conflict, "The id \"" + k.entry.id + "\" was used for another entry.", "id"};
                continue;
            }
            k.number = static_cast<int>(all.size()) + 1;
            all.push_back({row.id, k});
        }
        entries_ = std::move(all);
        rows_[row.id] = row;
        rows_[row.id].entries = static_cast<int>(std::count_if(entries_.begin(), entries_.end(), [&](const auto& e) { return e.first == row.id; }));
        int last = 0;
        for (const auto& [of, k] : entries_)
            if (of == row.id) last = k.number;
        return last;
    }
    /// The store in memory has no bin for pieces: nothing is ever away.
    Result<bool> is_away(const std::string&) override { return false; }
    Result<std::vector<desk::PieceRow>> pieces(const desk::Page& page) override {
        std::vector<desk::PieceRow> out;
        for (auto it = rows_.rbegin(); it != rows_.rend(); ++it)
            if ((page.after.empty() || it->first < page.after) && out.size() < rows_of(page)) out.push_back(it->second);
        return out;
    }
    Result<std::vector<desk::PieceRow>> pieces_with_spots() override {
        std::vector<desk::PieceRow> out;
        for (auto it = rows_.rbegin(); it != rows_.rend(); ++it)
            if (std::any_of(entries_.begin(), entries_.end(), [&](const auto& e) { return e.first == it->first && e.second.entry.did == desk::Did::SpotMade; })) out.push_back(it->second);
        return out;
    }
    Result<std::string> keep_instrument(const desk::Instrument& given) override {
        desk::Instrument i = given;
        if (i.id.empty()) i.id = new_id();
        instruments_[i.id] = i;
        return i.id;
    }
    Result<std::vector<desk::Instrument>> instruments(const desk::Page& page) override {
        std::vector<desk::Instrument> out;
        for (const auto& [id, i] : instruments_)
            if (id > page.after && out.size() < rows_of(page)) out.push_back(i);
        return out;
    }
    Result<std::string> keep_calibration(const desk::Calibration& given) override {
        desk::Calibration c = given;
        if (c.id.empty()) c.id = new_id();
        if (!instruments_.count(c.instrument)) return Error{ErrorCode::NotFound, "There is no meter \"" + c.instrument + "\".", "instrument"};
        calibrations_.emplace(c.id, c);
        return c.id;
    }
    Result<std::vector<desk::Calibration>> calibrations(const std::string& instrument) override {
        std::vector<desk::Calibration> out;
        for (const auto& [id, c] : calibrations_)
            if (c.instrument == instrument) out.push_back(c);
        std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
        return out;
    }
    std::string new_id() override {
        char text[40];
        std::snprintf(text, sizeof text, "00000000-0000-7000-8000-%012x", ++count_);
        return text;
    }

private:
    static std::size_t rows_of(const desk::Page& page) { return static_cast<std::size_t>(std::clamp(page.limit, 1, 200)); }
    static std::string body(desk::Entry e) {
        e.by.clear();
        return codec::written(e);
    }
    std::vector<std::pair<std::string, desk::KeptEntry>> entries_;
    std::map<std::string, desk::PieceRow> rows_;
    std::map<std::string, desk::Instrument> instruments_;
    std::map<std::string, desk::Calibration> calibrations_;
    unsigned count_ = 0;
};

}  // namespace hw::test
