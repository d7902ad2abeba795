// How large the customer's words come out on a piece, told without composing the whole of it.
#pragma once

#include <memory>

#include "design/setting_record.h"
#include "fit/size_bound.h"

namespace ordinatio::inline design {

/// In the design's face, and in its sturdier one where it names one.
struct LetteringBound {
  std::vector<SizeBound> faces;
};

/// An item's words in the texts of a design, made ready once, for one piece after another. It says what it would say of
/// each piece alone, whatever came before. Design, words and typesetter must outlive it.
class ReadyWords {
 public:
  ReadyWords(const Design& design, const Words& words, Typesetter& typesetter);
  ~ReadyWords();
  ReadyWords(ReadyWords&&) noexcept;
  ReadyWords& operator=(ReadyWords&&) noexcept;

  /// Whatever piece the design is laid on. Faults hold the item on any piece.
  Result<LetteringBound> bound();
  /// mm, the smallest capitals of the inscription on the piece that the design is laid on; 0 where the item would be held,
  /// or where the design has no inscription. `records`: how the words were set there.
  double cap_height_on(const LaidDesign& laid, SettingRecords& records);
  /// How many lines of text it holds in memory.
  [[nodiscard]] std::size_t lines_kept() const;

 private:
  struct Kept;
  std::unique_ptr<Kept> kept_;
};

// ---- compose.cpp ----
/// As compose(). `records`: of these words on a piece on which the texts have the same room.
Result<Artwork> compose(const LaidDesign& design, const Words& words, Typesetter& typesetter, SettingRecords records);

// ---- lettering.cpp ----
/// Whether all texts of two designs laid on pieces have the same room.
bool have_same_room(const LaidDesign& a, const LaidDesign& b);

/// mm, the smallest capitals of the inscription on the piece that the design is laid on: no less than they truly are.
double cap_height_at_most(const LetteringBound& bound, const LaidDesign& laid);

}  // namespace ordinatio::inline design
