// In: an options cell, such as `Wording: Anna, Wood: oak`, and the labels that the shop's export uses.
// Out: the texts, notes and designs behind them, or a Fault without a place, which whoever knows row and column adds.
// Never: parts a value at a comma or colon of its own; lets words go that no label claims.
#pragma once

#include <map>

#include "orders/orders.h"

namespace ordinatio::inline orders {

/// What two spellings of a label, or of a status, have in common: entities decoded, letters in small ones (Unicode's
/// simple case folding), spaces of any kind and number as one, none at the ends.
std::u32string label_key(std::string_view label);

/// What looks like a label in a cell: up to four words and perhaps a number before a colon.
struct SeemingLabel {
  std::u32string key;                 // without the number
  std::string label;                  // as it stands there
  bool begins = false, hard = false;  // at the cell's start; behind a bar or a semicolon
};
/// In the cell's order, at its start and behind what parts options. Capitals do not count.
std::vector<SeemingLabel> seeming_labels(std::string_view cell);

struct Options {
  std::vector<std::string> texts;  // by their labels' numbers, else as they come; none empty, at least one
  std::vector<std::string> notes, designs;
  std::vector<std::pair<std::u32string, std::string>> choices;  // a label's key, and the words behind it
  bool open_ended = false;                                      // a text ends with what may part options: `Anna;`
};

/// Where a label may begin, and where what stands before it ends, the separator between them left out.
struct SegmentStart {
  std::size_t at = 0, before = 0;
  bool hard = false;  // behind a bar or a semicolon
};

class OptionsReader {
 public:
  /// choices: labels behind which a design is chosen.
  explicit OptionsReader(const OptionLabels& labels, const std::vector<std::string>& choices = {});
  /// Faults: no label, words before the first, something that looks like a label and is none, no text, or a text that
  /// is empty or numbered twice.
  [[nodiscard]] Result<Options> read(std::string_view cell) const;

 private:
  enum class Kind { text, note, design, choice, other, word };
  /// A label in a cell, and its value.
  struct Entry {
    Kind kind = Kind::other;
    std::u32string key;                 // of the label that it is, without a number
    std::string label;                  // as it stands there
    std::optional<std::size_t> number;  // of `Text 2`
    std::size_t begin = 0, end = 0;     // of the value
  };
  [[nodiscard]] std::optional<Entry> label_at(std::string_view cell, std::size_t at) const;
  [[nodiscard]] Result<std::vector<Entry>> find_entries(std::string_view cell) const;
  static Fault unknown_label(std::string_view label);

  std::map<std::u32string, Kind> kinds_;
  std::size_t longest_ = 0;  // characters
  std::string first_text_;   // a label of the text, for messages
};

}  // namespace ordinatio::inline orders
