#include "desk/form_answers.h"

#include "desk/kept_files.h"

namespace ordinatio::inline desk {
namespace {

constexpr std::size_t change_limit = 500;  // fields of one file: more than any form has

/// "text 2" of the second [[text]]; "all" of what stands above all tables.
std::string part_of(const FilledField& filled) {
  if (filled.table.empty()) return "all";
  const std::size_t at = filled.table.find('[');
  if (at == std::string::npos || filled.table.ends_with("[0]")) return filled.table.substr(0, at);
  const auto place = parse_number(filled.table.substr(at + 1, filled.table.size() - at - 2)).value_or(0);
  std::string part = filled.table.substr(0, at) + " ";
  append_number(part, place + 1, 0);
  return part;
}

Json shape_of(const FilledField& filled, const FormNames& names) {
  const FormField& field = *filled.field;
  Json choices = Json::array();
  for (const std::string_view choice : field.choices) choices.push_back(choice);
  if (field.kind == FieldKind::design) choices = names.designs;
  if (field.kind == FieldKind::face) choices = names.faces;
  return {{"name", filled.name},
          {"table", part_of(filled)},
          {"label", (field.table.empty() ? "" : std::string(field.table) + ".") + std::string(field.key)},
          {"kind", name_of(field.kind)},
          {"usual", field.usual},
          {"value", filled.value},
          {"choices", choices}};
}

}  // namespace

Json shape_of_form(const std::string& text, const std::vector<FilledField>& fields, const FormNames& names) {
  Json shapes = Json::array();
  for (const FilledField& filled : fields) shapes.push_back(shape_of(filled, names));
  return {{"text", text}, {"digest", sha256_hex(text)}, {"fields", shapes}};
}

std::vector<FormChange> asked_changes(const Ask& ask) {
  const std::vector<std::string> names = ask.texts("names"), values = ask.texts("values");
  std::vector<FormChange> changes;
  for (std::size_t i = 0; i < std::min({names.size(), values.size(), change_limit}); ++i)
    changes.push_back({names[i], values[i]});
  return changes;
}

Result<AskedText> asked_text(const std::filesystem::path& file, const Form& form, const Ask& ask) {
  Result<std::string> before = read_kept(file, ask.text("digest"));
  if (!before.ok()) return before.fault();
  if (auto words = ask.text_if_there("text")) {
    if (words->size() > words_limit)
      return Fault{"the file is too long", "", "the page shows " + std::to_string(words_limit) + " bytes at most",
                   "Write it by hand"};
    return AskedText{*std::move(before), *std::move(words)};
  }
  Result<std::string> after = filled_in(*before, form, asked_changes(ask), file.filename().string());
  if (!after.ok()) return after.fault();
  return AskedText{*std::move(before), *std::move(after)};
}

Response refused(const Fault& fault, const std::string& text, const Form& form) {
  const std::string at = text.empty() ? fault.where : field_at(text, form, fault);  // no text: no field could be read
  Json answer{{"fault", shape_of(fault)}, {"text", text}, {"at", at}};
  if (!text.empty()) answer["unused"] = unused_fields(text, form);
  return answer_of(answer);
}

Response saved(WorkshopDesk& desk, const std::filesystem::path& file, const AskedText& asked) {
  const Result<std::string> undo = write_kept(desk.take_backs(), file, asked.before, asked.after);
  if (!undo.ok()) return answer_of(undo.fault());
  return answer_of(Result<Account>(Account{}), *undo);
}

}  // namespace ordinatio::inline desk
