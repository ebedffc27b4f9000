#include "edge/photo/decode.hpp"

#include <png.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <string>
#include <vector>

#include <jpeglib.h>
// After jpeglib.h.
#include <jerror.h>

#include "desk/photo.hpp"
#include "edge/photo/exif.hpp"
#include "edge/photo/kind.hpp"
#include "edge/photo/reduce.hpp"

namespace hw::photo {

namespace {

constexpr int pipe_end = 1, jpeg_quality = 85;
constexpr std::size_t profile_limit = 4096, chunk_limit = 4'000'000;

/// What came out of the file: the picture in the size of the screen, as it lies in the file.
struct Decoded {
    LinearPicture picture;
    int width = 0, height = 0;
    Exif exif;
    std::string profile;  // colour profile of an RGB picture, small ones only; the copies keep it
};

/// Straight to the system: a sanitizer hooks into _exit, and looks around where nothing is allowed any more.
[[noreturn]] void end(int status) {
    for (;;) ::syscall(SYS_exit_group, status);
}

void write_all(const void* bytes, std::size_t size) {
    const char* at = static_cast<const char*>(bytes);
    while (size > 0) {
        const ssize_t n = ::write(pipe_end, at, size);
        if (n <= 0) end(1);
        at += n;
        size -= static_cast<std::size_t>(n);
    }
}

AnswerHead empty_head() {
    AnswerHead head{};
    std::memcpy(head.mark, answer_mark.data(), answer_mark.size());
    return head;
}

void check_pixels(std::uint64_t width, std::uint64_t height) {
    if (width == 0 || height == 0) refuse(Refusal::Damaged);
    if (width * height > desk::photo_pixels_limit) refuse(Refusal::TooManyPixels);
}

/// The profile of an RGB picture: a grey or print profile would not fit the copies.
std::string kept_profile(const char* bytes, std::size_t size) {
    constexpr std::size_t head = 128, colour_space = 16;
    const std::string_view profile(bytes, size);
    return size >= head && size <= profile_limit && profile.substr(colour_space, 4) == "RGB " ? std::string(profile) : std::string{};
}

// ---- JPEG ------------------------------------------------------------------------------------------------------------

[[noreturn]] void jpeg_fault(j_common_ptr c) { refuse(c->err->msg_code == JERR_OUT_OF_MEMORY ? Refusal::NoMemory : Refusal::Damaged); }

/// A file that ends too early is no photograph of the piece; other warnings are of no weight.
void jpeg_message(j_common_ptr c, int level) {
    if (level < 0 && c->err->msg_code == JWRN_JPEG_EOF) refuse(Refusal::CutShort);
}

void jpeg_silence(j_common_ptr) {}

jpeg_error_mgr jpeg_errors() {
    jpeg_error_mgr e{};
    jpeg_std_error(&e);
    e.error_exit = jpeg_fault;
    e.emit_message = jpeg_message;
    e.output_message = jpeg_silence;
    return e;
}

/// The coarsest of the library's own reductions that still fills the screen: the rest is taken by area.
unsigned eighths_for(unsigned width, unsigned height) {
    for (const unsigned n : {1U, 2U, 4U})
        if (std::max(width, height) * n / 8 >= static_cast<unsigned>(desk::screen_px)) return n;
    return 8;
}

Exif exif_of(const jpeg_decompress_struct& jpeg) {
    constexpr std::string_view mark("Exif\0\0", 6);
    for (const auto* m = jpeg.marker_list; m != nullptr; m = m->next) {
        const std::string_view data(reinterpret_cast<const char*>(m->data), m->data_length);
        if (m->marker == JPEG_APP0 + 1 && data.substr(0, mark.size()) == mark) return parse_exif(data.substr(mark.size()));
    }
    return {};
}

std::string profile_of(jpeg_decompress_struct& jpeg) {
    JOCTET* bytes = nullptr;
    unsigned size = 0;
    if (jpeg_read_icc_profile(&jpeg, &bytes, &size) == FALSE) return {};
    return kept_profile(reinterpret_cast<const char*>(bytes), size);
}

Decoded decode_jpeg(std::string_view bytes) {
    Decoded out;
    jpeg_error_mgr errors = jpeg_errors();
    jpeg_decompress_struct jpeg{};
    jpeg.err = &errors;
    jpeg_create_decompress(&jpeg);
    jpeg_save_markers(&jpeg, JPEG_APP0 + 1, 0xFFFF);
    jpeg_save_markers(&jpeg, JPEG_APP0 + 2, 0xFFFF);
    jpeg_mem_src(&jpeg, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
    jpeg_read_header(&jpeg, TRUE);
    check_pixels(jpeg.image_width, jpeg.image_height);
    if (jpeg.jpeg_color_space == JCS_CMYK || jpeg.jpeg_color_space == JCS_YCCK) refuse(Refusal::PrintColours);
    out.width = static_cast<int>(jpeg.image_width);
    out.height = static_cast<int>(jpeg.image_height);
    out.exif = exif_of(jpeg);
    out.profile = profile_of(jpeg);
    jpeg.out_color_space = JCS_RGB;
    jpeg.scale_num = eighths_for(jpeg.image_width, jpeg.image_height);
    jpeg.scale_denom = 8;
    jpeg_start_decompress(&jpeg);
    const int width = static_cast<int>(jpeg.output_width), height = static_cast<int>(jpeg.output_height);
    AreaMean mean({width, height}, fitted(width, height, desk::screen_px));
    std::vector<JSAMPLE> row(jpeg.output_width * 3U);
    std::vector<float> light(row.size());
    while (jpeg.output_scanline < jpeg.output_height) {
        JSAMPROW rows[] = {row.data()};
        jpeg_read_scanlines(&jpeg, rows, 1);
        std::transform(row.begin(), row.end(), light.begin(), linear_of);
        mean.row(light.data());
    }
    jpeg_finish_decompress(&jpeg);
    out.picture = mean.take();
    return out;
}

std::string encoded(const LinearPicture& picture, const std::string& profile) {
    jpeg_error_mgr errors = jpeg_errors();
    jpeg_compress_struct jpeg{};
    jpeg.err = &errors;
    jpeg_create_compress(&jpeg);
    unsigned char* bytes = nullptr;
    unsigned long size = 0;
    jpeg_mem_dest(&jpeg, &bytes, &size);
    jpeg.image_width = static_cast<JDIMENSION>(picture.width);
    jpeg.image_height = static_cast<JDIMENSION>(picture.height);
    jpeg.input_components = 3;
    jpeg.in_color_space = JCS_RGB;
    jpeg_set_defaults(&jpeg);
    jpeg_set_quality(&jpeg, jpeg_quality, TRUE);
    jpeg_start_compress(&jpeg, TRUE);
    if (!profile.empty()) jpeg_write_icc_profile(&jpeg, reinterpret_cast<const JOCTET*>(profile.data()), static_cast<unsigned>(profile.size()));
    std::vector<std::uint8_t> pixels = bytes_of(picture);
    for (JSAMPROW row = pixels.data(); jpeg.next_scanline < jpeg.image_height; row += jpeg.image_width * 3U) jpeg_write_scanlines(&jpeg, &row, 1);
    jpeg_finish_compress(&jpeg);
    return {reinterpret_cast<const char*>(bytes), size};
}

// ---- PNG -------------------------------------------------------------------------------------------------------------

[[noreturn]] void png_fault(png_structp, png_const_charp) { refuse(Refusal::Damaged); }
void png_silence(png_structp, png_const_charp) {}

void png_bytes(png_structp png, png_bytep to, std::size_t size) {
    auto& left = *static_cast<std::string_view*>(png_get_io_ptr(png));
    if (size > left.size()) refuse(Refusal::CutShort);
    std::memcpy(to, left.data(), size);
    left.remove_prefix(size);
}

/// What is transparent shows white paper.
void over_white(const std::vector<png_byte>& rgba, std::vector<float>& light) {
    for (std::size_t i = 0; i * 4 < rgba.size(); ++i) {
        const float opaque = static_cast<float>(rgba[i * 4 + 3]) / 255;
        for (std::size_t c = 0; c < 3; ++c) light[i * 3 + c] = linear_of(rgba[i * 4 + c]) * opaque + (1 - opaque);
    }
}

/// Eight bits of red, green, blue and cover, whatever the file has.
void as_rgba(png_structp png) {
    png_set_expand(png);
    png_set_scale_16(png);
    png_set_gray_to_rgb(png);
    png_set_add_alpha(png, 0xFF, PNG_FILLER_AFTER);
}

std::string profile_of(png_structp png, png_infop info) {
    png_charp name = nullptr;
    png_bytep bytes = nullptr;
    png_uint_32 size = 0;
    int method = 0;
    if (png_get_iCCP(png, info, &name, &method, &bytes, &size) == 0) return {};
    return kept_profile(reinterpret_cast<const char*>(bytes), size);
}

Exif exif_of(png_structp png, png_infop info) {
    png_bytep bytes = nullptr;
    png_uint_32 size = 0;
    if (png_get_eXIf_1(png, info, &size, &bytes) == 0) return {};
    return parse_exif({reinterpret_cast<const char*>(bytes), size});
}

/// The rows of a picture; one that is built up in passes has to be held whole.
LinearPicture png_picture(png_structp png, int width, int height, int passes) {
    AreaMean mean({width, height}, fitted(width, height, desk::screen_px));
    const std::size_t row_size = static_cast<std::size_t>(width) * 4;
    std::vector<float> light(static_cast<std::size_t>(width) * 3);
    std::vector<std::vector<png_byte>> rows(passes > 1 ? static_cast<std::size_t>(height) : 1, std::vector<png_byte>(row_size));
    for (int pass = 1; pass < passes; ++pass)
        for (auto& row : rows) png_read_row(png, row.data(), nullptr);
    for (int y = 0; y < height; ++y) {
        auto& row = rows[passes > 1 ? static_cast<std::size_t>(y) : 0];
        png_read_row(png, row.data(), nullptr);
        over_white(row, light);
        mean.row(light.data());
    }
    return mean.take();
}

Decoded decode_png(std::string_view bytes) {
    Decoded out;
    png_structp png = png_create_read_struct(PNG_LIBPNG_VER_STRING, nullptr, png_fault, png_silence);
    if (png == nullptr) refuse(Refusal::NoMemory);
    png_infop info = png_create_info_struct(png);
    if (info == nullptr) refuse(Refusal::NoMemory);
    png_set_user_limits(png, PNG_UINT_31_MAX, PNG_UINT_31_MAX);  // the limit is that of pixels, below
    png_set_chunk_malloc_max(png, chunk_limit);
    png_set_read_fn(png, &bytes, png_bytes);
    png_read_info(png, info);
    const png_uint_32 width = png_get_image_width(png, info), height = png_get_image_height(png, info);
    check_pixels(width, height);
    out.width = static_cast<int>(width);
    out.height = static_cast<int>(height);
    out.profile = profile_of(png, info);
    as_rgba(png);
    const int passes = png_set_interlace_handling(png);
    png_read_update_info(png, info);
    out.picture = png_picture(png, out.width, out.height, passes);
    png_read_end(png, info);
    out.exif = exif_of(png, info);
    return out;
}

Decoded decoded(std::string_view bytes) {
    const auto kind = kind_of(bytes);
    if (!kind.ok()) refuse(Refusal::Damaged);
    return *kind == Kind::Jpeg ? decode_jpeg(bytes) : decode_png(bytes);
}

}  // namespace

void refuse(Refusal refusal) {
    AnswerHead head = empty_head();
    head.refusal = static_cast<std::uint32_t>(refusal);
    write_all(&head, sizeof head);
    end(0);
}

void warm_up() {
    LinearPicture grey;
    grey.width = grey.height = 16;
    grey.rgb.assign(16 * 16 * 3, 0.5F);
    encoded(grey, {});
}

void decode_and_answer(std::string_view bytes) {
    const Decoded found = decoded(bytes);
    const LinearPicture screen = upright(found.picture, found.exif.orientation);
    const std::string large = encoded(screen, found.profile), small = encoded(reduced(screen, desk::small_px), found.profile);
    const bool lying = found.exif.orientation >= 5;
    AnswerHead head = empty_head();
    head.width_px = static_cast<std::uint32_t>(lying ? found.height : found.width);
    head.height_px = static_cast<std::uint32_t>(lying ? found.width : found.height);
    head.orientation = static_cast<std::uint32_t>(found.exif.orientation);
    found.exif.taken_at.copy(head.taken_at, sizeof head.taken_at);
    head.screen_bytes = static_cast<std::uint32_t>(large.size());
    head.small_bytes = static_cast<std::uint32_t>(small.size());
    write_all(&head, sizeof head);
    write_all(large.data(), large.size());
    write_all(small.data(), small.size());
    end(0);
}

}  // namespace hw::photo
