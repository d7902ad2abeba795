#include <algorithm>
#include <string>

#include "base/base.h"
#include "strokes/alphabet.h"
#include "strokes/alphabet_text.h"

namespace ordinatio::inline strokes {
namespace {

struct StrokeFace {
  std::string_view name;
  StrokeAlphabet alphabet;
  std::string checksum;

  StrokeFace(std::string_view name_, double slant)
      : name(name_),
        alphabet(alphabet_text(), slant),
        checksum(sha256_hex(std::string(name_) + "\n" + std::string(alphabet_text()))) {}
};

const std::vector<StrokeFace>& faces() {
  constexpr double upright = 90;
  static const std::vector<StrokeFace> both{{"stroke", upright}, {"stroke-slanted", stroke_slant}};
  return both;
}

const StrokeFace* face_named(std::string_view name) {
  const auto found = std::ranges::find(faces(), name, &StrokeFace::name);
  return found == faces().end() ? nullptr : &*found;
}

}  // namespace

const std::vector<std::string_view>& stroke_face_names() {
  static const std::vector<std::string_view> names = [] {
    std::vector<std::string_view> all;
    for (const StrokeFace& face : faces()) all.push_back(face.name);
    return all;
  }();
  return names;
}

const StrokeAlphabet* stroke_face(std::string_view name) {
  const StrokeFace* face = face_named(name);
  return face == nullptr ? nullptr : &face->alphabet;
}

std::string_view stroke_face_checksum(std::string_view name) { return face_named(name)->checksum; }

}  // namespace ordinatio::inline strokes
