#include "edge/pdf/typefaces.hpp"

#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>
#include <sys/mman.h>
#include <unistd.h>

#include <string>

#include "embedded/typefaces.hpp"

namespace hw::pdf {

namespace {

/// The drawing library opens typefaces by name, so each gets one: a file in memory that stays open while the program runs.
bool add(FcConfig* config, std::string_view bytes) {
    const int file = memfd_create("typeface", MFD_CLOEXEC);
    if (file < 0) return false;
    for (std::size_t done = 0; done < bytes.size();) {
        const ssize_t written = ::write(file, bytes.data() + done, bytes.size() - done);
        if (written <= 0) return false;
        done += static_cast<std::size_t>(written);
    }
    const std::string name = "/proc/self/fd/" + std::to_string(file);
    return FcConfigAppFontAddFile(config, reinterpret_cast<const FcChar8*>(name.c_str())) == FcTrue;
}

PangoFontMap* made() {
    FcConfig* config = FcConfigCreate();
    if (config == nullptr) return nullptr;
    for (const auto& face : embedded::typefaces)
        if (!add(config, face.text)) return nullptr;
    PangoFontMap* map = pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
    if (map == nullptr) return nullptr;
    pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(map), config);
    return map;
}

}  // namespace

PangoFontMap* typefaces() {
    static PangoFontMap* const map = made();
    return map;
}

std::mutex& one_at_a_time() {
    static std::mutex mutex;
    return mutex;
}

}  // namespace hw::pdf
