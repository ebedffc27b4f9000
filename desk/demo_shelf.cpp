// The demo's shelf: invented bottles, dated back from today so that there is always something to see to, and an invented data sheet in
// two revisions, read by the same reader as any other.
#include <cstdio>

#include "desk/demo.hpp"
#include "desk/digest.hpp"
#include "desk/shelf.hpp"
#include "desk/shelf_fold.hpp"

namespace hw::desk {

namespace {

constexpr const char* supplier = "Lindqvist Invented Works (demo)";

class DemoBottles {
public:
    explicit DemoBottles(std::int64_t today) : today_(today) {}

    void fact(const std::string& product, const std::string& key, const std::string& value) {
        ShelfEntry e = made(ShelfDid::Fact, product, 300);
        e.key = key;
        e.value = value;
        entries_.push_back(std::move(e));
    }
    std::string lot(const std::string& product, const std::string& code, double amount, int days_ago, int printed_in_days, const std::string& place) {
        ShelfEntry e = made(ShelfDid::Received, product, days_ago);
        e.code = code;
        e.amount = amount;
        e.place = place;
        e.expiry = day_text(today_ + printed_in_days);
        entries_.push_back(e);
        return e.id;
    }
    void happened(ShelfDid did, const std::string& product, const std::string& lot, int days_ago, std::optional<double> amount = std::nullopt) {
        ShelfEntry e = made(did, product, days_ago);
        e.lot = lot;
        e.amount = amount;
        entries_.push_back(std::move(e));
    }
    [[nodiscard]] const std::vector<ShelfEntry>& entries() const { return entries_; }

private:
    ShelfEntry made(ShelfDid did, const std::string& product, int days_ago) {
        ShelfEntry e;
        char text[40];
        std::snprintf(text, sizeof text, "de510000-0000-7000-8000-%012d", ++count_);
        e.id = text;
        e.did = did;
        e.product = product;
        e.at = day_text(today_ - days_ago);
        return e;
    }
    std::int64_t today_;
    int count_ = 0;
    std::vector<ShelfEntry> entries_;
};

/// Lines of text as a PDF: pages of one typeface. For the demo only; parentheses and backslashes do not occur.
std::string plain_pdf(const std::vector<std::vector<std::string>>& pages) {
    std::vector<std::string> objects{"<< /Type /Catalog /Pages 2 0 R >>", "", "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>"};
    std::string kids;
    for (const auto& lines : pages) {
        std::string content = "BT /F1 10 Tf 50 790 Td 15 TL\n";
        for (const auto& line : lines) content += "(" + line + ") Tj T*\n";
        content += "ET\n";
        const std::size_t page = objects.size() + 1;
        kids += std::to_string(page) + " 0 R ";
        objects.push_back("<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Resources << /Font << /F1 3 0 R >> >> /Contents " + std::to_string(page + 1) + " 0 R >>");
        objects.push_back("<< /Length " + std::to_string(content.size()) + " >>\nstream\n" + content + "endstream");
    }
    objects[1] = "<< /Type /Pages /Kids [ " + kids + "] /Count " + std::to_string(pages.size()) + " >>";
    std::string out = "%PDF-1.4\n", table;
    for (std::size_t i = 0; i < objects.size(); ++i) {
        char line[24];
        std::snprintf(line, sizeof line, "%010zu 00000 n \n", out.size());
        table += line;
        out += std::to_string(i + 1) + " 0 obj\n" + objects[i] + "\nendobj\n";
    }
    const std::string size = std::to_string(objects.size() + 1);
    return out + "xref\n0 " + size + "\n0000000000 65535 f \n" + table + "trailer\n<< /Size " + size + " /Root 1 0 R >>\nstartxref\n" + std::to_string(out.size()) + "\n%%EOF\n";
}

/// One revision of an invented sheet.
std::string demo_sheet(const std::string& product, const std::string& date, const std::string& signal, const std::vector<std::string>& hazards, const std::string& share, const std::string& ph) {
    std::vector<std::string> first{"SAFETY DATA SHEET - DEMO, INVENTED", "Revision date: " + date, "SECTION 1: Identification of the substance/mixture and of the company/undertaking", "Product name: " + product, std::string("Supplier: ") + "Lindqvist Invented Works",
                                   "SECTION 2: Hazards identification", "Signal word: " + signal};
    first.insert(first.end(), hazards.begin(), hazards.end());
    for (const auto& line : {std::string("SECTION 3: Composition/information on ingredients"), std::string("Chemical name     CAS No.     Concentration"), "2-butoxyethanol     111-76-2     " + share, std::string("SECTION 4: First aid measures"),
                             std::string("Rinse with water."), std::string("SECTION 5: Firefighting measures"), std::string("Water spray."), std::string("SECTION 6: Accidental release measures"), std::string("Soak up."), std::string("SECTION 7: Handling and storage"), std::string("Keep closed.")})
        first.push_back(line);
    return plain_pdf({first, {"SECTION 8: Exposure controls/personal protection", "Wear gloves.", "SECTION 9: Physical and chemical properties", "Physical state: liquid", "pH: " + ph, "SECTION 10: Stability and reactivity", "Stable.",
                              "SECTION 11: Toxicological information", "See section 2.", "SECTION 12: Ecological information", "Not known.", "SECTION 13: Disposal considerations", "Hand over as waste.", "SECTION 14: Transport information", "None.",
                              "SECTION 15: Regulatory information", "None.", "SECTION 16: Other information", "Invented for the demo workshop."}});
}

}  // namespace

Result<Done> load_demo_shelf(Ports& ports) {
    if (ports.shelf == nullptr) return Done{};
    const auto liquids = demo_liquids();
    constexpr std::size_t wanted = 4;
    if (liquids.size() < wanted) throw Bug("the demo's shelf wants four liquids");
    constexpr std::int64_t day_s = 86400;
    DemoBottles b(ports.clock.now_s() / day_s);
    const std::string &one = liquids[0].id, &two = liquids[1].id, &three = liquids[2].id, &four = liquids[3].id;
    for (const auto& id : {one, two, three, four}) {
        b.fact(id, "kind", "cleaner");
        b.fact(id, "supplier", supplier);
        b.fact(id, "lead_days", "10");
    }
    b.fact(one, "cost", "12.50 EUR per 1000");
    b.fact(one, "minimum", "250");
    const std::string past = b.lot(one, "D-101", 500, 400, -20, "metal cupboard");
    const std::string good = b.lot(one, "D-118", 1000, 60, 300, "metal cupboard");
    b.happened(ShelfDid::Opened, one, past, 200);
    b.happened(ShelfDid::Used, one, past, 90, 350);
    b.happened(ShelfDid::Opened, one, good, 15);
    b.happened(ShelfDid::Used, one, good, 6, 120);
    b.fact(two, "opened_days", "90");
    const std::string open_long = b.lot(two, "D-107", 1000, 250, 200, "bench");
    b.happened(ShelfDid::Opened, two, open_long, 120);
    b.happened(ShelfDid::Used, two, open_long, 100, 250);
    b.fact(three, "minimum", "500");
    const std::string few = b.lot(three, "D-112", 1000, 120, 240, "bench");
    b.happened(ShelfDid::Counted, three, few, 3, 180);
    b.fact(four, "use_week", "100");
    b.fact(four, "use_week_sd", "40");
    b.lot(four, "D-121", 500, 30, 25, "van");
    HW_TRY(entered, shelf_enter({b.entries()}, ports));
    static_cast<void>(entered);
    if (ports.sheets == nullptr || ports.sheet_reader == nullptr) return Done{};
    const std::int64_t today = ports.clock.now_s() / day_s;
    const std::string name = liquids[0].name;
    const std::string revisions[] = {demo_sheet(name, day_text(today - 900), "Danger", {"H318 Causes serious eye damage.", "H302 Harmful if swallowed."}, "10 - 20 %", "11.2"),
                                     demo_sheet(name, day_text(today - 40), "Warning", {"H319 Causes serious eye irritation."}, "1 - 5 %", "10.4")};
    for (const auto& bytes : revisions) {
        DigestRequest request;
        request.name = "demo sheet.pdf";
        request.keep = true;
        request.bytes = bytes;
        const auto read = digest(request, ports);
        // Without the reader's own program there is a demo all the same.
        if (!read.ok() && read.error().code == ErrorCode::Unavailable) return Done{};
        if (!read.ok()) return read.error();
        HW_TRY(row, ports.sheets->row(read->id));
        SheetRow on_shelf = row;
        on_shelf.liquid = one;
        HW_TRY(kept, ports.sheets->keep_row(on_shelf));
        static_cast<void>(kept);
    }
    return Done{};
}

}  // namespace hw::desk
