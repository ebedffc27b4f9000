#include "desk/touch.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <map>
#include <mutex>
#include <sstream>
#include <thread>

#include "atlas/leather_classes.hpp"
#include "atlas/tannages.hpp"
#include "atlas/usual_tannages.hpp"
#include "desk/ensemble.hpp"
#include "desk/inspect.hpp"
#include "desk/report.hpp"
#include "desk/rows.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

/// Every field of a described struct as text, whatever its name in memory.
class Text {
public:
    template <class T>
    void operator()(std::string_view name, T& member, const About&) {
        out_ << name << '=';
        put(member);
        out_ << ';';
    }
    [[nodiscard]] std::string str() const { return out_.str(); }

private:
    template <class T>
    void put(T& v) {
        if constexpr (std::is_same_v<T, std::string>) out_ << v.size() << ':' << v;
        else if constexpr (std::is_enum_v<T>) out_ << static_cast<int>(v);
        else if constexpr (std::is_arithmetic_v<T>) out_ << std::hexfloat << static_cast<double>(v);
        else if constexpr (requires { v.has_value(); }) {
            if (v) put(*v);
            else out_ << '-';
        } else if constexpr (requires { v.begin(); }) {
            out_ << '[' << v.size() << ' ';
            for (auto& x : v) put(x);
            out_ << ']';
        } else {
            Text inner;
            describe(inner, v);
            out_ << '{' << inner.str() << '}';
        }
    }
    std::ostringstream out_;
};

template <class T>
std::string text_of(T value) {
    Text t;
    describe(t, value);
    return t.str();
}

std::string fnv1a(const std::string& text) {
    std::uint64_t h = 14695981039346656037ULL;
    for (const char c : text) h = (h ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
    static constexpr std::string_view digits = "0123456789abcdef";
    std::string out(16, '0');
    for (std::size_t i = 16; i-- > 0; h >>= 4) out[i] = digits[h & 15];
    return out;
}

/// What is judged of a leather: not what it is called.
Leather bare(Leather l) {
    l.id.clear();
    l.name.clear();
    l.note.clear();
    l.standing = Standing::Estimate;
    return l;
}

std::string fingerprint_of(const std::string& liquid, const std::string& leather, const std::string& use) { return fnv1a(liquid + "\n" + leather + "\n" + use + "\n" + std::string(program_version)); }
std::string liquid_text(Liquid l) {
    l.id.clear();
    l.note.clear();
    return text_of(l);
}

int order_of(Grade g) {
    switch (g) {
        case Grade::StaysWithin: return 0;
        case Grade::ComesBack: return 1;
        case Grade::Unknown: return 2;
        case Grade::Lasting: return 3;
        case Grade::Deep: return 4;
        case Grade::Stop: return 5;
    }
    throw Bug("a grade without a place");
}
constexpr int not_computed_order = 6;

std::optional<double> rounded(const std::optional<double>& v, double step) { return v ? std::optional(std::round(*v / step) * step) : std::nullopt; }

/// As the page hands it on to a judgement: with no more digits than a meter gives.
Leather as_handed_on(Leather l) {
    l.surface_ph = rounded(l.surface_ph, 0.1);
    l.extract_ph = rounded(l.extract_ph, 0.1);
    l.thickness_mm = rounded(l.thickness_mm, 0.01);
    return l;
}

TouchColumn column_of_class(const atlas::LeatherClassesRow& row) {
    TouchColumn c;
    c.key = row.key;
    c.leather.leather_class = row.key;
    for (const auto& usual : atlas::usual_tannages)
        if (usual.leather_class == row.key) c.leather.tannage = usual.tannage;
    HW_EXPECTS(!c.leather.tannage.empty());
    c.name = leather_in_words(c.leather);
    return c;
}

/// Panels of a piece that are alike are one column.
void add_piece(const InspectAnswer& piece, std::vector<TouchColumn>& columns, std::vector<std::string>& left_out) {
    std::map<std::string, std::size_t> seen;
    std::vector<std::string> names;
    int without = 0;
    for (const auto& p : piece.panels) {
        if (p.leather.leather_class.empty()) {
            ++without;
            continue;
        }
        const Leather leather = as_handed_on(p.leather);
        const auto [at, fresh] = seen.try_emplace(text_of(bare(leather)), columns.size());
        if (fresh) {
            TouchColumn c;
            c.key = piece.piece + ":" + p.code;
            c.piece = piece.piece;
            c.leather = leather;
            c.name = piece.name + ": " + p.name;
            columns.push_back(c);
        }
        columns[at->second].panels.push_back(p.code);
    }
    for (const auto& [text, at] : seen)
        if (columns[at].panels.size() > 1) columns[at].name += " and " + std::to_string(columns[at].panels.size() - 1) + " alike";
    if (without > 0) left_out.push_back(piece.name + ": of " + std::to_string(without) + (without == 1 ? " panel" : " panels") + " nobody has said what leather it is.");
}

struct Inputs {
    std::vector<Liquid> liquids;
    std::vector<TouchColumn> columns;
    std::vector<std::string> left_out;
    Use use;
    std::vector<std::string> fingerprints;        ///< [row * columns + column]
};

Error missing(const char* list, std::size_t i, std::string message) { return {ErrorCode::NotFound, std::move(message), std::string(list) + "[" + std::to_string(i) + "]"}; }

Result<Inputs> inputs_of(const TouchRequest& request, Ports& ports) {
    if (const auto bad = out_of_range(request)) return *bad;
    Inputs in;
    if (request.use) in.use = *request.use;
    else if (ports.chart != nullptr) {
        HW_TRY(kept, ports.chart->use());
        in.use = kept.value_or(Use{});
    }
    if (request.liquids.empty()) {
        HW_TRY(all, whole_shelf(ports.store));
        in.liquids = std::move(all);
        std::stable_sort(in.liquids.begin(), in.liquids.end(), [](const Liquid& a, const Liquid& b) { return a.name < b.name; });
    } else {
        for (std::size_t i = 0; i < request.liquids.size(); ++i) {
            const auto one = ports.store.liquid(request.liquids[i]);
            if (!one.ok()) return missing("liquids", i, one.error().message);
            in.liquids.push_back(*one);
        }
    }
    const bool all = request.classes.empty() && request.pieces.empty();
    if (all)
        for (const auto& row : atlas::leather_classes) in.columns.push_back(column_of_class(row));
    for (std::size_t i = 0; i < request.classes.size(); ++i) {
        const auto* row = find_row(atlas::leather_classes, request.classes[i]);
        if (row == nullptr) return missing("classes", i, "There is no leather class \"" + request.classes[i] + "\".");
        in.columns.push_back(column_of_class(*row));
    }
    std::vector<std::string> pieces = request.pieces;
    if (all && ports.journal != nullptr) {
        constexpr int page = 200;
        for (std::string after;;) {
            HW_TRY(rows, ports.journal->pieces({after, page}));
            for (const auto& row : rows) pieces.push_back(row.id);
            if (static_cast<int>(rows.size()) < page) break;
            after = rows.back().id;
        }
    }
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (ports.journal == nullptr) return missing("pieces", i, "No pieces are kept here.");
        InspectRequest asked;
        asked.piece = pieces[i];
        const auto piece = inspect(asked, ports);
        if (!piece.ok()) return missing("pieces", i, piece.error().message);
        add_piece(*piece, in.columns, in.left_out);
    }
    std::vector<std::string> liquids, leathers;
    for (const auto& l : in.liquids) liquids.push_back(liquid_text(l));
    for (const auto& c : in.columns) leathers.push_back(text_of(bare(c.leather)));
    const std::string use = text_of(in.use);
    for (const auto& l : liquids)
        for (const auto& c : leathers) in.fingerprints.push_back(fingerprint_of(l, c, use));
    return in;
}

using Cells = std::map<std::pair<std::string, std::string>, TouchCell>;

Result<Cells> kept_cells(Ports& ports) {
    Cells out;
    if (ports.chart == nullptr) return out;
    HW_TRY(all, ports.chart->cells());
    for (auto& c : all) out[{c.liquid, c.column}] = std::move(c);
    return out;
}

/// Whether a kept cell answers what is asked, with so many members; a stop depends on none.
bool answers(const TouchCell& cell, const std::string& fingerprint, int members) { return cell.members > 0 && cell.fingerprint == fingerprint && (cell.members >= members || cell.grade == Grade::Stop); }

/// How a kept cell stands now. A first look is one also where nobody asked for more.
CellState state_of(const TouchCell& cell, const std::string& fingerprint, int members) {
    if (cell.members == 0) return CellState::NotComputed;
    if (cell.fingerprint != fingerprint) return CellState::Stale;
    return answers(cell, fingerprint, std::max(members, first_members + 1)) ? CellState::Computed : CellState::Preliminary;
}

TouchAnswer shown(const Inputs& in, const Cells& cells, int members) {
    TouchAnswer a;
    a.version = std::string(program_version);
    a.use = in.use;
    a.use_words = use_in_words(in.use);
    a.use_is_usual = text_of(in.use) == text_of(Use{});
    a.columns = in.columns;
    a.left_out = in.left_out;
    for (std::size_t i = 0; i < in.liquids.size(); ++i) {
        const Liquid& l = in.liquids[i];
        a.rows.push_back({l.id, l.name, l.family});
        for (std::size_t j = 0; j < in.columns.size(); ++j) {
            const auto found = cells.find({l.id, in.columns[j].key});
            TouchCell c;
            if (found != cells.end()) c = found->second;
            c.liquid = l.id;
            c.column = in.columns[j].key;
            c.state = state_of(c, in.fingerprints[i * in.columns.size() + j], members);
            c.order = c.state == CellState::NotComputed ? not_computed_order : order_of(c.grade);
            ++(c.state == CellState::Computed ? a.computed : c.state == CellState::Preliminary ? a.preliminary : c.state == CellState::Stale ? a.stale : a.not_computed);
            a.cells.push_back(std::move(c));
        }
    }
    const int all = static_cast<int>(a.cells.size());
    if (all == 0) a.sentence = a.rows.empty() ? "Nothing stands on the shelf yet. Put a liquid there first." : "There is no leather to judge on yet.";
    else if (a.computed == all) a.sentence = "Every liquid of the shelf is judged on every leather here, used like this.";
    else {
        a.sentence = std::to_string(a.computed) + " of " + std::to_string(all) + " are worked out";
        if (a.preliminary > 0) a.sentence += ", " + std::to_string(a.preliminary) + " are preliminary";
        if (a.stale > 0) a.sentence += ", " + std::to_string(a.stale) + " no longer hold because something changed";
        if (a.not_computed > 0) a.sentence += ", " + std::to_string(a.not_computed) + " are still to do";
        a.sentence += ".";
    }
    for (const auto& [grade, meaning] : {std::pair{Grade::StaysWithin, "used like this, no limit is passed inside the leather"}, {Grade::ComesBack, "a limit is passed and left again within an hour"},
                                         {Grade::Unknown, "not enough is known; read the liquid, do the hidden spot"}, {Grade::Lasting, "a limit is passed for longer, or something stays"},
                                         {Grade::Deep, "a limit is passed below the grain"}, {Grade::Stop, "do not use; people or leather come to harm whatever the figures"}})
        a.legend.push_back({grade, std::string(grade_alone(grade)), meaning});
    a.cautions = {"A test spot comes first, on every piece and with every liquid.", "A passed limit is not proof of damage, and no passed limit is no promise.", "The product's own data sheet and your local rules come before this chart."};
    return a;
}

/// A judgement says of a bottle without a label that it cannot be told. On a wall that is a stop: it is used on nothing.
void stop_without_label(TouchCell& c) {
    c.grade = Grade::Stop;
    c.words = "stop: no label";
    c.advice = "Use it on nothing: it has no label.";
    c.how_sure = "This does not depend on the figures.";
    c.answer_1 = 0;
    c.order = order_of(c.grade);
}

TouchCell cell_of(const JudgeAnswer& answer, const std::string& liquid, const std::string& column, const std::string& fingerprint, int members, const std::string& at) {
    TouchCell c;
    c.liquid = liquid;
    c.column = column;
    c.grade = answer.grade;
    c.words = grade_alone(answer.grade);
    c.advice = answer.advice;
    c.how_sure = answer.how_sure;
    for (const auto& r : answer.reasons)
        if (c.reason.empty() && (r.weight == "decides" || &r == &answer.reasons.back())) c.reason = r.sentence, c.basis = r.basis;
    c.answer_1 = answer.sure.answer_1;
    c.members = members;
    c.order = order_of(c.grade);
    c.computed_at = at;
    c.version = answer.version;
    c.fingerprint = fingerprint;
    return c;
}

TouchCell cannot(const Error& error, const std::string& liquid, const std::string& column, const std::string& fingerprint, int members, const std::string& at) {
    TouchCell c;
    c.liquid = liquid;
    c.column = column;
    c.grade = Grade::Unknown;
    c.words = grade_alone(Grade::Unknown);
    c.advice = "It cannot be judged as it stands on the shelf.";
    c.how_sure = "Nothing was computed.";
    c.reason = error.message;
    c.members = members;
    c.order = order_of(c.grade);
    c.computed_at = at;
    c.version = std::string(program_version);
    c.fingerprint = fingerprint;
    return c;
}

/// What a cell costs, in members: what comes with every judgement besides its ensemble costs as much as some ninety of them.
double cost(int members) { return 90 + members; }

}  // namespace

std::string touch_fingerprint(const Liquid& liquid, const Leather& leather, const Use& use) { return fingerprint_of(liquid_text(liquid), text_of(bare(leather)), text_of(use)); }

JudgeRequest touch_request(const Liquid& liquid, const Leather& leather, const Use& use, int members) {
    JudgeRequest r;
    r.liquid = liquid;
    r.leather = leather;
    r.use = use;
    r.members = members;
    return r;
}

Result<TouchAnswer> touch_chart(const TouchRequest& request, Ports& ports) {
    HW_TRY(in, inputs_of(request, ports));
    HW_TRY(cells, kept_cells(ports));
    return shown(in, cells, request.members);
}

Result<TouchAnswer> touch(const TouchRequest& request, Ports& ports, const Progress& progress) {
    HW_TRY(in, inputs_of(request, ports));
    HW_TRY(cells, kept_cells(ports));
    const bool keeps = request.keep && ports.chart != nullptr;
    if (keeps && request.use) {
        HW_TRY(done, ports.chart->keep_use(*request.use));
        static_cast<void>(done);
    }
    struct Job {
        std::size_t row = 0, column = 0;
        int members = 0;
    };
    const std::size_t columns = in.columns.size();
    std::vector<Job> jobs;
    double total = 0, done = 0;
    const std::vector<int> looks = request.members > first_members ? std::vector{first_members, request.members} : std::vector{request.members};
    for (const int members : looks)
        for (std::size_t i = 0; i < in.liquids.size(); ++i)
            for (std::size_t j = 0; j < columns; ++j) {
                const auto found = cells.find({in.liquids[i].id, in.columns[j].key});
                if (found != cells.end() && answers(found->second, in.fingerprints[i * columns + j], members)) continue;
                jobs.push_back({i, j, members});
                total += cost(members);
            }

    // Cells side by side, each with its own threads inside: what one does alone is done while another solves.
    std::mutex guard;  // of everything below
    std::size_t next = 0;
    bool cancelled = false;
    std::optional<Error> fault;
    const auto work = [&] {
        for (;;) {
            Job job;
            {
                const std::scoped_lock lock(guard);
                if (cancelled || fault || next == jobs.size()) return;
                job = jobs[next++];
                const auto found = cells.find({in.liquids[job.row].id, in.columns[job.column].key});
                // A stop found with few members is a stop.
                if (found != cells.end() && answers(found->second, in.fingerprints[job.row * columns + job.column], job.members)) {
                    total -= cost(job.members);
                    continue;
                }
            }
            const Liquid& liquid = in.liquids[job.row];
            const TouchColumn& column = in.columns[job.column];
            Ports own = ports;
            const auto answer = judge(touch_request(liquid, column.leather, in.use, job.members), own);
            const std::scoped_lock lock(guard);
            const std::string& fingerprint = in.fingerprints[job.row * columns + job.column];
            const std::string at = ports.clock.now_utc();
            TouchCell cell = answer.ok() ? cell_of(*answer, liquid.id, column.key, fingerprint, job.members, at) : cannot(answer.error(), liquid.id, column.key, fingerprint, request.members, at);
            if (!liquid.label_known) stop_without_label(cell);
            if (keeps)
                if (const auto kept = ports.chart->keep_cell(cell); !kept.ok()) fault = kept.error();
            cells[{liquid.id, column.key}] = std::move(cell);
            done += cost(job.members);
            const std::string doing = (job.members == first_members ? "First look: " : "In full: ") + liquid.name + " on " + column.name;
            if (progress && !progress(total > 0 ? std::min(1.0, done / total) : 1.0, doing.c_str())) cancelled = true;
        }
    };
    std::vector<std::thread> threads;
    std::exception_ptr thrown;
    const auto guarded = [&] {
        try {
            work();
        } catch (...) {
            const std::scoped_lock lock(guard);
            if (!thrown) thrown = std::current_exception();
            cancelled = true;
        }
    };
    const auto count = std::min<std::size_t>(static_cast<std::size_t>(section_threads()), jobs.size());
    for (std::size_t t = 1; t < count; ++t) threads.emplace_back(guarded);
    guarded();
    for (auto& t : threads) t.join();
    if (thrown) std::rethrow_exception(thrown);
    if (fault) return *fault;
    if (cancelled) return Error{ErrorCode::NotConverged, "Cancelled. What was worked out so far is kept.", ""};
    return shown(in, cells, request.members);
}

}  // namespace hw::desk
