// Pictures made for tests: JPEG and PNG bytes from a rule for each pixel, and the pixels of a JPEG again.
#pragma once

#include <png.h>

#include <array>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include <jpeglib.h>

namespace hw::test {

using Rgb = std::array<std::uint8_t, 3>;
using Painter = std::function<Rgb(int x, int y)>;

struct Pixels {
    int width = 0, height = 0;
    std::vector<std::uint8_t> rgb;
    bool has_exif = false;
    std::size_t profile_bytes = 0;
    [[nodiscard]] Rgb at(int x, int y) const {
        const std::size_t i = (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x)) * 3;
        return {rgb[i], rgb[i + 1], rgb[i + 2]};
    }
};

/// A TIFF structure with an orientation and a date, in either byte order.
inline std::string exif_block(int orientation, const std::string& taken, bool big) {
    std::string out = big ? "MM" : "II";
    const auto put = [&](std::uint32_t value, int size) {
        for (int i = 0; i < size; ++i) out += static_cast<char>(value >> (8 * (big ? size - 1 - i : i)) & 0xFF);
    };
    const auto entry = [&](std::uint32_t tag, std::uint32_t type, std::uint32_t count) { put(tag, 2), put(type, 2), put(count, 4); };
    put(42, 2), put(8, 4);
    put(2, 2);  // first directory, at 8: 2 entries, ends at 38
    entry(0x0112, 3, 1), put(static_cast<std::uint32_t>(orientation), 2), put(0, 2);
    entry(0x8769, 4, 1), put(38, 4);
    put(0, 4);
    put(1, 2);  // second directory, at 38: 1 entry, ends at 56
    entry(0x9003, 2, static_cast<std::uint32_t>(taken.size() + 1)), put(56, 4);
    put(0, 4);
    return out + taken + '\0';
}

struct JpegOptions {
    std::string exif = {};     ///< a TIFF structure
    std::string profile = {};  ///< a colour profile
    bool progressive = false;
    bool grey = false;
    bool print_colours = false;
    int quality = 92;
};

inline std::string jpeg_of(int width, int height, const Painter& paint, const JpegOptions& options = {}) {
    jpeg_error_mgr errors{};
    jpeg_compress_struct jpeg{};
    jpeg.err = jpeg_std_error(&errors);
    jpeg_create_compress(&jpeg);
    unsigned char* bytes = nullptr;
    unsigned long size = 0;
    jpeg_mem_dest(&jpeg, &bytes, &size);
    jpeg.image_width = static_cast<JDIMENSION>(width);
    jpeg.image_height = static_cast<JDIMENSION>(height);
    jpeg.input_components = options.grey ? 1 : options.print_colours ? 4 : 3;
    jpeg.in_color_space = options.grey ? JCS_GRAYSCALE : options.print_colours ? JCS_CMYK : JCS_RGB;
    jpeg_set_defaults(&jpeg);
    jpeg_set_quality(&jpeg, options.quality, TRUE);
    if (options.progressive) jpeg_simple_progression(&jpeg);
    jpeg_start_compress(&jpeg, TRUE);
    if (!options.exif.empty()) {
        const std::string marker = std::string("Exif\0\0", 6) + options.exif;
        jpeg_write_marker(&jpeg, JPEG_APP0 + 1, reinterpret_cast<const JOCTET*>(marker.data()), static_cast<unsigned>(marker.size()));
    }
    if (!options.profile.empty()) jpeg_write_icc_profile(&jpeg, reinterpret_cast<const JOCTET*>(options.profile.data()), static_cast<unsigned>(options.profile.size()));
    std::vector<JSAMPLE> row(static_cast<std::size_t>(width) * static_cast<std::size_t>(jpeg.input_components));
    for (int y = 0; y < height; ++y) {
        for (std::size_t x = 0, i = 0; i < row.size(); ++x) {
            const Rgb c = paint(static_cast<int>(x), y);
            for (int k = 0; k < jpeg.input_components; ++k) row[i++] = c[static_cast<std::size_t>(k % 3)];
        }
        JSAMPROW rows[] = {row.data()};
        jpeg_write_scanlines(&jpeg, rows, 1);
    }
    jpeg_finish_compress(&jpeg);
    std::string out(reinterpret_cast<const char*>(bytes), size);
    std::free(bytes);
    jpeg_destroy_compress(&jpeg);
    return out;
}

inline Pixels pixels_of(const std::string& bytes) {
    jpeg_error_mgr errors{};
    jpeg_decompress_struct jpeg{};
    jpeg.err = jpeg_std_error(&errors);
    errors.error_exit = [](j_common_ptr) { throw std::runtime_error("no JPEG"); };
    jpeg_create_decompress(&jpeg);
    jpeg_save_markers(&jpeg, JPEG_APP0 + 1, 0xFFFF);
    jpeg_save_markers(&jpeg, JPEG_APP0 + 2, 0xFFFF);
    jpeg_mem_src(&jpeg, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
    jpeg_read_header(&jpeg, TRUE);
    jpeg.out_color_space = JCS_RGB;
    Pixels out;
    for (auto* m = jpeg.marker_list; m != nullptr; m = m->next) {
        out.has_exif = out.has_exif || m->marker == JPEG_APP0 + 1;
        if (m->marker == JPEG_APP0 + 2) out.profile_bytes += m->data_length - 14;
    }
    jpeg_start_decompress(&jpeg);
    out.width = static_cast<int>(jpeg.output_width);
    out.height = static_cast<int>(jpeg.output_height);
    out.rgb.resize(jpeg.output_width * std::size_t{3} * jpeg.output_height);
    while (jpeg.output_scanline < jpeg.output_height) {
        JSAMPROW rows[] = {out.rgb.data() + jpeg.output_scanline * std::size_t{3} * jpeg.output_width};
        jpeg_read_scanlines(&jpeg, rows, 1);
    }
    jpeg_finish_decompress(&jpeg);
    jpeg_destroy_decompress(&jpeg);
    return out;
}

struct PngOptions {
    std::string exif = {};
    bool interlaced = false;
    int depth = 8;    ///< 8 or 16
    int cover = 255;  ///< of every pixel; 255 leaves the alpha channel out
};

inline std::string png_of(int width, int height, const Painter& paint, const PngOptions& options = {}) {
    std::string out;
    png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
    png_infop info = png_create_info_struct(png);
    png_set_write_fn(png, &out, [](png_structp p, png_bytep bytes, std::size_t size) { static_cast<std::string*>(png_get_io_ptr(p))->append(reinterpret_cast<const char*>(bytes), size); },
                     [](png_structp) {});
    const bool alpha = options.cover != 255;
    png_set_IHDR(png, info, static_cast<png_uint_32>(width), static_cast<png_uint_32>(height), options.depth, alpha ? PNG_COLOR_TYPE_RGB_ALPHA : PNG_COLOR_TYPE_RGB,
                 options.interlaced ? PNG_INTERLACE_ADAM7 : PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    std::string exif = options.exif;
    if (!exif.empty()) png_set_eXIf_1(png, info, static_cast<png_uint_32>(exif.size()), reinterpret_cast<png_bytep>(exif.data()));
    png_write_info(png, info);
    const std::size_t channels = alpha ? 4 : 3, each = options.depth == 16 ? 2 : 1;
    std::vector<std::vector<png_byte>> rows;
    std::vector<png_bytep> starts;
    for (int y = 0; y < height; ++y) {
        std::vector<png_byte> row;
        for (int x = 0; x < width; ++x) {
            const Rgb c = paint(x, y);
            for (std::size_t k = 0; k < channels; ++k) row.insert(row.end(), each, k < 3 ? c[k] : static_cast<png_byte>(options.cover));
        }
        rows.push_back(std::move(row));
    }
    for (auto& row : rows) starts.push_back(row.data());
    png_write_image(png, starts.data());
    png_write_end(png, info);
    png_destroy_write_struct(&png, &info);
    return out;
}

/// Six fields, three beside each other and two rows, each of its own colour, so that no turn or mirror looks like another:
///     A B C
///     D E F
inline constexpr std::array<Rgb, 6> field_colours{{{220, 20, 20}, {20, 160, 20}, {20, 20, 220}, {245, 245, 245}, {10, 10, 10}, {230, 220, 20}}};
inline Painter six_fields(int field) {
    return [field](int x, int y) { return field_colours[static_cast<std::size_t>(x / field + 3 * (y / field))]; };
}

/// Which letters the fields of a picture show, row by row: "ABC/DEF".
inline std::string fields_of(const Pixels& p, int field) {
    std::string out;
    for (int y = field / 2; y < p.height; y += field) {
        if (!out.empty()) out += '/';
        for (int x = field / 2; x < p.width; x += field) {
            const Rgb c = p.at(x, y);
            int best = 0, least = 1 << 30;
            for (int i = 0; i < 6; ++i) {
                int d = 0;
                for (std::size_t k = 0; k < 3; ++k) {
                    const int off = int{c[k]} - int{field_colours[static_cast<std::size_t>(i)][k]};
                    d += off * off;
                }
                if (d < least) { least = d; best = i; }
            }
            out += static_cast<char>('A' + best);
        }
    }
    return out;
}

/// Fine grain in every pixel: does not shrink to nothing in the file, as a plain field does.
inline Painter grain(std::uint32_t seed = 1) {
    return [state = seed](int x, int y) mutable {
        state = state * 1664525U + 1013904223U;
        const int n = static_cast<int>(state >> 27);
        return Rgb{static_cast<std::uint8_t>(110 + n + x % 64), static_cast<std::uint8_t>(80 + n + y % 64), static_cast<std::uint8_t>(60 + n)};
    };
}

}  // namespace hw::test
