#include "csv/encoding_guess.h"

#include <unicode/ucnv.h>
#include <unicode/ucsdet.h>

#include <algorithm>
#include <array>
#include <limits>
#include <memory>
#include <numeric>
#include <optional>
#include <stdexcept>

#include "base/utf8.h"
#include "csv/odd_words.h"
#include "csv/shown.h"

namespace ordinatio::inline csv {
namespace {

// By ICU's names. The first is what exports without a mark are in most often, by common practice, no source.
constexpr const char* encodings[] = {"windows-1252", "windows-1250", "macintosh",      "x-mac-centraleurroman",
                                     "ISO-8859-2",   "windows-1254", "windows-1257",   "windows-1251",
                                     "KOI8-R",       "ISO-8859-5",   "x-mac-cyrillic", "windows-1253",
                                     "windows-1255", "IBM850",       "IBM852"};

/// What each byte means.
using CodePage = std::array<char32_t, 256>;

CodePage read_code_page(const char* encoding) {
  UErrorCode status = U_ZERO_ERROR;
  const std::unique_ptr<UConverter, void (*)(UConverter*)> converter(ucnv_open(encoding, &status), ucnv_close);
  if (U_FAILURE(status)) throw std::runtime_error(std::string("ICU does not know ") + encoding);
  CodePage page{};
  for (std::size_t byte = 0; byte < page.size(); ++byte) {
    const char one = static_cast<char>(byte);
    const char* source = &one;
    status = U_ZERO_ERROR;
    page[byte] = static_cast<char32_t>(ucnv_getNextUChar(converter.get(), &source, source + 1, &status));
    if (U_FAILURE(status)) page[byte] = U'\uFFFD';
    ucnv_reset(converter.get());
  }
  return page;
}

std::u32string read_as(const CodePage& page, std::string_view bytes) {
  std::u32string text;
  for (const char c : bytes) text += page[static_cast<unsigned char>(c)];
  return text;
}

std::string utf8_of(std::u32string_view text) {
  std::string bytes;
  // A control of Latin-1 stands for no letter: see replace_c1_controls in decoding.cpp.
  for (const char32_t c : text) append_utf8(bytes, c >= 0x80 && c < 0xA0 ? U'\uFFFD' : c);
  return bytes;
}

// ---- ICU's detector ----

struct Detected {
  std::string encoding;
  int confidence = 0;  // of 100
};

// What is looked at of a file, so that no file takes minutes; words beyond are doubtful.
constexpr std::size_t most_words = 20'000;   // different ones
constexpr std::size_t longest_word = 1'000;  // bytes

std::vector<Detected> detect(std::string_view bytes) {
  UErrorCode status = U_ZERO_ERROR;
  const std::unique_ptr<UCharsetDetector, void (*)(UCharsetDetector*)> detector(ucsdet_open(&status), ucsdet_close);
  const auto size = static_cast<std::int32_t>(std::min<std::size_t>(bytes.size(), std::numeric_limits<int>::max()));
  ucsdet_setText(detector.get(), bytes.data(), size, &status);
  std::int32_t count = 0;
  const UCharsetMatch** matches = ucsdet_detectAll(detector.get(), &count, &status);
  std::vector<Detected> all;
  for (std::int32_t i = 0; i < count && U_SUCCESS(status); ++i) {
    all.push_back({ucsdet_getName(matches[i], &status), ucsdet_getConfidence(matches[i], &status)});
  }
  return all;
}

/// The name that stands above for what the detector calls otherwise, if one does.
std::string known_name(const std::string& detected) {
  if (detected == "ISO-8859-1") return "windows-1252";
  if (detected == "ISO-8859-9") return "windows-1254";
  if (detected == "ISO-8859-7") return "windows-1253";
  if (detected.starts_with("ISO-8859-8")) return "windows-1255";
  return detected;
}

// ---- the words ----

/// Each word once, with where it came first: their order in the file.
std::vector<std::string_view> different_words(std::string_view bytes) {
  std::vector<std::string_view> words;
  std::set<std::string_view> seen;
  for (const std::string_view word : words_beyond_ascii(bytes)) {
    if (seen.insert(word).second) words.push_back(word);
  }
  return words;
}

class Guess {
 public:
  explicit Guess(std::string_view bytes) : words_(different_words(bytes)) {
    for (const char* encoding : encodings) pages_.push_back(read_code_page(encoding));
    for (const CodePage& page : pages_) {
      std::vector<int>& odd = odd_.emplace_back();
      for (std::size_t word = 0; word < words_.size(); ++word) {
        const bool looked_at = word < most_words && words_[word].size() <= longest_word;
        odd.push_back(looked_at ? odd_words_.oddness_of(read_as(page, words_[word])) : oddness::certain);
      }
      cost_.push_back(std::accumulate(odd.begin(), odd.end(), std::int64_t{0}));
    }
    best_ = *std::ranges::min_element(cost_);
    detected_ = detect(bytes);
  }

  EncodingGuess take() {
    const std::size_t taken = choose();
    EncodingGuess guess;
    guess.encoding = encodings[taken];
    if (!detected_.empty()) {
      guess.detected = detected_[0].encoding + ", " + std::to_string(detected_[0].confidence) + " of 100";
    }
    for (std::size_t word = 0; word < words_.size(); ++word) {
      std::string read = reading(taken, word);
      if (is_doubtful(taken, word)) guess.doubtful.emplace(read, why(taken, word));
      guess.words.push_back(std::move(read));
    }
    return guess;
  }

 private:
  /// The usual encoding where no other reads the words better, no other reads them all as words of one language and it
  /// does not, and the detector has no other that reads them as well.
  std::size_t choose() {
    const auto detected = top();
    if (detected && cost_[*detected] == best_ && reads_otherwise(*detected)) return *detected;
    const bool usual = cost_[0] == best_;
    if (usual && is_of_one_language(0)) return 0;
    for (std::size_t encoding = 1; encoding < pages_.size(); ++encoding) {
      if (cost_[encoding] == best_ && is_of_one_language(encoding)) return encoding;
    }
    return usual ? 0 : static_cast<std::size_t>(std::ranges::find(cost_, best_) - cost_.begin());
  }
  /// Whether it reads any word otherwise than the usual encoding.
  [[nodiscard]] bool reads_otherwise(std::size_t encoding) const {
    for (std::size_t word = 0; word < words_.size(); ++word) {
      if (reading(encoding, word) != reading(0, word)) return true;
    }
    return false;
  }
  bool is_of_one_language(std::size_t encoding) {
    std::vector<std::u32string> words;
    for (const std::string_view word : words_) words.push_back(read_as(pages_[encoding], word));
    return odd_words_.are_of_one_language(words);
  }
  /// What the detector holds for likeliest, if it is one of those above.
  [[nodiscard]] std::optional<std::size_t> top() const {
    if (detected_.empty()) return std::nullopt;
    const std::string name = known_name(detected_[0].encoding);
    const auto found = std::ranges::find(encodings, name);
    if (found == std::end(encodings)) return std::nullopt;
    return static_cast<std::size_t>(found - std::begin(encodings));
  }
  [[nodiscard]] std::string reading(std::size_t encoding, std::size_t word) const {
    return utf8_of(read_as(pages_[encoding], words_[word]));
  }
  [[nodiscard]] bool is_doubtful(std::size_t taken, std::size_t word) const {
    if (odd_[taken][word] >= oddness::certain) return true;
    if (taken == 0) return false;
    for (std::size_t other = 0; other < pages_.size(); ++other) {
      const bool counts = other == 0 || cost_[other] == best_;
      if (counts && reading(other, word) != reading(taken, word)) return true;
    }
    return false;
  }
  /// The readings that a person may choose from: the one taken, the usual one, and one that reads it well.
  [[nodiscard]] std::string why(std::size_t taken, std::size_t word) const {
    constexpr std::size_t most_readings = 4;
    std::vector<std::pair<std::string, std::string>> readings{{reading(taken, word), encodings[taken]}};
    const auto add = [&](std::size_t other) {
      std::string read = reading(other, word);
      const bool is_new = std::ranges::none_of(readings, [&](const auto& one) { return one.first == read; });
      const bool is_word = read.find("\u00A0") == std::string::npos;
      if (is_new && is_word && readings.size() < most_readings)
        readings.emplace_back(std::move(read), encodings[other]);
    };
    add(0);
    for (std::size_t other = 0; other < pages_.size(); ++other) {
      if (odd_[other][word] == oddness::none) add(other);
    }
    std::string text;
    for (std::size_t i = 0; i < readings.size(); ++i) {
      text += i == 0 ? "" : i + 1 == readings.size() ? " or " : ", ";
      text += shown(readings[i].first) + " in " + readings[i].second;
    }
    return text;
  }

  std::vector<std::string_view> words_;
  OddWords odd_words_;
  std::vector<CodePage> pages_;
  std::vector<std::vector<int>> odd_;  // by encoding, by word
  std::vector<std::int64_t> cost_;     // by encoding
  std::int64_t best_ = 0;
  std::vector<Detected> detected_;
};

bool is_of_a_word(char c) {
  return static_cast<unsigned char>(c) >= 0x80 || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

}  // namespace

std::vector<std::string_view> words_beyond_ascii(std::string_view text) {
  std::vector<std::string_view> words;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = at;
    bool beyond = false;
    for (; end < text.size() && is_of_a_word(text[end]); ++end) {
      beyond = beyond || static_cast<unsigned char>(text[end]) >= 0x80;
    }
    if (beyond) words.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return words;
}

EncodingGuess guess_encoding(std::string_view bytes) { return Guess(bytes).take(); }

}  // namespace ordinatio::inline csv
