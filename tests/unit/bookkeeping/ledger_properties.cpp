// Anything that a week may bring, in any order: after every step the ledger holds together. The seed is printed; another is
// given with --rng-seed.
#include <iostream>
#include <random>
#include <set>

#include "base/account.h"
#include "ledger_shop.h"
#include "shop/remake.h"

namespace ordinatio::ledger_properties_test {
using What = CorrectionOptions::What;
using Answer = AnswerOptions::Answer;

namespace {

/// A customer's order as it stands in the shop on the web: what exports are taken from.
struct Ordered {
  std::string number, design;
  std::vector<std::pair<std::string, int>> lines;  // text and quantity; the line's id is its place
  bool has_ids = true, cancelled = false;
};

class Week {
 public:
  explicit Week(unsigned seed) : random_(seed) { shop_.measure(blanks_ = 6); }

  void step();
  [[nodiscard]] std::size_t done() const { return done_; }
  [[nodiscard]] const std::map<std::string, std::size_t>& counts() const { return counts_; }
  /// How often an order's items were held against what was ordered.
  [[nodiscard]] std::size_t accounted() const { return accounted_; }

 private:
  int below(int count) { return static_cast<int>(random_() % static_cast<unsigned>(count)); }
  template <class T>
  const T& any(const std::vector<T>& from) {
    return from[static_cast<std::size_t>(below(static_cast<int>(from.size())))];
  }
  std::string words() { return any(std::vector<std::string>{"Ada", "Ida", "Eva", "The Old Mill", "=1+1", "1874"}); }
  /// Mostly one in one of these states.
  std::string any_item(const std::vector<ItemState>& states = {});
  /// Mostly one that something lies on still.
  std::string any_sheet();
  /// Mostly those that are not settled on the sheet, as two lists that share none.
  std::pair<std::string, std::string> any_pockets(const std::string& sheet);
  Result<Account> resume();
  Result<Account> engraved();

  void order_something();
  Result<Account> read_export();
  Result<Account> correct();
  Result<Account> remake();
  Result<Account> move();
  Result<Account> answer();
  Result<Account> work();
  void check(const std::string& what);
  void check_items(Ledger& ledger);
  void check_ordered(Ledger& ledger);
  void check_blanks(Ledger& ledger);

  std::mt19937 random_;
  LedgerShop shop_;
  int blanks_ = 0, next_number_ = 1;
  std::vector<Ordered> orders_;
  std::vector<std::string> exports_;                           // earlier ones, to be read again
  std::set<std::string> read_;                                 // the same, of which the ledger has heard
  std::map<std::string, std::multiset<std::string>> ordered_;  // texts by order, as they were read last
  std::map<std::string, std::size_t> least_;                   // items of an order: nothing is deleted
  std::map<std::string, std::size_t> counts_;                  // commands that did their work
  std::string did_, corrected_, booked_;                       // the item and the sheet that it was done to last
  std::size_t done_ = 0, accounted_ = 0;
};

std::string Week::any_item(const std::vector<ItemState>& states) {
  std::vector<std::string> fitting, all;
  for (const LedgerItem& item : shop_.read_ledger()->items_in({})) {
    all.push_back(item.number);
    if (std::ranges::find(states, item.state) != states.end()) fitting.push_back(item.number);
  }
  if (!fitting.empty() && below(5) > 0) return any(fitting);
  return all.empty() ? "1-1" : any(all);
}

std::string Week::any_sheet() {
  std::vector<std::string> open, all;
  const auto ledger_file = shop_.read_ledger();
  for (const LedgerSheet& sheet : ledger_file->sheets()) {
    all.push_back(sheet.name);
    const auto placements = ledger_file->placements_on(sheet.number);
    if (std::ranges::find(placements, LedgerPlacement::State::on_sheet, &LedgerPlacement::state) != placements.end()) {
      open.push_back(sheet.name);
    }
  }
  if (!open.empty() && below(5) > 0) return any(open);
  return all.empty() ? "1" : any(all);
}

std::pair<std::string, std::string> Week::any_pockets(const std::string& name) {
  std::string lists[2];
  const auto ledger_file = shop_.read_ledger();
  const auto sheet = ledger_file->sheet_named(name);
  if (!sheet) return {"1", ""};
  for (const LedgerPlacement& placement : ledger_file->placements_on(sheet->number)) {
    const bool is_open = placement.state == LedgerPlacement::State::on_sheet;
    const int list = below(3);
    if ((!is_open && below(8) > 0) || list == 2) continue;
    lists[list] += (lists[list].empty() ? "" : ",") + std::to_string(placement.pocket);
  }
  return {lists[0], lists[1]};
}

Result<Account> Week::resume() {
  const std::string sheet = any_sheet();
  const auto [done, spoiled] = any_pockets(sheet);
  return shop_.resume(sheet, done, spoiled);
}

Result<Account> Week::engraved() {
  const std::string sheet = booked_ = any_sheet();
  return shop_.engraved(sheet, below(2) == 0 ? "" : any_pockets(sheet).first);
}

/// A new order, or one that changes.
void Week::order_something() {
  if (orders_.size() < 3 || (orders_.size() < 12 && below(3) == 0)) {
    Ordered order{std::to_string(next_number_++), below(3) == 0 ? "asked" : "", {}, below(3) > 0, false};
    for (int n = 1 + below(2); n > 0; --n) order.lines.emplace_back(words(), 1 + below(2));
    orders_.push_back(order);
    return;
  }
  Ordered& order = orders_[static_cast<std::size_t>(below(static_cast<int>(orders_.size())))];
  auto& line = order.lines[static_cast<std::size_t>(below(static_cast<int>(order.lines.size())))];
  switch (below(6)) {
    case 0:
      order.cancelled = !order.cancelled;
      break;
    case 1:
      line.second = 1 + below(3);
      break;
    case 2:
      line.first = words();
      break;
    case 3:
      if (order.lines.size() < 3) order.lines.emplace_back(words(), 1);
      break;
    case 4:
      order.has_ids = !order.has_ids;
      break;
    default:
      break;
  }
}

/// The words of every piece that is wanted.
std::multiset<std::string> texts_of(const Ordered& order) {
  std::multiset<std::string> texts;
  for (const auto& [text, quantity] : order.lines) {
    for (int n = 0; n < quantity && !order.cancelled; ++n) texts.insert(text);
  }
  return texts;
}

/// Some of the orders as they are now, or an export of before.
Result<Account> Week::read_export() {
  std::string rows = "Order,Text,Quantity,Design,Line,Status\n";
  std::map<std::string, std::multiset<std::string>> read;
  if (!exports_.empty() && below(4) == 0) {
    rows = any(exports_);
  } else {
    for (const Ordered& order : orders_) {
      if (below(4) == 0) continue;  // exports overlap
      read[order.number] = texts_of(order);
      for (std::size_t line = 0; line < order.lines.size(); ++line) {
        rows += order.number + "," + order.lines[line].first + "," + std::to_string(order.lines[line].second) + "," +
                order.design + "," + (order.has_ids ? "L" + std::to_string(line) : "") + "," +
                (order.cancelled ? "cancelled" : "") + "\n";
      }
    }
    exports_.push_back(rows);
  }
  Result<Account> account = shop_.intake(rows);
  // What was read once before says nothing new.
  if (account.ok() && read_.insert(rows).second) {
    for (const auto& [number, texts] : read) ordered_[number] = texts;
  }
  return account;
}

Result<Account> Week::correct() {
  const auto what = static_cast<What>(below(5));
  did_ += " " + std::to_string(static_cast<int>(what));
  const std::string value = what == What::words  ? words()
                            : what == What::hold ? "asked"
                            : what == What::pin  ? (below(3) == 0 ? "" : "S-" + std::to_string(1 + below(blanks_)))
                                                 : "";
  using enum ItemState;
  return shop_.correct(what, corrected_ = any_item({received, ready, held, proofed, approved, on_sheet}), value);
}

Result<Account> Week::remake() {
  RemakeOptions options;
  options.item = any_item({ItemState::engraved, ItemState::spoiled});
  options.later = below(2) == 0;
  if (below(3) == 0) options.text = words();
  if (below(4) == 0) options.blank = "S-" + std::to_string(1 + below(blanks_));
  did_ += (options.later ? " later" : "") + std::string(options.text ? " with words" : "");
  return shop_.remake(options);
}

Result<Account> Week::move() {
  MoveOptions options{shop_.call("move"), corrected_ = any_item({ItemState::on_sheet}), {}};
  if (below(3) > 0) {
    options.pocket = below(8);
  } else {
    options.piece = "S-" + std::to_string(1 + below(blanks_));
  }
  did_ += options.pocket ? " to pocket " + std::to_string(*options.pocket) : " to " + options.piece;
  return run_move(shop_.shop(), options);
}

Result<Account> Week::answer() {
  const auto questions = shop_.read_ledger()->open_questions();
  const auto answer = static_cast<Answer>(below(3));
  did_ += " " + std::to_string(static_cast<int>(answer));
  return shop_.answer(questions.empty() ? 1 : any(questions).id, answer);
}

Result<Account> Week::work() {
  struct Chance {
    const char* what;
    int weight;
    std::function<Result<Account>()> run;
  };
  const Chance chances[] = {
      {"intake", 14, [this] { return read_export(); }},
      {"correct", 12, [this] { return correct(); }},
      {"undo item", 8, [this] { return shop_.undo(below(2) == 0 ? any_item() : corrected_); }},
      {"undo sheet", 4, [this] { return shop_.undo(below(2) == 0 ? any_sheet() : booked_); }},
      {"proof", 3, [this] { return shop_.proof(); }},
      {"approve", 8, [this] { return shop_.approve(corrected_ = any_item({ItemState::proofed})); }},
      {"day", 7, [this] { return shop_.day(); }},
      {"engraved", 8, [this] { return engraved(); }},
      {"pack", 4, [this] { return shop_.pack(corrected_ = any_item({ItemState::engraved})); }},
      {"spoil", 5,
       [this] {
         return shop_.spoil(corrected_ = any_item({ItemState::on_sheet, ItemState::engraved}));
       }},
      {"spoil blank", 1, [this] { return shop_.spoil("", "S-" + std::to_string(1 + below(blanks_))); }},
      {"remake", 6, [this] { return remake(); }},
      {"resume", 5, [this] { return resume(); }},
      {"stands", 3, [this] { return shop_.stands(below(2) == 0 ? std::optional(1 + below(2)) : std::nullopt); }},
      {"answer", 12, [this] { return answer(); }},
      {"move", 9, [this] { return move(); }},
      {"take off", 3, [this] { return shop_.correct(What::take_off, corrected_ = any_item({ItemState::on_sheet})); }},
  };
  int all = 0;
  for (const Chance& chance : chances) all += chance.weight;
  int drawn = below(all);
  const Chance* chosen = std::begin(chances);
  while (drawn >= chosen->weight) drawn -= (chosen++)->weight;
  did_ = chosen->what;
  Result<Account> account = chosen->run();
  if (account.ok()) ++counts_[chosen->what];
  return account;
}

void Week::check_items(Ledger& ledger) {
  std::map<std::string, std::size_t> items;
  for (const LedgerItem& item : ledger.items_in({})) {
    ++items[item.order_number];
    std::size_t counting = 0, spoiled = 0;
    for (const LedgerPlacement& placement : ledger.placements_of(item.id)) {
      counting +=
          placement.state == LedgerPlacement::State::on_sheet || placement.state == LedgerPlacement::State::engraved;
      spoiled += placement.state == LedgerPlacement::State::spoiled;
    }
    INFO(item.number << " is " << name_of(item.state));
    REQUIRE(counting <= 1);
    REQUIRE((is_waiting(item.state) ? counting == 0 : counting == 1 || item.state == ItemState::cancelled));
    REQUIRE((item.state != ItemState::spoiled || spoiled > 0));
  }
  std::size_t in_states = 0, in_all = 0;
  for (const StateCount& count : ledger.items_by_state()) in_states += count.count;
  for (const auto& [number, count] : items) {
    in_all += count;
    INFO("order " << number);
    REQUIRE(count >= least_[number]);
    least_[number] = count;
  }
  REQUIRE(in_states == in_all);
}

/// Where nothing was ever left to a person, an order's items are what was read of it last: nothing twice, nothing lost.
void Week::check_ordered(Ledger& ledger) {
  std::set<std::string> asked;
  for (std::int64_t id = 1; const auto question = ledger.question(id); ++id) {
    asked.insert(ledger.line(question->line)->order_number);
  }
  for (const auto& [number, texts] : ordered_) {
    if (asked.contains(number)) continue;
    std::multiset<std::string> exported;
    for (const LedgerItem& item : ledger.items_of_order(number)) {
      if (item.state != ItemState::cancelled) exported.insert(item.exported);
    }
    INFO("order " << number);
    REQUIRE(exported == texts);
    ++accounted_;
  }
}

void Week::check_blanks(Ledger& ledger) {
  std::map<std::string, int> on;
  for (const LedgerSheet& sheet : ledger.sheets()) {
    for (const LedgerPlacement& placement : ledger.placements_on(sheet.number)) {
      const bool counts =
          placement.state == LedgerPlacement::State::on_sheet || placement.state == LedgerPlacement::State::engraved;
      if (counts && !placement.blank.empty()) ++on[placement.blank];
    }
  }
  for (const auto& [blank, items] : on) {
    INFO("blank " << blank);
    REQUIRE(items == 1);
  }
}

void Week::check(const std::string& what) {
  INFO("step " << done_ << ": " << what);
  const auto ledger = shop_.read_ledger();
  check_items(*ledger);
  check_ordered(*ledger);
  check_blanks(*ledger);
  REQUIRE(ledger->contradictions() == std::vector<std::string>{});
  const Result<Account> checked = shop_.check();
  if (!checked.ok()) FAIL(describe(checked.fault()));
  for (const HeldItem& held : checked->held) FAIL(held.id << ": " << describe(held.fault));
}

void Week::step() {
  if (below(3) == 0) order_something();
  if (below(12) == 0) shop_.measure(blanks_ = std::min(blanks_ + 2, 24));
  const auto bytes = [this] {
    const auto read = read_file(shop_.ledger_file());
    return read.ok() ? *read : std::string();
  };
  if (done_ == 0) {
    order_something();
    while (!read_export().ok()) order_something();  // one without rows is no export
  }
  ++done_;
  const std::string before = bytes();
  const Result<Account> account = work();
  if (!account.ok()) {
    CAPTURE(did_, describe(account.fault()));
    REQUIRE(account.fault().cause == Fault::Cause::input);
    REQUIRE((bytes() == before));  // refused: nothing has changed
  }
  check(did_ + (account.ok() ? "" : ", refused: " + describe(account.fault())));
}

}  // namespace

TEST_CASE("whatever a week brings, each item is in one state, each blank under one item, and nothing is lost") {
  const unsigned seed = Catch::rngSeed() != 0 ? Catch::rngSeed() : 1874;
  std::cout << "weeks: --rng-seed " << seed << "\n";
  std::map<std::string, std::size_t> counts;
  std::size_t steps = 0, accounted = 0;
  for (unsigned week = 0; week < 3; ++week) {
    INFO("week " << week << " of seed " << seed);
    Week one(3 * seed + week);
    for (int step = 0; step < 100; ++step, ++steps) REQUIRE_NOTHROW(one.step());
    for (const auto& [what, count] : one.counts()) counts[what] += count;
    accounted += one.accounted();
  }
  CHECK(steps == 300);
  CHECK(accounted > 300);
  for (const auto& [what, count] : counts) std::cout << what << " " << count << ", ";
  std::cout << accounted << " orders accounted for\n";
}

}  // namespace ordinatio::ledger_properties_test
