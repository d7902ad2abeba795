#include "check/pdf_content.h"

#define POINTERHOLDER_TRANSITION 4  // only std::shared_ptr, as the library asks its users to say

#include <cmath>
#include <functional>
#include <optional>
#include <string>
#include <unordered_map>

// Clang 14 takes qpdf 11.3's JSON.hh for ill-formed C++20 (a vector of a class within that class). It is not used here:
// a name in its place is enough.
#define JSON_HH
class JSON;
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>

#include "check/decimal.h"
#include "check/difference.h"

namespace ordinatio {
namespace {

constexpr int form_depth = 8;  // forms inside forms; more is refused, since a form may name itself

/// By the text of it: the library's own conversion follows the locale.
double number_of(QPDFObjectHandle object) {
  if (object.isInteger()) return static_cast<double>(object.getIntValue());
  double value = 0;
  if (!read_decimal(object.getRealValue(), value)) throw Difference{"a number is no plain decimal"};
  return value;
}

/// The graphics state, as far as it shows in paths and colours (ISO 32000-1, 8.4).
struct GraphicsState {
  Transform to_page;  // user space → mm
  std::optional<Colour> fill = Colour{}, stroke = Colour{};
};

/// Follows the operators of a content stream (ISO 32000-1, annex A).
class Painter : public QPDFObjectHandle::ParserCallbacks {
 public:
  Painter(QPDFObjectHandle resources, GraphicsState state, int depth, std::vector<PaintedPath>& painted)
      : resources_(std::move(resources)), state_(state), depth_(depth), painted_(painted) {}

  void handleObject(QPDFObjectHandle object) override {
    if (object.isOperator()) {
      run(object.getOperatorValue());
      operands_.clear();
    } else {
      operands_.push_back(object);
    }
  }
  void handleEOF() override {}

 private:
  using Action = void (Painter::*)();
  static const std::unordered_map<std::string, Action>& actions();

  void run(const std::string& name) {
    const auto found = actions().find(name);
    if (found != actions().end()) (this->*found->second)();
  }

  double operand(std::size_t i) const {
    if (i >= operands_.size() || !QPDFObjectHandle(operands_[i]).isNumber()) {
      throw Difference{"an operator lacks a number"};
    }
    return number_of(operands_[i]);
  }
  Point point(std::size_t i) const { return state_.to_page({operand(i), operand(i + 1)}); }

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
  std::uint8_t channel(std::size_t i) const { return static_cast<std::uint8_t>(std::lround(operand(i) * 255)); }
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
    if (fills && state_.fill) painted_.push_back({path_, true, *state_.fill});
    if (strokes && state_.stroke) painted_.push_back({path_, false, *state_.stroke});
    path_ = {};
    drawing_ = false;
  }
  void paint_fill() { paint(true, false); }
  void paint_stroke() { paint(false, true); }
  void paint_both() { paint(true, true); }
  void paint_nothing() { paint(false, false); }
  void close_and_stroke() { close(), paint_stroke(); }
  void close_and_paint_both() { close(), paint_both(); }

  void draw_form() {
    if (operands_.empty() || !operands_[0].isName()) throw Difference{"a form has no name"};
    QPDFObjectHandle form = resources_.getKeyIfDict("/XObject").getKeyIfDict(operands_[0].getName());
    if (!form.isFormXObject()) return;  // a picture
    if (depth_ == form_depth) throw Difference{"forms lie too deep in one another"};
    GraphicsState inner = state_;
    QPDFObjectHandle dictionary = form.getDict(), matrix = dictionary.getKey("/Matrix");
    if (matrix.isArray() && matrix.getArrayNItems() == 6) {
      const auto at = [&](int i) { return number_of(matrix.getArrayItem(i)); };
      inner.to_page = then({at(0), at(1), at(2), at(3), at(4), at(5)}, inner.to_page);
    }
    Painter painter(dictionary.getKey("/Resources"), inner, depth_ + 1, painted_);
    form.parseAsContents(&painter);
  }

  QPDFObjectHandle resources_;
  GraphicsState state_;
  int depth_;
  std::vector<PaintedPath>& painted_;
  std::vector<GraphicsState> saved_;
  std::vector<QPDFObjectHandle> operands_;
  Path path_;
  Point start_, here_;
  bool drawing_ = false;
};

const std::unordered_map<std::string, Painter::Action>& Painter::actions() {
  using P = Painter;
  static const std::unordered_map<std::string, Action> table{
      {"q", &P::save},
      {"Q", &P::restore},
      {"cm", &P::transform},
      {"Do", &P::draw_form},
      {"rg", &P::fill_rgb},
      {"RG", &P::stroke_rgb},
      {"g", &P::fill_grey},
      {"G", &P::stroke_grey},
      {"k", &P::fill_other},
      {"K", &P::stroke_other},
      {"cs", &P::fill_other},
      {"CS", &P::stroke_other},
      {"sc", &P::fill_other},
      {"SC", &P::stroke_other},
      {"scn", &P::fill_other},
      {"SCN", &P::stroke_other},
      {"m", &P::move},
      {"l", &P::line},
      {"c", &P::curve_both},
      {"v", &P::curve_from_here},
      {"y", &P::curve_to_end},
      {"h", &P::close},
      {"re", &P::rectangle},
      {"n", &P::paint_nothing},
      {"f", &P::paint_fill},
      {"F", &P::paint_fill},
      {"f*", &P::paint_fill},
      {"S", &P::paint_stroke},
      {"s", &P::close_and_stroke},
      {"B", &P::paint_both},
      {"B*", &P::paint_both},
      {"b", &P::close_and_paint_both},
      {"b*", &P::close_and_paint_both},
  };
  return table;
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
  page.parsePageContents(&painter);
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

}  // namespace ordinatio
