#include "shop/recovery.h"

#include <algorithm>

#include "shop/ledger_access.h"
#include "shop/transaction.h"

namespace ordinatio::inline shop {
namespace fs = std::filesystem;
namespace {

/// Faults: the system failed, so that nobody knows; a file that is not there has it not.
Result<bool> has_checksum(const fs::path& file, const std::string& checksum) {
  const Result<std::string> bytes = read_file(file);
  if (!bytes.ok() && bytes.fault().cause == Fault::Cause::machine) return bytes.fault();
  return bytes.ok() && sha256_hex(*bytes) == checksum;
}

/// Moves a file of the sheet from where it may be to its place. False: it is neither here nor there.
Result<bool> finish_file(const fs::path& from, const fs::path& folder, const std::string& name,
                         const std::string& checksum) {
  Result<bool> is_there = has_checksum(folder / name, checksum);
  if (!is_there.ok() || *is_there) return is_there;
  Result<bool> is_waiting = has_checksum(from, checksum);
  if (!is_waiting.ok() || !*is_waiting) return is_waiting;
  std::error_code error;
  if (is_aside(name)) {
    if (auto fault = make_folder((folder / name).parent_path())) return *std::move(fault);
    sync_folder(folder);  // lest a power cut take the folder with what is moved into it
  } else if (fs::exists(folder / name, error)) {
    if (auto fault = set_aside(folder, {name})) return *std::move(fault);
  }
  if (auto fault = move_file(from, folder / name)) return *std::move(fault);
  if (is_aside(name)) sync_folder((folder / name).parent_path());
  return true;
}

/// Moves what is not in its place yet. False: a file is neither here nor there.
Result<bool> finish_files(const fs::path& folder, const LedgerSheet& sheet) {
  const fs::path waiting = unfinished_folder(folder, sheets_stem);
  for (const auto& [name, checksum] :
       sheet.files) {  // before others take their place; who has cleared up may have them
    if (!is_aside(name)) continue;
    Result<bool> moved = finish_file(folder / fs::path(name).filename(), folder, name, checksum);
    if (!moved.ok()) return moved;
  }
  std::vector<std::string> names;
  for (const auto& [name, checksum] : sheet.files) {
    if (!is_aside(name)) names.push_back(name);
  }
  for (const std::string& name : in_order_of_moving(std::move(names))) {
    Result<bool> finished = finish_file(waiting / name, folder, name, sheet.files.at(name));
    if (!finished.ok() || !*finished) return finished;
  }
  sync_folder(folder);
  return true;
}

bool was_there_before(const LedgerSheet& sheet) {
  return std::ranges::any_of(sheet.files, [](const auto& file) { return is_aside(file.first); });
}

/// A sheet without its manifest was never in its place; one that has it lacks files that came later, which `check` tells.
Result<bool> is_lost(const fs::path& folder, const LedgerSheet& sheet) {
  const std::string manifest = sheet.name + ".json";
  const auto known = sheet.files.find(manifest);
  if (known == sheet.files.end()) return true;
  Result<bool> is_there = has_checksum(folder / manifest, known->second);
  if (!is_there.ok()) return is_there;
  return !*is_there;
}

/// Its files are gone: nothing of the sheet can have been engraved, so its items wait again.
void give_up(Ledger& ledger, const LedgerSheet& sheet) {
  if (was_there_before(sheet)) return ledger.mark_undrawn(sheet);  // it is written anew
  for (const LedgerPlacement& placement : ledger.placements_on(sheet.number)) {
    if (placement.state != LedgerPlacement::State::on_sheet) continue;
    ledger.withdraw(placement, "the sheet's files were lost before they were in their place", BlankFate::free);
    ledger.set_state(*ledger.item(placement.item), ItemState::received);
  }
}

MaybeFault finish_sheets(const Shop& shop, Ledger& ledger, const std::vector<LedgerSheet>& planned) {
  for (const LedgerSheet& sheet : planned) {
    const Result<bool> finished = finish_files(folder_on_disk(shop, sheet), sheet);
    if (!finished.ok()) return finished.fault();
    if (!*finished) {
      const Result<bool> lost = is_lost(folder_on_disk(shop, sheet), sheet);
      if (!lost.ok()) return lost.fault();
      if (*lost) give_up(ledger, sheet);
    }
    ledger.mark_written(sheet.number);
  }
  for (const LedgerSheet& sheet : planned) {
    std::error_code ignored;
    fs::remove_all(unfinished_folder(folder_on_disk(shop, sheet), sheets_stem), ignored);
    sync_folder(folder_on_disk(shop, sheet));
  }
  return std::nullopt;
}

}  // namespace

MaybeFault finish_planned(const Shop& shop, Ledger& ledger) {
  const std::vector<LedgerSheet> planned = ledger.planned_sheets();
  if (planned.empty()) return std::nullopt;
  Account unsaid;
  return transact(shop, ledger, EntryKind::recovery, "", unsaid,
                  [&](Ledger&, Account&, Delivery&) { return finish_sheets(shop, ledger, planned); });
}

}  // namespace ordinatio::inline shop
