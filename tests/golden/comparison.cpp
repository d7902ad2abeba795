#include "comparison.h"

#include <algorithm>
#include <optional>
#include <set>

#include "base/base.h"
#include "picture.h"

namespace golden {
namespace fs = std::filesystem;
namespace {

std::string contents(const fs::path& path) {
  auto bytes = ordinatio::read_file(path);
  if (!bytes.ok()) throw std::runtime_error(describe(bytes.fault()));
  return *std::move(bytes);
}

std::set<std::string> names_in(const fs::path& folder) {
  std::set<std::string> names;
  if (!fs::exists(folder)) return names;
  for (const auto& entry : fs::directory_iterator(folder)) names.insert(entry.path().filename().string());
  return names;
}

std::string percent(double share) {
  std::string text;
  ordinatio::append_number(text, 100 * share, 2);
  return text + " %";
}

/// "line 7: expected "…", made "…""
std::string first_difference(const std::string& expected, const std::string& made) {
  const auto [a, b] = std::mismatch(expected.begin(), expected.end(), made.begin(), made.end());
  const auto line = 1 + std::count(expected.begin(), a, '\n');
  const auto line_around = [](const std::string& text, std::string::const_iterator at) {
    const auto offset = static_cast<std::size_t>(at - text.begin());
    const std::size_t start = offset == 0 ? 0 : text.rfind('\n', offset - 1) + 1;  // npos + 1 is 0
    const std::size_t shown_from = std::max(start, offset < 40 ? 0 : offset - 40);
    return "\"" + text.substr(shown_from, std::min(text.find('\n', offset), offset + 40) - shown_from) + "\"";
  };
  return "line " + std::to_string(line) + ": expected " + line_around(expected, a) + ", made " + line_around(made, b);
}

std::optional<std::string> picture_difference(const fs::path& expected, const fs::path& made, const fs::path& report) {
  const Picture was = read_png(expected), is = read_png(made);
  const double share = ink_difference(was, is);
  if (share <= picture_slack) return std::nullopt;
  fs::create_directories(report.parent_path());
  write_png(side_by_side(was, is), report);
  return percent(share) + " of the ink differs; expected | difference | actual: " + report.string();
}

std::optional<std::string> text_difference(const fs::path& expected, const fs::path& made, const fs::path& report) {
  const std::string was = contents(expected), is = contents(made);
  if (was == is) return std::nullopt;
  fs::create_directories(report.parent_path());
  fs::copy_file(made, report, fs::copy_options::overwrite_existing);
  return first_difference(was, is) + "; all of it: " + report.string();
}

std::optional<std::string> difference(const fs::path& expected, const fs::path& made, const fs::path& report) {
  if (!fs::exists(expected)) return "there is no expected file; tests/golden/accept makes one";
  if (!fs::exists(made)) return "it was not made";
  if (fs::file_size(expected) > size_limit) return "the expected file is over 20 KiB: make the case smaller";
  return expected.extension() == ".png" ? picture_difference(expected, made, report)
                                        : text_difference(expected, made, report);
}

}  // namespace

std::vector<std::string> differences(const fs::path& expected, const fs::path& made, const fs::path& report) {
  std::set<std::string> names = names_in(expected);
  names.merge(names_in(made));
  std::vector<std::string> all;
  for (const std::string& name : names) {
    if (const auto one = difference(expected / name, made / name, report / name)) all.push_back(name + ": " + *one);
  }
  if (names.empty()) all.emplace_back("nothing was expected and nothing was made");
  return all;
}

std::vector<std::string> renew(const fs::path& expected, const fs::path& made) {
  fs::create_directories(expected);
  std::set<std::string> names = names_in(expected);
  names.merge(names_in(made));
  std::vector<std::string> changed;
  for (const std::string& name : names) {
    if (!fs::exists(made / name)) {
      fs::remove(expected / name);
    } else if (!fs::exists(expected / name) || contents(expected / name) != contents(made / name)) {
      fs::copy_file(made / name, expected / name, fs::copy_options::overwrite_existing);
    } else {
      continue;
    }
    changed.push_back(name);
  }
  return changed;
}

}  // namespace golden
