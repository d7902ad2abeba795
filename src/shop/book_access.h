// The ledger opened for a command, and sheets that stand in it and on the disk alike. Of this folder alone.
#pragma once

#include "bed/item_number.h"
#include "ledger/database.h"
#include "ledger/ledger.h"
#include "shop/book.h"
#include "shop/outbox.h"
#include "shop/sheet_run.h"

namespace ordinatio {

inline constexpr const char* sheets_stem = "sheets";  // of the hidden folder in which a book's sheets are made ready

/// Opens the workshop's ledger; for writing, sheets that an interrupted command left planned come to their place first.
/// Faults: the workshop keeps no ledger, and what Ledger::open says.
Result<std::unique_ptr<Ledger>> open_book(const Shop& shop, const BookCall& call, Ledger::Access access);
/// What an earlier run of the very same command did, of which the person has not heard since it was cut off: said now,
/// and not done again.
std::optional<Account> done_before(const Shop& shop, Ledger& ledger, const BookCall& call);

/// Whether the workshop keeps a ledger and has begun it.
bool has_book(const Shop& shop);
/// For an export: for writing, or to see what would be written, with a book in passing where there is none yet.
Result<std::unique_ptr<Ledger>> open_for_export(const Shop& shop, const BookCall& call, bool dry_run);

/// Runs one command's work in one transaction: all of it, or nothing where it gives a Fault.
/// work: (Ledger&, Account&) → MaybeFault.
template <class Work>
Result<Account> in_book(const Shop& shop, const BookCall& call, std::string_view kind, Work&& work) {
  return guarded([&]() -> Result<Account> {
    const Result<std::unique_ptr<Ledger>> ledger = open_book(shop, call, Ledger::Access::write);
    if (!ledger) return ledger.fault();
    Account account;
    (*ledger)->begin(kind);
    if (MaybeFault fault = work(**ledger, account)) return *std::move(fault);
    (*ledger)->commit();
    return account;
  });
}

/// Reads in the ledger. work: (Ledger&, Account&) → MaybeFault.
template <class Work>
Result<Account> from_book(const Shop& shop, const BookCall& call, Work&& work) {
  return guarded([&]() -> Result<Account> {
    const Result<std::unique_ptr<Ledger>> ledger = open_book(shop, call, Ledger::Access::read);
    if (!ledger) return ledger.fault();
    Account account;
    if (MaybeFault fault = work(**ledger, account)) return *std::move(fault);
    return account;
  });
}

/// The item of that number as it was typed. Where its check character was left out and a person is there, its words are
/// shown and the person is asked. Faults: no such item, a wrong check character, the person said no.
Result<LedgerItem> item_meant(Ledger& ledger, const BookCall& call, const std::string& typed, const std::string& what);
/// "sheet-003" or "3". Faults: no such sheet.
Result<LedgerSheet> sheet_meant(Ledger& ledger, const std::string& typed);
/// Takes an item that is not engraved yet off its sheet, its blank free again, and gives what is to be said of that.
std::string take_off_sheet(Ledger& ledger, const LedgerPlacement& placement, const std::string& reason);
/// `1042-2/K "Rose Cottage"`
std::string named_with_words(const LedgerItem& item);
/// Its words in quotes, in one line, cut where they are long.
std::string words_in_line(std::string_view words);

/// Where a book's sheets go unless the person says otherwise, and how the ledger writes that down.
std::filesystem::path sheets_folder(const Shop& shop, const std::filesystem::path& named);
std::string folder_in_book(const Shop& shop, const std::filesystem::path& folder);
std::filesystem::path folder_on_disk(const Shop& shop, const LedgerSheet& sheet);

/// Books the sheets whose files are in the outbox, ends the transaction, moves the files to their place and books that.
/// Faults: artwork that is not what was approved, a blank that is not free; then nothing is changed.
Result<std::vector<std::filesystem::path>> book_sheets(Ledger& ledger, Outbox& outbox, std::vector<NewSheet> sheets);

/// The same for more files of a sheet that the book has.
Result<std::vector<std::filesystem::path>> book_files(Ledger& ledger, Outbox& outbox, const LedgerSheet& sheet,
                                                      const std::string& what);

/// An item of the book as an order of one, to be composed.
Order order_of(const LedgerItem& item);

}  // namespace ordinatio
