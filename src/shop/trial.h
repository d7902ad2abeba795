#pragma once

#include <map>
#include <memory>

#include "bed/bed.h"
#include "blanks/blanks.h"
#include "cleaning/cleaning.h"
#include "design/design.h"
#include "ledger/ledger.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

/// Words to be tried on a piece.
struct Trial {
  std::string words;
  std::string design;        // empty: the shop's own
  std::string blank;         // a measured piece's id; empty: the design's nominal piece
  std::string date;          // ISO 8601, for date marks
  ToldLanguage told = {};    // as `TrialBench::told` gives it
  SettingWish setting = {};  // the item's own; a design that it wishes goes before `design`
};
struct Tried {
  Inscription inscription;
  std::optional<Artwork> artwork;  // there, too, where it is held for what the beam cannot draw
  std::string design;
  Blank blank;  // that it would lie on
  MaybeFault held;
  MaybeFault no_bed;  // why no sheet can take it as things are
};

/// The workshop kept open, so that words can be tried as they are typed: they come out as a day's work would set them on that
/// piece. Not for several threads at once. What is read from its files is as it was when the bench was made.
class TrialBench {
 public:
  explicit TrialBench(const Shop& shop);
  ~TrialBench();
  TrialBench(TrialBench&&) noexcept;
  TrialBench& operator=(TrialBench&&) noexcept;

  [[nodiscard]] const Shop& shop() const;
  /// What of a text cannot be set stands in `held`. Faults: the design cannot be read, there is no such piece.
  Result<Tried> set(const Trial& trial);
  /// The same as if this text stood in the file of the design, which the trial names. Faults: it is no design.
  Result<Tried> set_by(const std::string& text, const Trial& trial);
  /// The bed on which the design's pieces lie, one without a word in each pocket. Faults: none takes them.
  Result<Sheet> bare_bed(const std::string& design);
  /// In whose forms an item of the ledger is set, as its whole file tells.
  ToldLanguage told(Ledger& ledger, const LedgerItem& item);
  /// The measured pieces, none where the workshop measures none. Faults: the file cannot be read.
  Result<const std::vector<BlankRow>*> pieces();
  /// Rows of that file that contradict themselves, once it was read.
  [[nodiscard]] const std::vector<HeldItem>& pieces_held() const;
  [[nodiscard]] std::vector<std::string> design_names() const;
  /// Of faces that an item or a design may be set in.
  [[nodiscard]] std::vector<std::string> face_names() const;
  /// The design as it is drawn.
  Result<const Design*> design(const std::string& name);
  /// A sheet of the ledger as it was made. Faults: its manifest is lost, a design is another one now.
  Result<Sheet> sheet(const LedgerSheet& sheet);
  /// The measured pieces, free or not, of about its design's size that may lie where this item lies on the sheet, by what they
  /// are: whether its words go on one is seen when it is set. Faults: as of `sheet`; it is not there.
  Result<std::vector<std::string>> suiting(const LedgerSheet& sheet, const std::string& item);

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

/// Whether nobody engraves the item without the customer's yes.
bool needs_yes(TrialBench& bench, const LedgerItem& item);

/// Which measured piece each waiting item would have on a day's sheets: item → blank. Nothing is changed by asking.
Result<std::map<std::string, std::string>> pieces_to_come(const Shop& shop, const LedgerCall& call,
                                                          const std::string& date);

}  // namespace ordinatio::inline shop
