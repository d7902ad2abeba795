// A command's work in the ledger: booked and delivered, or nothing of it.
#pragma once

#include "base/account.h"
#include "ledger/ledger.h"
#include "shop/outbox.h"

namespace ordinatio::inline shop {

/// What a command has made ready: files that go to their place once its work is booked.
struct Delivery {
  std::unique_ptr<Outbox> outbox = {};  // none: there is nothing to deliver
  std::vector<int> sheets = {};         // of the ledger, that are planned with these files
};
/// Work that books, and work that makes files ready besides.
using BookingWork = std::function<MaybeFault(Ledger&, Account&)>;
using SheetWork = std::function<MaybeFault(Ledger&, Account&, Delivery&)>;

/// One transaction: the work, and the account of it, or nothing where the work gives a Fault. Then what it made ready goes to
/// its place, and a second transaction books that. Nothing else commits. asked: what tells the command from others that were
/// cut off; empty where nobody is to hear of it.
MaybeFault transact(const Shop& shop, Ledger& ledger, EntryKind kind, const std::string& asked, Account& account,
                    const SheetWork& work);

/// Runs one command's work in the workshop's ledger. Where an earlier run of the same command was cut off after its work, that
/// run's account is given in its stead. input: the digest of the file that the command reads, if any.
Result<Account> in_ledger(const Shop& shop, const LedgerCall& call, EntryKind kind, const SheetWork& work,
                          const std::string& input = "");
Result<Account> in_ledger(const Shop& shop, const LedgerCall& call, EntryKind kind, const BookingWork& work,
                          const std::string& input = "");
/// The same to see what it would do: nothing of it stays.
Result<Account> to_see(const Shop& shop, const LedgerCall& call, EntryKind kind, const BookingWork& work);
/// Reads in the ledger.
Result<Account> from_ledger(const Shop& shop, const LedgerCall& call, const BookingWork& work);

/// Books the sheets whose files are in the delivery's outbox as planned, and names them in the account, which is whole but for
/// them. Faults: artwork that is not what was approved, a blank that is not free.
MaybeFault book_sheets(Ledger& ledger, Delivery& delivery, std::vector<NewSheet> sheets, Account& account);
/// The same for other files of a sheet that the ledger has, in place of those in `aside`, which are kept in a folder beside
/// them: its name is given.
Result<std::string> plan_files(const Shop& shop, Ledger& ledger, Delivery& delivery, const LedgerSheet& sheet,
                               std::vector<std::string> aside, const std::string& what);

}  // namespace ordinatio::inline shop
