#include "workshop/toml_edit.h"

#include <toml++/toml.h>

#include <optional>
#include <vector>

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
  try {
    return toml::parse(text);
  } catch (const toml::parse_error&) {
    return std::nullopt;
  }
}

std::optional<Span> value_of(std::string_view text, const std::string& table, const std::string& key) {
  const std::optional<toml::table> whole = parsed(text);
  if (!whole) return std::nullopt;
  const auto node = table.empty() ? (*whole)[key] : whole->at_path(table + "." + key);
  if (!node.node()) return std::nullopt;
  const toml::source_region& source = node.node()->source();
  return Span{byte_at(text, source.begin), byte_at(text, source.end)};
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

bool heads(std::string_view line, const std::string& table) { return line.starts_with("[" + table + "]"); }
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

/// A key that does not stand in the text yet.
std::string added(std::string_view text, const TomlEdit& edit) {
  std::vector<std::string> lines = lines_of(text);
  if (edit.table.empty()) {
    std::size_t end = 0;
    while (end < lines.size() && !is_heading(lines[end])) ++end;
    put_into(lines, 0, end, edit);
    return joined(lines);
  }
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::optional<std::string> shown = uncommented(lines[i]);
    if (!heads(lines[i], edit.table) && !heads(shown.value_or(""), edit.table)) continue;
    if (shown) lines[i] = *shown;
    put_into(lines, i + 1, end_of_table(lines, i), edit);
    return joined(lines);
  }
  return joined(lines) + "\n[" + edit.table + "]\n" + edit.key + " = " + edit.value + "\n";
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
    if (edit.value.empty()) {
      if (const auto span = value_of(edited, edit.table, edit.key))
        edited.insert(edited.rfind('\n', span->begin) + 1, "# ");  // of npos, 0: the first line
      if (value_of(edited, edit.table, edit.key) || !parsed(edited)) return by_hand(edit, where);
      continue;
    }
    if (!is_value(edit.value)) return by_hand(edit, where);
    if (const auto span = value_of(edited, edit.table, edit.key)) {
      edited.replace(span->begin, span->end - span->begin, edit.value);
    } else {
      edited = added(edited, edit);
    }
    if (!has_value(edited, edit)) return by_hand(edit, where);
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
