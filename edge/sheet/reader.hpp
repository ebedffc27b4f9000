// The door to data sheets: each is read in a short-lived program of its own that can do nothing else.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "desk/ports.hpp"

namespace hw::sheet_reader {

struct Limits {
    int cpu_s = 10;       ///< processor time of one sheet, or of one page drawn
    int wall_ms = 30000;  ///< and by the clock on the wall
};

/// Starts `hidewright-sheet` for each sheet. May be asked by several threads.
class ChildReader : public desk::SheetReader {
public:
    /// @param worker  path of hidewright-sheet; empty: beside this program
    explicit ChildReader(Limits limits = {}, std::string worker = {});
    Result<desk::SheetContent> read(std::string_view bytes) override;
    Result<std::string> page(std::string_view bytes, int number, int dpi) override;

private:
    /// What the worker answers when it is told these words. @param most  bytes it may answer
    Result<std::string> asked(std::string_view bytes, std::vector<std::string> words) const;

    Limits limits_;
    std::string worker_;
};

}  // namespace hw::sheet_reader
