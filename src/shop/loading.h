#pragma once

#include "base/account.h"
#include "ledger/ledger.h"
#include "paper/paper.h"
#include "shop/workroom.h"

namespace ordinatio::inline shop {

struct LoadingOptions {
  std::vector<std::string> sheets;  // names of the ledger, or manifests; empty: all with something left to engrave
  std::filesystem::path out;
  PaperSize paper = PaperSize::a4;
  LedgerCall call{};
  bool by_name_alone = false;  // no file is read that is named, only what the ledger knows
};
/// A page for each bed, by which a person loads it. One that cannot be drawn is held, and holds no other up.
Result<Account> run_loading(const Shop& shop, const LoadingOptions& options);
/// What of a sheet of the ledger is still to be engraved, as it lies; stands whole. Faults: nothing is; its files are lost; a
/// design is another one now.
Result<Sheet> sheet_to_load(Workroom& workroom, Ledger& ledger, const LedgerSheet& sheet);
/// A sheet exactly as its manifest has it, corrected where that was.
Result<Sheet> sheet_of_manifest(Workroom& workroom, const std::filesystem::path& file);
/// Whether something of the sheet is left to engrave: stands are not known to be.
bool is_to_load(Ledger& ledger, const LedgerSheet& sheet);
/// "sheet-001-loading.pdf"
std::string loading_file_name(const std::string& sheet);

}  // namespace ordinatio::inline shop
