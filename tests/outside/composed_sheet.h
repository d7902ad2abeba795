// In: the words for each item, and how the bed is laid.
// Out: a sheet as the program itself would lay it, for checks of what is written of it; and what other programs say.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "bed/bed.h"
#include "text/text.h"

namespace outside {

/// A folder of its own under the system's temporary one; gone with the object.
class Scratch {
 public:
  Scratch();
  ~Scratch();
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  [[nodiscard]] std::filesystem::path operator/(const std::string& name) const { return folder_ / name; }

 private:
  std::filesystem::path folder_;
};

/// `design`: TOML; its logo, if it has one, is "logo.svg". Throws std::runtime_error with the Fault's words.
ordinatio::Sheet composed_sheet(const std::string& design, const std::vector<std::string>& texts,
                                const ordinatio::BedPlan& plan);

/// Curves of degree two and three, welds, holes, marks across scripts, every operation, a logo, and blanks that lie
/// turned: what files have gone wrong with.
ordinatio::Sheet rich_sheet();

/// Letters and marks that look otherwise when they are mirrored or turned, colours that can be told apart even where
/// pixels mix: cyan takes red alone from the paper, magenta green alone, grey all alike.
ordinatio::Sheet asymmetric_sheet();

/// All that is engraved hatched by a line as wide as the rows are apart, or filled; a line of words in strokes besides.
ordinatio::Sheet lines_sheet(bool hatched = true);
constexpr double lines_pitch = 0.2;  // mm

const ordinatio::FontLibrary& fonts();

void save(const std::filesystem::path& path, const std::string& bytes);
std::string read(const std::filesystem::path& path);
/// What the command prints; throws std::runtime_error with what it printed when it fails.
std::string output_of(const std::string& command);
/// The first numbers behind `label`, whatever stands between them; throws when there are too few.
std::vector<double> numbers_after(const std::string& text, const std::string& label, std::size_t count);
std::string quoted(const std::filesystem::path& path);

}  // namespace outside
