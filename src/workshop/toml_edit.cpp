#include "workshop/toml_edit.h"

#include <toml++/toml.h>

#include <algorithm>
#include <optional>
#include <vector>

#include "design/toml_table.h"

namespace ordinatio::inline workshop {
namespace {

/// Where something stands in a text, in bytes.
struct Span {
  std::size_t begin = 0, end = 0;
};

/// toml++ counts lines and characters, from 1.
std::size_t byte_at(std::string_view text, const toml::source_position& place) {
  std::size_t at = 0;
  for (toml::source_index line = 1; line < place.line && at < text.size(); ++line) at = text.find('\n', at) + 1;
  const auto continues = [&](std::size_t i) {
    return i < text.size() && (static_cast<unsigned char>(text[i]) & 0xC0U) == 0x80U;
  };
  for (toml::source_index column = 1; column < place.column && at < text.size(); ++column) {
    ++at;
    while (continues(at)) ++at;
  }
  return at;
}

std::optional<toml::table> parsed(std::string_view text) {
  if (text.size() > toml_limit || std::ranges::count(text, '.') > static_cast<std::ptrdiff_t>(toml_dot_limit))
    return std::nullopt;  // what the reader refuses unread
  try {
    return toml::parse(text);
  } catch (const toml::parse_error&) {
    return std::nullopt;
  }
}

/// table: as in TomlEdit.
toml::table* table_in(toml::table& whole, const std::string& table) {
  return table.empty() ? &whole : whole.at_path(table).as_table();
}

std::optional<Span> value_of(std::string_view text, const std::string& table, const std::string& key) {
  std::optional<toml::table> whole = parsed(text);
  const toml::table* const around = whole ? table_in(*whole, table) : nullptr;
  const toml::node* const node = around != nullptr ? around->get(key) : nullptr;
  if (node == nullptr) return std::nullopt;
  const toml::source_region& source = node->source();
  return Span{byte_at(text, source.begin), byte_at(text, source.end)};
}

/// Tables that hold nothing are as good as none, but for those that others of their name come after.
void take_out_empty(toml::table& table) {
  for (auto at = table.begin(); at != table.end();) {
    toml::table* const inner = at->second.as_table();
    toml::array* const list = at->second.as_array();
    bool is_empty = false;
    if (inner != nullptr) {
      take_out_empty(*inner);
      is_empty = inner->empty();
    } else if (list != nullptr && list->is_array_of_tables()) {
      for (toml::node& one : *list) take_out_empty(*one.as_table());
      while (!list->empty() && list->back().as_table()->empty()) list->pop_back();
      is_empty = list->empty();
    }
    at = is_empty ? table.erase(at) : std::next(at);
  }
}

/// Whether both texts say the same but for that key.
bool is_same_besides(std::string_view before, std::string_view after, const TomlEdit& edit) {
  std::optional<toml::table> old = parsed(before), now = parsed(after);
  if (!old || !now) return false;
  for (toml::table* const whole : {&*old, &*now}) {
    if (toml::table* const table = table_in(*whole, edit.table)) table->erase(edit.key);
    take_out_empty(*whole);
  }
  return *old == *now;
}

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size() - 1);
    lines.emplace_back(text.substr(at, end + 1 - at));
    at = end + 1;
  }
  if (!lines.empty() && !lines.back().ends_with('\n')) lines.back() += '\n';
  return lines;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line;
  return text;
}

/// A line without the number sign that makes a comment of it; nothing where it is none.
std::optional<std::string> uncommented(const std::string& line) {
  if (!line.starts_with('#')) return std::nullopt;
  const std::size_t begin = line.find_first_not_of("# ");
  return begin == std::string::npos ? std::nullopt : std::optional(line.substr(begin));
}

/// "text[1]" is the second of its name.
struct TableName {
  std::string name;
  std::optional<std::size_t> place;
};

TableName parted(const std::string& table) {
  const std::size_t at = table.rfind('[');
  if (at == std::string::npos || !table.ends_with(']')) return {table, std::nullopt};
  const std::optional<double> place = parse_number(table.substr(at + 1, table.size() - at - 2));
  return {table.substr(0, at), static_cast<std::size_t>(place.value_or(0))};
}

std::string heading_of(const TableName& table) {
  return table.place ? "[[" + table.name + "]]" : "[" + table.name + "]";
}
/// Of any table, also one that is commented out.
bool is_heading(const std::string& line) {
  return line.starts_with('[') || uncommented(line).value_or("").starts_with('[');
}

/// The line that sets the key, with the value in the place of the one that it had, and the comment behind it.
std::optional<std::string> with_value(const std::string& line, const TomlEdit& edit) {
  const std::optional<Span> span = value_of(line, "", edit.key);
  if (!span) return std::nullopt;
  return line.substr(0, span->begin) + edit.value + line.substr(span->end);
}

/// In lines [from, to) the place of a comment that shows the key, else below the last that sets one.
void put_into(std::vector<std::string>& lines, std::size_t from, std::size_t to, const TomlEdit& edit) {
  std::size_t last = from;
  for (std::size_t i = from; i < to; ++i) {
    if (const auto shown = uncommented(lines[i])) {
      if (auto line = with_value(*shown, edit)) {
        lines[i] = *std::move(line);
        return;
      }
    } else if (lines[i].find_first_not_of(" \t\r\n") != std::string::npos) {
      last = i + 1;
    }
  }
  lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(last), edit.key + " = " + edit.value + "\n");
}

std::size_t end_of_table(const std::vector<std::string>& lines, std::size_t heading) {
  std::size_t end = heading + 1;
  while (end < lines.size() && !is_heading(lines[end])) ++end;
  return end;
}

/// Where the table begins, in a comment or not: of those of one name the one in its place.
std::optional<std::size_t> heading_line(std::vector<std::string>& lines, const TableName& table) {
  const std::string heading = heading_of(table);
  std::size_t before = 0;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (lines[i].starts_with(heading) && (!table.place || before++ == *table.place)) return i;
  }
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::optional<std::string> shown = uncommented(lines[i]);
    if (!shown || !shown->starts_with(heading)) continue;
    lines[i] = *shown;
    return i;
  }
  return std::nullopt;
}

/// A key that does not stand in the text yet.
std::string added(std::string_view text, const TomlEdit& edit) {
  std::vector<std::string> lines = lines_of(text);
  if (edit.table.empty()) {
    std::size_t end = 0;
    while (end < lines.size() && !is_heading(lines[end])) ++end;
    put_into(lines, 0, end, edit);
    return joined(lines);
  }
  const TableName table = parted(edit.table);
  if (const auto heading = heading_line(lines, table)) {
    put_into(lines, *heading + 1, end_of_table(lines, *heading), edit);
    return joined(lines);
  }
  return joined(lines) + "\n" + heading_of(table) + "\n" + edit.key + " = " + edit.value + "\n";
}

/// `{ min = 3, max = 25 }`, by its braces; nothing where the table stands below a heading of its own.
std::optional<Span> braces_of(std::string_view text, const std::string& table) {
  std::optional<toml::table> whole = parsed(text);
  const toml::table* const node = whole && !table.empty() ? table_in(*whole, table) : nullptr;
  if (node == nullptr || !node->is_inline()) return std::nullopt;
  return Span{byte_at(text, node->source().begin), byte_at(text, node->source().end)};
}

std::string added_in_braces(std::string text, const Span& braces, const TomlEdit& edit) {
  const std::size_t last = text.find_last_not_of(" \t", braces.end - 2);
  const bool is_first = last == braces.begin;
  return text.insert(last + 1, (is_first ? " " : ", ") + edit.key + " = " + edit.value + (is_first ? " " : ""));
}

/// What stands in braces has no line that could become a comment: the key goes, with one of the commas around it.
std::string taken_from_braces(std::string text, const Span& braces, const TomlEdit& edit) {
  const Span value = *value_of(text, edit.table, edit.key);
  const std::optional<toml::table> whole = parsed(text);
  toml::table copy = *whole;
  const toml::table& table = *table_in(copy, edit.table);
  const std::size_t key = byte_at(text, table.find(edit.key)->first.source().begin);
  const std::size_t comma = text.find_first_not_of(" \t", value.end);
  if (comma < braces.end && text[comma] == ',') return text.erase(key, text.find_first_not_of(" \t", comma + 1) - key);
  const std::size_t before = text.find_last_not_of(" \t", key - 1);
  if (text[before] == ',') return text.erase(before, value.end - before);
  return text.replace(braces.begin, braces.end - braces.begin, "{}");
}

/// The text without the key.
std::string taken_out(std::string text, const TomlEdit& edit) {
  const std::optional<Span> value = value_of(text, edit.table, edit.key);
  if (!value) return text;
  if (const auto braces = braces_of(text, edit.table)) return taken_from_braces(std::move(text), *braces, edit);
  return text.insert(text.rfind('\n', value->begin) + 1, "# ");  // of npos, 0: the first line
}

/// The text with the key at its value.
std::string put_in(std::string text, const TomlEdit& edit) {
  if (const auto value = value_of(text, edit.table, edit.key))
    return text.replace(value->begin, value->end - value->begin, edit.value);
  if (const auto braces = braces_of(text, edit.table)) return added_in_braces(std::move(text), *braces, edit);
  return added(text, edit);
}

bool is_value(const std::string& value) {
  const std::optional<toml::table> alone = parsed("x = " + value);
  return alone && alone->size() == 1 && value.find('\n') == std::string::npos;
}

/// Whether the key now has that very value.
bool has_value(std::string_view text, const TomlEdit& edit) {
  const std::optional<Span> span = value_of(text, edit.table, edit.key);
  return span && text.substr(span->begin, span->end - span->begin) == edit.value;
}

Fault by_hand(const TomlEdit& edit, const std::string& where) {
  return {"the value of " + edit.key + " cannot be written", where, "[" + edit.table + "], " + edit.value,
          "Write it into the file by hand"};
}

}  // namespace

std::string toml_text(std::string_view text) {
  static constexpr std::string_view digits = "0123456789ABCDEF";
  std::string quoted = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      quoted += {'\\', c};
    } else if (byte < 0x20 || byte == 0x7F) {
      quoted += {'\\', 'u', '0', '0', digits[byte >> 4U], digits[byte & 15U]};
    } else {
      quoted += c;
    }
  }
  return quoted + "\"";
}

Result<std::string> edited_toml(std::string_view text, std::span<const TomlEdit> edits, const std::string& where) {
  std::string edited(text);
  for (const TomlEdit& edit : edits) {
    if (!parsed(edited)) return by_hand(edit, where);
    if (!edit.value.empty() && !is_value(edit.value)) return by_hand(edit, where);
    const std::string before = edited;
    edited = edit.value.empty() ? taken_out(std::move(edited), edit) : put_in(std::move(edited), edit);
    const bool is_meant = edit.value.empty() ? !value_of(edited, edit.table, edit.key) : has_value(edited, edit);
    if (!is_meant || !is_same_besides(before, edited, edit)) return by_hand(edit, where);
  }
  return edited;
}

MaybeFault edit_toml(const std::filesystem::path& file, std::span<const TomlEdit> edits) {
  const Result<std::string> text = read_file(file);
  if (!text.ok()) return text.fault();
  const Result<std::string> edited = edited_toml(*text, edits, file.string());
  if (!edited.ok()) return edited.fault();
  return write_file(file, *edited);
}

}  // namespace ordinatio::inline workshop
