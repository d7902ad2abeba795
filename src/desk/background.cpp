#include "desk/background.h"

namespace ordinatio::inline desk {
namespace {

const Fault stopped_by_person{"the work was stopped", "", "you asked for it",
                              "Nothing was changed; begin it again when you like"};

Fault broken(const std::exception& bug) {
  return {"the work failed", "", bug.what(),
          "This is a mistake of the program or a failing machine; what was there before is unchanged",
          Fault::Cause::machine};
}

}  // namespace

Background::~Background() {
  stop();
  if (thread_.joinable()) thread_.join();
}

MaybeFault Background::begin(const std::string& kind, Work work) {
  if (state().is_running)
    return Fault{"other work is under way", "", "one thing is done at a time", "Wait until it is done, or stop it"};
  if (thread_.joinable()) thread_.join();
  is_to_stop_ = false;
  state_ = {kind, true, false, 0, 0, {}};
  thread_ = std::thread([this, work = std::move(work)] { run(work); });
  return std::nullopt;
}

void Background::run(const Work& work) {
  const Progress progress = [this](std::size_t done, std::size_t all) {
    if (is_to_stop_) throw Stopped();
    const std::lock_guard lock(guard_);
    state_.done = done, state_.all = all;
  };
  bool was_stopped = false;
  const auto outcome = [&]() -> Result<Account> {
    try {
      return work(progress);
    } catch (const Stopped&) {
      was_stopped = true;
      return stopped_by_person;
    } catch (const std::exception& bug) {
      return broken(bug);
    }
  };
  Result<Account> end = outcome();
  const std::lock_guard lock(guard_);
  state_.end = std::move(end);
  state_.was_stopped = was_stopped;
  state_.is_running = false;
}

Background::State Background::state() {
  const std::lock_guard lock(guard_);
  return state_;
}

}  // namespace ordinatio::inline desk
