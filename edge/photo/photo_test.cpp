// Pictures read in a child that can do nothing else. The test program starts itself as that child, as the program does.
#include <fcntl.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/mman.h>
#include <sys/socket.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <random>
#include <thread>

#include "edge/photo/child.hpp"
#include "edge/photo/exif.hpp"
#include "edge/photo/kind.hpp"
#include "edge/photo/reader.hpp"
#include "edge/photo/reduce.hpp"
#include "tests/support/pictures.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw::photo {
namespace {

using desk::PhotoContent;

constexpr std::string_view jpeg_start = "\xff\xd8\xff";
constexpr int not_allowed = SIGSYS;

PhotoContent read(const std::string& bytes) { return ChildReader().read(bytes).value(); }
Error refused(const std::string& bytes, Limits limits = {}) {
    auto r = ChildReader(limits).read(bytes);
    return r.ok() ? Error{ErrorCode::Bug, "it was read", ""} : r.error();
}

// ---- pictures --------------------------------------------------------------------------------------------------------

TEST(PhotoConsistency, EachOrientationComesOutUpright) {
    constexpr int field = 64;
    // Laid out by hand from the meaning of the eight values in EXIF: which edge the first row and the first column are.
    const std::array<std::string, 8> expected{"ABC/DEF", "CBA/FED", "FED/CBA", "DEF/ABC", "AD/BE/CF", "DA/EB/FC", "FC/EB/DA", "CF/BE/AD"};
    for (int orientation = 1; orientation <= 8; ++orientation)
        for (const bool big : {false, true}) {
            const auto exif = test::exif_block(orientation, "2024:05:17 10:11:12", big);
            for (const auto& bytes : {test::jpeg_of(3 * field, 2 * field, test::six_fields(field), {.exif = exif}), test::png_of(3 * field, 2 * field, test::six_fields(field), {.exif = exif})}) {
                const PhotoContent c = read(bytes);
                EXPECT_EQ(c.orientation, orientation);
                EXPECT_EQ(c.width_px, orientation < 5 ? 3 * field : 2 * field);
                EXPECT_EQ(c.height_px, orientation < 5 ? 2 * field : 3 * field);
                EXPECT_EQ(c.taken_at, "2024-05-17T10:11:12");
                for (const auto& copy : {c.screen, c.small}) {
                    const auto pixels = test::pixels_of(copy);
                    EXPECT_EQ(test::fields_of(pixels, field), expected[static_cast<std::size_t>(orientation - 1)]) << orientation;
                    EXPECT_FALSE(pixels.has_exif);
                }
            }
        }
}

TEST(PhotoConsistency, TheCopiesHaveTheSizesThatWerePromised) {
    const PhotoContent c = read(test::jpeg_of(4000, 3000, [](int x, int y) { return test::Rgb{static_cast<std::uint8_t>(x / 16), static_cast<std::uint8_t>(y / 16), 90}; }));
    EXPECT_EQ(c.type, "image/jpeg");
    EXPECT_EQ(c.width_px, 4000);
    EXPECT_EQ(c.height_px, 3000);
    EXPECT_EQ(c.taken_at, "");
    const auto screen = test::pixels_of(c.screen), small = test::pixels_of(c.small);
    EXPECT_EQ(screen.width, 1600);
    EXPECT_EQ(screen.height, 1200);
    EXPECT_EQ(small.width, 320);
    EXPECT_EQ(small.height, 240);
    // The ramp is where it was: JPEG itself moves a value by a few.
    EXPECT_NEAR(screen.at(800, 600)[0], 125, 4);
    EXPECT_NEAR(screen.at(800, 600)[1], 93, 4);
    EXPECT_NEAR(small.at(300, 20)[0], 234, 4);
}

TEST(PhotoConsistency, EveryFormOfJpegAndPngIsRead) {
    constexpr int field = 64;
    const auto paint = test::six_fields(field);
    const int w = 3 * field, h = 2 * field;
    for (const auto& bytes : {test::jpeg_of(w, h, paint, {.progressive = true}), test::png_of(w, h, paint, {.interlaced = true}), test::png_of(w, h, paint, {.depth = 16})}) {
        const PhotoContent c = read(bytes);
        EXPECT_EQ(test::fields_of(test::pixels_of(c.screen), field), "ABC/DEF");
    }
    const auto grey = test::pixels_of(read(test::jpeg_of(64, 64, [](int, int) { return test::Rgb{100, 100, 100}; }, {.grey = true})).screen);
    for (const auto channel : grey.at(32, 32)) EXPECT_NEAR(channel, 100, 2);
    // Half covered black over white paper is half the light, not half the number.
    const auto half = test::pixels_of(read(test::png_of(64, 64, [](int, int) { return test::Rgb{0, 0, 0}; }, {.cover = 128})).screen);
    for (const auto channel : half.at(32, 32)) EXPECT_NEAR(channel, 188, 2);
}

TEST(PhotoConsistency, ASmallColourProfileOfAnRgbPictureStaysWithTheCopies) {
    std::string profile(600, '\0');
    profile.replace(16, 4, "RGB ");
    const auto paint = test::six_fields(64);
    EXPECT_EQ(test::pixels_of(read(test::jpeg_of(192, 128, paint, {.profile = profile})).small).profile_bytes, profile.size());
    profile.replace(16, 4, "GRAY");
    EXPECT_EQ(test::pixels_of(read(test::jpeg_of(192, 128, paint, {.profile = profile})).small).profile_bytes, 0u);
    profile.replace(16, 4, "RGB ");
    profile.resize(5000);
    EXPECT_EQ(test::pixels_of(read(test::jpeg_of(192, 128, paint, {.profile = profile})).small).profile_bytes, 0u);
}

TEST(PhotoConsistency, ALongStripKeepsAtLeastOneRow) {
    const PhotoContent c = read(test::png_of(20000, 2, [](int, int) { return test::Rgb{9, 9, 9}; }));
    EXPECT_EQ(test::pixels_of(c.screen).width, 1600);
    EXPECT_EQ(test::pixels_of(c.screen).height, 1);
    EXPECT_EQ(test::pixels_of(c.small).height, 1);
}

TEST(ReduceConsistency, LightIsAveragedNotNumbers) {
    for (int v = 0; v < 256; ++v) EXPECT_EQ(value_of(linear_of(static_cast<std::uint8_t>(v))), v);
    LinearPicture checks;
    checks.width = checks.height = 64;
    for (int i = 0; i < 64 * 64; ++i) checks.rgb.insert(checks.rgb.end(), 3, (i + i / 64) % 2 == 0 ? 1.0F : 0.0F);
    // Half the light is 1.055 · 0.5^(1/2.4) - 0.055 = 0.7354 of the range: 188 of 255.
    for (const auto v : bytes_of(reduced(checks, 32))) EXPECT_EQ(v, 188);
}

TEST(ReduceProperty, AllTheLightArrivesWhateverTheRatio) {
    for (const int to : {1, 2, 3, 5, 7, 10, 31, 96, 97}) {
        LinearPicture p;
        p.width = 97;
        p.height = 41;
        std::mt19937 random(1);
        double before = 0, after = 0;
        for (int i = 0; i < p.width * p.height * 3; ++i) p.rgb.push_back(static_cast<float>(random() % 1000) / 1000);
        for (const float v : p.rgb) before += static_cast<double>(v);
        const auto r = reduced(p, to);
        EXPECT_EQ(r.width, to);
        for (const float v : r.rgb) after += static_cast<double>(v);
        // Sums of 12,000 floats of 24 bits: 1e-5 is a hundred times their rounding.
        EXPECT_NEAR(after / (r.width * r.height), before / (p.width * p.height), 1e-5 * before / (p.width * p.height)) << to;
    }
}

TEST(ExifConsistency, DatesThatAreNoDatesAreLeftOut) {
    EXPECT_EQ(iso_date("2024:02:29 23:59:59"), "2024-02-29T23:59:59");
    for (const char* t : {"2023:02:29 10:00:00", "0000:00:00 00:00:00", "    :  :     :  :  ", "2024:13:01 10:00:00", "2024:01:01 24:00:00", "2024-01-01 10:00:00", "2024:01:01T10:00:00", "2024:01:01 10:00", ""})
        EXPECT_EQ(iso_date(t), "") << t;
}

TEST(ExifRefusal, NonsenseKeepsTheDefaults) {
    const std::string good = test::exif_block(6, "2024:05:17 10:11:12", false);
    EXPECT_EQ(parse_exif(good).orientation, 6);
    for (std::size_t cut = 0; cut < good.size(); ++cut) EXPECT_LE(parse_exif(std::string_view(good).substr(0, cut)).orientation, 8);
    std::string itself = good;
    itself[30] = 8;  // the second directory is the first
    EXPECT_EQ(parse_exif(itself).taken_at, "");
    EXPECT_EQ(parse_exif(test::exif_block(9, "x", true)).orientation, 1);
    EXPECT_EQ(parse_exif(test::exif_block(0, "x", true)).orientation, 1);
}

// ---- refusals --------------------------------------------------------------------------------------------------------

TEST(PhotoRefusal, WhatIsNotJpegOrPngIsNamedWithItsRemedy) {
    using namespace std::string_literals;
    const std::vector<std::array<std::string, 3>> cases{{"\0\0\0\x18"s + "ftypheic", "HEIC", "most compatible"}, {"\0\0\0\x18"s + "ftypmif1", "HEIC", "most compatible"},
                                                        {"\0\0\0\x18"s + "ftypavif", "AVIF", "JPEG"}, {"\0\0\0\x18"s + "ftypisom", "film", "photograph"}, {"GIF89a", "GIF", "JPEG"},
                                                        {"RIFF\1\2\3\4WEBPVP8 ", "WebP", "JPEG"}, {"II*\0\x10\0\0\0CR"s, "raw", "JPEG"}, {"MM\0*\0\0\0\x08"s, "raw", "JPEG"}, {"%PDF-1.4", "PDF", "page"},
                                                        {"<!doctype html>", "web page", "JPEG"}, {"hello", "no picture", "JPEG"}, {"", "no picture", "JPEG"}};
    for (const auto& [bytes, what, remedy] : cases) {
        const Error e = refused(bytes);
        EXPECT_EQ(e.code, ErrorCode::InvalidInput) << what;
        EXPECT_NE(e.message.find(what), std::string::npos) << e.message;
        EXPECT_NE(e.message.find(remedy), std::string::npos) << e.message;
        EXPECT_EQ(ChildReader().look(bytes).error().message, e.message);
    }
}

TEST(PhotoRefusal, TooManyBytesOrPixels) {
    EXPECT_EQ(refused(std::string(jpeg_start) + std::string(40'000'000, 'x')).code, ErrorCode::OutOfRange);
    // 65,500 × 65,500 in the head of a small file: refused by its head, before memory is taken.
    std::string jpeg = test::jpeg_of(64, 64, test::six_fields(64));
    const auto frame = jpeg.find("\xff\xc0");
    ASSERT_NE(frame, std::string::npos);
    jpeg.replace(frame + 5, 4, "\xff\xdc\xff\xdc");
    EXPECT_NE(refused(jpeg).message.find("60 million pixels"), std::string::npos);
    const Error cmyk = refused(test::jpeg_of(64, 64, test::six_fields(64), {.print_colours = true}));
    EXPECT_NE(cmyk.message.find("RGB"), std::string::npos) << cmyk.message;
}

TEST(PhotoRefusal, ACutPictureIsToldFromADamagedOne) {
    const auto paint = test::grain();
    for (const auto& whole : {test::jpeg_of(320, 240, paint), test::png_of(320, 240, paint)}) {
        EXPECT_NE(refused(whole.substr(0, whole.size() * 2 / 3)).message.find("ends too early"), std::string::npos);
        EXPECT_NE(refused(whole.substr(0, whole.size() - 2)).message.find("ends too early"), std::string::npos);
    }
    EXPECT_NE(refused(std::string(jpeg_start) + std::string(100, 'x')).message.find("Save it as a new JPEG"), std::string::npos);
}

TEST(PhotoProperty, CutAndFlippedFilesGiveAPictureOrARefusal) {
    const auto paint = test::grain();
    std::mt19937 random(7);
    int read_anyway = 0, refusals = 0;
    const auto exif = test::exif_block(6, "2024:05:17 10:11:12", true);
    for (const auto& whole : {test::jpeg_of(96, 64, paint, {.exif = exif}), test::jpeg_of(96, 64, paint, {.progressive = true}), test::png_of(96, 64, paint, {.exif = exif}), test::png_of(96, 64, paint, {.interlaced = true})})
        for (int i = 0; i < 60; ++i) {
            std::string bytes = whole;
            if (i % 4 == 0) bytes.resize(3 + random() % (bytes.size() - 3));
            for (auto n = 1 + random() % 3; n > 0; --n) bytes[8 + random() % (bytes.size() > 8 ? bytes.size() - 8 : 1)] ^= static_cast<char>(1U << random() % 8);
            const auto r = ChildReader({5, 10000}).read(bytes);
            if (r.ok()) {
                ++read_anyway;
                EXPECT_LE(test::pixels_of(r->small).width, 320);
            } else {
                ++refusals;
                EXPECT_NE(r.error().code, ErrorCode::Unavailable) << r.error().message;
                EXPECT_NE(r.error().code, ErrorCode::Bug);
                // The libraries find these faults themselves: nothing had to be stopped, by the system or by a sanitizer.
                EXPECT_EQ(r.error().message.find("stopped by the system"), std::string::npos) << r.error().message;
            }
        }
    EXPECT_GT(refusals, 20);
    EXPECT_EQ(read_anyway + refusals, 240);
}

// ---- the child cannot do anything else ---------------------------------------------------------------------------------

/// A file that makes the child of this test program try something.
std::string trying(const std::string& what) { return std::string(jpeg_start) + "TEST:" + what; }

ssize_t went_on = 0;

/// Runs inside the child, once it is locked in.
void misbehave(std::string_view bytes) {
    constexpr std::string_view mark = "TEST:";
    if (bytes.substr(3, mark.size()) != mark) return;
    const std::string what(bytes.substr(3 + mark.size()));
    if (what == "open") ::open("/etc/hostname", O_RDONLY);
    else if (what.rfind("create ", 0) == 0) ::open(what.c_str() + 7, O_WRONLY | O_CREAT, 0600);
    else if (what == "connect") ::socket(AF_INET, SOCK_STREAM, 0);
    else if (what == "exec") ::execl("/bin/true", "true", nullptr);
    else if (what == "fork") ::fork();
    else if (what == "kill") ::kill(::getppid(), SIGTERM);
    else if (what == "read") { char c = 0; went_on = ::read(0, &c, 1); }
    else if (what == "write elsewhere") went_on = ::write(2, "x", 1);
    else if (what == "run memory") ::mmap(nullptr, 4096, PROT_READ | PROT_WRITE | PROT_EXEC, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    else if (what == "make runnable") {
        void* p = ::mmap(nullptr, 4096, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
        ::mprotect(p, 4096, PROT_READ | PROT_EXEC);
    } else if (what == "allocate") {
        char* volatile p = new char[std::size_t{4} << 30];
        *p = 1;
    } else if (what == "loop") for (volatile unsigned i = 0;;) { i = i + 1; }
    else if (what == "crash") {
        volatile std::uintptr_t nowhere = 8;
        *reinterpret_cast<volatile int*>(nowhere) = 1;
    }
    else if (what == "lie") {
        const std::string answer(48, 'x');
        went_on = ::write(1, answer.data(), answer.size());
        ::_exit(0);
    } else if (what == "pour") {
        const std::string block(1 << 20, 'x');
        for (;;) if (::write(1, block.data(), block.size()) < 0) ::_exit(0);
    } else if (what == "nothing") ::_exit(0);
}

TEST(ChildRefusal, WhateverIsNotReadingAPictureEndsTheChildAlone) {
    for (const char* what : {"open", "connect", "exec", "fork", "kill", "read", "write elsewhere", "run memory", "make runnable"}) {
        const Error e = refused(trying(what));
        EXPECT_EQ(e.code, ErrorCode::InvalidInput) << what;
        EXPECT_NE(e.message.find("signal " + std::to_string(not_allowed)), std::string::npos) << what << ": " << e.message;
        EXPECT_NE(e.message.find("Save it as a new JPEG"), std::string::npos) << what;
    }
    EXPECT_EQ(read(test::jpeg_of(64, 64, test::six_fields(64))).width_px, 64);
}

TEST(ChildRefusal, NoFileIsMade) {
    const test::ScratchFolder folder;
    const auto file = folder.path() / "made";
    EXPECT_EQ(refused(trying("create " + file.string())).code, ErrorCode::InvalidInput);
    EXPECT_FALSE(std::filesystem::exists(file));
}

TEST(ChildRefusal, FourGigabytesAreNotGiven) {
#if defined(__SANITIZE_ADDRESS__)
    GTEST_SKIP() << "the sanitizer reserves terabytes, so addresses are not limited";
#endif
    EXPECT_NE(refused(trying("allocate")).message.find("more memory"), std::string::npos);
}

TEST(ChildRefusal, AnEndlessLoopEnds) {
    const auto begun = std::chrono::steady_clock::now();
    const Error by_processor = refused(trying("loop"), {1, 60000});
    EXPECT_NE(by_processor.message.find("too long"), std::string::npos) << by_processor.message;
    EXPECT_NE(refused(trying("loop"), {60, 300}).message.find("too long"), std::string::npos) << "by the clock on the wall";
    EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(50));
}

TEST(ChildRefusal, ACrashOrALieIsAnOrdinaryRefusal) {
    for (const char* what : {"crash", "lie", "nothing", "pour"}) {
        const Error e = refused(trying(what));
        EXPECT_EQ(e.code, ErrorCode::InvalidInput) << what;
    }
#if !defined(__SANITIZE_ADDRESS__)  // which takes the signal itself
    EXPECT_NE(refused(trying("crash")).message.find("signal " + std::to_string(SIGSEGV)), std::string::npos);
#endif
}

TEST(ChildContract, SeveralAtOnceKeepApart) {
    std::vector<std::thread> threads;
    for (int t = 0; t < 4; ++t)
        threads.emplace_back([t] {
            for (int i = 0; i < 5; ++i) {
                const int side = 64 + 16 * t;
                EXPECT_EQ(read(test::jpeg_of(side, 64, test::grain())).width_px, side);
                EXPECT_FALSE(ChildReader().read(trying("open")).ok());
            }
        });
    for (auto& t : threads) t.join();
}

}  // namespace
}  // namespace hw::photo

int main(int argc, char** argv) {
    if (hw::photo::is_child(argc, argv)) hw::photo::child(argv, hw::photo::misbehave);
    ::testing::InitGoogleTest(&argc, argv);
    return RUN_ALL_TESTS();
}
