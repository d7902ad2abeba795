#include "desk/kept_files.h"

#include <algorithm>

namespace ordinatio::inline desk {
namespace fs = std::filesystem;
namespace {

constexpr std::size_t undo_limit = 50;  // more than a person takes back one after the other

using Done = std::pair<std::string, TakeBacks::Act>;

Result<Account> restored(const fs::path& file, const std::optional<std::string>& before, const std::string& digest) {
  const Result<std::string> now = read_kept(file, digest);
  if (!now.ok()) return now.fault();
  std::error_code error;
  if (before) {
    if (auto fault = write_file(file, *before)) return *std::move(fault);
  } else if (!fs::remove(file, error)) {
    return Fault{"the file cannot be taken away", file.string(), error.message(), "Take it away by hand"};
  }
  Account account;
  account.told.push_back(file.filename().string() + (before ? " is as it was before" : " is gone again"));
  return account;
}

}  // namespace

std::string TakeBacks::add(Act act) {
  if (acts_.size() == undo_limit) acts_.erase(acts_.begin());
  return acts_.emplace_back("desk " + std::to_string(++count_), std::move(act)).first;
}

bool TakeBacks::knows(const std::string& subject) const { return std::ranges::count(acts_, subject, &Done::first) > 0; }

Result<Account> TakeBacks::run(const std::string& subject) {
  const auto found = std::ranges::find(acts_, subject, &Done::first);
  if (found == acts_.end()) return Fault{"there is nothing to take back", subject, "", "Read the page again"};
  Result<Account> account = found->second();
  if (account.ok()) acts_.erase(found);
  return account;
}

Result<std::string> read_kept(const fs::path& file, const std::optional<std::string>& digest) {
  Result<std::string> text = read_file(file, words_limit);
  if (!text.ok() || !digest || sha256_hex(*text) == *digest) return text;
  return Fault{"the file has changed meanwhile", file.filename().string(), "it is not what this page has read",
               "Read the page again; your own change is to be made anew"};
}

Result<std::string> write_kept(TakeBacks& take_backs, const fs::path& file, const std::optional<std::string>& before,
                               const std::string& text) {
  if (auto fault = write_file(file, text)) return *std::move(fault);
  return take_backs.add([file, before, digest = sha256_hex(text)] { return restored(file, before, digest); });
}

}  // namespace ordinatio::inline desk
