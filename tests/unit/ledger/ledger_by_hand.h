// A ledger in a folder that goes again, with what most tests begin with.
#pragma once

#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>

#include "ledger/database.h"
#include "ledger/ledger.h"

namespace ordinatio {

class LedgerByHand {
 public:
  LedgerByHand() { std::filesystem::create_directories(folder_); }
  ~LedgerByHand() {
    ledger_.reset();
    std::filesystem::remove_all(folder_);
  }
  LedgerByHand(const LedgerByHand&) = delete;
  LedgerByHand& operator=(const LedgerByHand&) = delete;

  [[nodiscard]] std::filesystem::path file() const { return folder_ / "workshop.ledger"; }
  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
  /// Opens it, or gives the Fault; what was open before is closed.
  MaybeFault open(const std::string& now = "2026-11-25T08:00:00Z", bool clock_is_right = false,
                  Ledger::Access access = Ledger::Access::write) {
    ledger_.reset();
    auto opened = Ledger::open({file(), now, "cause of " + now, 0.1, clock_is_right, ""}, access);
    if (!opened) return opened.fault();
    ledger_ = *std::move(opened);
    return std::nullopt;
  }
  void close() { ledger_.reset(); }
  Ledger& operator*() { return *ledger_; }
  Ledger* operator->() { return ledger_.get(); }

  /// One transaction.
  template <class Work>
  void in(EntryKind kind, Work&& work) {
    ledger_->begin(kind);
    work(*ledger_);
    ledger_->commit();
  }
  /// By another connection, as another program would.
  void sql(const std::string& script) const {
    Database other(file(), Database::Access::write, "");
    other.script(script);
  }
  [[nodiscard]] std::optional<std::string> ask(const std::string& query) const {
    return Database(file(), Database::Access::write, "").text(query);
  }
  LedgerItem item(const std::string& number) { return *ledger_->item_numbered(number); }
  LedgerPlacement placement(const std::string& number) { return *ledger_->placement_of(item(number).id); }

  /// An order of one line with so many items "Rose Cottage"; gives the line.
  std::int64_t add_order(const std::string& number, int count) {
    const std::int64_t line = ledger_->add_line({0, number, "key", false, 1, "version"});
    for (int ordinal = 1; ordinal <= count; ++ordinal) {
      ledger_->add_item({line, number, ordinal, "Rose Cottage", "", "", "", "orders.csv:2", ""});
    }
    return line;
  }
  void add_blank(const std::string& id) {
    ledger_->add_blank({id, "slate", 150, 100, "digest", LedgerBlank::State::free, "", {}});
  }
  /// The items in pockets 1, 2, … of the next sheet, each on the blank of its place.
  MaybeFault lay(const std::vector<std::string>& numbers, const std::vector<std::string>& blanks = {},
                 const std::string& hash = "hash", bool needs_approval = false) {
    const int sheet = ledger_->next_sheet_number();
    const std::string name = "sheet-00" + std::to_string(sheet);
    NewSheet planned{
        {sheet, name, LedgerSheet::Kind::day, {}, "2026-11-25", "out", false, {{name + ".svg", "sum"}}}, {}, {}};
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      planned.placements.push_back({item(numbers[i]).id, static_cast<int>(i) + 1,
                                    i < blanks.size() ? blanks[i] : std::string(), hash, needs_approval});
    }
    return ledger_->plan_sheet(planned);
  }
  /// What was told of a thing, its entries' texts alone.
  static std::vector<std::string> texts(const std::vector<StoryLine>& story) {
    std::vector<std::string> texts;
    for (const StoryLine& line : story) texts.push_back(line.text);
    return texts;
  }

 private:
  std::filesystem::path folder_ =
      std::filesystem::temp_directory_path() / ("ordinatio-ledger-" + std::to_string(::getpid()));
  std::unique_ptr<Ledger> ledger_;
};

/// 1042-1 on sheet-001 on S-1; 1042-2 engraved there on S-2, with its stand; 1042-3 waits with S-3 kept for it; 1042-4
/// spoiled with S-4; 1043-1 waits. S-5 is free, S-6 was used before there was a ledger.
inline void fill_anew(LedgerByHand& kept) {
  REQUIRE_FALSE(kept.open());
  kept.in(EntryKind::intake, [&](Ledger& ledger) {
    kept.add_order("1042", 4);
    kept.add_order("1043", 1);
    for (const char* id : {"S-1", "S-2", "S-3", "S-4", "S-5"}) kept.add_blank(id);
    ledger.add_blank({"S-6", "", 150, 100, "digest", LedgerBlank::State::used, "sold", {}});
  });
  kept.in(EntryKind::day, [&](Ledger& ledger) {
    REQUIRE_FALSE(kept.lay({"1042-1", "1042-2", "1042-4"}, {"S-1", "S-2", "S-4"}));
    ledger.mark_written(1);
  });
  kept.in(EntryKind::engraving, [&](Ledger& ledger) { ledger.mark_engraved(kept.placement("1042-2")); });
  kept.in(EntryKind::spoiling, [&](Ledger& ledger) { ledger.spoil(kept.placement("1042-4"), "it slipped"); });
  kept.in(EntryKind::correction, [&](Ledger& ledger) { REQUIRE_FALSE(ledger.pin(kept.item("1042-3"), "S-3")); });
  kept.in(EntryKind::stands, [&](Ledger& ledger) {
    const NewSheet stands{
        {2, "stands-002", LedgerSheet::Kind::stands, {}, "2026-11-25", "out", false, {{"stands-002.svg", "sum"}}},
        {},
        {{1, 41, kept.item("1042-2").id, "first lot"}, {2, 42, {}, "first lot"}}};
    REQUIRE_FALSE(ledger.plan_sheet(stands));
    ledger.mark_written(2);
  });
}

/// The same, made once and copied: a disk takes its time to write so many transactions down.
inline void fill(LedgerByHand& kept) {
  static std::string made;
  if (made.empty()) {
    fill_anew(kept);
    kept.close();
    made = *read_file(kept.file());
  }
  std::ofstream(kept.file(), std::ios::binary) << made;
  REQUIRE_FALSE(kept.open());
}

}  // namespace ordinatio
