// What a test is worth before it is done: the loss that it saves, because what it says may change what is done.
#pragma once

#include <cstddef>
#include <vector>

namespace hw::belief {

struct Worth {
    double now = 0;                      ///< least expected loss, acting now
    double after = 0;                    ///< expected least loss after the test
    double saved = 0;                    ///< now - after, never below 0
    double plus_minus = 0;               ///< standard error of saved from the number of members, with what choosing by few members flatters it
    std::size_t act_now = 0;
    double changes_1 = 0;                ///< chance that the test changes the action
    std::vector<std::size_t> act_after;  ///< per outcome; act_now where no other is better
};

/// Worth of a test whose outcome o has the chance c(i, o) for member i of weight w(i), where action a loses L(a, i):
///
///     saved = min_a sum_i w L  -  sum_o min_a sum_i w c L
///
/// @param loss  [action][member], finite  @param weight  per member, of any sum above 0
/// @param chance  [member][outcome], rows sum to 1
/// `plus_minus` takes the members for independent. Where they are kin, it grows by sqrt(members / Refined::effective).
/// @source raiffa1961, value of sample information
/// @see docs/theory/value-of-information.md
Worth worth(const std::vector<std::vector<double>>& loss, const std::vector<double>& weight, const std::vector<std::vector<double>>& chance);

/// Chances of the intervals between edges for a reading with a normal error around each member's prediction.
/// @param predicted, sd  per member, sd 0: no error  @param edges  not falling
/// @return [member][interval], one interval more than edges; a reading on an edge belongs to the lower one
std::vector<std::vector<double>> outcome_chances(const std::vector<double>& predicted, const std::vector<double>& sd, const std::vector<double>& edges);

/// Edges that cut the predictive distribution of a reading into so many equally likely parts.
/// @param weight  per member, of any sum above 0  @param parts  at least 1
/// @return one edge less than parts; edges fall together where many members predict the same without error
std::vector<double> even_edges(const std::vector<double>& predicted, const std::vector<double>& sd, const std::vector<double>& weight, std::size_t parts);

}  // namespace hw::belief
