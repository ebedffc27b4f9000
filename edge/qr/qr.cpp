#include "edge/qr/qr.hpp"

#include <qrencode.h>

#include <memory>

namespace hw::qr {

Result<std::vector<std::string>> SvgPainter::squares(std::string_view text) {
    const std::string whole(text);
    const std::unique_ptr<QRcode, void (*)(QRcode*)> code(QRcode_encodeString8bit(whole.c_str(), 0, QR_ECLEVEL_M), QRcode_free);
    if (!code) return Error{ErrorCode::InvalidInput, "This cannot be written as a code that a camera reads.", "text"};
    std::vector<std::string> out;
    for (int y = 0; y < code->width; ++y) {
        out.emplace_back();
        for (int x = 0; x < code->width; ++x) out.back() += (code->data[y * code->width + x] & 1) != 0 ? '1' : '0';
    }
    return out;
}

Result<std::string> SvgPainter::svg(std::string_view text) {
    HW_TRY(rows, squares(text));
    constexpr int quiet = 4;
    const int width = static_cast<int>(rows.size());
    const auto dark = [&](int x, int y) { return rows[static_cast<std::size_t>(y)][static_cast<std::size_t>(x)] == '1'; };
    const std::string side = std::to_string(width + 2 * quiet);
    std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + side + " " + side + "\" shape-rendering=\"crispEdges\"><path fill=\"#fff\" d=\"M0 0h" + side + "v" + side + "H0z\"/><path d=\"";
    // One stroke for each run of dark modules in a row.
    for (int y = 0; y < width; ++y)
        for (int x = 0; x < width;) {
            int run = 0;
            while (x + run < width && dark(x + run, y)) ++run;
            if (run > 0) out += "M" + std::to_string(x + quiet) + " " + std::to_string(y + quiet) + "h" + std::to_string(run) + "v1h-" + std::to_string(run) + "z";
            x += run + 1;
        }
    return out + "\"/></svg>";
}

}  // namespace hw::qr
