#include "face/cli/shelf.hpp"

#include <algorithm>

#include "desk/print.hpp"
#include "desk/shelf_fold.hpp"
#include "edge/codec/codec.hpp"

namespace hw::cli {

namespace {

std::string text_of(const desk::ShelfAnswer& a) {
    std::string out = a.sentence + "\n";
    for (const auto& t : a.to_see) out += "  ! " + t.sentence + "\n";
    if (a.to_see_more > 0) out += "  and " + std::to_string(a.to_see_more) + " more\n";
    if (!a.products.empty()) out += "\n";
    for (const auto& p : a.products) {
        out += p.product + "  " + p.name + (p.kind.empty() ? "" : ", " + p.kind);
        if (!p.in_hand.empty()) out += "  " + p.in_hand + " in hand";
        if (!p.take_next.empty()) out += ". " + p.take_next;
        out += "\n";
    }
    if (!a.after.empty()) out += "More: --after " + a.after + "\n";
    return out;
}

std::string text_of(const desk::ProductAnswer& a) {
    std::string out = a.name + (a.kind.empty() ? "" : ", " + a.kind) + " (" + a.product + ")\n" + a.sentence + "\n";
    for (const auto& t : a.to_see) out += "  ! " + t.sentence + "\n";
    if (!a.take_next.empty()) out += a.take_next + "\n";
    out += a.reorder.sentence + "\n";
    for (const auto& m : a.mixed) out += m.sentence + "\n";
    for (const auto& l : a.lots) out += "Lot " + (l.code.empty() ? "without a code" : l.code) + ", " + l.left_words + (l.place.empty() ? "" : ", " + l.place) + ". " + l.sentence + (l.note.empty() ? "" : " " + l.note) + "\n";
    for (const auto& f : a.facts)
        if (!f.words.empty() && f.key != "name") out += f.name + ": " + f.words + (f.said.empty() ? "" : " (" + f.said + ")") + (f.otherwise.empty() ? "" : "; " + f.otherwise) + "\n";
    for (const auto& s : a.sheets) {
        out += "Data sheet " + s.id.substr(0, 12) + (s.revision_date.empty() ? " without a date" : " of " + s.revision_date) + (s.used ? ", the one that counts" : "") + "\n";
        for (const auto& f : s.flags) out += "  ! " + f + "\n";
    }
    if (a.changes) {
        out += a.changes->sentence + "\n";
        for (const auto& c : a.changes->changes) out += "  " + c.sentence + "\n";
        if (!a.told_sentence.empty()) out += a.told_sentence + "\n";
    }
    for (const auto& l : a.lines) out += l.at.substr(0, 10) + "  " + l.sentence + (l.by.empty() ? "" : " " + l.by) + (l.stands ? "" : " (taken back)") + "  " + l.id + "\n";
    return out;
}

std::string text_of(const desk::ImportAnswer& a) {
    std::string out = a.sentence + "\n";
    for (const auto& l : a.lines) {
        const bool refused = l.kind == desk::ImportLineKind::Refused;
        out += "line " + std::to_string(l.line) + (l.column.empty() ? "" : ", " + l.column) + ": " + (refused ? "refused. " : "") + l.sentence + "\n";
    }
    return out;
}

template <class Answer>
Result<std::string> shown(const Result<Answer>& answer, bool json) {
    if (!answer.ok()) return answer.error();
    return json ? codec::written(*answer) + "\n" : text_of(*answer);
}

Error say_what() { return {ErrorCode::InvalidInput, std::string("Say one of: ") + shelf_words + ".", "shelf"}; }

/// By id or by code, of one product. Empty stays empty: the lot to take next.
Result<std::string> lot_id(const std::string& product, const std::string& typed, desk::Ports& ports) {
    if (typed.empty()) return std::string();
    HW_TRY(answer, desk::shelf_product(product, ports));
    for (const auto& l : answer.lots)
        if (l.id == typed || l.code == typed) return l.id;
    return Error{ErrorCode::NotFound, "There is no lot \"" + typed + "\" of this product. hidewright shelf show lists them.", "lot"};
}

struct Did {
    const char* word;
    desk::ShelfDid did;
    std::size_t least, most;                      ///< words, the first one too
};
constexpr Did dids[] = {{"new", desk::ShelfDid::Fact, 2, 2}, {"say", desk::ShelfDid::Fact, 4, 4}, {"received", desk::ShelfDid::Received, 3, 3}, {"opened", desk::ShelfDid::Opened, 2, 2}, {"used", desk::ShelfDid::Used, 3, 3},
                        {"counted", desk::ShelfDid::Counted, 3, 3}, {"thrown_away", desk::ShelfDid::ThrownAway, 2, 3}, {"mixed", desk::ShelfDid::Mixed, 2, 2}, {"told", desk::ShelfDid::Told, 4, 4}, {"take_back", desk::ShelfDid::TakeBack, 3, 3}};

const Did* did_of(const ShelfOrder& order) {
    for (const auto& d : dids)
        if (!order.words.empty() && order.words[0] == d.word) return &d;
    return nullptr;
}

Result<desk::ProductAnswer> enter(const ShelfOrder& order, const Did& did, desk::Ports& ports) {
    const auto& w = order.words;
    if (w.size() < did.least || w.size() > did.most) return say_what();
    desk::ShelfEntry e;
    e.did = did.did;
    e.at = order.on;
    if (w[0] == "new") {
        e.product = ports.shelf->new_id();
        e.key = "name";
        e.value = w[1];
        return desk::shelf_enter({{e}}, ports);
    }
    HW_TRY(product, desk::shelf_find(w[1], ports));
    e.product = product.id;
    HW_TRY(lot, lot_id(product.id, order.lot, ports));
    if (e.did != desk::ShelfDid::Received) e.lot = lot;
    if (w[0] == "say") {
        e.key = w[2];
        e.value = w[3];
        e.how = order.measured ? desk::CorrectedBy::Measured : desk::CorrectedBy::Typed;
    } else if (w[0] == "told") {
        // As it is shown: the beginning of the id is enough.
        HW_TRY(whole, desk::shelf_product(product.id, ports));
        const auto sheet = std::find_if(whole.sheets.begin(), whole.sheets.end(), [&](const desk::SheetOnShelf& s) { return !w[2].empty() && s.id.rfind(w[2], 0) == 0; });
        e.sheet = sheet == whole.sheets.end() ? w[2] : sheet->id;
        e.person = w[3];
    } else if (w[0] == "take_back") {
        e.lot.clear();
        e.takes_back = w[2];
    } else if (w.size() == 3) {
        e.amount = desk::typed_number(w[2]);
        if (!e.amount) return Error{ErrorCode::InvalidInput, "Write the amount as a number, like 50.", "amount"};
    }
    e.code = order.code;
    e.expiry = order.expiry;
    e.place = order.place;
    e.piece = order.piece;
    return desk::shelf_enter({{e}}, ports);
}

Result<std::string> labels(const ShelfOrder& order, desk::Ports& ports) {
    const auto paper = desk::parse_paper(order.paper);
    if (!paper.ok()) return paper.error();
    std::vector<std::string> wanted;
    if (order.words.size() == 2) {
        HW_TRY(product, desk::shelf_find(order.words[1], ports));
        wanted.push_back(product.id);
    }
    HW_TRY(all, desk::shelf_labels(wanted, order.address, ports));
    return ports.printer->labels(all, ports.clock.now_utc(), *paper);
}

}  // namespace

bool changes_shelf(const ShelfOrder& order) { return did_of(order) != nullptr || (!order.words.empty() && order.words[0] == "import" && order.take); }

Result<std::string> carry_out_shelf(const ShelfOrder& order, desk::Ports& ports) {
    if (ports.shelf == nullptr) return Error{ErrorCode::Unavailable, "There is no shelf without records. Give them with --data FOLDER, or start hidewright serve once.", "data"};
    const auto& w = order.words;
    if (w.empty() || (w.size() == 1 && w[0] == "list")) return shown(desk::shelf(order.after, order.limit, ports), order.json);
    if (const Did* did = did_of(order)) return shown(enter(order, *did, ports), order.json);
    if (w[0] == "export" && w.size() == 2 && w[1] == "products") return desk::shelf_products_table(ports);
    if (w[0] == "export" && w.size() == 2 && w[1] == "lots") return desk::shelf_lots_table(ports);
    if (w[0] == "import" && w.size() == 2) {
        const auto answer = desk::shelf_import({order.text, order.take}, ports);
        if (answer.ok() && answer->refused > 0 && order.take && !order.json) return Error{ErrorCode::InvalidInput, text_of(*answer), "table"};
        return shown(answer, order.json);
    }
    if (w[0] == "labels" && w.size() <= 2) return labels(order, ports);
    if (w.size() != 2 || (w[0] != "show" && w[0] != "find")) return say_what();
    HW_TRY(product, desk::shelf_find(w[1], ports));
    if (w[0] == "find") return order.json ? codec::written(product) + "\n" : product.id + "  " + product.name + "\n";
    return shown(desk::shelf_product(product.id, ports), order.json);
}

}  // namespace hw::cli
