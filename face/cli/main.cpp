// The only main: joins the ports, then one verb.
#include <CLI/CLI.hpp>

#include <csignal>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <mutex>
#include <sstream>

#include "desk/demo.hpp"
#include "desk/words.hpp"
#include "edge/codec/codec.hpp"
#include "edge/http/server.hpp"
#include "edge/store/sqlite_store.hpp"
#include "embedded/validation.hpp"
#include "face/cli/text.hpp"

namespace {

using namespace hw;

class SystemClock : public desk::Clock {
public:
    std::string now_utc() override {
        const std::time_t now = std::time(nullptr);
        std::tm parts{};
        gmtime_r(&now, &parts);
        char text[32];
        std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &parts);
        return text;
    }
};

/// Where no store is needed: everything is in the request. Ids of the demo workshop are known all the same.
class NoStore : public desk::Store {
public:
    Result<desk::Liquid> liquid(const std::string& id) override {
        for (const auto& l : desk::demo_liquids())
            if (l.id == id) return l;
        return absent(id);
    }
    Result<desk::Leather> leather(const std::string& id) override {
        for (const auto& l : desk::demo_leathers())
            if (l.id == id) return l;
        return absent(id);
    }
    Result<std::vector<desk::Liquid>> liquids(const desk::Page&) override { return desk::demo_liquids(); }
    Result<std::vector<desk::Leather>> leathers(const desk::Page&) override { return desk::demo_leathers(); }
    Result<std::string> keep_liquid(const desk::Liquid&) override { return absent("liquid"); }
    Result<std::string> keep_leather(const desk::Leather&) override { return absent("leather"); }
    Result<std::string> keep_judgement(const desk::JudgeRequest&, const desk::JudgeAnswer&, const std::string&) override {
        return Error{ErrorCode::Unavailable, "To keep a judgement, give the records with --data FOLDER.", "keep"};
    }
    Result<std::vector<desk::JudgementRow>> judgements(const desk::Page&) override { return std::vector<desk::JudgementRow>{}; }
    Result<desk::KeptJudgement> judgement(const std::string& id) override { return absent(id); }
    Result<Done> bin(const std::string& id) override { return absent(id); }
    Result<Done> restore(const std::string& id) override { return absent(id); }

private:
    static Error absent(const std::string& id) { return {ErrorCode::NotFound, "There is nothing stored under \"" + id + "\" here. Give the records with --data FOLDER, or write it out in the request.", "id"}; }
};

store::Serialiser serialiser() {
    store::Serialiser s;
    s.liquid = [](const desk::Liquid& v) { return codec::written(v); };
    s.leather = [](const desk::Leather& v) { return codec::written(v); };
    s.request = [](const desk::JudgeRequest& v) { return codec::written(v); };
    s.answer = [](const desk::JudgeAnswer& v) { return codec::written(v); };
    s.to_liquid = codec::parse_liquid;
    s.to_leather = codec::parse_leather;
    s.to_request = codec::parse_judge_request;
    s.to_answer = codec::parse_judge_answer;
    return s;
}

std::string default_data() {
    if (const char* home = std::getenv("XDG_DATA_HOME"); home != nullptr && *home != 0) return std::string(home) + "/hidewright";
    if (const char* home = std::getenv("HOME"); home != nullptr && *home != 0) return std::string(home) + "/.local/share/hidewright";
    return "hidewright-data";
}

int failed(const Error& error, bool json) {
    if (json) std::cout << codec::problem(error) << "\n";
    else std::cerr << (error.where.empty() ? "" : error.where + ": ") << error.message << "\n";
    return error_row(error.code).exit_code;
}

Result<std::string> text_from(const std::string& file) {
    if (file == "-") return std::string(std::istreambuf_iterator<char>(std::cin), {});
    std::ifstream in(file, std::ios::binary);
    if (!in) return Error{ErrorCode::NotFound, "The file " + file + " cannot be read. Use - for standard input.", "file"};
    return std::string(std::istreambuf_iterator<char>(in), {});
}

template <class Answer>
int print(const Result<Answer>& answer, bool json) {
    if (!answer.ok()) return failed(answer.error(), json);
    std::cout << (json ? codec::written(*answer) + "\n" : cli::text_of(*answer));
    return 0;
}

int serve(int port, const std::string& data) {
    // Signals are taken by sigwait below, so every thread blocks them.
    sigset_t signals;
    sigemptyset(&signals);
    sigaddset(&signals, SIGINT);
    sigaddset(&signals, SIGTERM);
    pthread_sigmask(SIG_BLOCK, &signals, nullptr);
    auto opened = store::SqliteStore::open(data, serialiser());
    if (!opened.ok()) return failed(opened.error(), false);
    SystemClock clock;
    desk::Ports ports{**opened, clock};
    if ((*opened)->is_new()) {
        std::cout << "First start: loading the demo workshop …" << std::endl;
        const auto loaded = (*opened)->as_demo([&] { return desk::load_demo(ports); });
        if (!loaded.ok()) return failed(loaded.error(), false);
    }
    static std::mutex one_line;
    auto started = http::Server::start({port, [](const std::string& line) {
                                            const std::scoped_lock lock(one_line);
                                            std::cerr << line << "\n";
                                        }}, ports);
    if (!started.ok()) return failed(started.error(), false);
    std::cout << "Open http://127.0.0.1:" << (*started)->port() << "/  (records in " << data << "; Ctrl-C stops)" << std::endl;
    int caught = 0;
    sigwait(&signals, &caught);
    return 0;
}

int run(int argc, char** argv) {
    CLI::App app{"hidewright: will this liquid hurt this leather?"};
    app.set_version_flag("--version", std::string(desk::program_version));
    app.require_subcommand(1);
    bool json = false;
    std::string data, file, name, id;
    int port = 8080;
    auto records = [&](CLI::App* sub) { sub->add_option("--data", data, "folder of the records"); };
    auto machine = [&](CLI::App* sub) { sub->add_flag("--json", json, "for programs"); };

    CLI::App* judge = app.add_subcommand("judge", "will this liquid hurt this leather, used this way?");
    judge->footer("Example: hidewright examples judge | hidewright judge -");
    judge->add_option("request", file, "JSON file, or - for standard input")->required();
    machine(judge);
    records(judge);
    CLI::App* analyse = app.add_subcommand("analyse", "what a liquid is: pH, reserve, what leaves, what forms");
    analyse->footer("Example: hidewright examples analyse | hidewright analyse - --json");
    analyse->add_option("request", file, "JSON file, or - for standard input")->required();
    machine(analyse);
    records(analyse);
    CLI::App* liquids = app.add_subcommand("liquids", "the liquids on the shelf");
    liquids->footer("Example: hidewright liquids --json");
    machine(liquids);
    records(liquids);
    CLI::App* leathers = app.add_subcommand("leathers", "the leathers of the workshop");
    leathers->footer("Example: hidewright leathers");
    machine(leathers);
    records(leathers);
    CLI::App* judgements = app.add_subcommand("judgements", "the kept judgements");
    judgements->footer("Example: hidewright judgements --show ID");
    judgements->add_option("--show", id, "one of them, whole");
    machine(judgements);
    records(judgements);
    CLI::App* schema = app.add_subcommand("schema", "JSON Schema of a verb's request and answer");
    schema->footer("Example: hidewright schema judge");
    schema->add_option("verb", name, "analyse or judge")->required();
    CLI::App* examples = app.add_subcommand("examples", "a request that works");
    examples->footer("Example: hidewright examples judge");
    examples->add_option("verb", name, "analyse or judge")->required();
    CLI::App* openapi = app.add_subcommand("openapi", "OpenAPI 3.1 of the web door");
    openapi->footer("Example: hidewright openapi > openapi.json");
    CLI::App* typescript = app.add_subcommand("typescript", "TypeScript types of the web door");
    typescript->footer("Example: hidewright typescript > api.gen.ts");
    CLI::App* prove = app.add_subcommand("prove", "every check against published numbers");
    prove->footer("Example: hidewright prove | less");
    CLI::App* serve_verb = app.add_subcommand("serve", "the page, on this machine only");
    serve_verb->footer("Example: hidewright serve --port 8080");
    serve_verb->add_option("--port", port, "0 = any free one")->check(CLI::Range(0, 65535));
    records(serve_verb);
    CLI::App* demo = app.add_subcommand("demo", "put the demo workshop in, or take it out");
    demo->footer("Example: hidewright demo remove");
    demo->add_option("what", name, "load or remove")->required()->check(CLI::IsMember({"load", "remove"}));
    records(demo);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& e) {
        return app.exit(e) == 0 ? 0 : error_row(ErrorCode::InvalidInput).exit_code;
    }

    if (*schema || *examples) {
        const auto text = *schema ? codec::schema(name) : codec::example(name);
        if (!text.ok()) return failed(text.error(), false);
        std::cout << *text;
        return 0;
    }
    if (*openapi) { std::cout << codec::openapi(); return 0; }
    if (*typescript) { std::cout << codec::typescript(); return 0; }
    if (*prove) {
        for (const auto& f : embedded::validation) std::cout << f.text;
        return 0;
    }
    if (*serve_verb) return serve(port, data.empty() ? default_data() : data);

    // The other verbs: with --data the records, else the demo workshop that is built in.
    NoStore built_in;
    std::unique_ptr<store::SqliteStore> kept;
    if (!data.empty() || *demo || *judgements) {
        auto opened = store::SqliteStore::open(data.empty() ? default_data() : data, serialiser());
        if (!opened.ok()) return failed(opened.error(), json);
        kept = std::move(*opened);
    }
    SystemClock clock;
    desk::Ports ports{kept ? static_cast<desk::Store&>(*kept) : built_in, clock};
    if (*demo) {
        const auto done = name == "load" ? kept->as_demo([&] { return desk::load_demo(ports); }) : kept->remove_demo();
        if (!done.ok()) return failed(done.error(), false);
        std::cout << (name == "load" ? "The demo workshop is in.\n" : "The demo workshop is out.\n");
        return 0;
    }
    if (*judge || *analyse) {
        const auto text = text_from(file);
        if (!text.ok()) return failed(text.error(), json);
        if (*judge) {
            auto request = codec::parse_judge_request(*text);
            return request.ok() ? print(desk::judge(*request, ports), json) : failed(request.error(), json);
        }
        auto request = codec::parse_analyse_request(*text);
        return request.ok() ? print(desk::analyse(*request, ports), json) : failed(request.error(), json);
    }
    desk::Page page;
    page.limit = 200;
    if (*liquids) {
        const auto all = ports.store.liquids(page);
        if (!all.ok()) return failed(all.error(), json);
        if (json) std::cout << codec::written(*all) << "\n";
        else for (const auto& l : *all) std::cout << l.id << "  " << l.name << "\n";
    } else if (*leathers) {
        const auto all = ports.store.leathers(page);
        if (!all.ok()) return failed(all.error(), json);
        if (json) std::cout << codec::written(*all) << "\n";
        else for (const auto& l : *all) std::cout << l.id << "  " << l.name << "\n";
    } else if (!id.empty()) {
        const auto one = ports.store.judgement(id);
        if (!one.ok()) return failed(one.error(), json);
        std::cout << (json ? codec::written(*one) + "\n" : cli::text_of(one->answer));
    } else {
        const auto all = ports.store.judgements(page);
        if (!all.ok()) return failed(all.error(), json);
        if (json) std::cout << codec::written(*all) << "\n";
        else for (const auto& r : *all) std::cout << r.id << "  " << r.grade << "  " << r.title << "\n";
    }
    return 0;
}

}  // namespace

int main(int argc, char** argv) {
    try {
        return run(argc, argv);
    } catch (const std::exception& e) {
        std::cerr << "A promise of the program was broken: " << e.what() << "\n";
        return hw::error_row(hw::ErrorCode::Bug).exit_code;
    }
}
