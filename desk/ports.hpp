// What the desk needs from the world: a store, a clock, ids. Interfaces only; edge implements them, main joins them.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "core/sheet/facts.hpp"
#include "core/sheet/words.hpp"
#include "desk/person.hpp"
#include "desk/photo.hpp"
#include "desk/piece.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// A page of a list, by key, never by offset.
struct Page {
    std::string after;                            ///< id of the last row already seen; empty = from the start
    int limit = 50;
};

/// A row in the list of kept judgements.
struct JudgementRow {
    std::string id;
    std::string title;
    std::string liquid;
    std::string leather;
    std::string grade;
    std::string kept_at;                          ///< ISO 8601, UTC
    std::string version;
    bool demo = false;
};
template <class Visitor>
void describe(Visitor& visit, JudgementRow& r) {
    visit("id", r.id, About{});
    visit("title", r.title, About{});
    visit("liquid", r.liquid, About{});
    visit("leather", r.leather, About{});
    visit("grade", r.grade, About{});
    visit("kept_at", r.kept_at, About{.doc = "ISO 8601, UTC"});
    visit("version", r.version, About{});
    visit("demo", r.demo, About{});
}

struct JudgeRequest;
struct JudgeAnswer;
struct TriageAnswer;
struct TouchCell;
struct TouchAnswer;
struct ShelfMeetings;
struct TitrateAnswer;

/// What the shop has to read with.
struct ShopTest;

/// A limit for the air that holds where the shop is.
struct OwnLimit;

/// A judgement as kept: what was asked, what was answered, by which version.
struct KeptJudgement;

struct RebalanceRequest;
struct RebalanceAnswer;
struct ProtectAnswer;

class Store {
public:
    virtual ~Store() = default;
    virtual Result<Liquid> liquid(const std::string& id) = 0;
    virtual Result<Leather> leather(const std::string& id) = 0;
    virtual Result<std::vector<Liquid>> liquids(const Page& page) = 0;
    virtual Result<std::vector<Leather>> leathers(const Page& page) = 0;
    /// Inserts or replaces; an empty id gets a new one, which is returned.
    virtual Result<std::string> keep_liquid(const Liquid& liquid) = 0;
    virtual Result<std::string> keep_leather(const Leather& leather) = 0;
    virtual Result<std::string> keep_judgement(const JudgeRequest& request, const JudgeAnswer& answer,
                                               const std::string& kept_at) = 0;
    virtual Result<std::vector<JudgementRow>> judgements(const Page& page) = 0;
    virtual Result<KeptJudgement> judgement(const std::string& id) = 0;
    /// Moves to the bin or back. Nothing is ever deleted at once.
    virtual Result<Done> bin(const std::string& id) = 0;
    virtual Result<Done> restore(const std::string& id) = 0;
    /// How the tests of the bench stand in this shop; those nobody said anything of are not listed.
    virtual Result<std::vector<ShopTest>> bench() = 0;
    /// Replaces what was kept of the test of that name.
    virtual Result<Done> keep_bench(const ShopTest& test) = 0;
    /// The shop's own limits for the air, by id; those that were taken back are not there.
    virtual Result<std::vector<OwnLimit>> own_limits() = 0;
    /// Inserts or replaces; an empty id gets a new one, which is returned.
    virtual Result<std::string> keep_own_limit(const OwnLimit& limit) = 0;
};

struct Instrument;
struct Calibration;

/// Pieces as entries, and the meters that read them. An entry is appended once and never changed.
class Journal {
public:
    virtual ~Journal() = default;
    /// All entries of a piece in the order of arrival. @error NotFound  no such piece
    virtual Result<std::vector<KeptEntry>> entries(const std::string& piece) = 0;
    /// Appends what is not there yet, all or nothing, and gives the number of the last entry. An empty id gets a new one;
    /// an entry that is there already is left as it is. `row` names the piece in the list.
    /// @error Conflict  an id that was used for something else
    virtual Result<int> append(const PieceRow& row, const std::vector<KeptEntry>& entries) = 0;
    /// Whether Store::bin put the piece away; its entries are there all the same.
    virtual Result<bool> is_away(const std::string& piece) = 0;
    /// Newest first, without those that were put away.
    virtual Result<std::vector<PieceRow>> pieces(const Page& page) = 0;
    /// All of those that had a test spot entered, newest first, without those that were put away.
    virtual Result<std::vector<PieceRow>> pieces_with_spots() = 0;
    virtual Result<std::string> keep_instrument(const Instrument& instrument) = 0;
    virtual Result<std::vector<Instrument>> instruments(const Page& page) = 0;
    /// Appended once; the same id again changes nothing.
    virtual Result<std::string> keep_calibration(const Calibration& calibration) = 0;
    /// Of one instrument, oldest first.
    virtual Result<std::vector<Calibration>> calibrations(const std::string& instrument) = 0;
    /// A new id, sortable by age.
    virtual std::string new_id() = 0;
};

class Clock {
public:
    virtual ~Clock() = default;
    virtual std::string now_utc() = 0;            ///< ISO 8601
    virtual std::int64_t now_s() = 0;             ///< the same as seconds of Unix time
};

/// People, sessions, pairing codes, failed sign-ins, and whether the network is wanted.
class PeopleStore {
public:
    virtual ~PeopleStore() = default;
    /// By name.
    virtual Result<std::vector<Person>> people() = 0;
    /// Inserts or replaces; an empty id gets a new one. @error Conflict  the name is taken (a–z and A–Z are one)
    virtual Result<std::string> keep_person(const Person& person) = 0;
    /// And every session and code of that person.
    virtual Result<Done> remove_person(const std::string& id) = 0;
    /// Gives its new id.
    virtual Result<std::string> keep_session(const Session& session) = 0;
    virtual Result<std::optional<Session>> session_of(const std::string& token_digest) = 0;
    /// Newest first, at most 500.
    virtual Result<std::vector<Session>> sessions() = 0;
    virtual Result<Done> seen(const std::string& id, std::int64_t at_s) = 0;
    virtual Result<Done> end_session(const std::string& id) = 0;
    virtual Result<Done> keep_pairing(const Pairing& pairing) = 0;
    /// Gives it once: it is gone afterwards.
    virtual Result<std::optional<Pairing>> take_pairing(const std::string& code_digest) = 0;
    /// None yet is no error.
    virtual Result<Attempts> attempts(const std::string& key) = 0;
    virtual Result<Done> keep_attempts(const std::string& key, const Attempts& attempts) = 0;
    /// Of every key that begins so.
    virtual Result<Done> forget_attempts(const std::string& key) = 0;
    virtual Result<NetworkWish> network() = 0;
    virtual Result<Done> keep_network(const NetworkWish& wish) = 0;
};

/// What must be kept secret, made and compared.
class Secrets {
public:
    virtual ~Secrets() = default;
    /// With its method and cost in it. @error Unavailable  no memory
    virtual Result<std::string> hash(std::string_view password) = 0;
    virtual bool fits(const std::string& hash, std::string_view password) = 0;
    /// A hash of the usual cost that no password fits.
    virtual const std::string& nobodys_hash() = 0;
    virtual std::string token() = 0;              ///< 256 random bits as text for a cookie or an address
    virtual std::string code() = 0;               ///< 128 random bits, likewise
    virtual std::string digest(std::string_view text) = 0;  ///< SHA-256, hexadecimal
};

/// A picture that a phone's camera reads.
class QrPainter {
public:
    virtual ~QrPainter() = default;
    virtual Result<std::string> svg(std::string_view text) = 0;
    /// The same for paper: rows of '1' dark and '0' light, without the quiet zone around them.
    virtual Result<std::vector<std::string>> squares(std::string_view text) = 0;
};

/// What stands between the program and the shop network just now.
class Network {
public:
    virtual ~Network() = default;
    virtual NetworkState state() = 0;
};

class People;
struct ShelfLabel;

/// What is printed: one page in plain words for the owner, or everything for somebody who checks it.
enum class PageKind { Owner, Technical };
enum class Paper { A4, Letter };
/// What hangs on the wall, across.
enum class WallPaper { A3, A4, Tabloid, Letter };

class Printer {
public:
    virtual ~Printer() = default;
    /// The bytes of a PDF. The same judgement gives the same bytes: its date is kept_at.
    virtual Result<std::string> page(const KeptJudgement& judgement, PageKind kind, Paper paper) = 0;
    /// A call on one page. Its date is `at`.
    virtual Result<std::string> page(const TriageAnswer& call, Paper paper) = 0;
    /// The bench card and the plan behind it. Same plan and time, same bytes. @param at  ISO 8601
    virtual Result<std::string> plan(const RebalanceRequest& request, const RebalanceAnswer& answer, const std::string& at, Paper paper) = 0;
    /// The chart of the shelf for the wall, with what must never meet. Same chart and time, same bytes. @param at  ISO 8601
    virtual Result<std::string> chart(const TouchAnswer& chart, const ShelfMeetings& meetings, const std::string& at, WallPaper paper) = 0;
    /// How drops are counted, on one page to lie beside the glass. @param at  ISO 8601
    virtual Result<std::string> titration(const TitrateAnswer& how, const std::string& at, Paper paper) = 0;
    /// The safety card on one page, or with Owner the note for the household. Its date is `at`.
    virtual Result<std::string> page(const ProtectAnswer& card, PageKind kind, Paper paper) = 0;
    /// Labels in a grid with lines to cut along. @param at  ISO 8601
    virtual Result<std::string> labels(const std::vector<ShelfLabel>& labels, const std::string& at, Paper paper) = 0;
};

/// What is read out of a photograph's bytes.
struct PhotoContent {
    std::string type;
    int width_px = 0, height_px = 0;              ///< after orientation
    int orientation = 1;
    std::string taken_at;
    std::string screen, small;                    ///< the copies: JPEG, upright, without EXIF
};

class PhotoReader {
public:
    virtual ~PhotoReader() = default;
    /// Whether the first bytes of a file (16 or more) begin a kind of picture that is taken.
    /// @error InvalidInput  they do not; the message names the kind, where it is known, and the remedy
    virtual Result<Done> look(std::string_view first_bytes) = 0;
    /// @error InvalidInput  damaged, cut off, or no photograph     @error OutOfRange   too many bytes or pixels
    /// @error Unavailable   nothing is wrong with the file: ask again
    virtual Result<PhotoContent> read(std::string_view bytes) = 0;
};

/// The photographs. An upload may stop at any byte and be taken up again, also after the program has ended; the same
/// photograph is kept once, whoever sends it and however often.
class Photos {
public:
    virtual ~Photos() = default;
    /// Announces a photograph, or asks where its upload stands. With every byte there it is finished as by `append`.
    virtual Result<Upload> begin(const UploadRequest& request) = 0;
    /// Adds bytes that start at `offset`. What is there already may come again; a gap adds nothing: the answer says where
    /// the upload stands. With the last byte the hash is checked, the file read, its copies made, and all of it kept.
    /// @error NotFound  not announced, or cleared since   @error InvalidInput  more than announced, another hash, no photograph
    virtual Result<Upload> append(const std::string& sha256, int offset, std::string_view bytes) = 0;
    virtual Result<Photo> photo(const std::string& id) = 0;
    /// By arrival, newest first.
    virtual Result<std::vector<Photo>> photos(const Page& page) = 0;
    /// The bytes; the copies are JPEG.
    virtual Result<std::string> file(const std::string& id, PhotoSize size) = 0;
};

/// XML that a data sheet carries.
struct SheetAttachment {
    std::string name;
    std::string bytes;
    std::optional<sheet::Facts> facts = {};       ///< where its schema is read; they have no places
};

/// What is taken out of a data sheet's bytes; what it means is found in core/sheet.
struct SheetContent {
    sheet::Document document;
    std::vector<SheetAttachment> attachments;
};

class SheetReader {
public:
    virtual ~SheetReader() = default;
    /// @error InvalidInput  damaged, locked, or no PDF     @error OutOfRange   too many bytes, pages or words
    /// @error Unavailable   nothing is wrong with the file: ask again
    virtual Result<SheetContent> read(std::string_view bytes) = 0;
    /// A page as a PNG, upright. @error NotFound  no such page
    virtual Result<std::string> page(std::string_view bytes, int number, int dpi) = 0;
};

/// What was worked out of the chart of the shelf: one cell for each liquid and leather, and the use that it is about.
class Chart {
public:
    virtual ~Chart() = default;
    virtual Result<std::vector<TouchCell>> cells() = 0;
    /// Replaces the cell of that liquid and leather.
    virtual Result<Done> keep_cell(const TouchCell& cell) = 0;
    virtual Result<std::optional<Use>> use() = 0;
    virtual Result<Done> keep_use(const Use& use) = 0;
};

struct DigestAnswer;
struct SheetCorrection;
struct SheetRow;

/// The data sheets: each file once, under its hash; what was read of it; what people said since, appended.
class Sheets {
public:
    virtual ~Sheets() = default;
    /// The id that these bytes have: their SHA-256 in hex.
    virtual std::string id_of(std::string_view bytes) = 0;
    /// File, reading and row. What is there already is left as it is.
    virtual Result<Done> keep(const DigestAnswer& reading, const SheetRow& row, std::string_view bytes) = 0;
    /// As it was read. @error NotFound
    virtual Result<DigestAnswer> reading(const std::string& id) = 0;
    virtual Result<std::string> file(const std::string& id) = 0;
    /// Newest first, without those that were put away.
    virtual Result<std::vector<SheetRow>> sheets(const Page& page) = 0;
    virtual Result<SheetRow> row(const std::string& id) = 0;
    /// Replaces the row of a sheet that is there.
    virtual Result<Done> keep_row(const SheetRow& row) = 0;
    /// Oldest first.
    virtual Result<std::vector<SheetCorrection>> corrections(const std::string& sheet) = 0;
    /// The same id again changes nothing. @error Conflict  an id that was used for something else
    virtual Result<Done> append(const SheetCorrection& correction) = 0;
};

struct KeptShelfEntry;
struct ShelfName;

/// The shelf as entries: each is appended once and never changed.
class ShelfLog {
public:
    virtual ~ShelfLog() = default;
    /// Of one product, or of all where `product` is empty: by product, then in the order of arrival.
    virtual Result<std::vector<KeptShelfEntry>> entries(const std::string& product) = 0;
    /// Entries, and liquids that are new or have another name: all or nothing. An entry that is there already is left as it is.
    /// @error Conflict  an id that was used for something else
    virtual Result<Done> append(const std::vector<KeptShelfEntry>& entries, const std::vector<Liquid>& liquids) = 0;
    /// Every liquid that was not put away, by id.
    virtual Result<std::vector<ShelfName>> names() = 0;
    virtual std::string new_id() = 0;
};

struct Proven;

/// Pieces whose covering was proven later: the shop's own counts come from them.
class Proofs {
public:
    virtual ~Proofs() = default;
    /// The same id again changes nothing. @error Conflict  an id that was used for something else
    virtual Result<Done> append(const Proven& proven) = 0;
    /// All of them, oldest first, with those that take one back.
    virtual Result<std::vector<Proven>> proofs() = 0;
};

/// Who asks, as the door knows them.
struct Who {
    std::string id;                               ///< empty: this machine, without an account
    std::string name;
    bool owner = true;                            ///< may take back what others entered
};

struct Ports {
    Store& store;
    Clock& clock;
    Printer* printer = nullptr;                   ///< none: nothing can be printed
    People* people = nullptr;                     ///< none: no accounts
    QrPainter* qr = nullptr;
    Network* network = nullptr;
    Photos* photos = nullptr;                     ///< none: there are no photographs
    Journal* journal = nullptr;                   ///< none: no pieces can be kept
    SheetReader* sheet_reader = nullptr;          ///< none: no data sheet can be read
    Sheets* sheets = nullptr;                     ///< none: no data sheet can be kept
    Chart* chart = nullptr;                       ///< none: nothing of the chart is kept
    Proofs* proofs = nullptr;                     ///< none: the tables stand as they are, and nothing can be proven
    Who who = {};
    ShelfLog* shelf = nullptr;                    ///< none: no bottles are kept
};

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::PageKind> {
    static constexpr std::array<std::pair<desk::PageKind, std::string_view>, 2> names{{{desk::PageKind::Owner, "owner"}, {desk::PageKind::Technical, "technical"}}};
};
template <>
struct hw::EnumNames<hw::desk::Paper> {
    static constexpr std::array<std::pair<desk::Paper, std::string_view>, 2> names{{{desk::Paper::A4, "a4"}, {desk::Paper::Letter, "letter"}}};
};
template <>
struct hw::EnumNames<hw::desk::WallPaper> {
    static constexpr std::array<std::pair<desk::WallPaper, std::string_view>, 4> names{
        {{desk::WallPaper::A3, "a3"}, {desk::WallPaper::A4, "a4"}, {desk::WallPaper::Tabloid, "tabloid"}, {desk::WallPaper::Letter, "letter"}}};
};
