#include <array>

#include "csv/csv.h"

namespace ordinatio::inline csv {
namespace {

// Enough to tell a delimiter by, and little beside the orders themselves.
constexpr std::size_t sniffed_records = 50;
constexpr std::size_t sniffed_bytes = std::size_t{64} << 10;

bool can_part(char c) {
  const bool letter_or_digit = (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
  return c == '\t' || (c > ' ' && c <= '~' && c != '"' && !letter_or_digit);
}

/// The bytes of a line `sep=;` at the head of the text with its line end, or 0.
std::size_t sep_line_length(std::string_view text) {
  constexpr std::size_t head = 4;
  if (!(text.starts_with("sep=") || text.starts_with("SEP=")) || text.size() == head || !can_part(text[head])) return 0;
  const std::string_view after = text.substr(head + 1);
  if (after.empty()) return text.size();
  if (after.starts_with("\r\n")) return head + 3;
  return after.starts_with('\n') || after.starts_with('\r') ? head + 2 : 0;
}

/// How a delimiter parts the first records: the fields of the header, and how many records have as many.
struct Parting {
  std::size_t fields = 0, alike = 0;
};

Parting part(std::string_view text, char delimiter) {
  CsvReader reader(text.substr(0, sniffed_bytes), delimiter, "");
  Parting parting;
  for (std::size_t count = 0; count < sniffed_records; ++count) {
    const auto record = reader.next();
    if (!record) break;
    if (!record->ok() && count == 0) return {};  // no header
    if (!record->ok()) continue;
    const std::size_t fields = (*record)->fields.size();
    if (parting.fields == 0) parting.fields = fields;
    if (fields == parting.fields) ++parting.alike;
  }
  return parting;
}

bool better(const Parting& a, const Parting& b) {
  if ((a.fields > 1) != (b.fields > 1)) return a.fields > 1;
  return a.alike != b.alike ? a.alike > b.alike : a.fields > b.fields;
}

}  // namespace

Delimiter sniff_delimiter(std::string_view text) {
  if (const std::size_t length = sep_line_length(text); length > 0) return {text[4], length};
  Delimiter best;
  Parting most = part(text, best.character);
  for (const char candidate : {';', '\t'}) {
    const Parting parting = part(text, candidate);
    if (!better(parting, most)) continue;
    most = parting;
    best.character = candidate;
  }
  return best;
}

}  // namespace ordinatio::inline csv
