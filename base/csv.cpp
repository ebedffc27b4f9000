#include "base/csv.hpp"

namespace hw::csv {

namespace {

constexpr std::string_view byte_order_mark = "\xef\xbb\xbf";
constexpr std::string_view formula_marks = "=+-@\t\r'";

bool is_guarded_start(std::string_view field) { return !field.empty() && formula_marks.find(field.front()) != std::string_view::npos; }

Error at_line(int line, std::string message) { return {ErrorCode::InvalidInput, std::move(message), "line " + std::to_string(line)}; }

}  // namespace

Result<std::vector<Row>> parse(std::string_view text) {
    if (text.size() > bytes_limit) return Error{ErrorCode::OutOfRange, "The table is larger than 1 MiB. Split it and take the parts one after the other.", "text"};
    if (text.substr(0, byte_order_mark.size()) == byte_order_mark) text.remove_prefix(byte_order_mark.size());
    std::vector<Row> out;
    Row row;
    std::string field;
    bool quoted = false, was_quoted = false;
    int line = 1;
    row.line = line;
    const auto end_field = [&] {
        row.fields.push_back(std::move(field));
        field.clear();
        was_quoted = false;
    };
    const auto end_row = [&] {
        const bool empty = row.fields.empty() && field.empty() && !was_quoted;
        if (!empty) {
            end_field();
            out.push_back(std::move(row));
        }
        row = Row{line, {}};
    };
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (c == '\0') return at_line(line, "The table holds a character that no text has. Save it again as CSV, UTF-8.");
        if (quoted) {
            if (c == '\n') ++line;
            if (c != '"') field += c;
            else if (i + 1 < text.size() && text[i + 1] == '"') field += text[++i];
            else quoted = false;
            continue;
        }
        if (c == '"') {
            if (!field.empty() || was_quoted) return at_line(line, "A quotation mark stands inside a field. Write it twice, and the whole field in quotation marks.");
            quoted = was_quoted = true;
        } else if (c == ',') {
            end_field();
        } else if (c == '\n' || (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n')) {
            if (c == '\r') ++i;
            ++line;
            end_row();
        } else if (was_quoted) {
            return at_line(line, "Something stands behind the closing quotation mark of a field. Put a comma there.");
        } else {
            field += c;
        }
        if (row.fields.size() > fields_limit) return Error{ErrorCode::OutOfRange, "A row has more than 64 fields. Compare it with an exported table.", "line " + std::to_string(line)};
        if (out.size() > rows_limit) return Error{ErrorCode::OutOfRange, "The table has more than 20,000 rows. Split it.", "line " + std::to_string(line)};
    }
    if (quoted) return at_line(row.line, "A quotation mark that opens in this row is never closed.");
    end_row();
    return out;
}

std::string written(const std::vector<std::string>& fields) {
    std::string out;
    for (std::size_t i = 0; i < fields.size(); ++i) {
        if (i > 0) out += ',';
        const std::string& f = fields[i];
        // A row of one empty field would be an empty line, and a byte-order mark at the beginning: both are left out on the way back.
        const bool lost = (f.empty() && fields.size() == 1) || f.compare(0, byte_order_mark.size(), byte_order_mark) == 0;
        if (f.find_first_of(",\"\r\n") == std::string::npos && !lost) {
            out += f;
            continue;
        }
        out += '"';
        for (const char c : f) out += c == '"' ? std::string("\"\"") : std::string(1, c);
        out += '"';
    }
    return out + "\r\n";
}

std::string guarded(std::string_view field) { return is_guarded_start(field) ? "'" + std::string(field) : std::string(field); }

std::string unguarded(std::string_view field) {
    if (field.size() > 1 && field.front() == '\'' && is_guarded_start(field.substr(1))) field.remove_prefix(1);
    return std::string(field);
}

}  // namespace hw::csv
