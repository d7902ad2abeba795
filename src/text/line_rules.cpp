#include "text/line_rules.h"

#include <unicode/ubrk.h>
#include <unicode/uloc.h>
#include <unicode/utext.h>

#include <stdexcept>

#include "text/face.h"

namespace ordinatio::inline text {
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

/// One of ICU's iterators, and the text that it goes through.
struct BreakRules {
  BreakRules(UBreakIteratorType type, const std::string& locale)
      : breaks(ubrk_open(type, locale.c_str(), nullptr, 0, &status)) {
    if (U_FAILURE(status)) throw std::runtime_error("ICU has no rules for breaking lines");
  }
  std::vector<std::size_t> boundaries(std::string_view line) {
    utext_openUTF8(text.get(), line.data(), static_cast<std::int64_t>(line.size()), &status);
    ubrk_setUText(breaks.get(), text.get(), &status);
    if (U_FAILURE(status)) throw std::runtime_error("ICU could not look for places to break a line");
    std::vector<std::size_t> found;
    for (std::int32_t at = ubrk_first(breaks.get()); at != UBRK_DONE; at = ubrk_next(breaks.get()))
      found.push_back(static_cast<std::size_t>(at));
    return found;
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
  if (known == by_language_.end()) {
    known = by_language_.emplace(language, std::make_unique<BreakRules>(UBRK_LINE, locale_of(language))).first;
  }
  std::vector<std::size_t> places = known->second->boundaries(line);
  std::erase_if(places, [&](std::size_t at) { return at == 0 || at >= line.size(); });
  return places;
}

WordRules::WordRules() = default;
WordRules::~WordRules() = default;
WordRules::WordRules(WordRules&&) noexcept = default;
WordRules& WordRules::operator=(WordRules&&) noexcept = default;

std::vector<std::size_t> WordRules::edges(std::string_view line) {
  if (!rules_) rules_ = std::make_unique<BreakRules>(UBRK_WORD, "");
  return rules_->boundaries(line);
}

}  // namespace ordinatio::inline text
