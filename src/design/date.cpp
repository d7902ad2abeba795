#include "design/date.h"

#include <unicode/datefmt.h>
#include <unicode/gregocal.h>

#include <charconv>
#include <memory>

namespace ordinatio::inline design {
namespace {

struct Day {
  int year, month, day;
};

/// YYYY-MM-DD, the calendar date's extended format of ISO 8601.
std::optional<Day> parse_day(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto number = [&](std::size_t at, std::size_t size) {
    int value = -1;
    const char* end = text.data() + at + size;
    return std::from_chars(text.data() + at, end, value).ptr == end ? value : -1;
  };
  const Day day{number(0, 4), number(5, 2), number(8, 2)};
  const bool leap = day.year % 4 == 0 && (day.year % 100 != 0 || day.year % 400 == 0);
  const int lengths[] = {31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  if (day.year < 1 || day.month < 1 || day.month > 12) return std::nullopt;
  if (day.day < 1 || day.day > lengths[day.month - 1]) return std::nullopt;
  return day;
}

/// The locale's long form (CLDR), reckoned in UTC so that no machine's clock shifts the day.
Result<std::string> long_form(const Day& day, const std::string& locale) {
  UErrorCode status = U_ZERO_ERROR;
  const icu::Locale place = icu::Locale::forLanguageTag(locale, status);
  icu::GregorianCalendar calendar(*icu::TimeZone::getGMT(), status);
  calendar.set(day.year, day.month - 1, day.day, 12, 0);
  const std::unique_ptr<icu::DateFormat> format(icu::DateFormat::createDateInstance(icu::DateFormat::kLong, place));
  if (U_FAILURE(status) || !format) {
    return Fault{"no locale is called \"" + locale + "\"", "", "ICU does not know it",
                 "Use a language tag such as en-GB or de-DE"};
  }
  format->adoptTimeZone(icu::TimeZone::getGMT()->clone());
  icu::UnicodeString text;
  format->format(calendar.getTime(status), text);
  std::string utf8;
  text.toUTF8String(utf8);
  return utf8;
}

}  // namespace

Result<std::string> date_line(const DatePart& part, const std::string& iso_date) {
  const auto day = parse_day(iso_date);
  if (!day) {
    return Fault{"\"" + iso_date + "\" is no date", "--date", "a date mark needs a day of the calendar",
                 "Write it as year-month-day, such as 2026-11-25"};
  }
  if (part.form == "iso") return part.before + iso_date + part.after;
  Result<std::string> text = long_form(*day, part.locale);
  if (!text.ok()) return text;
  return part.before + *text + part.after;
}

Result<std::string> number_line(const NumberPart& part, const std::string& number) {
  if (number.empty()) {
    return Fault{"no serial number is given", "--first-number", "the design has a place for one",
                 "Make stands of it and give the first with --first-number, or choose another design"};
  }
  return part.before + number + part.after;
}

}  // namespace ordinatio::inline design
