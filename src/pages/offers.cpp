#include "pages/pages.h"

namespace ordinatio::inline pages {

OfferedValue offered_for(const OptionWords& option) {
  if (!option.choices.empty()) return OfferedValue::words;
  if (option.value == "FILE") return OfferedValue::file;
  return option.value == "FOLDER" ? OfferedValue::folder : OfferedValue::nothing;
}

std::string single_quoted(const std::string& text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + '\'';
}

std::string joined(const std::vector<std::string>& words, const std::string& between) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : between) + word;
  return text;
}

}  // namespace ordinatio::inline pages
