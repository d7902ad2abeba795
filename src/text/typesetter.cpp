#include <algorithm>
#include <cmath>

#include "text/claims.h"
#include "text/drawn.h"
#include "text/gauges.h"
#include "text/letter_space.h"
#include "text/limits.h"

namespace ordinatio {
namespace {

bool needs_no_glyph(char32_t c) {  // joiners, marks of direction, variation selectors: a face need not have them
  return (c >= 0x200B && c <= 0x200F) || c == 0x061C || (c >= 0x2066 && c <= 0x2069) || (c >= 0x202A && c <= 0x202E) ||
         (c >= 0xFE00 && c <= 0xFE0F) || (c >= 0xE0100 && c <= 0xE01EF);
}

/// The style's features; spaced letters take no ligatures, whose letters could not be spaced.
std::vector<hb_feature_t> features_of(const TextStyle& style, bool spaced) {
  std::vector<hb_feature_t> features;
  const auto add = [&features](std::string_view text) {
    hb_feature_t feature;
    if (hb_feature_from_string(text.data(), static_cast<int>(text.size()), &feature)) features.push_back(feature);
  };
  if (spaced) {
    for (const char* ligatures : {"-liga", "-clig"}) add(ligatures);
  }
  for (const std::string& feature : style.features) add(feature);
  return features;
}

}  // namespace

struct Typesetter::Rooms {
  explicit Rooms(const FontLibrary& library_)
      : library(&library_),
        ink([this](const PlacedGlyph& g) -> const GlyphOutline& { return faces[g.face]->outline(g.glyph); }),
        gauges([this](const PlacedGlyph& g) -> const GlyphOutline& { return faces[g.face]->outline(g.glyph); }, ink) {}

  Result<FaceId> open(const std::string& name, const std::vector<std::string>& axes = {});
  Result<std::vector<FaceId>> open_own(const TextStyle& style);
  /// Those that are installed; a Fault where one of them is damaged.
  const std::vector<Result<FaceId>>& fallback(const std::string& language);
  MaybeFault check_claims(FaceId own, const std::vector<LineLetter>& letters);
  /// The language to shape a script's runs in: the design's where it is written in that script, else the told one.
  const std::string& language_for(int script, const TextStyle& style);
  std::optional<Fault> choose_faces(std::vector<LineLetter>& letters, const TextStyle& style, std::size_t line_number);
  MaybeFault shape_run(ShapedLine& line, const std::vector<LineLetter>& letters, const Run& run,
                       const TextStyle& style);

  const FontLibrary* library;
  std::vector<std::unique_ptr<Face>> faces;
  std::map<std::string, FaceId> by_name;
  std::map<std::string, std::vector<Result<FaceId>>> fallback_by_language;
  std::map<std::string, std::vector<int>> scripts_by_language;
  HbBuffer buffer{hb_buffer_create()};
  InkCache ink;
  LineBreaker breaker;
  GaugeCache gauges;
};

Result<FaceId> Typesetter::Rooms::open(const std::string& name, const std::vector<std::string>& axes) {
  std::string key = name;
  for (const std::string& axis : axes) key += '\n' + axis;
  if (const auto known = by_name.find(key); known != by_name.end()) return known->second;
  const Result<FontFile> file = library->find(name);
  if (!file) return file.fault();
  Result<std::unique_ptr<Face>> face = Face::open(*file, axes);
  if (!face) return face.fault();
  faces.push_back(std::move(*face));
  return by_name.emplace(std::move(key), static_cast<FaceId>(faces.size() - 1)).first->second;
}

/// The style's own faces; its axes are the first one's.
Result<std::vector<FaceId>> Typesetter::Rooms::open_own(const TextStyle& style) {
  std::vector<FaceId> ids;
  for (const std::string& name : style.faces) {
    const Result<FaceId> id = ids.empty() ? open(name, style.axes) : open(name);
    if (!id) return id.fault();
    ids.push_back(*id);
  }
  return ids;
}

const std::vector<Result<FaceId>>& Typesetter::Rooms::fallback(const std::string& language) {
  const auto [entry, is_new] = fallback_by_language.try_emplace(language);
  if (is_new) {
    for (const std::string& name : library->fallback_names(language)) {
      // A fallback that is not installed is passed over; what then no face draws is said by name.
      if (library->find(name)) entry->second.push_back(open(name));
    }
  }
  return entry->second;
}

/// Else all words would come from another face than the design's, and nobody would know why.
MaybeFault Typesetter::Rooms::check_claims(FaceId own, const std::vector<LineLetter>& letters) {
  const Face& face = *faces[own];
  const std::vector<CatalogueFace>& known = library->catalogue();
  const auto entry = std::ranges::find_if(known, [&](const CatalogueFace& one) {
    return one.name == face.file().name && face.file().path.string().ends_with(one.file);
  });
  const std::string why = broken_claim(face, entry == known.end() ? nullptr : &*entry, letters);
  return why.empty() ? MaybeFault{} : face.damaged(why);
}

const std::string& Typesetter::Rooms::language_for(int script, const TextStyle& style) {
  static const std::string none;
  const auto [entry, is_new] = scripts_by_language.try_emplace(style.language);
  if (is_new) entry->second = scripts_of(style.language);
  if (std::ranges::find(entry->second, script) != entry->second.end()) return style.language;
  return takes_told_language(script) ? style.told_language : none;
}

/// Gives each grapheme the first face that draws all of it. Signs that go with any script (spaces, points,
/// digits) stay in their neighbour's face where it has them, so that a run is not torn.
std::optional<Fault> Typesetter::Rooms::choose_faces(std::vector<LineLetter>& letters, const TextStyle& style,
                                                     std::size_t line_number) {
  const Result<std::vector<FaceId>> own = open_own(style);
  if (!own) return own.fault();
  if (auto fault = check_claims(own->front(), letters)) return fault;
  for (std::size_t first = 0, last = 0; first < letters.size(); first = last) {
    while (last < letters.size() && letters[last].grapheme == letters[first].grapheme) ++last;
    const auto draws = [&](FaceId id) {
      return std::all_of(
          letters.begin() + static_cast<std::ptrdiff_t>(first), letters.begin() + static_cast<std::ptrdiff_t>(last),
          [&](const LineLetter& l) { return needs_no_glyph(l.character) || faces[id]->draws(l.character); });
    };
    std::optional<FaceId> chosen;
    const bool follows =
        first > 0 && letters[first].takes_any_script && letters[first - 1].script == letters[first].script;
    if (follows && draws(letters[first - 1].face)) chosen = letters[first - 1].face;
    if (const auto id = std::ranges::find_if(*own, draws); !chosen && id != own->end()) chosen = *id;
    if (!chosen) {
      for (const Result<FaceId>& id : fallback(language_for(letters[first].script, style))) {
        if (!id) return id.fault();  // what it would have drawn, nobody knows
        if (draws(*id)) {
          chosen = *id;
          break;
        }
      }
    }
    if (!chosen) {
      return Fault{character_name(letters[first].character) + " cannot be engraved",
                   place_in(letters, first, line_number), "no installed face draws it",
                   "Ask the customer for other words, or put a font that has it into the workshop's fonts folder"};
    }
    for (std::size_t i = first; i < last; ++i) letters[i].face = *chosen;
  }
  return std::nullopt;
}

MaybeFault Typesetter::Rooms::shape_run(ShapedLine& line, const std::vector<LineLetter>& letters, const Run& run,
                                        const TextStyle& style) {
  const Face& face = *faces[run.face];
  const std::size_t begin = letters[run.first].byte;
  const std::size_t end = run.last < letters.size() ? letters[run.last].byte : line.text.size();
  hb_buffer_t* text = buffer.get();
  hb_buffer_clear_contents(text);
  hb_buffer_set_cluster_level(text, HB_BUFFER_CLUSTER_LEVEL_MONOTONE_GRAPHEMES);
  // The whole line is given, so that letters join across a change of face as they would within one.
  hb_buffer_add_utf8(text, line.text.data(), static_cast<int>(line.text.size()), static_cast<unsigned>(begin),
                     static_cast<int>(end - begin));
  hb_buffer_set_direction(text, run.level % 2 == 0 ? HB_DIRECTION_LTR : HB_DIRECTION_RTL);
  hb_buffer_set_script(text, hb_script_from_string(script_tag(run.script).c_str(), -1));
  const std::string& language = language_for(run.script, style);
  hb_buffer_set_language(text, hb_language_from_string(language.empty() ? "und" : language.c_str(), -1));
  const bool spaced = style.letter_spacing != 0 && !joins(run.script);
  const std::vector<hb_feature_t> features = features_of(style, spaced);
  hb_shape(face.font(), text, features.data(), static_cast<unsigned>(features.size()));
  unsigned count = 0;
  const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(text, &count);
  const hb_glyph_position_t* positions = hb_buffer_get_glyph_positions(text, &count);
  if (count > text_limits::shaped_glyphs(run.last - run.first)) {
    return face.damaged("its tables make " + std::to_string(count) + " glyphs of so few letters");
  }
  for (unsigned i = 0; i < count; ++i) {
    const double furthest =
        std::max({std::abs(face.em(positions[i].x_offset)), std::abs(face.em(positions[i].y_offset)),
                  std::abs(face.em(positions[i].x_advance))});
    if (furthest > text_limits::glyph_reach) return face.damaged("it sets a letter far from its place");
    const Point origin{line.advance + face.em(positions[i].x_offset), face.em(positions[i].y_offset)};
    const bool unsafe = (hb_glyph_info_get_glyph_flags(&infos[i]) & HB_GLYPH_FLAG_UNSAFE_TO_BREAK) != 0;
    line.glyphs.push_back({run.face, infos[i].codepoint, origin, infos[i].cluster, !unsafe});
    line.advance += face.em(positions[i].x_advance);
    if (!spaced) continue;
    if (i + 1 == count)
      line.advance += space_after(letters, infos[i].cluster, style.letter_spacing);
    else if (infos[i + 1].cluster != infos[i].cluster)
      line.advance += space_between(letters, infos[i].cluster, infos[i + 1].cluster, style.letter_spacing);
  }
  line.left_to_right &= run.level % 2 == 0;
  return std::nullopt;
}

Typesetter::Typesetter(const FontLibrary& library) : rooms_(std::make_unique<Rooms>(library)) {}
Typesetter::~Typesetter() = default;
Typesetter::Typesetter(Typesetter&&) noexcept = default;
Typesetter& Typesetter::operator=(Typesetter&&) noexcept = default;

namespace {

bool are_alphabetic(const std::vector<LineLetter>& letters) {
  return std::ranges::all_of(letters, [](const LineLetter& letter) { return is_alphabetic(letter.script); });
}

}  // namespace

Result<ShapedLine> Typesetter::shape(std::string_view text, const TextStyle& style, std::size_t line_number) {
  std::vector<LineLetter> letters = letters_of(text);
  if (const auto fault = rooms_->choose_faces(letters, style, line_number)) return *fault;
  ShapedLine line;
  line.text = text;
  const std::vector<Run> runs = runs_of(letters);
  for (const Run& run : runs) {
    if (auto fault = rooms_->shape_run(line, letters, run, style)) return *std::move(fault);
  }
  if (style.letter_spacing != 0) line.advance -= space_at_end(letters, line.glyphs, style.letter_spacing);
  if (auto fault = undrawn(line, letters, line_number, rooms_->faces)) return *std::move(fault);
  line.alphabetic = are_alphabetic(letters);
  for (const PlacedGlyph& glyph : line.glyphs) line.ink.add(outline(glyph.face, glyph.glyph).ink.shifted(glyph.origin));
  return line;
}

Result<ShapedLine> Typesetter::part_of(const ShapedLine& whole, std::size_t begin, std::size_t end,
                                       const TextStyle& style) {
  const std::string_view text = std::string_view(whole.text).substr(begin, end - begin);
  if (text.size() == whole.text.size()) return whole;
  const auto glyph_at = [&whole](std::size_t byte) {
    return std::ranges::lower_bound(whole.glyphs, byte, {}, &PlacedGlyph::cluster);
  };
  const auto parts_at = [&](std::size_t byte) {
    if (byte == 0 || byte == whole.text.size()) return true;
    const auto glyph = glyph_at(byte);
    return glyph != whole.glyphs.end() && glyph->cluster == byte && glyph->starts_afresh;
  };
  if (!whole.left_to_right || !parts_at(begin) || !parts_at(end)) return shape(text, style);
  const auto first = glyph_at(begin), last = glyph_at(end);
  ShapedLine line;
  line.text = text;
  line.alphabetic = whole.alphabetic || are_alphabetic(letters_of(text));
  line.glyphs.assign(first, last);
  const double start = begin == 0 || first == whole.glyphs.end() ? 0 : first->origin.x;
  line.advance = (last == whole.glyphs.end() ? whole.advance : last->origin.x) - start;
  for (PlacedGlyph& glyph : line.glyphs) {
    glyph.origin.x -= start;
    glyph.cluster -= begin;
    line.ink.add(outline(glyph.face, glyph.glyph).ink.shifted(glyph.origin));
  }
  return line;
}

const GlyphOutline& Typesetter::outline(FaceId face, std::uint32_t glyph) {
  return rooms_->faces[face]->outline(glyph);
}

void Typesetter::append_ink(Path& ink, const ShapedLine& line, double size, Point shift, double tolerance) {
  for (const GlyphGroup& group : rooms_->ink.groups_of(line)) {
    const PlacedGlyph& first = line.glyphs[group.front()];
    const GlyphOutline& own = outline(first.face, first.glyph);
    const Point at = size * first.origin + shift;
    const bool alone = group.size() == 1 && !own.overlaps;
    ink.append(alone ? own.path : rooms_->ink.welded(line, group, tolerance / size), {size, 0, 0, size, at.x, at.y});
  }
}

LineBreaker& Typesetter::breaker() { return rooms_->breaker; }

Result<FaceMetrics> Typesetter::metrics(const TextStyle& style) {
  const Result<FaceId> id = rooms_->open(style.faces.front(), style.axes);
  if (!id) return id.fault();
  Face& face = *rooms_->faces[*id];
  const FaceMetrics metrics = face.metrics();
  // Sizes are told by these: 0 or less would make them endless. No face's capitals are taller than a few em.
  const auto is_height = [](double height) { return height > 1e-3 && height < text_limits::glyph_reach; };
  if (!is_height(metrics.cap_height) || !is_height(metrics.x_height)) {
    return face.damaged("its letters H or x have no height");
  }
  return metrics;
}

LineGauges Typesetter::gauges(const ShapedLine& line) { return rooms_->gauges.gauges_of(line); }

Result<FaceGauges> Typesetter::face_gauges(const std::string& face_name) {
  const Result<FaceId> face = rooms_->open(face_name);
  if (!face) return face.fault();
  return measure_face(*rooms_->faces[*face]);
}

namespace {

/// Whether small letters of the style's first face run into one another, as in a joined hand.
bool letters_join(Typesetter& typesetter, InkCache& ink, const TextStyle& style) {
  const Result<ShapedLine> word = typesetter.shape("nunimu", {{style.faces.front()}, "", "", style.axes});
  return word && word->glyphs.size() > 1 && ink.groups_of(*word).size() == 1;
}

}  // namespace

MaybeFault Typesetter::check_style(const TextStyle& style) {
  const Result<std::vector<FaceId>> own = rooms_->open_own(style);
  if (!own) return own.fault();
  const Face& face = *rooms_->faces[own->front()];
  const std::vector<CatalogueFace>& known = rooms_->library->catalogue();
  const auto entry = std::ranges::find(known, style.faces.front(), &CatalogueFace::name);
  const auto joined = [&] { return entry != known.end() ? entry->joined : letters_join(*this, rooms_->ink, style); };
  if (style.letter_spacing != 0 && joined()) {
    return Fault{"letters cannot be spaced", "face " + face.file().name, "they join, and spacing would tear them apart",
                 "Take the letter_spacing out, or name another face"};
  }
  for (const std::string& text : style.features) {
    hb_feature_t feature;
    const bool read = hb_feature_from_string(text.data(), static_cast<int>(text.size()), &feature);
    if (read && (feature.value == 0 || face.has_feature(feature.tag))) continue;
    return Fault{"the feature \"" + text + "\" cannot be had", "face " + face.file().name,
                 read ? "the face does not have it" : "it is no OpenType feature",
                 "Take it out, or name a face that has it"};
  }
  return std::nullopt;
}

Result<bool> Typesetter::draws(const std::string& face_name, std::string_view text) {
  const Result<FaceId> face = rooms_->open(face_name);
  if (!face) return face.fault();
  return std::ranges::all_of(letters_of(text), [&](const LineLetter& letter) {
    return needs_no_glyph(letter.character) || rooms_->faces[*face]->draws(letter.character);
  });
}

const FontFile& Typesetter::file(FaceId face) const { return rooms_->faces[face]->file(); }
const Result<std::string>& Typesetter::checksum(FaceId face) { return rooms_->faces[face]->checksum(); }

}  // namespace ordinatio
