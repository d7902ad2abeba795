#include <unicode/uloc.h>

#include "design/design_file.h"

namespace ordinatio::inline design {

bool is_language(const std::string& tag) {
  char locale[ULOC_FULLNAME_CAPACITY] = {};
  UErrorCode error = U_ZERO_ERROR;
  int32_t parsed = 0;
  uloc_forLanguageTag(tag.c_str(), locale, ULOC_FULLNAME_CAPACITY, &parsed, &error);
  if (U_FAILURE(error) || error == U_STRING_NOT_TERMINATED_WARNING) return false;
  return static_cast<std::size_t>(parsed) == tag.size() && *uloc_getISO3Language(locale) != '\0';
}

}  // namespace ordinatio::inline design
