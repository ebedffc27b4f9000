// How well sheets are read: the corpus of invented sheets against the truth beside each.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "desk/ports.hpp"

namespace hw::test {

/// Values found, found wrongly and missed.
struct Tally {
    int right = 0, wrong = 0, missed = 0;
    [[nodiscard]] double f1() const { return right + wrong + missed == 0 ? 1 : 2.0 * right / (2.0 * right + wrong + missed); }
    Tally& operator+=(const Tally& o) { right += o.right; wrong += o.wrong; missed += o.missed; return *this; }
};

struct CorpusReport {
    std::map<std::string, Tally> fields;       ///< each field of the truth
    Tally all;
    Tally ingredients;                         ///< CAS number, both ends of the range and whether they are open: all equal
    int files = 0, sheets = 0;
    std::vector<std::string> invented_cas;     ///< "file: number": on no line of the truth, never to happen
    std::vector<std::string> unanswered;       ///< "file: error": neither facts nor a refusal that says what the file is, never to happen
    std::vector<std::string> misses;           ///< one line for each difference
};

/// Reads every PDF of a folder that has a JSON beside it. `misses` are written for the open part only: nobody looks at the
/// held one.
CorpusReport corpus_report(const std::string& folder, desk::SheetReader& reader, bool with_misses);

/// The report as a table.
std::string printed(const std::string& name, const CorpusReport& report);

}  // namespace hw::test
