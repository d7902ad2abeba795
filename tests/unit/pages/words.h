// What of the option library's inside would stand in a help or a message, if it got through.
#pragma once

#include <regex>
#include <string>

namespace ordinatio {

/// The first of it in the text, or empty.
inline std::string inner_word(const std::string& text) {
  static const std::regex words(
      R"(\{|\}|:value|Excludes|Needs|REQUIRED|\bTEXT\b|\bU?INT\b|\bFLOAT\b|\bENUM\b|\bBOOLEAN\b|\bPATH\b|OPTIONS\]|)"
      R"(SUBCOMMAND|[Ss]ubcommand|[Pp]ositional|Usage:|\.\.\.| x [0-9]|->|is required|requires|excludes|)"
      R"(Could not convert|not expected|required .* missing|were not|\bEnv\b|nullptr)");
  std::smatch found;
  return std::regex_search(text, found, words) ? found.str() : "";
}

}  // namespace ordinatio
