#include "desk/shelf_tables.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "base/csv.hpp"
#include "desk/entries.hpp"
#include "desk/ports.hpp"
#include "desk/shelf_now.hpp"

namespace hw::desk {

namespace {

const std::vector<std::string> product_columns{"id", "name", "kind", "supplier", "unit", "cost_minor", "currency", "cost_per", "voc_g_l", "voc_from", "lead_days", "minimum", "use_week", "use_week_sd", "mix", "pot_life_min", "unopened_days", "opened_days", "note"};
const std::vector<std::string> lot_columns{"id", "product", "code", "received", "opened", "expiry", "left", "place"};

std::string guarded_row(const std::vector<std::string>& fields) {
    std::vector<std::string> out;
    for (const auto& f : fields) out.push_back(csv::guarded(f));
    return csv::written(out);
}

bool is_money(const std::string& column) { return column == "cost_minor" || column == "currency" || column == "cost_per"; }

/// What a product's column says now. Only what people said: what comes from a sheet is not written out as if it were typed.
std::string product_field(const ProductState& p, const std::string& column) {
    if (column == "id") return p.name.id;
    if (column == "name") return p.name.name;
    if (column == "voc_from") {
        const auto it = p.fold.facts.find("voc_g_l");
        return it == p.fold.facts.end() ? "" : it->second.from == FactFrom::Measured ? "measured" : "typed";
    }
    if (!is_money(column)) return said_value(p.fold, column);
    const auto cost = parse_cost(said_value(p.fold, "cost"));
    if (!cost) return {};
    return column == "currency" ? cost->currency : column == "cost_per" ? exact(cost->per) : std::to_string(cost->minor);
}

std::string lot_field(const ProductState& p, const LotFold& l, const std::string& column) {
    if (column == "id") return l.id;
    if (column == "product") return p.name.id;
    if (column == "code") return l.code;
    if (column == "received") return day_text(l.bottle.received_day);
    if (column == "opened") return l.bottle.opened_day ? day_text(*l.bottle.opened_day) : "";
    if (column == "expiry") return l.expiry;
    if (column == "left") return exact(l.left);
    return l.place;
}

/// One row by the names of its columns.
struct Given {
    int line = 0;
    std::map<std::string, std::string> fields;
    [[nodiscard]] bool has(const std::string& column) const { return fields.count(column) > 0; }
    [[nodiscard]] std::string at(const std::string& column) const {
        const auto it = fields.find(column);
        return it == fields.end() ? "" : it->second;
    }
};

struct Refusal {
    std::string column, remedy;
};

/// What one row asks for, as entries; or why not.
struct Asked {
    ImportLineKind kind = ImportLineKind::Same;
    std::string sentence;
    std::vector<ShelfEntry> entries;
    std::optional<Refusal> refusal;
};

Asked refused(std::string column, std::string remedy) {
    Asked out;
    out.kind = ImportLineKind::Refused;
    out.sentence = remedy;
    out.refusal = Refusal{std::move(column), std::move(remedy)};
    return out;
}

class Import {
public:
    Import(const std::vector<ProductState>& products, Ports& ports) : products_(products), ports_(ports) {
        for (const auto& p : products_) {
            by_id_[p.name.id] = &p;
            for (const auto& l : p.fold.lots) lots_[l.id] = {&p, &l};
        }
    }

    Asked product(const Given& row) {
        const std::string id = row.at("id");
        const auto there = by_id_.find(id);
        const ProductState* now = there == by_id_.end() ? nullptr : there->second;
        if (id.empty() && row.at("name").empty()) return refused("name", "Give the product a name.");
        if (!id.empty() && !seen_.insert(id).second) return refused("id", "This product stands twice in the table. Remove one line.");
        if (now == nullptr && row.at("name").empty()) return refused("name", "Give the new product a name.");
        Asked out;
        const std::string product = id.empty() ? ports_.shelf->new_id() : id;
        std::vector<std::string> changed;
        const auto say = [&](const std::string& key, const std::string& value, CorrectedBy how) {
            ShelfEntry e;
            e.id = ports_.shelf->new_id();
            e.did = ShelfDid::Fact;
            e.product = product;
            e.key = key;
            e.value = value;
            e.how = how;
            out.entries.push_back(std::move(e));
            changed.push_back(key);
        };
        for (const auto& column : product_columns) {
            if (column == "id" || column == "voc_from" || !row.has(column) || is_money(column)) continue;
            const std::string before = now == nullptr ? "" : product_field(*now, column), value = row.at(column);
            const bool how_differs = column == "voc_g_l" && row.has("voc_from") && !value.empty() && row.at("voc_from") != (now == nullptr ? "" : product_field(*now, "voc_from"));
            if (value == before && !how_differs) continue;
            if (const auto good = may_say(column, value); !good.ok()) return refused(column, good.error().message);
            if (column != "voc_g_l") {
                say(column, value, CorrectedBy::Typed);
                continue;
            }
            const std::string from = row.at("voc_from");
            if (!from.empty() && from != "typed" && from != "measured") return refused("voc_from", "Say typed or measured.");
            // What is measured outranks what is typed: it is taken back where the table says typed, or nothing.
            if (now != nullptr && product_field(*now, "voc_from") == "measured" && from != "measured") say(column, "", CorrectedBy::Measured);
            say(column, value, from == "measured" ? CorrectedBy::Measured : CorrectedBy::Typed);
        }
        if (const auto bad = money(row, now, say)) return refused(bad->column, bad->remedy);
        if (out.entries.empty()) return out;
        out.kind = now == nullptr ? ImportLineKind::New : ImportLineKind::Changed;
        out.sentence = now == nullptr ? "New: " + row.at("name") + "." : now->name.name + ": " + joined(changed) + ".";
        return out;
    }

    Asked lot(const Given& row) {
        const std::string id = row.at("id"), product = row.at("product");
        if (!id.empty() && !is_uuid(id)) return refused("id", "The id of a lot is a UUID. Leave it empty for a new lot.");
        if (!id.empty() && !seen_.insert(id).second) return refused("id", "This lot stands twice in the table. Remove one line.");
        if (by_id_.count(product) == 0) return refused("product", "There is no product \"" + product.substr(0, 64) + "\". Take in the table of products first.");
        for (const char* column : {"code", "expiry", "place"})
            if (const auto good = may_say_of_lot(column, row.at(column)); !good.ok()) return refused(column, good.error().message);
        const auto left = typed_number(row.at("left"));
        if (row.has("left") && (!left || *left < 0 || *left > 1e9)) return refused("left", "Write how much is left as a number, like 500.");
        for (const char* column : {"received", "opened"})
            if (const std::string day = row.at(column); !day.empty() && (day.size() != 10 || !day_of(day))) return refused(column, "Write the day like 2026-01-02.");
        const auto there = id.empty() ? lots_.end() : lots_.find(id);
        if (there != lots_.end()) return changed_lot(row, *there->second.first, *there->second.second, left);
        if (!left || *left <= 0) return refused("left", "Say how much of the new lot there is.");
        if (row.at("received").empty()) return refused("received", "Say on which day the new lot came.");
        Asked out;
        out.kind = ImportLineKind::New;
        out.sentence = "New: lot " + row.at("code") + " of " + by_id_[product]->name.name + ", " + exact(*left) + " " + unit_of(by_id_[product]->fold) + ".";
        ShelfEntry e;
        e.id = id.empty() ? ports_.shelf->new_id() : id;
        e.did = ShelfDid::Received;
        e.product = product;
        e.at = row.at("received");
        e.code = row.at("code");
        e.expiry = row.at("expiry");
        e.place = row.at("place");
        e.amount = left;
        out.entries.push_back(e);
        if (!row.at("opened").empty()) out.entries.push_back(opened(e.product, e.id, row.at("opened")));
        return out;
    }

private:
    static std::string joined(const std::vector<std::string>& keys) {
        std::string out;
        for (const auto& k : keys)
            if (out.find(k) == std::string::npos) out += (out.empty() ? "" : ", ") + k;
        return out;
    }

    template <class Say>
    std::optional<Refusal> money(const Given& row, const ProductState* now, const Say& say) {
        if (!row.has("cost_minor") && !row.has("currency") && !row.has("cost_per")) return std::nullopt;
        const auto wanted = [&](const std::string& column) { return row.has(column) || now == nullptr ? row.at(column) : product_field(*now, column); };
        const auto same = [&](const std::string& column) { return wanted(column) == (now == nullptr ? "" : product_field(*now, column)); };
        if (same("cost_minor") && same("currency") && same("cost_per")) return std::nullopt;
        const std::string minor = wanted("cost_minor"), currency = wanted("currency"), per = wanted("cost_per");
        if (minor.empty() && currency.empty() && per.empty()) {
            say("cost", "", CorrectedBy::Typed);
            return std::nullopt;
        }
        constexpr std::size_t digits_most = 15;
        if (minor.empty() || minor.size() > digits_most || !std::all_of(minor.begin(), minor.end(), [](char c) { return c >= '0' && c <= '9'; })) return Refusal{"cost_minor", "Write the cost in whole minor units: 1250 for 12.50."};
        const auto amount = typed_number(per.empty() ? "1" : per);
        if (!amount || *amount <= 0) return Refusal{"cost_per", "Say how much of the product it buys, as a number."};
        const std::string text = cost_text({std::stoll(minor), currency, *amount});
        if (!parse_cost(text)) return Refusal{"currency", "Write the currency in three capital letters, like EUR."};
        say("cost", text, CorrectedBy::Typed);
        return std::nullopt;
    }

    ShelfEntry opened(const std::string& product, const std::string& lot, const std::string& day) {
        ShelfEntry e;
        e.id = ports_.shelf->new_id();
        e.did = ShelfDid::Opened;
        e.product = product;
        e.lot = lot;
        e.at = day;
        return e;
    }

    Asked changed_lot(const Given& row, const ProductState& p, const LotFold& l, const std::optional<double>& left) {
        if (p.name.id != row.at("product")) return refused("product", "This lot belongs to another product. Leave the id empty for a new lot.");
        Asked out;
        std::vector<std::string> changed;
        const auto make = [&](ShelfDid did) {
            ShelfEntry e;
            e.id = ports_.shelf->new_id();
            e.did = did;
            e.product = p.name.id;
            if (did != ShelfDid::TakeBack) e.lot = l.id;
            return e;
        };
        for (const std::string column : {"code", "received", "expiry", "place"}) {
            if (!row.has(column) || row.at(column) == lot_field(p, l, column)) continue;
            if (column == "received" && row.at(column).empty()) return refused("received", "A lot keeps the day on which it came. Write it like 2026-01-02.");
            ShelfEntry e = make(ShelfDid::Fact);
            e.key = column;
            e.value = row.at(column);
            out.entries.push_back(std::move(e));
            changed.push_back(column);
        }
        if (row.has("opened") && row.at("opened") != lot_field(p, l, "opened")) {
            if (!l.opened_entry.empty()) {
                ShelfEntry back = make(ShelfDid::TakeBack);
                back.takes_back = l.opened_entry;
                out.entries.push_back(std::move(back));
            }
            if (!row.at("opened").empty()) out.entries.push_back(opened(p.name.id, l.id, row.at("opened")));
            changed.push_back("opened");
        }
        if (left && *left != l.left) {
            ShelfEntry e = make(ShelfDid::Counted);
            e.amount = left;
            out.entries.push_back(std::move(e));
            changed.push_back("left");
        }
        if (changed.empty()) return out;
        out.kind = ImportLineKind::Changed;
        out.sentence = "Lot " + (l.code.empty() ? l.id.substr(0, 8) : l.code) + " of " + p.name.name + ": " + joined(changed) + ".";
        return out;
    }

    const std::vector<ProductState>& products_;
    Ports& ports_;
    std::map<std::string, const ProductState*> by_id_;
    std::map<std::string, std::pair<const ProductState*, const LotFold*>> lots_;
    std::set<std::string> seen_;
};

/// Which table it is by its first line. @error InvalidInput
Result<std::string> table_of(const csv::Row& head) {
    const auto& f = head.fields;
    const bool lots = std::find(f.begin(), f.end(), "product") != f.end(), products = std::find(f.begin(), f.end(), "name") != f.end();
    if (lots == products) return Error{ErrorCode::InvalidInput, "The first line names the columns: \"name\" in a table of products, \"product\" in one of lots. Export one to see all of them.", "line 1"};
    const auto& known = lots ? lot_columns : product_columns;
    std::set<std::string> seen;
    for (const auto& column : f) {
        if (std::find(known.begin(), known.end(), column) == known.end()) return Error{ErrorCode::InvalidInput, "There is no column \"" + column.substr(0, 40) + "\". Take it out, or name it as an exported table does.", "line 1"};
        if (!seen.insert(column).second) return Error{ErrorCode::InvalidInput, "The column \"" + column + "\" stands twice. Take one out.", "line 1"};
    }
    return std::string(lots ? "lots" : "products");
}

}  // namespace

Result<std::string> shelf_products_table(Ports& ports) {
    HW_TRY(products, all_products(ports));
    std::string out = csv::written(product_columns);
    for (const auto& p : products) {
        std::vector<std::string> fields;
        for (const auto& column : product_columns) fields.push_back(product_field(p, column));
        out += guarded_row(fields);
    }
    return out;
}

Result<std::string> shelf_lots_table(Ports& ports) {
    HW_TRY(products, all_products(ports));
    std::string out = csv::written(lot_columns);
    for (const auto& p : products) {
        std::vector<LotFold> lots = p.fold.lots;
        std::sort(lots.begin(), lots.end(), [](const LotFold& a, const LotFold& b) { return a.id < b.id; });
        for (const auto& l : lots) {
            if (l.left <= 0) continue;
            std::vector<std::string> fields;
            for (const auto& column : lot_columns) fields.push_back(lot_field(p, l, column));
            out += guarded_row(fields);
        }
    }
    return out;
}

Result<ImportAnswer> shelf_import(const ImportRequest& request, Ports& ports) {
    if (ports.shelf == nullptr) return no_shelf();
    HW_TRY(rows, csv::parse(request.text));
    if (rows.empty()) return Error{ErrorCode::InvalidInput, "The table is empty. Its first line names the columns.", "text"};
    HW_TRY(table, table_of(rows.front()));
    HW_TRY(products, all_products(ports));
    const auto& head = rows.front().fields;
    ImportAnswer out;
    out.table = table;
    Import import(products, ports);
    std::vector<ShelfEntry> entries;
    for (std::size_t i = 1; i < rows.size(); ++i) {
        Given given{rows[i].line, {}};
        Asked asked;
        if (rows[i].fields.size() != head.size()) {
            asked = refused("", "This line has " + std::to_string(rows[i].fields.size()) + " fields, the first one " + std::to_string(head.size()) + ". Put the missing commas in, or quotation marks round a field with commas.");
        } else {
            for (std::size_t c = 0; c < head.size(); ++c) given.fields[head[c]] = csv::unguarded(rows[i].fields[c]);
            asked = table == "lots" ? import.lot(given) : import.product(given);
        }
        ++(asked.kind == ImportLineKind::New ? out.fresh : asked.kind == ImportLineKind::Changed ? out.changed : asked.kind == ImportLineKind::Same ? out.same : out.refused);
        if (asked.kind != ImportLineKind::Same) out.lines.push_back({rows[i].line, asked.kind, asked.refusal ? asked.refusal->column : "", asked.sentence});
        entries.insert(entries.end(), asked.entries.begin(), asked.entries.end());
    }
    const std::string counts = std::to_string(out.fresh) + " new, " + std::to_string(out.changed) + " changed, " + std::to_string(out.same) + " the same, " + std::to_string(out.refused) + " refused";
    if (out.refused == 0 && !entries.empty()) {
        // The checks of the entries themselves come first also for a trial: what is shown as possible is possible.
        HW_TRY(good, checked(entries, ports));
        if (request.take) {
            HW_TRY(appended, ports.shelf->append(good.entries, good.liquids));
            static_cast<void>(appended);
            out.taken = true;
        }
    }
    out.sentence = out.refused > 0 ? "Nothing was taken in: " + counts + ". Mend the lines below and try again." : entries.empty() ? "Nothing to take in: " + counts + "." : out.taken ? "Taken in: " + counts + "." : "This would happen: " + counts + ". Nothing has been taken in yet.";
    return out;
}

}  // namespace hw::desk
