// Reading the SVG that Cairo writes: elements, and the values in their attributes. Of this folder alone.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/geometry.h"

namespace ordinatio::inline logo {

/// Thrown at what cannot come from Cairo, unless its output changed.
struct Unreadable {
  std::string word;
};

struct Element {
  std::string name;
  std::map<std::string, std::string, std::less<>> attributes;
  std::vector<Element> children;

  /// Empty when there is none.
  [[nodiscard]] std::string_view operator[](std::string_view attribute) const;
};
/// The root of a document.
Element parse_element(std::string_view xml);

double number_of(std::string_view text);
std::vector<double> numbers_of(std::string_view text);
/// What stands in the brackets of "name(…)".
std::string_view argument_of(std::string_view text, std::string_view name);
/// The id in "#id".
std::string_view id_in(std::string_view text);
/// The element's transform attribute; the identity when it has none.
Transform transform_of(const Element& element);
/// The outline of a <path> or <rect>.
Path shape_of(const Element& element);
/// The properties of the style attribute.
using Style = std::map<std::string_view, std::string_view>;
Style style_of(const Element& element);
/// The shares of one of red, green and blue in "rgb(…%,…%,…%)".
struct Colour {
  double red, green, blue;
};
Colour colour_of(std::string_view text);

}  // namespace ordinatio::inline logo
