#include "face/cli/sheets.hpp"

#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>

#include "edge/codec/codec.hpp"

namespace hw::cli {

store::SheetSerialiser sheets_as_json() {
    return {[](const desk::DigestAnswer& v) { return codec::written(v); }, codec::parse_digest_answer};
}

Result<desk::DigestRequest> digest_request(const std::string& file) {
    desk::DigestRequest out;
    if (file == "-") {
        out.name = "standard input";
        out.bytes = std::string(std::istreambuf_iterator<char>(std::cin), {});
        return out;
    }
    std::error_code fault;
    const auto size = std::filesystem::file_size(file, fault);
    if (fault) return Error{ErrorCode::NotFound, "The file " + file + " cannot be read.", "file"};
    if (size > static_cast<std::uintmax_t>(desk::sheet_bytes_limit))
        return Error{ErrorCode::OutOfRange, "The file is larger than 20 MB. Data sheets are small: print it into a new PDF without its pictures.", "sheet.too_large"};
    std::ifstream in(file, std::ios::binary);
    out.bytes = std::string(std::istreambuf_iterator<char>(in), {});
    out.name = std::filesystem::path(file).filename().string();
    return out;
}

Result<std::string> whole_id(const std::string& begins, desk::Sheets& sheets) {
    constexpr int page = 200;
    std::string found;
    for (std::string after;;) {
        HW_TRY(rows, sheets.sheets({after, page}));
        for (const auto& row : rows)
            if (row.id.rfind(begins, 0) == 0) {
                if (!found.empty()) return Error{ErrorCode::NotFound, "More than one sheet begins with \"" + begins + "\". Give more of its id.", "sheet"};
                found = row.id;
            }
        if (static_cast<int>(rows.size()) < page) break;
        after = rows.back().id;
    }
    if (found.empty()) return Error{ErrorCode::NotFound, "No sheet begins with \"" + begins + "\". hidewright sheets lists them.", "sheet"};
    return found;
}

std::string line_of(const desk::SheetRow& r) {
    std::string out = r.id.substr(0, 12) + "  " + r.arrived_at.substr(0, 10) + "  " + (r.product.empty() ? r.name : r.product);
    if (r.contradictions > 0) out += "  ! contradicts itself";
    if (r.to_look > 0) out += "  " + std::to_string(r.to_look) + " to look at";
    if (!r.liquid.empty()) out += "  on the shelf";
    return out;
}

}  // namespace hw::cli
