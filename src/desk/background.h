// Work that takes more than a moment: a day's sheets, proofs; which piece each item will have. Of this folder alone.
#pragma once

#include <atomic>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "base/account.h"

namespace ordinatio::inline desk {

/// Thrown into work that a person has stopped: what it had begun is then taken back, as after a kill.
class Stopped : public std::exception {
 public:
  [[nodiscard]] const char* what() const noexcept override { return "stopped"; }
};

/// One piece of work at a time, on a thread of its own.
class Background {
 public:
  using Work = std::function<Result<Account>(const Progress& progress)>;

  struct State {
    std::string kind;  // "day", "proofs", "stands", "panes", "specimen"; empty: nothing was ever begun
    bool is_running = false, was_stopped = false;
    std::size_t done = 0, all = 0;
    std::optional<Result<Account>> end;
  };

  Background() = default;
  ~Background();
  Background(const Background&) = delete;
  Background& operator=(const Background&) = delete;

  /// Faults: other work is under way.
  MaybeFault begin(const std::string& kind, Work work);
  /// It ends soon, with nothing half done; what is all but done is done.
  void stop() { is_to_stop_ = true; }
  State state();

 private:
  void run(const Work& work);

  std::mutex guard_;  // of state_
  State state_;
  std::atomic<bool> is_to_stop_ = false;
  std::thread thread_;
};

}  // namespace ordinatio::inline desk
