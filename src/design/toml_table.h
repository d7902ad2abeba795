// In: TOML that a person wrote.
// Out: typed values within their ranges, and Faults with file:line:column for everything that is wrong, keys
// that nobody
//      asked for included.
// Never: knows designs or workshops.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"
#include "geometry/geometry.h"

namespace ordinatio::inline design {

/// What a number may be, ends included unless said.
struct NumberRange {
  double least = 0, most = 0;
  bool above_least = false;  // the least itself is refused
};
inline constexpr double length_limit = 10'000;  // mm: a bed of ten metres; more is a slip of the pen and refused
inline constexpr NumberRange any_size{0, length_limit, true};
inline constexpr NumberRange any_distance{0, length_limit};
inline constexpr NumberRange any_place{-length_limit, length_limit};

struct Circle {
  Point centre;
  double radius = 0;
};

/// A word that a key may be, and what it stands for.
template <class Choice>
struct Word {
  std::string_view word;
  Choice choice;
};

struct TomlDocument;

/// One table of a file. Reading leaves the value as it was where the key is absent or wrong; what is wrong is
/// remembered in the file. Keys are literals: they must outlive the file.
class TomlTable {
 public:
  /// Whether the table stands in the file; all keys of one that does not are absent.
  [[nodiscard]] bool present() const;
  bool has(std::string_view key);
  /// Whether its value is a number: such a key may want a unit beside it.
  bool is_number(std::string_view key);
  /// All that stand in it, for a table whose keys are a person's own. They live as long as the file.
  [[nodiscard]] std::vector<std::string_view> keys() const;

  bool read(std::string_view key, bool& value);
  bool read(std::string_view key, int& value, int least, int most);
  bool read(std::string_view key, std::vector<int>& value, int least, int most);
  bool read(std::string_view key, double& value, NumberRange range);
  bool read(std::string_view key, std::string& value);
  bool read(std::string_view key, std::vector<std::string>& value);
  bool read(std::string_view key, Point& value, NumberRange range);               // [x, y]
  bool read(std::string_view key, std::vector<Point>& value, NumberRange range);  // [[x, y], …]
  bool read(std::string_view key, std::optional<Bounds>& value);                  // [left, bottom, width, height]
  bool read(std::string_view key, std::optional<Circle>& value);                  // [x, y, radius]

  template <class Choice, std::size_t count>
  bool read(std::string_view key, Choice& value, const Word<Choice> (&words)[count]) {
    std::string_view names[count];
    for (std::size_t i = 0; i < count; ++i) names[i] = words[i].word;
    const auto chosen = read_word(key, names);
    if (chosen) value = words[*chosen].choice;
    return chosen.has_value();
  }

  /// The table of that name; one that is not present where there is none.
  TomlTable table(std::string_view key);
  /// The tables of that name: [[key]] any number of times, or [key] once.
  std::vector<TomlTable> tables(std::string_view key);

  /// The tables in this one whatever they are called, with their names, in the file's order.
  std::vector<std::pair<std::string, TomlTable>> named_tables();

  /// A Fault where the key is absent; `example` is shown in the mend.
  void require(std::string_view key, std::string_view example);
  /// Remembers a Fault at the key's value, or at the table where the key is absent. `what` follows the key's
  /// name.
  void fault(std::string_view key, std::string_view what, std::string why, std::string mend);

 private:
  friend class TomlFile;
  TomlTable(std::shared_ptr<TomlDocument> document, std::size_t index)
      : document_(std::move(document)), index_(index) {}
  std::optional<std::size_t> read_word(std::string_view key, std::span<const std::string_view> words);

  std::shared_ptr<TomlDocument> document_;
  std::size_t index_;  // of the table in the document
};

/// A parsed file.
class TomlFile {
 public:
  /// Faults: not TOML; larger or more deeply nested than any person writes.
  static Result<TomlFile> parse(std::string_view text, const std::string& file_name);

  [[nodiscard]] TomlTable root() const;
  /// Whether anything is wrong so far.
  [[nodiscard]] bool faulty() const;
  /// All that is wrong, in the file's order, as one Fault: the first, with the others below it. Keys that no
  /// table was asked for are among them, with the nearest that was: call it after all reading.
  [[nodiscard]] MaybeFault fault() const;

 private:
  explicit TomlFile(std::shared_ptr<TomlDocument> document) : document_(std::move(document)) {}
  std::shared_ptr<TomlDocument> document_;
};

inline constexpr std::size_t toml_limit = std::size_t{1} << 20;  // bytes; nobody writes that much by hand
/// Dots in a whole file. Each may open a table inside the last (a.b.c = 1), toml++ destroys them by
/// recursion, and its own limit on depth does not count them: the stack ends somewhere above 10,000.
inline constexpr std::size_t toml_dot_limit = 5'000;
inline constexpr std::size_t shown_faults = 20;  // the rest is counted

}  // namespace ordinatio::inline design
