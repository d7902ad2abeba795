#include "desk/pieces_to_come.h"

#include "shop/trial.h"

namespace ordinatio::inline desk {

PiecesToCome::PiecesToCome() : thread_([this] { work(); }) {}

PiecesToCome::~PiecesToCome() {
  {
    const std::lock_guard lock(guard_);
    is_over_ = true;
  }
  asked_.notify_one();
  thread_.join();
}

void PiecesToCome::look(const Shop& shop, const LedgerCall& call, const std::string& date, const std::string& state) {
  {
    const std::lock_guard lock(guard_);
    if (state == state_) return;
    state_ = state;
    question_ = {shop, call, date};
  }
  asked_.notify_one();
}

std::string PiecesToCome::of(const std::string& item) {
  const std::lock_guard lock(guard_);
  const auto known = piece_of_.find(item);
  return known == piece_of_.end() ? "" : known->second;
}

void PiecesToCome::work() {
  std::unique_lock lock(guard_);
  for (;;) {
    asked_.wait(lock, [this] { return is_over_ || question_; });
    if (is_over_) return;
    const Question question = *std::move(question_);
    question_.reset();
    lock.unlock();
    auto found = pieces_to_come(question.shop, question.call, question.date);
    lock.lock();
    if (found.ok()) piece_of_ = *std::move(found);  // what went wrong is told where the day is made
  }
}

}  // namespace ordinatio::inline desk
