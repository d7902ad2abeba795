// In: a line and its language. Out: the places where Unicode lets it be broken (UAX #14 by ICU, dictionaries for scripts
// without spaces), and the words that its dictionaries find. Never: judges whether a place reads well. Of this folder alone.
#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace ordinatio::inline text {

struct BreakRules;

/// ICU's iterators take some 20 µs to a millisecond to open: one a language, kept.
class LineRules {
 public:
  LineRules();
  ~LineRules();
  LineRules(LineRules&&) noexcept;
  LineRules& operator=(LineRules&&) noexcept;

  /// Bytes of `line` where a new line may begin, ascending; neither 0 nor the line's end. `line` is UTF-8 without line
  /// breaks; `language` as BCP 47, what ICU does not know counts as none.
  std::vector<std::size_t> places(std::string_view line, std::string_view language);

 private:
  std::map<std::string, std::unique_ptr<BreakRules>, std::less<>> by_language_;
};

/// Words by ICU's dictionaries (UAX #29, and a dictionary of Han and kana), for all languages alike.
class WordRules {
 public:
  WordRules();
  ~WordRules();
  WordRules(WordRules&&) noexcept;
  WordRules& operator=(WordRules&&) noexcept;

  /// Bytes of `line` where words begin and end, ascending, 0 and its end among them.
  std::vector<std::size_t> edges(std::string_view line);

 private:
  std::unique_ptr<BreakRules> rules_;  // opened when it is first asked for
};

}  // namespace ordinatio::inline text
