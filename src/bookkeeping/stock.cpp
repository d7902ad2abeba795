#include <algorithm>
#include <cmath>
#include <set>

#include "base/account.h"
#include "base/phrase.h"
#include "base/share.h"
#include "bookkeeping/bookkeeping.h"
#include "shop/ledger_access.h"
#include "shop/ledger_pieces.h"
#include "shop/transaction.h"

namespace ordinatio::inline bookkeeping {
namespace {

/// Designs that go on the same pieces, and the pieces that go with them.
struct Kind {
  std::string name;  // "150 × 100 mm, slate"
  const Station* station = nullptr;
  std::size_t free = 0, reserved = 0, kept = 0, used = 0, spoiled = 0;  // kept: reserved for items that wait
  std::size_t waiting = 0, held = 0;                                    // items
};

std::string kind_name(const Design& design) {
  return mm_text(design.width) + " × " + mm_text(design.height) +
         (design.material.empty() ? "" : ", " + design.material);
}

std::string percent(double share) {
  std::string text;
  append_number(text, 100 * share, 1);
  return text + " %";
}

class Stock {
 public:
  Stock(const Shop& shop, Ledger& ledger, Account& account)
      : shop_(shop), ledger_(ledger), account_(account), workroom_(shop) {}
  MaybeFault run();

 private:
  MaybeFault count_items();
  MaybeFault count_pieces();
  std::size_t kind_of_design(const Station& station);
  void tell(const Kind& kind, const ShareInterval& lost, double share);
  void tell_spoilage(const ShareInterval& lost);

  const Shop& shop_;
  Ledger& ledger_;
  Account& account_;
  Workroom workroom_;
  std::vector<Kind> kinds_;
  bool measured_ = false;
};

std::size_t Stock::kind_of_design(const Station& station) {
  const std::string name = kind_name(station.design);
  const auto known = std::ranges::find(kinds_, name, &Kind::name);
  if (known != kinds_.end()) return static_cast<std::size_t>(known - kinds_.begin());
  kinds_.push_back({name, &station});
  return kinds_.size() - 1;
}

MaybeFault Stock::count_items() {
  const Result<const Station*> usual = workroom_.station(shop_.default_design);
  if (!usual.ok()) return usual.fault();
  kind_of_design(**usual);
  for (const LedgerItem& item : ledger_.waiting_items()) {
    const Order order = order_of(item);
    const std::string design = workroom_.design_of(order);
    if (!workroom_.has_design(design)) continue;  // the day holds it, with the reason
    const Result<const Station*> station = workroom_.station(design);
    if (!station.ok()) return station.fault();
    Kind& kind = kinds_[kind_of_design(**station)];
    ++kind.waiting;
    if (item.state == ItemState::held) ++kind.held;
  }
  return std::nullopt;
}

MaybeFault Stock::count_pieces() {
  Result<std::optional<Blanks>> read = read_pieces(workroom_, {}, account_);
  if (!read.ok()) return read.fault();
  measured_ = read->has_value();
  std::map<std::string, const BlankRow*> rows;
  if (measured_) {
    for (const BlankRow& row : (*read)->rows) rows.emplace(row.blank.id, &row);
  }
  std::map<std::string, LedgerBlank::State> states;
  std::set<std::string> kept;
  for (const LedgerBlank& blank : ledger_.blanks()) {
    states.emplace(blank.id, blank.state);
    const bool is_reserved = blank.state == LedgerBlank::State::reserved;
    if (is_reserved && is_waiting(ledger_.item(*blank.item)->state)) kept.insert(blank.id);
  }
  for (const auto& [id, row] : rows) {  // those that no day has seen yet
    states.emplace(id, row->used.empty() ? LedgerBlank::State::free : LedgerBlank::State::used);
  }
  std::size_t odd = 0, gone = 0;
  for (const auto& [id, state] : states) {
    const auto row = rows.find(id);
    if (row == rows.end()) {
      gone += state == LedgerBlank::State::free ? 1 : 0;
      continue;
    }
    const auto takes = [&](const Kind& kind) { return as_wanted(*row->second, *kind.station).has_value(); };
    const auto kind = std::ranges::find_if(kinds_, takes);
    if (kind == kinds_.end()) {
      odd += state == LedgerBlank::State::free ? 1 : 0;
      continue;
    }
    std::size_t* counts[] = {&kind->free, &kind->reserved, &kind->used, &kind->spoiled};
    ++*counts[static_cast<int>(state)];
    if (kept.contains(id)) ++kind->kept;
  }
  if (odd > 0) account_.told.push_back("Free, and of no kind that a design waits for: " + std::to_string(odd));
  if (gone > 0) {
    account_.warnings.push_back(std::to_string(gone) +
                                " free pieces of the ledger are no longer in the blanks' file: they are not used");
  }
  return std::nullopt;
}

void Stock::tell_spoilage(const ShareInterval& lost) {
  const auto [good, spoiled] = ledger_.makings();
  if (good + spoiled == 0) {
    account_.told.emplace_back("Nothing has been engraved yet: how much is spoiled is not known");
    return;
  }
  account_.told.push_back("Spoiled so far: " + std::to_string(spoiled) + " of " + std::to_string(good + spoiled) +
                          ", " + percent(static_cast<double>(spoiled) / static_cast<double>(good + spoiled)) +
                          "; with 95 % confidence between " + percent(lost.low) + " and " + percent(lost.high) +
                          " (Wilson)");
}

void Stock::tell(const Kind& kind, const ShareInterval& lost, double share) {
  const auto whole = [](double value) { return std::to_string(static_cast<long>(std::floor(value + 1e-9))); };
  const auto left = static_cast<double>(kind.free);
  std::string line = kind.name + ": " + counted(kind.waiting, "item waits", "items wait") +
                     (kind.held > 0 ? " (" + std::to_string(kind.held) + " held)" : "");
  // One that fails of one that was made says nothing of the next.
  const bool enough = share < 1 && whole(left * (1 - share)) != "0" && lost.high - lost.low < 1;
  if (measured_) {
    line += "; pieces: " + std::to_string(kind.free) + " free, " + std::to_string(kind.reserved) + " reserved, " +
            std::to_string(kind.used) + " used, " + std::to_string(kind.spoiled) + " spoiled";
    if (kind.free > 0 && enough) {
      line += "; of the free ones expect " + whole(left * (1 - share)) + " good plaques, between " +
              whole(left * (1 - lost.high)) + " and " + whole(left * (1 - lost.low));
    } else if (kind.free > 0) {
      line += "; how many good plaques come of the free ones: too few to tell";
    }
  }
  const auto prepare = to_prepare(static_cast<int>(kind.waiting), share);
  const auto at_worst = to_prepare(static_cast<int>(kind.waiting), lost.high);
  if (kind.waiting > 0 && prepare) {
    line += "; to make all that wait, have " + std::to_string(*prepare) + " pieces ready" +
            (at_worst && at_worst != prepare ? ", at worst " + std::to_string(*at_worst) : "");
  }
  account_.told.push_back(line);
  if (measured_ && kind.waiting > kind.free + kind.kept) {
    account_.warnings.push_back("more is sold than there is: " + kind.name + ", " + std::to_string(kind.waiting) +
                                " items and " + std::to_string(kind.free + kind.kept) + " pieces for them");
  }
}

MaybeFault Stock::run() {
  if (auto fault = count_items()) return fault;
  if (auto fault = count_pieces()) return fault;
  const auto [good, spoiled] = ledger_.makings();
  const ShareInterval lost = wilson_interval(spoiled, good + spoiled);
  const double share = good + spoiled == 0 ? 0 : static_cast<double>(spoiled) / static_cast<double>(good + spoiled);
  for (const Kind& kind : kinds_) tell(kind, lost, share);
  if (!measured_) account_.told.emplace_back("Pieces are not measured: how many are left is not known");
  tell_spoilage(lost);
  return std::nullopt;
}

}  // namespace

Result<Account> run_stock(const Shop& shop, const StockOptions& options) {
  return from_ledger(shop, options.call,
                     [&](Ledger& ledger, Account& account) { return Stock(shop, ledger, account).run(); });
}

}  // namespace ordinatio::inline bookkeeping
