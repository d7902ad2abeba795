#include "check/pdf_content.h"

#define POINTERHOLDER_TRANSITION 4  // only std::shared_ptr, as the library asks its users to say

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

// Clang 14 takes qpdf 11.3's JSON.hh for ill-formed C++20 (a vector of a class within that class). It is not used here:
// a name in its place is enough.
#define JSON_HH
class JSON;
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>

#include "check/decimal.h"
#include "check/difference.h"
#include "check/pdf_scanner.h"

namespace ordinatio::inline check {
namespace {

constexpr int form_depth = 8;  // forms inside forms; more is refused, since a form may name itself

/// By the text of it: the library's own conversion follows the locale.
double number_of(QPDFObjectHandle object) {
  if (object.isInteger()) return static_cast<double>(object.getIntValue());
  double value = 0;
  if (!read_decimal(object.getRealValue(), value)) throw Difference{"a number is no plain decimal"};
  return value;
}

std::string decoded(QPDFObjectHandle stream) {
  const auto buffer = stream.getStreamData();
  return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
}

/// Of a page whose content is parted into several streams, one behind the other (ISO 32000-1, 7.8.2).
std::string content_of(QPDFObjectHandle page) {
  std::string content;
  for (QPDFObjectHandle& stream : page.getPageContents()) content += decoded(stream) + '\n';
  return content;
}

/// The graphics state, as far as it shows in paths and colours (ISO 32000-1, 8.4).
struct GraphicsState {
  Transform to_page;  // user space → mm
  std::optional<Colour> fill = Colour{}, stroke = Colour{};
};

/// Follows the operators of a content stream (ISO 32000-1, annex A).
class Painter {
 public:
  Painter(const QPDFObjectHandle& resources, GraphicsState state, int depth, std::vector<PaintedPath>& painted)
      : resources_(resources), state_(state), depth_(depth), painted_(painted) {}

  void follow(std::string_view content) {
    PdfScanner scanner(content);
    while (scanner.next()) {
      operands_ = &scanner.operands();
      run(scanner.name());
    }
  }

 private:
  void run(std::string_view name);
  void paint_by(std::uint32_t code, std::string_view name);

  [[nodiscard]] double operand(std::size_t i) const {
    if (i >= operands_->size() || (*operands_)[i].kind != PdfOperand::Kind::number) {
      throw Difference{"an operator lacks a number"};
    }
    return (*operands_)[i].number;
  }
  [[nodiscard]] Point point(std::size_t i) const { return state_.to_page({operand(i), operand(i + 1)}); }

  // ---- graphics state ----
  void save() { saved_.push_back(state_); }
  void restore() {
    if (saved_.empty()) throw Difference{"a graphics state is restored that was never saved"};
    state_ = saved_.back();
    saved_.pop_back();
  }
  void transform() {
    state_.to_page = then({operand(0), operand(1), operand(2), operand(3), operand(4), operand(5)}, state_.to_page);
  }

  // ---- colour ----
  [[nodiscard]] std::uint8_t channel(std::size_t i) const {
    return static_cast<std::uint8_t>(std::lround(operand(i) * 255));
  }
  void fill_rgb() { state_.fill = Colour{channel(0), channel(1), channel(2)}; }
  void stroke_rgb() { state_.stroke = Colour{channel(0), channel(1), channel(2)}; }
  void fill_grey() { state_.fill = Colour{channel(0), channel(0), channel(0)}; }
  void stroke_grey() { state_.stroke = Colour{channel(0), channel(0), channel(0)}; }
  void fill_other() { state_.fill.reset(); }
  void stroke_other() { state_.stroke.reset(); }

  // ---- path ----
  void move() {
    path_.move_to(here_ = start_ = point(0));
    drawing_ = true;
  }
  void line() {
    go_on();
    path_.line_to(here_ = point(0));
  }
  void curve(Point first, Point second, Point end) {
    go_on();
    path_.cubic_to(first, second, here_ = end);
  }
  void curve_both() { curve(point(0), point(2), point(4)); }
  void curve_from_here() { curve(here_, point(0), point(2)); }
  void curve_to_end() { curve(point(0), point(2), point(2)); }
  void close() {
    if (!drawing_) return;
    path_.close();
    here_ = start_;
    drawing_ = false;
  }
  void rectangle() {
    const double x = operand(0), y = operand(1), width = operand(2), height = operand(3);
    path_.move_to(state_.to_page({x, y}));
    path_.line_to(state_.to_page({x + width, y}));
    path_.line_to(state_.to_page({x + width, y + height}));
    path_.line_to(state_.to_page({x, y + height}));
    path_.close();
    here_ = start_ = state_.to_page({x, y});
    drawing_ = false;
  }
  /// After a closed contour the next one begins where that one did.
  void go_on() {
    if (path_.empty()) throw Difference{"a path does not begin with a move"};
    if (!drawing_) path_.move_to(start_);
    drawing_ = true;
  }

  // ---- painting ----
  void paint(bool fills, bool strokes) {
    if (fills && state_.fill) painted_.push_back({strokes ? path_ : std::move(path_), true, *state_.fill});
    if (strokes && state_.stroke) painted_.push_back({std::move(path_), false, *state_.stroke});
    path_ = {};
    drawing_ = false;
  }

  void draw_form() {
    if (operands_->empty() || operands_->front().kind != PdfOperand::Kind::name) throw Difference{"a form has no name"};
    const std::string name(operands_->front().text);
    QPDFObjectHandle form = resources_.getKeyIfDict("/XObject").getKeyIfDict(name);
    if (!form.isStream()) throw Difference{"something is drawn that is not there"};
    if (!form.isFormXObject()) return;  // a picture
    if (depth_ == form_depth) throw Difference{"forms lie too deep in one another"};
    GraphicsState inner = state_;
    QPDFObjectHandle dictionary = form.getDict(), matrix = dictionary.getKey("/Matrix");
    if (matrix.isArray() && matrix.getArrayNItems() == 6) {
      const auto at = [&](int i) { return number_of(matrix.getArrayItem(i)); };
      inner.to_page = then({at(0), at(1), at(2), at(3), at(4), at(5)}, inner.to_page);
    }
    Painter painter(dictionary.getKey("/Resources"), inner, depth_ + 1, painted_);
    painter.follow(decoded(form));
  }

  QPDFObjectHandle resources_;
  GraphicsState state_;
  int depth_;
  std::vector<PaintedPath>& painted_;
  std::vector<GraphicsState> saved_;
  const std::vector<PdfOperand>* operands_ = nullptr;
  Path path_;
  Point start_, here_;
  bool drawing_ = false;
};

/// An operator's name as a number, so that one jump finds what it does.
constexpr std::uint32_t code_of(std::string_view name) {
  std::uint32_t code = 0;
  for (const char c : name) code = code << 8 | static_cast<unsigned char>(c);
  return code;
}

/// Whether an operator of annex A shows nothing in paths and colours: line styles, clips, text, pictures, marked content.
bool is_passed_over(std::uint32_t code) {
  constexpr std::string_view names[] = {"w",  "J",  "j",  "M",  "d",  "ri", "i",   "gs",  "W",  "W*",
                                        "BT", "ET", "Tc", "Tw", "Tz", "TL", "Tf",  "Tr",  "Ts", "Td",
                                        "TD", "Tm", "T*", "Tj", "TJ", "'",  "\"",  "sh",  "BI", "EI",
                                        "MP", "DP", "BX", "EX", "d0", "d1", "BMC", "BDC", "EMC"};
  return std::ranges::any_of(names, [code](std::string_view name) { return code_of(name) == code; });
}

void Painter::run(std::string_view name) {
  const std::uint32_t code = name.size() > 3 ? 0 : code_of(name);
  switch (code) {
    case code_of("m"):
      return move();
    case code_of("l"):
      return line();
    case code_of("c"):
      return curve_both();
    case code_of("v"):
      return curve_from_here();
    case code_of("y"):
      return curve_to_end();
    case code_of("h"):
      return close();
    case code_of("re"):
      return rectangle();
    case code_of("q"):
      return save();
    case code_of("Q"):
      return restore();
    case code_of("cm"):
      return transform();
    case code_of("Do"):
      return draw_form();
    case code_of("rg"):
      return fill_rgb();
    case code_of("RG"):
      return stroke_rgb();
    case code_of("g"):
      return fill_grey();
    case code_of("G"):
      return stroke_grey();
    case code_of("k"):
    case code_of("cs"):
    case code_of("sc"):
    case code_of("scn"):
      return fill_other();
    case code_of("K"):
    case code_of("CS"):
    case code_of("SC"):
    case code_of("SCN"):
      return stroke_other();
    default:
      return paint_by(code, name);
  }
}

void Painter::paint_by(std::uint32_t code, std::string_view name) {
  switch (code) {
    case code_of("n"):
      return paint(false, false);
    case code_of("f"):
    case code_of("F"):
    case code_of("f*"):
      return paint(true, false);
    case code_of("s"):
      close();
      return paint(false, true);
    case code_of("S"):
      return paint(false, true);
    case code_of("b"):
    case code_of("b*"):
      close();
      return paint(true, true);
    case code_of("B"):
    case code_of("B*"):
      return paint(true, true);
    default:
      if (!is_passed_over(code)) throw Difference{"\"" + std::string(name) + "\" is no operator"};
  }
}

PdfPage read_page(QPDFObjectHandle page) {
  for (const char* key : {"/Rotate", "/UserUnit"}) {
    if (page.hasKey(key)) throw Difference{std::string("the page is turned or scaled by ") + key};
  }
  QPDFObjectHandle box = page.getKey("/MediaBox");
  if (!box.isArray() || box.getArrayNItems() != 4) throw Difference{"the page has no MediaBox"};
  const auto corner = [&](int i) { return number_of(box.getArrayItem(i)) * mm_per_point; };
  if (corner(0) != 0 || corner(1) != 0) throw Difference{"the MediaBox does not begin at 0 0"};
  PdfPage result{corner(2), corner(3), {}};
  Painter painter(page.getKey("/Resources"), {scale_by(mm_per_point)}, 0, result.painted);
  painter.follow(content_of(page));
  return result;
}

}  // namespace

std::vector<PdfPage> read_pdf_pages(std::string_view bytes) {
  try {
    QPDF pdf;
    pdf.setSuppressWarnings(true);
    pdf.setAttemptRecovery(false);
    pdf.processMemoryFile("PDF", bytes.data(), bytes.size());
    std::vector<PdfPage> pages;
    for (const QPDFObjectHandle& page : pdf.getAllPages()) pages.push_back(read_page(page));
    if (pdf.anyWarnings()) throw Difference{"it is damaged: " + pdf.getWarnings().front().getMessageDetail()};
    return pages;
  } catch (const std::exception& error) {  // QPDFExc, and what the library throws for wrong types
    throw Difference{std::string("it is damaged: ") + error.what()};
  }
}

}  // namespace ordinatio::inline check
