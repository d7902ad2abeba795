// A small design for papers: words alone, in a face with stand-ins for scripts that the tests have.
#pragma once

namespace outside {

inline constexpr const char* words_design = R"(
about = "Invented: words alone"
[blank]
width = 60
height = 40
[clear]
margin = 3
[text]
words = "inscription"
font = "sans"
fallbacks = ["noto-serif", "noto-naskh", "noto-hebrew", "cjk-jp"]
cap_height = { min = 1, max = 14 }
)";

}  // namespace outside
