// The only main: joins the ports, then one verb.
#include <pthread.h>

#include <CLI/CLI.hpp>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iostream>
#include <iterator>
#include <memory>
#include <mutex>
#include <optional>

#include "desk/advise.hpp"
#include "desk/demo.hpp"
#include "desk/diagnose.hpp"
#include "desk/digest.hpp"
#include "desk/identify.hpp"
#include "desk/inspect.hpp"
#include "desk/meet.hpp"
#include "desk/meters.hpp"
#include "desk/next_best.hpp"
#include "desk/print.hpp"
#include "desk/protect.hpp"
#include "desk/refine.hpp"
#include "desk/titrate.hpp"
#include "desk/touch.hpp"
#include "desk/spot.hpp"
#include "desk/triage.hpp"
#include "desk/words.hpp"
#include "edge/codec/calendar.hpp"
#include "edge/codec/codec.hpp"
#include "edge/http/app.hpp"
#include "edge/http/server.hpp"
#include "edge/pdf/printer.hpp"
#include "edge/photo/child.hpp"
#include "edge/photo/reader.hpp"
#include "edge/qr/qr.hpp"
#include "edge/secret/secret.hpp"
#include "edge/sheet/reader.hpp"
#include "edge/store/sqlite_chart.hpp"
#include "edge/store/sqlite_people.hpp"
#include "edge/store/sqlite_photos.hpp"
#include "edge/store/sqlite_proofs.hpp"
#include "edge/store/sqlite_sheets.hpp"
#include "edge/store/sqlite_shelf.hpp"
#include "edge/store/sqlite_store.hpp"
#include "embedded/validation.hpp"
#include "face/cli/damage.hpp"
#include "face/cli/identify.hpp"
#include "face/cli/network.hpp"
#include "face/cli/orders.hpp"
#include "face/cli/people.hpp"
#include "face/cli/photos.hpp"
#include "face/cli/ports.hpp"
#include "face/cli/sheets.hpp"
#include "face/cli/shelf.hpp"
#include "face/cli/spots.hpp"
#include "face/cli/text.hpp"
#include "face/cli/touching.hpp"

namespace {

using namespace hw;

/// What was typed.
struct Typed {
    bool json = false, csv = false, keep = false, by_hand = false, measured = false, whole_shelf = false, base = false, quick = false;
    std::string data, file, name, id, after, page = "owner", paper = "a4", wall_paper = "a3", to = "-", pdf, size, what, role;
    std::vector<std::string> words, saw, cannot;
    std::string panel, place, age, region, proof;
    std::string have, leather_class, piece, tannage;
    double drops = -1, sample_g = -1, drop_ml = -1;
    cli::DamageTyped damage;
    bool signs = false;
    cli::ShelfOrder shelf;
    double minutes = -1, ml = -1;
    std::string goes_on = "cloth", note_pdf;
    int port = 8080, tls_port = 8443, first_port = 8081, limit = 50;
    [[nodiscard]] std::string folder() const { return data.empty() ? cli::default_folder() : data; }
};

int failed(const Error& error, bool json) {
    if (json) std::cout << codec::problem(error) << "\n";
    else std::cerr << (error.where.empty() ? "" : error.where + ": ") << error.message << "\n";
    return error_row(error.code).exit_code;
}

template <class Answer>
int print(const Result<Answer>& answer, bool json) {
    if (!answer.ok()) return failed(answer.error(), json);
    std::cout << (json ? codec::written(*answer) + "\n" : cli::text_of(*answer));
    return 0;
}

int print_text(const Result<std::string>& text) {
    if (!text.ok()) return failed(text.error(), false);
    std::cout << *text;
    return 0;
}

Result<std::string> text_from(const std::string& file) {
    if (file == "-") return std::string(std::istreambuf_iterator<char>(std::cin), {});
    std::ifstream in(file, std::ios::binary);
    if (!in || std::filesystem::is_directory(file)) return Error{ErrorCode::NotFound, "The file " + file + " cannot be read. Use - for standard input.", "request"};
    return std::string(std::istreambuf_iterator<char>(in), {});
}

/// Runs `verb` with the records of a folder joined in, or with the demo workshop that is built in.
template <class Verb>
int with_records(const Typed& typed, std::optional<store::Access> access, const Verb& verb) {
    cli::SystemClock clock;
    cli::DemoShelf shelf;
    std::unique_ptr<store::SqliteStore> kept;
    if (access) {
        auto opened = store::SqliteStore::open(typed.folder(), cli::records_as_json(), *access);
        if (!opened.ok()) return failed(opened.error(), typed.json);
        kept = std::move(*opened);
    }
    pdf::PdfPrinter printer;
    photo::ChildReader reader;
    std::optional<store::SqlitePhotos> photos;
    if (kept) photos.emplace(*kept, reader, clock);
    sheet_reader::ChildReader sheet_reader;
    std::optional<store::SqliteSheets> sheets;
    if (kept) sheets.emplace(*kept, cli::sheets_as_json());
    std::optional<store::SqliteChart> chart;
    if (kept) chart.emplace(*kept, cli::chart_as_json());
    std::optional<store::SqliteProofs> proofs;
    if (kept) proofs.emplace(*kept, cli::proofs_as_json());
    desk::Ports ports{kept ? static_cast<desk::Store&>(*kept) : shelf, clock, &printer};
    std::optional<store::SqliteShelf> bottles;
    if (kept) bottles.emplace(*kept, cli::liquid_as_json);
    qr::SvgPainter painter;
    if (photos) ports.photos = &*photos;
    if (sheets) ports.sheets = &*sheets;
    if (chart) ports.chart = &*chart;
    if (bottles) ports.shelf = &*bottles;
    ports.qr = &painter;
    if (proofs) ports.proofs = &*proofs;
    ports.sheet_reader = &sheet_reader;
    ports.journal = kept.get();
    return verb(ports);
}

int judge(const Typed& typed) {
    const auto text = text_from(typed.file);
    if (!text.ok()) return failed(text.error(), typed.json);
    const auto request = codec::parse_judge_request(*text);
    if (!request.ok()) return failed(request.error(), typed.json);
    // A request that is written out and not kept needs no records.
    const auto access = request->keep ? std::optional(store::Access::Write) : typed.data.empty() ? std::nullopt : std::optional(store::Access::Read);
    return with_records(typed, access, [&](desk::Ports& ports) { return print(desk::judge(*request, ports), typed.json); });
}

/// A piece, a liquid or a leather of the records needs the records.
int refine(const Typed& typed) {
    const auto text = text_from(typed.file);
    if (!text.ok()) return failed(text.error(), typed.json);
    const auto request = codec::parse_refine_request(*text);
    if (!request.ok()) return failed(request.error(), typed.json);
    const bool kept = !typed.data.empty() || !request->piece.empty();
    return with_records(typed, kept ? std::optional(store::Access::Read) : std::nullopt, [&](desk::Ports& ports) { return print(desk::refine(*request, ports), typed.json); });
}

int bench(const Typed& typed) {
    const bool keeps = !typed.name.empty();
    if (!keeps && (!typed.have.empty() || typed.minutes >= 0)) return failed({ErrorCode::InvalidInput, "Say which test: --name \"Small extract\".", "name"}, typed.json);
    const bool there = !typed.data.empty() || std::filesystem::exists(typed.folder() + "/store-id");
    const auto access = keeps ? std::optional(store::Access::Write) : there ? std::optional(store::Access::Read) : std::nullopt;
    return with_records(typed, access, [&](desk::Ports& ports) {
        desk::ShopTest test{typed.name, typed.have != "no", std::nullopt};
        if (typed.minutes >= 0) test.minutes = typed.minutes;
        const auto all = keeps ? desk::keep_bench(test, ports) : desk::bench_of({}, ports);
        if (!all.ok()) return failed(all.error(), typed.json);
        std::cout << (typed.json ? codec::written(*all) + "\n" : cli::text_of(*all));
        return 0;
    });
}

int analyse(const Typed& typed) {
    const auto text = text_from(typed.file);
    if (!text.ok()) return failed(text.error(), typed.json);
    const auto request = codec::parse_analyse_request(*text);
    if (!request.ok()) return failed(request.error(), typed.json);
    const auto access = typed.data.empty() ? std::nullopt : std::optional(store::Access::Read);
    return with_records(typed, access, [&](desk::Ports& ports) { return print(desk::analyse(*request, ports), typed.json); });
}

int compare(const Typed& typed) {
    const auto text = text_from(typed.file);
    if (!text.ok()) return failed(text.error(), typed.json);
    const auto request = codec::parse_compare_request(*text);
    if (!request.ok()) return failed(request.error(), typed.json);
    const auto access = typed.data.empty() ? std::nullopt : std::optional(store::Access::Read);
    return with_records(typed, access, [&](desk::Ports& ports) {
        const auto answer = desk::compare(*request, ports);
        if (!answer.ok() || !typed.csv) return print(answer, typed.json);
        std::cout << desk::as_csv(*answer);
        return 0;
    });
}

/// Bytes into a file, or to standard output.
Result<Done> put(const std::string& bytes, const std::string& to) {
    if (to == "-") {
        std::cout << bytes << std::flush;
        return std::cout ? Result<Done>(Done{}) : Error{ErrorCode::Unavailable, "Standard output takes no more.", "to"};
    }
    std::ofstream out(to, std::ios::binary | std::ios::trunc);
    out << bytes << std::flush;
    if (!out) return Error{ErrorCode::Unavailable, "The file " + to + " cannot be written. Give another with -o.", "to"};
    return Done{};
}

int rebalance(const Typed& typed) {
    const auto text = text_from(typed.file);
    if (!text.ok()) return failed(text.error(), typed.json);
    const auto request = codec::parse_rebalance_request(*text);
    if (!request.ok()) return failed(request.error(), typed.json);
    const auto access = typed.data.empty() && request->known.piece.empty() ? std::nullopt : std::optional(store::Access::Read);
    return with_records(typed, access, [&](desk::Ports& ports) {
        if (typed.pdf.empty()) return print(desk::rebalance(*request, ports), typed.json);
        const auto paper = desk::parse_paper(typed.paper);
        if (!paper.ok()) return failed(paper.error(), typed.json);
        const auto answer = desk::print_plan(*request, *paper, ports);
        if (!answer.ok()) return failed(answer.error(), typed.json);
        const auto done = put(answer->pdf, typed.pdf);
        return done.ok() ? 0 : failed(done.error(), typed.json);
    });
}

/// A file where one is given, then what was typed beside it.
int diagnose(const Typed& typed) {
    if (typed.signs) {
        std::cout << (typed.json ? codec::written(desk::damage_signs()) + "\n" : cli::signs_text());
        return 0;
    }
    desk::DiagnoseRequest request;
    if (!typed.file.empty()) {
        const auto text = text_from(typed.file);
        if (!text.ok()) return failed(text.error(), typed.json);
        auto read = codec::parse_diagnose_request(*text);
        if (!read.ok()) return failed(read.error(), typed.json);
        request = std::move(*read);
    }
    if (const auto fine = cli::add_typed(typed.damage, request); !fine.ok()) return failed(fine.error(), typed.json);
    request.keep = request.keep || typed.keep;
    const auto access = request.piece.empty() ? std::nullopt : std::optional(request.keep ? store::Access::Write : store::Access::Read);
    return with_records(typed, access, [&](desk::Ports& ports) { return print(desk::diagnose(request, ports), typed.json); });
}

int advise(const Typed& typed) {
    desk::AdviseRequest request;
    if (!typed.file.empty()) {
        const auto text = text_from(typed.file);
        if (!text.ok()) return failed(text.error(), typed.json);
        auto read = codec::parse_advise_request(*text);
        if (!read.ok()) return failed(read.error(), typed.json);
        request = std::move(*read);
    }
    if (const auto fine = cli::add_typed(typed.damage, request.known); !fine.ok()) return failed(fine.error(), typed.json);
    request.known.keep = request.known.keep || typed.keep;
    const auto access = request.known.piece.empty() ? std::nullopt : std::optional(request.known.keep ? store::Access::Write : store::Access::Read);
    return with_records(typed, access, [&](desk::Ports& ports) { return print(desk::advise(request, ports), typed.json); });
}

int digest(const Typed& typed) {
    auto request = cli::digest_request(typed.file);
    if (!request.ok()) return failed(request.error(), typed.json);
    request->keep = typed.keep || typed.by_hand;
    request->by_hand = typed.by_hand;
    return with_records(typed, request->keep ? std::optional(store::Access::Write) : std::nullopt, [&](desk::Ports& ports) { return print(desk::digest(*request, ports), typed.json); });
}

int list_sheets(const Typed& typed, desk::Ports& ports) {
    const auto rows = ports.sheets->sheets({typed.after, typed.limit});
    if (!rows.ok()) return failed(rows.error(), typed.json);
    if (typed.json) std::cout << codec::written(*rows) << "\n";
    else for (const auto& row : *rows) std::cout << cli::line_of(row) << "\n";
    return 0;
}

int save_sheet_page(const Typed& typed, const std::string& id, desk::Ports& ports) {
    const auto png = desk::sheet_page(id, std::atoi(typed.words[2].c_str()), ports);
    if (!png.ok()) return failed(png.error(), typed.json);
    const auto done = put(*png, typed.to);
    return done.ok() ? 0 : failed(done.error(), typed.json);
}

int shelve_sheet(const Typed& typed, const std::string& id, desk::Ports& ports) {
    const auto liquid = desk::shelve_sheet({id, typed.id}, ports);
    if (!liquid.ok()) return failed(liquid.error(), typed.json);
    std::cout << (typed.json ? codec::written(*liquid) : liquid->id + "  " + liquid->name) << "\n";
    return 0;
}

int sheets(const Typed& typed) {
    const auto& words = typed.words;
    const std::string verb = words.size() > 1 ? words[0] : "";
    const bool writes = verb == "correct" || verb == "shelve";
    const bool known = words.size() < 2 || (verb == "correct" && words.size() == 4) || (verb == "shelve" && words.size() == 2) || (verb == "page" && words.size() == 3);
    if (!known) return failed({ErrorCode::InvalidInput, "Say: sheets, sheets ID, sheets correct ID KEY VALUE, sheets shelve ID, or sheets page ID NUMBER -o page.png.", "sheets"}, typed.json);
    return with_records(typed, writes ? store::Access::Write : store::Access::Read, [&](desk::Ports& ports) {
        if (words.empty()) return list_sheets(typed, ports);
        const auto id = cli::whole_id(verb.empty() ? words[0] : words[1], *ports.sheets);
        if (!id.ok()) return failed(id.error(), typed.json);
        if (verb == "page") return save_sheet_page(typed, *id, ports);
        if (verb == "shelve") return shelve_sheet(typed, *id, ports);
        if (verb == "correct") return print(desk::correct_sheet({"", *id, words[2], words[3], typed.measured ? desk::CorrectedBy::Measured : desk::CorrectedBy::Typed, "", ""}, ports), typed.json);
        desk::DigestRequest request;
        request.sheet = *id;
        return print(desk::digest(request, ports), typed.json);
    });
}

/// The records where there are some, else the demo workshop.
std::optional<store::Access> access_of(const Typed& typed, bool writes) {
    if (writes) return store::Access::Write;
    const bool there = !typed.data.empty() || std::filesystem::exists(typed.folder() + "/store-id");
    return there ? std::optional(store::Access::Read) : std::nullopt;
}

int touch(const Typed& typed) {
    desk::TouchRequest request;
    if (!typed.file.empty()) {
        const auto text = text_from(typed.file);
        if (!text.ok()) return failed(text.error(), typed.json);
        const auto parsed = codec::parse_touch_request(*text);
        if (!parsed.ok()) return failed(parsed.error(), typed.json);
        request = *parsed;
    }
    if (!typed.id.empty()) request.liquids = {typed.id};
    if (!typed.leather_class.empty()) request.classes = {typed.leather_class};
    if (!typed.piece.empty()) request.pieces = {typed.piece};
    if (typed.quick) request.members = desk::first_members;
    request.keep = request.keep || typed.keep;
    const auto paper = desk::parse_wall_paper(typed.wall_paper);
    if (!paper.ok()) return failed(paper.error(), typed.json);
    return with_records(typed, access_of(typed, request.keep), [&](desk::Ports& ports) {
        const auto chart = desk::touch(request, ports);
        if (!chart.ok() || typed.pdf.empty()) return print(chart, typed.json);
        const auto page = desk::print_chart(*chart, *paper, ports);
        if (!page.ok()) return failed(page.error(), typed.json);
        const auto done = put(page->pdf, typed.pdf);
        if (!done.ok()) return failed(done.error(), typed.json);
        return typed.pdf == "-" ? 0 : print(chart, typed.json);
    });
}

int meet(const Typed& typed) {
    if (typed.whole_shelf) return with_records(typed, access_of(typed, false), [&](desk::Ports& ports) { return print(desk::shelf_meetings(ports), typed.json); });
    auto request = cli::meet_request(typed.words);
    if (!typed.file.empty()) {
        const auto text = text_from(typed.file);
        if (!text.ok()) return failed(text.error(), typed.json);
        request = codec::parse_meet_request(*text);
    }
    if (!request.ok()) return failed(request.error(), typed.json);
    if (!typed.piece.empty()) request->piece = typed.piece, request->panel = typed.panel;
    if (!typed.tannage.empty()) request->tannage = typed.tannage;
    return with_records(typed, access_of(typed, false), [&](desk::Ports& ports) { return print(desk::meet(*request, ports), typed.json); });
}

int titrate(const Typed& typed) {
    desk::TitrateRequest request;
    if (!typed.file.empty()) {
        const auto text = text_from(typed.file);
        if (!text.ok()) return failed(text.error(), typed.json);
        const auto parsed = codec::parse_titrate_request(*text);
        if (!parsed.ok()) return failed(parsed.error(), typed.json);
        request = *parsed;
    }
    if (!typed.id.empty()) request.liquid.id = typed.id;
    if (typed.base) request.base = true;
    if (typed.drops >= 0) request.count_1 = typed.drops;
    if (typed.sample_g > 0) request.sample_g = typed.sample_g;
    if (typed.drop_ml > 0) request.drops.drop_ml = typed.drop_ml;
    const auto paper = desk::parse_paper(typed.paper);
    if (!paper.ok()) return failed(paper.error(), typed.json);
    return with_records(typed, access_of(typed, false), [&](desk::Ports& ports) {
        const auto answer = desk::titrate(request, ports);
        if (!answer.ok() || typed.pdf.empty() || !answer->refused.empty()) return print(answer, typed.json);
        const auto page = desk::print_titration(request, *paper, ports);
        if (!page.ok()) return failed(page.error(), typed.json);
        const auto done = put(page->pdf, typed.pdf);
        if (!done.ok()) return failed(done.error(), typed.json);
        return typed.pdf == "-" ? 0 : print(answer, typed.json);
    });
}

/// Where phones reach the program that serves; empty while the network is off. Another port than the usual one is not written down.
std::string usual_address(const Typed& typed) {
    auto kept = store::SqliteStore::open(typed.folder(), cli::records_as_json(), store::Access::Read);
    if (!kept.ok()) return {};
    const auto wish = store::SqlitePeople((*kept)->database()).network();
    return wish.ok() && wish->on ? "https://" + wish->name + ":" + std::to_string(typed.tls_port) : "";
}

int shelf(const Typed& typed) {
    cli::ShelfOrder order = typed.shelf;
    order.words = typed.words;
    order.json = typed.json;
    order.measured = typed.measured;
    order.after = typed.after;
    order.limit = typed.limit;
    order.paper = typed.paper;
    if (!order.words.empty() && order.words[0] == "labels" && order.address.empty()) order.address = usual_address(typed);
    if (order.words.size() == 2 && order.words[0] == "import") {
        const auto text = text_from(order.words[1]);
        if (!text.ok()) return failed(text.error(), typed.json);
        order.text = *text;
    }
    return with_records(typed, cli::changes_shelf(order) ? store::Access::Write : store::Access::Read, [&](desk::Ports& ports) {
        const auto said = cli::carry_out_shelf(order, ports);
        if (!said.ok()) return failed(said.error(), typed.json);
        const auto done = put(*said, typed.to);
        return done.ok() ? 0 : failed(done.error(), typed.json);
    });
}

int inspect(const Typed& typed) {
    const auto text = text_from(typed.file);
    if (!text.ok()) return failed(text.error(), typed.json);
    const auto request = codec::parse_inspect_request(*text);
    if (!request.ok()) return failed(request.error(), typed.json);
    const auto access = request->entries.empty() ? store::Access::Read : store::Access::Write;
    return with_records(typed, access, [&](desk::Ports& ports) { return print(desk::inspect(*request, ports), typed.json); });
}

int identify(const Typed& typed) {
    Result<desk::IdentifyRequest> request = desk::IdentifyRequest{};
    if (!typed.file.empty()) {
        const auto text = text_from(typed.file);
        if (!text.ok()) return failed(text.error(), typed.json);
        request = codec::parse_identify_request(*text);
    }
    if (!request.ok()) return failed(request.error(), typed.json);
    request = cli::identify_typed(*request, {typed.saw, typed.cannot, typed.id, typed.panel, typed.place, typed.age, typed.region, typed.proof, typed.keep});
    if (!request.ok()) return failed(request.error(), typed.json);
    const bool writes = request->write || request->proven;
    const auto access = writes ? std::optional(store::Access::Write) : !request->piece.empty() || !typed.data.empty() ? std::optional(store::Access::Read) : std::nullopt;
    return with_records(typed, access, [&](desk::Ports& ports) { return print(desk::identify(*request, ports), typed.json); });
}

/// Of all pieces: what waits, how often things passed, and what waits as a calendar.
int spots_of_all(const Typed& typed) {
    return with_records(typed, store::Access::Read, [&](desk::Ports& ports) {
        if (typed.what == "rates") return print(desk::spot_rates(ports), typed.json);
        const auto due = desk::spots_due(ports);
        if (typed.what == "due" || !due.ok()) return print(due, typed.json);
        const auto done = put(codec::calendar_written(*due, ports.clock.now_utc()), typed.to);
        return done.ok() ? 0 : failed(done.error(), typed.json);
    });
}

int spot(const Typed& typed) {
    if (typed.what == "due" || typed.what == "rates" || typed.what == "calendar") return spots_of_all(typed);
    if (typed.file.empty()) return failed({ErrorCode::InvalidInput, typed.what == "result" ? "Give the id of the piece." : "Give a JSON file, or - for standard input: hidewright examples spot.", "request"}, typed.json);
    desk::SpotRequest request;
    if (typed.what == "result") {
        request.piece = typed.file;
    } else {
        const auto text = text_from(typed.file);
        if (!text.ok()) return failed(text.error(), typed.json);
        const auto parsed = codec::parse_spot_request(*text);
        if (!parsed.ok()) return failed(parsed.error(), typed.json);
        request = *parsed;
        if (typed.what != "plan" && request.entries.empty()) return failed({ErrorCode::InvalidInput, "There is no entry in this request. Put in what was made or read.", "entries"}, typed.json);
    }
    const auto access = request.entries.empty() ? store::Access::Read : store::Access::Write;
    return with_records(typed, access, [&](desk::Ports& ports) { return print(desk::spot(request, ports), typed.json); });
}

int triage(const Typed& typed) {
    if (typed.file.empty()) {
        if (typed.json) std::cout << codec::written(desk::triage_questions()) << "\n";
        else std::cout << cli::text_of(desk::triage_questions());
        return 0;
    }
    const auto text = text_from(typed.file);
    if (!text.ok()) return failed(text.error(), typed.json);
    const auto request = codec::parse_triage_request(*text);
    if (!request.ok()) return failed(request.error(), typed.json);
    const auto paper = desk::parse_paper(typed.paper);
    if (!paper.ok()) return failed(paper.error(), typed.json);
    const auto access = request->keep ? std::optional(store::Access::Write) : std::nullopt;
    return with_records(typed, access, [&](desk::Ports& ports) {
        const auto answer = desk::triage(*request, ports);
        if (!answer.ok() || typed.pdf.empty()) return print(answer, typed.json);
        const auto page = desk::print_triage(*request, *paper, ports);
        if (!page.ok()) return failed(page.error(), typed.json);
        const auto done = put(page->pdf, typed.pdf);
        if (!done.ok()) return failed(done.error(), typed.json);
        return typed.pdf == "-" ? 0 : print(answer, typed.json);
    });
}

/// A request from a file, or from the few words that most jobs need.
Result<desk::ProtectRequest> protect_request(const Typed& typed) {
    if (!typed.file.empty()) {
        HW_TRY(text, text_from(typed.file));
        return codec::parse_protect_request(text);
    }
    if (typed.id.empty() || typed.ml <= 0) return Error{ErrorCode::InvalidInput, "Give a request, or --liquid ID --ml NUMBER --place PLACE.", "request"};
    desk::ProtectRequest out;
    if (!typed.place.empty()) out.place.key = typed.place;
    desk::PlannedItem item;
    item.liquid.id = typed.id;
    item.ml = typed.ml;
    if (typed.minutes >= 0) item.over_min = typed.minutes;
    for (const auto& [value, name] : EnumNames<desk::GoesOn>::names)
        if (name == typed.goes_on) item.goes_on = value;
    out.items = {item};
    return out;
}

int protect(const Typed& typed) {
    const auto request = protect_request(typed);
    if (!request.ok()) return failed(request.error(), typed.json);
    const auto paper = desk::parse_paper(typed.paper);
    if (!paper.ok()) return failed(paper.error(), typed.json);
    const bool there = !typed.data.empty() || std::filesystem::exists(typed.folder() + "/store-id");
    return with_records(typed, there ? std::optional(store::Access::Read) : std::nullopt, [&](desk::Ports& ports) {
        for (const auto& [file, kind] : {std::pair(typed.pdf, desk::PageKind::Technical), std::pair(typed.note_pdf, desk::PageKind::Owner)}) {
            if (file.empty()) continue;
            const auto page = desk::print_safety(*request, kind, *paper, ports);
            if (!page.ok()) return failed(page.error(), typed.json);
            const auto done = put(page->pdf, file);
            if (!done.ok()) return failed(done.error(), typed.json);
            if (file == "-") return 0;
        }
        return print(desk::protect(*request, ports), typed.json);
    });
}

int limits(const Typed& typed) {
    if (typed.file.empty()) return with_records(typed, store::Access::Read, [&](desk::Ports& ports) { return print(ports.store.own_limits(), typed.json); });
    const auto text = text_from(typed.file);
    if (!text.ok()) return failed(text.error(), typed.json);
    const auto limit = codec::parse_own_limit(*text);
    if (!limit.ok()) return failed(limit.error(), typed.json);
    return with_records(typed, store::Access::Write, [&](desk::Ports& ports) { return print(desk::keep_own_limit(*limit, ports), typed.json); });
}

int calibrate(const Typed& typed) {
    const auto text = text_from(typed.file);
    if (!text.ok()) return failed(text.error(), typed.json);
    const auto request = codec::parse_calibration(*text);
    if (!request.ok()) return failed(request.error(), typed.json);
    return with_records(typed, store::Access::Write, [&](desk::Ports& ports) { return print(desk::calibrate(*request, ports), typed.json); });
}

int meters(const Typed& typed) {
    if (!typed.name.empty())
        return with_records(typed, store::Access::Write, [&](desk::Ports& ports) {
            const auto id = ports.journal->keep_instrument({typed.id, typed.name, "", ""});
            if (!id.ok()) return failed(id.error(), typed.json);
            std::cout << *id << "\n";
            return 0;
        });
    return with_records(typed, store::Access::Read, [&](desk::Ports& ports) {
        const auto all = desk::meters(ports);
        if (!all.ok()) return failed(all.error(), typed.json);
        if (typed.json) std::cout << codec::written(*all) << "\n";
        else for (const auto& m : *all) std::cout << m.instrument.id << "  " << m.instrument.name << "  " << (m.due.empty() ? m.last->sentence : m.due) << "\n";
        return 0;
    });
}

std::string line_of(const desk::Liquid& l) { return l.id + "  " + l.name; }
std::string line_of(const desk::Leather& l) { return l.id + "  " + l.name; }
std::string line_of(const desk::JudgementRow& r) { return r.id + "  " + r.kept_at.substr(0, 10) + "  " + r.grade + "  " + r.title; }

std::string line_of(const desk::PieceRow& r) { return r.id + "  " + r.changed_at.substr(0, 10) + "  " + r.name; }

/// A page of a list: of the records, or of the demo workshop while there are none.
template <class List>
int list(const Typed& typed, const List& rows_of) {
    const bool there = !typed.data.empty() || std::filesystem::exists(typed.folder() + "/store-id");
    if (!there && !typed.json) std::cerr << "No records in " << typed.folder() << " yet: this is the demo workshop.\n";
    return with_records(typed, there ? std::optional(store::Access::Read) : std::nullopt, [&](desk::Ports& ports) {
        const auto rows = rows_of(ports.store, desk::Page{typed.after, typed.limit});
        if (!rows.ok()) return failed(rows.error(), typed.json);
        if (typed.json) std::cout << codec::written(*rows) << "\n";
        else for (const auto& row : *rows) std::cout << line_of(row) << "\n";
        return 0;
    });
}

int judgements(const Typed& typed) {
    if (typed.id.empty()) return list(typed, [](desk::Store& s, const desk::Page& page) { return s.judgements(page); });
    return with_records(typed, store::Access::Read, [&](desk::Ports& ports) {
        const auto one = ports.store.judgement(typed.id);
        if (!one.ok()) return failed(one.error(), typed.json);
        std::cout << (typed.json ? codec::written(*one) + "\n" : cli::text_of(one->answer));
        return 0;
    });
}

int pieces(const Typed& typed) {
    return with_records(typed, store::Access::Read, [&](desk::Ports& ports) {
        if (!typed.id.empty()) return print(desk::inspect({typed.id, {}}, ports), typed.json);
        const auto rows = ports.journal->pieces({typed.after, typed.limit});
        if (!rows.ok()) return failed(rows.error(), typed.json);
        if (typed.json) std::cout << codec::written(*rows) << "\n";
        else for (const auto& row : *rows) std::cout << line_of(row) << "\n";
        return 0;
    });
}

int list_photos(const Typed& typed, desk::Photos& photos) {
    const auto rows = photos.photos({typed.after, typed.limit});
    if (!rows.ok()) return failed(rows.error(), typed.json);
    if (typed.json) std::cout << codec::written(*rows) << "\n";
    else for (const auto& row : *rows) std::cout << cli::line_of(row) << "\n";
    return 0;
}

int add_photos(const Typed& typed, desk::Photos& photos) {
    int exit_code = 0;
    for (std::size_t i = 1; i < typed.words.size(); ++i) {
        const auto added = cli::add_photo(typed.words[i], photos);
        if (!added.ok()) exit_code = failed({added.error().code, added.error().message, typed.words[i]}, typed.json);
        else std::cout << (typed.json ? codec::written(*added) : cli::line_of(*added)) << "\n";
    }
    return exit_code;
}

int show_photo(const Typed& typed, desk::Photos& photos) {
    if (typed.size.empty()) {
        const auto photo = photos.photo(typed.words[0]);
        if (!photo.ok()) return failed(photo.error(), typed.json);
        std::cout << (typed.json ? codec::written(*photo) + "\n" : cli::text_of(*photo));
        return 0;
    }
    const auto size = cli::parse_photo_size(typed.size);
    if (!size.ok()) return failed(size.error(), typed.json);
    const auto bytes = photos.file(typed.words[0], *size);
    if (!bytes.ok()) return failed(bytes.error(), typed.json);
    const auto done = put(*bytes, typed.to);
    return done.ok() ? 0 : failed(done.error(), typed.json);
}

int photos(const Typed& typed) {
    const bool adds = !typed.words.empty() && typed.words[0] == "add";
    if (adds ? typed.words.size() < 2 : typed.words.size() > 1) return failed({ErrorCode::InvalidInput, "Give one id, or add and the files to add.", "photo"}, typed.json);
    return with_records(typed, adds ? store::Access::Write : store::Access::Read, [&](desk::Ports& ports) {
        return adds ? add_photos(typed, *ports.photos) : typed.words.empty() ? list_photos(typed, *ports.photos) : show_photo(typed, *ports.photos);
    });
}

Result<desk::PrintRequest> print_request(const Typed& typed) {
    desk::PrintRequest request;
    HW_TRY(page, desk::parse_page_kind(typed.page));
    HW_TRY(paper, desk::parse_paper(typed.paper));
    request.page = page;
    request.paper = paper;
    if (typed.id != "-") {
        request.id = typed.id;
        return request;
    }
    HW_TRY(text, text_from("-"));
    HW_TRY(judged, codec::parse_judge_request(text));
    request.request = judged;
    return request;
}

int print_pages(const Typed& typed) {
    const auto request = print_request(typed);
    if (!request.ok()) return failed(request.error(), typed.json);
    const auto access = request->request && typed.data.empty() ? std::nullopt : std::optional(store::Access::Read);
    return with_records(typed, access, [&](desk::Ports& ports) {
        const auto answer = desk::print(*request, ports);
        if (!answer.ok()) return failed(answer.error(), typed.json);
        const auto done = put(answer->pdf, typed.to);
        return done.ok() ? 0 : failed(done.error(), typed.json);
    });
}

int demo(const Typed& typed) {
    auto opened = store::SqliteStore::open(typed.folder(), cli::records_as_json());
    if (!opened.ok()) return failed(opened.error(), false);
    cli::SystemClock clock;
    desk::Ports ports{**opened, clock};
    ports.journal = opened->get();
    store::SqliteShelf bottles(**opened, cli::liquid_as_json);
    store::SqliteSheets sheets(**opened, cli::sheets_as_json());
    sheet_reader::ChildReader sheet_reader;
    ports.shelf = &bottles;
    ports.sheets = &sheets;
    ports.sheet_reader = &sheet_reader;
    const auto done = typed.name == "load" ? (*opened)->as_demo([&] { return desk::load_demo(ports); }) : (*opened)->remove_demo();
    if (!done.ok()) return failed(done.error(), false);
    std::cout << (typed.name == "load" ? "The demo workshop is in.\n" : "The demo workshop is out.\n");
    return 0;
}

void log_line(const std::string& line) {
    static std::mutex one_at_a_time;
    const std::scoped_lock lock(one_at_a_time);
    std::cerr << line << "\n";
}

int people(const Typed& typed) {
    cli::SystemClock clock;
    const auto done = cli::people({typed.folder(), typed.what, typed.name, typed.role, typed.json}, clock);
    return done.ok() ? 0 : failed(done.error(), typed.json);
}

int network(const Typed& typed) {
    cli::SystemClock clock;
    const auto done = cli::network({typed.folder(), typed.what, typed.name, typed.role, typed.json}, clock);
    return done.ok() ? 0 : failed(done.error(), typed.json);
}

int routes(const Typed&) {
    for (const auto& r : http::App::routes())
        for (const auto& [role, word] : EnumNames<desk::Role>::names)
            if (role == r.least) std::cout << r.method << " " << r.path << " " << word << "\n";
    return 0;
}

/// Twice a second until a signal comes: what the console orders, and what the network needs.
void tend_until(const sigset_t& signals, const std::string& folder, desk::People& people, cli::NetworkKeeper& keeper, http::Server& server) {
    const timespec half_a_second{0, 500'000'000};
    int listening = 0;
    do {
        cli::carry_out_orders(folder, [&](const std::string& order) {
            const auto done = cli::carry_out(order, people);
            log_line("order " + order.substr(0, order.find(' ')) + (done.ok() ? " done" : " refused"));
            return done;
        });
        keeper.tend(server);
        if (server.tls_port() == listening) continue;
        listening = server.tls_port();
        if (listening == 0) std::cout << "The network is off." << std::endl;
        else std::cout << "On the network: https://" << keeper.state().name << ":" << listening << "/  (the certificate for phones: port " << server.first_port() << ")" << std::endl;
    } while (sigtimedwait(&signals, nullptr, &half_a_second) < 0);
}

int serve(const Typed& typed) {
    // tend_until takes the signals, so every thread blocks them.
    sigset_t signals;
    sigemptyset(&signals);
    sigaddset(&signals, SIGINT);
    sigaddset(&signals, SIGTERM);
    pthread_sigmask(SIG_BLOCK, &signals, nullptr);
    auto opened = store::SqliteStore::open(typed.folder(), cli::records_as_json());
    if (!opened.ok()) return failed(opened.error(), false);
    cli::SystemClock clock;
    pdf::PdfPrinter printer;
    photo::ChildReader reader;
    store::SqlitePhotos photos(**opened, reader, clock);
    sheet_reader::ChildReader sheet_reader;
    store::SqliteSheets sheets(**opened, cli::sheets_as_json());
    store::SqliteChart chart(**opened, cli::chart_as_json());
    store::SqliteProofs proofs(**opened, cli::proofs_as_json());
    auto secrets = secret::SodiumSecrets::make();
    if (!secrets.ok()) return failed(secrets.error(), false);
    store::SqlitePeople kept_people((*opened)->database());
    desk::People everybody(kept_people, *secrets, clock);
    cli::NetworkKeeper keeper(typed.folder(), typed.tls_port, typed.first_port, everybody, clock);
    qr::SvgPainter painter;
    desk::Ports ports{**opened, clock, &printer, &everybody, &painter, &keeper};
    ports.photos = &photos;
    ports.sheet_reader = &sheet_reader;
    ports.sheets = &sheets;
    ports.chart = &chart;
    store::SqliteShelf bottles(**opened, cli::liquid_as_json);
    ports.shelf = &bottles;
    ports.proofs = &proofs;
    ports.journal = opened->get();
    if ((*opened)->is_new()) {
        std::cout << "First start: loading the demo workshop …" << std::endl;
        const auto loaded = (*opened)->as_demo([&] { return desk::load_demo(ports); });
        if (!loaded.ok()) return failed(loaded.error(), false);
    }
    const auto started = http::Server::start({typed.port, log_line}, ports);
    if (!started.ok()) return failed(started.error(), false);
    std::cout << "Open http://127.0.0.1:" << (*started)->port() << "/  (records in " << typed.folder() << "; Ctrl-C stops)" << std::endl;
    tend_until(signals, typed.folder(), everybody, keeper, **started);
    return 0;
}

int prove(const Typed&) {
    for (const auto& f : embedded::validation) std::cout << f.text;
    return 0;
}

/// Adds the verbs to the command line; parsing runs the one that was typed and leaves its exit code.
class Verbs {
public:
    Verbs(CLI::App& app, Typed& typed, int& exit_code) : app_(app), typed_(typed), exit_code_(exit_code) {}

    void add_all() {
        CLI::App* sub = add("triage", "a worried caller: what to say now, what never, how soon", "hidewright examples triage | hidewright triage -", triage);
        sub->add_option("request", typed_.file, "JSON file, or - for standard input; without: the questions")->type_name("");
        sub->add_flag("--json", typed_.json, "for programs");
        sub->add_option("--pdf", typed_.pdf, "one page to print or send as well, into this file")->type_name("FILE");
        sub->add_option("--paper", typed_.paper, "a4 or letter; else a4")->type_name("PAPER");
        takes_folder(sub);
        sub = add("digest", "what a safety data sheet says, each fact with its place", "hidewright digest sheet.pdf --keep", digest);
        sub->add_option("file", typed_.file, "the sheet as PDF; - for standard input")->required()->type_name("");
        sub->add_flag("--keep", typed_.keep, "keep it with the records");
        sub->add_flag("--by-hand", typed_.by_hand, "keep a file without readable text, to type what it says");
        sub->add_flag("--json", typed_.json, "for programs");
        takes_folder(sub);
        sub = add("sheets", "the kept data sheets: list, show, correct, draw a page, put on the shelf", "hidewright sheets correct ID ph \"12 to 12.6\"", sheets);
        sub->add_option("what", typed_.words, "id of one (its first letters do); or: correct ID KEY VALUE, shelve ID, page ID NUMBER; else all, newest first")->type_name("");
        sub->add_flag("--measured", typed_.measured, "the value was read at the bottle, not typed from paper");
        sub->add_option("--liquid", typed_.id, "with shelve: the liquid that it is")->type_name("ID");
        sub->add_option("-o,--to", typed_.to, "with page: file to write; else standard output")->type_name("FILE");
        takes_page(sub);
        sub = add("touch", "which liquid of the shelf may touch which leather, each a judgement", "hidewright touch --class aniline --pdf wall.pdf", touch);
        sub->add_option("--request", typed_.file, "JSON file, or - for standard input: use, liquids, classes, pieces")->type_name("FILE");
        sub->add_option("--liquid", typed_.id, "one liquid of the shelf; else all")->type_name("ID");
        sub->add_option("--class", typed_.leather_class, "one leather class; else all, and the pieces")->type_name("KEY");
        sub->add_option("--piece", typed_.piece, "the panels of one piece")->type_name("ID");
        sub->add_flag("--quick", typed_.quick, "a first look, from few cases");
        sub->add_flag("--keep", typed_.keep, "keep what is worked out with the records");
        sub->add_option("--pdf", typed_.pdf, "the chart for the wall as well, into this file")->type_name("FILE");
        sub->add_option("--paper", typed_.wall_paper, "a3, a4, tabloid or letter, across; else a3")->type_name("PAPER");
        sub->add_flag("--json", typed_.json, "for programs");
        takes_folder(sub);
        sub = add("meet", "which of these must never meet: together, one after the other, on the shelf", "hidewright meet demo_bleach wiped rinsed:3 demo_vinegar", meet);
        sub->add_option("liquids", typed_.words, "ids in their order; between them what was done: wiped, rinsed:3, dried:24, 2h")->type_name("");
        sub->add_option("--request", typed_.file, "JSON file, or - for standard input, instead")->type_name("FILE");
        sub->add_flag("--shelf", typed_.whole_shelf, "everything on the shelf, and where to keep it");
        sub->add_option("--piece", typed_.piece, "what its record says was laid on came before")->type_name("ID");
        sub->add_option("--panel", typed_.panel, "of the piece")->type_name("CODE");
        sub->add_option("--tannage", typed_.tannage, "of the leather it is on")->type_name("KEY");
        sub->add_flag("--json", typed_.json, "for programs");
        takes_folder(sub);
        sub = add("titrate", "what a product holds, by drops counted at the bench", "hidewright titrate demo_degreaser --drops 12", titrate);
        sub->add_option("liquid", typed_.id, "id of the shelf")->type_name("");
        sub->add_option("--request", typed_.file, "JSON file, or - for standard input")->type_name("FILE");
        sub->add_option("--drops", typed_.drops, "to the end; without: how it is done")->check(CLI::Range(0, 4000))->type_name("NUMBER");
        sub->add_option("--grams", typed_.sample_g, "of product, weighed; else one millilitre")->type_name("NUMBER");
        sub->add_option("--drop-ml", typed_.drop_ml, "one drop; else 0.05")->type_name("NUMBER");
        sub->add_flag("--base", typed_.base, "drops of thin sodium hydroxide into an acid product");
        sub->add_option("--pdf", typed_.pdf, "how it is done, one page, into this file")->type_name("FILE");
        sub->add_option("--paper", typed_.paper, "a4 or letter; else a4")->type_name("PAPER");
        sub->add_flag("--json", typed_.json, "for programs");
        takes_folder(sub);
        sub = add("shelf", "the shelf: what has to be seen to, bottles, tables, labels", "hidewright shelf used \"Foam cleaner\" 50", shelf);
        sub->add_option("what", typed_.words, cli::shelf_words)->type_name("");
        sub->add_option("--lot", typed_.shelf.lot, "code or id of the lot; else the one to take next")->type_name("LOT");
        sub->add_option("--code", typed_.shelf.code, "with received: as on the bottle")->type_name("TEXT");
        sub->add_option("--expiry", typed_.shelf.expiry, "with received: printed on the bottle, 2027-03-31 or 2027-03")->type_name("DATE");
        sub->add_option("--place", typed_.shelf.place, "with received: where it stands")->type_name("TEXT");
        sub->add_option("--on", typed_.shelf.on, "the day it was done, 2026-01-02; else now")->type_name("DATE");
        sub->add_option("--piece", typed_.shelf.piece, "with used: id of the piece")->type_name("ID");
        sub->add_flag("--measured", typed_.measured, "with say: the value was measured, not typed from paper");
        sub->add_option("--address", typed_.shelf.address, "with labels: of the server, https://workshop.local:8443; else that of the network while it is on, with the usual port")->type_name("URL");
        sub->add_flag("--take", typed_.shelf.take, "with import: take it in; else only say what would happen");
        sub->add_option("--paper", typed_.paper, "with labels: a4 or letter; else a4")->type_name("PAPER");
        sub->add_option("-o,--to", typed_.to, "file to write; else standard output")->type_name("FILE");
        takes_page(sub);
        sub = add("judge", "will this liquid hurt this leather, used this way?", "hidewright examples judge | hidewright judge -", judge);
        takes_request(sub);
        sub = add("refine", "what readings change about what happened, and which to take next", "hidewright examples refine | hidewright refine -", refine);
        takes_request(sub);
        sub = add("bench", "the tests of the bench as the shop has them, or keep one", "hidewright bench --name \"Small extract\" --have no", bench);
        sub->add_option("--name", typed_.name, "the test to keep")->type_name("TEST");
        sub->add_option("--have", typed_.have, "yes or no: whether the shop has what it takes; else yes")->check(CLI::IsMember({"yes", "no"}))->type_name("WORD");
        sub->add_option("--minutes", typed_.minutes, "of work; else the usual")->check(CLI::Range(0, 600))->type_name("NUMBER");
        sub->add_flag("--json", typed_.json, "for programs");
        takes_folder(sub);
        sub = add("analyse", "what a liquid is: pH, reserve, what leaves, what forms", "hidewright examples analyse | hidewright analyse - --json", analyse);
        takes_request(sub);
        sub = add("compare", "several liquids, leathers or ways of use side by side", "hidewright examples compare | hidewright compare - --csv > table.csv", compare);
        takes_request(sub);
        sub->add_flag("--csv", typed_.csv, "a table for spreadsheets, RFC 4180");
        sub = add("rebalance", "bring a leather back, or leave it alone: a plan with a bench card", "hidewright examples rebalance | hidewright rebalance -", rebalance);
        takes_request(sub);
        sub->add_option("--pdf", typed_.pdf, "write the bench card and the plan as PDF; - for standard output")->type_name("FILE");
        sub->add_option("--paper", typed_.paper, "a4 or letter; else a4")->type_name("PAPER");
        sub = add("protect", "the safety card of a job, and a note for the household", "hidewright examples protect | hidewright protect - --pdf card.pdf", protect);
        sub->add_option("request", typed_.file, "JSON file, or - for standard input; without: the options below")->type_name("");
        sub->add_option("--liquid", typed_.id, "a liquid of the shelf")->type_name("ID");
        sub->add_option("--ml", typed_.ml, "of it, in all")->check(CLI::Range(0.01, 100000.0))->type_name("NUMBER");
        sub->add_option("--minutes", typed_.minutes, "over which it goes on; else 30")->check(CLI::Range(0, 1440))->type_name("NUMBER");
        sub->add_option("--place", typed_.place, "workshop_extract, workshop, home_room, home_open, closed_car, open_car or outdoors; else workshop")->type_name("PLACE");
        sub->add_option("--on", typed_.goes_on, "cloth, swab, brush, foam, spray or airbrush; else cloth")->check(CLI::IsMember({"cloth", "swab", "brush", "foam", "spray", "airbrush"}))->type_name("WAY");
        sub->add_option("--pdf", typed_.pdf, "the card on one page as well, into this file")->type_name("FILE");
        sub->add_option("--note", typed_.note_pdf, "the note for the household as well, into this file")->type_name("FILE");
        sub->add_option("--paper", typed_.paper, "a4 or letter; else a4")->type_name("PAPER");
        sub->add_flag("--json", typed_.json, "for programs");
        takes_folder(sub);
        sub = add("limits", "the shop's own limits for the air, or keep one", "hidewright limits limit.json", limits);
        sub->add_option("limit", typed_.file, "JSON file of one limit, or - for standard input; without: all of them")->type_name("");
        sub->add_flag("--json", typed_.json, "for programs");
        takes_folder(sub);
        sub = add("diagnose", "what made the damage, and which test tells the rivals apart", "hidewright diagnose --covering aniline --saw darker --saw oil=no --read surface_ph=7.6/4.6", diagnose);
        takes_damage(sub);
        sub->add_flag("--signs", typed_.signs, "list the signs and their questions");
        sub = add("advise", "repair, a new panel, not restorable, refer, wait or leave alone", "hidewright examples advise | hidewright advise -", advise);
        takes_damage(sub);
        sub = add("liquids", "the liquids on the shelf", "hidewright liquids --json", [](const Typed& t) { return list(t, [](desk::Store& s, const desk::Page& p) { return s.liquids(p); }); });
        takes_page(sub);
        sub = add("leathers", "the leathers of the workshop", "hidewright leathers", [](const Typed& t) { return list(t, [](desk::Store& s, const desk::Page& p) { return s.leathers(p); }); });
        takes_page(sub);
        sub = add("judgements", "the kept judgements, newest first", "hidewright judgements --show ID", judgements);
        sub->add_option("--show", typed_.id, "one of them, whole")->type_name("ID");
        takes_page(sub);
        sub = add("print", "a judgement on paper, PDF: for the owner or whole", "hidewright print ID --page owner --paper letter -o file.pdf", print_pages);
        sub->add_option("id", typed_.id, "kept judgement; - judges a request first")->required()->type_name("");
        sub->add_option("--page", typed_.page, "owner: one page in plain words; technical: all of it; else owner")->type_name("KIND");
        sub->add_option("--paper", typed_.paper, "a4 or letter; else a4")->type_name("PAPER");
        sub->add_option("-o,--to", typed_.to, "file to write; else standard output")->type_name("FILE");
        takes_folder(sub);
        sub = add("photos", "the photographs: list them, show or save one, add files", "hidewright photos add bench.jpg", photos);
        sub->add_option("photo", typed_.words, "id of one; or: add FILE…; else all, newest first")->type_name("");
        sub->add_option("--size", typed_.size, "its bytes instead: original, screen or small")->type_name("SIZE");
        sub->add_option("-o,--to", typed_.to, "file to write; else standard output")->type_name("FILE");
        takes_page(sub);
        sub = add("inspect", "enter what is seen on a piece, and read what stands", "hidewright examples inspect | hidewright inspect -", inspect);
        takes_request(sub);
        sub = add("identify", "what a covering is, from simple tests, and which test to do next", "hidewright identify --saw look=open --saw drop=under_10_s", identify);
        sub->add_option("request", typed_.file, "JSON file, or - for standard input; left out: the flags alone")->type_name("");
        sub->add_option("--saw", typed_.saw, "TEST=ANSWER, or ANSWER,ANSWER for one of these; hidewright identify lists what to do next")->type_name("WORDS");
        sub->add_option("--cannot", typed_.cannot, "a test that cannot be done here")->type_name("TEST");
        sub->add_option("--piece", typed_.id, "a piece of the records")->type_name("ID");
        sub->add_option("--panel", typed_.panel, "its panel")->type_name("CODE");
        sub->add_option("--place", typed_.place, "furniture, seating or car")->type_name("WORD");
        sub->add_option("--age", typed_.age, "before_1980, from_1980 or since_2005")->type_name("WORD");
        sub->add_option("--region", typed_.region, "europe or north_america")->type_name("WORD");
        sub->add_option("--proven", typed_.proof, "KIND=PROOF: what it was proven to be, by edge_seen, laboratory or maker")->type_name("WORDS");
        sub->add_flag("--keep", typed_.keep, "write the answer onto the panel");
        sub->add_flag("--json", typed_.json, "for programs");
        takes_folder(sub);
        sub = add("pieces", "the pieces that are kept, or one of them", "hidewright pieces --json", pieces);
        sub->add_option("--show", typed_.id, "one of them, whole")->type_name("ID");
        takes_page(sub);
        sub = add("spot", "test spots on a piece: plan, make, read, and what came of them", "hidewright examples spot | hidewright spot plan -", spot);
        sub->add_option("what", typed_.what, "plan, made, read, result, due, rates or calendar")->required()->check(CLI::IsMember({"plan", "made", "read", "result", "due", "rates", "calendar"}))->type_name("");
        sub->add_option("request", typed_.file, "plan, made, read: JSON file, or - for standard input; result: id of the piece")->type_name("");
        sub->add_flag("--json", typed_.json, "for programs");
        sub->add_option("-o,--to", typed_.to, "calendar: file to write; else standard output")->type_name("FILE");
        takes_folder(sub);
        sub = add("meters", "the meters and their state, or keep one", "hidewright meters --name \"Bench meter\" --id bench-meter", meters);
        sub->add_option("--name", typed_.name, "keep a meter of this name; its id is printed")->type_name("TEXT");
        sub->add_option("--id", typed_.id, "its id; else one is made")->type_name("ID");
        sub->add_flag("--json", typed_.json, "for programs");
        takes_folder(sub);
        sub = add("calibrate", "what two buffers told of a meter, kept", "hidewright examples calibrate | hidewright calibrate -", calibrate);
        takes_request(sub);
        sub = add("schema", "JSON Schema of a verb's request and answer", "hidewright schema judge", [](const Typed& t) { return print_text(codec::schema(t.name)); });
        takes_verb(sub);
        sub = add("examples", "a request that works", "hidewright examples judge > request.json", [](const Typed& t) { return print_text(codec::example(t.name)); });
        takes_verb(sub);
        add("openapi", "OpenAPI 3.1 of the web door", "hidewright openapi > openapi.json", [](const Typed&) { return print_text(codec::openapi()); });
        add("typescript", "TypeScript types of the web door", "hidewright typescript > api.gen.ts", [](const Typed&) { return print_text(codec::typescript()); });
        add("prove", "every check against published numbers", "hidewright prove | less", prove);
        sub = add("serve", "the page; on this machine only until the network is on", "hidewright serve --port 8080", serve);
        sub->add_option("--port", typed_.port, "0 is any free one; else 8080")->check(CLI::Range(0, 65535))->type_name("NUMBER");
        takes_folder(sub);
        sub->add_option("--tls-port", typed_.tls_port, "for phones, once the network is on; else 8443")->check(CLI::Range(0, 65535))->type_name("NUMBER");
        sub->add_option("--first-port", typed_.first_port, "where phones get the certificate; else 8081")->check(CLI::Range(0, 65535))->type_name("NUMBER");
        sub = add("people", "who may come in once the network is on", "hidewright people add Ada --role owner", people);
        sub->add_option("what", typed_.what, "add, list, role, password, remove or unlock")->required()->check(CLI::IsMember({"add", "list", "role", "password", "remove", "unlock"}))->type_name("");
        sub->add_option("name", typed_.name, "of the person; a password is read from standard input")->type_name("");
        sub->add_option("--role", typed_.role, "reader, technician or owner; else technician")->type_name("ROLE");
        sub->add_flag("--json", typed_.json, "for programs");
        takes_folder(sub);
        sub = add("network", "phones of the shop network: let them in, or not", "hidewright network on --name workshop", network);
        sub->add_option("what", typed_.what, "on, off or status")->required()->check(CLI::IsMember({"on", "off", "status"}))->type_name("");
        sub->add_option("--name", typed_.name, "what phones call this computer")->type_name("NAME");
        takes_folder(sub);
        add("routes", "every address of the web door and the least role that may use it", "hidewright routes", routes);
        sub = add("demo", "put the demo workshop in, or take it out", "hidewright demo remove", demo);
        sub->add_option("what", typed_.name, "load or remove")->required()->check(CLI::IsMember({"load", "remove"}))->type_name("");
        takes_folder(sub);
    }

private:
    CLI::App* add(const std::string& verb, const std::string& what, const std::string& example, std::function<int(const Typed&)> run) {
        CLI::App* sub = app_.add_subcommand(verb, what);
        sub->footer("Example: " + example);
        sub->callback([this, run = std::move(run)] { exit_code_ = run(typed_); });
        return sub;
    }
    void takes_folder(CLI::App* sub) { sub->add_option("--data", typed_.data, "folder of the records")->type_name("FOLDER"); }
    void takes_request(CLI::App* sub) {
        sub->add_option("request", typed_.file, "JSON file, or - for standard input")->required()->type_name("");
        sub->add_flag("--json", typed_.json, "for programs");
        takes_folder(sub);
    }
    void takes_damage(CLI::App* sub) {
        sub->add_option("request", typed_.file, "JSON file, or - for standard input; may be left out")->type_name("");
        sub->add_option("--saw", typed_.damage.saw, "a sign that is there; SIGN=no: looked for, and not there")->type_name("SIGN");
        sub->add_option("--read", typed_.damage.read, "KIND=VALUE/SHELTERED, as surface_ph=8.9/5.1")->type_name("READING");
        sub->add_option("--covering", typed_.damage.covering, "leather class, coated_textile or unknown")->type_name("WORD");
        sub->add_option("--tannage", typed_.damage.tannage, "chrome, vegetable, wet_white or unknown")->type_name("WORD");
        sub->add_option("--piece", typed_.damage.piece, "a kept piece: its entries are read first")->type_name("ID");
        sub->add_option("--panel", typed_.damage.panel, "one panel of it")->type_name("CODE");
        sub->add_flag("--keep", typed_.keep, "write the answer into the piece");
        sub->add_flag("--json", typed_.json, "for programs");
        takes_folder(sub);
    }
    void takes_page(CLI::App* sub) {
        sub->add_flag("--json", typed_.json, "for programs");
        sub->add_option("--limit", typed_.limit, "rows, at most; else 50")->check(CLI::Range(1, 200))->type_name("NUMBER");
        sub->add_option("--after", typed_.after, "id of the last row already seen")->type_name("ID");
        takes_folder(sub);
    }
    void takes_verb(CLI::App* sub) { sub->add_option("verb", typed_.name, "triage, digest, touch, meet, analyse, titrate, judge, refine, compare, inspect, diagnose, advise, identify, spot, calibrate, rebalance or protect")->required()->type_name(""); }

    CLI::App& app_;
    Typed& typed_;
    int& exit_code_;
};

int run(int argc, char** argv) {
    CLI::App app{"hidewright: will this liquid hurt this leather?", "hidewright"};
    app.set_version_flag("--version", std::string(desk::program_version));
    app.require_subcommand(1);
    app.footer("Example: hidewright examples judge | hidewright judge -\nEach verb explains itself: hidewright judge --help");
    Typed typed;
    int exit_code = 0;
    Verbs verbs(app, typed, exit_code);
    verbs.add_all();
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& e) {
        return app.exit(e) == 0 ? 0 : error_row(ErrorCode::InvalidInput).exit_code;
    }
    return exit_code;
}

}  // namespace

int main(int argc, char** argv) {
    if (hw::photo::is_child(argc, argv)) hw::photo::child(argv);
    try {
        return run(argc, argv);
    } catch (const std::exception& e) {
        std::cerr << "The program broke a promise of its own: " << e.what() << "\n";
        return hw::error_row(hw::ErrorCode::Bug).exit_code;
    }
}
