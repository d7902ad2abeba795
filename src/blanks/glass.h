// In: what a row says of one piece or pane, cell by cell, or what a design says of its pieces.
// Out: why the piece is neither cut nor engraved, as far as its own words tell.
// Never: says that a piece is safe; that is for those who are licensed to judge it.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "base/base.h"
#include "csv/csv.h"

namespace ordinatio::inline blanks {

/// A cell by its column's name. `is_own`: a column that the program does not know; its name may be what tells.
struct PieceCell {
  std::string_view column, text;
  bool is_own = false;
};

/// A Fault without a place, and the column that it is about.
struct GlassFinding {
  std::string column;
  Fault fault;
  bool is_question = false;  // nothing speaks against it but that nobody has said which glass it is
};

/// What `material` and `glass` name are the columns of that name; all cells are looked through for words of tempered,
/// toughened, laminated, wired or other safety glass, in the languages of glass_words.cpp. `glass` says annealed, tempered,
/// or none where the piece is no glass; it may be empty only where nothing else speaks of glass.
///   a word of safety glass, with "not" straight before it only where glass says annealed    held
///   material is glass, glass is empty                                                        asked: held with the question
///   material is annealed glass, glass is empty                                               as if glass said annealed
///   cells that contradict one another                                                        held
std::optional<GlassFinding> judge_glass(std::span<const PieceCell> cells);

// ---- glass_words.cpp: words ----

/// What a text says, with its letters as they are written.
struct GlassWords {
  std::string safety;        // the first words of safety glass that are not denied; empty: none
  std::string denied;        // the first that are: "not tempered"
  std::string speaks;        // the first word for glass or for what is always made of it: "mirror"; empty: none
  bool is_sure = true;       // of safety: only glass is called so. Oak may be laminated, too
  bool is_annealed = false;  // it is said to be, and not denied
  bool is_plain = false;     // of speaks: glass as such, not a word that ends so, such as "fibreglass"
};
GlassWords glass_words_in(std::string_view text);

// ---- glass_rows.cpp ----
/// Why the piece or pane of a row is neither cut nor engraved, by the words of all its cells. headers: as they stand in the
/// file; known: the columns that the program reads. any_case: a header in capitals is known, too.
MaybeFault judge_row(const CsvRecord& record, const std::vector<std::string>& headers,
                     std::span<const std::string_view> known, bool any_case, const std::string& file);

}  // namespace ordinatio::inline blanks
