#include <cmath>
#include <map>

#include "logo/drawing.h"
#include "logo/element.h"

namespace ordinatio::inline logo {
namespace {

/// Thrown at what only masks, blending, opacity or pictures lead to.
struct NotPlain {};

/// Each contour closed, as filling closes it; bare moves are dropped.
Path closed(const Path& path) {
  Path result;
  const Point* point = path.points().data();
  bool open = false;
  const auto end = [&] {
    if (open) result.close();
    open = false;
  };
  Point start{};
  for (const Path::Verb verb : path.verbs()) {
    if (verb == Path::Verb::move) {
      end();
      start = *point++;
    } else if (verb == Path::Verb::close) {
      end();
    } else {
      if (!open) result.move_to(start);
      open = true;
      if (verb == Path::Verb::line) result.line_to(point[0]);
      if (verb == Path::Verb::cubic) result.cubic_to(point[0], point[1], point[2]);
      point += verb == Path::Verb::line ? 1 : 3;
    }
  }
  end();
  return result;
}

FillRule rule_of(std::string_view word) { return word == "evenodd" ? FillRule::even_odd : FillRule::nonzero; }

constexpr double dark_below = 0.5;  // black, and every colour that looks dark on paper, is ink

/// Relative luminance of an sRGB colour (IEC 61966-2-1; weights of ITU-R BT.709).
double luminance(const Colour& colour) {
  const auto linear = [](double part) {
    return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}
bool is_dark(std::string_view colour) { return luminance(colour_of(colour)) < dark_below; }

/// Whether there is paint of that kind, "fill" or "stroke", at all. Throws when it is half transparent.
bool is_painted(const Style& style, std::string_view kind) {
  const auto colour = style.find(kind);
  if (colour == style.end() || colour->second == "none") return false;
  if (colour->second.starts_with("url")) throw NotPlain{};
  const auto opacity = style.find(std::string(kind) + "-opacity");
  const double part = opacity == style.end() ? 1 : number_of(opacity->second);
  if (part > 0 && part < 1) throw NotPlain{};
  return part > 0;
}

Pen pen_of(const Style& style) {
  const auto value = [&](std::string_view name, std::string_view otherwise) {
    const auto found = style.find(name);
    return found == style.end() ? otherwise : found->second;
  };
  const auto cap = value("stroke-linecap", "butt"), join = value("stroke-linejoin", "miter");
  return {number_of(value("stroke-width", "1")),
          join == "miter"   ? Join::mitre
          : join == "round" ? Join::round
                            : Join::bevel,
          cap == "butt"    ? Cap::butt
          : cap == "round" ? Cap::round
                           : Cap::square,
          number_of(value("stroke-miterlimit", "4")),
          numbers_of(value("stroke-dasharray", "")),
          number_of(value("stroke-dashoffset", "0"))};
}

class Reader {
 public:
  explicit Reader(const Page& page) : to_mm_(page.to_mm) { drawing_.box = page.box; }

  Drawing read(const Element& root) {
    for (const Element& child : root.children)
      if (child.name == "defs") define(child);
    for (const Element& child : root.children)
      if (child.name != "defs") draw(child, {to_mm_, std::nullopt});
    return std::move(drawing_);
  }

 private:
  /// Where an element is drawn.
  struct Place {
    Transform to_mm;
    std::optional<std::size_t> clip;
  };

  void define(const Element& definitions) {
    for (const Element& definition : definitions.children) {
      if (definition.name != "g" && definition.name != "clipPath") throw NotPlain{};  // a mask, filter, gradient
      defined_[definition["id"]] = &definition;
    }
  }
  [[nodiscard]] const Element& find(std::string_view id) const {
    const auto found = defined_.find(id);
    if (found == defined_.end()) throw Unreadable{std::string(id)};
    return *found->second;
  }
  void draw(const Element& element, Place place) {
    place.clip = clip_of(element, place);
    place.to_mm = then(transform_of(element), place.to_mm);
    if (element.name == "g") {
      for (const Element& child : element.children) draw(child, place);
    } else if (element.name == "use") {
      if (!element["mask"].empty()) throw NotPlain{};
      draw(find(id_in(element["xlink:href"])), place);
    } else if (element.name == "path" || element.name == "rect") {
      paint(element, place);
    } else {
      throw NotPlain{};  // an image
    }
  }
  /// Cairo says a clip's fill rule where it is used.
  std::optional<std::size_t> clip_of(const Element& element, const Place& place) {
    if (element["clip-path"].empty()) return place.clip;
    Path path;
    for (const Element& shape : find(id_in(argument_of(element["clip-path"], "url"))).children)
      path.append(closed(shape_of(shape)), place.to_mm);
    drawing_.clips.push_back({std::move(path), rule_of(element["clip-rule"]), place.clip});
    return drawing_.clips.size() - 1;
  }
  void paint(const Element& element, const Place& place) {
    const Style style = style_of(element);
    const Path path = shape_of(element);
    if (is_painted(style, "fill")) {
      const auto rule = style.find("fill-rule");
      drawing_.paints.push_back({closed(path), place.to_mm,
                                 rule == style.end() ? FillRule::nonzero : rule_of(rule->second), std::nullopt,
                                 is_dark(style.at("fill")), place.clip});
    }
    if (is_painted(style, "stroke"))
      drawing_.paints.push_back(
          {path, place.to_mm, FillRule::nonzero, pen_of(style), is_dark(style.at("stroke")), place.clip});
  }

  Drawing drawing_;
  Transform to_mm_;
  std::map<std::string_view, const Element*> defined_;
};

}  // namespace

Result<Drawing> read_page(const Page& page) {
  try {
    const Element root = parse_element(page.svg);
    return Reader(page).read(root);
  } catch (const NotPlain&) {
    return Fault{"the logo cannot be engraved",
                 {},
                 "something in it is partly transparent, blended or a picture",
                 "Make everything fully opaque; redraw pictures as paths"};
  } catch (const Unreadable& at) {
    return Fault{"the logo could not be drawn",
                 {},
                 "the drawing library wrote \"" + at.word.substr(0, 40) + "\"",
                 "Save it as SVG that holds nothing but filled shapes"};
  }
}

}  // namespace ordinatio::inline logo
