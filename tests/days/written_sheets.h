// What lies in a workshop's folder, held against its ledger by SQL of its own.
#pragma once

#include <filesystem>
#include <set>
#include <string>
#include <vector>

namespace ordinatio::days {

class WrittenSheets {
 public:
  explicit WrittenSheets(std::filesystem::path workshop) : workshop_(std::move(workshop)) {}
  /// What is wrong with sheets of which something is still to be engraved; empty where nothing is.
  std::vector<std::string> look();
  /// Files looked at, and items in them.
  [[nodiscard]] int files() const { return files_; }
  [[nodiscard]] int items() const { return items_; }

 private:
  void look_at(const std::string& sheet, const std::filesystem::path& svg, std::vector<std::string>& wrong);

  std::filesystem::path workshop_;
  std::set<std::string> inks_known_;  // files whose ink was looked at, by checksum
  int files_ = 0, items_ = 0;
};

}  // namespace ordinatio::days
