#include "tests/journey/sheet_corpus.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iomanip>
#include <iterator>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "core/sheet/facts.hpp"
#include "core/sheet/letters.hpp"

namespace hw::test {

namespace {

using Json = nlohmann::json;
namespace fs = std::filesystem;

std::string bytes_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

Json number(const std::optional<double>& x) { return x ? Json(*x) : Json(nullptr); }
/// The truth of some properties is the figure printed, without its sign.
Json either_end(const sheet::Interval& i) { return number(i.low ? i.low : i.high); }
Json text(const std::optional<sheet::Text>& t) { return t ? Json(t->value) : Json(nullptr); }
Json named(const std::optional<sheet::Text>& t) { return t ? Json(sheet::squeeze(t->value)) : Json(nullptr); }
Json squeezed(const Json& truth) { return truth.is_string() ? Json(sheet::squeeze(truth.get<std::string>())) : truth; }

/// A number as printed is the same when it differs by less than half of its last usual digit: 0.05 for figures of a property,
/// relative for small ones. Ranges and limits are compared exactly.
bool same(const Json& a, const Json& b) {
    if (a.is_number() && b.is_number()) {
        const double x = a.get<double>(), y = b.get<double>();
        return std::abs(x - y) <= std::max(0.0005 * std::abs(y), 1e-9) || (std::abs(y) > 10 && std::abs(x - y) <= 0.05 + 1e-9);
    }
    if (a.is_object() && b.is_object()) {
        for (const auto& [key, value] : a.items())
            if (!b.contains(key) || !same(value, b.at(key))) return false;
        return true;
    }
    return a == b;
}

Json range_of(const std::optional<sheet::Fact<sheet::Range>>& r) {
    if (!r) return nullptr;
    return {{"low", number(r->value.low_pct)}, {"low_open", r->value.low_open}, {"high", number(r->value.high_pct)}, {"high_open", r->value.high_open}, {"unit", r->value.by_volume ? "% v/v" : "%"}};
}
/// An end that is not there is neither open nor closed.
Json even(Json range) {
    if (!range.is_object()) return nullptr;
    for (const char* end : {"low", "high"})
        if (range[end].is_null()) range[std::string(end) + "_open"] = false;
        else range[end] = range[end].get<double>();
    return range;
}

class Scorer {
public:
    Scorer(CorpusReport& report, std::string file, bool with_misses) : report_(report), file_(std::move(file)), with_misses_(with_misses) {}

    void one(const std::string& field, const Json& truth, const Json& found) {
        if (truth.is_null() && found.is_null()) return;
        Tally t;
        if (!truth.is_null() && !found.is_null() && same(truth, found)) t.right = 1;
        else { t.missed = truth.is_null() ? 0 : 1; t.wrong = found.is_null() ? 0 : 1; miss(field, truth, found); }
        count(field, t);
    }
    void many(const std::string& field, const std::vector<Json>& truth, std::vector<Json> found, Tally* extra = nullptr) {
        Tally t;
        for (const Json& want : truth) {
            const auto it = std::find_if(found.begin(), found.end(), [&](const Json& f) { return same(want, f); });
            if (it == found.end()) { ++t.missed; miss(field, want, nullptr); }
            else { ++t.right; found.erase(it); }
        }
        t.wrong = static_cast<int>(found.size());
        for (const Json& f : found) miss(field, nullptr, f);
        count(field, t);
        if (extra != nullptr) *extra += t;
    }

private:
    void count(const std::string& field, const Tally& t) { report_.fields[field] += t; report_.all += t; }
    void miss(const std::string& field, const Json& truth, const Json& found) {
        if (with_misses_) report_.misses.push_back(file_ + " " + field + ": truth " + truth.dump() + ", read " + found.dump());
    }
    CorpusReport& report_;
    std::string file_;
    bool with_misses_;
};

void score(const Json& truth, const sheet::Facts& f, Scorer& s, CorpusReport& report, const std::string& file) {
    s.one("language", truth["language"], f.language);
    s.one("product", squeezed(truth["product"]), named(f.product));
    s.one("supplier", squeezed(truth["supplier"]), named(f.supplier));
    s.one("revision date", truth["revision_date"], text(f.revision_date));
    s.one("revision", truth["revision"], text(f.revision));
    s.one("signal word", truth["signal_word"], text(f.signal_word));
    s.one("UFI", truth["ufi"], text(f.ufi));
    s.one("state", truth["state"], text(f.state));
    std::vector<Json> want, got;
    for (const auto& c : truth["codes"]) want.push_back(c);
    for (const auto& c : f.codes) got.push_back(c.value.code);
    s.many("codes", want, got);

    std::vector<Json> names, names_got, rows, rows_got, ids, ids_got, own, own_got, secrets, secrets_got;
    std::set<std::string> known;
    for (const auto& i : truth["ingredients"]) {
        rows.push_back({{"cas", i["cas"]}, {"range", even(i["range"])}});
        names.push_back(squeezed(i["name"]));
        for (const char* id : {"ec", "reach"}) if (!i[id].is_null()) ids.push_back(i[id]);
        for (const auto& c : i["codes"]) own.push_back({{"cas", i["cas"]}, {"code", c}});
        if (i["trade_secret"] == true) secrets.push_back(squeezed(i["name"]));
        if (i["cas"].is_string()) known.insert(i["cas"].get<std::string>());
    }
    for (const auto& l : truth["limits"]) if (l["cas"].is_string()) known.insert(l["cas"].get<std::string>());
    for (const sheet::Ingredient& i : f.ingredients) {
        rows_got.push_back({{"cas", text(i.cas)}, {"range", even(range_of(i.range))}});
        names_got.emplace_back(sheet::squeeze(i.name.value));
        for (const auto* id : {&i.ec, &i.reach}) if (*id) ids_got.push_back(text(*id));
        for (const auto& c : i.codes) own_got.push_back({{"cas", text(i.cas)}, {"code", c.value}});
        if (i.trade_secret) secrets_got.emplace_back(sheet::squeeze(i.name.value));
        if (i.cas && !known.contains(i.cas->value)) report.invented_cas.push_back(file + ": " + i.cas->value);
    }
    for (const auto& l : f.limits)
        if (!l.value.cas.empty() && !known.contains(l.value.cas)) report.invented_cas.push_back(file + ": " + l.value.cas + " (limit)");
    s.many("ingredients", rows, rows_got, &report.ingredients);
    s.many("names of ingredients", names, names_got);
    s.many("EC and REACH numbers", ids, ids_got);
    s.many("codes of ingredients", own, own_got);
    s.many("trade secrets", secrets, secrets_got);
    want.clear(); got.clear();
    for (const auto& c : truth["bad_cas"]) want.push_back(c);
    for (const auto& c : f.bad_cas) got.push_back(c.value);
    s.many("wrong CAS numbers", want, got);

    Json ph, density, flash, boiling, voc;
    if (f.ph) ph = {{"low", number(f.ph->value.low_ph)}, {"high", number(f.ph->value.high_ph)}, {"concentration_pct", number(f.ph->value.concentration_pct)}, {"celsius", number(f.ph->value.celsius)}, {"not_applicable", f.ph->value.not_applicable}};
    if (f.density) density = {{"low", number(f.density->value.g_ml.low)}, {"high", number(f.density->value.g_ml.high)}, {"celsius", number(f.density->value.celsius)}};
    if (f.flash_point) flash = {{"celsius", number(f.flash_point->value.celsius)}, {"sign", std::string(1, f.flash_point->value.sign)}, {"not_applicable", f.flash_point->value.not_applicable}};
    if (f.boiling_c) boiling = {{"low", number(f.boiling_c->value.low)}, {"high", number(f.boiling_c->value.high)}};
    if (f.voc) voc = {{"value", either_end(f.voc->value.value)}, {"unit", f.voc->value.unit}};
    s.one("pH", truth["ph"], ph);
    s.one("density", truth["density_g_ml"], density);
    // A flash point that does not apply has no sign, however the truth writes that.
    Json true_flash = truth["flash_point"];
    for (Json* either : {&true_flash, &flash})
        if (either->is_object() && (*either)["not_applicable"] == true) (*either)["sign"] = nullptr;
    s.one("flash point", true_flash, flash);
    s.one("boiling range", truth["boiling_c"], boiling);
    s.one("vapour pressure", truth["vapour_pressure_hpa"], f.vapour_pressure_hpa ? either_end(f.vapour_pressure_hpa->value) : Json(nullptr));
    s.one("VOC", truth["voc"], voc);

    want.clear(); got.clear();
    for (const auto& l : truth["limits"]) want.push_back(l);
    for (const auto& l : f.limits) got.push_back({{"cas", l.value.cas.empty() ? Json(nullptr) : Json(l.value.cas)}, {"jurisdiction", l.value.jurisdiction}, {"kind", l.value.kind}, {"mg_m3", number(l.value.mg_m3)}, {"ppm", number(l.value.ppm)}});
    s.many("exposure limits", want, got);
    const Json none{{"un", nullptr}, {"class", nullptr}, {"packing_group", nullptr}};
    const Json& t = truth["transport"].is_null() ? none : truth["transport"];
    s.one("transport", t.value("un", Json(nullptr)), text(f.transport.un));
    s.one("transport", t.value("class", Json(nullptr)), text(f.transport.transport_class));
    s.one("transport", t.value("packing_group", Json(nullptr)), text(f.transport.packing_group));
    for (std::size_t n = 0; n < 16; ++n) {
        const Json page = n < truth["sections"].size() && truth["sections"][n] != 0 ? truth["sections"][n] : Json(nullptr);
        const int read_page = f.sections[n].title.page;
        s.one("pages of section titles", page, read_page > 0 ? Json(read_page) : Json(nullptr));
    }
    want.clear(); got.clear();
    for (const auto& c : truth["contradictions"]) want.push_back(c);
    for (const auto& c : f.contradictions) got.push_back(c.key);
    s.many("contradictions", want, got);
}

}  // namespace

CorpusReport corpus_report(const std::string& folder, desk::SheetReader& reader, bool with_misses) {
    CorpusReport report;
    std::vector<fs::path> files;
    if (fs::exists(folder))
        for (const auto& entry : fs::directory_iterator(folder))
            if (entry.path().extension() == ".json") files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    for (const fs::path& file : files) {
        const Json truth = Json::parse(bytes_of(file));
        if (!truth.contains("file") || !truth.contains("expected")) continue;
        const std::string name = truth["file"];
        ++report.files;
        Scorer s(report, name, with_misses);
        const auto content = reader.read(bytes_of(fs::path(folder) / name));
        std::string outcome = "damaged_or_encrypted";
        std::optional<sheet::Facts> facts;
        if (content.ok()) {
            auto read = sheet::read(content->document);
            outcome = read.ok() ? "facts" : read.error().where == "sheet.no_text" ? "no_text" : "not_a_sheet";
            if (read.ok()) facts = std::move(*read);
        } else if (const std::string& where = content.error().where; where != "sheet.damaged" && where != "sheet.locked")
            report.unanswered.push_back(name + ": " + where);
        const std::string expected = truth["expected"];
        s.one("what it is", expected == "damaged" || expected == "encrypted" ? "damaged_or_encrypted" : expected, outcome);
        if (expected != "facts") continue;
        ++report.sheets;
        // A sheet that is refused misses everything.
        score(truth, facts ? *facts : sheet::Facts{}, s, report, name);
    }
    return report;
}

std::string printed(const std::string& name, const CorpusReport& report) {
    std::ostringstream out;
    out << std::fixed << std::setprecision(4) << name << ": " << report.files << " files, " << report.sheets << " sheets\n";
    for (const auto& [field, t] : report.fields)
        out << "  " << std::left << std::setw(26) << field << std::right << " right " << std::setw(5) << t.right << "  wrong " << std::setw(4) << t.wrong << "  missed " << std::setw(4) << t.missed << "  F1 " << t.f1() << '\n';
    out << "  overall F1 " << report.all.f1() << ", ingredients with CAS and range F1 " << report.ingredients.f1() << ", invented CAS numbers " << report.invented_cas.size() << '\n';
    for (const std::string& m : report.misses) out << "    " << m << '\n';
    return out.str();
}

}  // namespace hw::test
