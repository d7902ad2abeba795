// A workshop that nobody planned: its designs, its bed, its pieces and what happens in it, all by one seed.
#pragma once

#include <filesystem>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "base/account.h"
#include "bookkeeping/bookkeeping.h"
#include "ledger/ledger.h"

namespace ordinatio::days {

class Workshop {
 public:
  explicit Workshop(unsigned seed);
  ~Workshop();
  Workshop(const Workshop&) = delete;
  Workshop& operator=(const Workshop&) = delete;

  /// Measures pieces, takes orders in, changes its mind, lays sheets, engraves some; after each command `look` is called
  /// with what was done. Throws what the program throws.
  template <class Look>
  void day(Look look) {
    for (const Deed& deed : deeds_of_a_day()) {
      const std::string done = run(deed);
      look(done);
    }
  }
  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
  /// How often each command did its work.
  [[nodiscard]] const std::map<std::string, int>& counts() const { return counts_; }

 private:
  enum class Deed {
    measure,
    intake,
    day,
    engraved,
    correct,
    hold,
    release,
    cancel,
    answer,
    proof,
    approve,
    align,
    resume,
    remake,
    spoil,
    undo,
    move,
    take_off
  };
  std::vector<Deed> deeds_of_a_day();
  std::string run(Deed deed);
  Result<Account> attempt(Deed deed);

  int below(int count) { return static_cast<int>(random_() % static_cast<unsigned>(count)); }
  double between(int least, int most) { return least + below(most - least + 1); }
  template <class T>
  const T& any(const std::vector<T>& from) {
    return from[static_cast<std::size_t>(below(static_cast<int>(from.size())))];
  }
  void write(const std::string& name, const std::string& text) const;
  void write_designs();
  void write_shop();
  std::string row_of_piece();
  std::string words();
  std::string any_item(ItemState state);
  std::string any_open_sheet();
  std::string some_pockets(const std::string& sheet);
  std::unique_ptr<Ledger> read_ledger() const;
  LedgerCall call(const std::string& cause);

  Result<Account> measure();
  Result<Account> intake();
  Result<Account> lay();
  Result<Account> engrave();
  Result<Account> correct(CorrectionOptions::What what, ItemState state, const std::string& value);
  /// To another pocket of its sheet, or on another piece.
  Result<Account> move();
  /// An item wished to be set otherwise than its design says, or as it says again.
  Result<Account> set_otherwise(ItemState state);
  Result<Account> align();
  Result<Account> resume();
  Result<Account> remake();
  Result<Account> answer();

  struct Ordered {
    std::string number, design, text;
    int quantity = 1;
    bool cancelled = false;
  };
  std::mt19937 random_;
  std::filesystem::path folder_;
  Shop shop_;
  int minutes_ = 0, pieces_ = 0, orders_made_ = 0;
  std::string pieces_file_, touched_;  // the item or sheet that was changed last
  std::vector<Ordered> orders_;
  std::map<std::string, int> counts_;
};

}  // namespace ordinatio::days
