#include "shop/transaction.h"

#include <algorithm>

#include "shop/kept_account.h"
#include "shop/ledger_access.h"
#include "shop/renewal.h"

namespace ordinatio::inline shop {
namespace {

/// What tells a command from others that were cut off: as it was typed, and the digest of the file that it reads, if any.
/// Empty where nobody is to hear of it.
std::string asked_by(const LedgerCall& call, const std::string& input) {
  if (!call.to_be_heard) return "";
  return input.empty() ? call.cause : call.cause + "\n" + input;
}

/// Tells in the account what other commands did that were cut off.
void tell_unheard(const Shop& shop, Ledger& ledger, Account& account) {
  std::vector<std::string> lines;
  for (const Ledger::Unheard& last : ledger.unheard()) {
    if (std::ranges::find(account.entries, last.entry) != account.entries.end()) continue;
    std::ranges::copy(told_late(last.cause, kept_account(last.account, shop)), std::back_inserter(lines));
    account.entries.push_back(last.entry);
    account.warnings.push_back("\"" + last.cause + "\" was cut off before its account was read: it stands above");
  }
  account.told.insert(account.told.begin(), lines.begin(), lines.end());
}

/// What an earlier run of the very same command did, of which the person has not heard since it was cut off: said now,
/// and not done again.
std::optional<Account> done_before(const Shop& shop, Ledger& ledger, const std::string& asked) {
  if (asked.empty()) return std::nullopt;
  const std::vector<Ledger::Unheard> unheard = ledger.unheard();
  const auto last = std::ranges::find(unheard, asked, &Ledger::Unheard::asked);
  if (last == unheard.end()) return std::nullopt;
  Account account = kept_account(last->account, shop);
  account.entries.push_back(last->entry);
  return account;
}

/// With the transaction that is open, until the person has heard it.
void keep_account(const Shop& shop, Ledger& ledger, Account& account) {
  const std::string text = text_to_keep(account, shop);
  if (!account.entries.empty()) {
    ledger.change_account(account.entries.front(), text);
  } else if (const auto entry = ledger.keep_account(text)) {
    account.entries.push_back(*entry);
  }
}

/// The ledger has changed already: whatever the system says, this is no bad input.
Fault not_moved_yet(Fault fault) {
  fault.cause = Fault::Cause::machine;
  fault.mend = "Mend the cause: the next command moves the files to their place. Nothing is lost";
  return fault;
}

MaybeFault deliver(const Shop& shop, Ledger& ledger, const Delivery& delivery) {
  if (!delivery.outbox) return std::nullopt;
  const auto files = delivery.outbox->deliver();
  if (!files.ok()) return delivery.sheets.empty() ? files.fault() : not_moved_yet(files.fault());
  if (delivery.sheets.empty()) return std::nullopt;
  Account unsaid;
  return transact(shop, ledger, EntryKind::delivery, "", unsaid, [&](Ledger&, Account&, Delivery&) {
    for (const int sheet : delivery.sheets) ledger.mark_written(sheet);
    return MaybeFault();
  });
}

/// What follows every command: sheets are written anew that have lost or regained a pocket, and what else there is to say.
void finish(const Shop& shop, Ledger& ledger, const LedgerCall& call, bool was_done, const std::string& asked,
            Account& account) {
  renew_sheets(shop, ledger, asked, account);
  if (was_done) {
    account.told.insert(account.told.begin(),
                        "This was done by a run that was cut off; it is not done again: " + call.cause);
  }
  if (call.to_be_heard) tell_unheard(shop, ledger, account);
}

}  // namespace

MaybeFault transact(const Shop& shop, Ledger& ledger, EntryKind kind, const std::string& asked, Account& account,
                    const SheetWork& work) {
  Delivery delivery;
  ledger.begin(kind, asked);
  if (MaybeFault fault = work(ledger, account, delivery)) {
    ledger.roll_back();
    if (delivery.outbox) delivery.outbox->discard();
    return fault;
  }
  keep_account(shop, ledger, account);
  ledger.commit();
  return deliver(shop, ledger, delivery);
}

Result<Account> in_ledger(const Shop& shop, const LedgerCall& call, EntryKind kind, const SheetWork& work,
                          const std::string& input) {
  return guarded([&]() -> Result<Account> {
    const Result<std::unique_ptr<Ledger>> ledger = open_ledger(shop, call, Ledger::Access::write);
    if (!ledger.ok()) return ledger.fault();
    const std::string asked = asked_by(call, input);
    std::optional<Account> done = done_before(shop, **ledger, asked);
    Account account = done.value_or(Account());
    if (!done) {
      if (MaybeFault fault = transact(shop, **ledger, kind, asked, account, work)) return *std::move(fault);
    }
    finish(shop, **ledger, call, done.has_value(), asked, account);
    return account;
  });
}

Result<Account> in_ledger(const Shop& shop, const LedgerCall& call, EntryKind kind, const BookingWork& work,
                          const std::string& input) {
  const SheetWork without_files = [&](Ledger& ledger, Account& account, Delivery&) { return work(ledger, account); };
  return in_ledger(shop, call, kind, without_files, input);
}

Result<Account> to_see(const Shop& shop, const LedgerCall& call, EntryKind kind, const BookingWork& work) {
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

Result<Account> from_ledger(const Shop& shop, const LedgerCall& call, const BookingWork& work) {
  return guarded([&]() -> Result<Account> {
    const Result<std::unique_ptr<Ledger>> ledger = open_ledger(shop, call, Ledger::Access::read);
    if (!ledger.ok()) return ledger.fault();
    Account account;
    if (MaybeFault fault = work(**ledger, account)) return *std::move(fault);
    return account;
  });
}

MaybeFault book_sheets(Ledger& ledger, Delivery& delivery, std::vector<NewSheet> sheets, Account& account) {
  if (sheets.empty()) {
    delivery.outbox.reset();
    return std::nullopt;
  }
  const Result<std::map<std::string, std::string>> checksums = delivery.outbox->seal();
  if (!checksums.ok()) return checksums.fault();
  for (NewSheet& sheet : sheets) {
    for (const auto& [name, checksum] : *checksums) {
      if (name.starts_with(sheet.sheet.name + ".")) sheet.sheet.files.emplace(name, checksum);
    }
    if (auto fault = ledger.plan_sheet(sheet)) return fault;
    delivery.sheets.push_back(sheet.sheet.number);
  }
  account.files = delivery.outbox->files();
  return std::nullopt;
}

Result<std::string> plan_files(const Shop& shop, Ledger& ledger, Delivery& delivery, const LedgerSheet& sheet,
                               std::vector<std::string> aside, const std::string& what) {
  const Result<std::map<std::string, std::string>> checksums = delivery.outbox->seal();
  if (!checksums.ok()) return checksums.fault();
  const auto is_taken = [&](const std::string& folder) {
    const auto of_folder = [&](const auto& file) { return file.first.starts_with(folder + "/"); };
    return std::ranges::any_of(sheet.files, of_folder);
  };
  const std::string earlier = next_earlier(folder_on_disk(shop, sheet), is_taken);
  ledger.plan_files(sheet, {*checksums, aside, earlier, what + (aside.empty() ? "" : "; those before: " + earlier)});
  delivery.outbox->set_aside_first(std::move(aside), earlier);
  delivery.sheets.push_back(sheet.number);
  return earlier;
}

}  // namespace ordinatio::inline shop
