// In: a workshop's folder (shop.toml, designs, fonts) and its orders.
// Out: the work of each command: sheets, proofs, remakes, stands, and the account of what was done and what is held.
// Never: prints, parses the command line, or loses an order without saying so.
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"
#include "bed/bed.h"
#include "design/design.h"
#include "design/variant.h"
#include "text/text.h"
#include "write/write.h"

namespace ordinatio {

// ---- delimited text (RFC 4180) ----

struct CsvField {
  std::string text;
  std::size_t line = 1, column = 1;  // where it starts in the decoded text, from 1; columns count characters
  std::size_t byte = 0;              // offset in the decoded UTF-8 text
  bool quoted = false;
};
struct CsvRecord {
  std::size_t number = 1;  // from 1, empty lines not counted
  std::vector<CsvField> fields;
};
/// Reads records one at a time; what is malformed is a Fault with its place, and the next call goes on at the
/// next line.
class CsvReader {
 public:
  /// text: UTF-8 without BOM, must outlive the reader. skip: bytes of whole lines at its head to pass over
  /// (a `sep=` line); lines and offsets count from the head all the same.
  CsvReader(std::string_view text, char delimiter, std::string file_name, std::size_t skip = 0);
  /// From now on a Fault names the column that it lies in.
  void name_columns(std::vector<std::string> names) { names_ = std::move(names); }
  /// The next record, a Fault for a malformed one, or nothing at the end.
  std::optional<Result<CsvRecord>> next();
  /// Where the record that came last begins, or where the Fault that came last lies.
  [[nodiscard]] std::size_t line() const { return last_line_; }
  /// The record, or what was read of the malformed one, as it stands in the text, its line end left out.
  [[nodiscard]] std::string_view raw() const;

 private:
  std::string_view text_;
  char delimiter_;
  std::string file_name_;
  std::vector<std::string> names_;
  std::size_t at_ = 0, line_ = 1, number_ = 0, last_line_ = 1, last_start_ = 0;
};
/// One CSV field as it is written: quoted where needed, and made harmless where a spreadsheet would run it
/// (OWASP, CSV injection; CWE-1236).
std::string csv_field(std::string_view text);

struct DecodedText {
  std::string text;      // UTF-8 without BOM
  std::string encoding;  // what was taken: "UTF-8", "UTF-8 with BOM", "UTF-16LE", "UTF-16BE", "windows-1252", …
  std::string told;      // how that was told, in words that follow it
  std::string look_at;   // what a person should look at where it is a guess; else empty
  /// Words of the text that may be others, each with a Fault that lacks its place. See words_beyond_ascii.
  std::map<std::string, Fault> doubtful;
};
/// UTF-8 where it is valid, UTF-16 by its BOM, else a guess among encodings of one byte a letter, by the words that they
/// give; `encoding` forces one ("" sniffs). Text that is mostly good UTF-8 stays UTF-8. What cannot be decoded becomes
/// U+FFFD, for the caller to hold, as are the doubtful words.
/// Faults: a BOM that contradicts `encoding`, an encoding that ICU does not know, what is no text at all.
Result<DecodedText> decode_text(std::string_view bytes, std::string_view encoding, const std::string& file_name);
/// The delimiter named by a leading `sep=` line, else the one of , ; and tab that parts the first records
/// most evenly.
struct Delimiter {
  char character = ',';
  std::size_t skip = 0;  // bytes of a `sep=` line to pass over
};
Delimiter sniff_delimiter(std::string_view text);

// ---- orders ----

struct OrderColumns {
  std::string order = "Order", text = "Text", quantity = "Quantity", design = "Design", blank = "Blank", wish = "Wish";
  std::string line = "Line", note = "Note", status = "Status", name = "Customer";  // an empty name is no column
};
/// How an options cell is read: `Label: value` pairs behind line ends, `|`, `;` or `,`. Capitals do not count.
struct OptionLabels {
  std::vector<std::string> text, note, design;
  std::vector<std::string> other;  // read and passed over
  std::vector<std::string> words;  // look like labels and are part of what they stand in: `Love: Mum`
  /// Whether the text column holds options cells.
  [[nodiscard]] bool used() const { return !text.empty(); }
};
/// Which design, face or size the words of an option stand for.
struct OptionChoice {
  std::string option;  // a column of the file, or a label in its options cells
  bool is_label = false;
  std::vector<std::pair<std::string, DesignVariant>> words;  // capitals do not count; what is empty is not chosen
};
struct OrderFormat {
  OrderColumns columns;
  std::set<std::string, std::less<>> written;  // of their keys those that shop.toml has: the file should have them, too
  OptionLabels labels;
  std::vector<OptionChoice> choices;
  std::string default_design;  // of which a face or size alone is chosen
  /// Of the status column, whole; capitals do not count.
  std::vector<std::string> cancelled = {"cancelled", "canceled", "refunded"};
  std::string encoding;           // "": told from the bytes
  std::optional<char> delimiter;  // absent: sniffed
  std::string line_separator;     // parts a text's lines besides newlines
  bool decode_entities = true;
};
/// What a customer wants of the piece.
struct PieceWish {
  std::vector<std::string> keep;  // `keep: stamp`: a thing of this name must be on it
  bool full_size = false;         // `size: full`: nothing may be missing from it
  friend bool operator==(const PieceWish&, const PieceWish&) = default;
};
/// `keep: stamp; size: full`, as the wish column has it. `where` is the Fault's place.
Result<PieceWish> parse_wish(std::string_view cell, const std::string& where);
/// What parse_wish reads the same wish from.
std::string wish_text(const PieceWish& wish);

/// One row of the orders.
struct Order {
  std::string number;              // "1042"
  int first = 1;                   // the ordinal of its first item: "1042-3" where it is 3
  std::string text;                // as it came; where its items' texts differ, the first one's
  std::vector<std::string> texts;  // one for each item where they differ; else empty
  int quantity = 1;
  std::string design;               // empty: the shop's default
  std::vector<std::string> blanks;  // pieces that its items must be engraved on, one after the other
  PieceWish wish;
  std::string line;        // the export's own id of the row; empty: it has none
  std::string note;        // to the maker, as it came; never engraved
  std::string customer;    // who ordered it
  bool cancelled = false;  // then its text may be anything, and its quantity 0
  std::string source;      // "orders.csv:12"
  std::string row;         // as it came, where rows are lines; else empty
  ToldLanguage told = {};  // in whose forms its words are set: see tell_languages
};
struct HeldItem {
  std::string id;  // "1042-2", "1042" for a whole order, or "line 12" where the row has no number
  Fault fault;
  bool is_item = false;  // the id is an item's number: people read it with its check character
};
/// A row that is no order, as it came, and what could be read of it.
struct HeldOrder {
  Order order;       // its number, line, customer, row and source
  int place = 0;     // line of the file
  Fault fault = {};  // the same as among `held`
};
struct Orders {
  std::vector<Order> orders;
  std::vector<HeldItem> held;         // rows that are no order; the rest goes on
  std::vector<HeldOrder> rows;        // the same, where rows are lines
  std::vector<std::string> notes;     // encoding, delimiter, absent columns, empty rows, guards, rows twice alike
  std::vector<std::string> warnings;  // worth a look
  std::string checksum;               // SHA-256 of the file's bytes
};
inline constexpr int quantity_limit = 10'000;  // more in one row is taken for a slip of the pen and held

/// What rows of one order number are. settled: rows alike are one row, taken once, others further items, numbered in the
/// order of the file; cancelled rows are passed over. are_lines: each a line of the order, cancelled ones too.
enum class Repeats { settled, are_lines };

/// Faults only where nothing can be read: no file, empty, no header, a column missing.
Result<Orders> read_orders(const std::filesystem::path& csv, const OrderFormat& format,
                           Repeats repeats = Repeats::settled);
/// Orders whose items all have the same words: one whose texts differ comes as several, with `first` running on and its
/// named blanks shared out.
std::vector<Order> parted(std::vector<Order> orders);

// ---- the workshop ----

/// The measured pieces, and how they are used up.
struct BlankUse {
  std::string file;  // beside shop.toml; empty: every piece is taken for the nominal one
  /// Which pieces are saved for later where there are more than items: the fullest, or none, so that lettering is as
  /// large as it can be today.
  enum class Spare { fullest, none } spare = Spare::fullest;
};

struct Shop {
  std::filesystem::path folder;
  std::string name;
  OrderFormat orders;
  BlankUse blanks;
  std::string ledger;  // the book's file, beside shop.toml; empty: the workshop keeps none
  std::string default_design, stand_design;
  std::string sample = "Mill & Quay 1874";  // the words of specimens
  std::string language;                     // for Han forms and dates where the design names none
  BedPlan plan;                             // its jig is the plain one
  /// More boards, [jig.NAME], in the file's order. Which of all holds a piece: the one that the design names, else the
  /// first whose pockets take it, the plain one before the others.
  std::vector<Jig> named_jigs;
  bool has_plain_jig = true;  // false where only named ones stand in the file
  DxfOptions dxf;
  SvgOptions svg;
};
/// Reads shop.toml; designs are read when they are asked for.
Result<Shop> read_shop(const std::filesystem::path& folder);
/// Makes a workshop folder that works as it is. Faults: it exists and is not empty.
MaybeFault new_shop(const std::filesystem::path& folder);

// ---- the commands' work ----

/// When and why a command writes into the ledger.
struct BookCall {
  std::string now;              // ISO 8601, UTC: "2026-11-25T08:00:00Z"
  std::string cause;            // the command as it was typed
  bool clock_is_right = false;  // although the ledger knows a later time
  double wait = 5;              // seconds, for another command to end
  std::string vfs;              // SQLite's file system; empty: the usual one
  /// Asks the person before an item is acted on whose number came without its check character; empty: nobody is there.
  std::function<bool(const std::string& question)> confirm;
  bool samples = false;  // take the invented orders of a new workshop in, to practise
  /// The account has a way to go before a person has it, and may be lost on it: the book keeps it until `acknowledge`.
  bool to_be_heard = false;
};

struct Account {
  std::vector<std::string> told;             // what was done or found, in words; first of all that is said
  std::vector<std::filesystem::path> files;  // written, in order
  std::size_t sheets = 0, items_set = 0;
  std::vector<HeldItem> held;
  std::vector<std::string> warnings;  // set all the same, but worth a look before it is engraved
  std::vector<std::string> notes;     // how the orders were read
  double smallest_cap_height = 0;     // mm; 0 when nothing was set
  std::string smallest_item;          // its number; or the design, the face
  bool smallest_is_numbered = false;  // it is an item's number
  std::vector<std::int64_t> entries;  // of the ledger, of which the person hears by this account
};
/// Called now and then with items done and items in all.
using Progress = std::function<void(std::size_t done, std::size_t all)>;

struct DayOptions {
  std::filesystem::path orders, out;
  std::filesystem::path blanks;  // empty: as shop.toml says
  bool svg = true, dxf = true, pdf = true, png = false;
  std::string date;      // for designs with a date mark
  unsigned workers = 0;  // 0: all cores
  // With a ledger: the orders are taken in, and everything that waits is laid on sheets.
  BookCall call{};
  std::string channel{};  // see IntakeOptions
  bool dry_run = false;   // tell what would be taken in, and change nothing
};
Result<Account> run_day(const Shop& shop, const DayOptions& options, const Progress& progress = {});

struct ProofOptions {
  std::filesystem::path orders, out;
  std::filesystem::path blanks;    // empty: as shop.toml says
  std::vector<std::string> items;  // empty: all
  std::string date;
  BookCall call{};
};
Result<Account> run_proof(const Shop& shop, const ProofOptions& options, const Progress& progress = {});

struct RemakeOptions {
  std::string item;
  std::filesystem::path manifest, out;
  std::optional<int> pocket;
  std::optional<std::string> text;  // absent: exactly as it was
  /// A piece laid by hand: "x,y" of its lower left, lower right and, if there are four, upper right, upper left corner.
  std::vector<std::string> corners = {};
  double limit = 1;  // mm, of what is left at a corner: reclaimed pieces differ by some tenths from their drawing
  // With a ledger no manifest need be named.
  BookCall call{};
  std::string blank{};   // the piece to make it on; empty: the first free one that takes it as it was
  std::string reason{};  // why it is made again
  bool later = false;    // it is not made now, but first in line on the next day's sheets
};
Result<Account> run_remake(const Shop& shop, const RemakeOptions& options);

struct AlignOptions {
  std::filesystem::path manifest, out;
  std::vector<std::string> measured;  // "x,y" of every mark in order, or "2:x,y" of some: bed mm
  Registration::Model allowed = Registration::Model::rigid;
  double limit = 0.3;  // mm, of what is left at a mark: three beams' widths, what hand and eye are off by
  BookCall call{};     // with a ledger a sheet of the book may be named, and what is written becomes part of it
};
/// The sheet of a manifest again, exactly, laid to where its marks were measured.
Result<Account> run_align(const Shop& shop, const AlignOptions& options);

struct JigOptions {
  std::string design;  // empty: the shop's
  std::filesystem::path out;
};
/// The board that holds a design's pieces where sheets have them; items_set counts its pockets.
Result<Account> run_jig(const Shop& shop, const JigOptions& options);

struct StandOptions {
  std::optional<int> count;  // with a ledger: absent for as many as engraved items lack
  std::string date, design;
  std::filesystem::path out;
  /// Of the first stand, where the design has a place for a serial number; the next has one more, and they are called by
  /// their numbers.
  std::optional<int> first_number = {};
  BookCall call{};
  std::string batch{};  // written down in the ledger
};
/// Faults: a design for a customer's words, one that wants a number where none is given, a number that cannot be.
Result<Account> run_stands(const Shop& shop, const StandOptions& options, const Progress& progress = {});

struct SpecimenOptions {
  std::vector<std::string> faces;   // empty: the catalogue's faces for engraving, then the workshop's own files
  std::optional<std::string> text;  // absent: the shop's sample
  std::optional<double> spot;       // mm across; absent: the machine's
  std::filesystem::path out;
};
Result<Account> run_specimen(const Shop& shop, const SpecimenOptions& options, const Progress& progress = {});

struct DesignSpecimenOptions {
  std::vector<std::string> designs;  // empty: all of the workshop's
  std::optional<std::string> text;   // absent: each design's own samples, or the shop's
  std::filesystem::path out;
};
/// Every design with its samples: designs.pdf and designs.png. A sample that cannot be engraved is held.
Result<Account> run_design_specimen(const Shop& shop, const DesignSpecimenOptions& options,
                                    const Progress& progress = {});

struct BlankOptions {
  std::filesystem::path blanks, out;
  std::string design;  // whose blank is the nominal piece; empty: the shop's default
};
/// Pictures of every measured piece, as the program understood it. Rows that contradict themselves are held.
Result<Account> run_blanks(const Shop& shop, const BlankOptions& options);

struct PanesOptions {
  std::filesystem::path panes, out;
  std::string piece;    // "101.6x152.4", mm; empty: the blank of the default design
  double kerf = 3;      // mm
  double breakage = 0;  // share of the pieces that is expected to break
};
/// Cutting plans for reclaimed panes: cutting.pdf for the saw, blanks.csv for what comes of it.
Result<Account> run_panes(const Shop& shop, const PanesOptions& options, const Progress& progress = {});

}  // namespace ordinatio
