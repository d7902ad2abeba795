// The ledger opened for a command, and sheets that stand in it and on the disk alike.
#pragma once

#include "base/account.h"
#include "bed/item_number.h"
#include "intake/ledger_words.h"
#include "ledger/database.h"
#include "ledger/ledger.h"
#include "shop/outbox.h"
#include "shop/sheet_run.h"

namespace ordinatio {

inline constexpr const char* sheets_stem = "sheets";  // of the hidden folder in which a book's sheets are made ready

/// Opens the workshop's ledger; for writing, sheets that an interrupted command left planned come to their place first.
/// Faults: the workshop keeps no ledger, and what Ledger::open says.
Result<std::unique_ptr<Ledger>> open_book(const Shop& shop, const BookCall& call, Ledger::Access access);
/// What tells a command from others that were cut off: as it was typed, and the digest of the file that it reads, if any.
/// Empty where nobody is to hear of it.
std::string asked_by(const BookCall& call, const std::string& input);
/// What an earlier run of the very same command did, of which the person has not heard since it was cut off: said now,
/// and not done again.
std::optional<Account> done_before(const Shop& shop, Ledger& ledger, const std::string& asked);
/// Tells in the account what other commands did that were cut off.
void tell_unheard(const Shop& shop, Ledger& ledger, Account& account);
/// Ends the transaction, and keeps the account with it until the person has heard it.
void commit(const Shop& shop, Ledger& ledger, Account& account);
/// What follows every command: sheets are written anew that have lost or regained a pocket, and what else there is to say.
void finish(const Shop& shop, Ledger& ledger, const BookCall& call, bool was_done, const std::string& asked,
            Account& account);

/// The person has heard the account: the same command run once more is another one. Where `BookCall::to_be_heard`, a
/// command that was cut off before this is not done twice: it gives the same account again.
MaybeFault acknowledge(const Shop& shop, const BookCall& call, const Account& account);

/// Whether the workshop keeps a ledger and has begun it.
bool has_book(const Shop& shop);
/// For a look at what an export would change: with a book in passing where there is none yet.
Result<std::unique_ptr<Ledger>> open_to_see(const Shop& shop, const BookCall& call);

/// Runs one command's work in one transaction: all of it, or nothing where it gives a Fault. Where an earlier run of the
/// same command was cut off after its work, that run's account is given in its stead. The work may end its transaction itself,
/// by `commit` or what calls it. work: (Ledger&, Account&) → MaybeFault. input: see asked_by.
template <class Work>
Result<Account> in_book(const Shop& shop, const BookCall& call, std::string_view kind, Work&& work,
                        const std::string& input = "") {
  return guarded([&]() -> Result<Account> {
    const Result<std::unique_ptr<Ledger>> ledger = open_book(shop, call, Ledger::Access::write);
    if (!ledger.ok()) return ledger.fault();
    const std::string asked = asked_by(call, input);
    std::optional<Account> done = done_before(shop, **ledger, asked);
    Account account = done.value_or(Account());
    if (!done) {
      (*ledger)->begin(kind, asked);
      if (MaybeFault fault = work(**ledger, account)) return *std::move(fault);
      if ((*ledger)->in_transaction()) commit(shop, **ledger, account);
    }
    finish(shop, **ledger, call, done.has_value(), asked, account);
    return account;
  });
}

/// The same to see what it would do: nothing of it stays.
template <class Work>
Result<Account> to_see(const Shop& shop, const BookCall& call, std::string_view kind, Work&& work) {
  return guarded([&]() -> Result<Account> {
    const Result<std::unique_ptr<Ledger>> ledger = open_to_see(shop, call);
    if (!ledger.ok()) return ledger.fault();
    Account account;
    (*ledger)->begin(kind);
    if (MaybeFault fault = work(**ledger, account)) return *std::move(fault);
    (*ledger)->roll_back();
    account.told.emplace_back("Nothing was written: this was only to see");
    return account;
  });
}

/// Reads in the ledger. work: (Ledger&, Account&) → MaybeFault.
template <class Work>
Result<Account> from_book(const Shop& shop, const BookCall& call, Work&& work) {
  return guarded([&]() -> Result<Account> {
    const Result<std::unique_ptr<Ledger>> ledger = open_book(shop, call, Ledger::Access::read);
    if (!ledger.ok()) return ledger.fault();
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

/// Where a book's sheets go unless the person says otherwise, and how the ledger writes that down.
std::filesystem::path sheets_folder(const Shop& shop, const std::filesystem::path& named);
std::string folder_in_book(const Shop& shop, const std::filesystem::path& folder);
std::filesystem::path folder_on_disk(const Shop& shop, const LedgerSheet& sheet);

/// Books the sheets whose files are in the outbox, names them in the account, which is whole but for them, ends the
/// transaction, moves the files to their place and books that.
/// Faults: artwork that is not what was approved, a blank that is not free; then nothing is changed.
MaybeFault book_sheets(const Shop& shop, Ledger& ledger, Outbox& outbox, std::vector<NewSheet> sheets,
                       Account& account);

/// Books the files in the outbox for a sheet that the book has, in place of those in `aside`, which are kept in a folder
/// beside them: its name is given. To be committed, and then delivered.
Result<std::string> plan_files(const Shop& shop, Ledger& ledger, Outbox& outbox, const LedgerSheet& sheet,
                               std::vector<std::string> aside, const std::string& what);
MaybeFault deliver_files(Ledger& ledger, Outbox& outbox, const LedgerSheet& sheet);

/// An item of the book as an order of one, to be composed.
Order order_of(const LedgerItem& item);

}  // namespace ordinatio
