#include "edge/pdf/catalog.hpp"

#include <cstdio>
#include <string_view>

namespace hw::pdf {

namespace {

Error unknown_layout() { return {ErrorCode::Unavailable, "The page was drawn, but its file is not laid out as expected.", "page"}; }

/// The number that follows a word, as text; empty when there is none.
std::string number_after(std::string_view text, std::string_view word) {
    auto at = text.rfind(word);
    if (at == std::string_view::npos) return {};
    at = text.find_first_not_of(" \n\r", at + word.size());
    if (at == std::string_view::npos) return {};
    return std::string(text.substr(at, text.find_first_not_of("0123456789", at) - at));
}

}  // namespace

Result<std::string> with_language(std::string pdf) {
    const auto trailer = pdf.rfind("trailer");
    const auto open = pdf.rfind("<< /Type /Catalog", trailer);
    if (trailer == std::string::npos || open == std::string::npos) return unknown_layout();
    const auto close = pdf.find("endobj", open);
    const std::string_view tail = std::string_view(pdf).substr(trailer);
    const std::string root = number_after(tail, "/Root"), size = number_after(tail, "/Size"), info = number_after(tail, "/Info"), before = number_after(tail, "startxref");
    const std::string head = root + " 0 obj\n";
    if (close == std::string::npos || root.empty() || size.empty() || info.empty() || before.empty() || open < head.size() || pdf.compare(open - head.size(), head.size(), head) != 0) return unknown_layout();
    std::string entries = pdf.substr(open, close - open);
    entries.erase(entries.rfind(">>"));
    if (entries.find("/Lang") != std::string::npos || entries.find("/MarkInfo") != std::string::npos) return unknown_layout();

    if (pdf.back() != '\n') pdf += '\n';
    char place[24];
    std::snprintf(place, sizeof place, "%010zu 00000 n \n", pdf.size());
    pdf += head + entries + "   /Lang (en-GB)\n   /MarkInfo << /Marked true >>\n   /ViewerPreferences << /DisplayDocTitle true >>\n>>\nendobj\n";
    const std::string table = std::to_string(pdf.size());
    pdf += "xref\n" + root + " 1\n" + place + "trailer\n<< /Size " + size + "\n   /Root " + root + " 0 R\n   /Info " + info + " 0 R\n   /Prev " + before + "\n>>\nstartxref\n" + table + "\n%%EOF\n";
    return pdf;
}

}  // namespace hw::pdf
