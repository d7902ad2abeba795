// In: lines of a text, and what other texts beside it tell. Out: the languages that it may be in, and which one is taken.
// Never: chooses a face.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace ordinatio::inline text {

/// The language that a text is set in, as far as its letters and those beside it tell.
struct ToldLanguage {
  std::string language;               // BCP 47; empty: nothing tells, nor needs to
  std::vector<std::string> possible;  // that it might be instead, where its order leaves several; without `language`
  bool guessed = false;               // nothing told which of them: it is the first of a list
  friend bool operator==(const ToldLanguage&, const ToldLanguage&) = default;
};

/// What the letters of a text say by themselves. Han: "zh-Hans", "zh-Hant", "ja" and "ko" by which of GB 2312, Big5,
/// JIS X 0208 and KS X 1001 hold the most of its characters; Arabic script: "ar", "fa" and "ur" by letters that one of
/// them lacks.
struct LanguageVote {
  enum class Writing { other, east_asian, arabic } writing = Writing::other;
  bool certain = false;                // kana, hangul or bopomofo stand in it, or letters that Urdu alone has
  std::vector<std::string> languages;  // in the order of a list; empty for other writing
};
LanguageVote vote_of(const std::vector<std::string>& lines);
/// BCP 47, as a text's letters alone told before there were votes; for sheets of then.
std::string told_before_votes(const std::vector<std::string>& lines);

/// Votes counted: each text speaks for every language that it may be in.
class LanguageVotes {
 public:
  void add(const LanguageVote& vote);
  /// Those of the languages that have the most votes, in their order.
  [[nodiscard]] std::vector<std::string> best_of(const std::vector<std::string>& languages) const;
  /// Whether a text could be in no other.
  [[nodiscard]] bool is_certain(std::string_view language) const;
  /// How many texts tell the language: those whose vote is for it alone.
  [[nodiscard]] int telling(std::string_view language) const;
  /// What all texts together say, as one vote of that writing.
  [[nodiscard]] LanguageVote together(LanguageVote::Writing writing) const;

 private:
  std::map<std::string, int, std::less<>> votes_, certain_, telling_;
};

/// The language of a text: its own letters narrow the choice, then those of its order, then those of its file; where several
/// are left, the workshop's language if it is one of them, else the first. Arabic script: what its letters leave open goes by
/// the other texts of its order that tell, then by the hand, Naskh or Nastaliq, of most texts of its file that tell; where
/// these are as many, the workshop's, else Naskh. `shop`: BCP 47.
ToldLanguage settled(const LanguageVote& own, const LanguageVotes& order, const LanguageVotes& file,
                     std::string_view shop);

/// What a language is written in, as far as votes are about it.
LanguageVote::Writing writing_of(std::string_view language);
/// Whether the language is one of those that votes are about, in any variety: "zh-Hant-TW".
bool is_voted_on(std::string_view language);
/// "simplified Chinese"
std::string name_of_language(std::string_view language);

}  // namespace ordinatio::inline text
