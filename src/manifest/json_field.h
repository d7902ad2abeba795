// Of this folder alone.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace ordinatio::inline manifest {

/// A value inside a JSON document that knows where it stands ("items[3].pocket"). Each way of reading it throws a
/// Difference when the value is of another kind.
class JsonField {
 public:
  JsonField(const nlohmann::ordered_json& value, std::string path) : value_(&value), path_(std::move(path)) {}

  [[nodiscard]] JsonField operator[](std::string_view key) const;
  /// Nothing where the object has no such key.
  [[nodiscard]] std::optional<JsonField> find(std::string_view key) const;
  [[nodiscard]] std::string text() const;
  [[nodiscard]] double number() const;
  /// A size: a number above zero.
  [[nodiscard]] double size() const;
  /// From 0 to 1e9.
  [[nodiscard]] int count() const;
  [[nodiscard]] bool truth() const;
  [[nodiscard]] std::vector<JsonField> list() const;
  [[nodiscard]] std::vector<JsonField> list_of(std::size_t length) const;
  [[nodiscard]] std::vector<std::string> texts() const;
  [[nodiscard]] std::vector<std::pair<std::string, JsonField>> members() const;
  [[noreturn]] void refuse(const std::string& wanted) const;

 private:
  const nlohmann::ordered_json* value_;
  std::string path_;
};

}  // namespace ordinatio::inline manifest
