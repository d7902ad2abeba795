#include <algorithm>
#include <array>

#include "workshop/shipped_texts.h"
#include "workshop/workshop.h"

namespace ordinatio::inline workshop {
namespace {

namespace fs = std::filesystem;

struct ShippedFile {
  std::string_view path;  // in the workshop's folder
  std::string_view text;
};

/// In the order they are written. shop.toml comes last: where it stands, the workshop is whole.
std::array<ShippedFile, 13> shipped_files() {
  return {{{"README.txt", readme_txt()},
           {"orders.csv", orders_csv()},
           {"fonts/README.txt", fonts_txt()},
           {"templates/plaque-landscape.toml", plaque_landscape_toml()},
           {"templates/plaque-portrait.toml", plaque_portrait_toml()},
           {"templates/name-and-line.toml", name_and_line_toml()},
           {"templates/dedication.toml", dedication_toml()},
           {"templates/spaced-capitals.toml", spaced_capitals_toml()},
           {"templates/house-number.toml", house_number_toml()},
           {"templates/stand-words.toml", stand_words_toml()},
           {"templates/stand-logo.toml", stand_logo_toml()},
           {"templates/mark.svg", mark_svg()},
           {"shop.toml", shop_toml()}}};
}

bool is_shipped_folder(std::string_view path) { return path == "templates" || path == "fonts"; }

/// Whether an entry of the folder is what a run that was cut short leaves: a shipped file as it ships, or one half
/// written. shop.toml, the last, is never left over.
bool is_left_over(const fs::directory_entry& entry, const fs::path& folder) {
  const std::string path = entry.path().lexically_relative(folder).generic_string();
  std::error_code error;
  const fs::file_type type = entry.symlink_status(error).type();  // nothing is written through a link
  if (type == fs::file_type::directory) return is_shipped_folder(path);
  if (type != fs::file_type::regular || path == "shop.toml") return false;
  return std::ranges::any_of(shipped_files(), [&](const ShippedFile& shipped) {
    if (path == std::string(shipped.path) + ".part") return true;
    const auto bytes = path == shipped.path ? read_file(entry.path()) : Fault{};
    return bytes.ok() && *bytes == shipped.text;
  });
}

Fault not_empty(const fs::path& folder, const fs::path& found) {
  return {"cannot make a workshop", folder.string(),
          "the folder is not empty: it holds " + found.lexically_relative(folder).string(),
          "Name a folder that does not exist yet"};
}

/// Nothing that a person put there may be written over.
MaybeFault refuse_used_folder(const fs::path& folder) {
  std::error_code error;
  if (!fs::exists(folder, error)) return std::nullopt;
  fs::recursive_directory_iterator at(folder, error);
  for (const fs::recursive_directory_iterator end; !error && at != end; at.increment(error)) {
    if (!is_left_over(*at, folder)) return not_empty(folder, at->path());
  }
  if (error) return Fault{"cannot make a workshop", folder.string(), error.message(), "Name another folder"};
  return std::nullopt;
}

}  // namespace

MaybeFault new_shop(const fs::path& folder) {
  if (auto fault = refuse_used_folder(folder)) return fault;
  for (const char* part : {"templates", "fonts"}) {
    if (auto fault = make_folder(folder / part)) return fault;
  }
  for (const auto& [path, text] : shipped_files()) {
    if (auto fault = write_file(folder / path, text)) return fault;
  }
  return std::nullopt;
}

}  // namespace ordinatio::inline workshop
