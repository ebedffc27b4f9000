// What a covering can be, and how often each test of it answers what: rows of the atlas as starting values, with the shop's own
// counts on top.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "core/belief/net.hpp"

namespace hw::leather {

/// Chances of the answers of one row: a Dirichlet with the starting values as its mean, worth `weight_1` answers, and counts.
struct AnswerRow {
    std::vector<double> start_1;            ///< sums to 1
    double weight_1 = 10;
    std::vector<double> count_1;            ///< of each answer, seen on proven pieces
    [[nodiscard]] double alpha(std::size_t answer) const { return weight_1 * start_1[answer] + count_1[answer]; }
    [[nodiscard]] double counted() const;
    /// Of any of these answers, in the posterior predictive: sum of alpha over that of all.
    [[nodiscard]] double chance_1(const std::vector<std::size_t>& answers) const;
};

/// Where a veil is there it hides the kind in so many cases, and then it is the veil that answers.
struct Hidden {
    std::size_t veil = 0;
    std::vector<bool> of_kind;
    double share_1 = 0, weight_1 = 10;
    AnswerRow row;
};

enum class AnswersFor { Kind, Tannage, Veil };

struct CoverTest {
    std::string_view key;
    AnswersFor about = AnswersFor::Kind;
    std::size_t veil = 0;                   ///< where it is about a veil
    std::vector<std::string_view> answers;
    std::vector<AnswerRow> rows;            ///< [kind], [tannage and none], or [veil away, veil there]
    std::vector<Hidden> hidden;             ///< from the inside out
};

/// What is known of a piece before it is looked at. Words of atlas/identify_words.csv; wear and exposure as on a panel.
struct CoverPlace {
    std::string wear = "not_said", exposure = "not_said";
};
struct CoverContext {
    std::string place = "furniture", age = "not_known", region = "not_known";
    std::vector<CoverPlace> places;         ///< at least one
};

/// A starting value before anything is seen.
struct CoverStart {
    std::string_view about, word, of;       ///< place, age, region: of a kind; tannage: "furniture age", of a tannage; wear …: of a veil
    double value_1 = 0;
};

struct CoverTables {
    std::vector<std::string_view> kinds, tannages, veils;   ///< tannages end with "none": what is no leather has none
    std::vector<bool> tanned;
    std::vector<CoverTest> tests;
    std::vector<CoverStart> starts;
    std::map<std::string, std::vector<double>> kind_count_1;   ///< [place][kind], proven pieces
    double start_weight_1 = 10;             ///< of the starting values of a place, in pieces
};

/// As the atlas has them.
CoverTables cover_tables();

belief::NetShape shape_of(const CoverTables& tables);

/// @error NotFound  a word that the tables do not have; `where` names it
Result<belief::NetPrior> prior_of(const CoverTables& tables, const CoverContext& context);

/// Chance that a test gives one of these answers, in each state. Veils answer from the inside out: the outermost last.
///
///     c <- (1 - share) c + share c_veil     for each veil that is there and hides this kind
std::vector<double> chance_of(const CoverTables& tables, std::size_t test, const std::vector<std::size_t>& answers);

/// A test by its key, its answer by its key. @error NotFound; `where` is "test" or "answers"
Result<std::size_t> test_of(const CoverTables& tables, std::string_view key);
Result<std::size_t> answer_of(const CoverTest& test, std::string_view key);

/// One answer on a proven piece: it counts for the outermost veil that is there and hides this kind, else for the kind.
void count(CoverTables& tables, std::size_t test, std::size_t answer, std::size_t kind, std::size_t tannage, std::size_t veil_mask);

/// Which answers of which tests were seen: these are the rows that uncertainty is drawn for.
using Used = std::map<std::size_t, std::vector<std::size_t>>;

/// Tables drawn from what is not known of them: each row by sticks broken off its Dirichlet, each share and veil from its Beta.
/// A draw is made by a point of the unit cube; equal arguments, equal draws.
class CoverDraws {
public:
    /// @param members  a power of two
    CoverDraws(const CoverTables& tables, CoverContext context, Used used, std::size_t members);
    /// @error as belief::even_points()
    Result<std::vector<CoverTables>> all();

private:
    [[nodiscard]] double start_weight() const;
    [[nodiscard]] CoverTables drawn(const std::vector<double>* u, std::size_t& at);
    double beta(double a, double b, const std::vector<double>* u, std::size_t& at);
    void draw_row(AnswerRow& row, const std::vector<std::size_t>& answers, const std::vector<double>* u, std::size_t& at);
    const CoverTables& tables_;
    CoverContext context_;
    Used used_;
    std::size_t members_;
    std::map<std::pair<double, double>, std::vector<double>> quantiles_;
};

}  // namespace hw::leather
