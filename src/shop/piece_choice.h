// Which item goes on which measured piece. Of this folder alone.
#pragma once

#include <deque>

#include "base/account.h"
#include "bed/assignment.h"
#include "design/lettering.h"
#include "shop/piece_lie.h"

namespace ordinatio::inline shop {

/// An item with the design as it comes out on its piece, or the reason why it has none.
struct PlacedItem {
  std::size_t order = 0;  // of the orders
  int ordinal = 1;
  const LaidDesign* laid = nullptr;
  const BlankRow* piece = nullptr;
  MaybeFault held;
  SettingRecords records = {};              // of its words on its piece
  const LaidDesign* without_bed = nullptr;  // it is held because it fits no pocket; its proof is of this
};

/// Lays designs on the free pieces and shares the pieces out, so that the smallest lettering is as large as it can be,
/// then all of it together. Designs must have been opened as stations.
class PieceChoice {
 public:
  PieceChoice(const Workroom& workroom, const Blanks& blanks, std::vector<Typesetter>& typesetters, std::string date);

  /// No piece is saved for later: every item is as large as it can be.
  void save_none() { spare_ = BlankUse::Spare::none; }
  /// Pieces that only the item of that number may have: blank → item.
  void keep_for(std::map<std::string, std::string> items) { kept_for_ = std::move(items); }
  /// Every item of the orders in their order. Notes say what was gained over taking pieces as they come.
  std::vector<PlacedItem> choose(const std::vector<Order>& orders, std::vector<std::string>& notes);
  /// How many fits that took.
  [[nodiscard]] std::size_t sizes_asked() const { return asked_; }

 private:
  /// What is known of an order before its items have pieces.
  struct Wanting {
    const Order* order = nullptr;
    const Station* station = nullptr;
    Words words;
    LetteringBound bound;
    MaybeFault held;                // on any piece
    std::vector<std::size_t> only;  // of a long text: the pieces that are tried for it; empty: all
  };
  /// The words of an order's items made ready on one core; where it holds too many already, in `spare`.
  ReadyWords& ready_words(std::size_t order, unsigned worker, std::optional<ReadyWords>& spare);
  Wanting want(const Order& order);
  void bound(std::size_t order, unsigned worker);
  void lay_designs(const std::vector<Order>& orders);
  void narrow_long_texts();
  [[nodiscard]] const std::vector<std::optional<LaidDesign>>& laid(const Wanting& wanting) const;
  [[nodiscard]] bool suits(const Wanting& wanting, int ordinal, std::size_t piece) const;
  [[nodiscard]] AssignmentQuestion question();
  std::vector<double> sizes_of(std::span<const ItemOnPlace> pairs);
  [[nodiscard]] SettingRecords records_for(std::size_t order, std::size_t piece) const;
  void note_gain(const Assignment& best, PairSizes& sizes, std::vector<std::string>& notes) const;
  Fault why_none(const Wanting& wanting, int ordinal);
  MaybeFault fits_no_pocket(const Wanting& wanting, PlacedItem& item);
  [[nodiscard]] std::vector<std::size_t> least_full_first() const;

  const Workroom* workroom_;
  std::vector<const BlankRow*> pieces_;  // free ones
  std::vector<std::size_t> piece_kinds_;
  std::vector<Typesetter>* typesetters_;
  std::string date_;
  std::map<std::string, std::string> kept_for_;
  BlankUse::Spare spare_;
  std::map<std::string, std::vector<std::optional<LaidDesign>>> laid_;  // by design; on each piece, where it goes there
  std::map<std::string, std::vector<bool>> only_named_;   // by design: pieces for those alone that name them
  std::deque<LaidDesign> without_bed_;                    // laid on pieces that fit no pocket
  std::vector<Wanting> wanting_;                          // by order
  std::vector<std::map<std::size_t, ReadyWords>> ready_;  // of each core, by order; of wanting_
  std::vector<PlacedItem> items_;                         // that may have a piece
  /// How an order's words were set on a piece, where their size was asked for.
  struct TriedPiece {
    std::size_t piece = 0;
    SettingRecords records;
  };
  std::map<std::pair<std::size_t, std::size_t>, TriedPiece> tried_;  // by order and kind of piece
  std::size_t asked_ = 0;
};

/// The measured pieces that items may have, and for whom some of them are kept.
struct FreePieces {
  Blanks blanks;
  std::map<std::string, std::string> reserved;  // blank → item's number
};

/// The measured pieces, where `file` or the workshop names them; what is wrong with some of them goes into the account.
Result<std::optional<Blanks>> read_pieces(Workroom& workroom, const std::filesystem::path& file, Account& account);
/// Composes the items that have a piece, one result each in their order; those that have none keep their reason.
std::vector<SetOrder> set_placed(Composer& composer, const Workroom& workroom, const std::vector<Order>& orders,
                                 std::span<const PlacedItem> items);
/// Without measured pieces an order that asks for one cannot be served: moves it to what is held.
void hold_wishes(std::vector<Order>& orders, std::vector<HeldItem>& held);

}  // namespace ordinatio::inline shop
