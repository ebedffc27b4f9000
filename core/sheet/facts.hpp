// What a safety data sheet says, each fact with the place it was read from.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "base/source.hpp"
#include "core/sheet/words.hpp"

namespace hw::sheet {

/// Where on the sheet. A fact that runs over a page break names the page where it begins and the box on that page.
struct Place {
    int page = 0;                              ///< from 1; 0: nowhere
    double x0 = 0, y0 = 0, x1 = 0, y1 = 0;     ///< points, as in Word
    std::string words;                         ///< as printed, with single blanks
};

/// A value read from the sheet.
///
/// `confidence` is the estimated chance, 0 to 1, that the value is what the sheet says in that place. It is not a chance that
/// the sheet is right. It comes from how the value was found (a row of atlas/sheet_confidence.csv), and stands below 0.8
/// whenever a person should look before relying on it.
template <class T>
struct Fact {
    T value{};
    Place place;
    double confidence = 0;
};
using Text = Fact<std::string>;

/// A share of the mixture. A side without a value is open-ended; `open` says that the printed end itself is excluded (`<`, `>`).
struct Range {
    std::optional<double> low_pct, high_pct;
    bool low_open = false, high_open = false;
    bool by_volume = false;                    ///< per cent by volume; else by weight
};

struct Ingredient {
    Text name;
    std::optional<Text> cas;                   ///< only with a right check digit, never repaired
    std::optional<Text> bad_cas;               ///< as printed, where the check digit is wrong
    std::optional<Text> ec, reach, index;
    std::optional<Fact<Range>> range;
    bool trade_secret = false;
    std::vector<Text> codes;                   ///< its own H and EUH codes
    Place place;                               ///< of the whole row
    double confidence = 0;                     ///< the weakest of name, CAS and range
};

/// An H, P or EUH statement of the mixture; combined ones with `+` and no blanks: "P305+P351+P338".
struct Code {
    std::string code;
    bool from_wording = false;                 ///< printed without its code, recognised by the regulation's wording
    std::string wording;                       ///< the regulation's wording in the language of the sheet, empty if not known
};

struct Ph {
    std::optional<double> low_ph, high_ph;     ///< equal for one value; one side missing for `> 12`
    std::optional<double> concentration_pct;   ///< of the product in the water; nothing: as supplied, unless `diluted` or `unclear`
    std::optional<double> celsius;
    bool not_applicable = false;
    bool diluted = false;                      ///< of a dilution whose strength is not said
    bool unclear = false;                      ///< it holds under a condition that is not understood, or that can be meant in two ways ("1:100")
};

struct FlashPoint {
    std::optional<double> celsius;
    char sign = '=';                           ///< '=', '>', '<'
    bool not_applicable = false;
};

/// An interval; low = high for one value, one side missing for `< 0.1`.
struct Interval {
    std::optional<double> low, high;
};

struct Density {
    Interval g_ml;
    std::optional<double> celsius;
};

/// Volatile organic compounds, in the unit printed.
struct Voc {
    Interval value;
    std::string unit;                          ///< "%", "g/l", "lb/gal"
};

struct Limit {
    std::string cas;                           ///< empty where the row could not be tied to an ingredient with a CAS number
    std::string substance;
    std::string jurisdiction;                  ///< EU, DE, UK, ES, FR, US-OSHA, US-NIOSH, US-ACGIH; empty: not said
    std::string kind;                          ///< twa, stel, ceiling
    std::optional<double> mg_m3, ppm;
};

struct Transport {
    std::optional<Text> un;                    ///< four digits
    std::optional<Text> name;                  ///< proper shipping name
    std::optional<Text> transport_class;       ///< "3", "5.1", "2.1"
    std::optional<Text> packing_group;         ///< "I", "II", "III"
    bool not_dangerous = false;                ///< the sheet says: not regulated
};

/// One of the sixteen sections; `title.page` 0 where the sheet has none.
struct Section {
    int number = 0;
    Place title;
    std::string text;                          ///< lines in reading order, without page heads and feet
};

/// Two statements of the sheet that do not go together.
struct Contradiction {
    std::string key;                           ///< ph_without_corrosive, over_100, two_against_three
    Finding finding;
    std::vector<Place> places;
};

struct Facts {
    std::string language;                      ///< en, de, es, fr
    double language_confidence = 0;
    std::optional<Text> product, supplier;
    std::optional<Text> revision_date;         ///< ISO 8601
    std::optional<Text> revision;
    std::optional<Text> signal_word;           ///< danger, warning, none
    std::vector<Fact<Code>> codes;             ///< of the mixture, in the order of the sheet, each once
    std::vector<Ingredient> ingredients;
    std::vector<Text> bad_cas;                 ///< CAS numbers with a wrong check digit, anywhere on the sheet, as printed
    std::optional<Text> ufi;
    std::optional<Fact<Ph>> ph;
    std::optional<Text> state;                 ///< liquid, solid, paste, gas, aerosol, cloth
    std::optional<Fact<Density>> density;
    std::optional<Fact<FlashPoint>> flash_point;
    std::optional<Fact<Interval>> boiling_c;
    std::optional<Fact<Interval>> vapour_pressure_hpa;
    std::optional<Fact<Voc>> voc;
    std::vector<Fact<Limit>> limits;
    std::optional<Text> incompatible;          ///< section 10: what it must not meet
    std::optional<Text> storage;               ///< section 7
    std::optional<Text> disposal;              ///< section 13
    Transport transport;
    std::array<Section, 16> sections;          ///< [0] is section 1
    std::vector<Contradiction> contradictions;
};

/// What a document turned out to be.
enum class Kind { Sheet, NoText, NotASheet };

/// Whether there are words to read, and whether they are those of a safety data sheet. A document has no text when it holds
/// less than some words a page on average; it is no sheet when too few of the sixteen section titles stand in it in
/// order (atlas/sheet_rules.csv says how many).
Kind kind_of(const Document& document);

/// Reads a sheet.
/// @error InvalidInput  `where` "sheet.no_text" or "sheet.not_a_sheet"
/// @see   docs/reference/sheets.md
Result<Facts> read(const Document& document);

/// Whether a CAS number of the form 123456-78-9 carries its own check digit.
bool cas_is_right(std::string_view cas);

/// The regulation's wording of an H, P or EUH code in a language ("en", "de", "es", "fr"); empty when not known.
std::string_view wording_of(std::string_view code, std::string_view language);

}  // namespace hw::sheet
