#include "logo/element.h"

#include <expat.h>

#include <algorithm>
#include <memory>

#include "base/base.h"

namespace ordinatio::inline logo {
namespace {

class Tree {
 public:
  static Element parse(std::string_view xml) {
    Tree tree;
    const std::unique_ptr<XML_ParserStruct, decltype(&XML_ParserFree)> parser{XML_ParserCreate(nullptr),
                                                                              XML_ParserFree};
    XML_SetUserData(parser.get(), &tree);
    XML_SetElementHandler(parser.get(), on_start, on_end);
    if (XML_Parse(parser.get(), xml.data(), static_cast<int>(xml.size()), XML_TRUE) != XML_STATUS_OK)
      throw Unreadable{XML_ErrorString(XML_GetErrorCode(parser.get()))};
    return std::move(tree.open_.front());
  }

 private:
  static void XMLCALL on_start(void* user, const XML_Char* name, const XML_Char** attributes) {
    Element element{name, {}, {}};
    for (; *attributes; attributes += 2) element.attributes.emplace(attributes[0], attributes[1]);
    static_cast<Tree*>(user)->open_.push_back(std::move(element));
  }
  static void XMLCALL on_end(void* user, const XML_Char*) {
    auto& open = static_cast<Tree*>(user)->open_;
    if (open.size() == 1) return;  // the root stays
    Element done = std::move(open.back());
    open.pop_back();
    open.back().children.push_back(std::move(done));
  }
  std::vector<Element> open_;
};

/// Takes the next word from the front; separators are blanks, commas and those given.
std::string_view take_word(std::string_view& text, std::string_view separators = " ,") {
  text.remove_prefix(std::min(text.find_first_not_of(separators), text.size()));
  const auto word = text.substr(0, text.find_first_of(separators));
  text.remove_prefix(word.size());
  return word;
}

Path path_of(std::string_view data) {
  Path path;
  const auto point = [&] {
    const double x = number_of(take_word(data));
    return Point{x, number_of(take_word(data))};
  };
  for (auto command = take_word(data); !command.empty(); command = take_word(data)) {
    if (command != "M" && path.empty()) throw Unreadable{std::string(command)};
    if (command == "M") {
      path.move_to(point());
    } else if (command == "L") {
      path.line_to(point());
    } else if (command == "C") {
      const Point first = point(), second = point();
      path.cubic_to(first, second, point());
    } else if (command == "Z") {
      path.close();
    } else {
      throw Unreadable{std::string(command)};
    }
  }
  return path;
}

}  // namespace

std::string_view Element::operator[](std::string_view attribute) const {
  const auto found = attributes.find(attribute);
  return found == attributes.end() ? std::string_view{} : found->second;
}

Element parse_element(std::string_view xml) { return Tree::parse(xml); }

double number_of(std::string_view text) {
  const auto value = parse_number(text);
  if (!value) throw Unreadable{std::string(text)};
  return *value;
}

std::vector<double> numbers_of(std::string_view text) {
  std::vector<double> values;
  for (auto word = take_word(text); !word.empty(); word = take_word(text)) values.push_back(number_of(word));
  return values;
}

std::string_view argument_of(std::string_view text, std::string_view name) {
  if (!text.starts_with(name) || !text.ends_with(')') || text.size() < name.size() + 2)
    throw Unreadable{std::string(text)};
  return text.substr(name.size() + 1, text.size() - name.size() - 2);
}

std::string_view id_in(std::string_view text) {
  if (!text.starts_with('#')) throw Unreadable{std::string(text)};
  return text.substr(1);
}

Transform transform_of(const Element& element) {
  const auto text = element["transform"];
  if (text.empty()) return {};
  const auto m = numbers_of(argument_of(text, "matrix"));
  if (m.size() != 6) throw Unreadable{std::string(text)};
  return {m[0], m[1], m[2], m[3], m[4], m[5]};
}

Path shape_of(const Element& element) {
  if (element.name == "path") return path_of(element["d"]);
  if (element.name != "rect") throw Unreadable{element.name};
  const double x = number_of(element["x"]), y = number_of(element["y"]);
  Path path;
  path.add_rectangle({x, y, x + number_of(element["width"]), y + number_of(element["height"])});
  return path;
}

Style style_of(const Element& element) {
  Style style;
  auto rest = element["style"];
  for (auto word = take_word(rest, "; "); !word.empty(); word = take_word(rest, "; ")) {
    const auto colon = word.find(':');
    if (colon == std::string_view::npos) throw Unreadable{std::string(word)};
    style[word.substr(0, colon)] = word.substr(colon + 1);
  }
  return style;
}

Colour colour_of(std::string_view text) {
  auto rest = argument_of(text, "rgb");
  const auto part = [&] { return number_of(take_word(rest, ",%")) / 100; };
  return {part(), part(), part()};
}

}  // namespace ordinatio::inline logo
