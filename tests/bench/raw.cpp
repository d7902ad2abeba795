// The raw limit: what the bytes alone cost, on one thread.
//   bench_raw ORDERS.csv FOLDER FONT.ttf
//
// It does: shape each line once with HarfBuzz, take each glyph's outline once, and write every glyph of every
// plaque as SVG path data in mm to 0.001, Béziers kept, eight plaques a file. It does not: fit anything (one
// size for all), clean, centre by ink, look for overlaps, draw borders, marks or guides, check or read back.
// No program that sets these plaques can do less.
#include <hb-ot.h>
#include <hb.h>

#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <memory>
#include <stdexcept>
#include <unordered_map>

#include "orders/orders.h"
#include "plaques.h"

namespace {

constexpr double cap_height = 11;                    // mm, near the mean of the fitted plaques
constexpr double cap_height_em = 0.676;              // Vollkorn SemiBold, OS/2 sCapHeight
constexpr double size = cap_height / cap_height_em;  // mm per em

struct Point {
  double x, y;
};
struct Stroke {
  char letter;  // SVG path command
  std::uint8_t points;
  std::array<Point, 3> at;  // ems, y up
};
using Outline = std::vector<Stroke>;

template <auto free_it>
struct Free {
  void operator()(auto* held) const { free_it(held); }
};
using Blob = std::unique_ptr<hb_blob_t, Free<hb_blob_destroy>>;
using Face = std::unique_ptr<hb_face_t, Free<hb_face_destroy>>;
using Font = std::unique_ptr<hb_font_t, Free<hb_font_destroy>>;
using Buffer = std::unique_ptr<hb_buffer_t, Free<hb_buffer_destroy>>;
using DrawFuncs = std::unique_ptr<hb_draw_funcs_t, Free<hb_draw_funcs_destroy>>;

void keep(void* outline, char letter, std::uint8_t points, std::array<Point, 3> at) {
  static_cast<Outline*>(outline)->push_back({letter, points, at});
}

DrawFuncs outline_taker() {
  DrawFuncs take(hb_draw_funcs_create());
  hb_draw_funcs_set_move_to_func(
      take.get(),
      [](auto*, void* o, auto*, float x, float y, void*) {
        keep(o, 'M', 1, {{{x, y}}});
      },
      nullptr, nullptr);
  hb_draw_funcs_set_line_to_func(
      take.get(),
      [](auto*, void* o, auto*, float x, float y, void*) {
        keep(o, 'L', 1, {{{x, y}}});
      },
      nullptr, nullptr);
  hb_draw_funcs_set_quadratic_to_func(
      take.get(),
      [](auto*, void* o, auto*, float cx, float cy, float x, float y, void*) {
        keep(o, 'Q', 2, {{{cx, cy}, {x, y}}});
      },
      nullptr, nullptr);
  hb_draw_funcs_set_cubic_to_func(
      take.get(),
      [](auto*, void* o, auto*, float ax, float ay, float bx, float by, float x, float y, void*) {
        keep(o, 'C', 3, {{{ax, ay}, {bx, by}, {x, y}}});
      },
      nullptr, nullptr);
  hb_draw_funcs_set_close_path_func(
      take.get(), [](auto*, void* o, auto*, void*) { keep(o, 'Z', 0, {}); }, nullptr, nullptr);
  return take;
}

/// Font units throughout; outlines are kept by glyph.
class Lettering {
 public:
  explicit Lettering(const char* font_file)
      : blob_(hb_blob_create_from_file_or_fail(font_file)), buffer_(hb_buffer_create()), take_(outline_taker()) {
    if (!blob_) throw std::runtime_error(std::string("cannot read ") + font_file);
    face_.reset(hb_face_create(blob_.get(), 0));
    font_.reset(hb_font_create(face_.get()));
  }

  double units_per_em() const { return hb_face_get_upem(face_.get()); }

  hb_buffer_t* shape(const std::string& line) {
    hb_buffer_clear_contents(buffer_.get());
    hb_buffer_add_utf8(buffer_.get(), line.data(), static_cast<int>(line.size()), 0, -1);
    hb_buffer_set_direction(buffer_.get(), HB_DIRECTION_LTR);
    hb_buffer_set_script(buffer_.get(), HB_SCRIPT_LATIN);
    hb_buffer_set_language(buffer_.get(), english_);
    hb_shape(font_.get(), buffer_.get(), nullptr, 0);
    return buffer_.get();
  }

  const Outline& outline(hb_codepoint_t glyph) {
    const auto [entry, is_new] = outlines_.try_emplace(glyph);
    if (is_new) hb_font_get_glyph_shape(font_.get(), glyph, take_.get(), &entry->second);
    return entry->second;
  }

 private:
  Blob blob_;
  Face face_;
  Font font_;
  Buffer buffer_;
  DrawFuncs take_;
  hb_language_t english_ = hb_language_from_string("en", -1);
  std::unordered_map<hb_codepoint_t, Outline> outlines_;
};

constexpr std::size_t longest_number = 24;  // bytes: a 64-bit integer, its sign, a point, a blank
constexpr std::size_t longest_stroke = 1 + 6 * longest_number;

/// mm to 0.001, no trailing zeros; returns the end. Straight into the sheet's bytes: an append a number costs a fifth of
/// the whole run.
char* put_number(char* at, double mm) {
  const std::int64_t signed_thousandths = std::llround(mm * 1000);
  if (signed_thousandths < 0) *at++ = '-';
  const std::uint64_t thousandths = static_cast<std::uint64_t>(std::abs(signed_thousandths));
  at = std::to_chars(at, at + longest_number, thousandths / 1000).ptr;
  const unsigned rest = static_cast<unsigned>(thousandths % 1000);
  if (rest == 0) return at;
  *at++ = '.';
  *at++ = static_cast<char>('0' + rest / 100);
  if (rest % 100 != 0) *at++ = static_cast<char>('0' + rest / 10 % 10);
  if (rest % 10 != 0) *at++ = static_cast<char>('0' + rest % 10);
  return at;
}

std::string number(double mm) {
  std::array<char, longest_number> digits;
  return {digits.data(), put_number(digits.data(), mm)};
}

void append_outline(std::string& out, const Outline& outline, double scale, Point pen) {
  const std::size_t start = out.size();
  out.resize(start + outline.size() * longest_stroke);
  char* at = out.data() + start;
  for (const Stroke& stroke : outline) {
    *at++ = stroke.letter;
    for (std::uint8_t i = 0; i < stroke.points; ++i) {
      if (i > 0) *at++ = ' ';
      at = put_number(at, pen.x + scale * stroke.at[i].x);
      *at++ = ' ';
      at = put_number(at, pen.y - scale * stroke.at[i].y);
    }
  }
  out.resize(static_cast<std::size_t>(at - out.data()));
}

void append_line(std::string& out, Lettering& lettering, const std::string& line, Point start) {
  const double scale = size / lettering.units_per_em();
  hb_buffer_t* shaped = lettering.shape(line);
  unsigned count = 0;
  const hb_glyph_info_t* glyphs = hb_buffer_get_glyph_infos(shaped, &count);
  const hb_glyph_position_t* places = hb_buffer_get_glyph_positions(shaped, nullptr);
  for (unsigned i = 0; i < count; ++i) {
    const Point pen{start.x + scale * places[i].x_offset, start.y - scale * places[i].y_offset};
    append_outline(out, lettering.outline(glyphs[i].codepoint), scale, pen);
    start.x += scale * places[i].x_advance;
  }
}

void append_plaque(std::string& out, Lettering& lettering, const bench::Order& order, bench::Corner corner) {
  out += "<path d=\"";
  double baseline = corner.top + bench::clear_inset + cap_height;
  for (const std::string& line : order.lines) {
    append_line(out, lettering, line, {corner.left + bench::clear_inset, baseline});
    baseline += size * bench::leading_em;
  }
  out += "\"/>\n";
}

void append_head(std::string& out) {
  const std::string width = number(bench::bed_width), height = number(bench::bed_height);
  out += "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + width + "mm\" height=\"" + height +
         "mm\" viewBox=\"0 0 " + width + " " + height + "\">\n";
}

void write_sheet(const std::filesystem::path& file, const std::string& bytes) {
  std::ofstream out(file, std::ios::binary);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  out.close();
  if (!out) throw std::runtime_error("cannot write " + file.string());
}

std::size_t set_orders(const std::vector<bench::Order>& orders, const std::filesystem::path& folder,
                       Lettering& lettering) {
  std::string svg;
  std::size_t sheets = 0;
  for (std::size_t first = 0; first < orders.size(); first += bench::plaques_per_sheet) {
    svg.clear();
    append_head(svg);
    for (std::size_t i = first; i < orders.size() && i < first + bench::plaques_per_sheet; ++i)
      append_plaque(svg, lettering, orders[i], bench::plaque_corner(i - first));
    svg += "</svg>\n";
    write_sheet(folder / bench::sheet_file(++sheets), svg);
  }
  return sheets;
}

}  // namespace

int main(int count, char** words) try {
  if (count != 4) throw std::runtime_error("usage: bench_raw ORDERS.csv FOLDER FONT.ttf");
  const std::vector<bench::Order> orders = bench::read_orders(words[1]);
  Lettering lettering(words[3]);
  const std::size_t sheets = set_orders(orders, words[2], lettering);
  std::cout << "{\"items_set\": " << orders.size() << ", \"held\": 0, \"sheets\": " << sheets << "}\n";
} catch (const std::exception& error) {
  std::cerr << "bench_raw: " << error.what() << "\n";
  return 3;
}
