// QR codes (ISO/IEC 18004) as SVG, by libqrencode.
#pragma once

#include <string>
#include <string_view>

#include "desk/ports.hpp"

namespace hw::qr {

class SvgPainter : public desk::QrPainter {
public:
    /// Dark on white with the quiet zone of four modules, one unit a module. @error InvalidInput  too long for a code
    Result<std::string> svg(std::string_view text) override;
    Result<std::vector<std::string>> squares(std::string_view text) override;
};

}  // namespace hw::qr
