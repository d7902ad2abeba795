#include "desk/given_files.h"

#include <algorithm>
#include <array>
#include <map>

#include "base/base.h"

namespace ordinatio::inline desk {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t listed = 5'000;  // files of a folder; a run has some hundreds

const std::map<std::string, std::string>& types() {
  static const std::map<std::string, std::string> types{{".svg", "image/svg+xml"}, {".pdf", "application/pdf"},
                                                        {".png", "image/png"},     {".json", "application/json"},
                                                        {".csv", "text/csv"},      {".dxf", "image/vnd.dxf"}};
  return types;
}

/// For a header: what is no plain letter of a file's name becomes a low line.
std::string plain(std::string name) {
  for (char& c : name) {
    const bool is_plain =
        (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-' || c == '.';
    if (!is_plain) c = '_';
  }
  return name;
}

}  // namespace

std::vector<std::string> files_in(const Shop& shop, const std::string& folder) {
  static constexpr std::array<std::string_view, 8> folders{"proofs",  "jig",     "panes", "specimen",
                                                           "packing", "loading", "plan",  "settings-card"};
  std::vector<std::string> names;
  if (std::ranges::find(folders, folder) == folders.end()) return names;
  std::error_code error;
  for (fs::directory_iterator at(shop.folder / "out" / folder, error), end; !error && at != end; at.increment(error)) {
    if (names.size() == listed) break;
    std::error_code unseen;
    const fs::path& file = at->path();
    if (at->is_regular_file(unseen) && !at->is_symlink(unseen) && types().contains(file.extension().string()))
      names.push_back(file.filename().string());
  }
  std::ranges::sort(names);
  return names;
}

Response made_file(const Shop& shop, const std::string& folder, const std::string& name) {
  const std::vector<std::string> names = files_in(shop, folder);
  const auto known = std::ranges::find(names, name);
  return known == names.end() ? unknown_file() : given(shop.folder / "out" / folder / *known);
}

Response given(const fs::path& file) {
  const Result<std::string> bytes = read_file(file);
  if (!bytes.ok()) return unknown_file();
  const auto known = types().find(file.extension().string());
  const std::string as = "attachment; filename=\"" + plain(file.filename().string()) + "\"";
  return {
      200, known == types().end() ? "application/octet-stream" : known->second, *bytes, {{"Content-Disposition", as}}};
}

Response unknown_file() { return {404, "text/plain; charset=utf-8", "There is no such file.\n"}; }

}  // namespace ordinatio::inline desk
