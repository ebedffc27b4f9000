// The shelf in memory, beside the store in memory: for tests.
#pragma once

#include <algorithm>
#include <cstdio>
#include <string>
#include <vector>

#include "desk/ports.hpp"
#include "desk/shelf.hpp"

namespace hw::test {

class MemoryShelf : public desk::ShelfLog {
public:
    explicit MemoryShelf(desk::Store& store) : store_(store) {}

    Result<std::vector<desk::KeptShelfEntry>> entries(const std::string& product) override {
        std::vector<desk::KeptShelfEntry> out;
        for (const auto& k : all_)
            if (product.empty() || k.entry.product == product) out.push_back(k);
        std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.entry.product < b.entry.product; });
        return out;
    }
    Result<Done> append(const std::vector<desk::KeptShelfEntry>& given, const std::vector<desk::Liquid>& liquids) override {
        auto all = all_;
        for (const auto& k : given) {
            const auto it = std::find_if(all.begin(), all.end(), [&](const auto& x) { return x.entry.id == k.entry.id; });
            if (it == all.end()) all.push_back(k);
            else if (!same(it->entry, k.entry)) return Error{ErrorCode::Conflict, "The id \"" + k.entry.id + "\" was used for another entry.", "id"};
        }
        for (const auto& l : liquids) {
            HW_TRY(kept, store_.keep_liquid(l));
            static_cast<void>(kept);
        }
        all_ = std::move(all);
        return Done{};
    }
    Result<std::vector<desk::ShelfName>> names() override {
        std::vector<desk::ShelfName> out;
        constexpr int page = 200;
        for (std::string after;;) {
            HW_TRY(rows, store_.liquids({after, page}));
            for (const auto& l : rows) out.push_back({l.id, l.name, false});
            if (static_cast<int>(rows.size()) < page) return out;
            after = rows.back().id;
        }
    }
    std::string new_id() override {
        char text[40];
        std::snprintf(text, sizeof text, "00000000-0000-7000-8000-%012x", ++count_);
        return text;
    }

private:
    static bool same(const desk::ShelfEntry& a, const desk::ShelfEntry& b) {
        return a.did == b.did && a.product == b.product && a.lot == b.lot && a.at == b.at && a.key == b.key && a.value == b.value && a.how == b.how && a.code == b.code && a.expiry == b.expiry && a.place == b.place && a.amount == b.amount &&
               a.piece == b.piece && a.sheet == b.sheet && a.person == b.person && a.takes_back == b.takes_back && a.note == b.note;
    }
    desk::Store& store_;
    std::vector<desk::KeptShelfEntry> all_;
    unsigned count_ = 0x100000;
};

}  // namespace hw::test
