// In: what was ordered, made, spoiled and decided, each with its time and its cause.
// Out: what every item, blank and sheet is now, and its whole story, from one SQLite file.
// Never: deletes; reads orders, composes, writes a sheet's files, or asks the clock.
#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/base.h"

namespace ordinatio::inline ledger {

class Database;
class Holder;

// ---- what the ledger holds ----

enum class ItemState { received, held, ready, proofed, approved, on_sheet, engraved, packed, spoiled, cancelled };
/// "received", …, "on sheet", …: the words of the ledger, of lists and of messages.
std::string_view name_of(ItemState state);
/// Whether it is still to be laid on a sheet.
bool is_waiting(ItemState state);

/// Who holds an item: what cannot be engraved is held by the program, an export's change by a question.
enum class HeldBy { nobody, program, person, question };
/// "program", "person", "question"; of nobody empty.
std::string_view name_of(HeldBy holder);

struct LedgerItem {
  std::int64_t id = 0, line = 0;
  std::string number;  // "1042-2"
  std::string order_number;
  int ordinal = 1;
  std::string exported, words;             // as they came last; as they are to be engraved
  std::string design, wish, note, source;  // as in Order
  ItemState state = ItemState::received;
  HeldBy held_by = HeldBy::nobody;
  std::string reason;
  bool first = false;  // first in line
  std::string pinned;  // the blank that it must be on, or empty
  std::string proofed_hash, approved_hash;
  std::string customer;  // who ordered it, as the export names them; may be empty
  std::string
      setting;  // how a person wishes it to be set, as design/setting_wish.h writes it; empty: as its design has it
};

/// Whether only a person lets it go on, who holds it or who answers a question.
bool waits_for_person(const LedgerItem& item);

/// A row of an order as the ledger has it.
struct LedgerLine {
  std::int64_t id = 0;
  std::string order_number, key;
  bool has_id = false;  // the key is the export's own id, else a digest of what the row says
  int occurrence = 1;
  std::string version;  // digest of the row's words, not of these:
  std::string ordered = {}, address = {};
};

struct LedgerBlank {
  std::string id, material;
  double width = 0, height = 0;  // mm
  std::string measured;          // digest of its row
  enum class State { free, reserved, used, spoiled } state = State::free;
  std::string reason;
  std::optional<std::int64_t> item;
};
std::string_view name_of(LedgerBlank::State state);

struct LedgerSheet {
  int number = 0;
  std::string name;
  enum class Kind { day, remake, rest, stands } kind = Kind::day;
  std::optional<int> of;  // the sheet that it is remade from, or the rest of
  std::string date;
  std::string folder;  // within the workshop's, or absolute
  bool written = false;
  std::map<std::string, std::string> files;  // by name, SHA-256; "earlier-001/sheet-003.svg" was moved aside
  std::string stale{};                       // why files that show what is no longer due could not be written anew
};
/// Whether the file is one that was moved aside.
bool is_aside(const std::string& file);
std::string_view name_of(LedgerSheet::Kind kind);

struct LedgerPlacement {
  std::int64_t id = 0, item = 0;
  int sheet = 0, pocket = 0;
  std::string blank, hash;
  enum class State { on_sheet, engraved, spoiled, withdrawn } state = State::on_sheet;
  std::string reason;
  bool drawn = true;  // the sheet's files show it
};
std::string_view name_of(LedgerPlacement::State state);

/// What an export says that only a person can decide.
struct LedgerQuestion {
  std::int64_t id = 0, line = 0;
  enum class Kind { edit, change, older } kind = Kind::edit;
  std::string version, proposal, asks;
  enum class State { open, taken, kept, as_new } state = State::open;
};

/// A row of an export that is no order: it stands until it comes mended or a person lets it go.
struct LedgerHeldRow {
  std::int64_t id = 0;
  std::string row;                              // as it came
  int occurrence = 1;                           // of rows alike in one file, from 1
  std::string channel, file, checksum;          // of the file that had it last; SHA-256
  int place = 0;                                // line of the file
  std::string order_number, line_id, customer;  // as far as they could be read
  std::string beside;                           // keys of the order's other rows there, each with a line end behind it
  std::string reason, mend;
  enum class State { open, mended, let_go } state = State::open;
};

std::string_view name_of(LedgerQuestion::Kind kind);
std::string_view name_of(LedgerQuestion::State state);
std::string_view name_of(LedgerHeldRow::State state);
/// "row-3"
std::string row_name(std::int64_t id);

struct LedgerStand {
  std::int64_t id = 0;
  int sheet = 0, pocket = 0;
  std::optional<std::int64_t> serial, item;
  std::string batch;
};

// ---- what is written into it ----

/// What a command does to the ledger: undo asks for it.
enum class EntryKind {
  intake,
  answer,
  correction,
  cancelling,
  approval,
  packing,
  engraving,
  spoiling,
  letting_go,
  undo,
  day,
  proof,
  remake,
  stands,
  align,
  delivery,
  renewal,
  recovery,
  moving
};
std::string_view name_of(EntryKind kind);

struct NewItem {
  std::int64_t line = 0;
  std::string order_number;
  int ordinal = 1;
  std::string words, design, wish, note, source, pinned;
  std::string customer = {};
};
struct NewPlacement {
  std::int64_t item = 0;
  int pocket = 0;
  std::string blank;  // empty: a nominal one
  std::string hash;
  bool needs_approval = false;
};
struct NewStand {
  int pocket = 0;
  std::optional<std::int64_t> serial, item;
  std::string batch;
};
struct NewSheet {
  LedgerSheet sheet;
  std::vector<NewPlacement> placements;
  std::vector<NewStand> stands;
};

/// How the blank ended, or stays, when an item leaves it.
enum class BlankFate { free, spoiled };

struct StoryLine {
  std::string at, cause, text;
};

struct StateCount {
  std::string what;  // a state's name
  std::size_t count = 0;
};

struct LedgerOptions {
  std::filesystem::path file;
  std::string now;              // ISO 8601, UTC: "2026-11-25T08:00:00Z"
  std::string cause;            // what was run: it stands with every change
  double wait = 5;              // seconds, for another command to end
  bool clock_is_right = false;  // although the ledger knows a later time
  std::string vfs;              // SQLite's file system; empty: the usual one
};

/// Seconds that a clock may be behind the last entry: clocks are set right by so much. More is refused.
inline constexpr int clock_slack = 600;

/// The ledger opened. Functions throw LedgerFailure where disk, lock or file fail under them (`guarded` makes a Fault of
/// it); what a person can mend comes back as a Fault and has changed nothing.
class Ledger {
 public:
  enum class Access { read, write };
  /// Writing: takes the lock, makes the ledger if there is none, brings an older one up to date after a backup beside it.
  /// Faults: there is none (reading), another command holds it, the file is no ledger, a newer one, cut off, the clock gone back.
  static Result<std::unique_ptr<Ledger>> open(const LedgerOptions& options, Access access);
  ~Ledger();

  /// Begins the one transaction in which everything until `commit` stands, or nothing of it. kind: of the entry. asked:
  /// what tells the command from others, where a person is to hear of it; until then the ledger knows that it may not have.
  void begin(EntryKind kind, std::string asked = "");
  /// Keeps what there is to say of the entry, before `commit`; gives the entry. Nothing where nothing has changed, or where
  /// nobody is to hear of it.
  std::optional<std::int64_t> keep_account(const std::string& account);
  void commit();
  void roll_back();

  /// What was done and nobody may have heard of.
  struct Unheard {
    std::int64_t entry = 0;
    std::string cause, asked, account;
  };
  /// The oldest first.
  std::vector<Unheard> unheard();
  void mark_heard(const std::vector<std::int64_t>& entries);
  /// There is more to say of the entry.
  void change_account(std::int64_t entry, const std::string& account);

  // ---- exports ----
  [[nodiscard]] bool knows_export(const std::string& checksum);
  void note_export(const std::string& checksum, const std::string& name);
  /// Whether the file was read before the line came, so that what it says of it is old.
  [[nodiscard]] bool is_older_than(const std::string& checksum, std::int64_t line);

  // ---- lines and items ----
  std::vector<LedgerLine> lines_of(const std::string& order_number);
  std::optional<LedgerLine> line(std::int64_t id);
  std::int64_t add_line(const LedgerLine& line);
  /// Whether the line has ever come in this form.
  [[nodiscard]] bool had_version(std::int64_t line, const std::string& version);
  /// The same of its key, as the so-many-th of lines alike.
  [[nodiscard]] bool had_key(std::int64_t line, const std::string& key, int occurrence);
  /// The row as the ledger has it from now on.
  void set_version(const LedgerLine& line);

  std::vector<LedgerItem> items_of_line(std::int64_t line);
  std::vector<LedgerItem> items_of_order(const std::string& order_number);
  /// The entry that took the item in, and all items that it took in, by their id.
  std::int64_t entry_of(const LedgerItem& item);
  std::vector<LedgerItem> items_taken_in_by(std::int64_t entry);
  std::optional<LedgerItem> item(std::int64_t id);
  std::optional<LedgerItem> item_numbered(const std::string& number);
  /// All whose state is `state`, by their id; without a state, all.
  std::vector<LedgerItem> items_in(std::optional<ItemState> state);
  /// Still to be laid on a sheet, in the order in which they are served: first those first in line, then as they came.
  std::vector<LedgerItem> waiting_items();
  /// The ordinal that the order's next item has.
  int next_ordinal(const std::string& order_number);
  std::int64_t add_item(const NewItem& item);
  /// The nearest number that the ledger knows, for a message.
  std::optional<std::string> nearest_number(const std::string& number);

  void set_words(const LedgerItem& item, const std::string& words);
  void set_setting(const LedgerItem& item, const std::string& setting);
  /// What the export says of it. Words that a person corrected stay where the export's own are the same as before.
  void set_exported(const LedgerItem& item, const NewItem& now);
  void set_state(const LedgerItem& item, ItemState state, const std::string& reason = "",
                 HeldBy held_by = HeldBy::nobody);
  void set_first(const LedgerItem& item, bool first);
  /// Keeps the blank for the item, or lets the one it had go. Faults: the blank is not free.
  MaybeFault pin(const LedgerItem& item, const std::string& id);
  void set_proofed(const LedgerItem& item, const std::string& hash);
  void set_approved(const LedgerItem& item, const std::string& hash);

  // ---- blanks ----
  std::vector<LedgerBlank> blanks();
  std::optional<LedgerBlank> blank(const std::string& id);
  void add_blank(const LedgerBlank& blank);
  /// Its row says something else now.
  void set_measured(const LedgerBlank& before, const LedgerBlank& now);
  void set_blank_state(const std::string& id, LedgerBlank::State state, std::optional<std::int64_t> item,
                       const std::string& reason = "");

  // ---- sheets ----
  int next_sheet_number();
  /// Books a sheet whose files are ready to be moved to their place. Items are on it from now on, their blanks reserved.
  /// Faults: artwork other than what was approved, a blank that is not the item's to have.
  MaybeFault plan_sheet(const NewSheet& planned);
  /// Other files of a sheet, which are ready to be moved to their place.
  struct NewFiles {
    std::map<std::string, std::string> files;  // by name, SHA-256
    std::vector<std::string> aside;            // those that go into the folder `earlier` before
    std::string earlier;                       // "earlier-001"
    std::string what;                          // for the sheet's story
  };
  void plan_files(const LedgerSheet& sheet, const NewFiles& planned);
  /// The sheet's files show what is still on it, and nothing else.
  void mark_drawn(const LedgerSheet& sheet);
  /// Some of them lack what is on the sheet again.
  void mark_undrawn(const LedgerPlacement& placement);
  /// They show nothing: they were lost before they were in their place.
  void mark_undrawn(const LedgerSheet& sheet);
  /// They show what is not to be engraved, or lack what is, and cannot be written anew.
  void mark_stale(const LedgerSheet& sheet, const std::string& why);
  /// Sheets whose files show what has come off them, or lack what has come back.
  std::vector<LedgerSheet> outdated_sheets();
  /// The sheet that a file of these bytes belongs to.
  std::optional<LedgerSheet> sheet_with_file(const std::string& checksum);
  /// All its files are in their place.
  void mark_written(int sheet);
  std::vector<LedgerSheet> sheets();
  std::vector<LedgerSheet> planned_sheets();
  std::optional<LedgerSheet> sheet(int number);
  std::optional<LedgerSheet> sheet_named(const std::string& name);
  std::vector<LedgerPlacement> placements_on(int sheet);
  std::vector<LedgerPlacement> placements_of(std::int64_t item);
  /// The one that counts: on a sheet or engraved.
  std::optional<LedgerPlacement> placement_of(std::int64_t item);
  void mark_engraved(const LedgerPlacement& placement);
  /// It lies in that pocket of its sheet from now on, and what had that pocket in its own: what has come off the sheet keeps
  /// a place, too, for the case that it comes back. Whether the pocket may be had is the caller's to know.
  void move_to_pocket(const LedgerPlacement& placement, int pocket);
  /// It is made of that piece and artwork from now on; the piece that it lay on is free. Faults: those of plan_sheet.
  MaybeFault move_to_piece(const LedgerPlacement& placement, const NewPlacement& now);
  /// The item was not made there and is not any more to be.
  void withdraw(const LedgerPlacement& placement, const std::string& reason, BlankFate fate);
  /// It went wrong: the blank is written off, the item waits to be made again.
  void spoil(const LedgerPlacement& placement, const std::string& reason);

  // ---- questions ----
  std::vector<LedgerQuestion> open_questions();
  std::optional<LedgerQuestion> question(std::int64_t id);
  std::optional<LedgerQuestion> question_about(std::int64_t line, const std::string& version);
  std::int64_t ask(const LedgerQuestion& question);
  void settle(const LedgerQuestion& question, LedgerQuestion::State state);

  // ---- rows that are no order ----
  std::vector<LedgerHeldRow> open_rows();
  std::vector<LedgerHeldRow> held_rows();
  std::optional<LedgerHeldRow> held_row(std::int64_t id);
  std::optional<LedgerHeldRow> held_row_as(const std::string& row, const std::string& channel, int occurrence);
  std::int64_t add_held_row(const LedgerHeldRow& row);
  /// It came again: where it stands now, and what is to be said of it.
  void see_again(const LedgerHeldRow& row, const LedgerHeldRow& now);
  void settle(const LedgerHeldRow& row, LedgerHeldRow::State state);

  // ---- stands ----
  std::vector<LedgerItem> engraved_without_stand();
  std::vector<LedgerStand> spare_stands();
  std::optional<LedgerStand> stand_of(std::int64_t item);
  void give_stand(const LedgerStand& stand, std::optional<std::int64_t> item);
  std::int64_t next_serial();
  /// The lowest number from `from` to `to` that a stand bears already.
  std::optional<std::int64_t> serial_given(std::int64_t from, std::int64_t to);

  // ---- the story ----
  std::vector<StoryLine> story_of_item(const LedgerItem& item);
  std::vector<StoryLine> story_of_blank(const std::string& id);
  std::vector<StoryLine> story_of_sheet(const LedgerSheet& sheet);
  std::vector<StoryLine> story_of_row(const LedgerHeldRow& row);
  /// Takes back the last entry about the item that can be: a correction, an approval, a packing, a spoiling; everything
  /// that it changed. Faults: there is none left, something of it has changed since.
  struct Undone {
    std::string cause;
    std::vector<std::int64_t> items;       // that it was about
    std::vector<std::int64_t> moved = {};  // of these, that lie elsewhere on their sheet now
  };
  Result<Undone> undo(const LedgerItem& before);
  /// The same for the last booking of what was engraved on a sheet.
  Result<Undone> undo(const LedgerSheet& sheet);
  /// The row is held again.
  Result<Undone> undo(const LedgerHeldRow& row);

  // ---- counts and rules ----
  std::vector<StateCount> items_by_state();
  /// Pieces that were engraved well and pieces that were spoiled, also those that no item had, over all time.
  struct Makings {
    std::size_t good = 0, spoiled = 0;
  };
  Makings makings();
  /// What contradicts itself, a line each: SQLite's integrity and foreign keys, and the rules of every state.
  std::vector<std::string> contradictions();

  /// A copy of the ledger, complete and sound, while others use it. Faults: the file is there already.
  MaybeFault back_up(const std::filesystem::path& to);

  [[nodiscard]] const LedgerOptions& options() const { return options_; }

 private:
  Ledger(LedgerOptions options, std::unique_ptr<Holder> holder, std::unique_ptr<Database> database);
  /// A row of a table, by its id.
  using Subject = std::variant<std::int64_t, std::string>;
  using Fields = std::vector<std::pair<std::string, std::optional<std::string>>>;
  std::int64_t entry();
  /// Writes into the story alone. A field that begins with ~ is no column: it is told, and cannot be taken back.
  void note(const std::string& table, const Subject& subject, const std::string& field,
            const std::optional<std::string>& before, const std::optional<std::string>& after);
  /// Changes columns of one row at once and writes down those that change.
  void set(const std::string& table, const Subject& subject, const Fields& fields);
  void may_come_right(const Subject& placement);
  std::vector<StoryLine> story_of(const std::string& table, const Subject& subject);
  Result<Undone> take_back(const std::string& table, const Subject& subject, const std::string& name,
                           std::span<const EntryKind> kinds);
  void set_placement_state(const LedgerPlacement& placement, LedgerPlacement::State state, const std::string& reason);
  /// Pockets by placement, all at once: two may change places.
  void set_pockets(const std::map<std::int64_t, std::string>& pockets);
  void note_place(const LedgerPlacement& placement);
  /// What a row had before.
  struct FormerRow {
    std::string table;
    Subject subject;
    Fields fields;
  };
  /// Why what lies on the beds forbids that these rows are as before; nothing where it does not.
  std::optional<std::string> lies_otherwise(const std::vector<FormerRow>& rows, const std::string& table,
                                            const Subject& subject);
  /// After that the sheet's files are out of date. Gives the items that lie elsewhere now.
  std::vector<std::int64_t> lay_back(const std::vector<FormerRow>& rows);
  void take_stand_back(std::int64_t item);
  /// The answer that added the item, as a line of its own, or nothing.
  std::optional<std::int64_t> answer_that_added(const LedgerItem& item);
  Result<Undone> take_answer_back(const LedgerItem& item, std::int64_t answer);
  MaybeFault may_be_placed(const NewPlacement& placement);
  void place(const LedgerSheet& sheet, const NewPlacement& placement);

  LedgerOptions options_;
  std::unique_ptr<Holder> holder_;
  std::unique_ptr<Database> database_;
  EntryKind kind_ = EntryKind::intake;
  std::int64_t entry_ = 0;              // of the transaction that is open; 0: nothing has changed yet
  std::string asked_;                   // by the command; empty: nobody is to hear of it
  std::optional<std::int64_t> undoes_;  // the entry that it takes back
};

}  // namespace ordinatio::inline ledger
