// Text and numbers as they stand in XML.
#pragma once

#include <string>
#include <string_view>

namespace ordinatio::inline write {

/// ` name="value"`
void append_attribute(std::string& out, const char* name, double value, int decimals);
/// For titles: they are ASCII of our own, yet an order number comes from outside.
std::string escaped(std::string_view text);
/// XML ids hold letters, digits, - . and _ only: any other byte, and _ itself, becomes _ and two hex digits, so that two
/// numbers never share an id.
std::string xml_id(std::string_view text);

}  // namespace ordinatio::inline write
