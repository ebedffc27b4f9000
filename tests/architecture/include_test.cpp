// Read the folders from A to F: a file may include what comes earlier in the alphabet, never what comes later.

#include <gtest/gtest.h>

#include <cstdio>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;
const fs::path root = HW_ROOT;

std::string text_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return std::string(std::istreambuf_iterator<char>(in), {});
}

std::vector<fs::path> code_files() {
    std::vector<fs::path> out;
    for (const char* room : {"base", "core", "desk", "edge", "face", "tools", "bench", "tests"})
        for (auto it = fs::recursive_directory_iterator(root / room); it != fs::recursive_directory_iterator(); ++it) {
            if (it->path().filename() == "node_modules") { it.disable_recursion_pending(); continue; }
            const auto e = it->path().extension();
            if (e == ".cpp" || e == ".hpp") out.push_back(it->path());
        }
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
            if (a == "edge" && b == "edge" && folder(from) != folder(i.path)) {
                EXPECT_TRUE(folder(from) == "edge/http" && folder(i.path) == "edge/codec") << from << " includes another door, " << i.path;
            }
            EXPECT_NE(b, "tests") << from;
        }
    }
    EXPECT_GT(seen, 50);
}

TEST(IncludeProperty, KeepsThirdPartyHeadersOutOfOurHeadersAndInTheirDoor) {
    const std::map<std::string, std::string> doors{{"nlohmann/", "edge/codec"}, {"sqlite3.h", "edge/store"}, {"microhttpd.h", "edge/http"}, {"CLI/", "face/cli"}};
    for (const auto& file : code_files()) {
        const std::string from = place(file);
        for (const auto& i : includes_of(file)) {
            if (i.quoted) continue;
            const bool standard = i.path.find('.') == std::string::npos && i.path.find('/') == std::string::npos;
            if (file.extension() == ".hpp" && room(from) != "tests") { EXPECT_TRUE(standard) << from << " includes " << i.path; }
            if (is_test(from)) continue;
            for (const auto& [header, door] : doors)
                if (i.path.rfind(header, 0) == 0) { EXPECT_EQ(folder(from), door) << from << " includes " << i.path; }
            if (room(from) == "desk" || room(from) == "base") { EXPECT_TRUE(standard) << from << " includes " << i.path; }
        }
    }
}

TEST(PurityProperty, CoreReadsNoClockPrintsNothingAndKeepsNoDice) {
    for (const auto& file : code_files()) {
        const std::string from = place(file);
        if ((room(from) != "core" && room(from) != "base") || is_test(from)) continue;
        const std::string text = text_of(file);
        for (const char* word : {"std::cout", "std::cerr", "printf(", "fopen", "system_clock", "steady_clock", "random_device", "rand(", "ifstream", "getenv"})
            EXPECT_EQ(text.find(word), std::string::npos) << from << " uses " << word;
    }
}

TEST(AtlasProperty, InventedRowsStandInDemoTablesOnlyAndSourcesInTheCodeAreKnown) {
    std::set<std::string> keys;
    std::istringstream sources(text_of(root / "atlas/sources.csv"));
    for (std::string line; std::getline(sources, line);) keys.insert(line.substr(0, line.find(',')));
    int tables = 0;
    for (const auto& entry : fs::directory_iterator(root / "atlas")) {
        if (entry.path().extension() != ".csv") continue;
        ++tables;
        if (entry.path().filename().string().rfind("demo_", 0) == 0 || entry.path().stem() == "sources") continue;
        EXPECT_EQ(text_of(entry.path()).find(",invented\n"), std::string::npos) << entry.path();
    }
    EXPECT_GT(tables, 10);
    // `@source key` in headers.
    for (const auto& file : code_files()) {
        if (file.extension() != ".hpp") continue;
        const std::string text = text_of(file);
        for (std::size_t at = text.find("@source "); at != std::string::npos; at = text.find("@source ", at + 1)) {
            const std::size_t start = at + 8, end = text.find_first_of(", ;\n.", start);
            if (place(file) == "base/describe.hpp" || text[start] == '`') continue;
            EXPECT_TRUE(keys.count(text.substr(start, end - start))) << place(file) << ": " << text.substr(start, end - start);
        }
    }
}

TEST(TreeProperty, NamesNoMachine) {
    FILE* git = popen(("git -C '" + root.string() + "' ls-files 2>/dev/null").c_str(), "r");
    ASSERT_NE(git, nullptr);
    char line[4096];
    int files = 0;
    while (std::fgets(line, sizeof line, git) != nullptr) {
        std::string path(line);
        path.pop_back();
        ++files;
        if (path.find("/dist/") != std::string::npos || path == "tests/architecture/include_test.cpp") continue;
        const std::string text = text_of(root / path);
        for (const char* machine : {"/wor" "k/", "/roo" "t/", "/hom" "e/", "registry.npm" "js", "deb.debia" "n.org"})
            EXPECT_EQ(text.find(machine), std::string::npos) << path << " names " << machine;
    }
    pclose(git);
    EXPECT_GT(files, 50);
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
}

}  // namespace
