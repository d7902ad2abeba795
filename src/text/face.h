// One opened face: its HarfBuzz font and what was measured on it. Of this folder alone.
#pragma once

#include <hb.h>

#include <memory>
#include <optional>
#include <unordered_map>

#include "text/text.h"

namespace ordinatio::inline text {

template <auto Destroy>
struct Destroyer {
  template <class T>
  void operator()(T* thing) const {
    Destroy(thing);
  }
};
using HbFont = std::unique_ptr<hb_font_t, Destroyer<hb_font_destroy>>;
using HbBuffer = std::unique_ptr<hb_buffer_t, Destroyer<hb_buffer_destroy>>;

class Face {
 public:
  /// Faults: no file, no font in it, or a damaged one; an axis ("wght=650") that the face has not, or a value outside it.
  static Result<std::unique_ptr<Face>> open(const FontFile& file, const std::vector<std::string>& axes = {});

  /// What is costly to work out for a glyph is from now on worked out once for all faces of this name and axes.
  void share(FontLibrary::Measured& measured, const std::string& name) { measured_ = &measured, name_ = name; }
  [[nodiscard]] const FontFile& file() const { return file_; }
  [[nodiscard]] hb_font_t* font() const { return font_.get(); }
  /// Font units are HarfBuzz's positions; this makes ems of them.
  [[nodiscard]] double em(double units) const { return units / units_per_em_; }
  [[nodiscard]] bool draws(char32_t character) const;
  /// The glyph of one character, 0 when there is none.
  [[nodiscard]] hb_codepoint_t glyph_of(char32_t character) const;
  /// Empty where the glyph is damaged.
  const GlyphOutline& outline(hb_codepoint_t glyph);
  /// Why the glyph's outline is no letter's, once it was asked for; empty where it is sound.
  [[nodiscard]] std::string damage_of(hb_codepoint_t glyph) const;
  /// The Fault that names the face's file.
  [[nodiscard]] Fault damaged(const std::string& why) const;
  FaceHeights metrics();
  const ScriptHeights& heights(int script);
  /// Whether the face has an OpenType feature, for substitution or for placing.
  [[nodiscard]] bool has_feature(hb_tag_t tag) const;
  /// By its PANOSE number; false where it says nothing.
  [[nodiscard]] bool is_sans() const;
  const Result<std::string>& checksum();

 private:
  Face(FontFile file, HbFont font, unsigned units_per_em);
  FontFile file_;
  HbFont font_;
  double units_per_em_;
  FontLibrary::Measured* measured_ = nullptr;
  std::string name_;
  std::unordered_map<hb_codepoint_t, GlyphOutline> outlines_;
  std::unordered_map<hb_codepoint_t, std::string> damages_;
  std::unordered_map<int, ScriptHeights> heights_;  // by script
  std::optional<Result<std::string>> checksum_;
};

}  // namespace ordinatio::inline text
