#include <algorithm>

#include "design/design_file.h"
#include "design/toml_table.h"
#include "logo/logo.h"

namespace ordinatio::inline design {
namespace {

namespace fs = std::filesystem;

/// "no such file", with the design in the same folder that may have been meant.
Fault missing_design(const fs::path& toml, Fault fault) {
  std::vector<std::string> names;
  std::error_code error;
  for (fs::directory_iterator at(toml.parent_path(), error), end; !error && at != end; at.increment(error)) {
    if (at->path().extension() == ".toml") names.push_back(at->path().stem().string());
  }
  std::ranges::sort(names);  // folders keep no order
  const std::vector<std::string_view> known(names.begin(), names.end());
  fault.what = "cannot read the design \"" + toml.stem().string() + "\"";
  if (const auto nearest = nearest_word(toml.stem().string(), known)) {
    fault.mend = "The nearest design there is \"" + *nearest + "\"";
  }
  return fault;
}

/// Reads a design's logos and returns their bytes, one after the other.
Result<std::string> read_logos(Design& design, const fs::path& folder) {
  std::string bytes;
  for (LogoPart& part : design.logos) {
    const auto svg = read_file(folder / part.file);
    if (!svg.ok()) return svg.fault();
    auto logo = read_logo(folder / part.file);
    if (!logo.ok()) return logo.fault();
    part.logo = std::move(*logo);
    bytes += *svg;
  }
  return bytes;
}

}  // namespace

Result<LaidDesign> read_design(const fs::path& toml) {
  const auto text = read_file(toml, toml_limit);
  if (!text.ok()) {
    std::error_code error;
    const bool missing = fs::status(toml, error).type() == fs::file_type::not_found;
    return missing ? missing_design(toml, text.fault()) : text.fault();
  }
  return design_of_text(*text, toml);
}

Result<LaidDesign> design_of_text(std::string_view text, const fs::path& toml) {
  auto design = parse_design(text, toml.string(), toml.stem().string());
  if (!design.ok()) return design.fault();
  const auto logos = read_logos(*design, toml.parent_path());
  if (!logos.ok()) return logos.fault();
  design->checksum = sha256_hex(std::string(text) + *logos);
  return laid_as_drawn(*design);
}

}  // namespace ordinatio::inline design
