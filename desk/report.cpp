#include "desk/report.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>
#include <utility>

#include "atlas/leather_classes.hpp"
#include "atlas/tannages.hpp"
#include "desk/advice.hpp"
#include "desk/harms.hpp"
#include "desk/rules.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

bool solved(const Profile& p) { return !p.time_s.empty() && !p.depth_um.empty() && p.ph.size() == p.time_s.size(); }

template <class Rows>
std::string plain_name(const Rows& rows, const std::string& key) {
    for (const auto& row : rows)
        if (row.key == key) return std::string(row.plain_name);
    std::string words = key;
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

/// A number as somebody would type it.
std::string plain(double value) {
    std::string text = fixed(value, 3);
    text.erase(text.find_last_not_of('0') + 1);
    if (!text.empty() && text.back() == '.') text.pop_back();
    return text;
}

std::string range(double from, const std::optional<double>& to) { return plain(from) + (to && *to > from ? " to " + plain(*to) : ""); }

std::string amount_words(const Dose& dose) {
    const bool one = dose.count == 1;
    switch (dose.amount) {
        case Amount::Grams: return plain(dose.count) + " g";
        case Amount::Sprays: return plain(dose.count) + (one ? " spray" : " sprays");
        case Amount::ClothWipe: return plain(dose.count) + (one ? " wipe with a damp cloth" : " wipes with a damp cloth");
    }
    throw Bug("an amount without words");
}

std::string drop_words(WaterDrop drop) {
    switch (drop) {
        case WaterDrop::NotDone: return "not tried";
        case WaterDrop::Seconds10: return "dark within 10 s";
        case WaterDrop::Minutes2: return "dark within 2 min";
        case WaterDrop::Minutes10: return "dark within 10 min";
        case WaterDrop::NotAtAll: return "not dark after 10 min";
    }
    throw Bug("a water drop without words");
}

std::string dilution_words(const Use& use) { return use.parts_water > 0 ? "1 part product to " + plain(use.parts_water) + " parts water" : "neat"; }

/// The fields whose default may change an answer, in words.
const std::map<std::string, std::string>& field_words() {
    static const std::map<std::string, std::string> words{
        {"use.parts_water", "whether it was diluted"}, {"use.dose.count", "how much was used"}, {"use.dose.area_cm2", "on what area"}, {"use.dwell_s", "how long it stood"}, {"use.wiped_off_pct", "how much was wiped off"},
        {"use.rinse.passes", "whether it was rinsed"}, {"use.repeats", "how often it was done"}, {"use.air_c", "how warm the room is"}, {"use.humidity_pct", "how dry the air is"},
        {"leather.surface_ph", "the leather's own pH"}, {"leather.thickness_mm", "how thick the leather is"}, {"leather.finish_um", "how thick the finish is"}};
    return words;
}

class Rows {
public:
    explicit Rows(const JudgeAnswer& answer) : answer_(answer) {}

    void add(std::string name, std::string value, std::string mark) { out_.push_back({std::move(name), std::move(value), std::move(mark)}); }
    /// Marked by the fields it stands for.
    void of(std::string name, std::string value, const std::vector<std::string>& fields) {
        std::size_t open = 0;
        for (const auto& f : fields) open += std::find(answer_.defaults_used.begin(), answer_.defaults_used.end(), f) != answer_.defaults_used.end();
        const bool stop = answer_.grade == Grade::Stop;
        add(std::move(name), std::move(value), stop ? "does not matter here" : open == 0 ? "given" : open == fields.size() ? "default" : "default in part");
    }
    std::vector<InputRow> take() { return std::move(out_); }

private:
    const JudgeAnswer& answer_;
    std::vector<InputRow> out_;
};

void liquid_rows(Rows& rows, const Liquid& l) {
    const std::string mark = l.standing == Standing::Invented ? "invented for the demo" : "given";
    rows.add("liquid", l.name + (l.family.empty() ? "" : " (" + l.family + ")") + (l.label_known ? "" : ", label not known"), mark);
    for (const auto& i : l.ingredients) {
        std::string value = i.content_pct ? range(*i.content_pct, i.content_to_pct) + " %" : i.molality_mol_kg ? plain(*i.molality_mol_kg) + " mol per kg of water" : "amount not stated";
        if (!i.cas.empty()) value += ", CAS " + i.cas;
        rows.add(i.name.empty() ? "ingredient" : i.name, value, mark);
    }
    if (l.stated_ph) rows.add("pH on the label or sheet", range(*l.stated_ph, l.stated_ph_to), mark);
    if (l.read_ph) rows.add("pH read in the bottle", plain(*l.read_ph), "measured");
    if (l.read_ph_tenfold) rows.add("pH read, one part in ten", plain(*l.read_ph_tenfold), "measured");
}

void leather_rows(Rows& rows, const KeptJudgement& k) {
    const Leather& asked = k.request.leather;
    const JudgeAnswer& a = k.answer;
    const Leather& l = a.leather;
    const auto has = [](const std::string& what, const std::optional<double>& value, const char* unit, Rows& to) {
        if (value) to.add(what, plain(*value) + unit, "measured");
    };
    rows.add("piece", l.name.empty() ? "not named" : l.name, l.standing == Standing::Invented ? "invented for the demo" : "given");
    rows.add("leather", leather_in_words(l), l.tannage.empty() || l.tannage == "unknown" ? "given in part" : "given");
    const auto thickness = [&](const char* name, const std::optional<double>& value, const char* unit, const char* field, int decimals) {
        if (!value) return;
        const bool left = std::find(a.defaults_used.begin(), a.defaults_used.end(), field) != a.defaults_used.end();
        rows.add(name, fixed(*value, decimals) + unit, left ? "default" : "measured");
    };
    thickness("thickness", l.thickness_mm, " mm", "leather.thickness_mm", 1);
    thickness("finish", l.finish_um, " µm", "leather.finish_um", 0);
    has("surface pH", asked.surface_ph, "", rows);
    has("pH of the extract", asked.extract_ph, "", rows);
    if (!asked.surface_ph && !asked.extract_ph && !a.leather_ph.unit.empty()) rows.add("leather's own pH", number_in_words(a.leather_ph), "default");
    has("shrinks at", asked.shrinkage_c, " °C", rows);
    if (asked.water_drop != WaterDrop::NotDone) rows.add("water drop", drop_words(asked.water_drop), "measured");
    if (asked.decayed) rows.add("condition", "shrunken, gelatinised or powdering", "given");
}

void use_rows(Rows& rows, const KeptJudgement& k) {
    const Use& u = k.answer.use;
    rows.of("amount", amount_words(u.dose), {"use.dose.amount", "use.dose.count"});
    rows.of("area", fixed(u.dose.area_cm2, 0) + " cm²", {"use.dose.area_cm2"});
    if (!k.answer.dose.unit.empty()) rows.add("laid on", number_in_words(k.answer.dose), std::string(standing_words(k.answer.dose.standing)));
    rows.of("diluted", dilution_words(u), {"use.parts_water"});
    rows.of("stood for", span(u.dwell_s), {"use.dwell_s"});
    rows.of("wiped off", plain(u.wiped_off_pct) + " %", {"use.wiped_off_pct"});
    if (u.rinse.passes > 0)
        rows.of("rinsed", std::to_string(u.rinse.passes) + (u.rinse.passes == 1 ? " time, " : " times, ") + plain(u.rinse.water_g_m2) + " g/m² each, " + plain(u.rinse.blotted_pct) + " % blotted after " + span(u.rinse.wait_s),
                {"use.rinse.passes", "use.rinse.water_g_m2", "use.rinse.blotted_pct", "use.rinse.wait_s"});
    else rows.of("rinsed", "no", {"use.rinse.passes"});
    rows.of("done", u.repeats > 1 ? std::to_string(u.repeats) + " times, every " + plain(u.interval_h) + " h" : "once", {"use.repeats"});
    rows.of("rest after", plain(u.rest_h) + " h", {"use.rest_h"});
    rows.of("air", plain(u.air_c) + " °C, " + plain(u.humidity_pct) + " % humidity, " + plain(u.air_speed_m_s) + " m/s", {"use.air_c", "use.humidity_pct", "use.air_speed_m_s"});
    rows.of("water hardness", plain(u.hardness_mg_l) + " mg/L to dilute, " + plain(u.rinse.hardness_mg_l) + " mg/L to rinse", {"use.hardness_mg_l", "use.rinse.hardness_mg_l"});
    if (!k.request.meets.empty()) rows.add("also on the piece", std::to_string(k.request.meets.size()) + (k.request.meets.size() == 1 ? " other liquid" : " other liquids"), "given");
}

std::vector<std::string> meaning(const JudgeAnswer& a) {
    std::vector<std::string> out;
    switch (a.grade) {
        case Grade::StaysWithin: out.push_back("No limit that could be computed is passed inside the leather. This holds for this liquid, this leather and this way of use only."); break;
        case Grade::ComesBack: out.push_back("A limit is passed for a while; then the leather takes the liquid up and lies inside its limits again. More of it, longer, or again is another question."); break;
        case Grade::Lasting: out.push_back("A limit is passed for more than an hour, or still at the end: what stays behind does not come back by itself in time."); break;
        case Grade::Deep: out.push_back("A limit is passed below the grain, or in the leather as a whole, where nothing that is done at the surface reaches it."); break;
        case Grade::Unknown: out.push_back("What decides cannot be computed from what is known. A test decides, not this page."); break;
        case Grade::Stop: out.push_back("This does not depend on amounts or on the leather. People come first; the leather can wait."); break;
    }
    for (const auto& r : a.reasons)
        if (r.weight == "decides" && r.sentence != a.sentence && out.size() < 3) out.push_back(r.sentence);
    for (const Harm* h : graver_than_answer(a)) out.push_back("Beside this answer, " + h->name + ": " + std::string(grade_alone(h->grade)) + ". " + h->sentence);
    return out;
}

std::vector<std::string> what_next(const JudgeAnswer& a) {
    std::vector<std::string> out = do_now(a);
    if (a.stop) return out;
    if (a.grade == Grade::Lasting || a.grade == Grade::Deep) out.push_back("Ask for another liquid or another way of use.");
    if (!a.next_test.name.empty()) out.push_back("The test that tells most, for the restorer: " + a.next_test.name + " (" + span(60.0 * a.next_test.minutes) + "): " + a.next_test.how);
    out.push_back("If it is on the leather already: keep the bottle with its label, note when and how much, and show this page to a leather restorer.");
    return out;
}

std::vector<std::string> what_never(const JudgeAnswer& a) {
    std::vector<std::string> out;
    if (a.stop) out = a.stop->never;
    out.push_back("Never put another product on top to neutralise it.");
    if (!a.stop) {
        out.push_back("Never use more of it, or leave it on longer, than stands above: the answer holds for that use only.");
        out.push_back("Never carry this answer over to another liquid or another piece.");
    }
    return out;
}

std::string said_of(const Fan& f, std::size_t i) {
    const auto say = [](double v) { return fixed(v, 1); };
    const std::string unit = f.unit == "pH" || f.unit.empty() ? "" : " " + f.unit;
    const std::string place = f.along == "depth_um" ? (f.at[i] <= 0 ? "at the top" : "at " + depth_in_words(f.at[i])) : (f.at[i] <= 0 ? "before" : "after " + span(f.at[i]));
    return place + " " + (f.unit == "pH" ? "pH " : "") + say(f.median[i]) + unit + " in the middle case, half of the cases " + say(f.low_50[i]) + " to " + say(f.high_50[i]) + ", nine in ten " + say(f.low_90[i]) + " to " + say(f.high_90[i]);
}

}  // namespace

bool is_demo(const KeptJudgement& k) {
    return k.row.demo || k.request.liquid.standing == Standing::Invented || k.request.leather.standing == Standing::Invented || k.answer.leather.standing == Standing::Invented;
}

std::string number_in_words(const Number& n) {
    const std::string digits = to_band(n.value, n.plus_minus), band = n.plus_minus > 0 ? " ± " + to_band(n.plus_minus, n.plus_minus) : "";
    return n.unit == "pH" ? "pH " + digits + band : digits + band + (n.unit.empty() ? "" : " " + n.unit);
}

std::string depth_in_words(double um) { return um >= 1000 ? fixed(um / 1000, 2) + " mm" : fixed(um, um < 10 && um != std::round(um) ? 1 : 0) + " µm"; }

std::string leather_in_words(const Leather& l) {
    const std::string tannage = l.tannage.empty() || l.tannage == "unknown" ? "tannage not known" : plain_name(atlas::tannages, l.tannage);
    return (l.leather_class.empty() ? "leather not described" : plain_name(atlas::leather_classes, l.leather_class)) + ", " + tannage;
}

std::string use_in_words(const Use& u) {
    std::string out = amount_words(u.dose) + " on " + fixed(u.dose.area_cm2, 0) + " cm², " + dilution_words(u) + ", left for " + span(u.dwell_s) + ", ";
    out += u.wiped_off_pct > 0 ? plain(u.wiped_off_pct) + " % wiped off" : "not wiped off";
    out += u.rinse.passes > 0 ? ", rinsed " + (u.rinse.passes == 1 ? std::string("once") : std::to_string(u.rinse.passes) + " times") : ", not rinsed";
    if (u.repeats > 1) out += "; done " + std::to_string(u.repeats) + " times, every " + plain(u.interval_h) + " h";
    return out;
}

std::vector<InputRow> inputs_of(const KeptJudgement& k) {
    Rows rows(k.answer);
    liquid_rows(rows, k.request.liquid);
    leather_rows(rows, k);
    use_rows(rows, k);
    return rows.take();
}

std::vector<std::string> not_known(const JudgeAnswer& a) {
    std::vector<std::string> out;
    for (const auto& h : a.harms)
        if (h.grade == Grade::Unknown) out.push_back(h.name + ": " + h.sentence + (h.test.name.empty() ? "" : " It would be settled by: " + h.test.name + "."));
    std::string open;
    for (const auto& field : a.defaults_used) {
        const auto words = field_words().find(field);
        if (words == field_words().end()) continue;
        open += (open.empty() ? "" : ", ") + words->second;
    }
    if (!open.empty()) out.push_back("Nobody said " + open + ": what is usual stands in.");
    if (a.liquid.unknown_pct > 0) out.push_back(plain(a.liquid.unknown_pct) + " % of the liquid is not known to the program.");
    if (a.liquid.ph_refused && !a.stop) out.push_back("No pH can be stated for the liquid.");
    return out;
}

namespace {

/// A sentence for owners: the reading stays, the amount of alkali behind it is for the restorer.
std::string without_amounts(std::string text) {
    const auto unit = text.find(" mmol/m² of a");
    if (unit == std::string::npos) return text;
    for (const std::string_view lead : {"; left are ", ": the hide has little buffer left there, so the amount counts, "}) {
        const auto from = text.rfind(lead, unit);
        if (from == std::string::npos) continue;
        const auto to = text.find('.', unit);
        return text.erase(from, to == std::string::npos ? to : to - from);
    }
    return text;
}

}  // namespace

OwnerReport owner_report(const KeptJudgement& k) {
    const JudgeAnswer& a = k.answer;
    OwnerReport out;
    out.liquid = k.request.liquid.name.empty() ? a.liquid.liquid : k.request.liquid.name;
    out.piece = (a.leather.name.empty() ? "" : a.leather.name + ": ") + leather_in_words(a.leather);
    out.use = use_in_words(a.use);
    out.advice = advice(a);
    const auto cut = a.sentence.find(". ");
    out.answer = a.stop ? a.stop->headline : a.sentence.substr(0, cut == std::string::npos ? cut : cut + 1);
    out.more = a.stop || cut == std::string::npos ? "" : without_amounts(a.sentence.substr(cut + 2));
    out.how_sure = a.how_sure;
    out.means = meaning(a);
    out.next = what_next(a);
    out.never = what_never(a);
    for (const auto& r : a.reasons)
        if (r.weight == "caution") out.cautions.push_back(r.sentence);
    out.cautions.insert(out.cautions.end(), a.cautions.begin(), a.cautions.end());
    out.unknown = not_known(a);
    return out;
}

double leather_top_um(const Profile& p) {
    double top = 0;
    bool any = false;
    for (const auto& l : p.layers)
        if (l.name != "film" && l.name != "finish") {
            top = any ? std::min(top, l.top_um) : l.top_um;
            any = true;
        }
    return top;
}

std::size_t worst_moment(const Profile& p) {
    if (!solved(p)) return 0;
    const auto from = static_cast<std::size_t>(std::lower_bound(p.depth_um.begin(), p.depth_um.end(), leather_top_um(p)) - p.depth_um.begin());
    const double before = p.ph.front().back();
    std::size_t worst = 0;
    double shift = 0;
    for (std::size_t t = 0; t < p.ph.size(); ++t)
        for (std::size_t i = from; i < p.ph[t].size(); ++i)
            if (std::abs(p.ph[t][i] - before) > shift + 1e-9) {
                shift = std::abs(p.ph[t][i] - before);
                worst = t;
            }
    return shift < threshold("seen").limit_ph ? 0 : worst;
}

double ph_at(const Profile& p, std::size_t moment, double um) {
    const auto& depth = p.depth_um;
    const auto& ph = p.ph.at(moment);
    HW_EXPECTS(!depth.empty() && ph.size() == depth.size());
    if (um <= depth.front()) return ph.front();
    if (um >= depth.back()) return ph.back();
    const auto high = static_cast<std::size_t>(std::upper_bound(depth.begin(), depth.end(), um) - depth.begin());
    const std::size_t low = high - 1;
    return ph[low] + (um - depth[low]) / (depth[high] - depth[low]) * (ph[high] - ph[low]);
}

namespace {

/// pH in the finish, at the top and in the middle of the grain, and in the middle of what lies below.
std::string depths_in_words(const Profile& p, std::size_t moment) {
    const double top = leather_top_um(p);
    const auto ph = [&](double um) { return "pH " + fixed(ph_at(p, moment, um), 1); };
    std::string out;
    for (const auto& l : p.layers) {
        if (l.name == "film" || l.bottom_um <= l.top_um) continue;
        const double middle = (l.top_um + l.bottom_um) / 2;
        const std::string deep = " (" + depth_in_words(middle - top) + ") ";
        out += out.empty() ? "" : ", ";
        if (l.name == "finish") out += "in the finish " + ph(middle);
        else if (l.name == "grain") out += "at the top of the grain " + ph(*std::min(std::lower_bound(p.depth_um.begin(), p.depth_um.end(), l.top_um), p.depth_um.end() - 1)) + ", in its middle" + deep + ph(middle);
        else out += "in the middle of the " + l.name + deep + ph(middle);
    }
    return out + ".";
}

}  // namespace

std::string section_in_words(const Profile& p) {
    if (!solved(p)) return "Nothing was computed inside the leather.";
    const std::size_t worst = worst_moment(p), last = p.time_s.size() - 1;
    if (worst == 0) return "The leather keeps its pH: " + depths_in_words(p, last);
    std::string out = "At its worst, " + span(p.time_s[worst]) + " after wetting: " + depths_in_words(p, worst);
    if (last != worst) out += " At the end, after " + span(p.time_s[last]) + ": " + depths_in_words(p, last);
    return out;
}

std::string fan_in_words(const Fan& f) {
    const std::size_t n = std::min({f.at.size(), f.median.size(), f.low_50.size(), f.high_50.size(), f.low_90.size(), f.high_90.size()});
    if (n == 0) return f.title + ": nothing to show.";
    const std::size_t rest = f.along == "depth_um" ? n - 1 : 0;
    std::size_t far = rest;
    for (std::size_t i = 0; i < n; ++i)
        if (std::abs(f.median[i] - f.median[rest]) > std::abs(f.median[far] - f.median[rest]) + 1e-9) far = i;
    std::vector<std::size_t> told{0, far, n - 1};
    std::sort(told.begin(), told.end());
    told.erase(std::unique(told.begin(), told.end()), told.end());
    std::string out;
    for (std::size_t i : told) {
        std::string part = said_of(f, i);
        if (out.empty()) part[0] = static_cast<char>(part[0] - 'a' + 'A');
        out += (out.empty() ? "" : "; ") + part;
    }
    return out + ".";
}

}  // namespace hw::desk
