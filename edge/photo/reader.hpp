// The door to photographs: each is read in a short-lived process that can do nothing else.
#pragma once

#include "desk/ports.hpp"

namespace hw::photo {

struct Limits {
    int cpu_s = 10;       ///< processor time of one photograph
    int wall_ms = 30000;  ///< and by the clock on the wall
};

/// Starts this program again for each photograph: `main` must hand over to `child()`. May be asked by several threads.
class ChildReader : public desk::PhotoReader {
public:
    explicit ChildReader(Limits limits = {}) : limits_(limits) {}
    Result<Done> look(std::string_view first_bytes) override;
    Result<desk::PhotoContent> read(std::string_view bytes) override;

private:
    Limits limits_;
};

}  // namespace hw::photo
