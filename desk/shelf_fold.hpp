// What stands of a product, folded from its entries: the same whatever order they came in.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "core/work/stock.hpp"
#include "desk/shelf.hpp"

namespace hw::desk {

/// What one person said last of one thing.
struct ShelfSaid {
    std::string value, by, at;
    FactFrom from = FactFrom::Typed;
};

struct LotFold {
    std::string id, code, place, expiry;
    work::Bottle bottle;
    std::string opened_entry;                     ///< the entry that says when
    double received = 0, left = 0;
    bool short_by_the_book = false;               ///< more was taken than was there
};

struct ProductFold {
    std::map<std::string, ShelfSaid> facts;       ///< the one that counts
    std::map<std::string, ShelfSaid> weaker;      ///< typed, where a measured one counts
    std::vector<LotFold> lots;                    ///< as received
    std::vector<double> used_by_week;             ///< whole weeks until today, the last first, at most those that are looked at
    std::vector<const ShelfEntry*> mixed;         ///< that stand, oldest first
    std::set<std::string> taken_back;             ///< ids of entries
    std::map<std::string, std::string> told;      ///< "sheet person" to when
};

ProductFold folded(const std::vector<KeptShelfEntry>& entries, std::int64_t today);

/// Days since 1970 of "2026-01-02", with or without a time behind it.
std::optional<std::int64_t> day_of(std::string_view text);
std::string day_text(std::int64_t day);
/// The last day that a bottle may be used by what is printed: "2027-03-31", "2027-03" or "03/2027".
std::optional<std::int64_t> printed_day(std::string_view text);

/// A number as people type it, with point or comma; nothing else in it.
std::optional<double> typed_number(std::string_view text);
/// The shortest digits that read back as the same number.
std::string exact(double value);

/// What something costs. Money in whole minor units of its currency (ISO 4217).
struct Cost {
    std::int64_t minor = 0;
    std::string currency;
    double per = 1;                               ///< so much of the product, in its unit
};
/// "12.50 EUR per 1000"; without "per", of one.
std::optional<Cost> parse_cost(std::string_view text);
std::string cost_text(const Cost& cost);

/// "100:3".
struct Mix {
    double parts = 0, to = 0;
};
std::optional<Mix> parse_mix(std::string_view text);

/// Something that can be said of a product.
struct FactKind {
    std::string_view key, name;
    std::string_view unit;                        ///< behind the value; "unit": that of the product
    double least = 0, most = 0;                   ///< of a number; both 0: text
    std::string_view example;
};
const std::vector<FactKind>& fact_kinds();
/// @error InvalidInput, OutOfRange  the message says what can be
Result<Done> may_say(const std::string& key, const std::string& value);
/// Likewise of a lot.
Result<Done> may_say_of_lot(const std::string& key, const std::string& value);

/// Plain word of a kind of product; empty for a kind that there is not.
std::string_view kind_word(std::string_view key);

}  // namespace hw::desk
