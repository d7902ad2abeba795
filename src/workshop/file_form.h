// In: a file of the workshop as text, and what a person filled into a form.
// Out: the form's fields with what the file says; the text with what was filled in.
// Never: judges what a value means: the file's own reader does. The tables below are held to it by a test.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"

namespace ordinatio::inline workshop {

enum class FieldKind { text, lines, number, pair, flag, word, design, face };
/// What a page has it typed into: "number", "checkbox", "textarea", "text"; or which names it is chosen from.
std::string_view name_of(FieldKind kind);

/// A field may depend on what another says.
struct FieldUse {
  std::string_view name;   // of the other; empty: it depends on nothing
  std::string_view value;  // of the other
  bool with = true;        // false: the field has a use with any other value
};

struct FormField {
  std::string_view table, key;  // "machine", "width"; "text", "cap_height.max"
  FieldKind kind = FieldKind::text;
  std::string_view usual = {};  // what holds where the file says nothing
  std::vector<std::string_view> choices = {};
  FieldUse use = {};
  std::string_view beside = {};  // the key without which a table has no such field
};
using Form = std::vector<FormField>;

// ---- shop_form.cpp ----
const Form& shop_form();
// ---- design_form.cpp ----
const Form& design_form();

// ---- file_form.cpp ----
/// A field with what one file says; of [[text]] and its like once for each.
struct FilledField {
  const FormField* field = nullptr;
  std::string table;  // "text[1]"
  std::string name;   // "text[1].cap_height.max"
  std::string value;  // as a person types it; empty: the file says nothing
};
/// A text that is no TOML has no fields.
std::vector<FilledField> filled_fields(std::string_view text, const Form& form);

struct FormChange {
  std::string name, value;  // an empty value: the file is to say nothing
};
/// A value that is as it was, or the usual one where the file says nothing, changes nothing. What has no use any more goes with
/// the change that took it, and is passed over. Faults: a value of another kind, no such field; their `where`
/// is the field's name.
Result<std::string> filled_in(std::string_view text, const Form& form, std::span<const FormChange> changes,
                              const std::string& file_name);
/// Names of the fields that have no use as the others stand.
std::vector<std::string> unused_fields(std::string_view text, const Form& form);
/// The field whose value a reader's Fault is about, by its line and column; empty: none of the form's.
std::string field_at(std::string_view text, const Form& form, const Fault& fault);

}  // namespace ordinatio::inline workshop
