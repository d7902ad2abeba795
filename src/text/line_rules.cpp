#include "text/line_rules.h"

#include <unicode/ubrk.h>
#include <unicode/uloc.h>
#include <unicode/utext.h>

#include <stdexcept>

#include "text/face.h"

namespace ordinatio {
namespace {

/// "zh-Hant" as ICU's own "zh_Hant"; "" where it is no language tag.
std::string locale_of(std::string_view language) {
  char locale[ULOC_FULLNAME_CAPACITY];
  UErrorCode status = U_ZERO_ERROR;
  const std::int32_t length =
      uloc_forLanguageTag(std::string(language).c_str(), locale, sizeof locale, nullptr, &status);
  const bool whole = U_SUCCESS(status) && status != U_STRING_NOT_TERMINATED_WARNING;
  return whole ? std::string(locale, static_cast<std::size_t>(length)) : std::string();
}

}  // namespace

struct LineRules::Iterator {
  explicit Iterator(const std::string& locale) : breaks(ubrk_open(UBRK_LINE, locale.c_str(), nullptr, 0, &status)) {
    if (U_FAILURE(status)) throw std::runtime_error("ICU has no rules for breaking lines");
  }
  UErrorCode status = U_ZERO_ERROR;
  std::unique_ptr<UText, Destroyer<utext_close>> text{utext_openUTF8(nullptr, "", 0, &status)};
  std::unique_ptr<UBreakIterator, Destroyer<ubrk_close>> breaks;
};

LineRules::LineRules() = default;
LineRules::~LineRules() = default;
LineRules::LineRules(LineRules&&) noexcept = default;
LineRules& LineRules::operator=(LineRules&&) noexcept = default;

std::vector<std::size_t> LineRules::places(std::string_view line, std::string_view language) {
  auto known = by_language_.find(language);
  if (known == by_language_.end())
    known = by_language_.emplace(language, std::make_unique<Iterator>(locale_of(language))).first;
  Iterator& iterator = *known->second;
  utext_openUTF8(iterator.text.get(), line.data(), static_cast<std::int64_t>(line.size()), &iterator.status);
  ubrk_setUText(iterator.breaks.get(), iterator.text.get(), &iterator.status);
  if (U_FAILURE(iterator.status)) throw std::runtime_error("ICU could not look for places to break a line");
  std::vector<std::size_t> places;
  ubrk_first(iterator.breaks.get());
  for (std::int32_t at = ubrk_next(iterator.breaks.get()); at != UBRK_DONE; at = ubrk_next(iterator.breaks.get())) {
    if (static_cast<std::size_t>(at) < line.size()) places.push_back(static_cast<std::size_t>(at));
  }
  return places;
}

}  // namespace ordinatio
