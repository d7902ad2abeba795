// A week in the ledger's own terms: every kind of change that a command books, each a transaction of its own.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "ledger/ledger.h"

namespace ordinatio::crash {

struct LedgerStep {
  const char* name;
  EntryKind kind;
  void (*work)(Ledger& ledger);
};
const std::vector<LedgerStep>& ledger_week();

/// Opens the ledger for the step of that number, from 0, does it and commits. Times and causes depend on the number alone.
MaybeFault take_step(const std::filesystem::path& ledger_file, std::size_t step, const std::string& vfs);

}  // namespace ordinatio::crash
