// The shelf as it stands today: what shelf, its labels and its tables are told from.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "desk/shelf.hpp"
#include "desk/shelf_fold.hpp"

namespace hw::desk {

/// A product with everything that stands of it.
struct ProductState {
    ShelfName name;
    ProductFold fold;
};

/// Sheets of each product, the newest revision first.
using SheetsByProduct = std::map<std::string, std::vector<SheetRow>>;

Error no_shelf();
std::int64_t today_of(Ports& ports);
/// Every product, by id. @error Unavailable
Result<std::vector<ProductState>> all_products(Ports& ports);
Result<SheetsByProduct> sheets_by_product(Ports& ports);

/// The lots as people are shown them, the next to take first, finished ones last.
std::vector<LotNow> lots_now(const ProductFold& fold, std::int64_t today);
/// The unit a product is counted in: "ml" where nobody said.
std::string unit_of(const ProductFold& fold);
/// "1250 ml".
std::string amount_words(double amount, const std::string& unit);
std::string said_value(const ProductFold& fold, const std::string& key);

/// Checks entries one after the other on what stands, fills in what was left out, and gives the liquids that are new or renamed.
/// @param states  brought up to date with the entries
struct Checked {
    std::vector<KeptShelfEntry> entries;
    std::vector<Liquid> liquids;
};
Result<Checked> checked(const std::vector<ShelfEntry>& entries, Ports& ports);

}  // namespace hw::desk
