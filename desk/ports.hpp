// What the desk needs from the world: a store, a clock, ids. Interfaces only; edge implements them, main joins them.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// A page of a list, by key, never by offset.
struct Page {
    std::string after;                            ///< id of the last row already seen; empty = from the start
    int limit = 50;
};

/// A row in the list of kept judgements.
struct JudgementRow {
    std::string id;
    std::string title;
    std::string liquid;
    std::string leather;
    std::string grade;
    std::string kept_at;                          ///< ISO 8601, UTC
    std::string version;
    bool demo = false;
};
template <class Visitor>
void describe(Visitor& visit, JudgementRow& r) {
    visit("id", r.id, About{});
    visit("title", r.title, About{});
    visit("liquid", r.liquid, About{});
    visit("leather", r.leather, About{});
    visit("grade", r.grade, About{});
    visit("kept_at", r.kept_at, About{.doc = "ISO 8601, UTC"});
    visit("version", r.version, About{});
    visit("demo", r.demo, About{});
}

struct JudgeRequest;
struct JudgeAnswer;

/// A judgement as kept: what was asked, what was answered, by which version.
struct KeptJudgement;

class Store {
public:
    virtual ~Store() = default;
    virtual Result<Liquid> liquid(const std::string& id) = 0;
    virtual Result<Leather> leather(const std::string& id) = 0;
    virtual Result<std::vector<Liquid>> liquids(const Page& page) = 0;
    virtual Result<std::vector<Leather>> leathers(const Page& page) = 0;
    /// Inserts or replaces; an empty id gets a new one, which is returned.
    virtual Result<std::string> keep_liquid(const Liquid& liquid) = 0;
    virtual Result<std::string> keep_leather(const Leather& leather) = 0;
    virtual Result<std::string> keep_judgement(const JudgeRequest& request, const JudgeAnswer& answer,
                                               const std::string& kept_at) = 0;
    virtual Result<std::vector<JudgementRow>> judgements(const Page& page) = 0;
    virtual Result<KeptJudgement> judgement(const std::string& id) = 0;
    /// Moves to the bin or back. Nothing is ever deleted at once.
    virtual Result<Done> bin(const std::string& id) = 0;
    virtual Result<Done> restore(const std::string& id) = 0;
};

class Clock {
public:
    virtual ~Clock() = default;
    virtual std::string now_utc() = 0;            ///< ISO 8601
};

/// What is printed: one page in plain words for the owner, or everything for somebody who checks it.
enum class PageKind { Owner, Technical };
enum class Paper { A4, Letter };

class Printer {
public:
    virtual ~Printer() = default;
    /// The bytes of a PDF. The same judgement gives the same bytes: its date is kept_at.
    virtual Result<std::string> page(const KeptJudgement& judgement, PageKind kind, Paper paper) = 0;
};

struct Ports {
    Store& store;
    Clock& clock;
    Printer* printer = nullptr;                   ///< none: nothing can be printed
};

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::PageKind> {
    static constexpr std::array<std::pair<desk::PageKind, std::string_view>, 2> names{{{desk::PageKind::Owner, "owner"}, {desk::PageKind::Technical, "technical"}}};
};
template <>
struct hw::EnumNames<hw::desk::Paper> {
    static constexpr std::array<std::pair<desk::Paper, std::string_view>, 2> names{{{desk::Paper::A4, "a4"}, {desk::Paper::Letter, "letter"}}};
};
