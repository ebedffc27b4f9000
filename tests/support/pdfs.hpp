// Small PDF files, written by hand: text in the reader's own typefaces, turned pages, attachments, a lock.
#pragma once

#include <cstdio>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace hw::test {

struct PdfOptions {
    int rotate = 0;                                            ///< the page's own entry, in degrees
    double turned_deg = 0;                                     ///< of the text itself, counter-clockwise; 90 runs upwards
    std::vector<std::pair<std::string, std::string>> files;    ///< attached: name, bytes; in the order of the names
    bool locked = false;                                       ///< needs a password that nobody has
    bool bare = false;                                         ///< pages without any text: as a scan
};

namespace pdf {

inline std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '(' || c == ')' || c == '\\') out += '\\';
        out += c;
    }
    return out;
}

/// One page of lines, from the top. A line that begins with `*` is bold, one with `#` larger.
inline std::string content(const std::vector<std::string>& lines, const PdfOptions& o) {
    std::string out = "BT ";
    char text[128];
    double y = 800;
    for (std::string line : lines) {
        const bool bold = !line.empty() && line[0] == '*', large = !line.empty() && line[0] == '#';
        if (bold || large) line.erase(0, 1);
        if (o.turned_deg == 90) std::snprintf(text, sizeof text, "/%s %d Tf 0 1 -1 0 %.1f 40 Tm ", bold || large ? "B" : "F", large ? 14 : 10, 842 - y);
        else std::snprintf(text, sizeof text, "/%s %d Tf 1 0 0 1 50 %.1f Tm ", bold || large ? "B" : "F", large ? 14 : 10, y);
        out += text;
        // A tab moves to the next column of a table.
        double x = 50;
        for (std::size_t from = 0;;) {
            const auto tab = line.find('\t', from);
            out += "(" + escaped(line.substr(from, tab - from)) + ") Tj ";
            if (tab == std::string::npos) break;
            from = tab + 1;
            x += 140;
            std::snprintf(text, sizeof text, "1 0 0 1 %.1f %.1f Tm ", x, y);
            out += text;
        }
        y -= large ? 22 : 14;
    }
    return out + "ET";
}

inline std::string stream(std::string_view dictionary, std::string_view bytes) {
    return "<<" + std::string(dictionary) + "/Length " + std::to_string(bytes.size()) + ">>stream\n" + std::string(bytes) + "\nendstream";
}

}  // namespace pdf

/// A file of pages of lines. Letters are those of ASCII; `\xb0` is the degree sign (WinAnsi).
inline std::string pdf_of(const std::vector<std::vector<std::string>>& pages, const PdfOptions& o = {}) {
    std::vector<std::string> objects{"", "", "<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>", "<</Type/Font/Subtype/Type1/BaseFont/Helvetica-Bold/Encoding/WinAnsiEncoding>>"};
    const auto add = [&](std::string object) {
        objects.push_back(std::move(object));
        return std::to_string(objects.size()) + " 0 R";
    };
    std::string kids;
    for (const auto& lines : pages) {
        const std::string text = add(pdf::stream("", o.bare ? "0.9 g 50 50 400 600 re f" : pdf::content(lines, o)));
        kids += add("<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]/Rotate " + std::to_string(o.rotate) + "/Contents " + text + "/Resources<</Font<</F 3 0 R/B 4 0 R>>>>>>") + " ";
    }
    std::string names;
    for (const auto& [name, bytes] : o.files) {
        const bool xml = name.size() > 4 && name.compare(name.size() - 4, 4, ".xml") == 0;
        const std::string file = add(pdf::stream("/Type/EmbeddedFile" + std::string(xml ? "/Subtype/text#2Fxml" : "") + "/Params<</Size " + std::to_string(bytes.size()) + ">>", bytes));
        names += "(" + name + ")" + add("<</Type/Filespec/F(" + name + ")/UF(" + name + ")/EF<</F " + file + ">>>>") + " ";
    }
    objects[0] = "<</Type/Catalog/Pages 2 0 R" + (names.empty() ? "" : "/Names<</EmbeddedFiles<</Names[" + names + "]>>>>") + ">>";
    objects[1] = "<</Type/Pages/Kids[" + kids + "]/Count " + std::to_string(pages.size()) + ">>";
    std::string lock;
    if (o.locked) lock = "/ID[<00112233445566778899aabbccddeeff><00112233445566778899aabbccddeeff>]/Encrypt " + add("<</Filter/Standard/V 1/R 2/P -4/O<" + std::string(64, 'a') + ">/U<" + std::string(64, 'b') + ">>>");
    std::string out = "%PDF-1.7\n", table;
    char row[32];
    for (std::size_t i = 0; i < objects.size(); ++i) {
        std::snprintf(row, sizeof row, "%010zu 00000 n \n", out.size());
        table += row;
        out += std::to_string(i + 1) + " 0 obj\n" + objects[i] + "\nendobj\n";
    }
    const std::string count = std::to_string(objects.size() + 1);
    const std::string at = std::to_string(out.size());
    return out + "xref\n0 " + count + "\n0000000000 65535 f \n" + table + "trailer<</Size " + count + "/Root 1 0 R" + lock + ">>\nstartxref\n" + at + "\n%%EOF\n";
}

/// An invented sheet of all sixteen sections, on two pages.
inline std::vector<std::vector<std::string>> sheet_lines() {
    return {{"#SAFETY DATA SHEET", "according to Regulation (EC) No 1907/2006", "Revision date: 2024-03-05    Version: 3.1", "",
             "*SECTION 1: Identification of the substance/mixture and of the company/undertaking", "Product name: Workshop degreaser 40", "Supplier: Lindqvist Invented Works",
             "*SECTION 2: Hazards identification", "Signal word: Danger", "H314 Causes severe skin burns and eye damage.", "P280 Wear protective gloves/protective clothing/eye protection/face protection.",
             "*SECTION 3: Composition/information on ingredients", "Chemical name\tCAS No.\tConcentration", "2-aminoethanol\t141-43-5\t1 - 5 %", "2-butoxyethanol\t111-76-2\t5 - 10 %",
             "*SECTION 4: First aid measures", "After skin contact: rinse with water.", "*SECTION 5: Firefighting measures", "Water spray.", "*SECTION 6: Accidental release measures", "Soak up.",
             "*SECTION 7: Handling and storage", "Keep in the closed bottle."},
            {"*SECTION 8: Exposure controls/personal protection", "2-aminoethanol 141-43-5 EU TWA 1 ppm 2.5 mg/m3", "*SECTION 9: Physical and chemical properties", "Physical state: liquid", "pH: 12.0 - 12.6 (20 \xb0" "C)",
             "Flash point: > 62 \xb0" "C", "Density: 1.02 g/cm3 (20 \xb0" "C)", "*SECTION 10: Stability and reactivity", "Incompatible materials: acids, oxidising agents.", "*SECTION 11: Toxicological information", "See section 2.",
             "*SECTION 12: Ecological information", "Not known.", "*SECTION 13: Disposal considerations", "Hand over as hazardous waste.", "*SECTION 14: Transport information", "UN number: 1719", "*SECTION 15: Regulatory information", "None.",
             "*SECTION 16: Other information", "None."}};
}

}  // namespace hw::test
