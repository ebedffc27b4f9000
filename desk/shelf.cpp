#include "desk/shelf.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <limits>

#include "atlas/shelf_rules.hpp"
#include "base/source.hpp"
#include "desk/entries.hpp"
#include "desk/moment.hpp"
#include "desk/people.hpp"
#include "desk/ports.hpp"
#include "desk/rows.hpp"
#include "desk/sheet_facts.hpp"
#include "desk/shelf_now.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

constexpr std::size_t short_list = 12, lines_shown = 60;

double rule(std::string_view key) { return row_of(atlas::shelf_rules, key).value_1; }

Basis basis_of(std::string_view key, std::string inputs) {
    const auto& row = row_of(atlas::shelf_rules, key);
    return {std::string(row.what), std::string(row.source), std::string(row.locator), standing_of(row.standing), std::move(inputs)};
}

// ---- lots --------------------------------------------------------------------------------------------------------------

std::string last_day_sentence(const LotFold& lot, const work::LastDay& last, bool past) {
    if (!last.day) return "No last day is known: say what is printed on the bottle, or how long it keeps.";
    const std::string day = day_text(*last.day);
    const auto& b = lot.bottle;
    std::string why;
    switch (last.by) {
    case work::UseBy::Printed:
        why = "printed on the bottle";
        if (b.opened_day && b.opened_life_days) why += "; opened " + day_text(*b.opened_day) + " it would keep longer";
        break;
    case work::UseBy::Opened:
        why = "opened " + day_text(*b.opened_day) + ", keeps " + std::to_string(*b.opened_life_days) + " days once opened";
        if (b.printed_day) why += "; printed is " + day_text(*b.printed_day);
        break;
    case work::UseBy::Kept: why = "came " + day_text(b.received_day) + ", keeps " + std::to_string(*b.unopened_life_days) + " days; nothing is printed"; break;
    case work::UseBy::NotKnown: break;
    }
    return past ? "Past its last day, " + day + " (" + why + "). Do not take it." : "Until " + day + ": " + why + ".";
}

LastDayBy told_by(work::UseBy by) {
    switch (by) {
    case work::UseBy::Printed: return LastDayBy::Printed;
    case work::UseBy::Opened: return LastDayBy::Opened;
    case work::UseBy::Kept: return LastDayBy::Kept;
    case work::UseBy::NotKnown: break;
    }
    return LastDayBy::NotKnown;
}

bool may_take(const LotNow& l) { return !l.past && !l.finished; }

std::string lot_name(const LotNow& l) { return l.code.empty() ? "the lot without a code of " + l.received : "lot " + l.code; }

const LotNow* next_of(const std::vector<LotNow>& lots) { return !lots.empty() && may_take(lots.front()) ? &lots.front() : nullptr; }

std::string first_large(std::string text) {
    if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    return text;
}

std::string take_next_words(const LotNow& l) { return "Take " + lot_name(l) + " next" + (l.place.empty() ? "" : ", " + l.place) + "."; }

double in_hand(const std::vector<LotNow>& lots) {
    double out = 0;
    for (const auto& l : lots)
        if (may_take(l)) out += l.left;
    return out;
}

// ---- ordering ----------------------------------------------------------------------------------------------------------

Reorder reorder_of(const ProductFold& fold) {
    Reorder out;
    const std::string unit = unit_of(fold);
    const work::Demand own = work::demand_of(fold.used_by_week);
    const int enough = static_cast<int>(rule("own_weeks"));
    const auto typed_mean = typed_number(said_value(fold, "use_week")), typed_sd = typed_number(said_value(fold, "use_week_sd"));
    std::string from;
    if (own.weeks >= enough && own.mean > 0) {
        out.weeks = own.weeks;
        out.mean_week = own.mean;
        out.sd_week = own.sd;
        from = "from the shop's own uses in " + std::to_string(own.weeks) + " whole weeks";
        out.basis.push_back(basis_of("own_weeks", std::to_string(own.weeks) + " weeks"));
    } else if (typed_mean) {
        out.mean_week = *typed_mean;
        out.sd_week = typed_sd.value_or(0);
        from = "as typed" + std::string(typed_sd ? "" : ", without a spread") + "; own uses count from " + std::to_string(enough) + " whole weeks on, there are " + std::to_string(own.weeks);
    } else {
        out.sentence = "When to order is not known: say what is used in a usual week, or enter uses for " + std::to_string(enough) + " weeks.";
        return out;
    }
    const std::string use = amount_words(std::round(out.mean_week), unit) + " a week, give or take " + fixed(out.sd_week, 0) + " (" + from + ")";
    const auto lead = typed_number(said_value(fold, "lead_days"));
    if (!lead) {
        out.sentence = "Used: " + use + ". Say how many days it takes from order to arrival.";
        return out;
    }
    const auto at = work::reorder_point(out.mean_week, out.sd_week, *lead, rule("service_z"));
    if (!at.ok()) {
        out.sentence = at.error().message;
        return out;
    }
    out.known = true;
    out.at = *at;
    out.sentence = "Order when " + amount_words(std::ceil(out.at), unit) + " are left: " + use + ", " + exact(*lead) + " days until it arrives, enough in 95 of 100 cases.";
    out.basis.push_back(basis_of("order_point", use + ", " + exact(*lead) + " days"));
    out.basis.push_back(basis_of("service_z", ""));
    return out;
}

// ---- sheets ------------------------------------------------------------------------------------------------------------

/// @return  empty: it is not too old
std::string too_old(const SheetRow& row, std::int64_t today) {
    const auto day = row.revision_date.size() >= 10 ? day_of(row.revision_date.substr(0, 10)) : std::nullopt;
    if (!day) return "The data sheet gives no date. Ask the supplier for the newest.";
    constexpr double days_a_year = 365.25;
    const double years = rule("sheet_years");
    if (static_cast<double>(today - *day) <= years * days_a_year) return {};
    return "The data sheet is of " + row.revision_date.substr(0, 10) + ", more than " + exact(years) + " years old. Ask the supplier for the newest.";
}

/// @return  empty: no bottle came after it
std::string older_than_bottle(const SheetRow& row, const std::vector<LotNow>& lots) {
    const std::string date = row.revision_date.substr(0, 10);
    const LotNow* last = nullptr;
    for (const auto& l : lots)
        if (!l.finished && (last == nullptr || l.received > last->received)) last = &l;
    if (last == nullptr || date.empty() || date >= last->received) return {};
    return "The data sheet, of " + date + ", is older than the bottle that came " + last->received + ". Look whether a newer one came with it.";
}

std::vector<std::string> people_names(Ports& ports) {
    std::vector<std::string> out;
    if (ports.people == nullptr) return out;
    if (const auto all = ports.people->all(); all.ok())
        for (const auto& p : *all) out.push_back(p.name);
    return out;
}

/// Everybody with an account, and whoever was told without one.
std::vector<ToldPerson> told_of(const std::string& sheet, const ProductFold& fold, const std::vector<std::string>& people) {
    std::vector<ToldPerson> out;
    for (const auto& name : people) {
        const auto it = fold.told.find(sheet + " " + name);
        out.push_back({name, it == fold.told.end() ? "" : it->second});
    }
    for (const auto& [key, at] : fold.told)
        if (key.rfind(sheet + " ", 0) == 0)
            if (const std::string name = key.substr(sheet.size() + 1); std::find(people.begin(), people.end(), name) == people.end()) out.push_back({name, at});
    return out;
}

bool all_told(const std::vector<ToldPerson>& told) {
    return !told.empty() && std::all_of(told.begin(), told.end(), [](const ToldPerson& p) { return !p.at.empty(); });
}

Result<SheetChanges> changes_of(const std::vector<SheetRow>& sheets, Ports& ports) {
    DigestRequest before, after;
    before.sheet = sheets[1].id;
    after.sheet = sheets[0].id;
    HW_TRY(a, digest(before, ports));
    HW_TRY(b, digest(after, ports));
    return changes_between(a, b);
}

// ---- what has to be seen to --------------------------------------------------------------------------------------------

/// In sentences that do not name the product: it stands above them. named() is for a list of many.
std::vector<ToSee> seen_to(const ProductState& p, const std::vector<LotNow>& lots, const Reorder& reorder, const std::vector<SheetRow>& sheets, const std::vector<std::string>& people, std::int64_t today, Ports& ports) {
    std::vector<ToSee> out;
    const auto add = [&](ToSeeKind kind, std::string lot, std::string sentence) { out.push_back({kind, p.name.id, p.name.name, std::move(lot), std::move(sentence), 1}); };
    const std::string unit = unit_of(p.fold);
    for (const auto& l : lots)
        if (l.past && !l.finished) add(ToSeeKind::PastUse, l.id, first_large(lot_name(l)) + " was to be used by " + l.last_day + ". Do not take it. Throw it away as its data sheet says.");
    const double there = in_hand(lots);
    if (const auto least = typed_number(said_value(p.fold, "minimum")); least && there < *least)
        add(ToSeeKind::BelowMinimum, "", amount_words(there, unit) + " left, never less than " + amount_words(*least, unit) + ". Order now.");
    else if (reorder.known && there <= reorder.at)
        add(ToSeeKind::Reorder, "", amount_words(there, unit) + " left. Order now: at " + amount_words(std::ceil(reorder.at), unit) + " it may run out before more comes.");
    for (const auto& l : lots)
        if (may_take(l) && l.soon) add(ToSeeKind::EndsSoon, l.id, first_large(lot_name(l)) + ": use it by " + l.last_day + ".");
    if (sheets.empty()) {
        add(ToSeeKind::NoSheet, "", "No data sheet. Ask the supplier for it, and put it in.");
        return out;
    }
    if (sheets.size() > 1 && !all_told(told_of(sheets[0].id, p.fold, people)))
        if (const auto changes = changes_of(sheets, ports); changes.ok() && !changes->changes.empty())
            add(ToSeeKind::TellPeople, "", "The new data sheet warns differently. Look what changed, and tell everybody who works with it.");
    // One line: a sheet that is older than the bottle and too old is asked for once.
    const std::string old = too_old(sheets[0], today), before = older_than_bottle(sheets[0], lots);
    if (!old.empty() || !before.empty()) add(ToSeeKind::OldSheet, "", old.empty() ? before : old);
    std::stable_sort(out.begin(), out.end(), [](const ToSee& a, const ToSee& b) { return a.kind < b.kind; });
    return out;
}

ToSee named(ToSee t) {
    t.sentence = t.name + ": " + t.sentence;
    return t;
}

/// What is said of many products one by one would hide the rest: sheets are one line each.
std::vector<ToSee> gathered(const std::vector<ToSee>& all) {
    std::vector<ToSee> out;
    for (const auto& t : all) {
        const bool of_sheets = t.kind == ToSeeKind::NoSheet || t.kind == ToSeeKind::OldSheet;
        const auto same = std::find_if(out.begin(), out.end(), [&](const ToSee& x) { return of_sheets && x.kind == t.kind; });
        if (same == out.end()) {
            out.push_back(t);
            continue;
        }
        ++same->products;
        const std::string many = std::to_string(same->products) + " products";
        same->sentence = t.kind == ToSeeKind::NoSheet ? many + " have no data sheet. Ask for them." : many + " have a data sheet that is too old, without a date, or older than the bottle. Ask for the newest.";
    }
    std::stable_sort(out.begin(), out.end(), [](const ToSee& a, const ToSee& b) { return a.kind < b.kind; });
    return out;
}

// ---- facts -------------------------------------------------------------------------------------------------------------

std::string with_unit(const FactKind& kind, const std::string& value, const std::string& unit) {
    if (value.empty()) return {};
    if (kind.key == "kind") return std::string(kind_word(value));
    if (kind.key == "cost") {
        const auto cost = parse_cost(value);
        return cost ? cost_text(*cost) + " " + unit : value;
    }
    if (kind.key == "mix") {
        const auto mix = parse_mix(value);
        return mix ? exact(mix->parts) + " parts of this to " + exact(mix->to) + " parts of the other" : value;
    }
    if (kind.unit.empty()) return value;
    return value + " " + (kind.unit == "unit" ? unit : std::string(kind.unit));
}

const SheetFact* fact_of(const DigestAnswer& a, std::string_view key) {
    for (const auto& g : a.groups)
        for (const auto& f : g.facts)
            if (f.key == key) return &f;
    return nullptr;
}

std::string who_words(const ShelfSaid& said) {
    const std::string how = said.from == FactFrom::Measured ? "measured" : "typed";
    return how + (said.by.empty() ? "" : " by " + said.by) + ", " + said.at.substr(0, 10);
}

std::vector<ShelfFact> facts_of(const ProductState& p, const DigestAnswer* sheet, const std::string& sheet_date) {
    std::vector<ShelfFact> out;
    const std::string unit = unit_of(p.fold);
    for (const auto& kind : fact_kinds()) {
        ShelfFact f;
        f.key = kind.key;
        f.name = kind.name;
        // What the sheet says, in the unit that is kept here.
        std::string of_sheet;
        if (const SheetFact* s = sheet == nullptr ? nullptr : kind.key == "supplier" ? fact_of(*sheet, "supplier") : kind.key == "voc_g_l" ? fact_of(*sheet, "voc") : nullptr)
            of_sheet = kind.key == "voc_g_l" ? (s->unit == "g/l" && s->low ? plain(*s->low) : "") : s->value;
        if (const auto it = p.fold.facts.find(f.key); it != p.fold.facts.end()) {
            f.value = it->second.value;
            f.from = it->second.from;
            f.said = who_words(it->second);
            if (const auto weak = p.fold.weaker.find(f.key); weak != p.fold.weaker.end()) f.otherwise = with_unit(kind, weak->second.value, unit) + ", " + who_words(weak->second);
            if (!of_sheet.empty() && of_sheet != f.value) f.otherwise += (f.otherwise.empty() ? "" : "; ") + std::string("the sheet says ") + with_unit(kind, of_sheet, unit);
        } else if (!of_sheet.empty()) {
            f.value = of_sheet;
            f.from = FactFrom::Sheet;
            f.said = "from the data sheet" + (sheet_date.empty() ? std::string() : " of " + sheet_date.substr(0, 10));
        } else if (kind.key == "name") {
            f.value = p.name.name;
        }
        f.words = with_unit(kind, f.value, unit);
        out.push_back(std::move(f));
    }
    return out;
}

// ---- the story ---------------------------------------------------------------------------------------------------------

std::string fact_name(const std::string& key) {
    for (const auto& kind : fact_kinds())
        if (kind.key == key) return std::string(kind.name);
    return key == "received" ? "Came" : key == "expiry" ? "Printed on the bottle" : key == "code" ? "Code" : "Place";
}

std::string entry_words(const ShelfEntry& e, const std::string& unit, const std::string& lot) {
    const auto amount = [&] { return amount_words(e.amount.value_or(0), unit); };
    const std::string of = lot.empty() ? "" : " of lot " + lot, note = e.note.empty() ? "" : " " + e.note;
    switch (e.did) {
    case ShelfDid::Fact: return fact_name(e.key) + of + ": " + (e.value.empty() ? "no longer said" : e.value) + (e.how == CorrectedBy::Measured ? ", measured." : ".");
    case ShelfDid::Received: return "Came: " + amount() + (e.code.empty() ? "" : ", lot " + e.code) + "." + note;
    case ShelfDid::Opened: return "Opened" + of + "." + note;
    case ShelfDid::Used: return "Used " + amount() + of + (e.piece.empty() ? "." : " for a piece.") + note;
    case ShelfDid::Counted: return "Counted " + amount() + of + "." + note;
    case ShelfDid::ThrownAway: return (e.amount ? "Threw away " + amount() : "Threw away all that was left") + of + "." + note;
    case ShelfDid::Mixed: return "Mixed" + (e.amount ? " " + amount() : std::string()) + "." + note;
    case ShelfDid::Told: return e.person + " was told of the new data sheet.";
    case ShelfDid::TakeBack: return "Took an entry back.";
    }
    return {};
}

void tell_lines(const std::vector<KeptShelfEntry>& entries, const ProductFold& fold, ProductAnswer& out) {
    std::vector<const ShelfEntry*> all;
    for (const auto& k : entries) all.push_back(&k.entry);
    std::stable_sort(all.begin(), all.end(), [](const ShelfEntry* a, const ShelfEntry* b) { return a->at > b->at; });
    for (const auto* e : all) {
        if (out.lines.size() == lines_shown) {
            ++out.lines_more;
            continue;
        }
        const auto lot = std::find_if(fold.lots.begin(), fold.lots.end(), [&](const LotFold& l) { return l.id == e->lot; });
        const bool stands = fold.taken_back.count(e->id) == 0 && e->did != ShelfDid::TakeBack;
        out.lines.push_back({e->id, e->at, e->by, e->did, e->lot, e->piece, entry_words(*e, out.unit, lot == fold.lots.end() ? "" : lot->code), stands});
    }
}

Mixed mixed_now(const ShelfEntry& e, const ProductFold& fold, std::int64_t now_s) {
    Mixed out;
    out.at = e.at;
    out.entry = e.id;
    const auto at = parse_moment(e.at);
    const auto life = typed_number(said_value(fold, "pot_life_min"));
    if (!at || !life) {
        out.sentence = "Mixed at " + moment_words(e.at) + ". Its pot life is not known: read it on the bottle before use.";
        return out;
    }
    constexpr double minute_s = 60;
    const auto until = *at + static_cast<std::int64_t>(*life * minute_s);
    out.until = moment(until);
    out.past = now_s > until;
    out.sentence = "Mixed at " + moment_words(e.at) + ", usable until " + moment_words(out.until) + (out.past ? ": past. Do not use it." : " UTC.");
    return out;
}

Result<std::vector<KeptShelfEntry>> entries_of(const std::string& product, Ports& ports) {
    if (ports.shelf == nullptr) return no_shelf();
    return ports.shelf->entries(product);
}

Error no_product(const std::string& id) { return {ErrorCode::NotFound, "There is no product \"" + id.substr(0, 64) + "\" on the shelf. Look it up in the list.", "product"}; }

std::string lower(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return text;
}

}  // namespace

// ---- what shelf_now.hpp promises ---------------------------------------------------------------------------------------

Error no_shelf() { return {ErrorCode::Unavailable, "There is no shelf without records. Give them with --data FOLDER.", "shelf"}; }

std::int64_t today_of(Ports& ports) {
    constexpr std::int64_t day_s = 86400;
    return ports.clock.now_s() / day_s;
}

std::string said_value(const ProductFold& fold, const std::string& key) {
    const auto it = fold.facts.find(key);
    return it == fold.facts.end() ? std::string() : it->second.value;
}

std::string unit_of(const ProductFold& fold) { return said_value(fold, "unit") == "g" ? "g" : "ml"; }

std::string amount_words(double amount, const std::string& unit) {
    std::string digits = plain(amount);
    return digits + " " + unit;
}

std::vector<LotNow> lots_now(const ProductFold& fold, std::int64_t today) {
    const std::string unit = unit_of(fold);
    const auto soon = static_cast<std::int64_t>(rule("soon_days"));
    std::vector<LotNow> out;
    for (const auto& lot : fold.lots) {
        const work::LastDay last = work::last_day(lot.bottle);
        LotNow l;
        l.id = lot.id;
        l.code = lot.code;
        l.place = lot.place;
        l.received = day_text(lot.bottle.received_day);
        if (lot.bottle.opened_day) l.opened = day_text(*lot.bottle.opened_day);
        l.expiry = lot.expiry;
        l.left = lot.left;
        l.left_words = amount_words(lot.left, unit) + " left";
        l.by = told_by(last.by);
        if (last.day) l.last_day = day_text(*last.day);
        l.past = last.day && *last.day < today;
        l.soon = last.day && !l.past && *last.day - today <= soon;
        l.finished = lot.left <= 0;
        l.sentence = last_day_sentence(lot, last, l.past);
        if (lot.short_by_the_book) l.note = "More was entered as used than was there. Count what is left.";
        out.push_back(std::move(l));
    }
    const auto rank = [](const LotNow& l) { return l.finished ? 2 : l.past ? 1 : 0; };
    // First expired first; without a last day after those that have one. Of two alike the opened one, then the one that came first.
    std::stable_sort(out.begin(), out.end(), [&](const LotNow& a, const LotNow& b) {
        if (rank(a) != rank(b)) return rank(a) < rank(b);
        if (a.last_day.empty() != b.last_day.empty()) return b.last_day.empty();
        if (a.last_day != b.last_day) return a.last_day < b.last_day;
        if (a.opened.empty() != b.opened.empty()) return b.opened.empty();
        return a.received < b.received;
    });
    return out;
}

Result<std::vector<ProductState>> all_products(Ports& ports) {
    HW_TRY(entries, entries_of("", ports));
    HW_TRY(names, ports.shelf->names());
    const std::int64_t today = today_of(ports);
    std::vector<ProductState> out;
    std::size_t at = 0;
    for (const auto& name : names) {
        std::vector<KeptShelfEntry> own;
        while (at < entries.size() && entries[at].entry.product < name.id) ++at;
        for (; at < entries.size() && entries[at].entry.product == name.id; ++at) own.push_back(std::move(entries[at]));
        ProductState p{name, folded(own, today)};
        p.fold.mixed.clear();  // they point into what goes now
        out.push_back(std::move(p));
    }
    return out;
}

Result<SheetsByProduct> sheets_by_product(Ports& ports) {
    SheetsByProduct out;
    if (ports.sheets == nullptr) return out;
    constexpr int page = 200;
    for (std::string after;;) {
        HW_TRY(rows, ports.sheets->sheets({after, page}));
        for (const auto& row : rows)
            if (!row.liquid.empty()) out[row.liquid].push_back(row);
        if (static_cast<int>(rows.size()) < page) break;
        after = rows.back().id;
    }
    for (auto& [product, rows] : out)
        std::stable_sort(rows.begin(), rows.end(), [](const SheetRow& a, const SheetRow& b) { return a.revision_date != b.revision_date ? a.revision_date > b.revision_date : a.arrived_at > b.arrived_at; });
    return out;
}

// ---- the verbs ---------------------------------------------------------------------------------------------------------

Result<ShelfAnswer> shelf(const std::string& after, int limit, Ports& ports) {
    HW_TRY(products, all_products(ports));
    HW_TRY(sheets, sheets_by_product(ports));
    const auto people = people_names(ports);
    const std::int64_t today = today_of(ports);
    ShelfAnswer out;
    std::vector<ToSee> every;
    for (const auto& p : products) {
        const auto lots = lots_now(p.fold, today);
        const auto it = sheets.find(p.name.id);
        const auto see = seen_to(p, lots, reorder_of(p.fold), it == sheets.end() ? std::vector<SheetRow>{} : it->second, people, today, ports);
        ShelfRow row;
        row.product = p.name.id;
        row.name = p.name.name;
        row.kind = kind_word(said_value(p.fold, "kind"));
        row.demo = p.name.demo;
        row.first = see.empty() ? ToSeeKind::Nothing : see.front().kind;
        for (const auto& t : see) row.to_see.push_back(t.sentence);
        row.lots = static_cast<int>(std::count_if(lots.begin(), lots.end(), [](const LotNow& l) { return !l.finished; }));
        if (!p.fold.lots.empty()) row.in_hand = amount_words(in_hand(lots), unit_of(p.fold));
        if (const LotNow* next = next_of(lots)) row.take_next = take_next_words(*next);
        out.products.push_back(std::move(row));
        for (const auto& t : see) every.push_back(named(t));
    }
    out.to_see = gathered(every);
    out.sentence = out.to_see.empty() ? "Nothing on the shelf has to be seen to." : out.to_see.size() == 1 ? "One thing on the shelf has to be seen to." : std::to_string(out.to_see.size()) + " things on the shelf have to be seen to.";
    if (out.to_see.size() > short_list) {
        out.to_see_more = static_cast<int>(out.to_see.size() - short_list);
        out.to_see.resize(short_list);
    }
    std::stable_sort(out.products.begin(), out.products.end(), [](const ShelfRow& a, const ShelfRow& b) { return a.first != b.first ? a.first < b.first : lower(a.name) != lower(b.name) ? lower(a.name) < lower(b.name) : a.product < b.product; });
    out.all_products = static_cast<int>(out.products.size());
    const auto seen = std::find_if(out.products.begin(), out.products.end(), [&](const ShelfRow& r) { return r.product == after; });
    if (!after.empty() && seen != out.products.end()) out.products.erase(out.products.begin(), seen + 1);
    if (static_cast<int>(out.products.size()) > limit) {
        out.products.resize(static_cast<std::size_t>(std::max(limit, 1)));
        out.after = out.products.back().product;
    }
    out.basis = {basis_of("soon_days", ""), basis_of("sheet_years", ""), basis_of("order_point", "")};
    return out;
}

Result<ProductAnswer> shelf_product(const std::string& product, Ports& ports) {
    HW_TRY(entries, entries_of(product, ports));
    HW_TRY(names, ports.shelf->names());
    const auto name = std::find_if(names.begin(), names.end(), [&](const ShelfName& n) { return n.id == product; });
    if (product.empty() || name == names.end()) return no_product(product);
    HW_TRY(all_sheets, sheets_by_product(ports));
    const std::vector<SheetRow> sheets = all_sheets[product];
    const std::int64_t today = today_of(ports);
    const ProductState p{*name, folded(entries, today)};
    ProductAnswer out;
    out.product = product;
    out.name = name->name;
    out.demo = name->demo;
    out.kind = kind_word(said_value(p.fold, "kind"));
    out.unit = unit_of(p.fold);
    out.lots = lots_now(p.fold, today);
    out.in_hand = in_hand(out.lots);
    out.in_hand_words = amount_words(out.in_hand, out.unit);
    out.reorder = reorder_of(p.fold);
    const auto people = people_names(ports);
    out.to_see = seen_to(p, out.lots, out.reorder, sheets, people, today, ports);
    out.first = out.to_see.empty() ? ToSeeKind::Nothing : out.to_see.front().kind;
    std::optional<DigestAnswer> sheet;
    if (!sheets.empty()) {
        DigestRequest request;
        request.sheet = sheets[0].id;
        if (auto read = digest(request, ports); read.ok()) sheet = std::move(*read);
    }
    out.facts = facts_of(p, sheet ? &*sheet : nullptr, sheets.empty() ? "" : sheets[0].revision_date);
    if (const LotNow* next = next_of(out.lots)) {
        out.take_next_lot = next->id;
        out.take_next = take_next_words(*next) + " " + next->sentence;
    }
    for (const auto* e : p.fold.mixed) out.mixed.insert(out.mixed.begin(), mixed_now(*e, p.fold, ports.clock.now_s()));
    tell_lines(entries, p.fold, out);
    for (const auto& row : sheets) {
        SheetOnShelf s{row.id, row.name, row.revision_date, row.arrived_at, row.id == sheets[0].id, {}};
        if (s.used)
            for (const auto& flag : {too_old(row, today), older_than_bottle(row, out.lots)})
                if (!flag.empty()) s.flags.push_back(flag);
        out.sheets.push_back(std::move(s));
    }
    if (sheets.size() > 1)
        if (auto changes = changes_of(sheets, ports); changes.ok()) {
            out.changes = std::move(*changes);
            if (!out.changes->changes.empty()) {
                out.told = told_of(sheets[0].id, p.fold, people);
                out.told_sentence = out.told.empty() ? "Nobody was told yet. Write down who was." : all_told(out.told) ? "Everybody was told." : "Not everybody was told yet.";
            }
        }
    out.sentence = !out.to_see.empty() ? out.to_see.front().sentence : out.take_next.empty() ? "No bottle of it stands on the shelf." : out.in_hand_words + " in hand. " + take_next_words(out.lots.front());
    out.basis = {basis_of("soon_days", ""), basis_of("sheet_years", sheets.empty() ? "" : sheets[0].revision_date)};
    return out;
}

Result<ProductAnswer> shelf_enter(const ShelfRequest& request, Ports& ports) {
    if (ports.shelf == nullptr) return no_shelf();
    if (request.entries.empty()) return Error{ErrorCode::InvalidInput, "Send at least one entry.", "entries"};
    if (const auto bad = out_of_range(request)) return *bad;
    HW_TRY(good, checked(request.entries, ports));
    HW_TRY(appended, ports.shelf->append(good.entries, good.liquids));
    static_cast<void>(appended);
    return shelf_product(good.entries.back().entry.product, ports);
}

Result<ShelfName> shelf_find(const std::string& typed, Ports& ports) {
    if (ports.shelf == nullptr) return no_shelf();
    std::string code = typed;
    while (!code.empty() && std::isspace(static_cast<unsigned char>(code.back())) != 0) code.pop_back();
    while (!code.empty() && std::isspace(static_cast<unsigned char>(code.front())) != 0) code.erase(code.begin());
    constexpr std::string_view path = "/shelf/";
    if (const auto at = code.rfind(path); at != std::string::npos) code = code.substr(at + path.size());
    HW_TRY(products, all_products(ports));
    const std::string wanted = lower(code);
    const ProductState *by_code = nullptr, *by_old_code = nullptr, *by_name = nullptr;
    for (const auto& p : products) {
        if (p.name.id == code) return p.name;
        if (lower(p.name.name) == wanted) by_name = &p;
        for (const auto& l : p.fold.lots)
            if (!wanted.empty() && lower(l.code) == wanted) (l.left > 0 ? by_code : by_old_code) = &p;
    }
    for (const auto* found : {by_code, by_name, by_old_code})
        if (found != nullptr) return found->name;
    return Error{ErrorCode::NotFound, "Nothing on the shelf has the code \"" + typed.substr(0, 80) + "\". Type the code of a lot, the name of a product, or scan a label of this workshop.", "code"};
}

Result<std::vector<ShelfLabel>> shelf_labels(const std::vector<std::string>& wanted, const std::string& address, Ports& ports) {
    HW_TRY(products, all_products(ports));
    HW_TRY(sheets, sheets_by_product(ports));
    std::vector<ShelfLabel> out;
    for (const auto& p : products) {
        if (!wanted.empty() && std::find(wanted.begin(), wanted.end(), p.name.id) == wanted.end()) continue;
        ShelfLabel label;
        label.name = p.name.name;
        label.demo = p.name.demo;
        label.address = address + "/shelf/" + p.name.id;
        if (const auto it = sheets.find(p.name.id); it != sheets.end()) {
            DigestRequest request;
            request.sheet = it->second.front().id;
            if (const auto sheet = digest(request, ports); sheet.ok()) label.warnings = warnings_of(*sheet);
        }
        if (label.warnings.empty()) label.warnings = {sheets.count(p.name.id) == 0 ? "No data sheet: treat it as unknown." : "No hazard was read from its data sheet. Look at the sheet itself."};
        if (ports.qr != nullptr) {
            HW_TRY(squares, ports.qr->squares(label.address));
            label.squares = squares;
        }
        bool any = false;
        for (const auto& lot : lots_now(p.fold, today_of(ports))) {
            if (lot.finished) continue;
            any = true;
            label.code = lot.code;
            label.last_day = lot.last_day;
            out.push_back(label);
        }
        if (!any) out.push_back(label);
    }
    for (const auto& id : wanted)
        if (std::none_of(products.begin(), products.end(), [&](const ProductState& p) { return p.name.id == id; })) return no_product(id);
    return out;
}

}  // namespace hw::desk
