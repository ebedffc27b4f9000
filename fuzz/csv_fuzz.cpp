// Tables of foreign bytes: whatever is read is written and read back the same, and the guard against formulas is undone.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "base/csv.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto rows = hw::csv::parse({reinterpret_cast<const char*>(data), size});
    if (!rows.ok()) return 0;
    std::string again;
    for (const auto& row : *rows) {
        again += hw::csv::written(row.fields);
        for (const auto& field : row.fields)
            if (hw::csv::unguarded(hw::csv::guarded(field)) != field) std::abort();
    }
    if (again.size() > hw::csv::bytes_limit) return 0;
    const auto back = hw::csv::parse(again);
    if (!back.ok() || back->size() != rows->size()) std::abort();
    for (std::size_t i = 0; i < rows->size(); ++i)
        if ((*back)[i].fields != (*rows)[i].fields) std::abort();
    return 0;
}
