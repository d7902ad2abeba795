// Which measured piece each waiting item would have, worked out aside while the person goes on. Of this folder alone.
#pragma once

#include <condition_variable>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "shop/shop.h"

namespace ordinatio::inline desk {

/// What is known is of the ledger as it was some moments ago; until anything is known there is no answer.
class PiecesToCome {
 public:
  PiecesToCome();
  ~PiecesToCome();
  PiecesToCome(const PiecesToCome&) = delete;
  PiecesToCome& operator=(const PiecesToCome&) = delete;

  /// Has it worked out anew where `state`, of the ledger and the workshop's files, is another than the last time.
  void look(const Shop& shop, const LedgerCall& call, const std::string& date, const std::string& state);
  /// Empty: none, or not known yet.
  std::string of(const std::string& item);

 private:
  struct Question {
    Shop shop;
    LedgerCall call;
    std::string date;
  };
  void work();

  std::mutex guard_;
  std::condition_variable asked_;
  std::optional<Question> question_;
  std::string state_;
  std::map<std::string, std::string> piece_of_;
  bool is_over_ = false;
  std::thread thread_;
};

}  // namespace ordinatio::inline desk
