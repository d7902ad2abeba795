// In: an item's proof: its words as typed and as engraved, what was changed, the artwork's facts or why it is held.
// Out: the passages of its pages, set in lines.
// Never: decides where a page ends; draws. Of this folder alone.
#pragma once

#include <string>
#include <vector>

#include "cleaning/cleaning.h"
#include "paper/page.h"
#include "paper/paper.h"

namespace ordinatio::inline paper {

inline constexpr int columns = 4;
/// From the start of one column to the start of the next.
inline double column_pitch(double left, double right) { return (right - left + gutter) / columns; }

/// Sets what a proof says between two margins.
class ProofText {
 public:
  ProofText(Lettering& lettering, double left, double right) : lettering_(lettering), left_(left), right_(right) {}

  /// The design, the size of the capitals, the faces, the artwork's hash: in a row, or one below the other.
  std::vector<Passage> facts(const Item& item, const Artwork& artwork);
  Passage facts_aside(double x, const Item& item, const Artwork& artwork);
  /// Words, changes.
  std::vector<Passage> of_artwork(const Item& item, const Artwork& artwork);
  /// Reason and mend, words, changes, where there is an artwork that must not be engraved.
  std::vector<Passage> of_illegible(const Item& item, const Artwork& artwork, const Fault& reason);
  /// Reason and mend, words, changes.
  std::vector<Passage> of_held(const Item& item, const Fault& reason);
  /// Who ordered it and when, and their note to the maker, as far as they are known.
  std::vector<Passage> from_order(const ProofPage& proof);
  /// Where the customer says yes: to this artwork and no other.
  Passage yes(const std::string& hash);

 private:
  Cell cell(double x, std::string_view text, double size, Colour colour);
  /// A text of several lines, wrapped; those that read from right to left are flush right.
  Stack column(double x, double width, std::string_view text, double size, Colour colour);
  void add_heading(std::vector<Passage>& passages, const std::vector<std::pair<double, std::string>>& heads);
  void add_reason(std::vector<Passage>& passages, const Item& item, const Fault& reason);
  void add_words(std::vector<Passage>& passages, const std::string& original, const std::vector<std::string>& lines,
                 const std::string& head);
  void add_notes(std::vector<Passage>& passages, const std::vector<CleaningNote>& notes,
                 const std::vector<std::string>& changes);
  template <class Lines>
  void add_numbered(std::vector<Stack>& stacks, double x, double width, const Lines& lines);

  Lettering& lettering_;
  double left_, right_;
};

}  // namespace ordinatio::inline paper
