// In: lines of a text, and what other texts beside it tell. Out: the languages that it may be in, and which one is taken.
// Never: chooses a face.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace ordinatio {

/// The language that a text is set in, as far as its letters and those beside it tell.
struct ToldLanguage {
  std::string language;               // BCP 47; empty: nothing tells, nor needs to
  std::vector<std::string> possible;  // that it might be instead, where its order leaves several; without `language`
  bool guessed = false;               // nothing told which of them: it is the first of a list
};

}  // namespace ordinatio
