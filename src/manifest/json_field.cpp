#include "manifest/json_field.h"

#include "base/lines.h"

namespace ordinatio::inline manifest {

JsonField JsonField::operator[](std::string_view key) const {
  if (const auto field = find(key)) return *field;
  throw Difference{(path_.empty() ? "" : path_ + ".") + std::string(key) + " is missing"};
}

std::optional<JsonField> JsonField::find(std::string_view key) const {
  if (!value_->is_object()) refuse("an object");
  const auto found = value_->find(std::string(key));
  if (found == value_->end()) return std::nullopt;
  return JsonField{*found, (path_.empty() ? "" : path_ + ".") + std::string(key)};
}

std::string JsonField::text() const {
  if (!value_->is_string()) refuse("a text");
  return value_->get<std::string>();
}

double JsonField::number() const {
  if (!value_->is_number()) refuse("a number");
  return value_->get<double>();
}

double JsonField::size() const {
  const double value = number();
  if (!(value > 0)) refuse("a number above zero");
  return value;
}

int JsonField::count() const {
  constexpr std::int64_t most = 1'000'000'000;
  if (!value_->is_number_integer() || value_->get<std::int64_t>() < 0 || value_->get<std::int64_t>() > most) {
    refuse("a whole number");
  }
  return value_->get<int>();
}

bool JsonField::truth() const {
  if (!value_->is_boolean()) refuse("true or false");
  return value_->get<bool>();
}

std::vector<JsonField> JsonField::list() const {
  if (!value_->is_array()) refuse("a list");
  std::vector<JsonField> fields;
  fields.reserve(value_->size());
  for (std::size_t i = 0; i < value_->size(); ++i) {
    fields.emplace_back((*value_)[i], path_ + "[" + std::to_string(i) + "]");
  }
  return fields;
}

std::vector<JsonField> JsonField::list_of(std::size_t length) const {
  std::vector<JsonField> fields = list();
  if (fields.size() != length) refuse("a list of " + std::to_string(length));
  return fields;
}

std::vector<std::string> JsonField::texts() const {
  std::vector<std::string> texts;
  for (const JsonField& field : list()) texts.push_back(field.text());
  return texts;
}

std::vector<std::pair<std::string, JsonField>> JsonField::members() const {
  if (!value_->is_object()) refuse("an object");
  std::vector<std::pair<std::string, JsonField>> fields;
  for (const auto& [key, value] : value_->items()) {
    fields.emplace_back(key, JsonField(value, (path_.empty() ? "" : path_ + ".") + key));
  }
  return fields;
}

void JsonField::refuse(const std::string& wanted) const { throw Difference{path_ + " is not " + wanted}; }

}  // namespace ordinatio::inline manifest
