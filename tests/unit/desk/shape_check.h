// Whether an answer has the shape that shapes.json gives it.
#pragma once

#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "desk/shapes.h"

namespace ordinatio {

/// Empty where it has; else where it differs, and how.
class ShapeCheck {
 public:
  ShapeCheck() : shapes_(Json::parse(std::ifstream(PROJECT_FOLDER "/src/desk/shapes.json"))) {}

  /// route: "GET /api/today". An answer that has a fault has that at least.
  std::string difference(const std::string& route, const Json& answer) const {
    if (!shapes_.contains(route)) return route + " is not in shapes.json";
    const Json& shape = shapes_[route]["answer"];
    if (answer.contains("fault") && answer.size() == 1) return at("fault", "@fault", answer["fault"]);
    return at(route, shape, answer);
  }
  [[nodiscard]] const Json& shapes() const { return shapes_; }

 private:
  std::string at(const std::string& place, const Json& shape, const Json& value) const {
    if (shape.is_string()) return at_word(place, shape.get<std::string>(), value);
    if (shape.is_array()) return at_list(place, shape[0], value);
    return at_object(place, shape, value);
  }

  std::string at_word(const std::string& place, const std::string& word, const Json& value) const {
    if (word.starts_with('@')) return at(place, shapes_.at(word), value);
    const bool is_right = (word == "text" && value.is_string()) || (word == "number" && value.is_number()) ||
                          (word == "flag" && value.is_boolean());
    return is_right ? "" : place + " is no " + word + ": " + value.dump();
  }

  std::string at_list(const std::string& place, const Json& shape, const Json& value) const {
    if (!value.is_array()) return place + " is no list";
    for (std::size_t i = 0; i < value.size(); ++i) {
      if (std::string wrong = at(place + "[" + std::to_string(i) + "]", shape, value[i]); !wrong.empty()) return wrong;
    }
    return "";
  }

  std::string at_object(const std::string& place, const Json& shape, const Json& value) const {
    if (!value.is_object()) return place + " is no object";
    for (const auto& [key, inner] : shape.items()) {
      const bool may_lack = key.ends_with('?');
      const std::string name = may_lack ? key.substr(0, key.size() - 1) : key;
      if (!value.contains(name)) {
        if (may_lack) continue;
        return place + " lacks " + name;
      }
      if (std::string wrong = at(place + "." + name, inner, value[name]); !wrong.empty()) return wrong;
    }
    for (const auto& [name, inner] : value.items()) {
      if (!shape.contains(name) && !shape.contains(name + "?"))
        return place + " has " + name + ", which shapes.json has not";
    }
    return "";
  }

  Json shapes_;
};

}  // namespace ordinatio
