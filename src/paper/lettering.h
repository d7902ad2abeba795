// In: text for people (labels, a customer's words, notes), a size and perhaps a width, in mm.
// Out: shaped lines, and their glyphs on a canvas as text that can be searched and copied.
// Never: fails for want of a letter (what no face draws is spelled out); engraves.
#pragma once

#include <map>
#include <mutex>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "paper/canvas.h"
#include "paper/wording.h"
#include "text/text.h"

namespace ordinatio::inline paper {

/// A line of text at its size.
struct SetLine {
  ShapedLine shaped;
  std::vector<bool> odd;  // of each byte of the line, see Wording
  double size = 0;        // mm per em
  bool right_to_left = false;

  [[nodiscard]] double width() const { return size * shaped.advance; }
};

/// Words, and signs put among them, have each their colour.
struct Inks {
  Colour words, signs;
};

/// Sets text in the catalogue's plain faces, with the fallbacks that engraved text has too.
class Lettering {
 public:
  /// Faults: none of the faces is installed.
  static Result<Lettering> with(const FontLibrary& fonts);

  /// One line, however long. Invisible and undrawable characters are spelled out.
  SetLine set(std::string_view text, double size);
  /// Lines of at most `width` mm, broken where the text's language breaks them; a word that is wider is
  /// broken between graphemes. Never empty.
  std::vector<SetLine> set_column(std::string_view text, double size, double width);
  /// One line in a face of the catalogue or of the workshop; what the face lacks is drawn by others. Faults: no such
  /// face, or a character that no face draws.
  Result<SetLine> set_in(const std::string& face, std::string_view text, double size);

  /// `at`: the left end of the baseline.
  void draw(Canvas& canvas, const SetLine& line, Point at, Inks inks, const char* role = "P");
  void draw(Canvas& canvas, const SetLine& line, Point at, Colour colour) { draw(canvas, line, at, {colour, colour}); }

  /// What shapes its lines.
  Typesetter& typesetter() { return typesetter_; }

 private:
  Lettering(const FontLibrary& fonts, std::vector<std::string> faces);
  /// What is set again and again (cautions, colours, "mark 1"), once it has been set. Sizes scale it.
  struct Known {
    std::vector<SetLine> lines;  // at 1 mm per em
    [[nodiscard]] std::vector<SetLine> at(double size) const;
  };
  template <class Make>
  const Known& known(std::string key, const Make& make);
  Wording wording_of(std::string_view text);  // and takes on its language
  SetLine shaped(Wording wording, double size);
  bool draws(std::string_view text);
  std::vector<SetLine> column_of(std::string_view text, double ems);
  std::size_t line_end(const Wording& wording, const std::vector<std::size_t>& breaks, std::size_t begin, double ems);
  _cairo_font_face* face(FaceId id);

  Typesetter typesetter_;
  TextStyle style_;
  std::string space_sign_;
  std::unordered_map<std::string, bool> drawn_;  // graphemes, and whether a face draws them
  std::unordered_map<std::string, Known> known_;
  std::map<FaceId, CairoFace> faces_;
};

/// Letterings for whoever draws, as many as draw at a time: what one sheet's labels needed, the next one's need again.
/// For several threads.
class LetteringStock {
 public:
  explicit LetteringStock(const FontLibrary& fonts) : fonts_(fonts) {}
  /// Faults: as of Lettering::with.
  Result<Lettering> take();
  void give_back(Lettering lettering);

 private:
  const FontLibrary& fonts_;
  std::mutex guard_;
  std::vector<Lettering> free_;
};

}  // namespace ordinatio::inline paper
