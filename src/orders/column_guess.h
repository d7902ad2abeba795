// In: the first rows of an export that shop.toml says nothing of.
// Out: which of its columns is likely which, and what the labels in its cells are likely for.
// Never: decides. A person sees the guess beside the rows, and says.
#pragma once

#include "orders/orders.h"

namespace ordinatio::inline orders {

/// The head of an export, as it was read.
struct ExportHead {
  std::string encoding;
  char delimiter = ',';
  std::vector<std::string> header;             // trimmed
  std::vector<std::vector<std::string>> rows;  // whole ones, as wide as the header
};
/// The header and so many rows below it; rows that are malformed or of another width are left out.
/// Faults: no header; what decode_text says.
Result<ExportHead> read_export_head(std::string_view bytes, const std::string& file, const OrderFormat& format,
                                    std::size_t rows);

/// A label that stands in many cells of a column.
struct GuessedLabel {
  std::string column;
  std::string label;
  enum class Meaning { words, note, design, other } meaning = Meaning::other;
  std::string sample;  // the first value that stands behind it
};
struct ColumnGuess {
  OrderColumns columns;              // an empty name: the export seems to have no such column
  std::vector<GuessedLabel> labels;  // of every column: any may prove to have the words
};
/// By the words of the header first, in some languages, then by what stands in the cells. designs: the workshop's.
ColumnGuess guess_columns(const ExportHead& head, const std::vector<std::string>& designs);

std::string_view name_of(GuessedLabel::Meaning meaning);

}  // namespace ordinatio::inline orders
