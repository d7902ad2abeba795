// In: letters of a text. Out: where something that a shop or a spreadsheet left in it stands for a line end, and what of
// such things must not be engraved: markup, escapes, a formula instead of its result.
// Never: guesses at words; takes `<3` for markup or `= love` for a formula. Of this folder alone.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "cleaning/letters.h"

namespace ordinatio::inline cleaning {

/// Letters from `index` on that stand for one line end, a true one behind them included. 0: none.
struct RemnantBreak {
  std::size_t length = 0;
  bool certain = true;  // `\n` may be part of words: `Bar\nook`
};
/// `<br>` in its spellings (HTML Standard, 4.5.27), `\n` and `\r\n` as JSON (RFC 8259, 7) has them, `_x000D_` and
/// `_x000A_` (ECMA-376-1, 22.4.2.4).
RemnantBreak remnant_break(std::span<const Letter> letters, std::size_t index);

/// Takes off what guards a cell against a spreadsheet: `="Anna"` is Anna.
void drop_guard(Letters& letters, Findings& findings);

/// The first tag, escape or a spreadsheet's error (`#NAME?`) in a cleaned line.
std::optional<Objection> object_to_remnants(std::span<const Letter> line);
/// A formula instead of its result, at the head of the first line: `=CONCAT(A1)`, `=B2`.
std::optional<Objection> object_to_formula(std::span<const Letter> first_line);

/// Whether there may be such a thing in printable ASCII; said of some texts that have none.
bool may_have_remnants(std::string_view text);

}  // namespace ordinatio::inline cleaning
