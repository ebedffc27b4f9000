#include "desk/identify.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

#include "atlas/identify_answers.hpp"
#include "atlas/identify_families.hpp"
#include "atlas/identify_families_of.hpp"
#include "atlas/identify_hiders.hpp"
#include "atlas/identify_kinds.hpp"
#include "atlas/identify_rules.hpp"
#include "atlas/identify_tests.hpp"
#include "atlas/identify_words.hpp"
#include "atlas/naming_conflicts.hpp"
#include "atlas/naming_limits.hpp"
#include "atlas/tannages.hpp"
#include "core/belief/net.hpp"
#include "core/belief/summary.hpp"
#include "core/leather/covering.hpp"
#include "core/leather/naming.hpp"
#include "desk/entries.hpp"
#include "desk/inspect.hpp"
#include "desk/moment.hpp"
#include "desk/rows.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

using leather::CoverTables;

double rule(std::string_view key) { return row_of(atlas::identify_rules, key).value_1; }

template <class Row>
Basis basis_of(const Row& row, std::string said, std::string inputs) {
    return {std::move(said), std::string(row.source), std::string(row.locator), standing_of(row.standing), std::move(inputs)};
}

bool in_list(std::string_view all, std::string_view one) {
    for (std::string_view rest = all; !rest.empty();) {
        const auto cut = rest.find(';');
        if (rest.substr(0, cut) == one) return true;
        rest = cut == std::string_view::npos ? std::string_view{} : rest.substr(cut + 1);
    }
    return false;
}

template <class E>
std::string word_of(E e) {
    for (const auto& [value, name] : EnumNames<E>::names)
        if (value == e) return std::string(name);
    return {};
}

std::string upper_first(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

std::string answer_name(std::string_view test, std::string_view key) {
    for (const auto& a : atlas::identify_answers)
        if (a.test == test && a.key == key) return std::string(a.plain_name);
    throw Bug("no answer " + std::string(key));
}

std::string saw_words(const CoverSaw& s) {
    std::string out = std::string(row_of(atlas::identify_tests, s.test).plain_name) + (s.panel.empty() ? "" : " on " + s.panel) + ": ";
    for (std::size_t i = 0; i < s.answers.size(); ++i) out += (i == 0 ? "" : ", or ") + answer_name(s.test, s.answers[i]);
    return out;
}

/// What is asked, with what stood on the piece put in.
struct Asked {
    leather::CoverContext context;
    std::vector<std::string> places;        ///< codes; the first is asked about ("" without a piece)
    std::vector<CoverSaw> saw;              ///< sorted; panel empty: the place that is asked about
    std::optional<double> thickness_mm, finish_um;
    std::string told_tannage;
    std::vector<std::string> read;
    Leather leather;                        ///< what was read of it
};

/// Something that counts: which rows it asks, where.
struct Item {
    CoverSaw saw;
    std::size_t test = 0, place = 0;
    std::vector<std::size_t> answers;
};

CoverSaw with_film(double um) {
    constexpr double aniline_um = 10, thin_um = 40, leather_um = 150;
    return {"thickness", {um <= aniline_um ? "to_10" : um <= thin_um ? "to_40" : um <= leather_um ? "to_150" : "over_150"}, ""};
}

CoverSaw with_shrinkage(double c) {
    constexpr double low_c = 70, high_c = 90;
    return {"shrinkage", {c < low_c ? "under_70" : c <= high_c ? "to_90" : "over_90"}, ""};
}

std::optional<CoverSaw> with_drop(WaterDrop d) {
    const std::string word = word_of(d);
    return d == WaterDrop::NotDone ? std::nullopt : std::optional(CoverSaw{"drop", {word}, ""});
}

/// What a panel's entries say already.
void read_panel(const InspectAnswer& piece, const PanelNow& p, const std::string& as, Asked& into) {
    const auto add = [&](CoverSaw s) {
        s.panel = as;
        into.read.push_back(saw_words(s) + (as.empty() ? ", stood on the piece" : ""));
        into.saw.push_back(std::move(s));
    };
    // What was found from tests before, oldest first: later answers stand over them.
    for (auto e = piece.entries.rbegin(); e != piece.entries.rend(); ++e)
        if (e->state == EntryState::Stands && e->entry.identified && std::find(e->entry.identified->panels.begin(), e->entry.identified->panels.end(), p.code) != e->entry.identified->panels.end())
            for (const auto& s : e->entry.identified->saw)
                if (s.panel.empty() || s.panel == p.code) add(s);
    if (const auto drop = with_drop(p.leather.water_drop)) add(*drop);
    if (p.leather.finish_um) add(with_film(*p.leather.finish_um));
    if (p.leather.shrinkage_c) add(with_shrinkage(*p.leather.shrinkage_c));
    for (const auto& e : piece.entries) {
        if (e.state != EntryState::Stands || !e.entry.condition || e.entry.condition->severity == 0) continue;
        if (std::find(p.conditions.begin(), p.conditions.end(), e.entry.id) == p.conditions.end()) continue;
        if (e.entry.condition->term == "body_oil") add({"blotter", {"heavy", "some"}, ""});
        if (e.entry.condition->term == "old_overspray") add({"seams", {"found"}, ""});
    }
}

Result<Asked> asked_of(const IdentifyRequest& r, Ports& ports) {
    Asked out;
    out.context.place = r.place.empty() ? "furniture" : r.place;
    out.context.age = r.age;
    out.context.region = r.region;
    out.places = {""};
    out.context.places = {{word_of(r.wear), word_of(r.exposure)}};
    const auto panel_at = [&](const std::string& code) {
        const auto it = std::find(out.places.begin(), out.places.end(), code);
        if (it != out.places.end()) return;
        out.places.push_back(code);
        out.context.places.emplace_back();
    };
    if (!r.piece.empty()) {
        HW_TRY(piece, inspect({r.piece, {}}, ports));
        const auto find = [&](const std::string& code) { return std::find_if(piece.panels.begin(), piece.panels.end(), [&](const PanelNow& p) { return p.code == code; }); };
        const auto here = find(r.panel);
        if (here == piece.panels.end()) return Error{ErrorCode::NotFound, "This piece has no panel \"" + r.panel + "\". Give one of its codes.", "panel"};
        if (r.place.empty())
            for (const auto& row : atlas::identify_families_of)
                if (row.family == piece.make_up.family) out.context.place = std::string(row.place);
        if (r.wear == Wear::NotSaid) out.context.places[0].wear = word_of(here->wear);
        if (r.exposure == Exposure::NotSaid) out.context.places[0].exposure = word_of(here->exposure);
        read_panel(piece, *here, "", out);
        out.leather = here->leather;
        out.thickness_mm = here->leather.thickness_mm;
        if (!here->tannage.empty() && here->tannage != "unknown") {
            out.told_tannage = here->tannage;
            out.read.push_back("Entered as " + name_in(atlas::tannages, here->tannage));
        }
        // Panels of one class share what they are made of; wear is each one's own.
        std::vector<std::string> kin = r.same_as;
        for (const auto& z : piece.zones)
            if (z.name == here->zone && !here->zone.empty()) kin.insert(kin.end(), z.panels.begin(), z.panels.end());
        for (const auto& code : kin) {
            if (code == r.panel) continue;
            const auto other = find(code);
            if (other == piece.panels.end()) return Error{ErrorCode::NotFound, "This piece has no panel \"" + code + "\".", "same_as"};
            if (std::find(out.places.begin(), out.places.end(), code) != out.places.end()) continue;
            panel_at(code);
            out.context.places.back() = {word_of(other->wear), word_of(other->exposure)};
            read_panel(piece, *other, code, out);
        }
    }
    for (const auto& code : r.same_as) panel_at(code);
    for (CoverSaw s : r.saw) {
        if (s.panel == r.panel) s.panel.clear();
        if (!s.panel.empty() && std::find(out.places.begin(), out.places.end(), s.panel) == out.places.end())
            return Error{ErrorCode::InvalidInput, "What was seen on " + s.panel + " counts only if it is surely the same covering. Name it in same_as.", "same_as"};
        out.saw.push_back(std::move(s));
    }
    if (r.finish_um) out.saw.push_back(with_film(*r.finish_um));
    if (r.shrinkage_c) out.saw.push_back(with_shrinkage(*r.shrinkage_c));
    if (r.thickness_mm) out.thickness_mm = r.thickness_mm;
    out.finish_um = r.finish_um ? r.finish_um : out.leather.finish_um;
    return out;
}

/// The later answer of a test at a place counts; then in one order, so that the order they came in cannot matter.
Result<std::vector<Item>> items_of(const CoverTables& t, const Asked& asked) {
    std::map<std::pair<std::size_t, std::size_t>, Item> out;
    for (std::size_t i = 0; i < asked.saw.size(); ++i) {
        const CoverSaw& s = asked.saw[i];
        const auto test = leather::test_of(t, s.test);
        if (!test.ok()) return Error{test.error().code, test.error().message, "saw[" + std::to_string(i) + "].test"};
        if (s.answers.empty()) return Error{ErrorCode::InvalidInput, "Say what " + s.test + " showed.", "saw[" + std::to_string(i) + "].answers"};
        Item item{s, *test, static_cast<std::size_t>(std::find(asked.places.begin(), asked.places.end(), s.panel) - asked.places.begin()), {}};
        std::set<std::size_t> answers;
        for (const auto& key : s.answers) {
            const auto answer = leather::answer_of(t.tests[*test], key);
            if (!answer.ok()) return Error{answer.error().code, answer.error().message, "saw[" + std::to_string(i) + "].answers"};
            answers.insert(*answer);
        }
        item.answers.assign(answers.begin(), answers.end());
        item.saw.answers.clear();
        for (const std::size_t a : item.answers) item.saw.answers.emplace_back(t.tests[*test].answers[a]);
        out[{item.place, item.test}] = std::move(item);
    }
    std::vector<Item> sorted;
    for (auto& [where, item] : out) sorted.push_back(std::move(item));
    return sorted;
}

// ---- what was proven teaches the tables

Result<std::vector<Proven>> standing_proofs(Ports& ports) {
    if (ports.proofs == nullptr) return std::vector<Proven>{};
    HW_TRY(all, ports.proofs->proofs());
    std::set<std::string> gone;
    for (const auto& p : all) gone.insert(p.takes_back);
    std::vector<Proven> out;
    for (auto& p : all)
        if (p.takes_back.empty() && !gone.count(p.id)) out.push_back(std::move(p));
    return out;
}

void learn(CoverTables& t, const std::vector<Proven>& proofs) {
    const auto index = [](const std::vector<std::string_view>& keys, const std::string& key) { return static_cast<std::size_t>(std::find(keys.begin(), keys.end(), key) - keys.begin()); };
    for (const auto& p : proofs) {
        const std::size_t kind = index(t.kinds, p.kind), tannage = p.tannage.empty() ? t.tannages.size() : index(t.tannages, p.tannage);
        if (kind == t.kinds.size()) continue;  // of a later version
        std::size_t mask = 0;
        for (std::size_t v = 0; v < t.veils.size(); ++v)
            if (std::find(p.veils.begin(), p.veils.end(), t.veils[v]) != p.veils.end()) mask |= std::size_t{1} << v;
        auto& kinds = t.kind_count_1[p.place];
        kinds.resize(t.kinds.size(), 0);
        kinds[kind] += 1;
        for (const auto& s : p.saw) {
            const auto test = leather::test_of(t, s.test);
            if (!test.ok() || s.answers.size() != 1) continue;  // one answer alone is a count
            const auto answer = leather::answer_of(t.tests[*test], s.answers.front());
            if (!answer.ok() || (t.tests[*test].about == leather::AnswersFor::Tannage && tannage == t.tannages.size())) continue;
            leather::count(t, *test, *answer, kind, tannage, mask);
        }
    }
}

// ---- inference

struct Model {
    belief::NetShape shape;
    belief::NetPrior prior;
    std::vector<belief::Seen> seen;
};

Result<Model> model_of(const CoverTables& t, const Asked& asked, const std::vector<Item>& items) {
    Model m;
    m.shape = leather::shape_of(t);
    HW_TRY(prior, leather::prior_of(t, asked.context));
    m.prior = std::move(prior);
    if (!asked.told_tannage.empty())
        for (std::size_t i = 0; i < m.prior.class_sort_1.size(); ++i)
            if (t.tannages[i % m.shape.sorts] == asked.told_tannage) m.prior.class_sort_1[i] *= rule("told_times");
    for (const auto& item : items) m.seen.push_back({item.place, leather::chance_of(t, item.test, item.answers)});
    // What is no leather has no tannage: a tannage that was told says nothing of the kind, so the kinds keep their chances.
    if (!asked.told_tannage.empty()) {
        HW_TRY(plain, leather::prior_of(t, asked.context));
        for (std::size_t k = 0; k < m.shape.classes; ++k) {
            double before = 0, after = 0;
            for (std::size_t n = 0; n < m.shape.sorts; ++n) before += plain.class_sort_1[k * m.shape.sorts + n], after += m.prior.class_sort_1[k * m.shape.sorts + n];
            for (std::size_t n = 0; n < m.shape.sorts; ++n) m.prior.class_sort_1[k * m.shape.sorts + n] *= before / after;
        }
    }
    return m;
}

/// Sums of a posterior: by kind, family and tannage.
struct Sums {
    std::vector<double> kind, family, tannage;
};

std::size_t family_of(std::size_t kind) {
    for (std::size_t f = 0; f < atlas::identify_families.size(); ++f)
        if (atlas::identify_families[f].key == atlas::identify_kinds[kind].family_key) return f;
    throw Bug("a kind without a family");
}

Sums sums_of(const belief::NetShape& shape, const std::vector<double>& class_sort) {
    Sums s{std::vector<double>(shape.classes, 0), std::vector<double>(atlas::identify_families.size(), 0), std::vector<double>(shape.sorts, 0)};
    for (std::size_t i = 0; i < class_sort.size(); ++i) {
        s.kind[i / shape.sorts] += class_sort[i];
        s.family[family_of(i / shape.sorts)] += class_sort[i];
        s.tannage[i % shape.sorts] += class_sort[i];
    }
    return s;
}

std::size_t top_of(const std::vector<double>& p) { return static_cast<std::size_t>(std::max_element(p.begin(), p.end()) - p.begin()); }

std::size_t second_of(std::vector<double> p) {
    p[top_of(p)] = -1;
    return top_of(p);
}

std::string judged_class(std::size_t kind, const std::string& place) {
    const auto& row = atlas::identify_kinds[kind];
    return std::string(place == "car" ? row.class_car : row.class_furniture);
}

/// Bands: the same inference with tables drawn from what is not known of them.
struct Bands {
    std::vector<std::vector<double>> kind, family, tannage, veil;   ///< [key][member]
};

Result<Bands> bands_of(const CoverTables& t, const Asked& asked, const std::vector<Item>& items) {
    leather::Used used;
    for (const auto& item : items) {
        auto& answers = used[item.test];
        answers.insert(answers.end(), item.answers.begin(), item.answers.end());
    }
    leather::CoverDraws draws(t, asked.context, used, static_cast<std::size_t>(rule("band_members")));
    HW_TRY(all, draws.all());
    Bands out{std::vector<std::vector<double>>(t.kinds.size()), std::vector<std::vector<double>>(atlas::identify_families.size()), std::vector<std::vector<double>>(t.tannages.size()), std::vector<std::vector<double>>(t.veils.size())};
    for (const auto& drawn : all) {
        HW_TRY(m, model_of(drawn, asked, items));
        const auto post = inferred(m.shape, m.prior, m.seen);
        if (!post.ok()) continue;  // a draw under which it could not have been seen weighs nothing
        const Sums s = sums_of(m.shape, post->class_sort_1);
        for (std::size_t i = 0; i < s.kind.size(); ++i) out.kind[i].push_back(s.kind[i]);
        for (std::size_t i = 0; i < s.family.size(); ++i) out.family[i].push_back(s.family[i]);
        for (std::size_t i = 0; i < s.tannage.size(); ++i) out.tannage[i].push_back(s.tannage[i]);
        for (std::size_t i = 0; i < out.veil.size(); ++i) out.veil[i].push_back(post->veil_1[0][i]);
    }
    return out;
}

struct Ends {
    double low = 0, high = 1;
};
/// Share of the drawn tables in which one family leads.
double leads_in(const Bands& bands, std::size_t family) {
    const std::size_t members = bands.family[family].size();
    std::size_t first = 0;
    for (std::size_t i = 0; i < members; ++i)
        first += std::all_of(bands.family.begin(), bands.family.end(), [&](const auto& other) { return other[i] <= bands.family[family][i]; }) ? 1 : 0;
    return members == 0 ? 0 : static_cast<double>(first) / static_cast<double>(members);
}

Ends band_of(const std::vector<double>& members) {
    if (members.empty()) return {};
    const auto q = belief::quantiles(members, {0.05, 0.95});
    return {q[0], q[1]};
}

std::string percent(double share) {
    constexpr double nearly = 0.995, hardly = 0.005;
    return share > nearly ? "over 99 %" : share < hardly ? "under 1 %" : fixed(100 * share, 0) + " %";
}

CoverShare share_of(std::string_view key, std::string_view name, double chance, const std::vector<double>& members, std::string note = {}) {
    const Ends b = band_of(members);
    // Half of the whole band: the value need not lie in its middle, so the note says both ends.
    if (note.empty()) note = fixed(100 * b.low, 0) + " to " + fixed(100 * b.high, 0) + " %";
    return {std::string(key), std::string(name), number(100 * chance, 50 * (b.high - b.low), "%", Standing::Estimate, "5 to 95 % of what is not known of the tables"), std::move(note)};
}

void sort_shares(std::vector<CoverShare>& all) {
    std::stable_sort(all.begin(), all.end(), [](const CoverShare& a, const CoverShare& b) { return a.chance.value > b.chance.value; });
}

/// Families with and without a veil, from the joint chances of the place.
std::string veil_note(const Model& m, const std::vector<double>& joint, std::size_t veil, std::size_t family) {
    double with = 0, without = 0, with_family = 0, without_family = 0;
    for (std::size_t i = 0; i < joint.size(); ++i) {
        const bool there = (i >> veil & 1) != 0, is = family_of(i / (m.shape.sorts * m.shape.masks())) == family;
        (there ? with : without) += joint[i];
        if (is) (there ? with_family : without_family) += joint[i];
    }
    const auto& row = atlas::identify_hiders[veil];
    const std::string name(atlas::identify_families[family].plain_name);
    return "If " + std::string(row.with_words) + ": " + name + " " + percent(with > 0 ? with_family / with : 0) + ". If " + std::string(row.without_words) + ": " + percent(without > 0 ? without_family / without : 0) + ".";
}

std::string times_words(double times) {
    const double t = std::max(times, 1 / times);
    constexpr double most = 1000;
    return t >= most ? "more than 1000 times" : fixed(t, t < 10 ? 1 : 0) + " times";
}

Result<std::vector<CoverMoved>> moved_of(const CoverTables& t, const Model& m, const std::vector<Item>& items, const belief::NetPosterior& post, std::size_t top, std::size_t second, std::size_t top_kind) {
    const Sums all = sums_of(m.shape, post.class_sort_1);
    std::vector<CoverMoved> out;
    for (std::size_t i = 0; i < items.size(); ++i) {
        auto others = m.seen;
        others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
        HW_TRY(less, inferred(m.shape, m.prior, others));
        const Sums rest = sums_of(m.shape, less.class_sort_1);
        CoverMoved moved;
        moved.saw = items[i].saw;
        moved.times_1 = all.family[top] / all.family[second] * rest.family[second] / rest.family[top];
        moved.bans_1 = std::log10(moved.times_1);
        moved.fits_1 = std::exp(post.log_evidence - less.log_evidence) * all.family[top] / rest.family[top];
        constexpr double hardly = 1.05;
        moved.pulls = moved.times_1 > hardly ? Pulls::For : moved.times_1 < 1 / hardly ? Pulls::Against : Pulls::Neither;
        moved.contradicts = moved.fits_1 < rule("unlike") || moved.times_1 < 1 / rule("turned");
        const std::string first(atlas::identify_families[top].plain_name), other(atlas::identify_families[second].plain_name);
        moved.sentence = saw_words(items[i].saw) + ". " +
                         (moved.pulls == Pulls::Neither ? "Says nothing between " + first + " and " + other + "."
                                                        : "Makes " + (moved.pulls == Pulls::For ? first : other) + " " + times_words(moved.times_1) + " as likely against " + (moved.pulls == Pulls::For ? other : first) + ".") +
                         (moved.fits_1 < rule("unlike") ? " Seen in " + percent(moved.fits_1) + " of " + first + " like this: look again." : "");
        const auto& test = t.tests[items[i].test];
        const auto& row = test.about == leather::AnswersFor::Kind ? test.rows[top_kind] : test.rows.front();
        moved.shop_1 = row.counted() / (row.counted() + row.weight_1);
        const auto& basis = row_of(atlas::identify_tests, test.key);
        moved.basis = {std::string(basis.question), "own", "starting value, replaced by the shop's own counts", Standing::Estimate, fixed(row.counted(), 0) + " of the shop's own answers, " + fixed(row.weight_1, 0) + " of the starting value"};
        out.push_back(std::move(moved));
    }
    std::stable_sort(out.begin(), out.end(), [](const CoverMoved& a, const CoverMoved& b) { return std::abs(a.bans_1) > std::abs(b.bans_1); });
    return out;
}

void rank_next(const CoverTables& t, const Model& m, const std::vector<Item>& items, const IdentifyRequest& r, const std::string& place, const std::vector<double>& joint, IdentifyAnswer& into) {
    std::vector<double> now(m.shape.classes * m.shape.sorts, 0);
    for (std::size_t i = 0; i < joint.size(); ++i) now[i / m.shape.masks()] += joint[i];
    const auto class_of = [&](const std::vector<double>& class_sort) { return judged_class(top_of(sums_of(m.shape, class_sort).kind), place); };
    const std::string judged = class_of(now);
    for (std::size_t i = 0; i < t.tests.size(); ++i) {
        if (std::find(r.cannot.begin(), r.cannot.end(), t.tests[i].key) != r.cannot.end()) continue;
        if (std::any_of(items.begin(), items.end(), [&](const Item& x) { return x.test == i && x.place == 0; })) continue;
        std::vector<std::vector<double>> answers;
        for (std::size_t a = 0; a < t.tests[i].answers.size(); ++a) answers.push_back(leather::chance_of(t, i, {a}));
        const auto gain = belief::gain(m.shape, joint, answers);
        if (gain.bits < rule("worth_bits")) continue;
        const auto& row = row_of(atlas::identify_tests, t.tests[i].key);
        CoverNext next{std::string(row.key), std::string(row.plain_name), gain.bits, gain.bits / (row.work_min + row.harm_price_min), row.work_min, row.harm_1, std::string(row.harm_words), 0, {}};
        for (std::size_t a = 0; a < answers.size(); ++a)
            if (class_of(gain.after_1[a]) != judged) next.changes_1 += gain.outcome_1[a];
        next.sentence = std::string(row.plain_name) + ", " + fixed(row.work_min, row.work_min < 1 ? 1 : 0) + " min, harm: " + std::string(row.harm_words) + ". Settles about " + fixed(gain.bits, 2) + " bit; changes the class in " + percent(next.changes_1) + " of cases.";
        (row.who == "bench" ? into.next : into.laboratory).push_back(std::move(next));
    }
    for (auto* list : {&into.next, &into.laboratory})
        std::stable_sort(list->begin(), list->end(), [](const CoverNext& a, const CoverNext& b) { return a.bits_per_min_1 > b.bits_per_min_1; });
}

leather::Grain grain_of(std::string_view word) {
    return word == "whole" ? leather::Grain::Whole : word == "buffed" ? leather::Grain::Buffed : word == "gone" ? leather::Grain::Gone : word == "fibre" ? leather::Grain::Fibre : leather::Grain::None;
}

void name_it(const Asked& asked, std::size_t kind, IdentifyAnswer& a) {
    const auto& row = atlas::identify_kinds[kind];
    std::optional<double> film;
    if (asked.finish_um) film = *asked.finish_um / 1000;
    const auto name = leather::named(grain_of(row.grain_state), film, asked.thickness_mm);
    a.called = name.words;
    a.is_leather = name.leather;
    a.called_why = name.why;
    // The class of thickness without a figure is enough to say what it is not.
    for (const auto& s : a.saw)
        if (!film && s.test == "thickness" && s.panel.empty() && s.answers == std::vector<std::string>{"over_150"} && name.leather) {
            const auto over = leather::named(grain_of(row.grain_state), row_of(atlas::naming_limits, "leather_film_mm").value_1 * 2, std::nullopt);
            a.called = over.words;
            a.is_leather = over.leather;
            a.called_why = over.why;
        }
    a.iso_words = std::string(row.iso_words);
    a.ral_words = std::string(row.ral_words);
    a.us_class = std::string(row.us_class);
    for (const auto& c : atlas::naming_conflicts)
        if (in_list(c.kinds, row.key)) a.conflicts.push_back({std::string(c.one_says), std::string(c.other_says), std::string(c.what_we_do), basis_of(c, std::string(c.one_says), std::string(row.plain_name))});
    if (film && row.family_key == "aniline" && !leather::thin_enough_for_aniline(*film)) a.called_why += " Its coat is over 0.01 mm: by RAL 061 A1 it is not aniline.";
}

void for_judge(const Asked& asked, std::size_t kind, double tannage_chance, std::string_view tannage, IdentifyAnswer& a) {
    const auto& row = atlas::identify_kinds[kind];
    a.leather = asked.leather;
    a.leather.leather_class = judged_class(kind, asked.context.place);
    a.leather.tannage = row.is_tanned != "yes" ? "" : tannage_chance >= rule("likely") ? std::string(tannage) : "unknown";
    if (asked.thickness_mm) a.leather.thickness_mm = asked.thickness_mm;
    constexpr double judged_most_um = 300;
    if (asked.finish_um && *asked.finish_um <= judged_most_um) a.leather.finish_um = asked.finish_um;
    for (const auto& s : a.saw)
        if (s.test == "drop" && s.panel.empty() && s.answers.size() == 1)
            for (const auto& [drop, word] : EnumNames<WaterDrop>::names)
                if (word == s.answers.front()) a.leather.water_drop = drop;
    a.judged_as = std::string(row.stand_in);
    if (a.leather.leather_class.empty()) a.judged_as = "It is no leather: the answers about leather do not hold for it.";
}

std::string sure_word(double chance) {
    return chance >= rule("surely") ? "as good as certain" : chance >= rule("very_likely") ? "very likely" : chance >= rule("likely") ? "likely" : "more likely than anything else";
}

void tell(const Sums& s, const Ends& band, double leads, std::size_t top, std::size_t second, std::size_t kind, bool anything, IdentifyAnswer& a) {
    const auto name = [](std::size_t f) { return std::string(atlas::identify_families[f].plain_name); };
    const double chance = s.family[top];
    std::vector<std::string> against;
    for (const auto& m : a.moved)
        if (m.contradicts) against.push_back(as_clause(saw_words(m.saw)));
    const bool conflict = !against.empty() && chance < rule("very_likely");
    a.told = anything && chance >= rule("rather") && leads >= rule("leads") && !conflict;
    const std::string figures = percent(chance) + ", between " + fixed(100 * band.low, 0) + " and " + fixed(100 * band.high, 0) + " %";
    if (a.told) {
        a.sure = sure_word(chance);
        a.sentence = upper_first(a.sure) + ": " + name(top) + " (" + figures + ").";
        std::vector<std::string> kin;
        for (std::size_t k = 0; k < s.kind.size(); ++k)
            if (family_of(k) == top && s.kind[k] >= (1 - rule("very_likely")) * chance) kin.emplace_back(atlas::identify_kinds[k].short_name);
        if (kin.size() > 1 && s.kind[kind] < rule("likely") * chance) a.sentence += " Between " + kin[0] + " and " + kin[1] + " it is not told.";
        else if (kin.size() > 1) a.sentence += " Most likely " + std::string(atlas::identify_kinds[kind].short_name) + " (" + percent(s.kind[kind]) + ").";
    } else {
        a.sure = "cannot be told yet";
        a.sentence = "It cannot be told yet: " + name(top) + " " + figures + "; " + name(second) + " " + percent(s.family[second]) + ".";
        a.why_not = !anything ? "Nothing was looked at yet." : conflict ? "What was seen does not go together: " + listed(against, 2) + "." : "What was seen is too little to tell them apart.";
    }
    if (!a.told || chance < rule("surely")) {
        if (!a.next.empty()) a.settles = "Next: " + a.next.front().sentence;
        else if (!a.laboratory.empty()) a.settles = "No test of the bench settles more. A laboratory can: " + as_clause(a.laboratory.front().name) + ".";
    }
}

Result<std::string> keep_proof(const IdentifyRequest& r, const Asked& asked, const std::vector<Item>& items, Ports& ports) {
    if (ports.proofs == nullptr) return Error{ErrorCode::Unavailable, "No records are joined in. Give them with --data FOLDER.", "data"};
    Proven p = *r.proven;
    if (p.takes_back.empty()) {
        if (find_row(atlas::identify_kinds, p.kind) == nullptr) return Error{ErrorCode::NotFound, "There is no kind \"" + p.kind + "\". Choose one of /api/identify_words.", "proven.kind"};
        if (!p.tannage.empty() && find_row(atlas::tannages, p.tannage) == nullptr) return Error{ErrorCode::NotFound, "There is no tannage \"" + p.tannage + "\". Choose one of /api/identify_words.", "proven.tannage"};
        if (std::none_of(atlas::identify_words.begin(), atlas::identify_words.end(), [&](const auto& w) { return w.about == "proof" && w.key == p.proof; }))
            return Error{ErrorCode::InvalidInput, "Say what proves it: edge_seen, laboratory or maker.", "proven.proof"};
        for (const auto& v : p.veils)
            if (find_row(atlas::identify_hiders, v) == nullptr) return Error{ErrorCode::NotFound, "There is no \"" + v + "\" that hides. Choose of worn, recoloured, oil, wax.", "proven.veils"};
    } else {
        HW_TRY(all, ports.proofs->proofs());
        if (std::none_of(all.begin(), all.end(), [&](const Proven& x) { return x.id == p.takes_back; })) return Error{ErrorCode::NotFound, "There is no proof \"" + p.takes_back + "\".", "proven.takes_back"};
    }
    if (p.id.empty()) {
        if (ports.journal == nullptr) return Error{ErrorCode::InvalidInput, "Give the proof an id, a UUID.", "proven.id"};
        p.id = ports.journal->new_id();
    }
    p.at = ports.clock.now_utc();
    p.by = ports.who.name;
    p.place = asked.context.place;
    p.saw.clear();
    for (const auto& item : items)
        if (item.place == 0 && p.takes_back.empty()) p.saw.push_back(item.saw);
    HW_TRY(done, ports.proofs->append(p));
    static_cast<void>(done);
    return p.id;
}

Result<Done> write_down(const IdentifyRequest& r, const Sums& s, const Ends& band, std::size_t kind, const IdentifyAnswer& a, Ports& ports) {
    if (r.piece.empty()) return Error{ErrorCode::InvalidInput, "Say on which piece and panel it is to be kept.", "piece"};
    Entry e;
    e.did = Did::Identified;
    e.identified = Identified{{r.panel}, std::string(atlas::identify_kinds[kind].key), 100 * s.family[family_of(kind)], 100 * band.low, 100 * band.high, a.told ? a.leather.tannage : "", a.sentence, {}};
    for (const auto& x : a.saw)
        if (x.panel.empty()) e.identified->saw.push_back(x);
    std::vector<Entry> entries{e};
    if (a.told) {  // then it is what the panel is made of
        const auto& row = atlas::identify_kinds[kind];
        Entry facts;
        facts.did = Did::Panels;
        facts.facts = PanelFacts{{r.panel}, row.material_key.empty() ? a.leather.leather_class : std::string(row.material_key), a.leather.tannage == "unknown" ? "" : a.leather.tannage, Wear::NotSaid, Exposure::NotSaid};
        entries.push_back(std::move(facts));
    }
    HW_TRY(before, ports.journal->entries(r.piece));
    for (auto& x : entries) x.seen = before.empty() ? 0 : before.back().number;
    HW_TRY(done, inspect({r.piece, entries}, ports));
    static_cast<void>(done);
    return Done{};
}

}  // namespace

Result<IdentifyAnswer> identify(const IdentifyRequest& request, Ports& ports) {
    if (const auto bad = out_of_range(request)) return *bad;
    if (!request.piece.empty() && request.panel.empty()) return Error{ErrorCode::InvalidInput, "Say which panel of the piece.", "panel"};
    CoverTables t = leather::cover_tables();
    HW_TRY(asked, asked_of(request, ports));
    HW_TRY(items, items_of(t, asked));
    IdentifyAnswer a;
    if (request.proven) {
        HW_TRY(id, keep_proof(request, asked, items, ports));
        a.proof = id;
    }
    HW_TRY(proofs, standing_proofs(ports));
    learn(t, proofs);
    HW_TRY(m, model_of(t, asked, items));
    HW_TRY(post, inferred(m.shape, m.prior, m.seen));
    HW_TRY(joint, joint_at(m.shape, m.prior, m.seen, 0));
    HW_TRY(bands, bands_of(t, asked, items));
    const Sums s = sums_of(m.shape, post.class_sort_1);
    const std::size_t top = top_of(s.family), second = second_of(s.family);
    std::size_t kind = 0;
    for (std::size_t k = 0; k < s.kind.size(); ++k)
        if (family_of(k) == top && (family_of(kind) != top || s.kind[k] > s.kind[kind])) kind = k;

    for (const auto& item : items) a.saw.push_back(item.saw);
    a.read = asked.read;
    for (std::size_t f = 0; f < s.family.size(); ++f) a.families.push_back(share_of(atlas::identify_families[f].key, atlas::identify_families[f].plain_name, s.family[f], bands.family[f]));
    for (std::size_t k = 0; k < s.kind.size(); ++k) a.kinds.push_back(share_of(t.kinds[k], atlas::identify_kinds[k].plain_name, s.kind[k], bands.kind[k]));
    const double hides = 1 - s.tannage.back();
    std::size_t tannage = 0;
    for (std::size_t n = 0; n + 1 < s.tannage.size(); ++n) {
        a.tannages.push_back(share_of(t.tannages[n], name_in(atlas::tannages, t.tannages[n]), s.tannage[n] / hides, bands.tannage[n], "of what is leather"));
        if (s.tannage[n] > s.tannage[tannage]) tannage = n;
    }
    for (std::size_t v = 0; v < t.veils.size(); ++v) a.veils.push_back(share_of(t.veils[v], atlas::identify_hiders[v].plain_name, post.veil_1[0][v], bands.veil[v], veil_note(m, joint, v, top)));
    for (auto* list : {&a.families, &a.kinds, &a.tannages, &a.veils}) sort_shares(*list);
    HW_TRY(moved, moved_of(t, m, items, post, top, second, kind));
    a.moved = std::move(moved);
    rank_next(t, m, items, request, asked.context.place, joint, a);
    const Ends band = band_of(bands.family[top]);
    tell(s, band, leads_in(bands, top), top, second, kind, !items.empty(), a);
    name_it(asked, kind, a);
    for_judge(asked, kind, s.tannage[tannage] / hides, t.tannages[tannage], a);
    a.proven = static_cast<int>(proofs.size());
    double counted = 0, weights = 0;
    for (const auto& item : items) {
        const auto& test = t.tests[item.test];
        for (const auto& row : test.rows) counted += row.counted(), weights += row.weight_1;
    }
    a.shop = proofs.empty() ? "No piece was proven yet: all chances are starting values." : std::to_string(proofs.size()) + (proofs.size() == 1 ? " piece was" : " pieces were") + " proven; the shop's own counts make up " + percent(counted / std::max(1.0, counted + weights)) + " of the rows used here.";
    a.version = std::string(program_version);
    if (request.write) {
        HW_TRY(done, write_down(request, s, band, kind, a, ports));
        static_cast<void>(done);
        a.kept = true;
    }
    return a;
}

IdentifyWords identify_words() {
    IdentifyWords out;
    for (const auto& row : atlas::identify_tests) {
        CoverTestWord t{std::string(row.key), std::string(row.plain_name), std::string(row.question), std::string(row.how), std::string(row.trap), std::string(row.harm_words), std::string(row.who), std::string(row.picture), row.work_min, row.harm_1, {}};
        for (const auto& a : atlas::identify_answers)
            if (a.test == row.key) t.answers.push_back({std::string(a.key), std::string(a.plain_name)});
        out.tests.push_back(std::move(t));
    }
    const auto all = [](const auto& rows) {
        std::vector<CoverAnswerWord> words;
        for (const auto& row : rows) words.push_back({std::string(row.key), std::string(row.plain_name)});
        return words;
    };
    out.kinds = all(atlas::identify_kinds);
    for (const auto& row : atlas::tannages)
        if (row.key != "unknown") out.tannages.push_back({std::string(row.key), std::string(row.plain_name)});
    out.veils = all(atlas::identify_hiders);
    for (const auto& row : atlas::identify_words) {
        auto* list = row.about == "place" ? &out.places : row.about == "age" ? &out.ages : row.about == "region" ? &out.regions : &out.proofs;
        list->push_back({std::string(row.key), std::string(row.plain_name)});
    }
    return out;
}

}  // namespace hw::desk
