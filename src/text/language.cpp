#include "text/language.h"

#include <unicode/ucnv.h>
#include <unicode/unistr.h>
#include <unicode/uscript.h>

#include <algorithm>
#include <array>
#include <memory>
#include <stdexcept>

#include "cleaning/letters.h"
#include "text/face.h"

namespace ordinatio::inline text {
namespace {

using Writing = LanguageVote::Writing;

// In the order in which they are taken where nothing tells.
constexpr std::array<std::string_view, 4> east_asian{"zh-Hans", "zh-Hant", "ja", "ko"};
constexpr std::array<std::string_view, 3> arabic{"ar", "fa", "ur"};

/// A national character set as ICU converts to it. Its converters hold more than the standards: what counts is the
/// standard's own rows.
struct NationalSet {
  const char* converter;
  unsigned first, last;  // two-byte codes
};
constexpr std::array<NationalSet, 4> national_sets{{{"gb2312", 0xB0A1, 0xF7FE},  // GB 2312-80, rows 16 to 87
                                                    {"Big5", 0xA440, 0xF9D5},    // levels 1 and 2; none of ETEN's seven
                                                    {"EUC-JP", 0xB0A1, 0xF4A6},  // JIS X 0208, rows 16 to 84
                                                    {"EUC-KR", 0xCAA1, 0xFDFE}}};  // KS X 1001, rows 42 to 93

/// For each ideograph of Unicode's first block, which sets hold it, a bit each.
class HanSets {
 public:
  HanSets() : held_(last - first + 1) {
    using Converter = std::unique_ptr<UConverter, Destroyer<ucnv_close>>;
    for (std::size_t set = 0; set < national_sets.size(); ++set) {
      UErrorCode status = U_ZERO_ERROR;
      const Converter converter(ucnv_open(national_sets[set].converter, &status));
      ucnv_setFromUCallBack(converter.get(), UCNV_FROM_U_CALLBACK_STOP, nullptr, nullptr, nullptr, &status);
      if (U_FAILURE(status)) throw std::runtime_error("ICU lacks a national character set");
      for (char32_t c = first; c <= last; ++c) {
        if (holds(converter.get(), national_sets[set], c)) held_[c - first] |= static_cast<unsigned char>(1U << set);
      }
    }
  }
  [[nodiscard]] bool holds(std::size_t set, char32_t c) const {
    return c >= first && c <= last && (held_[c - first] >> set & 1) != 0;
  }

 private:
  static constexpr char32_t first = 0x4E00, last = 0x9FFF;
  static bool holds(UConverter* converter, const NationalSet& set, char32_t c) {
    const auto unit = static_cast<char16_t>(c);
    char bytes[8];
    UErrorCode status = U_ZERO_ERROR;
    const int count = ucnv_fromUChars(converter, bytes, sizeof bytes, &unit, 1, &status);
    if (U_FAILURE(status) || count != 2) return false;
    const unsigned code = static_cast<unsigned char>(bytes[0]) * 256U + static_cast<unsigned char>(bytes[1]);
    return code >= set.first && code <= set.last;
  }
  std::vector<unsigned char> held_;
};

const HanSets& han_sets() {
  static const HanSets sets;
  return sets;
}

/// The letters of all lines that are not ASCII.
std::u32string letters_in(const std::vector<std::string>& lines) {
  std::u32string letters;
  for (const std::string& line : lines) {
    if (std::ranges::all_of(line, [](char c) { return static_cast<unsigned char>(c) < 0x80; })) continue;
    const auto units = icu::UnicodeString::fromUTF8(line);
    for (std::int32_t i = 0; i < units.length(); i = units.moveIndex32(i, 1)) {
      if (units.char32At(i) >= 0x80) letters += static_cast<char32_t>(units.char32At(i));
    }
  }
  return letters;
}

bool has_script(const std::u32string& letters, UScriptCode script) {
  return std::ranges::any_of(letters, [script](char32_t c) { return script_of(c) == script; });
}

bool has_any(const std::u32string& letters, std::u32string_view wanted) {
  return letters.find_first_of(wanted) != std::u32string::npos;
}

/// The languages whose sets hold the most of the text's Han characters.
std::vector<std::string> by_national_sets(const std::u32string& letters) {
  std::array<std::size_t, 4> held{};
  for (const char32_t letter : letters) {
    for (std::size_t set = 0; set < held.size(); ++set) held[set] += han_sets().holds(set, letter) ? 1 : 0;
  }
  std::vector<std::string> languages;
  for (std::size_t set = 0; set < held.size(); ++set) {
    if (held[set] == *std::ranges::max_element(held)) languages.emplace_back(east_asian[set]);
  }
  return languages;
}

/// By letters that Urdu, Persian and Arabic do not share (from memory).
LanguageVote arabic_vote(const std::u32string& letters) {
  if (has_any(letters, U"ٹڈڑںھہۂےۓ")) return {Writing::arabic, true, {"ur"}};
  // Persian spells its prefixes and plurals with a non-joiner (RFC 5892, A.1), which Urdu does without.
  constexpr std::u32string_view persian_joint = U"\u200C";
  if (has_any(letters, persian_joint)) return {Writing::arabic, false, {"fa"}};
  if (has_any(letters, U"پچژگکی")) return {Writing::arabic, false, {"fa", "ur"}};
  if (has_any(letters, U"يكىة")) return {Writing::arabic, false, {"ar"}};
  return {Writing::arabic, false, {arabic.begin(), arabic.end()}};
}

/// Whether ICU's converter takes every Han character of the text.
bool is_held_by(const char* converter_name, const std::u32string& letters) {
  using Converter = std::unique_ptr<UConverter, Destroyer<ucnv_close>>;
  UErrorCode status = U_ZERO_ERROR;
  const Converter converter(ucnv_open(converter_name, &status));
  ucnv_setFromUCallBack(converter.get(), UCNV_FROM_U_CALLBACK_STOP, nullptr, nullptr, nullptr, &status);
  for (const char32_t letter : letters) {
    if (script_of(letter) != USCRIPT_HAN) continue;
    const icu::UnicodeString units(static_cast<UChar32>(letter));
    char bytes[16];
    ucnv_fromUChars(converter.get(), bytes, sizeof bytes, units.getBuffer(), units.length(), &status);
    if (U_FAILURE(status)) return false;
  }
  return true;
}

bool is_variety_of(std::string_view tag, std::string_view language) {
  return tag == language || (tag.starts_with(language) && tag[language.size()] == '-');
}

/// The one of the languages above that a tag is a variety of; empty: of none.
std::string_view voted_language(std::string_view tag) {
  for (const std::string_view language : east_asian) {
    if (is_variety_of(tag, language)) return language;
  }
  for (const std::string_view language : arabic) {
    if (is_variety_of(tag, language)) return language;
  }
  for (const std::string_view traditional : {"zh-TW", "zh-HK", "zh-MO"}) {
    if (is_variety_of(tag, traditional)) return "zh-Hant";
  }
  return is_variety_of(tag, "zh") ? std::string_view("zh-Hans") : std::string_view();
}

bool holds(const std::vector<std::string>& languages, std::string_view language) {
  return std::ranges::find(languages, language) != languages.end();
}

/// Of the languages, those that most of the other texts of its order tell; all of them where none tells.
std::vector<std::string> told_beside(const std::vector<std::string>& languages, const LanguageVote& own,
                                     const LanguageVotes& order) {
  const auto telling = [&](const std::string& language) {
    const bool tells_itself = own.languages.size() == 1 && own.languages.front() == language;
    return std::max(0, order.telling(language) - (tells_itself ? 1 : 0));
  };
  int most = 0;
  for (const std::string& language : languages) most = std::max(most, telling(language));
  std::vector<std::string> told;
  std::ranges::copy_if(languages, std::back_inserter(told), [&](const auto& one) { return telling(one) == most; });
  return told;
}

/// How many more texts of the file tell Urdu, whose hand is Nastaliq, than Arabic or Persian, which are in Naskh.
int more_in_nastaliq(const LanguageVotes& file) { return file.telling("ur") - file.telling("ar") - file.telling("fa"); }

/// Whether neither the file nor the workshop says which of two hands it is.
bool hand_is_open(const std::vector<std::string>& possible, const LanguageVotes& file, std::string_view shop) {
  return possible.size() > 1 && more_in_nastaliq(file) == 0 && writing_of(shop) != Writing::arabic;
}

/// Those of the languages that are written in the hand of most of the file, else of the workshop, else in Naskh; of these
/// the ones that most texts of the file tell.
std::vector<std::string> in_one_hand(const std::vector<std::string>& possible, const LanguageVotes& file,
                                     std::string_view shop) {
  const int more = more_in_nastaliq(file);
  if (more == 0 && holds(possible, voted_language(shop))) return {std::string(voted_language(shop))};
  if (more > 0 && holds(possible, "ur")) return {"ur"};
  std::vector<std::string> naskh = possible;
  if (possible.size() > 1) std::erase(naskh, "ur");
  return file.best_of(naskh);
}

/// Urdu is typed with Arabic letters, too: what may be Arabic goes by its file, where that has Urdu at all.
std::vector<std::string> hands_of(const LanguageVote& own, const LanguageVotes& file, std::string_view shop) {
  std::vector<std::string> hands = own.languages;
  if (holds(hands, "ar")) hands = {arabic.begin(), arabic.end()};
  if (!file.is_certain("ur") && voted_language(shop) != "ur") std::erase(hands, "ur");
  return hands;
}

}  // namespace

LanguageVote vote_of(const std::vector<std::string>& lines) {
  const std::u32string letters = letters_in(lines);
  if (letters.empty()) return {};
  if (has_script(letters, USCRIPT_HIRAGANA) || has_script(letters, USCRIPT_KATAKANA))
    return {Writing::east_asian, true, {"ja"}};
  if (has_script(letters, USCRIPT_HANGUL)) return {Writing::east_asian, true, {"ko"}};
  if (has_script(letters, USCRIPT_BOPOMOFO)) return {Writing::east_asian, true, {"zh-Hant"}};
  if (has_script(letters, USCRIPT_ARABIC)) return arabic_vote(letters);
  if (has_script(letters, USCRIPT_HAN)) return {Writing::east_asian, false, by_national_sets(letters)};
  return {};
}

void LanguageVotes::add(const LanguageVote& vote) {
  for (const std::string& language : vote.languages) {
    ++votes_[language];
    if (vote.certain) ++certain_[language];
  }
  if (vote.languages.size() == 1) ++telling_[vote.languages.front()];
}

std::vector<std::string> LanguageVotes::best_of(const std::vector<std::string>& languages) const {
  const auto votes = [this](const std::string& language) {
    const auto found = votes_.find(language);
    return found == votes_.end() ? 0 : found->second;
  };
  int most = 0;
  for (const std::string& language : languages) most = std::max(most, votes(language));
  std::vector<std::string> best;
  std::ranges::copy_if(languages, std::back_inserter(best), [&](const std::string& one) { return votes(one) == most; });
  return best;
}

bool LanguageVotes::is_certain(std::string_view language) const { return certain_.contains(language); }

int LanguageVotes::telling(std::string_view language) const {
  const auto found = telling_.find(language);
  return found == telling_.end() ? 0 : found->second;
}

LanguageVote LanguageVotes::together(Writing writing) const {
  LanguageVote vote{writing, false, {}};
  const std::span<const std::string_view> all = writing == Writing::arabic
                                                    ? std::span<const std::string_view>(arabic)
                                                    : std::span<const std::string_view>(east_asian);
  std::vector<std::string> voted, certain;
  for (const std::string_view language : all) {
    if (votes_.contains(language)) voted.emplace_back(language);
    if (certain_.contains(language)) certain.emplace_back(language);
  }
  vote.certain = certain.size() == 1;
  vote.languages = vote.certain ? certain : best_of(voted);
  return vote;
}

ToldLanguage settled(const LanguageVote& own, const LanguageVotes& order, const LanguageVotes& file,
                     std::string_view shop) {
  if (own.languages.empty()) return {};
  const LanguageVote beside = order.together(own.writing);
  std::vector<std::string> possible = own.languages, left;
  if (own.certain) {
    possible = {own.languages.front()};
  } else if (beside.certain) {
    possible = beside.languages;  // kana in a note: a name that only Big5 holds is Japanese all the same
  } else if (own.writing == Writing::arabic) {
    possible = told_beside(hands_of(own, file, shop), own, order);
    left = in_one_hand(possible, file, shop);
  } else {
    possible = order.best_of(possible);
  }
  if (left.empty()) left = file.best_of(possible);
  const bool by_shop = left.size() > 1 && holds(left, voted_language(shop));
  if (by_shop) left = {std::string(voted_language(shop))};
  const bool two_hands = own.writing == Writing::arabic && holds(possible, "ur");  // Arabic and Persian share one
  ToldLanguage told{left.front(), {}, two_hands ? hand_is_open(possible, file, shop) : left.size() > 1};
  std::ranges::copy_if(possible, std::back_inserter(told.possible),
                       [&](const auto& one) { return one != told.language; });
  const bool of_hong_kong = told.language == "zh-Hant" && is_variety_of(shop, "zh-HK");
  if (of_hong_kong || is_variety_of(shop, told.language)) told.language = shop;  // a variety may have forms of its own
  return told;
}

Writing writing_of(std::string_view language) {
  const std::string_view known = voted_language(language);
  if (known.empty()) return Writing::other;
  return std::ranges::find(arabic, known) != arabic.end() ? Writing::arabic : Writing::east_asian;
}

bool is_voted_on(std::string_view language) { return !voted_language(language).empty(); }

std::string name_of_language(std::string_view language) {
  constexpr std::pair<std::string_view, std::string_view> names[] = {{"zh-Hans", "simplified Chinese"},
                                                                     {"zh-Hant", "traditional Chinese"},
                                                                     {"ja", "Japanese"},
                                                                     {"ko", "Korean"},
                                                                     {"ar", "Arabic"},
                                                                     {"fa", "Persian"},
                                                                     {"ur", "Urdu"}};
  const std::string_view known = voted_language(language);
  for (const auto& [tag, name] : names) {
    if (tag == known) return std::string(name);
  }
  return std::string(language);
}

std::string told_before_votes(const std::vector<std::string>& lines) {
  const std::u32string letters = letters_in(lines);
  if (has_script(letters, USCRIPT_HIRAGANA) || has_script(letters, USCRIPT_KATAKANA)) return "ja";
  if (has_script(letters, USCRIPT_HANGUL)) return "ko";
  if (has_any(letters, U"ٹڈڑںھہۂےۓ")) return "ur";
  if (has_any(letters, U"پچژگکی")) return "fa";
  if (has_script(letters, USCRIPT_ARABIC)) return "ar";
  if (!has_script(letters, USCRIPT_HAN)) return "";
  return !is_held_by("gb2312", letters) && is_held_by("Big5", letters) ? "zh-Hant" : "zh-Hans";
}

std::string told_language(const std::vector<std::string>& lines) {
  return settled(vote_of(lines), {}, {}, "").language;
}

}  // namespace ordinatio::inline text
