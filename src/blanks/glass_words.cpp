#include <unicode/normalizer2.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>

#include <algorithm>
#include <vector>

#include "blanks/glass.h"

namespace ordinatio::inline blanks {
namespace {

enum class Says { safety, perhaps_safety, glass, annealed };

/// One or more words, folded: without capitals and accents. `*` in front: the word ends so; behind: it begins so;
/// both: it holds that.
struct Phrase {
  std::string_view words;
  Says says;
};

// English as the trade has it, all other languages from memory. A word too many holds a piece that a person then lets go;
// a word too few hurts somebody.
constexpr Phrase phrases[] = {
    // English
    {"tempered", Says::perhaps_safety},
    {"toughened", Says::safety},
    {"hardened", Says::perhaps_safety},
    {"prestressed", Says::safety},
    {"heat strengthened", Says::safety},
    {"heatstrengthened", Says::safety},
    {"heat treated", Says::perhaps_safety},
    {"heat soaked", Says::safety},
    {"strengthened", Says::perhaps_safety},
    {"safety glass*", Says::safety},
    {"safety glazing", Says::safety},
    {"safetyglass", Says::safety},
    {"safety pane*", Says::safety},
    {"security glass*", Says::safety},
    {"laminated", Says::perhaps_safety},
    {"wired", Says::perhaps_safety},
    {"wire glass", Says::safety},
    {"wire mesh", Says::perhaps_safety},
    {"bulletproof", Says::safety},
    {"bullet proof", Says::safety},
    {"windscreen*", Says::safety},
    {"windshield*", Says::safety},
    // German
    {"gehartet*", Says::perhaps_safety},
    {"gehaertet*", Says::perhaps_safety},
    {"vorgespannt*", Says::safety},
    {"teilvorgespannt*", Says::safety},
    {"esg*", Says::safety},
    {"vsg*", Says::safety},
    {"tvg*", Says::safety},
    {"*sicherheitsgl*", Says::safety},
    {"*verbundgl*", Says::safety},
    {"*drahtgl*", Says::safety},
    {"*drahtspiegelgl*", Says::safety},
    {"*drahtornamentgl*", Says::safety},
    {"*hartgl*", Says::safety},
    {"*panzergl*", Says::safety},
    {"laminiert*", Says::perhaps_safety},
    // French
    {"trempe", Says::perhaps_safety},
    {"trempee", Says::perhaps_safety},
    {"trempes", Says::perhaps_safety},
    {"trempees", Says::perhaps_safety},
    {"durci", Says::perhaps_safety},
    {"feuillete*", Says::perhaps_safety},
    {"verre arme", Says::safety},
    {"de securite", Says::perhaps_safety},
    // Spanish, Portuguese
    {"templad*", Says::perhaps_safety},
    {"temperad*", Says::perhaps_safety},
    {"laminad*", Says::perhaps_safety},
    {"armado", Says::perhaps_safety},
    {"aramado", Says::safety},
    {"de seguridad", Says::perhaps_safety},
    {"de seguranca", Says::perhaps_safety},
    // Italian
    {"temperato", Says::perhaps_safety},
    {"temperata", Says::perhaps_safety},
    {"temperati", Says::perhaps_safety},
    {"temprat*", Says::perhaps_safety},
    {"stratificato", Says::perhaps_safety},
    {"stratificata", Says::perhaps_safety},
    {"laminato", Says::perhaps_safety},
    {"laminata", Says::perhaps_safety},
    {"laminate", Says::perhaps_safety},
    {"retinat*", Says::safety},
    {"armato", Says::perhaps_safety},
    {"di sicurezza", Says::perhaps_safety},
    // Dutch
    {"gehard*", Says::perhaps_safety},
    {"voorgespannen", Says::safety},
    {"gelaagd*", Says::perhaps_safety},
    {"gelamineerd*", Says::perhaps_safety},
    {"*veiligheidsgl*", Says::safety},
    {"*draadgl*", Says::safety},
    // Polish
    {"hartowan*", Says::perhaps_safety},
    {"zahartowan*", Says::perhaps_safety},
    {"bezpieczn*", Says::perhaps_safety},
    {"laminowan*", Says::perhaps_safety},
    {"zbrojon*", Says::perhaps_safety},
    // Czech, Slovak
    {"kalene", Says::perhaps_safety},
    {"kaleny", Says::perhaps_safety},
    {"kalena", Says::perhaps_safety},
    {"kaleneho", Says::perhaps_safety},
    {"tvrzen*", Says::perhaps_safety},
    {"bezpecnost*", Says::perhaps_safety},
    {"vrstven*", Says::perhaps_safety},
    {"dratosklo", Says::safety},
    // Swedish, Danish, Norwegian
    {"hardat", Says::perhaps_safety},
    {"hardad", Says::perhaps_safety},
    {"hærdet", Says::perhaps_safety},
    {"haerdet", Says::perhaps_safety},
    {"herdet", Says::perhaps_safety},
    {"laminer*", Says::perhaps_safety},
    {"*sakerhetsgl*", Says::safety},
    {"*sikkerhedsgl*", Says::safety},
    {"*sikkerhetsgl*", Says::safety},
    {"*tradgl*", Says::safety},
    // Finnish
    {"karkaist*", Says::perhaps_safety},
    {"laminoit*", Says::perhaps_safety},
    {"turvalasi*", Says::safety},
    {"lankalasi*", Says::safety},
    // Ukrainian, Russian
    {"загартован*", Says::perhaps_safety},
    {"закален*", Says::perhaps_safety},
    {"ламінован*", Says::perhaps_safety},
    {"ламинирован*", Says::perhaps_safety},
    {"многослоин*", Says::perhaps_safety},
    {"триплекс*", Says::safety},
    {"армован*", Says::perhaps_safety},
    {"армирован*", Says::perhaps_safety},
    {"безпечн*", Says::perhaps_safety},
    {"безопасн*", Says::perhaps_safety},
    // glass itself, in the same languages
    {"annealed", Says::annealed},
    {"*glass", Says::glass},
    {"*glas", Says::glass},
    {"glazing", Says::glass},
    {"mirror*", Says::glass},
    {"*spiegel", Says::glass},
    {"verre", Says::glass},
    {"verres", Says::glass},
    {"vitre", Says::glass},
    {"vitres", Says::glass},
    {"vitrage", Says::glass},
    {"vitrages", Says::glass},
    {"miroir*", Says::glass},
    {"vidrio*", Says::glass},
    {"cristal*", Says::glass},
    {"espejo*", Says::glass},
    {"vidro*", Says::glass},
    {"espelho*", Says::glass},
    {"vetr*", Says::glass},
    {"specchi*", Says::glass},
    {"szklo*", Says::glass},
    {"szklan*", Says::glass},
    {"lustro", Says::glass},
    {"sklo*", Says::glass},
    {"sklen*", Says::glass},
    {"zrcadl*", Says::glass},
    {"spegel*", Says::glass},
    {"spejl*", Says::glass},
    {"speil*", Says::glass},
    {"*lasi", Says::glass},
    {"peili*", Says::glass},
    {"скло*", Says::glass},
    {"склян*", Says::glass},
    {"дзеркал*", Says::glass},
    {"стекл*", Says::glass},
    {"зеркал*", Says::glass},
};

/// Straight before a word, they deny it. From memory but for the English ones.
constexpr std::string_view denials[] = {"not",  "no",    "non",  "un",   "never", "isnt",  "wasnt", "nicht",
                                        "kein", "keine", "pas",  "sans", "sin",   "senza", "niet",  "geen",
                                        "nie",  "bez",   "neni", "inte", "ikke",  "ei",    "не",    "без"};
constexpr std::size_t least_misspelt = 7;  // letters: a shorter word is too near to others

/// A word as it is written and as it is compared.
struct CellWord {
  std::string written, folded;
};

bool is_letter(UChar32 c) { return u_isalnum(c) != 0; }
bool is_passed_over(UChar32 c) {
  const auto type = u_charType(c);
  return type == U_NON_SPACING_MARK || type == U_FORMAT_CHAR || c == '\'' || c == 0x2019;
}

/// Without capitals, accents and compatibility forms (UAX 15); ł and ø have no accent to take away.
void append_folded(icu::UnicodeString& folded, UChar32 c, const icu::Normalizer2& nfkd) {
  icu::UnicodeString one(u_foldCase(c, U_FOLD_CASE_DEFAULT)), parts;
  UErrorCode error = U_ZERO_ERROR;
  nfkd.normalize(one, parts, error);
  if (U_FAILURE(error)) parts = one;
  for (int32_t i = 0; i < parts.length(); i = parts.moveIndex32(i, 1)) {
    const UChar32 part = u_foldCase(parts.char32At(i), U_FOLD_CASE_DEFAULT);
    if (!is_passed_over(part)) folded.append(part == 0x142 ? UChar32{'l'} : part == 0xF8 ? UChar32{'o'} : part);
  }
}

std::vector<CellWord> words_in_cell(std::string_view text) {
  UErrorCode error = U_ZERO_ERROR;
  const icu::Normalizer2* nfkd = icu::Normalizer2::getNFKDInstance(error);
  std::vector<CellWord> words;
  if (U_FAILURE(error)) return words;
  const auto all = icu::UnicodeString::fromUTF8(icu::StringPiece(text.data(), static_cast<int32_t>(text.size())));
  icu::UnicodeString written, folded;
  const auto end = [&] {
    if (!folded.isEmpty()) {
      CellWord& word = words.emplace_back();
      written.toUTF8String(word.written);
      folded.toUTF8String(word.folded);
    }
    written.remove(), folded.remove();
  };
  for (int32_t i = 0; i < all.length(); i = all.moveIndex32(i, 1)) {
    const UChar32 c = all.char32At(i);
    if (is_passed_over(c)) continue;
    if (!is_letter(c)) {
      end();
      continue;
    }
    written.append(c);
    append_folded(folded, c, *nfkd);
  }
  end();
  return words;
}

/// Whether one letter too many, too few or another makes one of the other; two that changed places count as one.
/// The first letter is seldom wrong: what is roughened is not toughened.
bool is_one_off(std::string_view a, std::string_view b) {
  if (a.empty() || b.empty() || a.front() != b.front()) return false;
  if (a.size() < b.size()) std::swap(a, b);
  if (a.size() - b.size() > 1) return false;
  const auto [in_a, in_b] = std::ranges::mismatch(a, b);
  const std::string_view rest_a(in_a, a.end()), rest_b(in_b, b.end());
  if (rest_a.empty()) return true;
  if (a.size() > b.size()) return rest_a.substr(1) == rest_b;
  if (rest_a.substr(1) == rest_b.substr(1)) return true;
  return rest_a.size() > 1 && rest_a[0] == rest_b[1] && rest_a[1] == rest_b[0] && rest_a.substr(2) == rest_b.substr(2);
}

bool is_said_by(std::string_view pattern, std::string_view word, bool may_be_misspelt) {
  if (pattern.starts_with('*') && pattern.ends_with('*'))
    return word.find(pattern.substr(1, pattern.size() - 2)) != std::string_view::npos;
  if (pattern.ends_with('*')) return word.starts_with(pattern.substr(0, pattern.size() - 1));
  if (pattern.starts_with('*')) return word.ends_with(pattern.substr(1));
  if (word == pattern) return true;
  return may_be_misspelt && pattern.size() >= least_misspelt && is_one_off(word, pattern);
}

/// How many words of the text, from `at` on, say the phrase; 0: they do not.
std::size_t said_at(const Phrase& phrase, const std::vector<CellWord>& words, std::size_t at) {
  std::string_view left = phrase.words;
  const bool is_one = left.find(' ') == std::string_view::npos;
  std::size_t count = 0;
  for (bool more = true; more; ++count) {
    const std::size_t space = left.find(' ');
    if (at + count == words.size()) return 0;
    if (!is_said_by(left.substr(0, space), words[at + count].folded, is_one && phrase.says <= Says::perhaps_safety))
      return 0;
    more = space != std::string_view::npos;
    if (more) left.remove_prefix(space + 1);
  }
  return count;
}

std::string written_from(const std::vector<CellWord>& words, std::size_t at, std::size_t count) {
  std::string written;
  for (std::size_t i = at; i < at + count; ++i) written += (i == at ? "" : " ") + words[i].written;
  return written;
}

void take(GlassWords& found, const Phrase& phrase, const std::vector<CellWord>& words, std::size_t at,
          std::size_t count, bool is_doubted) {
  if (phrase.says == Says::glass) {
    if (words[at].folded == "douglas") return;  // a fir
    if (found.speaks.empty()) found.speaks = words[at].written;
    found.is_plain = found.is_plain || !phrase.words.starts_with('*') || words[at].folded == phrase.words.substr(1);
    return;
  }
  const bool is_denied = at > 0 && std::ranges::find(denials, words[at - 1].folded) != std::end(denials);
  if (phrase.says == Says::annealed) {
    found.is_annealed = !is_denied && !is_doubted;
    return;
  }
  if (is_denied && !is_doubted) {
    if (found.denied.empty()) found.denied = written_from(words, at - 1, count + 1);
    return;
  }
  const bool is_sure = phrase.says == Says::safety;
  if (!found.safety.empty() && (found.is_sure || !is_sure)) return;
  found.safety = written_from(words, at, count);
  found.is_sure = is_sure;
}

}  // namespace

GlassWords glass_words_in(std::string_view text) {
  GlassWords found;
  const std::vector<CellWord> words = words_in_cell(text);
  const bool is_doubted = text.find('?') != std::string_view::npos;  // "not tempered?" denies nothing
  for (std::size_t at = 0; at < words.size(); ++at) {
    for (const Phrase& phrase : phrases) {
      if (const std::size_t count = said_at(phrase, words, at)) take(found, phrase, words, at, count, is_doubted);
    }
  }
  return found;
}

}  // namespace ordinatio::inline blanks
