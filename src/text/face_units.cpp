#include "text/face_units.h"

#include <unicode/uchar.h>
#include <unicode/uscript.h>

#include <algorithm>

#include "cleaning/invisibles.h"

namespace ordinatio::inline text {
namespace {

std::uint32_t mask_of(char32_t c) { return U_MASK(u_charType(static_cast<UChar32>(c))); }
bool is_digit(char32_t c) { return (mask_of(c) & U_GC_ND_MASK) != 0; }

/// Signs that may stand between two letters or digits of one word: 1990–2020, 12/05/2024, O’Brien, A&B.
bool joins_words(char32_t c) {
  return (mask_of(c) & (U_GC_PD_MASK | U_GC_PC_MASK)) != 0 ||
         u_hasBinaryProperty(static_cast<UChar32>(c), UCHAR_DASH) ||
         std::u32string_view(U".,:;/\\'’&@·•+=×*~").find(c) != std::u32string_view::npos;
}
/// Signs that belong to the number that they touch: €20, 20 °C, #3, 50%.
bool joins_numbers(char32_t c) {
  return (mask_of(c) & (U_GC_SC_MASK | U_GC_SM_MASK)) != 0 ||
         std::u32string_view(U"%‰°′″#№").find(c) != std::u32string_view::npos;
}

/// Walks over graphemes: [first, last) of letters.
class Units {
 public:
  explicit Units(const std::vector<LineLetter>& letters) : letters_(letters) {}

  std::vector<FaceUnit> all() {
    std::vector<FaceUnit> units;
    for (std::size_t at = 0; at < letters_.size(); at = units.back().last) units.push_back(unit_at(at));
    return units;
  }

 private:
  [[nodiscard]] std::size_t after(std::size_t at) const {
    std::size_t next = at;
    while (next < letters_.size() && letters_[next].grapheme == letters_[at].grapheme) ++next;
    return next;
  }
  [[nodiscard]] char32_t at(std::size_t i) const { return i < letters_.size() ? letters_[i].character : U' '; }

  [[nodiscard]] FaceUnit unit_at(std::size_t first) const {
    if (is_space(at(first))) return {first, after(first), FaceUnit::Kind::space, letters_[first].script, false};
    std::size_t begin = first;
    if (joins_numbers(at(first)) && is_digit(at(after(first)))) begin = after(first);
    if (!is_wordy(at(begin))) return {first, after(first), FaceUnit::Kind::sign, letters_[first].script, false};
    FaceUnit word{first, begin, FaceUnit::Kind::word, letters_[first].script, true};
    while (takes(word, word.last)) word.last = after(word.last);
    return word;
  }

  /// Whether the word goes on at this letter; notes its script.
  [[nodiscard]] bool takes(FaceUnit& word, std::size_t next) const {
    if (next >= letters_.size() || is_space(at(next))) return false;
    if (is_wordy(at(next))) return is_of_script(word, next);
    const std::size_t behind = after(next);
    if (is_digit(at(next - 1)) && joins_numbers(at(next))) return true;
    return joins_words(at(next)) && is_wordy(at(behind)) && is_of_script(word, behind);
  }

  [[nodiscard]] bool is_of_script(FaceUnit& word, std::size_t next) const {
    const LineLetter& letter = letters_[next];
    if (letter.takes_any_script) return true;
    if (!word.is_plain && script_group(word.script) != script_group(letter.script)) return false;
    if (std::exchange(word.is_plain, false)) word.script = letter.script;
    return true;
  }

  const std::vector<LineLetter>& letters_;
};

}  // namespace

bool is_wordy(char32_t c) { return (mask_of(c) & (U_GC_L_MASK | U_GC_M_MASK | U_GC_N_MASK)) != 0; }

std::vector<FaceUnit> face_units(const std::vector<LineLetter>& letters) { return Units(letters).all(); }

int script_group(int script) {
  constexpr int together[] = {USCRIPT_HIRAGANA, USCRIPT_KATAKANA, USCRIPT_HANGUL, USCRIPT_BOPOMOFO};
  return std::ranges::find(together, script) == std::end(together) ? script : int{USCRIPT_HAN};
}

bool is_written_without_spaces(int script) {
  constexpr int scripts[] = {USCRIPT_HAN, USCRIPT_THAI,     USCRIPT_LAO,      USCRIPT_KHMER,   USCRIPT_MYANMAR,
                             USCRIPT_YI,  USCRIPT_JAVANESE, USCRIPT_BALINESE, USCRIPT_TIBETAN, USCRIPT_TAI_LE};
  return std::ranges::find(scripts, script_group(script)) != std::end(scripts);
}

}  // namespace ordinatio::inline text
