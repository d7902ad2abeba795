// Fills sheet after sheet with items as they come. Of this folder alone.
#pragma once

#include "shop/outbox.h"

namespace ordinatio {

/// Keeps one open sheet for each size of blank; a full one is written, on all cores, as soon as a few have gathered.
/// Sheets are numbered in the order in which they were begun.
class SheetRun {
 public:
  struct Naming {
    std::string stem;  // "sheet-": the number follows
    std::string date;
    int first = 1;  // the first sheet's number
  };
  SheetRun(Workroom& workroom, Outbox& outbox, SheetFormats formats, Naming naming, unsigned workers);

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
    std::vector<Laid> items;
  };
  [[nodiscard]] const std::map<int, Written>& written() const { return written_; }

 private:
  struct OpenSheet {
    int number = 0;
    const Frame* frame = nullptr;
    std::vector<SheetItem> items;
    std::map<std::string, std::string> designs;
  };
  MaybeFault write_full();
  Result<Sheet> build(OpenSheet& open) const;

  Workroom* workroom_;
  Outbox* outbox_;
  SheetFormats formats_;
  Naming naming_;
  unsigned workers_;
  std::size_t begun_ = 0;
  std::map<std::pair<double, double>, OpenSheet> open_;  // by the blank's width and height
  std::vector<OpenSheet> full_;
  std::map<int, Written> written_;
};

SheetRun::Written account_of(const Sheet& sheet);

/// "sheet-" and 7 make "sheet-007".
std::string numbered(const std::string& stem, int number);

}  // namespace ordinatio
