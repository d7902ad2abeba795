// What a row that says something else does to the items of its line. Of this folder alone.
#pragma once

#include "intake/intake_row.h"
#include "intake/ledger_words.h"

namespace ordinatio::inline intake {

/// Brings a line's items to what the row says. Where one of them is on a sheet, engraved, corrected by a person or
/// cancelled, the whole line is left alone unless `forced`: then it comes off its sheet, or is made again. Tells what it
/// did.
class LineChange {
 public:
  LineChange(Ledger& ledger, const IntakeRow& row, const IntakeRules& rules, bool forced,
             std::vector<std::string>& told)
      : ledger_(ledger), row_(row), rules_(rules), forced_(forced), told_(told) {}
  /// Whether nothing that is engraved is touched: at most a note or a name is another one.
  [[nodiscard]] bool is_slight(const LedgerLine& line);
  /// False where the line was left alone.
  bool apply(const LedgerLine& line);
  /// What was left alone, in words: "1042-1 is engraved".
  [[nodiscard]] const std::vector<std::string>& left() const { return left_; }
  /// Items that are not to be engraved before that is settled.
  [[nodiscard]] const std::vector<LedgerItem>& doubtful() const { return doubtful_; }

 private:
  enum class Deed { none, take, cancel, revive, leave };
  /// wanted: nothing where the row has no such item any more.
  [[nodiscard]] Deed deed_for(const LedgerItem& item, const std::optional<NewItem>& wanted) const;
  [[nodiscard]] std::string why_left(const LedgerItem& item) const;
  /// Whether what is engraved of it would be the same: a correction stands until the export itself says other words.
  [[nodiscard]] bool makes_the_same(const LedgerItem& item, const NewItem& wanted) const;
  [[nodiscard]] bool is_the_same(const std::string& text, const std::string& other) const {
    return says_the_same(text, other, rules_);
  }
  [[nodiscard]] std::vector<std::optional<NewItem>> wanted_of(const std::vector<LedgerItem>& items,
                                                              const LedgerLine& line) const;
  void tell_taken(const LedgerItem& item, const NewItem& wanted, bool stays);
  void take(const LedgerItem& item, NewItem wanted);
  void cancel(const LedgerItem& item);
  void revive(const LedgerItem& item, const NewItem& wanted);
  void take_off(const LedgerItem& item, const std::string& reason);
  void add_items(const LedgerLine& line, std::size_t from);

  Ledger& ledger_;
  const IntakeRow& row_;
  const IntakeRules& rules_;
  bool forced_;
  std::vector<std::string>& told_;
  std::vector<std::string> left_;
  std::vector<LedgerItem> doubtful_;
};

/// The line's items in the order in which a smaller quantity leaves them: where all have the same words, those that are
/// on a sheet or engraved stay longest, then those that a person corrected.
std::vector<LedgerItem> items_to_keep_first(std::vector<LedgerItem> items, const IntakeRow& row);

}  // namespace ordinatio::inline intake
