// A photograph's way from a phone to the records over HTTP: real files, the real child, a program that ends in between.
#include <gtest/gtest.h>

#include <memory>
#include <nlohmann/json.hpp>

#include "edge/codec/codec.hpp"
#include "edge/http/server.hpp"
#include "edge/photo/child.hpp"
#include "edge/photo/reader.hpp"
#include "edge/store/sha256.hpp"
#include "edge/store/sqlite_photos.hpp"
#include "tests/support/http_client.hpp"
#include "tests/support/memory_store.hpp"
#include "tests/support/pictures.hpp"
#include "tests/support/records_as_json.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw::test {
namespace {

using Json = nlohmann::json;

/// One run of the program.
struct Program {
    explicit Program(const std::string& folder)
        : store(store::SqliteStore::open(folder, records_as_json()).value()), photos(*store, reader, clock), ports{*store, clock} {
        ports.photos = &photos;
        server = http::Server::start({0, {}}, ports).value();
    }
    FixedClock clock;
    photo::ChildReader reader;
    std::unique_ptr<store::SqliteStore> store;
    store::SqlitePhotos photos;
    desk::Ports ports;
    std::unique_ptr<http::Server> server;
};

class PhotosAtTheDoor : public ::testing::Test {
protected:
    PhotosAtTheDoor() { start(); }
    void start() {
        program_.reset();
        program_ = std::make_unique<Program>(folder_.name());
    }
    [[nodiscard]] int port() const { return program_->server->port(); }
    HttpReply get(const std::string& path) { return test::get(port(), path); }
    HttpReply begin(const std::string& bytes) { return begin(store::sha256(bytes), bytes.size()); }
    HttpReply begin(const std::string& id, std::size_t size) {
        return post(port(), "/api/photos", codec::written(desk::UploadRequest{id, static_cast<int>(size), "arm.jpg", desk::Arrival::Camera}));
    }
    HttpReply send(const std::string& id, std::size_t offset, const std::string& bytes, const std::string& more = {}, const std::string& type = "application/octet-stream") {
        return ask(port(), post_text("/api/photos/" + id + "/bytes?offset=" + std::to_string(offset), bytes, more, type));
    }
    void expect_stand(const HttpReply& r, std::size_t have, bool done) {
        ASSERT_EQ(r.status, 200) << r.body;
        EXPECT_EQ(Json::parse(r.body)["have_bytes"], have);
        EXPECT_EQ(Json::parse(r.body)["done"], done);
    }

    ScratchFolder folder_;
    std::unique_ptr<Program> program_;
};
class PhotosJourney : public PhotosAtTheDoor {};
class PhotosHttpRefusal : public PhotosAtTheDoor {};

std::string phone_picture() { return jpeg_of(1200, 900, grain(), {.exif = exif_block(6, "2024:05:17 10:11:12", true), .quality = 97}); }

TEST_F(PhotosJourney, AnUploadThatIsCutGoesOnAfterTheProgramWasStartedAgain) {
    const std::string bytes = phone_picture(), id = store::sha256(bytes);
    const std::size_t piece = bytes.size() / 3;
    expect_stand(begin(bytes), 0, false);
    expect_stand(send(id, 0, bytes.substr(0, piece)), piece, false);
    {  // the phone goes out of reach in the middle of a piece: what it had sent of it is not taken
        const int fd = connected(port());
        const std::string request = post_text("/api/photos/" + id + "/bytes?offset=" + std::to_string(piece), bytes.substr(piece, piece), {}, "application/octet-stream");
        ASSERT_TRUE(send_all(fd, request.substr(0, request.size() - 1000)));
        ::close(fd);
    }
    start();
    expect_stand(begin(bytes), piece, false);
    expect_stand(send(id, piece, bytes.substr(piece, piece)), 2 * piece, false);
    expect_stand(send(id, 2 * piece, bytes.substr(2 * piece)), bytes.size(), true);
    start();
    const Json record = Json::parse(get("/api/photos/" + id).body);
    EXPECT_EQ(record["id"], id);
    EXPECT_EQ(record["width_px"], 900) << "after orientation";
    EXPECT_EQ(record["height_px"], 1200);
    EXPECT_EQ(record["orientation"], 6);
    EXPECT_EQ(record["taken_at"], "2024-05-17T10:11:12");
    EXPECT_EQ(record["arrival"], "camera");
    EXPECT_EQ(get("/api/photos/" + id + "/original").body, bytes);
    const auto screen = pixels_of(get("/api/photos/" + id + "/screen").body), small = pixels_of(get("/api/photos/" + id + "/small").body);
    EXPECT_EQ(screen.width, 900);
    EXPECT_EQ(small.height, 320);
    EXPECT_FALSE(screen.has_exif);
}

TEST_F(PhotosJourney, TheSameFileTwiceIsOnePhotograph) {
    const std::string bytes = jpeg_of(192, 128, six_fields(64)), id = store::sha256(bytes);
    expect_stand(begin(bytes), 0, false);
    expect_stand(send(id, 0, bytes), bytes.size(), true);
    expect_stand(begin(bytes), bytes.size(), true);
    expect_stand(send(id, 0, bytes), bytes.size(), true);
    EXPECT_EQ(Json::parse(get("/api/photos").body)["items"].size(), 1u);
}

TEST_F(PhotosJourney, WhatSomebodySentIsServedInert) {
    const std::string bytes = png_of(192, 128, six_fields(64)), id = store::sha256(bytes);
    ASSERT_EQ(begin(bytes).status, 200);
    ASSERT_EQ(send(id, 0, bytes).status, 200);
    for (const std::string size : {"original", "screen", "small"}) {
        const auto r = get("/api/photos/" + id + "/" + size);
        EXPECT_EQ(r.status, 200);
        EXPECT_EQ(r.headers.at("content-type"), size == "original" ? "image/png" : "image/jpeg");
        EXPECT_EQ(r.headers.at("x-content-type-options"), "nosniff");
        EXPECT_EQ(r.headers.at("content-security-policy"), "sandbox; default-src 'none'");
        EXPECT_EQ(r.headers.at("cache-control"), "private, max-age=31536000, immutable");
        EXPECT_EQ(r.headers.count("content-disposition"), size == "original" ? 1u : 0u);
        const auto again = ask(port(), get_text("/api/photos/" + id + "/" + size, "If-None-Match: " + r.headers.at("etag") + "\r\n"));
        EXPECT_EQ(again.status, 304);
    }
    EXPECT_EQ(get("/api/photos/" + id + "/original").headers.at("content-disposition"), "attachment; filename=\"" + id.substr(0, 16) + ".png\"");
    EXPECT_EQ(get("/api/photos/" + id).headers.at("cache-control"), "no-store");
}

TEST_F(PhotosHttpRefusal, AnotherHashDropsThePartAndSaysSo) {
    const std::string bytes = jpeg_of(192, 128, six_fields(64)), id = store::sha256("another");
    expect_stand(begin(id, bytes.size()), 0, false);
    const auto r = send(id, 0, bytes);
    EXPECT_EQ(r.status, 400);
    EXPECT_EQ(Json::parse(r.body)["where"], "sha256");
    EXPECT_EQ(get("/api/photos/" + id).status, 404);
    expect_stand(begin(id, bytes.size()), 0, false);
}

TEST_F(PhotosHttpRefusal, TooLongAndBeyondLoseNothing) {
    const std::string bytes = jpeg_of(192, 128, six_fields(64)), id = store::sha256(bytes);
    expect_stand(begin(bytes), 0, false);
    expect_stand(send(id, 0, bytes.substr(0, 100)), 100, false);
    EXPECT_EQ(send(id, 100, bytes.substr(100) + "x").status, 400);
    expect_stand(send(id, 200, bytes.substr(200)), 100, false);
    for (const char* offset : {"-1", "x", "", "1e3", "99999999999"}) {
        const auto r = ask(port(), post_text("/api/photos/" + id + "/bytes?offset=" + offset, "x", {}, "application/octet-stream"));
        EXPECT_EQ(r.status, 400) << offset;
        EXPECT_EQ(Json::parse(r.body)["where"], "offset");
    }
    EXPECT_EQ(begin(id, 40'000'001).status, 422);
    EXPECT_EQ(send(id, 100, std::string((1 << 20) + 1, 'x')).status, 413);
    expect_stand(begin(bytes), 100, false);
    expect_stand(send(id, 100, bytes.substr(100)), bytes.size(), true);
}

TEST_F(PhotosHttpRefusal, AnotherPageOrAnotherKindOfBodyIsTurnedAway) {
    const std::string bytes = jpeg_of(192, 128, six_fields(64)), id = store::sha256(bytes);
    ASSERT_EQ(begin(bytes).status, 200);
    EXPECT_EQ(send(id, 0, bytes, "Origin: http://evil.example\r\n").status, 403);
    EXPECT_EQ(send(id, 0, bytes, "Sec-Fetch-Site: cross-site\r\n").status, 403);
    for (const char* type : {"application/json", "text/plain", "multipart/form-data", "image/jpeg"}) EXPECT_EQ(send(id, 0, bytes, {}, type).status, 415) << type;
    EXPECT_EQ(ask(port(), post_text("/api/photos", "{}", {}, "application/octet-stream")).status, 415);
    EXPECT_EQ(get("/api/photos/" + id + "/bytes").status, 405);
    expect_stand(begin(bytes), 0, false);
}

TEST_F(PhotosHttpRefusal, APictureOfAnotherKindIsNamedWithItsFirstPiece) {
    std::string heic("\0\0\0\x18" "ftypheic", 12);
    heic.resize(5000, 'x');
    const std::string id = store::sha256(heic);
    ASSERT_EQ(begin(heic).status, 200);
    const auto r = send(id, 0, heic.substr(0, 1000));
    EXPECT_EQ(r.status, 400);
    EXPECT_NE(r.body.find("most compatible"), std::string::npos);
}

TEST_F(PhotosHttpRefusal, NamesThatAreNoHashFindNothing) {
    for (const char* path : {"/api/photos/..%2f..%2fworkshop.db", "/api/photos/x/original", "/api/photos/%00/small"}) EXPECT_EQ(get(path).status, 404) << path;
    EXPECT_EQ(send("x", 0, "x").status, 404);
    EXPECT_EQ(post(port(), "/api/photos", R"({"sha256": "x", "bytes": 3})").status, 400);
    EXPECT_EQ(post(port(), "/api/photos", R"({"bytes": 3})").status, 400);
}

}  // namespace
}  // namespace hw::test

int main(int argc, char** argv) {
    if (hw::photo::is_child(argc, argv)) hw::photo::child(argv);
    ::testing::InitGoogleTest(&argc, argv);
    return RUN_ALL_TESTS();
}
