// The verb `shelf`: what it takes from the command line, and the shelf in words.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "desk/ports.hpp"
#include "desk/shelf.hpp"
#include "desk/shelf_tables.hpp"

namespace hw::cli {

struct ShelfOrder {
    std::vector<std::string> words;               ///< "used", "foam", "50"
    std::string lot, code, expiry, place, on, piece, after;
    std::string text;                             ///< of a table to take in
    std::string paper = "a4";
    std::string address;                          ///< of the server, for labels: "https://workshop.local:8443"; empty: the path alone
    int limit = 50;
    bool json = false, take = false, measured = false;
};

inline constexpr const char* shelf_words =
    "show P, new NAME, say P KEY VALUE, received P AMOUNT, opened P, used P AMOUNT, counted P AMOUNT, thrown_away P [AMOUNT], mixed P, told P SHEET NAME, take_back P ENTRY, find CODE, "
    "export products|lots, import FILE, labels [P]; else all. P is a product's id, whole name, or the code of a lot";

/// Whether it changes the records.
bool changes_shelf(const ShelfOrder& order);

/// What is printed, or the bytes of a PDF or a table. @error as the verbs of desk/shelf.hpp
Result<std::string> carry_out_shelf(const ShelfOrder& order, desk::Ports& ports);

}  // namespace hw::cli
