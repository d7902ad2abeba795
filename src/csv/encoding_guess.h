// In: bytes that are no UTF-8 and say nothing of their encoding. Out: the likeliest one, what ICU's detector thinks, and
// the words that may be others.
// Never: is certain.
#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace ordinatio::inline csv {

struct EncodingGuess {
  std::string encoding;                         // by ICU's name
  std::string detected;                         // "ISO-8859-1, 44 of 100"
  std::map<std::string, std::string> doubtful;  // as the encoding reads them → why, for a message
  std::vector<std::string> words;               // those beyond ASCII, as it reads them, as they come first
};

/// Windows-1252 unless another encoding reads the words better: then those are doubtful that the two read otherwise. In
/// any case those are whose letters no language puts together.
EncodingGuess guess_encoding(std::string_view bytes);

/// Runs of ASCII letters and of what is not ASCII, those with nothing but ASCII left out.
std::vector<std::string_view> words_beyond_ascii(std::string_view text);

}  // namespace ordinatio::inline csv
