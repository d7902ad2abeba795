// The lists are small on purpose: what they lack costs a break that reads a little worse, what they hold too much forbids
// a good one. Common practice, no source, where none is given.
#include <algorithm>
#include <array>
#include <cstdint>
#include <unordered_map>

#include "text/code_points.h"
#include "text/words.h"

namespace ordinatio {
namespace {

using Words = std::string_view;  // each between spaces

bool holds(Words words, std::string_view word) {
  if (word.empty()) return false;
  for (std::size_t at = words.find(word); at != words.npos; at = words.find(word, at + 1)) {
    const bool begins = at == 0 || words[at - 1] == ' ';
    const std::size_t end = at + word.size();
    if (begins && (end == words.size() || words[end] == ' ')) return true;
  }
  return false;
}

struct Language {
  std::string_view tag;
  Words conjunctions;
  Words small_words;  // articles, and prepositions of up to four letters
};

constexpr std::array languages{
    Language{"en", "& + and or", "a an the of in on at to by for with from"},
    Language{"de", "& + und oder",
             "der die das den dem des ein eine einen einem einer im in am an zu zum zur von vom für mit bei"},
    Language{"fr", "& + et ou", "le la les un une des de du à au aux en par pour avec sur"},
    Language{"es", "& + y e o u", "el la los las un una de del al a en con por para"},
    Language{"it", "& + e ed o", "il lo la i gli le un uno una di da del della dei al alla a in con su per"},
    Language{"pt", "& + e ou", "o a os as um uma de do da dos das em no na com por para"},
    Language{"nl", "& + en of", "de het een van in op te aan voor met bij"},
    Language{"da", "& + og", "en et den det de i på af for med til fra"},
    Language{"nb", "& + og", "en ei et den det de i på av for med til fra"},
    Language{"sv", "& + och", "en ett den det de i på av för med till från"},
    Language{"pl", "& + i oraz a", "w z ze o u na do od dla po"},
    Language{"cs", "& + a i", "v ve z ze s se k ke o u na do od pro"},
    Language{"ru", "& + и", "в во с со к ко о об у на от до из для"},
};

bool is_of(const Language& language, std::string_view tag) {
  return tag.starts_with(language.tag) && (tag.size() == language.tag.size() || tag[language.tag.size()] == '-');
}

/// In which of `languages` a word is what; one bit a language.
struct Uses {
  std::uint32_t conjunction = 0, small_word = 0;
};
using Lexicon = std::unordered_map<std::string_view, Uses>;

void enter(Lexicon& lexicon, Words words, std::uint32_t Uses::*use, std::uint32_t language) {
  for (std::size_t begin = 0; begin < words.size();) {
    const std::size_t end = std::min(words.find(' ', begin), words.size());
    lexicon[words.substr(begin, end - begin)].*use |= language;
    begin = end + 1;
  }
}

const Lexicon& lexicon() {
  static const Lexicon made = [] {
    Lexicon all;
    for (std::size_t i = 0; i < languages.size(); ++i) {
      enter(all, languages[i].conjunctions, &Uses::conjunction, 1U << i);
      enter(all, languages[i].small_words, &Uses::small_word, 1U << i);
    }
    return all;
  }();
  return made;
}

bool is_one_letter(std::string_view word) {
  std::size_t at = 0;
  return !word.empty() && (next_character(word, at), at == word.size());
}

constexpr Words titles = "mr mrs ms miss dr prof st ste rev sir lady lord dame mme mlle herr frau sig sra srta ing mgr";
constexpr Words romance_titles = "sr don doña dona";  // where "Sr." is no senior and Don no first name

bool is_romance(std::string_view language) {
  return language.starts_with("es") || language.starts_with("pt") || language.starts_with("it");
}

constexpr Words particles =
    "von van de la le las los du des di da dal del della dei do dos das d' ten ter te bin bint ibn ben al el as af av "
    "mac "
    "ap ó ní";
// Before capitals these are German articles and prepositions more often than they begin a surname.
constexpr Words particles_after_particle = "der den";
constexpr Words particles_after_name = "zu zum zur vom";

constexpr Words generations = "Jr Jr. JR JR. jr jr. Jnr Jnr. Snr Snr. jun. sen. II III IV VI VII VIII";
constexpr Words seniors = "Sr Sr. SR SR. sr sr.";

// SI symbols and units used with them that goods are labelled with, currency signs, and the hours. Left out are symbols
// that are words too: "in", "a", "s", "h", "A", "W".
constexpr Words units =
    "mm cm dm m km µm kg g mg ml cl dl l L kW Hz kHz MHz ° °C °F % ‰ € $ £ ¥ kr kr. Kč zł ft lb lbs oz yd km/h mph am "
    "pm "
    "a.m. p.m. AM PM Uhr";
constexpr Words number_signs = "No. no. Nr. nr. Nº nº N° n° № # € $ £ ¥ p. S. ca. c.";

}  // namespace

WordKind kind_of(std::string_view folded, std::string_view language) {
  const auto found = lexicon().find(folded);
  if (found == lexicon().end()) return WordKind::other;
  const Uses uses = found->second;
  std::uint32_t own = 0;
  for (std::size_t i = 0; i < languages.size(); ++i) own |= is_of(languages[i], language) ? 1U << i : 0;
  if ((uses.conjunction & own) != 0) return WordKind::conjunction;
  if ((uses.small_word & own) != 0) return WordKind::small_word;
  // Single letters mean too much elsewhere: "I" is no Polish "and" in an English line.
  if (own != 0 && is_one_letter(folded)) return WordKind::other;
  return uses.conjunction != 0 ? WordKind::conjunction : WordKind::small_word;
}

bool is_title(std::string_view folded, std::string_view language) {
  return holds(titles, folded) || (is_romance(language) && holds(romance_titles, folded));
}

bool is_particle(std::string_view bare, std::string_view before) {
  if (holds(particles_after_particle, bare)) return holds(particles, before);
  if (holds(particles_after_name, bare)) return is_name(before);
  return holds(particles, bare);
}

bool is_generation(std::string_view bare, std::string_view language) {
  return holds(generations, bare) || (!is_romance(language) && holds(seniors, bare));
}

bool is_unit(std::string_view bare) { return holds(units, bare); }
bool is_number_sign(std::string_view bare) { return holds(number_signs, bare); }

}  // namespace ordinatio
