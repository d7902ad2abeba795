#include "desk/workshop_desk.h"

#include "base/local_time.h"

namespace ordinatio::inline desk {
namespace fs = std::filesystem;
namespace {

constexpr double patience = 1;  // seconds for another command to end: the person waits, and may ask again

/// A file's state in a few characters; a file that is not there has one, too.
std::string state_of(const fs::path& file) {
  std::error_code error;
  const auto time = fs::last_write_time(file, error).time_since_epoch().count();
  const auto size = fs::is_regular_file(file, error) ? fs::file_size(file, error) : 0;
  return file.filename().string() + " " + std::to_string(time) + " " + std::to_string(size) + "\n";
}

/// Of the files in a folder and of the folder itself.
std::string state_within(const fs::path& folder) {
  std::string state = state_of(folder);
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(folder, error)) state += state_of(entry.path());
  return state;
}

/// Of all that a workshop is read from, its ledger apart.
std::string state_of_workshop(const fs::path& folder, const std::string& blanks) {
  std::string state = state_of(folder / "shop.toml");
  for (const char* within : {"templates", "fonts"}) state += state_within(folder / within);
  return blanks.empty() ? state : state + state_of(folder / blanks);
}

}  // namespace

WorkshopDesk::WorkshopDesk(fs::path folder, TimeNow clock, std::string version)
    : folder_(std::move(folder)), clock_(std::move(clock)), version_(std::move(version)) {}

bool WorkshopDesk::has_workshop() const {
  std::error_code error;
  return fs::exists(folder_ / "shop.toml", error);
}

Result<TrialBench*> WorkshopDesk::bench() {
  const std::string now = state_of_workshop(folder_, bench_ ? bench_->shop().blanks.file : "");
  if (bench_ && now == seen_) return &*bench_;
  bench_.reset();
  const Result<Shop> shop = read_shop(folder_);
  if (!shop.ok()) return shop.fault();
  bench_.emplace(*shop);
  seen_ = state_of_workshop(folder_, shop->blanks.file);
  return &*bench_;
}

LedgerCall WorkshopDesk::call(const std::string& what) const {
  LedgerCall call;
  call.now = clock_();
  call.cause = "desk: " + what;
  call.wait = patience;
  return call;
}

std::string WorkshopDesk::today() const { return local_time(clock_()).substr(0, 10); }

std::string WorkshopDesk::piece_to_come(const std::string& item) {
  const Result<TrialBench*> open = bench();
  if (!open.ok()) return "";
  const Shop& shop = (*open)->shop();
  if (shop.blanks.file.empty() || shop.ledger.empty()) return "";
  pieces_.look(shop, call("which pieces"), today(), seen_ + state_of(folder_ / shop.ledger));
  return pieces_.of(item);
}

}  // namespace ordinatio::inline desk
