#include "design/toml_table.h"

#include <toml++/toml.h>
#include <algorithm>
#include <cmath>

#include "base/phrase.h"

namespace ordinatio::inline design {

/// A table as it was asked for: what it is called, where it stands, and the keys that were asked of it.
struct AskedTable {
  const toml::table* node = nullptr;
  std::string name;  // "text.cap_height"; empty for the root
  toml::source_position place;
  std::vector<std::string_view> keys;
};

struct PlacedFault {
  toml::source_position place;
  Fault fault;
};

struct TomlDocument {
  std::string file_name;
  toml::table root;
  std::vector<AskedTable> tables;
  std::vector<PlacedFault> faults;

  void add(toml::source_position place, std::string what, std::string why, std::string mend) {
    faults.push_back({place, {std::move(what), where(place), std::move(why), std::move(mend)}});
  }
  [[nodiscard]] std::string where(toml::source_position place) const {
    return file_name + ":" + std::to_string(place.line) + ":" + std::to_string(place.column);
  }
  std::size_t ask(const toml::table* node, std::string name, toml::source_position place) {
    tables.push_back({node, std::move(name), place, {}});
    return tables.size() - 1;
  }
};

namespace {

std::string shown(double number) {
  if (std::isnan(number)) return "nan";
  if (std::isinf(number)) return number > 0 ? "inf" : "-inf";
  if (std::abs(number) >= 1e9) return number > 0 ? "huge" : "huge and negative";
  std::string text;
  append_number(text, number, 6);
  return text;
}

std::string listed(std::span<const std::string_view> words) {
  std::string list;
  for (const std::string_view word : words) list += (list.empty() ? "" : ", ") + std::string(word);
  return list;
}

std::string_view kind_of(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::table:
      return "a table";
    case toml::node_type::array:
      return "a list";
    case toml::node_type::string:
      return "text in quotes";
    case toml::node_type::integer:
      return "a whole number";
    case toml::node_type::floating_point:
      return "a number with decimals";
    case toml::node_type::boolean:
      return "true or false";
    default:
      return "a date or a time";
  }
}

std::string range_words(NumberRange range) {
  if (range.above_least) return "more than " + shown(range.least) + " and at most " + shown(range.most);
  return "from " + shown(range.least) + " to " + shown(range.most);
}

/// A value with all that a message about it needs.
struct Value {
  TomlDocument& document;
  const toml::node& node;
  std::string name;  // "text.leading"

  void refuse(const std::string& wanted, std::string why) const {
    document.add(node.source().begin, name + " must be " + wanted, std::move(why), "");
  }
  void refuse_kind(const std::string& wanted) const { refuse(wanted, "it is " + std::string(kind_of(node))); }
  [[nodiscard]] Value entry(const toml::node& item) const {
    return {document, item, name.starts_with("each of ") ? name : "each of " + name};
  }
};

std::optional<double> number_in(const Value& value, NumberRange range) {
  std::optional<double> number;
  if (const auto* whole = value.node.as_integer()) number = static_cast<double>(whole->get());
  if (const auto* real = value.node.as_floating_point()) number = real->get();
  if (!number) {
    value.refuse_kind("a number");
  } else if (!std::isfinite(*number) || *number < range.least || *number > range.most ||
             (range.above_least && *number == range.least)) {
    value.refuse(range_words(range), "it is " + shown(*number));
  } else {
    return number;
  }
  return std::nullopt;
}

/// Text without control characters: they draw nothing, and arrive only by escapes that nobody means.
std::optional<std::string> text_in(const Value& value) {
  const auto* text = value.node.as_string();
  if (!text) {
    value.refuse_kind("text in quotes");
    return std::nullopt;
  }
  const auto is_control = [](char c) { return (static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == 0x7f; };
  if (std::ranges::any_of(text->get(), is_control)) {
    value.refuse("plain text", "it holds a line break or another control character");
    return std::nullopt;
  }
  return text->get();
}

/// All entries of a list by `read_entry`; nothing when one of them is wrong.
template <class T, class ReadEntry>
std::optional<std::vector<T>> list_in(const Value& value, const std::string& wanted, ReadEntry read_entry) {
  const toml::array* list = value.node.as_array();
  if (!list) {
    value.refuse_kind(wanted);
    return std::nullopt;
  }
  std::vector<T> entries;
  for (const toml::node& item : *list) {
    if (auto entry = read_entry(value.entry(item))) entries.push_back(std::move(*entry));
  }
  if (entries.size() != list->size()) return std::nullopt;
  return entries;
}

/// The entries of a list of exactly `count` numbers, or nothing.
std::optional<std::vector<double>> numbers_in(const Value& value, std::size_t count, const std::string& wanted,
                                              NumberRange range) {
  auto numbers = list_in<double>(value, wanted, [range](const Value& entry) { return number_in(entry, range); });
  if (numbers && numbers->size() != count) {
    value.refuse(wanted, "its length is " + std::to_string(numbers->size()));
    return std::nullopt;
  }
  return numbers;
}

std::optional<Point> point_in(const Value& value, NumberRange range) {
  const auto numbers = numbers_in(value, 2, "[x, y]", range);
  if (!numbers) return std::nullopt;
  return Point{(*numbers)[0], (*numbers)[1]};
}

std::optional<bool> truth_in(const Value& value) {
  if (const auto* truth = value.node.as_boolean()) return truth->get();
  value.refuse_kind("true or false");
  return std::nullopt;
}

std::optional<int> whole_in(const Value& value, int least, int most) {
  if (!value.node.is_integer()) {
    value.refuse_kind("a whole number");
    return std::nullopt;
  }
  const auto number = number_in(value, {double(least), double(most)});
  if (!number) return std::nullopt;
  return static_cast<int>(*number);
}

std::optional<Bounds> box_in(const Value& value) {
  const std::string wanted = "[left, bottom, width, height]";
  const auto numbers = numbers_in(value, 4, wanted, any_distance);
  if (!numbers) return std::nullopt;
  const double left = (*numbers)[0], bottom = (*numbers)[1], width = (*numbers)[2], height = (*numbers)[3];
  if (width > 0 && height > 0) return Bounds{left, bottom, left + width, bottom + height};
  value.refuse(wanted, "its width or height is 0");
  return std::nullopt;
}

std::optional<Circle> circle_in(const Value& value) {
  const std::string wanted = "[x, y, radius]";
  const auto numbers = numbers_in(value, 3, wanted, any_place);
  if (!numbers) return std::nullopt;
  if ((*numbers)[2] > 0) return Circle{{(*numbers)[0], (*numbers)[1]}, (*numbers)[2]};
  value.refuse(wanted, "its radius is not more than 0");
  return std::nullopt;
}

/// Puts what is found into its place, if it is there and `read_value` takes it.
template <class T, class ReadValue>
bool take(T& place, const std::optional<Value>& found, ReadValue read_value) {
  if (!found) return false;
  auto read = read_value(*found);
  if (!read) return false;
  place = std::move(*read);
  return true;
}

std::string asked_name(const AskedTable& table, std::string_view key) {
  return table.name.empty() ? std::string(key) : table.name + "." + std::string(key);
}

/// The key's value, if the table has it; either way the key is known from now on.
std::optional<Value> find(TomlDocument& document, std::size_t index, std::string_view key) {
  AskedTable& table = document.tables[index];
  if (std::ranges::find(table.keys, key) == table.keys.end()) table.keys.push_back(key);
  const toml::node* node = table.node ? table.node->get(key) : nullptr;
  if (!node) return std::nullopt;
  return Value{document, *node, asked_name(table, key)};
}

/// "[shop]"; "[[text]]" where there may be several.
std::string header_of(const TomlDocument& document, const std::string& name) {
  const toml::node* node = document.root.get(name);
  const bool is_list = node != nullptr && node->is_array();
  return is_list ? "[[" + name + "]]" : "[" + name + "]";
}

/// Where a key that is not known here is known: "at the top of the file", "in [shop]"; empty: nowhere.
std::string belongs(const TomlDocument& document, const AskedTable& here, std::string_view key) {
  std::vector<std::string> places;
  for (const AskedTable& table : document.tables) {
    if (table.name == here.name || std::ranges::find(table.keys, key) == table.keys.end()) continue;
    std::string place =
        table.name.empty() ? "at the top of the file, above all [ ]" : "in " + header_of(document, table.name);
    if (std::ranges::find(places, place) == places.end()) places.push_back(std::move(place));
  }
  std::string all;
  for (const std::string& place : places) all += (all.empty() ? "" : " or ") + place;
  return all;
}

/// The keys of a table that nobody asked for.
void add_unknown_keys(std::vector<PlacedFault>& faults, const TomlDocument& document, const AskedTable& table) {
  if (!table.node) return;
  for (const auto& [key, node] : *table.node) {
    if (std::ranges::find(table.keys, key.str()) != table.keys.end()) continue;
    const auto nearest = nearest_word(key.str(), table.keys);
    const std::string owner = table.name.empty() ? "The file" : "[" + table.name + "]";
    const std::string elsewhere = belongs(document, table, key.str());
    const std::string mend = !elsewhere.empty() ? "It belongs " + elsewhere
                             : nearest          ? "The nearest known one is " + in_quotes(*nearest)
                                                : owner + " takes " + listed(table.keys);
    const auto place = key.source().begin;
    faults.push_back({place, {"unknown key " + in_quotes(key.str()), document.where(place), "", mend}});
  }
}

/// The first Fault, with the others below it, a line each.
Fault as_one(std::vector<PlacedFault> faults) {
  std::ranges::stable_sort(faults, {}, [](const PlacedFault& f) { return std::pair(f.place.line, f.place.column); });
  Fault one = faults.front().fault;
  std::string& end = !one.mend.empty() ? one.mend : !one.why.empty() ? one.why : one.what;
  if (faults.size() > 1) end += ".";
  for (std::size_t i = 1; i < std::min(faults.size(), shown_faults); ++i) end += "\n" + describe(faults[i].fault);
  if (faults.size() > shown_faults) end += "\nand " + std::to_string(faults.size() - shown_faults) + " more";
  return one;
}

Fault too_much(const std::string& file_name, std::string why) {
  return {"this is no file that a person wrote", file_name, std::move(why), "Start again from a shipped one"};
}

}  // namespace

bool TomlTable::present() const { return document_->tables[index_].node != nullptr; }

bool TomlTable::has(std::string_view key) { return find(*document_, index_, key).has_value(); }

bool TomlTable::is_number(std::string_view key) {
  const auto found = find(*document_, index_, key);
  return found && found->node.is_number();
}

bool TomlTable::read(std::string_view key, bool& value) { return take(value, find(*document_, index_, key), truth_in); }

bool TomlTable::read(std::string_view key, int& value, int least, int most) {
  return take(value, find(*document_, index_, key), [=](const Value& found) { return whole_in(found, least, most); });
}

bool TomlTable::read(std::string_view key, std::vector<int>& value, int least, int most) {
  return take(value, find(*document_, index_, key), [=](const Value& found) {
    return list_in<int>(found, "a list of whole numbers",
                        [=](const Value& entry) { return whole_in(entry, least, most); });
  });
}

bool TomlTable::read(std::string_view key, double& value, NumberRange range) {
  return take(value, find(*document_, index_, key), [=](const Value& found) { return number_in(found, range); });
}

bool TomlTable::read(std::string_view key, std::string& value) {
  return take(value, find(*document_, index_, key), text_in);
}

bool TomlTable::read(std::string_view key, std::vector<std::string>& value) {
  return take(value, find(*document_, index_, key),
              [](const Value& found) { return list_in<std::string>(found, "a list of texts in quotes", text_in); });
}

bool TomlTable::read(std::string_view key, Point& value, NumberRange range) {
  return take(value, find(*document_, index_, key), [=](const Value& found) { return point_in(found, range); });
}

bool TomlTable::read(std::string_view key, std::vector<Point>& value, NumberRange range) {
  return take(value, find(*document_, index_, key), [=](const Value& found) {
    return list_in<Point>(found, "a list of [x, y]", [=](const Value& entry) { return point_in(entry, range); });
  });
}

bool TomlTable::read(std::string_view key, std::optional<Bounds>& value) {
  return take(value, find(*document_, index_, key), box_in);
}

bool TomlTable::read(std::string_view key, std::optional<Circle>& value) {
  return take(value, find(*document_, index_, key), circle_in);
}

std::optional<std::size_t> TomlTable::read_word(std::string_view key, std::span<const std::string_view> words) {
  const auto found = find(*document_, index_, key);
  if (!found) return std::nullopt;
  const auto text = text_in(*found);
  if (!text) return std::nullopt;
  const auto at = std::ranges::find(words, std::string_view(*text));
  if (at != words.end()) return static_cast<std::size_t>(at - words.begin());
  const auto nearest = nearest_word(*text, words);
  document_->add(found->node.source().begin, found->name + " must be one of " + listed(words),
                 "it is " + in_quotes(*text), nearest ? "The nearest is " + in_quotes(*nearest) : "");
  return std::nullopt;
}

std::vector<std::string_view> TomlTable::keys() const {
  std::vector<std::string_view> keys;
  if (const toml::table* node = document_->tables[index_].node) {
    for (const auto& [key, value] : *node) keys.push_back(key.str());
  }
  return keys;
}

TomlTable TomlTable::table(std::string_view key) {
  const auto found = find(*document_, index_, key);
  const toml::table* node = found ? found->node.as_table() : nullptr;
  if (found && !node) found->refuse_kind("a table");
  const AskedTable& here = document_->tables[index_];
  const toml::source_position place = node ? node->source().begin : here.place;
  return {document_, document_->ask(node, asked_name(here, key), place)};
}

std::vector<TomlTable> TomlTable::tables(std::string_view key) {
  const auto found = find(*document_, index_, key);
  if (!found) return {};
  if (!found->node.is_array()) return {table(key)};
  std::vector<TomlTable> list;
  for (const toml::node& item : *found->node.as_array()) {
    if (const toml::table* node = item.as_table()) {
      list.push_back({document_, document_->ask(node, found->name, node->source().begin)});
    } else {
      found->entry(item).refuse_kind("a table");
    }
  }
  return list;
}

std::vector<std::pair<std::string, TomlTable>> TomlTable::named_tables() {
  std::vector<std::string_view> keys;  // the document's own: they last
  if (const toml::table* node = document_->tables[index_].node) {
    for (const auto& [key, value] : *node) {
      if (value.is_table()) keys.push_back(key.str());
    }
    const auto place = [&](std::string_view key) {
      const toml::source_position begin = node->get(key)->source().begin;
      return std::pair(begin.line, begin.column);
    };
    std::ranges::sort(keys, {}, place);
  }
  std::vector<std::pair<std::string, TomlTable>> list;
  list.reserve(keys.size());
  for (const std::string_view key : keys) list.emplace_back(key, table(key));
  return list;
}

void TomlTable::require(std::string_view key, std::string_view example) {
  if (has(key)) return;
  const AskedTable& here = document_->tables[index_];
  document_->add(here.place, asked_name(here, key) + " is missing", "", "Write, for example: " + std::string(example));
}

void TomlTable::fault(std::string_view key, std::string_view what, std::string why, std::string mend) {
  const auto found = find(*document_, index_, key);
  const AskedTable& here = document_->tables[index_];
  document_->add(found ? found->node.source().begin : here.place, asked_name(here, key) + " " + std::string(what),
                 std::move(why), std::move(mend));
}

Result<TomlFile> TomlFile::parse(std::string_view text, const std::string& file_name) {
  if (text.size() > toml_limit) return too_much(file_name, "it is larger than a MiB");
  if (std::ranges::count(text, '.') > static_cast<std::ptrdiff_t>(toml_dot_limit)) {
    return too_much(file_name, "it holds more than " + std::to_string(toml_dot_limit) + " dots");
  }
  auto document = std::make_shared<TomlDocument>();
  document->file_name = file_name;
  try {
    document->root = toml::parse(text);
  } catch (const toml::parse_error& error) {
    return Fault{"this is not TOML", document->where(error.source().begin), std::string(error.description()),
                 "Numbers take a point (5.5), words stand in quotes, lists in [ ]"};
  }
  document->ask(&document->root, "", {1, 1});
  return TomlFile(std::move(document));
}

TomlTable TomlFile::root() const { return {document_, 0}; }

bool TomlFile::faulty() const { return !document_->faults.empty(); }

MaybeFault TomlFile::fault() const {
  std::vector<PlacedFault> faults = document_->faults;
  for (const AskedTable& table : document_->tables) add_unknown_keys(faults, *document_, table);
  if (faults.empty()) return std::nullopt;
  return as_one(std::move(faults));
}

}  // namespace ordinatio::inline design
