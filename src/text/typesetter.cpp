#include <algorithm>
#include <cmath>

#include "text/claims.h"
#include "text/drawn.h"
#include "text/face_choice.h"
#include "text/face_limits.h"
#include "text/gauges.h"
#include "text/letter_space.h"
#include "text/marks.h"
#include "text/word_clearance.h"

namespace ordinatio::inline text {

struct Typesetter::Rooms {
  explicit Rooms(const FontLibrary& library_)
      : library(&library_),
        ink([this](const PlacedGlyph& g) -> const GlyphOutline& { return faces[g.face]->outline(g.glyph); }),
        gauges([this](const PlacedGlyph& g) -> const GlyphOutline& { return faces[g.face]->outline(g.glyph); },
               [this](FaceId face) -> const std::string& { return names[face]; }, ink, library_.measured().gauges),
        marks([this](FaceId face) -> const Face& { return *faces[face]; },
              [this](const PlacedGlyph& g) -> const GlyphOutline& { return faces[g.face]->outline(g.glyph); }, ink) {}

  Result<FaceId> open(const std::string& name, const std::vector<std::string>& axes = {});
  Result<std::vector<FaceId>> open_own(const TextStyle& style);
  /// Those that are installed; a Fault where one of them is damaged.
  const std::vector<Result<FaceId>>& fallback(const std::string& language, const std::string& style);
  MaybeFault check_claims(FaceId own, const std::vector<LineLetter>& letters);
  /// The language to shape a script's runs in: the design's where it is written in that script, else the told one.
  const std::string& language_for(int script, const TextStyle& style);
  MaybeFault choose(std::vector<LineLetter>& letters, std::string_view line, const TextStyle& style,
                    std::size_t line_number);
  [[nodiscard]] bool is_decorative(FaceId face) const;
  /// "serif", "sans" or nothing: what the catalogue says of the face, else what the face says of itself.
  [[nodiscard]] std::string style_of(FaceId face) const;
  /// Of a style's own faces; `letters`, `line` and `style` must outlive it.
  FaceRoster roster_for(const std::vector<LineLetter>& letters, std::string_view line, const TextStyle& style,
                        std::size_t line_number, const std::vector<FaceId>& own);
  [[nodiscard]] bool sets_all(FaceId face, const std::vector<LineLetter>& letters) const;
  /// Of the letters that are one run, or part of one.
  RunRequest request_for(std::string_view line, const std::vector<LineLetter>& letters, const Run& run,
                         const TextStyle& style, std::span<const hb_feature_t> features);
  /// Whether what came out in the line still has every mark on its letter.
  MaybeFault check_marks(const ShapedLine& line, const std::vector<LineLetter>& letters, const TextStyle& style,
                         std::size_t line_number);
  MaybeFault shape_run(ShapedLine& line, const std::vector<LineLetter>& letters, const Run& run,
                       const TextStyle& style);

  const FontLibrary* library;
  std::vector<std::unique_ptr<Face>> faces;
  std::vector<std::string> names;  // of each face, with its axes
  std::map<std::string, FaceId> by_name;
  std::map<std::pair<std::string, std::string>, std::vector<Result<FaceId>>> fallbacks;  // by language and style
  std::map<std::string, std::vector<int>> scripts_by_language;
  HbBuffer buffer{hb_buffer_create()};
  InkCache ink;
  LineBreaker breaker;
  GaugeCache gauges;
  MarkJudge marks;
};

Result<FaceId> Typesetter::Rooms::open(const std::string& name, const std::vector<std::string>& axes) {
  std::string key = name;
  for (const std::string& axis : axes) key += '\n' + axis;
  if (const auto known = by_name.find(key); known != by_name.end()) return known->second;
  const Result<FontFile> file = library->find(name);
  if (!file.ok()) return file.fault();
  Result<std::unique_ptr<Face>> face = Face::open(*file, axes);
  if (!face.ok()) return face.fault();
  (*face)->share(library->measured(), key);
  faces.push_back(std::move(*face));
  names.push_back(key);
  return by_name.emplace(std::move(key), static_cast<FaceId>(faces.size() - 1)).first->second;
}

/// The style's own faces; its axes are the first one's.
Result<std::vector<FaceId>> Typesetter::Rooms::open_own(const TextStyle& style) {
  std::vector<FaceId> ids;
  for (const std::string& name : style.faces) {
    const Result<FaceId> id = ids.empty() ? open(name, style.axes) : open(name);
    if (!id.ok()) return id.fault();
    ids.push_back(*id);
  }
  return ids;
}

const std::vector<Result<FaceId>>& Typesetter::Rooms::fallback(const std::string& language, const std::string& style) {
  const auto [entry, is_new] = fallbacks.try_emplace({language, style});
  if (is_new) {
    for (const std::string& name : library->fallback_names(language, style)) {
      // A fallback that is not installed is passed over; what then no face draws is said by name.
      if (library->find(name).ok()) entry->second.push_back(open(name));
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

bool Typesetter::Rooms::is_decorative(FaceId face) const {
  if (faces[face]->file().strokes != nullptr) return true;  // outlines among its lines could not be engraved
  const std::vector<CatalogueFace>& known = library->catalogue();
  const auto entry = std::ranges::find(known, faces[face]->file().name, &CatalogueFace::name);
  return entry != known.end() && entry->decorative;
}

std::string Typesetter::Rooms::style_of(FaceId face) const {
  const std::vector<CatalogueFace>& known = library->catalogue();
  const auto entry = std::ranges::find(known, faces[face]->file().name, &CatalogueFace::name);
  if (entry != known.end()) return entry->style;
  return faces[face]->is_sans() ? "sans" : "";
}

/// All letters are drawn, and no mark is left to judge.
bool Typesetter::Rooms::sets_all(FaceId face, const std::vector<LineLetter>& letters) const {
  return !has_marks(letters) &&
         std::ranges::all_of(letters, [&](const LineLetter& letter) { return faces[face]->draws(letter.character); });
}

MaybeFault Typesetter::Rooms::choose(std::vector<LineLetter>& letters, std::string_view line, const TextStyle& style,
                                     std::size_t line_number) {
  const Result<std::vector<FaceId>> own = open_own(style);
  if (!own.ok()) return own.fault();
  const FaceId first = own->front();
  if (auto fault = check_claims(first, letters)) return fault;
  if (style.script_faces.empty() && sets_all(first, letters)) {
    for (LineLetter& letter : letters) letter.face = first;
    return std::nullopt;
  }
  FaceRoster roster = roster_for(letters, line, style, line_number, *own);
  for (const ScriptFace& one : style.script_faces) {
    const Result<FaceId> face = open(one.face);
    if (!face.ok()) return face.fault();
    roster.by_script.emplace_back(one.script, *face);
  }
  return choose_faces(letters, roster);
}

FaceRoster Typesetter::Rooms::roster_for(const std::vector<LineLetter>& letters, std::string_view line,
                                         const TextStyle& style, std::size_t line_number,
                                         const std::vector<FaceId>& own) {
  FaceRoster roster{own, is_decorative(own.front()), line, line_number, {}, {}, {}, {}};
  const std::string look = style.serifs_first ? "" : style_of(own.front());
  roster.fallback = [this, &style, look](int script) -> const std::vector<Result<FaceId>>& {
    return fallback(language_for(script, style), look);
  };
  roster.draws = [this](FaceId face, char32_t character) { return faces[face]->draws(character); };
  roster.sits = [this, &letters, &style, line, features = features_of(style, style.letter_spacing != 0)](
                    FaceId face, std::span<const LineLetter> grapheme) {
    const auto at = static_cast<std::size_t>(grapheme.data() - letters.data());
    const Run run{at, at + grapheme.size(), grapheme.front().level, grapheme.front().script, face};
    return marks.sits(face, grapheme, request_for(line, letters, run, style, features));
  };
  roster.of_lines = faces[own.front()]->file().strokes != nullptr;
  roster.name = [this](FaceId face) { return faces[face]->file().name; };
  return roster;
}

RunRequest Typesetter::Rooms::request_for(std::string_view line, const std::vector<LineLetter>& letters, const Run& run,
                                          const TextStyle& style, std::span<const hb_feature_t> features) {
  const std::size_t end = run.last < letters.size() ? letters[run.last].byte : line.size();
  return {line,       letters[run.first].byte,         end,     run.level % 2 == 1,
          run.script, language_for(run.script, style), features};
}

MaybeFault Typesetter::Rooms::check_marks(const ShapedLine& line, const std::vector<LineLetter>& letters,
                                          const TextStyle& style, std::size_t line_number) {
  if (!has_marks(letters)) return std::nullopt;
  const std::vector<hb_feature_t> features = features_of(style, style.letter_spacing != 0);
  for (std::size_t first = 0, last = 0; first < letters.size(); first = last) {
    while (last < letters.size() && letters[last].grapheme == letters[first].grapheme) ++last;
    const std::span<const LineLetter> grapheme(letters.data() + first, last - first);
    if (!has_marks(grapheme)) continue;
    std::vector<PlacedGlyph> glyphs;
    for (const PlacedGlyph& glyph : line.glyphs) {
      if (glyph.cluster == letters[first].byte) glyphs.push_back(glyph);
    }
    const Run run{first, last, letters[first].level, letters[first].script, letters[first].face};
    if (glyphs.empty() || marks.sits(glyphs, grapheme, request_for(line.text, letters, run, style, features))) continue;
    return Fault{"a mark would not sit on its letter", place_in(letters, first, line_number),
                 "beside its neighbours the face " + faces[run.face]->file().name + " sets it elsewhere",
                 "Name another face in the design, or ask the customer for other words"};
  }
  return std::nullopt;
}

MaybeFault Typesetter::Rooms::shape_run(ShapedLine& line, const std::vector<LineLetter>& letters, const Run& run,
                                        const TextStyle& style) {
  const Face& face = *faces[run.face];
  hb_buffer_t* text = buffer.get();
  const bool spaced = style.letter_spacing != 0 && !joins(run.script);
  const std::vector<hb_feature_t> features = features_of(style, spaced);
  shape_into(text, face.font(), request_for(line.text, letters, run, style, features));
  unsigned count = 0;
  const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(text, &count);
  const hb_glyph_position_t* positions = hb_buffer_get_glyph_positions(text, &count);
  if (count > face_limits::shaped_glyphs(run.last - run.first)) {
    return face.damaged("its tables make " + std::to_string(count) + " glyphs of so few letters");
  }
  for (unsigned i = 0; i < count; ++i) {
    const double furthest =
        std::max({std::abs(face.em(positions[i].x_offset)), std::abs(face.em(positions[i].y_offset)),
                  std::abs(face.em(positions[i].x_advance))});
    if (furthest > face_limits::glyph_reach) return face.damaged("it sets a letter far from its place");
    const Point origin{line.advance + face.em(positions[i].x_offset), face.em(positions[i].y_offset)};
    const bool unsafe = (hb_glyph_info_get_glyph_flags(&infos[i]) & HB_GLYPH_FLAG_UNSAFE_TO_BREAK) != 0;
    line.glyphs.push_back(
        {run.face, infos[i].codepoint, origin, infos[i].cluster, !unsafe, static_cast<std::int16_t>(run.script)});
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
  if (auto fault = rooms_->choose(letters, text, style, line_number)) return *std::move(fault);
  ShapedLine line;
  line.text = text;
  const std::vector<Run> runs = runs_of(letters);
  for (const Run& run : runs) {
    if (auto fault = rooms_->shape_run(line, letters, run, style)) return *std::move(fault);
  }
  if (style.letter_spacing != 0) line.advance -= space_at_end(letters, line.glyphs, style.letter_spacing);
  if (auto fault = undrawn(line, letters, line_number, rooms_->faces)) return *std::move(fault);
  if (auto fault = rooms_->check_marks(line, letters, style, line_number)) return *std::move(fault);
  clear_words(line, [this](const PlacedGlyph& g) -> const GlyphOutline& { return outline(g.face, g.glyph); });
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

std::vector<ScriptFace> Typesetter::script_faces(const std::vector<LineInStyle>& lines) {
  std::vector<RosteredLine> block;
  block.reserve(lines.size());  // the rosters look at the letters where they are
  bool sets_all = true;
  for (const LineInStyle& line : lines) {
    const Result<std::vector<FaceId>> own = rooms_->open_own(*line.style);
    if (!own.ok()) return {};  // told where the line is set
    RosteredLine& last = block.emplace_back(RosteredLine{letters_of(line.text), {}});
    last.roster = rooms_->roster_for(last.letters, line.text, *line.style, 1, *own);
    sets_all &= rooms_->sets_all(own->front(), last.letters);
  }
  std::vector<ScriptFace> faces;
  if (sets_all) return faces;
  for (const auto& [script, face] : faces_by_script(block)) faces.push_back({script, file(face).name});
  return faces;
}

std::vector<StandIn> Typesetter::stand_ins(const ShapedLine& line, const TextStyle& style) {
  std::vector<StandIn> words;
  const Result<FaceId> own = rooms_->open(style.faces.front(), style.axes);
  const auto is_own = [&own](const PlacedGlyph& glyph) { return own.ok() && glyph.face == *own; };
  if (std::ranges::all_of(line.glyphs, is_own)) return words;
  std::vector<LineLetter> letters = letters_of(line.text);
  TextStyle alone = style;
  alone.script_faces.clear();
  const bool is_alone = style.script_faces.empty() || rooms_->choose(letters, line.text, alone, 1).has_value();
  for (const FaceUnit& unit : face_units(letters)) {
    if (unit.kind != FaceUnit::Kind::word) continue;
    const std::size_t begin = letters[unit.first].byte;
    const std::size_t end = unit.last < letters.size() ? letters[unit.last].byte : line.text.size();
    const auto glyph = std::ranges::find_if(
        line.glyphs, [&](const PlacedGlyph& g) { return g.cluster >= begin && g.cluster < end && !is_own(g); });
    if (glyph == line.glyphs.end()) continue;
    const bool with_others = !is_alone && own.ok() && letters[unit.first].face == *own;
    words.push_back({line.text.substr(begin, end - begin), file(glyph->face).name, with_others});
  }
  return words;
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

Result<FaceHeights> Typesetter::metrics(const TextStyle& style) {
  const Result<FaceId> id = rooms_->open(style.faces.front(), style.axes);
  if (!id.ok()) return id.fault();
  Face& face = *rooms_->faces[*id];
  const FaceHeights metrics = face.metrics();
  // Sizes are told by these: 0 or less would make them endless. No face's capitals are taller than a few em.
  const auto is_height = [](double height) { return height > 1e-3 && height < face_limits::glyph_reach; };
  if (!is_height(metrics.cap_height) || !is_height(metrics.x_height)) {
    return face.damaged("its letters H or x have no height");
  }
  return metrics;
}

const ScriptHeights& Typesetter::heights(FaceId face, int script) { return rooms_->faces[face]->heights(script); }

LineGauges Typesetter::gauges(const ShapedLine& line, double spot) { return rooms_->gauges.gauges_of(line, spot); }

namespace {

/// Whether small letters of the style's first face run into one another, as in a joined hand.
bool letters_join(Typesetter& typesetter, InkCache& ink, const TextStyle& style) {
  const Result<ShapedLine> word = typesetter.shape("nunimu", {{style.faces.front()}, "", "", style.axes});
  return word.ok() && word->glyphs.size() > 1 && ink.groups_of(*word).size() == 1;
}

}  // namespace

MaybeFault Typesetter::check_style(const TextStyle& style) {
  const Result<std::vector<FaceId>> own = rooms_->open_own(style);
  if (!own.ok()) return own.fault();
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
  if (!face.ok()) return face.fault();
  return std::ranges::all_of(letters_of(text), [&](const LineLetter& letter) {
    return needs_no_glyph(letter.character) || rooms_->faces[*face]->draws(letter.character);
  });
}

const FontFile& Typesetter::file(FaceId face) const { return rooms_->faces[face]->file(); }
const Result<std::string>& Typesetter::checksum(FaceId face) { return rooms_->faces[face]->checksum(); }

}  // namespace ordinatio::inline text
