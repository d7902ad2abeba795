#include "bookkeeping/item_setting.h"

#include "bookkeeping/too_late.h"
#include "shop/ledger_access.h"
#include "shop/trial.h"

namespace ordinatio::inline bookkeeping {
namespace {

/// What is wished from now on.
Result<SettingWish> wished_now(const LedgerItem& item, const CorrectionOptions& options) {
  if (options.as_designed) return with_changes({}, options.setting);
  if (options.setting.is_plain()) {
    return Fault{"nothing is wished", item.number, "",
                 "Say how it is to be set: a design, a size, a nudge, kept lines; or as designed"};
  }
  const SettingWish before = kept_setting(item.setting);
  if (before.unread.empty()) return with_changes(before, options.setting);
  return Fault{"its setting cannot be read", item.number, "the ledger has \"" + before.unread + "\"",
               "Give all that is wished, and --as-designed with it"};
}

/// The item tried with a setting, as the day would set it.
class SettingTrial {
 public:
  SettingTrial(TrialBench& bench, Ledger& ledger, const LedgerItem& item, const std::string& date)
      : bench_(bench), trial_{item.words, item.design, item.pinned, date, bench.told(ledger, item)} {}

  /// Why it would be held as it is wished and not as it is designed; nothing where it would not, or where nobody can tell.
  MaybeFault held_for(const SettingWish& wish) {
    MaybeFault held = held_with(wish);
    if (!held || held_with({"", {}, {}, false, ""})) return std::nullopt;
    return held;
  }
  [[nodiscard]] bool on_its_piece() const { return !trial_.blank.empty(); }

 private:
  MaybeFault held_with(const SettingWish& wish) {
    trial_.setting = wish;
    const Result<Tried> tried = bench_.set(trial_);
    return tried.ok() ? tried->held : tried.fault();
  }

  TrialBench& bench_;
  Trial trial_;
};

MaybeFault check_setting_of(const Shop& shop, Ledger& ledger, const LedgerItem& item, const SettingWish& wish,
                            const LedgerCall& call, Account& account) {
  if (wish.is_plain()) return std::nullopt;
  constexpr std::size_t day_length = 10;  // of "2026-11-25T08:00:00Z"
  TrialBench bench(shop);
  const std::string ordered = item.design.empty() ? shop.default_design : item.design;
  const Result<const Design*> design = bench.design(wish.design.empty() ? ordered : wish.design);
  if (!design.ok()) return design.fault();
  if (auto fault = check_wish(**design, wish)) return fault;
  SettingTrial trial(bench, ledger, item, call.now.substr(0, day_length));
  auto held = trial.held_for(wish);
  if (!held) return std::nullopt;
  // Which measured piece it comes to lie on is chosen later, and on a larger one it may go.
  const auto pieces = bench.pieces();
  const bool piece_is_known = trial.on_its_piece() || !pieces.ok() || (*pieces)->empty();
  if (piece_is_known) return held;
  account.warnings.push_back(with_check(item.number) + " would be held on a piece as its design draws it: " +
                             describe(*held) + ". Only a piece with more room can take it");
  return std::nullopt;
}

void tell_setting_of(const LedgerItem& before, const std::string& now, Account& account) {
  account.told.push_back(named_with_words(before) +
                         (now.empty() ? " is set as its design has it" : " is set as wished: " + now) +
                         (before.setting.empty() ? "" : "; before: " + before.setting));
}

}  // namespace

MaybeFault set_item(const Shop& shop, Ledger& ledger, const CorrectionOptions& options, Account& account) {
  const auto item = item_meant(ledger, options.call, options.item, "Set");
  if (!item.ok()) return item.fault();
  const bool lies_on_sheet = item->state == ItemState::on_sheet;
  if (!is_waiting(item->state) && !lies_on_sheet) return too_late(ledger, *item);
  const Result<SettingWish> wish = wished_now(*item, options);
  if (!wish.ok()) return wish.fault();
  const std::string text = setting_text(*wish);
  if (text == item->setting) {
    account.told.push_back(named_with_words(*item) + " is set so already");
    return std::nullopt;
  }
  if (auto fault = check_setting_of(shop, ledger, *item, *wish, options.call, account)) return fault;
  if (lies_on_sheet)
    account.warnings.push_back(take_off_sheet(ledger, *ledger.placement_of(item->id), "it is set otherwise"));
  ledger.set_setting(*item, text);
  // A person's hold and an open question stay; all else is looked at anew.
  if (!waits_for_person(*item)) ledger.set_state(*item, ItemState::received);
  tell_setting_of(*item, text, account);
  return std::nullopt;
}

}  // namespace ordinatio::inline bookkeeping
