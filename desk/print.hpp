// print: a judgement on paper, for the owner or for somebody who checks it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/result.hpp"
#include "desk/kept.hpp"
#include "desk/ports.hpp"
#include "desk/titrate.hpp"
#include "desk/touch.hpp"

namespace hw::desk {

struct PrintRequest {
    std::string id;                               ///< of a kept judgement; empty: judge `request` first
    std::optional<JudgeRequest> request;
    PageKind page = PageKind::Owner;
    Paper paper = Paper::A4;
};

struct PrintAnswer {
    std::string pdf;                              ///< the bytes
    std::string file_name;                        ///< ASCII letters, digits, hyphens and a dot; nothing that a user typed
};

/// Prints a kept judgement, or one that is judged now and not kept.
///
/// @error NotFound     no judgement of that id
/// @error Unavailable  no printer is joined in
/// @error as judge     when a request is judged first
Result<PrintAnswer> print(const PrintRequest& request, Ports& ports);

/// Plans, and prints the bench card with the plan behind it.
///
/// @error Unavailable  no printer is joined in   @error as rebalance
Result<PrintAnswer> print_plan(const RebalanceRequest& request, Paper paper, Ports& ports);

/// The chart of the shelf as it stands, for the wall, with what must never meet. Nothing is computed.
///
/// @error Unavailable  no printer is joined in   @error as touch_chart
Result<PrintAnswer> print_touch(const TouchRequest& request, WallPaper paper, Ports& ports);
/// A chart that is there already.
Result<PrintAnswer> print_chart(const TouchAnswer& chart, WallPaper paper, Ports& ports);
/// How drops are counted into a product. @error Unavailable; InvalidInput  it is refused: there is nothing to print   @error as titrate
Result<PrintAnswer> print_titration(const TitrateRequest& request, Paper paper, Ports& ports);

/// "owner" or "technical". @error InvalidInput, field page
Result<PageKind> parse_page_kind(std::string_view text);
/// "a4" or "letter". @error InvalidInput, field paper
Result<Paper> parse_paper(std::string_view text);
/// "a3", "a4", "tabloid" or "letter". @error InvalidInput, field paper
Result<WallPaper> parse_wall_paper(std::string_view text);

}  // namespace hw::desk
