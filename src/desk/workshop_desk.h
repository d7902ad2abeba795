// The desk of one workshop: what its answers share. Of this folder alone.
#pragma once

#include <functional>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "bed/cutting.h"
#include "bookkeeping/work_plan.h"
#include "desk/background.h"
#include "desk/exchange.h"
#include "desk/kept_files.h"
#include "desk/kept_photos.h"
#include "desk/pieces_to_come.h"
#include "shop/machine_time.h"
#include "shop/trial.h"

namespace ordinatio::inline desk {

/// The cutting plans that were made last; they are made on a thread of their own.
struct SeenPlans {
  std::mutex guard;
  std::vector<CuttingPlan> plans;
};

/// What was worked out last of the time to come, on a thread of its own.
struct SeenAhead {
  std::mutex guard;
  std::vector<TimedSetting> settings;
  std::optional<WorkPlan> plan;
};

using TimeNow = std::function<std::string()>;  // gives the time now, ISO 8601, UTC

/// Answers are asked of it one after the other, on one thread.
class WorkshopDesk {
 public:
  WorkshopDesk(std::filesystem::path folder, TimeNow clock, std::string version);

  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
  [[nodiscard]] const std::string& version() const { return version_; }
  /// Whether there is a workshop in the folder yet.
  [[nodiscard]] bool has_workshop() const;
  /// The workshop kept open; read anew where a file of it has changed since. Faults: shop.toml cannot be read.
  Result<TrialBench*> bench();
  /// For a command of the ledger; what: as the story tells it, such as "correct 1002-2".
  [[nodiscard]] LedgerCall call(const std::string& what) const;
  /// "2026-11-25", here and now.
  [[nodiscard]] std::string today() const;
  /// The piece that a waiting item would have, as far as that is worked out; empty: not known, or any is like another.
  std::string piece_to_come(const std::string& item);
  /// Of what is in no ledger.
  TakeBacks& take_backs() { return take_backs_; }
  /// What is under way.
  Background& background() { return background_; }
  SeenPlans& cutting_plans() { return cutting_plans_; }
  SeenAhead& ahead() { return ahead_; }
  KeptPhotos& photos() { return photos_; }

 private:
  std::filesystem::path folder_;
  TimeNow clock_;
  std::string version_;
  std::string seen_;  // the state of the files that the bench was made of
  std::optional<TrialBench> bench_;
  TakeBacks take_backs_;
  SeenPlans cutting_plans_;
  SeenAhead ahead_;
  Background background_;  // goes before what its work fills
  KeptPhotos photos_;
  PiecesToCome pieces_;
};

}  // namespace ordinatio::inline desk
