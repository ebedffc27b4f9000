// Turns one CSV table of facts into a header of constexpr rows, and refuses a row that does not say who says so.
//
//   hw_atlas_table TABLE.csv SOURCES.csv OUT.hpp
//
// A column whose name ends in a unit suffix is a number (an empty cell becomes NaN: "no value known"); any other
// column is text. A text cell that is a bare number is refused: it lacks its unit. Every table needs the columns
// source, locator and standing, and every source must stand in SOURCES.csv.

#include <array>
#include <cctype>
#include <charconv>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <set>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

namespace {

constexpr std::array unit_suffixes = {
    "_1",          "_pct",        "_k",           "_c",            "_g_mol",         "_kj_mol",   "_j_mol_k",
    "_j_k_mol",    "_kg_mol",     "_mol_kg",      "_mmol_kg",      "_mmol_g",        "_mol_m3",   "_mmol_m2",
    "_m2_s",       "_um",         "_mm",          "_m",            "_s",             "_h",        "_g_m2",
    "_kg_m3",      "_g_cm3",      "_pa",          "_mol_m3_pa",    "_mol_kg_atm",    "_ph",       "_mol_kg_ph",
    "_m_s",        "_angstrom",   "_ml",          "_g",            "_cm2",           "_mpa_half", "_c_mol",
    "_j_k",        "_j_s",        "_mg_l",        "_g_100g",       "_mmol_l",        "_per_k",    "_n",
    "_ppm",         "_m3",         "_cm",          "_m2_s",        "_kg_m2_s",    "_mg_cm2_h",    "_j_kg",         "_w_m2_k",        "_g_kg",       "_s_cm2_mol",  "_min"};

constexpr std::array standings = {"published", "common_practice", "from_memory", "derived",
                                  "estimate",  "measured",        "invented"};

[[noreturn]] void refuse(const std::string& file, std::size_t line, std::size_t column, const std::string& why) {
    std::cerr << file << ':' << line << ':' << column << ": " << why << '\n';
    std::exit(1);
}

struct Cell {
    std::string text;
    std::size_t line = 0, column = 0;
};

/// RFC 4180: quoted fields, doubled quotes, line breaks inside quotes.
std::vector<std::vector<Cell>> parse_csv(const std::string& file) {
    std::ifstream in(file, std::ios::binary);
    if (!in) refuse(file, 0, 0, "cannot be read");
    std::stringstream buffer;
    buffer << in.rdbuf();
    const std::string text = buffer.str();
    std::vector<std::vector<Cell>> rows(1);
    std::size_t line = 1, column = 1;
    bool quoted = false;
    Cell cell{"", 1, 1};
    auto end_cell = [&] { rows.back().push_back(cell); cell = Cell{"", line, column + 1}; };
    for (std::size_t i = 0; i < text.size(); ++i, ++column) {
        const char c = text[i];
        if (quoted) {
            if (c == '"' && i + 1 < text.size() && text[i + 1] == '"') { cell.text += '"'; ++i; ++column; }
            else if (c == '"') quoted = false;
            else { cell.text += c; if (c == '\n') { ++line; column = 0; } }
        } else if (c == '"') {
            if (!cell.text.empty()) refuse(file, line, column, "a quote inside an unquoted field");
            quoted = true;
        } else if (c == ',') end_cell();
        else if (c == '\r') continue;
        else if (c == '\n') { end_cell(); ++line; column = 0; cell.line = line; cell.column = 1; rows.emplace_back(); }
        else cell.text += c;
    }
    if (quoted) refuse(file, line, column, "a quoted field does not end");
    if (!cell.text.empty() || !rows.back().empty()) end_cell();
    if (rows.back().empty()) rows.pop_back();
    return rows;
}

bool is_number(std::string_view text, double& value) {
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc{} && end == text.data() + text.size();
}

bool has_unit(std::string_view column) {
    for (std::string_view suffix : unit_suffixes)
        if (column.size() > suffix.size() && column.substr(column.size() - suffix.size()) == suffix) return true;
    return false;
}

std::string quote(std::string_view text) {
    std::string out = "\"";
    for (char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (c == '\n') { out += "\\n"; continue; }
        out += c;
    }
    return out + '"';
}

std::string pascal(std::string_view stem) {
    std::string out;
    bool upper = true;
    for (char c : stem) {
        if (c == '_') { upper = true; continue; }
        out += upper ? static_cast<char>(std::toupper(static_cast<unsigned char>(c))) : c;
        upper = false;
    }
    return out;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 4) { std::cerr << "usage: hw_atlas_table TABLE.csv SOURCES.csv OUT.hpp\n"; return 2; }
    const std::string file = argv[1], sources_file = argv[2], out_file = argv[3];
    std::string stem = file.substr(file.find_last_of('/') + 1);
    stem = stem.substr(0, stem.find_last_of('.'));
    const bool is_sources = stem == "sources";

    std::set<std::string> sources;
    const auto source_rows = parse_csv(sources_file);
    for (std::size_t r = 1; r < source_rows.size(); ++r)
        if (!source_rows[r].empty() && !sources.insert(source_rows[r][0].text).second)
            refuse(sources_file, source_rows[r][0].line, 1, "source key stands twice: " + source_rows[r][0].text);

    const auto rows = parse_csv(file);
    if (rows.empty()) refuse(file, 1, 1, "an empty table");
    const auto& head = rows[0];
    std::vector<bool> numeric;
    std::size_t source_at = head.size(), locator_at = head.size(), standing_at = head.size();
    std::set<std::string> names;
    for (std::size_t c = 0; c < head.size(); ++c) {
        const std::string& name = head[c].text;
        if (name.empty()) refuse(file, 1, head[c].column, "a column without a name");
        for (char ch : name)
            if (!(std::islower(static_cast<unsigned char>(ch)) || std::isdigit(static_cast<unsigned char>(ch)) || ch == '_'))
                refuse(file, 1, head[c].column, "column names are snake_case: " + name);
        if (!names.insert(name).second) refuse(file, 1, head[c].column, "column stands twice: " + name);
        numeric.push_back(has_unit(name));
        if (name == "source") source_at = c;
        if (name == "locator") locator_at = c;
        if (name == "standing") standing_at = c;
    }
    if (!is_sources && (source_at == head.size() || locator_at == head.size() || standing_at == head.size()))
        refuse(file, 1, 1, "a table needs the columns source, locator and standing");

    std::ostringstream out;
    out << "// Generated from atlas/" << stem << ".csv. Change the table, not this file.\n#pragma once\n\n"
        << "#include <array>\n#include <limits>\n#include <string_view>\n\nnamespace hw::atlas {\n\n"
        << "struct " << pascal(stem) << "Row {\n";
    for (std::size_t c = 0; c < head.size(); ++c)
        out << "    " << (numeric[c] ? "double " : "std::string_view ") << head[c].text << ";\n";
    out << "};\n\ninline constexpr std::array<" << pascal(stem) << "Row, " << rows.size() - 1 << "> " << stem << "{{\n";
    std::set<std::string> seen_keys;
    for (std::size_t r = 1; r < rows.size(); ++r) {
        const auto& row = rows[r];
        if (row.size() != head.size())
            refuse(file, row.empty() ? r + 1 : row[0].line, 1,
                   "has " + std::to_string(row.size()) + " fields, the head has " + std::to_string(head.size()));
        out << "    {";
        for (std::size_t c = 0; c < row.size(); ++c) {
            const Cell& cell = row[c];
            double value = 0;
            if (numeric[c]) {
                if (cell.text.empty()) out << "std::numeric_limits<double>::quiet_NaN(), ";
                else if (is_number(cell.text, value)) out << cell.text << (cell.text.find_first_of(".eE") == std::string::npos ? "." : "") << ", ";
                else refuse(file, cell.line, cell.column, "not a number in column " + head[c].text + ": " + cell.text);
            } else {
                if (!is_sources && is_number(cell.text, value))
                    refuse(file, cell.line, cell.column, "a number in column " + head[c].text + ", whose name ends in no known unit");
                out << quote(cell.text) << ", ";
            }
        }
        out << "},\n";
        if (is_sources) continue;
        if (!sources.contains(row[source_at].text))
            refuse(file, row[source_at].line, row[source_at].column, "unknown source: " + row[source_at].text);
        if (row[locator_at].text.empty()) refuse(file, row[locator_at].line, row[locator_at].column, "empty locator");
        bool known = false;
        for (const char* s : standings) known = known || row[standing_at].text == s;
        if (!known) refuse(file, row[standing_at].line, row[standing_at].column, "unknown standing: " + row[standing_at].text);
    }
    out << "}};\n\n}  // namespace hw::atlas\n";
    std::ofstream(out_file, std::ios::binary) << out.str();
}
