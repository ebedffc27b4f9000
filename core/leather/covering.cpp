#include "core/leather/covering.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <set>

#include "atlas/identify_answers.hpp"
#include "atlas/identify_chances.hpp"
#include "atlas/identify_hidden.hpp"
#include "atlas/identify_hider_chances.hpp"
#include "atlas/identify_hiders.hpp"
#include "atlas/identify_kinds.hpp"
#include "atlas/identify_priors.hpp"
#include "atlas/identify_tannages.hpp"
#include "atlas/identify_tests.hpp"
#include "atlas/tannages.hpp"
#include "core/belief/points.hpp"

namespace hw::leather {

namespace {

std::size_t place_in(const std::vector<std::string_view>& keys, std::string_view key) {
    const auto it = std::find(keys.begin(), keys.end(), key);
    HW_EXPECTS(it != keys.end());
    return static_cast<std::size_t>(it - keys.begin());
}

template <class Row>
AnswerRow answer_row(const Row& row, std::size_t answers) {
    AnswerRow out{{row.first_1, row.second_1, row.third_1, row.fourth_1, row.fifth_1}, row.weight_1, std::vector<double>(answers, 0)};
    out.start_1.resize(answers);
    return out;
}

bool listed(std::string_view all, std::string_view one) {
    while (!all.empty()) {
        const auto cut = all.find(';');
        if (all.substr(0, cut) == one) return true;
        all = cut == std::string_view::npos ? std::string_view{} : all.substr(cut + 1);
    }
    return false;
}

CoverTest test_from(const CoverTables& t, const atlas::IdentifyTestsRow& row) {
    CoverTest out;
    out.key = row.key;
    out.about = row.about == "kind" ? AnswersFor::Kind : row.about == "tannage" ? AnswersFor::Tannage : AnswersFor::Veil;
    if (out.about == AnswersFor::Veil) out.veil = place_in(t.veils, row.about);
    for (const auto& a : atlas::identify_answers)
        if (a.test == row.key) out.answers.push_back(a.key);
    const std::vector<std::string_view> of = out.about == AnswersFor::Kind ? t.kinds : out.about == AnswersFor::Tannage ? t.tannages : std::vector<std::string_view>{"no", "yes"};
    out.rows.resize(of.size());
    for (const auto& c : atlas::identify_chances)
        if (c.test == row.key) out.rows[place_in(of, c.of)] = answer_row(c, out.answers.size());
    for (const auto& r : out.rows) HW_EXPECTS(r.start_1.size() == out.answers.size());
    for (std::size_t v = 0; v < t.veils.size(); ++v)
        for (const auto& h : atlas::identify_hidden) {
            if (h.test != row.key || h.hider != t.veils[v]) continue;
            Hidden hidden{v, {}, h.share_1, h.weight_1, answer_row(h, out.answers.size())};
            for (const auto kind : t.kinds) hidden.of_kind.push_back(listed(h.kinds, kind));
            out.hidden.push_back(std::move(hidden));
        }
    return out;
}

const CoverStart* start_of(const CoverTables& t, std::string_view about, std::string_view word, std::string_view of) {
    for (const auto& s : t.starts)
        if (s.about == about && s.word == word && s.of == of) return &s;
    return nullptr;
}

Error unknown(std::string_view what, std::string_view word) { return {ErrorCode::NotFound, "There is no " + std::string(what) + " \"" + std::string(word) + "\". Choose one of /api/identify_words.", std::string(what)}; }

/// Tannages are told apart by cars and the rest alone.
std::string tannage_place(const CoverContext& c) { return c.place == "car" ? "car" : "furniture"; }

Result<double> value_of(const CoverTables& t, std::string_view about, std::string_view word, std::string_view of) {
    const auto* s = start_of(t, about, word, of);
    return s == nullptr ? Result<double>(unknown(about, word)) : Result<double>(s->value_1);
}

/// Chances of the kinds at the start, times age and region, and the shop's own pieces.
Result<std::vector<double>> kind_alphas(const CoverTables& t, const CoverContext& c) {
    std::vector<double> out;
    for (const auto kind : t.kinds) {
        HW_TRY(base, value_of(t, "place", c.place, kind));
        HW_TRY(age, value_of(t, "age", c.age, kind));
        HW_TRY(region, value_of(t, "region", c.region, kind));
        out.push_back(base * age * region);
    }
    const double sum = std::accumulate(out.begin(), out.end(), 0.0);
    const auto counts = t.kind_count_1.find(c.place);
    for (std::size_t k = 0; k < out.size(); ++k) out[k] = t.start_weight_1 * out[k] / sum + (counts == t.kind_count_1.end() ? 0 : counts->second[k]);
    return out;
}

struct VeilWord {
    std::string_view about;
    std::string word;
};
VeilWord veil_word(const CoverTables& t, std::string_view veil, const CoverContext& c, const CoverPlace& p) {
    for (const auto& s : t.starts) {
        if (s.of != veil) continue;
        if (s.about == "wear") return {"wear", p.wear};
        if (s.about == "exposure") return {"exposure", p.exposure};
        if (s.about == "age") return {"age", c.age};
        return {s.about, "any"};
    }
    throw Bug("a veil without a chance");
}

}  // namespace

double AnswerRow::counted() const { return std::accumulate(count_1.begin(), count_1.end(), 0.0); }

double AnswerRow::chance_1(const std::vector<std::size_t>& answers) const {
    double some = 0, all = 0;
    for (const std::size_t a : answers) some += alpha(a);
    for (std::size_t a = 0; a < start_1.size(); ++a) all += alpha(a);
    return some / all;
}

CoverTables cover_tables() {
    CoverTables t;
    for (const auto& k : atlas::identify_kinds) {
        t.kinds.push_back(k.key);
        t.tanned.push_back(k.is_tanned == "yes");
    }
    for (const auto& n : atlas::tannages)
        if (n.key != "unknown") t.tannages.push_back(n.key);
    t.tannages.push_back("none");
    for (const auto& h : atlas::identify_hiders) t.veils.push_back(h.key);
    for (const auto& row : atlas::identify_tests) t.tests.push_back(test_from(t, row));
    for (const auto& p : atlas::identify_priors) t.starts.push_back({p.about, p.word, p.kind, p.chance_1});
    for (const auto& h : atlas::identify_hider_chances) t.starts.push_back({h.about, h.word, h.hider, h.chance_1});
    for (const auto& n : atlas::identify_tannages) t.starts.push_back({n.place == "car" ? "tannage_car" : "tannage_furniture", n.age, n.tannage, n.chance_1});
    return t;
}

belief::NetShape shape_of(const CoverTables& t) { return {t.kinds.size(), t.tannages.size(), t.veils.size()}; }

Result<belief::NetPrior> prior_of(const CoverTables& t, const CoverContext& c) {
    HW_EXPECTS(!c.places.empty());
    belief::NetPrior out;
    HW_TRY(kinds, kind_alphas(t, c));
    std::vector<double> tannages;
    for (std::size_t n = 0; n + 1 < t.tannages.size(); ++n) {
        HW_TRY(chance, value_of(t, "tannage_" + tannage_place(c), c.age, t.tannages[n]));
        tannages.push_back(chance);
    }
    const double sum = std::accumulate(tannages.begin(), tannages.end(), 0.0);
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        for (const double n : tannages) out.class_sort_1.push_back(t.tanned[k] ? kinds[k] * n / sum : 0);
        out.class_sort_1.push_back(t.tanned[k] ? 0 : kinds[k]);
    }
    for (const auto& p : c.places) {
        std::vector<double> veils;
        for (const auto veil : t.veils) {
            const VeilWord w = veil_word(t, veil, c, p);
            HW_TRY(chance, value_of(t, w.about, w.word, veil));
            veils.push_back(chance);
        }
        out.veil_1.push_back(std::move(veils));
    }
    return out;
}

std::vector<double> chance_of(const CoverTables& t, std::size_t test, const std::vector<std::size_t>& answers) {
    const CoverTest& of = t.tests[test];
    const auto shape = shape_of(t);
    std::vector<double> rows, hidden, out(shape.states());
    for (const auto& r : of.rows) rows.push_back(r.chance_1(answers));
    for (const auto& h : of.hidden) hidden.push_back(h.row.chance_1(answers));
    for (std::size_t k = 0; k < shape.classes; ++k)
        for (std::size_t n = 0; n < shape.sorts; ++n)
            for (std::size_t mask = 0; mask < shape.masks(); ++mask) {
                double c = of.about == AnswersFor::Kind ? rows[k] : of.about == AnswersFor::Tannage ? rows[n] : rows[mask >> of.veil & 1];
                for (std::size_t i = 0; i < of.hidden.size(); ++i) {
                    const Hidden& h = of.hidden[i];
                    if (h.of_kind[k] && (mask >> h.veil & 1) != 0) c = (1 - h.share_1) * c + h.share_1 * hidden[i];
                }
                out[shape.state(k, n, mask)] = c;
            }
    return out;
}

Result<std::size_t> test_of(const CoverTables& t, std::string_view key) {
    for (std::size_t i = 0; i < t.tests.size(); ++i)
        if (t.tests[i].key == key) return i;
    return unknown("test", key);
}

Result<std::size_t> answer_of(const CoverTest& test, std::string_view key) {
    for (std::size_t i = 0; i < test.answers.size(); ++i)
        if (test.answers[i] == key) return i;
    std::string can;
    for (const auto a : test.answers) can += (can.empty() ? "" : ", ") + std::string(a);
    return Error{ErrorCode::NotFound, "\"" + std::string(key) + "\" is no answer of " + std::string(test.key) + ". It answers " + can + ".", "answers"};
}

void count(CoverTables& t, std::size_t test, std::size_t answer, std::size_t kind, std::size_t tannage, std::size_t veil_mask) {
    CoverTest& of = t.tests[test];
    AnswerRow* row = of.about == AnswersFor::Kind ? &of.rows[kind] : of.about == AnswersFor::Tannage ? &of.rows[tannage] : &of.rows[veil_mask >> of.veil & 1];
    for (auto& h : of.hidden)
        if (h.of_kind[kind] && (veil_mask >> h.veil & 1) != 0) row = &h.row;
    row->count_1[answer] += 1;
}

CoverDraws::CoverDraws(const CoverTables& tables, CoverContext context, Used used, std::size_t members) : tables_(tables), context_(std::move(context)), used_(std::move(used)), members_(members) {}

/// Coordinates lie in the middle of as many strips as there are members, so few quantiles are ever asked for.
double CoverDraws::beta(double a, double b, const std::vector<double>* u, std::size_t& at) {
    const std::size_t here = at++;
    if (u == nullptr) return a / (a + b);
    auto& known = quantiles_[{a, b}];
    if (known.empty()) known.assign(members_, std::numeric_limits<double>::quiet_NaN());
    double& q = known[static_cast<std::size_t>((*u)[here] * static_cast<double>(members_))];
    if (std::isnan(q)) q = belief::beta_quantile(a, b, (*u)[here]);
    return q;
}

void CoverDraws::draw_row(AnswerRow& row, const std::vector<std::size_t>& answers, const std::vector<double>* u, std::size_t& at) {
    // Sticks for the answers that were seen; the others keep their shares of what is left. A row without answers draws them all.
    double rest = 0, left = 1;
    const std::size_t n = row.start_1.size();
    std::vector<double> alphas(n), out(n, 0);
    for (std::size_t a = 0; a < n; ++a) rest += alphas[a] = row.alpha(a);
    std::vector<bool> done(n, false);
    for (const std::size_t a : answers) {
        if (a >= n || done[a]) continue;
        done[a] = true;
        rest -= alphas[a];
        constexpr double least = 1e-9;
        const double share = rest < least ? 1 : beta(alphas[a], rest, u, at);
        out[a] = left * share;
        left -= out[a];
    }
    for (std::size_t a = 0; a < n; ++a)
        if (!done[a]) out[a] = left * alphas[a] / rest;
    row.start_1 = out;
    row.weight_1 = 1;
    row.count_1.assign(n, 0);
}

CoverTables CoverDraws::drawn(const std::vector<double>* u, std::size_t& at) {
    CoverTables t = tables_;
    for (const auto& [test, answers] : used_) {
        for (auto& row : t.tests[test].rows) draw_row(row, answers, u, at);
        for (auto& h : t.tests[test].hidden) {
            draw_row(h.row, answers, u, at);
            h.share_1 = beta(h.weight_1 * h.share_1, h.weight_1 * (1 - h.share_1), u, at);
        }
    }
    // The kinds of this context: drawn once, with age and region in them.
    const auto alphas = kind_alphas(tables_, context_);
    if (alphas.ok()) {
        AnswerRow kinds{*alphas, 1, std::vector<double>(alphas->size(), 0)};
        std::vector<std::size_t> all(alphas->size());
        std::iota(all.begin(), all.end(), std::size_t{0});
        draw_row(kinds, all, u, at);
        t.kind_count_1.clear();
        for (auto& s : t.starts) {
            if (s.about == "place" && s.word == context_.place) s.value_1 = kinds.start_1[place_in(t.kinds, s.of)];
            if ((s.about == "age" || s.about == "region") && std::find(t.kinds.begin(), t.kinds.end(), s.of) != t.kinds.end()) s.value_1 = 1;
        }
    }
    AnswerRow tannages{{}, start_weight(), {}};
    std::vector<CoverStart*> rows;
    const std::string about = "tannage_" + tannage_place(context_);
    for (auto& s : t.starts)
        if (s.about == about && s.word == context_.age) rows.push_back(&s), tannages.start_1.push_back(s.value_1);
    tannages.count_1.assign(rows.size(), 0);
    std::vector<std::size_t> all(rows.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    draw_row(tannages, all, u, at);
    for (std::size_t i = 0; i < rows.size(); ++i) rows[i]->value_1 = tannages.start_1[i];
    std::set<std::pair<std::string_view, std::string>> done;
    for (const auto veil : t.veils)
        for (const auto& p : context_.places) {
            const VeilWord w = veil_word(t, veil, context_, p);
            if (!done.insert({veil, w.word}).second) continue;
            for (auto& s : t.starts)
                if (s.about == w.about && s.word == w.word && s.of == veil) s.value_1 = beta(start_weight() * s.value_1, start_weight() * (1 - s.value_1), u, at);
        }
    return t;
}

double CoverDraws::start_weight() const { return tables_.start_weight_1; }

Result<std::vector<CoverTables>> CoverDraws::all() {
    std::size_t dimensions = 0;
    static_cast<void>(drawn(nullptr, dimensions));
    constexpr std::uint64_t seed = 15987;
    HW_TRY(points, belief::even_points(members_, dimensions, seed));
    std::vector<CoverTables> out;
    for (const auto& u : points) {
        std::size_t at = 0;
        out.push_back(drawn(&u, at));
    }
    return out;
}

}  // namespace hw::leather
