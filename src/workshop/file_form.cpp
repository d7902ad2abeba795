#include "workshop/file_form.h"

#include <toml++/toml.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "design/toml_table.h"
#include "workshop/toml_edit.h"

namespace ordinatio::inline workshop {
namespace {

constexpr int decimals = 6;  // of a number that is written; nobody measures finer
constexpr double number_limit = 1e6;

constexpr std::string_view repeated_tables[] = {"text", "border", "logo"};  // [[text]], or [text] once

/// Kept beside its text, since places are of it. Nothing where the reader would refuse it unread.
std::optional<toml::table> read_whole(std::string_view text) {
  if (!TomlFile::parse(text, "").ok()) return std::nullopt;
  return toml::parse(text);
}

std::string name_in(const std::string& table, std::string_view key) {
  return table.empty() ? std::string(key) : table + "." + std::string(key);
}

std::string number_text(double value) {
  std::string text;
  append_number(text, value, decimals);
  return text;
}

std::string list_text(const toml::array& list, const char* between) {
  std::string text;
  for (const toml::node& one : list) {
    if (!text.empty()) text += between;
    if (const auto word = one.value<std::string>(); word && one.is_string()) text += *word;
    const auto number = one.value<double>();
    if (number && one.is_number() && std::abs(*number) <= number_limit) text += number_text(*number);
  }
  return text;
}

/// What the file says, as a person types it.
std::string value_text(const toml::node& node, FieldKind kind) {
  if (const auto* list = node.as_array()) return list_text(*list, kind == FieldKind::lines ? "\n" : ", ");
  if (const auto* text = node.as_string()) return text->get();
  if (const auto* flag = node.as_boolean()) return flag->get() ? "true" : "false";
  const auto number = node.value<double>();
  return number && node.is_number() && std::abs(*number) <= number_limit ? number_text(*number) : "";
}

/// A field in a file, with the node that tells it; none where the file says nothing.
struct FoundField {
  FilledField filled;
  const toml::node* node = nullptr;
};

void add_field(std::vector<FoundField>& found, const FormField& field, const toml::table* around,
               const std::string& table) {
  if (!field.beside.empty() && (around == nullptr || !around->contains(field.beside))) return;
  FoundField one{{&field, table, name_in(table, field.key), ""}};
  if (around != nullptr) one.node = around->at_path(field.key).node();
  if (one.node != nullptr) one.filled.value = value_text(*one.node, field.kind);
  found.push_back(std::move(one));
}

/// The tables of one name, each with what it is called.
std::vector<std::pair<std::string, const toml::table*>> tables_called(const toml::table& whole, std::string_view name) {
  if (name.empty()) return {{"", &whole}};
  const toml::node* const node = whole.get(name);
  const bool is_repeated = std::ranges::count(repeated_tables, name) > 0;
  if (const toml::array* list = node == nullptr ? nullptr : node->as_array()) {
    std::vector<std::pair<std::string, const toml::table*>> tables;
    for (std::size_t i = 0; i < list->size(); ++i)
      tables.emplace_back(std::string(name) + "[" + std::to_string(i) + "]", list->get(i)->as_table());
    return tables;
  }
  if (node == nullptr && is_repeated) return {{std::string(name) + "[0]", nullptr}};
  return {{std::string(name), node == nullptr ? nullptr : node->as_table()}};
}

/// In the form's order; of [[text]] all fields of the first before those of the second.
std::vector<FoundField> found_fields(const toml::table& whole, const Form& form) {
  std::vector<FoundField> found;
  for (auto begin = form.begin(); begin != form.end();) {
    const auto end = std::find_if(begin, form.end(), [&](const FormField& one) { return one.table != begin->table; });
    for (const auto& [table, around] : tables_called(whole, begin->table)) {
      for (auto at = begin; at != end; ++at) add_field(found, *at, around, table);
    }
    begin = end;
  }
  // A flag that nobody wrote is told by what stands there.
  for (FoundField& flag : found) {
    if (flag.filled.field->kind != FieldKind::flag || flag.node != nullptr) continue;
    const bool is_off = std::ranges::any_of(found, [&](const FoundField& one) {
      return one.node != nullptr && one.filled.field->use.name == flag.filled.name &&
             one.filled.field->use.value == "false";
    });
    if (is_off) flag.filled.value = "false";
  }
  return found;
}

Fault wrong_kind(const FormChange& change, const std::string& why) {
  return {"this cannot be written", change.name, why, "Write it anew"};
}

std::optional<std::string> number_value(std::string_view text) {
  while (text.starts_with(' ')) text.remove_prefix(1);
  while (text.ends_with(' ')) text.remove_suffix(1);
  const std::optional<double> number = parse_number(text);
  if (!number || std::abs(*number) > number_limit) return std::nullopt;
  return number_text(*number);
}

/// "180, 120"
std::optional<std::string> pair_value(std::string_view text) {
  const std::size_t comma = text.find(',');
  if (comma == std::string_view::npos) return std::nullopt;
  const auto first = number_value(text.substr(0, comma)), second = number_value(text.substr(comma + 1));
  return first && second ? std::optional("[" + *first + ", " + *second + "]") : std::nullopt;
}

std::string lines_value(std::string_view text) {
  std::string list;
  for (const std::string_view line : lines_as_typed(text)) list += (list.empty() ? "[" : ", ") + toml_text(line);
  return list + "]";
}

/// As it stands in TOML; empty: it is to stand no more.
Result<std::string> toml_value(FieldKind kind, const FormChange& change) {
  if (change.value.empty()) return std::string();
  if (kind == FieldKind::lines) return lines_value(change.value);
  if (kind == FieldKind::flag) {
    if (change.value == "true" || change.value == "false") return change.value;
    return wrong_kind(change, "it is true or false");
  }
  if (kind != FieldKind::number && kind != FieldKind::pair) return toml_text(change.value);
  const auto value = kind == FieldKind::number ? number_value(change.value) : pair_value(change.value);
  if (value) return *value;
  return wrong_kind(change, kind == FieldKind::number ? "it is no number" : "it is not two numbers with a comma");
}

/// cap_height.max is a key in the braces of cap_height, or is to be.
TomlEdit edit_of(const FilledField& filled, const toml::table& whole, std::string value) {
  const std::string key(filled.field->key);
  const std::size_t dot = key.find('.');
  if (dot == std::string::npos) return {filled.table, key, std::move(value)};
  const std::string inner = name_in(filled.table, key.substr(0, dot));
  if (whole.at_path(inner).is_table() || value.empty()) return {inner, key.substr(dot + 1), std::move(value)};
  return {filled.table, key.substr(0, dot), "{ " + key.substr(dot + 1) + " = " + value + " }"};
}

/// Fields that the change leaves without a use, and that the file has.
std::vector<FormChange> without_use(const std::vector<FoundField>& found, const FormChange& change) {
  std::vector<FormChange> gone;
  for (const FoundField& one : found) {
    const FieldUse& use = one.filled.field->use;
    if (use.name == change.name && one.node != nullptr && (use.value == change.value) != use.with)
      gone.push_back({one.filled.name, ""});
  }
  return gone;
}

/// A page's field for one line holds no line ends; they are no difference.
bool is_as_it_was(const FilledField& filled, const std::string& value) {
  const auto flat = [&](std::string text) {
    std::erase_if(text, [&](char c) { return c == '\r' || (c == '\n' && filled.field->kind != FieldKind::lines); });
    return text;
  };
  return flat(value) == flat(filled.value) || (filled.value.empty() && value == filled.field->usual);
}

bool has_use(const std::vector<FoundField>& found, const FilledField& filled) {
  const FieldUse& use = filled.field->use;
  const auto other = std::ranges::find(found, use.name, [](const FoundField& one) { return one.filled.name; });
  if (use.name.empty() || other == found.end()) return true;
  const std::string& said = other->filled.value;
  return ((said.empty() ? other->filled.field->usual : std::string_view(said)) == use.value) == use.with;
}

Result<std::string> with_change(std::string text, const Form& form, const FormChange& change,
                                const std::string& file_name) {
  const auto whole = read_whole(text);
  if (!whole) return text;  // its reader says why
  const std::vector<FoundField> found = found_fields(*whole, form);
  const auto meant = std::ranges::find(found, change.name, [](const FoundField& one) { return one.filled.name; });
  if (meant == found.end()) return wrong_kind(change, "the form has no such field");
  if (is_as_it_was(meant->filled, change.value) || !has_use(found, meant->filled)) return text;
  const Result<std::string> value = toml_value(meant->filled.field->kind, change);
  if (!value.ok()) return value.fault();
  std::vector<TomlEdit> edits{edit_of(meant->filled, *whole, *value)};
  for (const FormChange& gone : without_use(found, change)) {
    const auto other = std::ranges::find(found, gone.name, [](const FoundField& one) { return one.filled.name; });
    edits.push_back(edit_of(other->filled, *whole, ""));
  }
  return edited_toml(text, edits, file_name);
}

/// "shop.toml:12:8: …" → 12, 8
std::optional<toml::source_position> place_in(const std::string& where) {
  const std::size_t column = where.rfind(':');
  const std::size_t line = column == std::string::npos || column == 0 ? column : where.rfind(':', column - 1);
  if (line == std::string::npos || column == 0) return std::nullopt;
  const auto l = parse_number(where.substr(line + 1, column - line - 1)), c = parse_number(where.substr(column + 1));
  if (!l || !c || *l < 1 || *c < 1 || *l > number_limit || *c > number_limit) return std::nullopt;
  return toml::source_position{static_cast<toml::source_index>(*l), static_cast<toml::source_index>(*c)};
}

}  // namespace

std::string_view name_of(FieldKind kind) {
  static constexpr std::string_view names[] = {"text",     "textarea", "number", "text",
                                               "checkbox", "word",     "design", "face"};
  return names[static_cast<std::size_t>(kind)];
}

std::vector<FilledField> filled_fields(std::string_view text, const Form& form) {
  std::vector<FilledField> filled;
  const auto whole = read_whole(text);
  if (!whole) return filled;
  for (FoundField& one : found_fields(*whole, form)) filled.push_back(std::move(one.filled));
  return filled;
}

Result<std::string> filled_in(std::string_view text, const Form& form, std::span<const FormChange> changes,
                              const std::string& file_name) {
  Result<std::string> filled = std::string(text);
  for (const FormChange& change : changes) {
    filled = with_change(*std::move(filled), form, change, file_name);
    if (!filled.ok()) return filled;
  }
  return filled;
}

std::vector<std::string> unused_fields(std::string_view text, const Form& form) {
  const auto whole = read_whole(text);
  std::vector<std::string> unused;
  if (!whole) return unused;
  const std::vector<FoundField> found = found_fields(*whole, form);
  for (const FoundField& one : found) {
    if (!has_use(found, one.filled)) unused.push_back(one.filled.name);
  }
  return unused;
}

std::string field_at(std::string_view text, const Form& form, const Fault& fault) {
  const auto place = place_in(fault.where);
  const auto whole = place ? read_whole(text) : std::nullopt;
  if (!whole) return "";
  for (const FoundField& one : found_fields(*whole, form)) {
    if (one.node != nullptr && one.node->source().begin == *place) return one.filled.name;
  }
  return "";
}

}  // namespace ordinatio::inline workshop
