// Read the folders from A to F: a file may include what comes earlier in the alphabet, never what comes later.

#include <gtest/gtest.h>

#include <unistd.h>

#include <cctype>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

namespace {

namespace fs = std::filesystem;
const fs::path root = HW_ROOT;

std::string text_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return std::string(std::istreambuf_iterator<char>(in), {});
}

/// Every file of the project, without what building and running leave behind.
std::vector<fs::path> project_files() {
    const std::set<std::string> left_behind{".git", ".cache", "build", "data", "node_modules", "dist"};
    std::vector<fs::path> out;
    for (auto it = fs::recursive_directory_iterator(root); it != fs::recursive_directory_iterator(); ++it) {
        if (left_behind.count(it->path().filename().string()) != 0) it.disable_recursion_pending();
        else if (it->is_regular_file()) out.push_back(it->path());
    }
    return out;
}

std::vector<fs::path> code_files() {
    std::vector<fs::path> out;
    for (const auto& file : project_files())
        if (file.extension() == ".cpp" || file.extension() == ".hpp" || file.extension() == ".inc") out.push_back(file);
    return out;
}

struct Include {
    std::string path;
    bool quoted = false;
};
std::vector<Include> includes_of(const fs::path& file) {
    std::vector<Include> out;
    std::istringstream in(text_of(file));
    for (std::string line; std::getline(in, line);) {
        if (line.rfind("#include ", 0) != 0 || line.size() < 12) continue;
        const char close = line[9] == '<' ? '>' : '"';
        out.push_back({line.substr(10, line.find(close, 10) - 10), close == '"'});
    }
    return out;
}

std::string place(const fs::path& file) { return fs::relative(file, root).generic_string(); }
std::string room(const std::string& path) { return path.substr(0, path.find('/')); }
std::string folder(const std::string& path) { return path.substr(0, path.rfind('/')); }
/// edge/sheet of edge/sheet/worker/lock.cpp.
std::string door(const std::string& path) { return path.substr(0, path.find('/', path.find('/') + 1)); }
bool is_test(const std::string& path) { return path.find("_test.cpp") != std::string::npos || room(path) == "tests" || room(path) == "bench" || room(path) == "tools"; }

TEST(IncludeProperty, GoesLeftOnly) {
    int seen = 0;
    for (const auto& file : code_files()) {
        const std::string from = place(file);
        if (is_test(from)) continue;
        for (const auto& i : includes_of(file)) {
            if (!i.quoted || i.path.find('/') == std::string::npos || room(i.path) == "embedded") continue;
            ++seen;
            const std::string a = room(from), b = room(i.path);
            EXPECT_LE(b, a) << from << " includes " << i.path << ", which lies to its right";
            if (a == "core" && b == "core") { EXPECT_LE(folder(i.path), folder(from)) << from << " includes " << i.path; }
            if (a == "edge" && b == "edge" && door(from) != door(i.path)) {
                // edge/child is no door: it starts what photographs and data sheets are read in.
                EXPECT_TRUE((door(from) == "edge/http" && door(i.path) == "edge/codec") || door(i.path) == "edge/child") << from << " includes another door, " << i.path;
            }
            EXPECT_NE(b, "tests") << from;
        }
    }
    EXPECT_GT(seen, 50);
}

TEST(IncludeProperty, KeepsThirdPartyHeadersOutOfOurHeadersAndInTheirDoor) {
    // The one folder where each library may be included. What is not listed has no place yet: give it one here.
    const std::multimap<std::string, std::string> doors{{"nlohmann/", "edge/codec"}, {"sqlite3.h", "edge/store"}, {"microhttpd.h", "edge/http"}, {"zlib.h", "edge/http"}, {"CLI/", "face/cli"}, {"cairo", "edge/pdf"}, {"pango/", "edge/pdf"}, {"fontconfig/", "edge/pdf"}, {"glib.h", "edge/pdf"}, {"sodium.h", "edge/secret"}, {"qrencode.h", "edge/qr"}, {"gnutls/", "edge/tls"},
        {"gnutls/", "edge/http"},  // the network library asks for certificates in types of this one
        {"sodium/crypto_hash_sha256.h", "edge/store"}, {"jpeglib.h", "edge/photo"}, {"jerror.h", "edge/photo"}, {"png.h", "edge/photo"}, {"seccomp.h", "edge/photo"},
        {"poppler-", "edge/sheet/worker"}, {"png.h", "edge/sheet/worker"}, {"seccomp.h", "edge/sheet/worker"}, {"fontconfig/", "edge/sheet/worker"}, {"iconv.h", "edge/sheet/worker"},
        {"boost/", "core"}, {"Eigen/", "core"}};
    const std::set<std::string> of_the_system{"unistd.h", "fcntl.h", "dirent.h", "netdb.h", "poll.h", "ifaddrs.h", "pthread.h", "signal.h", "spawn.h", "termios.h"};
    int seen = 0;
    for (const auto& file : code_files()) {
        const std::string from = place(file);
        for (const auto& i : includes_of(file)) {
            if (i.quoted) continue;
            const bool standard = i.path.find('.') == std::string::npos && i.path.find('/') == std::string::npos;
            if (file.extension() == ".hpp" && room(from) != "tests") { EXPECT_TRUE(standard) << from << " includes " << i.path; }
            if (is_test(from) || standard) continue;
            ++seen;
            if (room(from) == "desk" || room(from) == "base") ADD_FAILURE() << from << " includes " << i.path;
            const bool system = of_the_system.count(i.path) != 0 || i.path.rfind("sys/", 0) == 0 || i.path.rfind("netinet/", 0) == 0 || i.path.rfind("arpa/", 0) == 0;
            if (system) { EXPECT_TRUE(room(from) == "edge" || room(from) == "face") << from << " includes " << i.path; continue; }
            bool placed = false;
            for (const auto& [header, door] : doors)
                if (i.path.rfind(header, 0) == 0) placed = placed || folder(from) == door || folder(from).rfind(door + "/", 0) == 0;
            EXPECT_TRUE(placed) << from << " includes " << i.path << ", which has no place there";
        }
    }
    EXPECT_GE(seen, 4);
}

TEST(PurityProperty, CoreAndWhatLiesLeftReadNoClockPrintNothingAndKeepNoDice) {
    for (const auto& file : code_files()) {
        const std::string from = place(file);
        if ((room(from) != "core" && room(from) != "base") || is_test(from)) continue;
        const std::string text = text_of(file);
        for (const char* word : {"std::cout", "std::cerr", "std::clog", " printf(", "fprintf(", "puts(", "fopen", "ifstream", "ofstream", "std::filesystem", "system_clock", "steady_clock", "std::time(", "random_device", "rand(", "getenv", "thread_local"})
            EXPECT_EQ(text.find(word), std::string::npos) << from << " uses " << word;
    }
}

// ---- facts carry their source ----------------------------------------------------------------------------------------

std::set<std::string> source_keys() {
    std::set<std::string> keys;
    std::istringstream sources(text_of(root / "atlas/sources.csv"));
    std::string line;
    std::getline(sources, line);
    while (std::getline(sources, line)) keys.insert(line.substr(0, line.find(',')));
    return keys;
}

TEST(AtlasProperty, InventedRowsStandInDemoTablesOnly) {
    int tables = 0;
    for (const auto& entry : fs::directory_iterator(root / "atlas")) {
        const std::string name = entry.path().filename().string();
        if (entry.path().extension() != ".csv" || name == "sources.csv") continue;
        ++tables;
        if (name.rfind("demo_", 0) == 0) continue;
        const std::string text = text_of(entry.path());
        EXPECT_FALSE(std::regex_search(text, std::regex("(^|[,\n])\"?invented\"?(,|\r?\n|$)"))) << name;
    }
    EXPECT_GT(tables, 10);
}

TEST(AtlasProperty, CodeNamesKnownSourcesOnly) {
    const auto keys = source_keys();
    // `@source key, locator` of a header comment; `"key", "locator", Standing::…` of a basis.
    const std::regex in_comment("@source ([a-z0-9_]+)"), in_basis("\"([a-z0-9_]+)\", \"[^\"\n]*\", Standing::");
    int comments = 0, bases = 0;
    for (const auto& file : code_files()) {
        if (place(file) == "base/describe.hpp" || room(place(file)) == "tests") continue;
        const std::string text = text_of(file);
        for (const auto& [pattern, count] : {std::pair{&in_comment, &comments}, std::pair{&in_basis, &bases}})
            for (auto it = std::sregex_iterator(text.begin(), text.end(), *pattern); it != std::sregex_iterator(); ++it, ++*count)
                EXPECT_TRUE(keys.count((*it)[1]) != 0) << place(file) << " names " << (*it)[1];
    }
    EXPECT_GT(comments, 5);
    EXPECT_GT(bases, 5);
}

TEST(AtlasProperty, EverySourceIsCitedSomewhere) {
    std::set<std::string> words;
    for (const auto& file : project_files()) {
        const std::string from = place(file);
        const auto e = file.extension();
        if (from == "atlas/sources.csv" || from == "docs/reference/validation.md") continue;
        if (e != ".csv" && e != ".cpp" && e != ".hpp" && e != ".inc" && e != ".md") continue;
        std::string word;
        for (const char c : text_of(file) + " ") {
            if (std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_') word += c;
            else { if (!word.empty()) words.insert(word); word.clear(); }
        }
    }
    for (const auto& key : source_keys()) EXPECT_TRUE(words.count(key) != 0) << key << " stands in sources.csv, and nothing cites it";
}

// ---- words -----------------------------------------------------------------------------------------------------------

TEST(TreeProperty, NamesNoMachine) {
    int files = 0;
    for (const auto& file : project_files()) {
        const std::string path = place(file);
        ++files;
        if (path == "tests/architecture/include_test.cpp") continue;
        const std::string text = text_of(file);
        for (const char* machine : {"/work/", "/root/", "/home/", "/tmp/", "registry.npmjs", "deb.debian.org"}) {
            if (std::string(machine) == "registry.npmjs" && path == "face/web/package-lock.json") continue;
            // An absolute path: "core/work/stock.hpp" is one of ours.
            for (auto at = text.find(machine); at != std::string::npos; at = text.find(machine, at + 1)) {
                const char before = at == 0 ? ' ' : text[at - 1];
                EXPECT_TRUE(machine[0] == '/' && (std::isalnum(static_cast<unsigned char>(before)) != 0 || before == '.' || before == '_')) << path << " names " << machine;
            }
        }
    }
    EXPECT_GT(files, 50);
}

TEST(TreeProperty, LeavesNothingForLater) {
    for (const auto& file : project_files()) {
        if (place(file) == "tests/architecture/include_test.cpp" || file.filename() == "package-lock.json" || file.extension() == ".txt") continue;
        const std::string text = text_of(file);
        for (const char* word : {"TODO", "FIXME"}) EXPECT_EQ(text.find(word), std::string::npos) << place(file) << " says " << word;
    }
}

TEST(TreeProperty, EachVerbHasOneNameEverywhere) {
    const std::string routes = text_of(root / "edge/http/app.cpp"), commands = text_of(root / "face/cli/main.cpp");
    for (const std::string verb : {"analyse", "judge"}) {
        EXPECT_TRUE(fs::exists(root / ("desk/" + verb + ".hpp"))) << verb;
        EXPECT_NE(routes.find("/api/" + verb), std::string::npos) << verb;
        EXPECT_NE(commands.find("\"" + verb + "\""), std::string::npos) << verb;
        EXPECT_TRUE(fs::exists(root / ("docs/how-to/" + verb + ".md"))) << verb;
        EXPECT_TRUE(fs::exists(root / ("face/web/src/pages/" + verb + ".svelte"))) << verb;
    }
}

// ---- the generator refuses a fact that does not say who says so -------------------------------------------------------

std::string refusal(const std::string& table) {
    const fs::path dir = fs::temp_directory_path() / ("hw_atlas_" + std::to_string(::testing::UnitTest::GetInstance()->random_seed()) + std::to_string(getpid()));
    fs::create_directories(dir);
    std::ofstream(dir / "sources.csv") << "key,citation\nbook,A Book\n";
    std::ofstream(dir / "facts.csv") << table;
    FILE* run = popen((std::string("'") + HW_ATLAS_TABLE + "' '" + (dir / "facts.csv").string() + "' '" + (dir / "sources.csv").string() + "' '" + (dir / "out.hpp").string() + "' 2>&1").c_str(), "r");
    std::string out;
    char buffer[512];
    while (std::fgets(buffer, sizeof buffer, run) != nullptr) out += buffer;
    const int status = pclose(run);
    fs::remove_all(dir);
    const auto name = out.find("facts.csv:");
    return status == 0 ? std::string("accepted") : name == std::string::npos ? out : out.substr(name + 10);
}

TEST(AtlasTableRefusal, NamesLineColumnAndReason) {
    EXPECT_EQ(refusal("name,value_m,source,locator,standing\na,1.5,book,p. 3,published\n"), "accepted");
    EXPECT_EQ(refusal("name,value_m,source,locator,standing\na,1.5,rumour,p. 3,published\n").rfind("2:7: unknown source", 0), 0U);
    EXPECT_EQ(refusal("name,value_m,source,locator,standing\na,1.5,book,,published\n").rfind("2:12: empty locator", 0), 0U);
    EXPECT_NE(refusal("name,value,source,locator,standing\na,1.5,book,p. 3,published\n").find("no known unit"), std::string::npos);
    EXPECT_NE(refusal("name,value_m,source,locator,standing\na,long,book,p. 3,published\n").find("not a number"), std::string::npos);
    EXPECT_NE(refusal("name,value_m,source,locator,standing\na,1.5,book,p. 3,hearsay\n").find("unknown standing"), std::string::npos);
    EXPECT_NE(refusal("name,value_m\na,1.5\n").find("needs the columns"), std::string::npos);
    EXPECT_EQ(refusal("name,value_m,source,locator,standing\na,1.5,book,p. 3\n").rfind("2:1: has 4 fields", 0), 0U);
    EXPECT_NE(refusal("name,name,source,locator,standing\na,b,book,p. 3,published\n").find("1:6: column stands twice"), std::string::npos);
    EXPECT_NE(refusal("Name,source,locator,standing\na,book,p. 3,published\n").find("snake_case"), std::string::npos);
    EXPECT_NE(refusal("name,source,locator,standing\n\"a,book,p. 3,published\n").find("does not end"), std::string::npos);
    // A line break inside quotes counts as a line.
    EXPECT_EQ(refusal("name,value_m,source,locator,standing\n\"a\nb\",1.5,book,p. 3,published\nc,x,book,p. 3,published\n").rfind("4:3: not a number", 0), 0U);
}

}  // namespace
