#include <algorithm>
#include <array>
#include <cctype>

#include "logo/drawing.h"

namespace ordinatio::inline logo {

bool is_css_space(char c) { return c == ' ' || (c >= '\t' && c <= '\r'); }

std::string_view without_blanks(std::string_view text) {
  while (!text.empty() && is_css_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_css_space(text.back())) text.remove_suffix(1);
  return text;
}

namespace {

struct Rule {
  std::string_view name, why, mend;
};

constexpr std::string_view no_text = "letters would depend on the fonts of this machine";
constexpr std::string_view no_tones = "an engraving has ink or none, no tones between";
constexpr std::string_view no_pixels = "pixels have no outline to engrave";
constexpr std::string_view no_motion = "an engraving stands still";
constexpr std::string_view no_programs = "a drawing runs no programs";
constexpr std::string_view to_paths = "Turn its letters into shapes";
constexpr std::string_view plain_fill =
    "Give it a plain fill, black for ink or white for none, and remove the unused ones";
constexpr std::string_view trace = "Redraw it as paths";
constexpr std::string_view delete_it = "Delete it";

constexpr std::array element_rules{
    Rule{"text", no_text, to_paths},
    Rule{"tspan", no_text, to_paths},
    Rule{"tref", no_text, to_paths},
    Rule{"textPath", no_text, to_paths},
    Rule{"altGlyph", no_text, to_paths},
    Rule{"flowRoot", no_text, to_paths},
    Rule{"font", no_text, to_paths},
    Rule{"font-face", no_text, to_paths},
    Rule{"image", no_pixels, trace},
    Rule{"feImage", no_pixels, trace},
    Rule{"filter", no_tones, delete_it},
    Rule{"mask", no_tones, "Cut the shapes themselves, or use a clip path"},
    Rule{"linearGradient", no_tones, plain_fill},
    Rule{"radialGradient", no_tones, plain_fill},
    Rule{"meshgradient", no_tones, plain_fill},
    Rule{"meshGradient", no_tones, plain_fill},
    Rule{"pattern", no_tones, plain_fill},
    Rule{"hatch", no_tones, plain_fill},
    Rule{"foreignObject", "what is in it is no drawing", "Redraw it as paths"},
    Rule{"script", no_programs, delete_it},
    Rule{"handler", no_programs, delete_it},
    Rule{"animate", no_motion, delete_it},
    Rule{"animateColor", no_motion, delete_it},
    Rule{"animateMotion", no_motion, delete_it},
    Rule{"animateTransform", no_motion, delete_it},
    Rule{"set", no_motion, delete_it},
};

/// Properties that viewers know and the drawing library does not: a logo would come out other than it looks.
constexpr std::array unknown_properties{
    "transform-origin", "transform-box", "offset-path", "mask-image", "mask-border", "backdrop-filter", "d"};
constexpr std::array opacities{"opacity", "fill-opacity", "stroke-opacity"};
constexpr std::array colours{"fill", "stroke", "color"};

bool is_one_of(std::string_view word, const auto& words) { return std::ranges::find(words, word) != words.end(); }

/// CSS does not tell upper from lower case; ASCII only, free of the locale.
std::string lowered(std::string_view text) {
  std::string lower(text);
  for (char& c : lower)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return lower;
}

/// A number or a percentage, as a share of one; nothing when it is another word.
std::optional<double> share(std::string_view text) {
  const bool percent = text.ends_with('%');
  const auto number = parse_number(percent ? text.substr(0, text.size() - 1) : text);
  if (!number) return std::nullopt;
  return percent ? *number / 100 : *number;
}

bool between(double part) { return part > 0 && part < 1; }

bool is_hex(std::string_view text) {
  return std::ranges::all_of(text, [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
}

/// Whether a colour, in lower case, has an alpha that is neither none nor full.
bool is_half_transparent(std::string_view colour) {
  if (colour.starts_with('#') && is_hex(colour.substr(1))) {
    if (colour.size() == 5) return colour[4] != '0' && colour[4] != 'f';
    return colour.size() == 9 && colour.substr(7) != "00" && colour.substr(7) != "ff";
  }
  const auto open = colour.find('(');
  if (open == std::string_view::npos || !colour.ends_with(')') || colour.starts_with("url")) return false;
  const auto parts = colour.substr(open + 1, colour.size() - open - 2);
  auto last = parts.find('/');
  if (last == std::string_view::npos && std::ranges::count(parts, ',') == 3) last = parts.rfind(',');
  if (last == std::string_view::npos) return false;
  const auto alpha = share(without_blanks(parts.substr(last + 1)));
  return alpha && between(*alpha);
}

/// Every url(…) in the value leads to a place in the file itself.
bool leads_outside(std::string_view value) {
  for (auto at = value.find("url("); at != std::string_view::npos; at = value.find("url(", at + 4)) {
    auto target = value.substr(at + 4);
    while (!target.empty() && (is_css_space(target.front()) || target.front() == '"' || target.front() == '\''))
      target.remove_prefix(1);
    if (!target.starts_with('#')) return true;
  }
  return false;
}

/// Comments out, each newline in them kept so that lines still count.
std::string without_comments(std::string_view css) {
  std::string plain;
  bool comment = false;
  for (std::size_t i = 0; i < css.size(); ++i) {
    const std::string_view two = css.substr(i, 2);
    if (comment ? two == "*/" : two == "/*") {
      comment = !comment;
      ++i;
    } else if (!comment || css[i] == '\n') {
      plain += css[i];
    }
  }
  return plain;
}

std::optional<Refusal> refused_declaration(std::string_view text) {
  const auto colon = text.find(':');
  if (colon == std::string_view::npos) return std::nullopt;
  return refused_property(lowered(without_blanks(text.substr(0, colon))), text.substr(colon + 1));
}

Refusal refusal_of(std::string_view name, std::string_view value, std::string_view why, std::string_view mend) {
  return {std::string(name) + ": " + std::string(value.substr(0, 40)), std::string(why), std::string(mend)};
}

}  // namespace

std::optional<Refusal> refused_element(std::string_view name) {
  const auto rule = std::ranges::find(element_rules, name, &Rule::name);
  if (rule == element_rules.end()) return std::nullopt;
  return Refusal{"<" + std::string(name) + ">", std::string(rule->why), std::string(rule->mend)};
}

std::optional<Refusal> refused_property(std::string_view name, std::string_view raw) {
  std::string lower = lowered(without_blanks(raw));
  if (const auto bang = lower.find('!'); bang != std::string::npos) lower.resize(bang);
  const std::string_view value = without_blanks(lower);
  const auto refuse = [&](std::string_view why, std::string_view mend) { return refusal_of(name, value, why, mend); };

  if (leads_outside(value)) return refuse("it leads outside the file", "Keep everything in the file");
  for (const char* function : {"var(", "calc(", "env("})
    if (value.find(function) != std::string_view::npos)
      return refuse("the drawing library does not work it out", "Write the value itself");
  if (is_one_of(name, opacities)) {
    const auto part = share(value);
    if (part && between(*part)) return refuse(no_tones, "Make it fully opaque, or delete what should not be engraved");
  }
  if (is_one_of(name, colours) && is_half_transparent(value))
    return refuse(no_tones, "Make it fully opaque, or delete what should not be engraved");
  if ((name == "filter" || name == "mask") && value != "none") return refuse(no_tones, delete_it);
  if (name == "mix-blend-mode" && value != "normal") return refuse(no_tones, delete_it);
  if (name == "clip-path" && value != "none" && !value.starts_with("url("))
    return refuse("the drawing library knows clip paths only as elements", "Clip with a path");
  if (name == "vector-effect" && value == "non-scaling-stroke")
    return refuse("the width of the stroke would depend on the viewer", "Draw the line's outline instead");
  const bool default_origin = name == "transform-origin" && value.find_first_not_of("0px ") == std::string_view::npos;
  if (is_one_of(name, unknown_properties) && !default_origin)
    return refuse("the drawing library does not know it", "Draw it without");
  return std::nullopt;
}

std::optional<StyleRefusal> refused_style(std::string_view css) {
  const std::string plain = without_comments(css);
  std::size_t start = 0;
  for (std::size_t i = 0; i <= plain.size(); ++i) {
    if (i < plain.size() && plain[i] != ';' && plain[i] != '{' && plain[i] != '}') continue;
    const bool selector = i < plain.size() && plain[i] == '{';
    const auto text = without_blanks(std::string_view(plain).substr(start, i - start));
    start = i + 1;
    std::optional<Refusal> found;
    if (lowered(text).starts_with("@import"))
      found = Refusal{std::string(text.substr(0, 40)), "it leads outside the file", "Keep everything in the file"};
    else if (text.starts_with('@') && !lowered(text).starts_with("@charset"))
      found = Refusal{std::string(text.substr(0, 40)), "the drawing library reads plain rules only",
                      "Delete it, or write its rules without @"};
    else if (!selector)
      found = refused_declaration(text);
    if (!found) continue;
    const auto begin = plain.begin() + (text.empty() ? 0 : text.data() - plain.data());
    return StyleRefusal{*std::move(found), static_cast<int>(std::count(plain.begin(), begin, '\n'))};
  }
  return std::nullopt;
}

}  // namespace ordinatio::inline logo
