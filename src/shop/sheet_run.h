// Fills sheet after sheet with items as they come. Of this folder alone.
#pragma once

#include "base/account.h"
#include "shop/outbox.h"

namespace ordinatio::inline shop {

/// Keeps one open sheet for each setting of the machine: board and pockets, material, side, thickness. A full one is
/// written, on all cores, as soon as a few have gathered. Sheets are numbered in the order in which they were begun.
class SheetRun {
 public:
  struct Naming {
    std::string stem;  // "sheet-": the number follows
    std::string date;
    int first = 1;  // the first sheet's number
  };
  /// Without an outbox no file is written, and the sheets are kept to be looked at.
  SheetRun(const Workroom& workroom, Outbox* outbox, SheetFormats formats, Naming naming, unsigned workers);

  /// Tells what will come, before it comes: pieces whose thickness is known are parted into lots, so that no sheet's
  /// differ by more than the machine allows and the sheets are as few as can be. What is expected need not come.
  struct Coming {
    std::string item;  // its number
    const Station* station = nullptr;
    const Blank* blank = nullptr;
  };
  void expect(const std::vector<Coming>& items);
  /// Faults: none of the item's own. Throws std::logic_error where it was not expected and its thickness is known, or where
  /// no bed takes it: bugs of the caller.
  MaybeFault add(const Station& station, SheetItem item);
  /// Writes what is still open.
  MaybeFault finish();
  [[nodiscard]] std::size_t sheets() const { return begun_; }
  /// What was written, by the sheets' numbers.
  struct Laid {
    std::string item;
    int pocket = 0;
    std::string blank;  // its id; empty: a nominal one
    std::string hash;   // of the artwork
  };
  struct Written {
    std::string name;
    std::string setting;  // of the machine, in words; empty: nothing to say
    std::vector<Laid> items;
    std::optional<SheetTime> time = {};
  };
  [[nodiscard]] const std::map<int, Written>& written() const { return written_; }
  /// Those that no outbox took.
  std::vector<Sheet> take_kept() { return std::move(kept_); }

 private:
  struct OpenSheet {
    int number = 0;
    Frame frame;  // its pockets turned as the items in them lie
    std::vector<SheetItem> items;
    std::map<std::string, std::string> designs;
  };
  /// What all of a sheet's items have in common.
  struct Load {
    std::size_t pockets = 0;  // the same number for the same pockets of the same board
    std::string material;
    bool from_behind = false;
    std::size_t lot = 0;  // 0: of no known thickness
    friend auto operator<=>(const Load&, const Load&) = default;
  };
  Load load_of(const Frame& bed, const Design& design, const Blank& blank);
  MaybeFault write_full();
  Result<Sheet> build(OpenSheet& open) const;

  const Workroom* workroom_;
  Outbox* outbox_;
  SheetFormats formats_;
  Naming naming_;
  unsigned workers_;
  std::size_t begun_ = 0;
  std::vector<const Frame*> beds_;           // no two with the same pockets of the same board
  std::map<std::string, std::size_t> lots_;  // by item, of those whose thickness is known; from 1
  std::map<Load, OpenSheet> open_;
  std::vector<OpenSheet> full_;
  std::map<int, Written> written_;
  std::vector<Sheet> kept_;
};

SheetRun::Written account_of(const Sheet& sheet);

/// Says for each sheet, neighbours that are alike together, what the machine is to be set to.
void tell_settings(Account& account, const std::map<int, SheetRun::Written>& sheets);
void tell_setting(Account& account, const Sheet& sheet);
/// How long they take, where that is known.
void tell_times(Account& account, const std::map<int, SheetRun::Written>& sheets);

/// "sheet-" and 7 make "sheet-007".
std::string numbered(const std::string& stem, int number);

}  // namespace ordinatio::inline shop
