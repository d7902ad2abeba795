#include <expat.h>

#include <algorithm>
#include <memory>

#include "logo/drawing.h"

namespace ordinatio::inline logo {
namespace {

constexpr char namespace_end = '\n';  // cannot stand in a namespace's name once attribute values are normalised
constexpr std::string_view svg_namespace = "http://www.w3.org/2000/svg";
constexpr std::string_view xlink_namespace = "http://www.w3.org/1999/xlink";
constexpr std::string_view xml_namespace = "http://www.w3.org/XML/1998/namespace";
constexpr std::string_view include_namespace = "http://www.w3.org/2001/XInclude";

struct Name {
  std::string_view space, local;
};

Name name_of(const XML_Char* expanded) {
  const std::string_view text = expanded;
  const auto end = text.find(namespace_end);
  if (end == std::string_view::npos) return {"", text};
  return {text.substr(0, end), text.substr(end + 1)};
}

/// librsvg takes elements without a namespace for SVG too.
bool is_svg(const Name& name) { return name.space == svg_namespace || name.space.empty(); }

/// Attributes in which any words may stand, since nothing is drawn from them.
bool is_label(std::string_view name) {
  return name == "id" || name == "class" || name == "d" || name == "points" || name.starts_with("data-") ||
         name.starts_with("aria-");
}

class Scanner {
 public:
  explicit Scanner(const std::string& name) : file_(name) {
    parser_.reset(XML_ParserCreateNS(nullptr, namespace_end));
    XML_SetUserData(parser_.get(), this);
    XML_SetElementHandler(parser_.get(), on_start, on_end);
    XML_SetCharacterDataHandler(parser_.get(), on_text);
    XML_SetStartDoctypeDeclHandler(parser_.get(), on_doctype);
    XML_SetProcessingInstructionHandler(parser_.get(), on_instruction);
  }

  MaybeFault run(std::string_view svg) {
    svg_ = svg;
    const auto status = XML_Parse(parser_.get(), svg.data(), static_cast<int>(svg.size()), XML_TRUE);
    if (fault_) return fault_;
    if (status != XML_STATUS_OK) {
      refuse({"no well-formed XML", XML_ErrorString(XML_GetErrorCode(parser_.get())),
              "Save it as SVG that holds nothing but filled shapes; the file may be cut short"});
      return fault_;
    }
    if (const auto finding = references_.problem()) refuse(finding->refusal, finding->line, finding->column);
    return fault_;
  }

 private:
  static Scanner& self(void* user) { return *static_cast<Scanner*>(user); }
  static void XMLCALL on_start(void* user, const XML_Char* name, const XML_Char** attributes) {
    if (!self(user).fault_) self(user).start(name_of(name), attributes);
  }
  static void XMLCALL on_end(void* user, const XML_Char*) {
    if (!self(user).fault_) self(user).end();
  }
  static void XMLCALL on_text(void* user, const XML_Char* text, int size) {
    Scanner& scanner = self(user);
    if (scanner.style_depth_ > 0) scanner.style_.append(text, static_cast<std::size_t>(size));
  }
  static void XMLCALL on_doctype(void* user, const XML_Char*, const XML_Char*, const XML_Char*, int) {
    self(user).refuse_doctype();
  }
  static void XMLCALL on_instruction(void* user, const XML_Char* target, const XML_Char*) {
    if (std::string_view(target) == "xml-stylesheet")
      self(user).refuse({"xml-stylesheet", "it leads outside the file", "Put the rules in a <style> element"});
  }

  [[nodiscard]] std::size_t line() const { return XML_GetCurrentLineNumber(parser_.get()); }
  [[nodiscard]] std::size_t column() const { return XML_GetCurrentColumnNumber(parser_.get()) + 1; }

  void refuse(const Refusal& refusal) { refuse(refusal, line(), column()); }
  void refuse(const Refusal& refusal, std::size_t at_line, std::size_t at_column) {
    if (fault_) return;
    fault_ = Fault{"the logo cannot be engraved: " + refusal.what,
                   file_ + ":" + std::to_string(at_line) + ":" + std::to_string(at_column), refusal.why, refusal.mend};
    XML_StopParser(parser_.get(), XML_FALSE);
  }
  /// Expat tells of it at its end only.
  void refuse_doctype() {
    const auto end = static_cast<std::size_t>(XML_GetCurrentByteIndex(parser_.get()));
    const auto begin = std::min(svg_.rfind("<!DOCTYPE", end), end);
    const auto before = svg_.substr(0, begin);
    const auto newline = before.rfind('\n');
    refuse({"DOCTYPE", "its entities can unfold without end or reach outside the file",
            "Delete everything from <!DOCTYPE to its closing >"},
           1 + static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n')),
           newline == std::string_view::npos ? begin + 1 : begin - newline);
  }
  void refuse_size(std::string_view what, std::size_t limit) {
    refuse({"too many " + std::string(what), "more than " + std::to_string(limit), "Simplify the drawing"});
  }

  void start(const Name& name, const XML_Char** attributes) {
    if (open_.empty() && !(is_svg(name) && name.local == "svg"))
      return refuse({"<" + std::string(name.local) + ">", "the file is no SVG",
                     "Save it as SVG that holds nothing but filled shapes"});
    if (open_.size() >= static_cast<std::size_t>(element_depth)) return refuse_size("nested elements", element_depth);
    if (++count_ > element_count) return refuse_size("elements", element_count);
    if (name.space == include_namespace)
      return refuse({"<" + std::string(name.local) + ">", "it leads outside the file", "Keep everything in the file"});
    if (is_svg(name)) {
      if (const auto refusal = refused_element(name.local)) return refuse(*refusal);
    }
    open_.push_back(references_.add(open_.empty() ? std::nullopt : std::optional(open_.back()), line(), column()));
    if (is_svg(name) && name.local == "style" && style_depth_ == 0) {
      style_depth_ = open_.size();
      style_.clear();
      style_line_ = line();
    }
    if (is_svg(name) && name.local == "clipPath" && clip_depth_ == 0) clip_depth_ = open_.size();
    read_attributes(name, attributes);
  }

  void end() {
    if (style_depth_ == open_.size()) {
      style_depth_ = 0;
      if (const auto refusal = refused_style(style_))
        refuse(*refusal, style_line_ + static_cast<std::size_t>(refusal->line), 1);
    }
    if (clip_depth_ == open_.size()) clip_depth_ = 0;
    open_.pop_back();
  }

  void read_attributes(const Name& element, const XML_Char** attributes) {
    std::size_t count = 0;
    has_href_ = false;
    for (; *attributes && !fault_; attributes += 2) {
      if (++count > attribute_count) return refuse_size("attributes", attribute_count);
      const std::string_view value = attributes[1];
      if (value.size() > attribute_bytes) return refuse_size("bytes in an attribute", attribute_bytes);
      read_attribute(element, name_of(attributes[0]), value);
    }
  }

  void read_attribute(const Name& element, const Name& name, std::string_view value) {
    const bool plain = name.space.empty();
    if ((plain || name.space == xlink_namespace) && name.local == "href") return read_href(element, name, value);
    if (name.space == xml_namespace && name.local == "base")
      return refuse({"xml:base", "it leads outside the file", delete_attribute});
    if (!plain || !is_svg(element)) return;  // labels of the program that drew it; nothing is drawn from them
    if (name.local.starts_with("on"))
      return refuse({std::string(name.local) + "=\"…\"", "a drawing runs no programs", delete_attribute});
    if (name.local == "id") references_.set_id(open_.back(), std::string(value));
    std::optional<Refusal> refusal = refused_clip(name.local, value);
    if (refusal) return refuse(*refusal);
    if (name.local == "style") {
      if (auto found = refused_style(value)) refusal = *std::move(found);
    } else if (!is_label(name.local)) {
      refusal = refused_property(name.local, value);
    }
    if (!refusal) refusal = refused_numbers(name.local, value);
    if (refusal) refuse(*refusal);
  }

  /// librsvg 2.54 leaves out the clip of a clip path, and turns the box of what it clips only by its corners.
  [[nodiscard]] std::optional<Refusal> refused_clip(std::string_view name, std::string_view value) const {
    if (name == "clipPathUnits" && value == "objectBoundingBox")
      return Refusal{"clipPathUnits=\"objectBoundingBox\"", "the drawing library errs on it once the shape is turned",
                     "Clip with a path drawn in place"};
    const bool clips = name == "clip-path" ? without_blanks(value) != "none"
                                           : name == "style" && value.find("clip-path") != std::string_view::npos;
    if (clip_depth_ == 0 || !clips) return std::nullopt;
    return Refusal{"clip-path within <clipPath>", "the drawing library does not cut a clip path itself",
                   "Draw the clip path as it should be, or nest the groups that it clips"};
  }

  void read_href(const Name& element, const Name& name, std::string_view value) {
    const std::string target(without_blanks(value));
    if (!target.starts_with('#'))
      return refuse(
          {"href=\"" + target.substr(0, 40) + "\"", "it leads outside the file", "Keep everything in the file"});
    if (!is_svg(element) || element.local != "use") return;
    if (has_href_ && !name.space.empty()) return;  // href outranks xlink:href (SVG 2, section 16.1.5)
    has_href_ = name.space.empty();
    references_.set_target(open_.back(), target.substr(1));
  }

  static constexpr const char* delete_attribute = "Delete that attribute";

  const std::string& file_;
  std::string_view svg_;
  std::unique_ptr<XML_ParserStruct, decltype(&XML_ParserFree)> parser_{nullptr, XML_ParserFree};
  MaybeFault fault_;
  References references_;
  std::vector<std::size_t> open_;  // the elements around the place, outermost first
  std::size_t count_ = 0;
  bool has_href_ = false;                         // of the element just read
  std::size_t style_depth_ = 0, clip_depth_ = 0;  // where in open_ such an element stands; 0: nowhere
  std::string style_;
  std::size_t style_line_ = 0;
};

}  // namespace

MaybeFault scan(std::string_view svg, const std::string& name) {
  if (svg.empty()) return Fault{"the logo cannot be engraved", name, "the file is empty", "Save the logo again"};
  if (svg.size() > file_bytes)
    return Fault{"the logo cannot be engraved", name,
                 "the file is larger than " + std::to_string(file_bytes) + " bytes", "Simplify the drawing"};
  return Scanner(name).run(svg);
}

}  // namespace ordinatio::inline logo
