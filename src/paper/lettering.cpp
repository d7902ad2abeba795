#include "paper/lettering.h"

#include <ft2build.h>
#include FT_FREETYPE_H
#include <cairo-ft.h>

#include <algorithm>
#include <array>
#include <set>
#include <stdexcept>

#include "cleaning/cleaning.h"

namespace ordinatio::inline paper {
namespace {

// The first that is installed is used, the rest draw what it lacks.
constexpr std::array reading_faces{"reading", "noto-sans", "serif"};

constexpr std::string_view open_box = "\u2423", spelled_space = "[U+0020]";

// A line of a page holds far less; what is longer is not even measured.
constexpr std::size_t longest_line = 2'000;  // bytes

// Reached by pages of ever other words; what is known then starts anew, which costs time and changes nothing.
constexpr std::size_t most_known = 256;

/// Opens a face for cairo, which closes it when the last page that uses it is done.
CairoFace open_face(const FontFile& file) {
  struct Opened {
    FT_Library library = nullptr;
    FT_Face face = nullptr;
    ~Opened() {
      FT_Done_Face(face);
      FT_Done_FreeType(library);
    }
  };
  auto opened = std::make_unique<Opened>();
  if (FT_Init_FreeType(&opened->library) != 0 ||
      FT_New_Face(opened->library, file.path.c_str(), static_cast<FT_Long>(file.index), &opened->face) != 0) {
    throw std::runtime_error("the font cannot be opened any more: " + file.path.string());
  }
  CairoFace face(cairo_ft_font_face_create_for_ft_face(opened->face, FT_LOAD_NO_HINTING));
  static const cairo_user_data_key_t key{};
  if (cairo_font_face_set_user_data(face.get(), &key, opened.get(),
                                    [](void* data) { delete static_cast<Opened*>(data); }) == CAIRO_STATUS_SUCCESS) {
    static_cast<void>(opened.release());  // the face has it now
  }
  return face;
}

/// Neighbouring glyphs that stand for the same bytes of the line.
struct Cluster {
  std::size_t first_glyph = 0, last_glyph = 0;  // [first, last)
  std::size_t begin = 0, end = 0;               // bytes
};

std::vector<Cluster> clusters_of(const ShapedLine& line) {
  std::set<std::size_t> starts{line.text.size()};
  for (const PlacedGlyph& glyph : line.glyphs) starts.insert(glyph.cluster);
  std::vector<Cluster> clusters;
  for (std::size_t i = 0; i < line.glyphs.size(); ++i) {
    const PlacedGlyph& glyph = line.glyphs[i];
    if (i > 0 && clusters.back().begin == glyph.cluster && line.glyphs[i - 1].face == glyph.face) {
      clusters.back().last_glyph = i + 1;
    } else {
      clusters.push_back({i, i + 1, glyph.cluster, *starts.upper_bound(glyph.cluster)});
    }
  }
  return clusters;
}

enum class Direction { either, right, left };

/// Which way text runs from one cluster to the next on its right, or nothing where it jumps.
std::optional<Direction> direction_between(const Cluster& left, const Cluster& right) {
  if (left.end == right.begin) return Direction::right;
  if (right.end == left.begin) return Direction::left;
  return std::nullopt;
}

/// Clusters [first, last) as one call to cairo.
GlyphRun run_of(const SetLine& line, std::span<const Cluster> clusters, Direction direction, Point at) {
  GlyphRun run;
  run.right_to_left = direction == Direction::left;
  const Cluster& first = run.right_to_left ? clusters.back() : clusters.front();
  const Cluster& last = run.right_to_left ? clusters.front() : clusters.back();
  run.text = std::string_view(line.shaped.text).substr(first.begin, last.end - first.begin);
  for (std::size_t i = clusters.front().first_glyph; i < clusters.back().last_glyph; ++i) {
    const PlacedGlyph& glyph = line.shaped.glyphs[i];
    run.glyphs.push_back({glyph.glyph, at + line.size * glyph.origin});
  }
  for (const Cluster& cluster : clusters) {
    run.clusters.push_back(
        {static_cast<int>(cluster.end - cluster.begin), static_cast<int>(cluster.last_glyph - cluster.first_glyph)});
  }
  if (run.right_to_left) std::reverse(run.clusters.begin(), run.clusters.end());
  return run;
}

bool is_ascii(std::string_view text) {
  return std::ranges::all_of(text, [](char c) { return c >= ' ' && c <= '~'; });
}

template <class Test>
Wording with_spelled_out(const Wording& wording, const Test& is_spelled_out) {
  Wording result;
  for (const std::string_view grapheme : graphemes_of(wording.text)) {
    if (is_spelled_out(grapheme)) {
      result.add(spell_out(grapheme), true);
    } else {
      result.add(grapheme, wording.odd[static_cast<std::size_t>(grapheme.data() - wording.text.data())]);
    }
  }
  return result;
}

}  // namespace

Result<Lettering> Lettering::with(const FontLibrary& fonts) {
  std::vector<std::string> installed;
  for (const char* name : reading_faces) {
    if (fonts.find(name).ok()) installed.emplace_back(name);
  }
  if (installed.empty()) {
    const Fault missing = fonts.find(reading_faces.front()).fault();
    return Fault{"there is no face to set labels and proofs in", missing.where, missing.why, missing.mend};
  }
  Lettering lettering(fonts, std::move(installed));
  for (char letter = ' '; letter <= '~'; ++letter) {  // with these anything can be spelled out
    const Result<ShapedLine> line = lettering.typesetter_.shape(std::string(1, letter), lettering.style_);
    if (!line.ok()) return line.fault();
  }
  return lettering;
}

Lettering::Lettering(const FontLibrary& fonts, std::vector<std::string> faces)
    : typesetter_(fonts), style_{std::move(faces), "", ""} {
  space_sign_ = draws(open_box) ? open_box : spelled_space;
}

std::vector<SetLine> Lettering::Known::at(double size) const {
  std::vector<SetLine> scaled = lines;
  for (SetLine& line : scaled) line.size = size;
  return scaled;
}

template <class Make>
const Lettering::Known& Lettering::known(std::string key, const Make& make) {
  if (const auto found = known_.find(key); found != known_.end()) return found->second;
  if (known_.size() >= most_known) known_.clear();
  return known_.emplace(std::move(key), Known{make()}).first->second;
}

SetLine Lettering::set(std::string_view text, double size) {
  return known(std::string(text), [&] { return std::vector{shaped(wording_of(text), 1)}; }).at(size).front();
}

Result<SetLine> Lettering::set_in(const std::string& face, std::string_view text, double size) {
  Result<ShapedLine> line = typesetter_.shape(text, {{face}, "", ""});
  if (!line.ok()) return line.fault();
  return SetLine{std::move(*line), std::vector<bool>(text.size()), size, reads_right_to_left(text)};
}

std::vector<SetLine> Lettering::set_column(std::string_view text, double size, double width) {
  const double ems = width / size;
  std::string key(text);
  key.append(1, '\n').append(reinterpret_cast<const char*>(&ems), sizeof ems);
  return known(std::move(key), [&] { return column_of(text, ems); }).at(size);
}

/// Lines of at most `ems`, at 1 mm per em.
std::vector<SetLine> Lettering::column_of(std::string_view text, double ems) {
  const Wording wording = wording_of(text);
  const std::vector<std::size_t> breaks = line_breaks(wording.text);
  std::vector<SetLine> lines;
  std::size_t begin = 0;
  do {
    const std::size_t end = line_end(wording, breaks, begin, ems);
    lines.push_back(shaped(wording.part(begin, end), 1));
    begin = end;
  } while (begin < wording.text.size());
  return lines;
}

/// Where a line of at most `ems` that starts at `begin` ends; always behind `begin`, unless the text ends there.
std::size_t Lettering::line_end(const Wording& wording, const std::vector<std::size_t>& breaks, std::size_t begin,
                                double ems) {
  const auto fits = [&](std::size_t end) {
    const std::string_view line = std::string_view(wording.text).substr(begin, end - begin);
    if (line.size() > longest_line) return false;
    const Result<ShapedLine> measured = typesetter_.shape(line.substr(0, line.find_last_not_of(' ') + 1), style_);
    return measured.ok() && measured->advance <= ems;
  };
  std::size_t end = begin;
  for (auto next = std::upper_bound(breaks.begin(), breaks.end(), begin); next != breaks.end(); ++next) {
    if (!fits(*next)) break;
    end = *next;
  }
  if (end > begin || begin == wording.text.size()) return end;
  for (const std::string_view grapheme : graphemes_of(std::string_view(wording.text).substr(begin))) {
    const std::size_t next = end + grapheme.size();
    if (end > begin && !fits(next)) break;  // one grapheme at the least, or the column would never end
    end = next;
  }
  return end;
}

Wording Lettering::wording_of(std::string_view text) {
  Wording visible = make_visible(text, space_sign_);
  style_.told_language = told_language({visible.text});
  if (typesetter_.shape(visible.text, style_).ok()) return visible;
  return with_spelled_out(visible, [this](std::string_view grapheme) { return !draws(grapheme); });
}

bool Lettering::draws(std::string_view text) {
  const auto [known, is_new] = drawn_.try_emplace(std::string(text));
  if (is_new) known->second = typesetter_.shape(text, style_).ok();
  return known->second;
}

SetLine Lettering::shaped(Wording wording, double size) {
  Result<ShapedLine> line = typesetter_.shape(wording.text, style_);
  if (!line.ok()) {  // every grapheme can be drawn alone, but not beside these others
    wording = with_spelled_out(wording, [](std::string_view grapheme) { return !is_ascii(grapheme); });
    line = typesetter_.shape(wording.text, style_);
  }
  if (!line.ok()) throw std::logic_error("the reading face does not draw ASCII: " + describe(line.fault()));
  const bool right_to_left = reads_right_to_left(wording.text);
  return {std::move(*line), std::move(wording.odd), size, right_to_left};
}

void Lettering::draw(Canvas& canvas, const SetLine& line, Point at, Inks inks, const char* role) {
  const std::vector<Cluster> clusters = clusters_of(line.shaped);
  if (clusters.empty()) return;
  canvas.begin_element(role);
  const auto face_of = [&](const Cluster& c) { return line.shaped.glyphs[c.first_glyph].face; };
  for (std::size_t first = 0; first < clusters.size();) {
    Direction direction = Direction::either;
    std::size_t last = first + 1;
    for (; last < clusters.size(); ++last) {
      const auto step = direction_between(clusters[last - 1], clusters[last]);
      const bool goes_on = step && (direction == Direction::either || direction == *step) &&
                           face_of(clusters[last]) == face_of(clusters[first]) &&
                           line.odd[clusters[last].begin] == line.odd[clusters[first].begin];
      if (!goes_on) break;
      direction = *step;
    }
    const std::span<const Cluster> group(clusters.data() + first, last - first);
    const bool is_sign = line.odd[clusters[first].begin];
    canvas.show(run_of(line, group, direction, at), face(face_of(clusters[first])), line.size,
                is_sign ? inks.signs : inks.words);
    first = last;
  }
  canvas.end_element();
}

_cairo_font_face* Lettering::face(FaceId id) {
  CairoFace& face = faces_[id];
  if (!face) face = open_face(typesetter_.file(id));
  return face.get();
}

Result<Lettering> LetteringStock::take() {
  {
    const std::lock_guard lock(guard_);
    if (!free_.empty()) {
      Lettering lettering = std::move(free_.back());
      free_.pop_back();
      return lettering;
    }
  }
  return Lettering::with(fonts_);
}

void LetteringStock::give_back(Lettering lettering) {
  const std::lock_guard lock(guard_);
  free_.push_back(std::move(lettering));
}

}  // namespace ordinatio::inline paper
