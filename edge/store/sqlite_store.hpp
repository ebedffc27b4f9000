// The workshop's records in one SQLite file: one writer, full flush, numbered migrations, a bin instead of deletion.
#pragma once

#include <functional>
#include <memory>
#include <string>

#include "desk/kept.hpp"
#include "desk/meters.hpp"
#include "desk/piece.hpp"
#include "desk/ports.hpp"
#include "desk/refine.hpp"

namespace hw::store {

/// How records become text. The codec does it; doors do not include each other, so main hands the functions over.
struct Serialiser {
    std::function<std::string(const desk::Liquid&)> liquid;
    std::function<std::string(const desk::Leather&)> leather;
    std::function<std::string(const desk::JudgeRequest&)> request;
    std::function<std::string(const desk::JudgeAnswer&)> answer;
    std::function<Result<desk::Liquid>(std::string_view)> to_liquid;
    std::function<Result<desk::Leather>(std::string_view)> to_leather;
    std::function<Result<desk::JudgeRequest>(std::string_view)> to_request;
    std::function<Result<desk::JudgeAnswer>(std::string_view)> to_answer;
    std::function<std::string(const desk::Entry&)> entry;
    std::function<std::string(const desk::Instrument&)> instrument;
    std::function<std::string(const desk::Calibration&)> calibration;
    std::function<Result<desk::Entry>(std::string_view)> to_entry;
    std::function<Result<desk::Instrument>(std::string_view)> to_instrument;
    std::function<Result<desk::Calibration>(std::string_view)> to_calibration;
    std::function<std::string(const desk::ShopTest&)> shop_test;
    std::function<Result<desk::ShopTest>(std::string_view)> to_shop_test;
    std::function<std::string(const desk::OwnLimit&)> own_limit;
    std::function<Result<desk::OwnLimit>(std::string_view)> to_own_limit;
};

/// Write: the one program that changes the records. Read: beside it, to look; it changes and checkpoints nothing.
enum class Access { Read, Write };

struct Database;

class SqliteStore : public desk::Store, public desk::Journal {
public:
    /// Opens the records in a folder; Write also creates them and brings them up to date.
    /// @error Conflict     the database belongs to another folder, was written by a newer program, or is missing where one was
    /// @error NotFound     to read, and there are no records
    /// @error Unavailable  the folder cannot be written, or another program has it open
    static Result<std::unique_ptr<SqliteStore>> open(const std::string& folder, Serialiser serialiser, Access access = Access::Write);
    ~SqliteStore() override;

    /// For what else is kept in the same file, by the other stores of this folder.
    Database& database();

    /// True until the demo workshop was loaded whole, taken out, or something else was kept.
    bool is_new() const;
    /// Everything that is kept while `load` runs belongs to the demo workshop. What an earlier load left is taken out
    /// first; a demo record that somebody has changed since is theirs and stays as they left it.
    Result<Done> as_demo(const std::function<Result<Done>()>& load);
    /// Takes everything of the demo workshop out again.
    Result<Done> remove_demo();

    Result<desk::Liquid> liquid(const std::string& id) override;
    Result<desk::Leather> leather(const std::string& id) override;
    Result<std::vector<desk::Liquid>> liquids(const desk::Page& page) override;
    Result<std::vector<desk::Leather>> leathers(const desk::Page& page) override;
    Result<std::string> keep_liquid(const desk::Liquid& liquid) override;
    Result<std::string> keep_leather(const desk::Leather& leather) override;
    Result<std::string> keep_judgement(const desk::JudgeRequest& request, const desk::JudgeAnswer& answer, const std::string& kept_at) override;
    Result<std::vector<desk::JudgementRow>> judgements(const desk::Page& page) override;
    Result<desk::KeptJudgement> judgement(const std::string& id) override;
    Result<Done> bin(const std::string& id) override;
    Result<Done> restore(const std::string& id) override;
    Result<std::vector<desk::ShopTest>> bench() override;
    Result<Done> keep_bench(const desk::ShopTest& test) override;
    Result<std::vector<desk::OwnLimit>> own_limits() override;
    Result<std::string> keep_own_limit(const desk::OwnLimit& limit) override;

    Result<std::vector<desk::KeptEntry>> entries(const std::string& piece) override;
    Result<int> append(const desk::PieceRow& row, const std::vector<desk::KeptEntry>& entries) override;
    Result<bool> is_away(const std::string& piece) override;
    Result<std::vector<desk::PieceRow>> pieces(const desk::Page& page) override;
    Result<std::vector<desk::PieceRow>> pieces_with_spots() override;
    Result<std::string> keep_instrument(const desk::Instrument& instrument) override;
    Result<std::vector<desk::Instrument>> instruments(const desk::Page& page) override;
    Result<std::string> keep_calibration(const desk::Calibration& calibration) override;
    Result<std::vector<desk::Calibration>> calibrations(const std::string& instrument) override;
    std::string new_id() override;

private:
    struct Hidden;
    explicit SqliteStore(std::unique_ptr<Hidden> hidden);
    std::unique_ptr<Hidden> hidden_;
};

}  // namespace hw::store
