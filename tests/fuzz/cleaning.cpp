// Whatever comes in, what cleaning lets through is valid UTF-8 in NFC without controls, and cleaning it again changes
// nothing.
#include <unicode/normalizer2.h>

#include <cstdlib>
#include <string>

#include "cleaning/letters.h"
#include "cleaning/two_ways.h"

using namespace ordinatio;

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (std::size_t i = 0; i < lines.size(); ++i) text += (i > 0 ? "\n" : "") + lines[i];
  return text;
}

void require_clean(const std::string& line) {
  const auto letters = read_letters(line);
  require(letters.ok());
  for (const Letter& letter : *letters)
    require(letter.character >= 0x20 && (letter.character < 0x7F || letter.character >= 0xA0));
  UErrorCode status = U_ZERO_ERROR;
  require(icu::Normalizer2::getNFCInstance(status)->isNormalizedUTF8(line, status));
}

void require_places(const Inscription& inscription) {
  for (const CleaningNote& note : inscription.notes) require(note.line >= 1 && note.column >= 1 && !note.rule.empty());
}

void require_settled(const Inscription& inscription) {
  const std::string text = joined(inscription.lines);
  // Neither entities nor a separator a second time: what they leave is meant as it stands.
  const auto again = clean_inscription(text, {"", false});
  require(again.ok() && again->lines == inscription.lines);
  for (const CleaningNote& note : again->notes) require(note.weight == CleaningNote::Weight::warning);
}

}  // namespace

/// The first byte chooses the rules.
extern "C" int LLVMFuzzerTestOneInput(const unsigned char* bytes, std::size_t size) {
  if (size == 0) return 0;
  constexpr const char* separators[] = {"", " / ", "|", "  "};
  const CleaningRules rules{separators[bytes[0] % 4], bytes[0] % 8 < 4};
  const std::string text(reinterpret_cast<const char*>(bytes) + 1, size - 1);
  const auto inscription = clean_inscription(text, rules);
  if (!inscription.ok()) {
    require(!inscription.fault().what.empty() && !inscription.fault().mend.empty());
    return 0;
  }
  require(inscription->original == text && !inscription->lines.empty());
  require(!inscription->lines.front().empty() && !inscription->lines.back().empty());
  for (const std::string& line : inscription->lines) require_clean(line);
  require_places(*inscription);
  require_settled(*inscription);
  if (const auto plain = clean_plain(text, rules)) require(clean_fully(text, rules)->lines == plain->lines);
  return 0;
}
