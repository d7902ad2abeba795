// The lists are small on purpose: what they lack costs a break that reads a little worse, what they hold too much makes
// a good one dear. Common practice, no source, where none is given.
#include <algorithm>
#include <array>
#include <cstdint>
#include <unordered_map>

#include "base/utf8.h"
#include "text/words.h"

namespace ordinatio::inline text {
namespace {

using Words = std::string_view;  // each between spaces

bool holds(Words words, std::string_view word) {
  if (word.empty()) return false;
  for (std::size_t at = words.find(word); at != std::string_view::npos; at = words.find(word, at + 1)) {
    const bool begins = at == 0 || words[at - 1] == ' ';
    const std::size_t end = at + word.size();
    if (begins && (end == words.size() || words[end] == ' ')) return true;
  }
  return false;
}

struct Language {
  Words tags;  // CLDR's
  Words conjunctions;
  Words small_words;        // articles, and prepositions of a few letters
  Words clinging{};         // possessives: they lean on what follows, less than those do
  bool everywhere = false;  // its words are told apart where another language is named, too
  Words others{};           // words that lean in another language and not in this one
};

// Conjunctions: CLDR's list patterns for "and" and "or", which tests/outside asks ICU for, with forms of the same words
// before vowels. Articles, prepositions and possessives: what the Snowball project's stop words call so
// (snowballstem.org, algorithms/*/stop.txt; en, es, id, it, nb, uk read there, da, de, fi, fr, hu, nl, pt, ro, ru, sv from
// memory). Greek, Turkish, Welsh, Irish, Czech, Polish, Slovak, Catalan, Hebrew, Arabic, Persian, Vietnamese: common
// practice, no source. Finnish, Turkish and Hungarian mark with endings what others have prepositions for; Hebrew and
// Arabic join most of theirs to the word.
constexpr std::array languages{
    Language{"en", "& + and or", "a an the of in on at to by for with from into as per via",
             "my our your his her its their", true, "we do no so die des sur sans con hos"},
    Language{"de", "& + und oder",
             "der die das den dem des ein eine einen einem einer eines in im ins an am auf aus bei beim bis durch für "
             "mit nach ob seit über um unter von vom vor zu zum zur",
             "mein meine meiner meinem dein deine deiner sein seine seiner ihr ihre ihrer unser unsere unserer", true,
             "du da so do by hos no to"},
    Language{"fr", "& + et ou", "le la les un une des de du à au aux en par pour avec sur sous sans chez dans vers",
             "mon ma mes ton ta tes son sa ses notre nos votre vos leur leurs", true, "on an as or in by do"},
    Language{"es", "& + y e o u", "el la lo los las un una unos unas de del a al en con por para sin sobre",
             "mi mis tu tus su sus nuestro nuestra nuestros nuestras", true, "no do as in to at"},
    Language{
        "it", "& + e ed o od",
        "il lo la i gli le un uno una di del dello della dei degli delle da dal dallo dalla dai dalle a ad al allo "
        "alla ai agli alle in nel nello nella nei negli nelle con col su sul sullo sulla sui sulle per tra fra",
        "mio mia miei mie tuo tua suo sua nostro nostra nostri nostre", true, "no do as to at"},
    Language{"pt", "& + e ou",
             "o a os as um uma de do da dos das em no na nos nas ao à aos às com por pelo pela para sem",
             "meu minha meus minhas teu tua seu sua nosso nossa nossos nossas", true, "on at"},
    Language{"ca", "& + i o", "el la els les un una de del dels a al als en amb per"},
    Language{"nl", "& + en of", "de het een van in op te ter ten aan voor met bij door naar om uit",
             "mijn je jouw zijn haar ons onze hun", true, "die do no so"},
    Language{"da", "& + og eller", "en et den det de i på af for med til fra ved hos om", "min mit mine din dit vores",
             true, "to by an do man"},
    Language{"nb no nn", "& + og eller", "en ei et den det de ein eit i på av for med til fra ved hos om",
             "min mitt mine din ditt vår vårt", true, "to by an do man"},
    Language{"sv", "& + och eller", "en ett den det de i på av för med till från vid hos om",
             "min mitt mina din ditt vår vårt", true, "an by do to"},
    Language{"is", "& + og eða", "í á af við með til frá fyrir um"},
    Language{"fi", "& + ja tai", ""},
    Language{"pl", "& + i oraz a lub albo", "w we z ze o u na do od ode dla po za przy pod nad przez ku",
             "mój moja twój twoja", true, "to on by as"},
    Language{"cs", "& + a i nebo", "v ve z ze s se k ke o u na do od po pro za při pod nad bez", "můj moje", true,
             "to on by as"},
    Language{"sk", "& + a i alebo", "v vo z zo s so k ku o u na do od po pre za pri pod nad bez", "môj moja"},
    Language{"ru", "& + и или", "в во с со к ко о об обо у на от до из за по для при под над без",
             "мой моя мои наш наша наши", true},
    Language{"uk", "& + і й та або чи", "в у з зі із до від на за по для про при під над без о", "мій моя наш наша",
             true},
    Language{"el", "& + και κι ή",
             "ο η το οι τα του της των τον την τη τους τις ένας μια ένα σε στο στη στην στον στους στα "
             "στις από για με προς",
             "είναι", true},
    Language{"hu", "& + és s vagy", "a az egy"},
    Language{"ro", "& + și sau", "un o la în din de pe cu lui pentru spre a al ai ale"},
    Language{"tr", "& + ve veya ile", "bir"},
    Language{"cy", "& + a ac neu",
             "y yr i’r i'r o’r o'r a’r a'r i o ar at am dan dros drwy ger gan heb wrth yn yng ym"},
    Language{"ga", "& + agus nó", "an na i in ó do de ag ar le faoi go dtí"},
    Language{"id ms", "& + dan atau", "di ke dari pada untuk dengan oleh yang"},
    Language{"vi", "& + và hoặc", "của với cho ở tại từ trong"},
    Language{"he", "& + או", "של את על עם אל מן", "", true},
    Language{"ar", "& + و أو", "في من إلى على عن مع", "", true},
    Language{"fa", "& + و یا", "به از در با بر برای", "", true},
};
static_assert(languages.size() <= 32);  // a bit each

/// Words that head a line as "and" does, in their own language alone, since elsewhere they are other words: those that
/// begin a clause, and the present and past of "to be", which leans on what is said of someone. Common practice, no source.
struct ClauseWords {
  Words tag, words;
};
constexpr std::array clause_words{
    ClauseWords{"en", "but if when while because who that is are was were"},
    ClauseWords{"de", "aber sondern wenn weil dass wer ist sind war waren"},
    ClauseWords{"fr", "mais si quand qui que est sont"},
    ClauseWords{"es", "pero si cuando que quien es son"},
    ClauseWords{"it", "ma se quando che chi è sono"},
    ClauseWords{"pt", "mas se quando que quem é são"},
    ClauseWords{"nl", "maar als wie die is"},
    ClauseWords{"da", "men hvis når som er"},
    ClauseWords{"nb", "men hvis når som er"},
    ClauseWords{"sv", "men när som är"},
    ClauseWords{"pl", "ale gdy że kto jest są"},
    ClauseWords{"cs", "ale když že kdo je jsou"},
    ClauseWords{"ru", "но если когда что кто"},
    ClauseWords{"uk", "але якщо коли що хто"},
};

/// Of a tag such as "de-AT".
bool is_of(const Language& language, std::string_view tag) {
  return holds(language.tags, tag.substr(0, tag.find('-')));
}

/// In which of `languages` a word is what; one bit a language.
struct Uses {
  std::uint32_t conjunction = 0, small_word = 0, clinging = 0, other = 0, clause = 0;
  [[nodiscard]] Uses among(std::uint32_t some) const {
    return {conjunction & some, small_word & some, clinging & some, other & some, clause & some};
  }
  [[nodiscard]] WordKind kind() const {
    if ((conjunction | clause) != 0) return WordKind::conjunction;
    if (small_word != 0) return WordKind::small_word;
    return clinging != 0 ? WordKind::clinging : WordKind::other;
  }
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
      enter(all, languages[i].clinging, &Uses::clinging, 1U << i);
      enter(all, languages[i].others, &Uses::other, 1U << i);
      for (const ClauseWords& some : clause_words) {
        if (is_of(languages[i], some.tag)) enter(all, some.words, &Uses::clause, 1U << i);
      }
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

WordKind kind_of(std::string_view folded, std::string_view language, bool capital) {
  const auto found = lexicon().find(folded);
  if (found == lexicon().end()) return WordKind::other;
  std::uint32_t own = 0, everywhere = 0;
  for (std::size_t i = 0; i < languages.size(); ++i) {
    own |= is_of(languages[i], language) ? 1U << i : 0;
    everywhere |= languages[i].everywhere || language.empty() ? 1U << i : 0;
  }
  const WordKind kind = found->second.among(own).kind();
  if (kind != WordKind::other || found->second.among(own).other != 0) return kind;
  // A single capital means too much elsewhere: "I" is no Polish "and" in an English line; "i" is.
  if (own != 0 && capital && is_one_letter(folded)) return WordKind::other;
  Uses foreign = found->second.among(everywhere);
  foreign.clinging = foreign.clause = 0;  // "ton", "ma", "men": words of their own in English
  return foreign.kind();
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

}  // namespace ordinatio::inline text
