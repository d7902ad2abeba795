// In: what a person tells a workshop that keeps a ledger ([ledger] in shop.toml): exports, corrections, what became of a bed.
// Out: items taken from state to state, sheets booked, what is left, how it came about; the account of each command.
// Never: sets a text or lays a sheet by itself; deletes anything.
#pragma once

#include "base/account.h"
#include "design/setting_wish.h"
#include "shop/shop.h"

namespace ordinatio::inline bookkeeping {

struct IntakeOptions {
  LedgerCall call{};
  std::filesystem::path orders;
  std::string channel;   // where the orders were sold, in front of their numbers: "fair-1042"; empty: nowhere special
  bool dry_run = false;  // tell, and change nothing
};
/// Takes an export in: what is new is added once, what has changed is told, what a person must decide is asked.
Result<Account> run_intake(const Shop& shop, const IntakeOptions& options);

struct AnswerOptions {
  LedgerCall call{};
  std::int64_t question = 0;
  enum class Answer { take, keep, as_new } answer = Answer::keep;
};
/// take: as the export says; keep: as the ledger has it; as_new: it is another line of the order.
Result<Account> run_answer(const Shop& shop, const AnswerOptions& options);

/// A correction of one item.
struct CorrectionOptions {
  LedgerCall call{};
  std::string item;  // as typed, with or without its check character
  enum class What { words, hold, release, pin, first, cancel, take_off, setting } what = What::words;
  std::string value = {};    // the words, the reason, the blank (empty: none); else empty
  SettingWish setting = {};  // what is wished; what it says nothing of stays as it was wished before
  bool as_designed = false;  // nothing that was wished before stays
};
Result<Account> run_correction(const Shop& shop, const CorrectionOptions& options);

/// An item of a sheet that is to lie in another pocket of it, or be made of another measured piece in its own.
struct MoveOptions {
  LedgerCall call{};
  std::string item;           // as typed
  std::optional<int> pocket;  // free, or of an item that then has this one's
  std::string piece = {};     // where no pocket is named
};
Result<Account> run_move(const Shop& shop, const MoveOptions& options);

struct ItemsOptions {
  LedgerCall call{};
  std::vector<std::string> items;     // as typed
  std::vector<std::string> orders{};  // for packing: all items of these that are engraved
};
Result<Account> run_approve(const Shop& shop, const ItemsOptions& options);
Result<Account> run_pack(const Shop& shop, const ItemsOptions& options);

struct LetGoOptions {
  LedgerCall call{};
  std::vector<std::string> rows;  // "row-3" or "3"
};
/// Rows that came as no order and are not to be held any longer.
Result<Account> run_let_go(const Shop& shop, const LetGoOptions& options);

struct UndoOptions {
  LedgerCall call{};
  std::string subject;  // an item, a sheet or a held row
};
Result<Account> run_undo(const Shop& shop, const UndoOptions& options);

struct EngravedOptions {
  LedgerCall call{};
  std::vector<std::string> sheets;  // "sheet-003" or "3"
  std::string pockets;              // "1-5,7"; empty: all
};
Result<Account> run_engraved(const Shop& shop, const EngravedOptions& options);

struct SpoilOptions {
  LedgerCall call{};
  std::string item, blank;  // one of them
  std::string reason;
};
Result<Account> run_spoil(const Shop& shop, const SpoilOptions& options);

struct ResumeOptions {
  LedgerCall call{};
  std::string sheet;
  std::string done;     // pockets that are engraved: "1-5"; may be empty
  std::string spoiled;  // pockets whose pieces are lost
  std::string reason = "the bed was interrupted";
  std::filesystem::path out;
};
/// The sheet of what is left: same marks, same pockets.
Result<Account> run_resume(const Shop& shop, const ResumeOptions& options);

struct StockOptions {
  LedgerCall call{};
};
Result<Account> run_stock(const Shop& shop, const StockOptions& options);

struct HistoryOptions {
  LedgerCall call{};
  std::string subject;  // an item, an order, a blank, a sheet, a held row; else words, or a customer's name
};
Result<Account> run_history(const Shop& shop, const HistoryOptions& options);

struct ListOptions {
  LedgerCall call{};
  std::string state;          // only these; empty: all that are not packed or cancelled
  std::filesystem::path csv;  // written there, too
  std::string words = {};     // only what has these in its words, its number or its customer's name; empty: all
};
Result<Account> run_list(const Shop& shop, const ListOptions& options);

struct RunSheetOptions {
  LedgerCall call{};
  std::string date;           // ISO 8601; empty: the day of the call
  std::filesystem::path out;  // the folder
};
/// Everything of one day on one HTML page, run-sheet.html: what to do first, what is held, what is asked, the beds.
Result<Account> run_run_sheet(const Shop& shop, const RunSheetOptions& options);

Result<Account> run_backup(const Shop& shop, const LedgerCall& call, const std::filesystem::path& file);
/// What is wrong stands among the held.
Result<Account> run_check(const Shop& shop, const LedgerCall& call);

/// "1-5,7" as numbers in their order. Faults: anything else. `option` is the Fault's place.
Result<std::vector<int>> parse_numbers(std::string_view text, const std::string& option);

}  // namespace ordinatio::inline bookkeeping
