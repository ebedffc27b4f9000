#include "desk/digest.hpp"

#include <algorithm>
#include <charconv>
#include <map>

#include "atlas/sheet_codes.hpp"
#include "core/chem/composition.hpp"
#include "core/chem/hazards.hpp"
#include "core/sheet/dictionary.hpp"
#include "core/sheet/letters.hpp"
#include "desk/analyse.hpp"
#include "desk/liquids.hpp"
#include "desk/photo.hpp"
#include "desk/ports.hpp"
#include "desk/sheet_facts.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

constexpr std::size_t name_limit = 255, ingredients_limit = 100, corrections_limit = 2000;

Error no_reader() { return {ErrorCode::Unavailable, "Data sheets cannot be read here.", "sheet"}; }
Error cannot_keep() { return {ErrorCode::Unavailable, "Nothing can be kept without records. Give them with --data FOLDER.", "keep"}; }

std::string shown_name(std::string name) {
    if (name.size() > name_limit) name.resize(name_limit);
    for (char& c : name)
        if (static_cast<unsigned char>(c) < ' ' || c == '\x7f') c = '_';
    return name.empty() ? "sheet.pdf" : name;
}

// ---- what the answer says in sentences -------------------------------------------------------------------------------

/// Nothing where there is no such fact.
template <class Answer>
auto find_in(Answer& a, std::string_view key) -> decltype(&a.ingredients.front().name) {
    for (auto& g : a.groups)
        for (auto& f : g.facts)
            if (f.key == key) return &f;
    for (auto& i : a.ingredients)
        for (auto* f : {&i.name, &i.cas, &i.share})
            if (f->key == key) return f;
    return nullptr;
}
const SheetFact& fact(const DigestAnswer& a, std::string_view key) {
    static const SheetFact none;
    const SheetFact* f = find_in(a, key);
    return f == nullptr ? none : *f;
}

std::string counted(std::size_t n, const std::string& one, const std::string& many) { return std::to_string(n) + " " + (n == 1 ? one : many); }

template <class Do>
void each_fact(DigestAnswer& a, const Do& look) {
    for (auto& g : a.groups)
        for (auto& f : g.facts) look(f);
    for (auto& i : a.ingredients)
        if (!i.removed)
            for (SheetFact* f : {&i.name, &i.cas, &i.share}) look(*f);
}

int to_look(DigestAnswer& a) {
    int n = 0;
    each_fact(a, [&](const SheetFact& f) { n += f.look && f.key.rfind("codes[", 0) != 0 ? 1 : 0; });
    return n;
}

std::size_t there(const DigestAnswer& a) {
    return static_cast<std::size_t>(std::count_if(a.ingredients.begin(), a.ingredients.end(), [](const SheetIngredient& i) { return !i.removed; }));
}

bool holds_for_the_bottle(const SheetFact& f) { return (!f.of_pct || *f.of_pct >= 100) && !f.not_of_bottle; }
bool has_ph(const SheetFact& f) { return (f.low || f.high) && holds_for_the_bottle(f); }

std::string sentence_of(DigestAnswer& a) {
    const std::string product = fact(a, "product").value;
    std::string out = (product.empty() ? a.name : product) + ": ";
    const SheetFact& ph = fact(a, "ph");
    std::vector<std::string> parts;
    if (!ph.value.empty()) parts.push_back("pH " + ph.value);
    parts.push_back(there(a) == 0 ? "no ingredient named" : counted(there(a), "ingredient named", "ingredients named"));
    const std::string signal = fact(a, "signal_word").value;
    if (signal == "Danger" || signal == "Warning") parts.push_back("signal word " + signal);
    out += listed(parts) + ".";
    if (!a.contradictions.empty()) out += " " + counted(a.contradictions.size(), "statement does", "statements do") + " not go together.";
    if (const int n = to_look(a); n > 0) out += " " + counted(static_cast<std::size_t>(n), "fact wants", "facts want") + " a look before anybody relies on " + (n == 1 ? "it." : "them.");
    if (a.by_hand) out = (product.empty() ? a.name : product) + ": the file has no text to read. What stands here was typed.";
    return out;
}

/// Why the product cannot be put on the shelf yet, with the key of the fact that is missing.
std::optional<Error> not_ready(const DigestAnswer& a) {
    if (fact(a, "product").value.empty()) return Error{ErrorCode::InvalidInput, "Type the name of the product first: the sheet does not tell it.", "product"};
    for (const auto& i : a.ingredients) {
        if (i.removed) continue;
        if (i.name.value.empty()) return Error{ErrorCode::InvalidInput, "Type the name of every ingredient, or take the row out.", i.name.key};
        if (!i.share.low && !i.share.high) return Error{ErrorCode::InvalidInput, "The sheet does not say how much " + i.name.value + " is in it. Ask the maker, or type the widest range that it can be, like \"0 to 100\".", i.share.key};
    }
    if (there(a) == 0 && !has_ph(fact(a, "ph"))) return Error{ErrorCode::InvalidInput, "Neither an ingredient nor the pH of the liquid is known. Read its pH first, with a strip or a meter.", "ph"};
    return std::nullopt;
}

// ---- what frees gas --------------------------------------------------------------------------------------------------

/// The first statement, of the mixture or of an ingredient, that it frees toxic gas with acids or with other products.
std::string gas_statement(const DigestAnswer& a) {
    const auto has = [](const std::string& codes) {
        for (const auto& row : atlas::sheet_codes)
            if (row.use == "frees_gas" && codes.find(row.code) != std::string::npos) return std::string(row.code);
        return std::string{};
    };
    std::string code = has(fact(a, "codes").value);
    for (const auto& i : a.ingredients)
        if (code.empty() && !i.removed) code = has(i.codes);
    return code;
}

/// Stands for what a statement says and no name explains: an ingredient that counts as hypochlorite with acids and all else that
/// frees gas from it. Where the named ingredients could not stand beside hypochlorite in one bottle it is some other source of gas and
/// counts as a sulfide. How much of it there is nobody says: from next to nothing to what need not be named.
std::optional<Ingredient> frees_gas(const DigestAnswer& a) {
    const std::string code = gas_statement(a);
    if (code.empty()) return std::nullopt;
    std::vector<chem::Portion> named;
    for (const auto& i : a.ingredients)
        if (!i.removed && i.share.high.value_or(100) > 0) named.push_back({i.name.value, i.cas.value, 1.0, std::nullopt});
    // Whether it must not meet an acid, or is ill alone, with this among what is named.
    const auto stops = [&](const std::string& also, const std::string& other) {
        std::vector<chem::Portion> all = named;
        if (!also.empty()) all.push_back({also, "", 1.0, std::nullopt});
        const chem::Totals bottle = chem::present(all), beside = chem::present({{other, "", 1.0, std::nullopt}});
        std::vector<chem::Product> products{{&bottle, true}};
        if (!other.empty()) products.push_back({&beside, true});
        const auto found = chem::hazards(products);
        return std::any_of(found.begin(), found.end(), [](const chem::Hazard& h) { return h.severity == chem::Severity::Stop; });
    };
    if (stops("", "acetic acid")) return std::nullopt;
    const std::string says = " (the sheet says " + code + ")", bleach = "what frees gas, as hypochlorite does" + says, other = "what frees gas, as a sulfide does" + says;
    Ingredient out;
    out.name = stops(bleach, "") && !stops(other, "") ? other : bleach;
    out.content_pct = 0;
    out.content_to_pct = sheet::rule("unnamed_most_pct");
    return out;
}

/// What the shelf is told differently from the sheet.
std::vector<std::string> differences(const DigestAnswer& a) {
    std::vector<std::string> out;
    const SheetFact& ph = fact(a, "ph");
    if (!holds_for_the_bottle(ph) && (ph.low || ph.high)) out.push_back("The pH of the sheet is that of a dilution or holds under a condition that is not understood, so the shelf is not told it. Read the pH of the liquid itself.");
    if (has_ph(ph) && (!ph.low || !ph.high)) out.push_back("The pH has one end only; the other end is taken as the end of the scale.");
    if (const auto hidden = frees_gas(a)) out.push_back("The sheet says " + gas_statement(a) + ", and no ingredient on it explains that. On the shelf an ingredient stands for it, so that it is kept from acids: " + hidden->name + ".");
    for (const auto& i : a.ingredients) {
        if (i.removed) continue;
        if (i.share.unit == "% by volume") out.push_back("The share of " + i.name.value + " is by volume; it is taken as if it were by weight.");
        if (i.cas.value.empty()) out.push_back("The shelf knows " + i.name.value + " by its name only: there is no usable CAS number.");
        if ((i.share.low && !i.share.high) || (!i.share.low && i.share.high)) out.push_back("The share of " + i.name.value + " has one end only; the other end is taken as " + (i.share.low ? "100 %." : "0 %."));
    }
    return out;
}

std::vector<std::string> missing_of(const DigestAnswer& a) {
    std::vector<std::string> out;
    // A liquid without water has none, and the maker says so.
    const bool has_none = fact(a, "ph").value.rfind("not applicable", 0) == 0;
    if (!has_ph(fact(a, "ph")) && !has_none) out.push_back("The pH of the liquid as it is in the bottle. Read it with a strip or a meter: a minute of work.");
    for (const auto& i : a.ingredients)
        if (!i.removed && !i.share.low && !i.share.high) out.push_back("How much " + i.name.value + " is in it.");
    if (there(a) == 0) out.push_back("What is in it: the sheet names no ingredient.");
    return out;
}

void say(DigestAnswer& a) {
    for (auto& i : a.ingredients) i.known = chem::find_substance(i.name.value, i.cas.value).has_value();
    a.never_a_recipe = "A data sheet is not a recipe. It names what is hazardous over a threshold; builders, salts, water softeners and soaps that are not are left out, so how much acid or alkali the liquid holds is known only from a reading.";
    a.missing = missing_of(a);
    a.for_the_shelf = differences(a);
    const auto why = not_ready(a);
    a.not_for_the_shelf = why ? why->message : "";
    a.sentence = sentence_of(a);
}

// ---- XML beside the text ---------------------------------------------------------------------------------------------

void against_text(DigestAnswer& a, const std::string& sentence, const std::string& key, const SheetPlace& place) {
    a.contradictions.push_back({"xml_against_text", sentence + " Look which one is right.",
                                {"The attached XML and the printed text of one sheet say the same", "own", "two statements of one maker", Standing::Derived, key}, {place}});
}

void differ(DigestAnswer& a, const SheetFact& text, const SheetFact& xml) {
    against_text(a, "The attached XML says for " + as_clause(xml.name) + ": " + xml.value + ". The printed sheet says " + text.value + ".", xml.key, text.place);
}

/// The words of the XML, where it has any, at the place of the text; what the text says differently stays beside them.
void take(DigestAnswer& a, SheetFact& text, const SheetFact& xml) {
    if (xml.value.empty()) return;
    const bool both = !text.value.empty(), numbers = both && xml.low == text.low && xml.high == text.high && (xml.low || xml.high);
    const bool same = both && (text.value == xml.value || (numbers && text.unit == xml.unit && text.of_pct == xml.of_pct && text.not_of_bottle == xml.not_of_bottle));
    if (both && !same) {
        differ(a, text, xml);
        // The same figure with a condition and without: the condition is what was left out.
        if (numbers && !holds_for_the_bottle(text) && holds_for_the_bottle(xml)) return;
        // A figure of the liquid itself outranks one of its dilution.
        if (has_ph(text) && !holds_for_the_bottle(xml)) return;
    }
    const SheetPlace place = text.place;
    const std::string before = same ? std::string{} : text.value;
    text = xml;
    text.place = place;
    text.sheet_value = before;
}

bool same_name(const std::string& x, const std::string& y) { return !x.empty() && sheet::squeeze(x) == sheet::squeeze(y); }

/// One ingredient in both: by its number, else by its name where not both have a number.
bool same_ingredient(const SheetIngredient& x, const SheetIngredient& y) {
    if (!x.cas.value.empty() && !y.cas.value.empty()) return x.cas.value == y.cas.value;
    return same_name(x.name.value, y.name.value);
}

void renumber(SheetIngredient& i, std::size_t row) {
    const std::string key = "ingredients[" + std::to_string(row) + "]";
    i.name.key = key + ".name";
    i.cas.key = key + ".cas";
    i.share.key = key + ".share";
}

/// Rows of the XML with what the print says beside them; then the printed rows that the XML lacks. Nothing that either names is lost.
void take_xml_ingredients(DigestAnswer& a, const std::vector<SheetIngredient>& xml) {
    std::vector<SheetIngredient> printed, out;
    printed.swap(a.ingredients);
    for (const auto& given : xml) {
        SheetIngredient i = given;
        const auto p = std::find_if(printed.begin(), printed.end(), [&](const SheetIngredient& one) { return same_ingredient(one, i); });
        if (p != printed.end()) {
            i.place = p->place;
            i.codes = p->codes;
            i.trade_secret = i.trade_secret || p->trade_secret;
            if (i.other_numbers.empty()) i.other_numbers = p->other_numbers;
            i.name.place = p->name.place;
            if (i.name.value.empty()) i.name = p->name;
            if (i.cas.value.empty() && !p->cas.value.empty()) i.cas = p->cas;
            i.cas.place = p->cas.place;
            i.share.place = p->share.place;
            const std::string name = i.name.value;
            if (i.share.value.empty() && !p->share.value.empty()) {
                i.share = p->share;
                against_text(a, "The attached XML gives no share of " + name + " that can be read; the printed sheet says " + p->share.value + ", which is kept.", i.share.key, p->share.place);
            } else if (!p->share.value.empty() && (p->share.low != i.share.low || p->share.high != i.share.high || p->share.unit != i.share.unit)) {
                i.share.sheet_value = p->share.value;
                differ(a, p->share, i.share);
            }
            printed.erase(p);
        } else if (i.name.value.empty() && i.cas.value.empty() && !printed.empty()) {
            // Which one it is cannot be told; all printed rows are kept.
            against_text(a, "The attached XML holds an ingredient without a name or number; the printed list is kept beside it.", i.name.key, printed.front().place);
            continue;
        }
        out.push_back(std::move(i));
    }
    for (auto& p : printed) {
        against_text(a, "The printed sheet names " + p.name.value + (p.cas.value.empty() ? "" : " (" + p.cas.value + ")") + ", the attached XML does not. It is kept.", p.name.key, p.place);
        out.push_back(std::move(p));
    }
    for (std::size_t k = 0; k < out.size(); ++k) renumber(out[k], k);
    a.ingredients = std::move(out);
}

/// The XML is what the maker's program wrote; the text is what it printed from it. Where both speak the XML counts, and the place is
/// the one of the text.
void take_xml(const SheetAttachment& file, DigestAnswer& a) {
    if (!file.facts) return;
    DigestAnswer x;
    show_facts(*file.facts, FactFrom::Xml, x);
    for (auto& g : a.groups)
        for (auto& f : g.facts)
            if (f.can_correct) take(a, f, fact(x, f.key));
    if (!x.ingredients.empty()) take_xml_ingredients(a, x.ingredients);
}

Result<DigestAnswer> read_now(const DigestRequest& request, Ports& ports) {
    if (ports.sheet_reader == nullptr) return no_reader();
    if (request.bytes.empty()) return Error{ErrorCode::InvalidInput, "The file is empty. Choose another, or load it again.", "sheet.damaged"};
    HW_TRY(content, ports.sheet_reader->read(request.bytes));
    DigestAnswer a;
    a.name = shown_name(request.name);
    a.version = std::string(program_version);
    for (const auto& p : content.document.pages) a.pages.push_back({p.width, p.height});
    auto facts = sheet::read(content.document);
    const bool no_text = !facts.ok() && facts.error().where == "sheet.no_text";
    const bool xml_read = std::any_of(content.attachments.begin(), content.attachments.end(), [](const SheetAttachment& f) { return f.facts.has_value(); });
    if (!facts.ok() && !(no_text && (request.by_hand || xml_read))) return facts.error();
    if (facts.ok()) show_facts(*facts, FactFrom::Sheet, a);
    else show_nothing(a);
    for (const auto& file : content.attachments) {
        a.xml.push_back({file.name, file.facts.has_value(), file.facts ? "An XML file is attached and was read first: it is what the maker's program wrote." : "An XML file is attached, but its schema is not read; what stands here comes from the text."});
        take_xml(file, a);
    }
    a.by_hand = no_text && !xml_read;
    return a;
}

// ---- corrections -----------------------------------------------------------------------------------------------------

/// The number in "ingredients[7]" and what follows; nothing for another key.
struct RowKey {
    std::size_t row = 0;
    std::string rest;
};
std::optional<RowKey> row_key(std::string_view key) {
    constexpr std::string_view begins = "ingredients[";
    if (key.substr(0, begins.size()) != begins) return std::nullopt;
    RowKey out;
    const char* at = key.data() + begins.size();
    const auto [end, fault] = std::from_chars(at, key.data() + key.size(), out.row);
    if (fault != std::errc{} || end == key.data() + key.size() || *end != ']') return std::nullopt;
    out.rest = std::string(end + 1, key.data() + key.size());
    return out;
}

constexpr std::string_view not_there = "not there";

Error no_such_key(const std::string& key) { return {ErrorCode::InvalidInput, "There is no fact \"" + key + "\" on a sheet. Take its key from the sheet as it is shown.", "key"}; }

/// One correction on what stands. A new row of ingredients begins with the number after the last.
Result<Done> put(DigestAnswer& a, const SheetCorrection& c) {
    if (const auto key = row_key(c.key)) {
        if (key->row > a.ingredients.size() || key->row >= ingredients_limit) return no_such_key(c.key);
        if (key->rest.empty()) {
            if (key->row == a.ingredients.size()) return no_such_key(c.key);
            if (c.value != not_there) return Error{ErrorCode::InvalidInput, "Of a whole row only \"not there\" can be said.", "value"};
            a.ingredients[key->row].removed = true;
            return Done{};
        }
        if (key->row == a.ingredients.size()) a.ingredients.push_back(empty_ingredient(key->row));
    }
    SheetFact* f = find_in(a, c.key);
    if (f == nullptr) return no_such_key(c.key);
    HW_TRY(done, put_typed(*f, c.value, c.how));
    if (c.key == "codes")
        for (auto& g : a.groups) g.facts.erase(std::remove_if(g.facts.begin(), g.facts.end(), [](const SheetFact& one) { return one.key.rfind("codes[", 0) == 0; }), g.facts.end());
    return done;
}

/// Which corrections count, in the order in which they were made: of each key the last measured one, else the last typed one.
std::vector<SheetCorrection> counting(const std::vector<SheetCorrection>& all) {
    std::map<std::pair<std::string, CorrectedBy>, std::size_t> last;
    for (std::size_t i = 0; i < all.size(); ++i) last[{all[i].key, all[i].how}] = i;
    const auto said = [&](const std::string& key, CorrectedBy how) {
        const auto found = last.find({key, how});
        return found != last.end() && !all[found->second].value.empty() ? std::optional(found->second) : std::nullopt;
    };
    std::vector<SheetCorrection> out;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto measured = said(all[i].key, CorrectedBy::Measured), typed = said(all[i].key, CorrectedBy::Typed);
        if ((measured && *measured == i) || (!measured && typed && *typed == i)) out.push_back(all[i]);
    }
    // Rows come about in the order of their numbers, whatever was typed last.
    std::stable_sort(out.begin(), out.end(), [](const SheetCorrection& x, const SheetCorrection& y) {
        const auto a = row_key(x.key), b = row_key(y.key);
        return a && b && a->row < b->row;
    });
    return out;
}

/// A sheet as it stands: what was read, and what people said since.
Result<DigestAnswer> standing_now(const std::string& id, Ports& ports) {
    if (ports.sheets == nullptr) return cannot_keep();
    HW_TRY(a, ports.sheets->reading(id));
    HW_TRY(all, ports.sheets->corrections(id));
    HW_TRY(row, ports.sheets->row(id));
    for (const auto& c : counting(all)) {
        HW_TRY(done, put(a, c));
        static_cast<void>(done);
    }
    a.corrections = all;
    a.kept = true;
    a.liquid = row.liquid;
    say(a);
    return a;
}

SheetRow row_of_sheet(DigestAnswer& a) {
    return {a.id, a.name, fact(a, "product").value, fact(a, "supplier").value, fact(a, "revision_date").value, a.arrived_at, to_look(a), static_cast<int>(a.contradictions.size()), a.liquid};
}

Liquid liquid_from(const DigestAnswer& a) {
    Liquid l;
    l.name = fact(a, "product").value;
    l.standing = Standing::Published;
    for (const auto& i : a.ingredients) {
        if (i.removed) continue;
        Ingredient out;
        out.name = i.name.value;
        out.cas = i.cas.value;
        const double low = i.share.low.value_or(0), high = i.share.high.value_or(100);
        out.content_pct = low;
        if (high > low) out.content_to_pct = high;
        l.ingredients.push_back(out);
    }
    if (const auto hidden = frees_gas(a)) l.ingredients.push_back(*hidden);
    const SheetFact& ph = fact(a, "ph");
    if (has_ph(ph)) {
        const double low = ph.low.value_or(0), high = ph.high.value_or(14);
        // Only a figure that somebody read is a reading; a range is a statement, as wide as it is.
        if (ph.from == FactFrom::Measured && low == high) l.read_ph = low;
        else {
            l.stated_ph = low;
            if (high > low) l.stated_ph_to = high;
        }
    }
    const std::string date = fact(a, "revision_date").value;
    l.note = "From its data sheet" + (date.empty() ? std::string() : " of " + date) + " (" + a.name + "). " + a.never_a_recipe;
    for (const auto& d : a.for_the_shelf) l.note += " " + d;
    return l;
}

}  // namespace

Result<DigestAnswer> digest(const DigestRequest& request, Ports& ports) {
    if (!request.sheet.empty()) return standing_now(request.sheet, ports);
    std::string id;
    if (ports.sheets != nullptr) {
        id = ports.sheets->id_of(request.bytes);
        // The same file again is the same sheet, with everything that was said of it.
        if (request.keep && ports.sheets->row(id).ok()) return standing_now(id, ports);
    }
    if (request.keep && ports.sheets == nullptr) return cannot_keep();
    HW_TRY(a, read_now(request, ports));
    a.id = id;
    say(a);
    if (!request.keep) return a;
    a.arrived_at = ports.clock.now_utc();
    HW_TRY(kept, ports.sheets->keep(a, row_of_sheet(a), request.bytes));
    static_cast<void>(kept);
    return standing_now(id, ports);
}

Result<DigestAnswer> correct_sheet(const SheetCorrection& given, Ports& ports) {
    HW_TRY(a, standing_now(given.sheet, ports));
    SheetCorrection c = given;
    if (a.corrections.size() >= corrections_limit) return Error{ErrorCode::OutOfRange, "This sheet has been corrected too often. Keep it as a new file.", "sheet"};
    if (!c.value.empty()) {
        HW_TRY(done, put(a, c));
        static_cast<void>(done);
        // What a meter shows is one figure; the middle of a range was read by nobody.
        if (const SheetFact* f = find_in(a, c.key); c.key == "ph" && c.how == CorrectedBy::Measured && f->low != f->high)
            return Error{ErrorCode::InvalidInput, "A pH that was measured is one figure. Type the one that the meter or strip shows, or mark it as typed from paper.", "value"};
    } else if (find_in(a, c.key) == nullptr && !row_key(c.key)) return no_such_key(c.key);
    if (c.id.empty()) c.id = ports.journal == nullptr ? "" : ports.journal->new_id();
    if (c.id.empty() || c.id.size() > 64) return Error{ErrorCode::InvalidInput, "Give the correction an id of at most 64 letters.", "id"};
    c.at = ports.clock.now_utc();
    c.by_name = ports.who.name;
    HW_TRY(appended, ports.sheets->append(c));
    static_cast<void>(appended);
    HW_TRY(now, standing_now(given.sheet, ports));
    HW_TRY(kept, ports.sheets->keep_row(row_of_sheet(now)));
    static_cast<void>(kept);
    return now;
}

Result<Liquid> shelve_sheet(const ShelveRequest& request, Ports& ports) {
    HW_TRY(a, standing_now(request.sheet, ports));
    if (const auto why = not_ready(a)) return *why;
    Liquid l = liquid_from(a);
    // What cannot be analysed is not kept.
    AnalyseRequest trial;
    trial.liquid = l;
    if (const auto answer = analyse(trial, ports); !answer.ok()) return answer.error();
    l.id = request.liquid.empty() ? a.liquid : request.liquid;
    if (!l.id.empty()) {
        const auto before = ports.store.liquid(l.id);
        if (!before.ok() && !request.liquid.empty()) return Error{before.error().code, before.error().message, "liquid"};
        if (before.ok()) {
            // What was read in the bottle, and what callers call it, does not come from a sheet.
            l.family = before->family;
            if (!l.read_ph) l.read_ph = before->read_ph;
            l.read_ph_tenfold = before->read_ph_tenfold;
        }
    }
    HW_TRY(id, ports.store.keep_liquid(l));
    l.id = id;
    a.liquid = id;
    HW_TRY(kept, ports.sheets->keep_row(row_of_sheet(a)));
    static_cast<void>(kept);
    return l;
}

Result<std::string> sheet_page(const std::string& id, int number, Ports& ports) {
    if (ports.sheets == nullptr) return cannot_keep();
    if (ports.sheet_reader == nullptr) return no_reader();
    HW_TRY(bytes, ports.sheets->file(id));
    return ports.sheet_reader->page(bytes, number, sheet_dpi);
}

}  // namespace hw::desk
