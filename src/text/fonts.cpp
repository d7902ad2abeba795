#include <algorithm>
#include <array>
#include <toml++/toml.h>

#include "text/catalogue_text.h"
#include "text/text.h"

namespace ordinatio {

namespace fs = std::filesystem;

struct FontLibrary::Catalogue {
  struct Entry {
    std::string name, file, package;
    unsigned index = 0;
  };
  std::vector<Entry> faces;
  std::vector<std::string> fallback;
  std::map<std::string, std::vector<std::string>, std::less<>> fallback_by_language;  // tried before the rest
};

namespace {

// The Filesystem Hierarchy Standard's places for fonts that every program may use.
constexpr std::array system_folders{"/usr/share/fonts", "/usr/local/share/fonts"};

std::vector<std::string> words_of(const toml::array* words) {
  std::vector<std::string> result;
  if (words == nullptr) return result;
  for (const toml::node& word : *words) result.push_back(word.value_or(std::string{}));
  return result;
}

/// A regular file of this name in the folder, with or without its ending.
std::optional<fs::path> own_file(const fs::path& folder, const std::string& name) {
  if (name.find('/') != std::string::npos) return std::nullopt;  // faces are named, not reached by path
  for (const char* ending : {"", ".ttf", ".otf", ".ttc"}) {
    std::error_code ignored;
    if (fs::path file = folder / (name + ending); fs::is_regular_file(file, ignored)) return file;
  }
  return std::nullopt;
}

}  // namespace

FontLibrary::FontLibrary(const fs::path& own_folder) : own_folder_(own_folder) {
  const toml::table file = toml::parse(catalogue_text());
  auto catalogue = std::make_shared<Catalogue>();
  for (const toml::node& node : *file["face"].as_array()) {
    const toml::table& face = *node.as_table();
    catalogue->faces.push_back({face["name"].value_or(std::string{}), face["file"].value_or(std::string{}),
                                face["package"].value_or(std::string{}), face["index"].value_or(0U)});
  }
  catalogue->fallback = words_of(file["fallback"]["order"].as_array());
  if (const toml::table* languages = file["fallback"]["language"].as_table()) {
    for (const auto& [language, faces] : *languages) {
      catalogue->fallback_by_language.emplace(std::string(language.str()), words_of(faces.as_array()));
    }
  }
  catalogue_ = std::move(catalogue);
}

Result<FontFile> FontLibrary::find(const std::string& name) const {
  if (const auto own = own_file(own_folder_, name)) return FontFile{name, *own, 0};
  const auto entry = std::ranges::find(catalogue_->faces, name, &Catalogue::Entry::name);
  if (entry == catalogue_->faces.end()) {
    std::vector<std::string_view> known;
    for (const auto& face : catalogue_->faces) known.push_back(face.name);
    const auto nearest = nearest_word(name, known);
    return Fault{"no face is called \"" + name + "\"", "", "it is neither in the catalogue nor in the workshop's fonts folder",
                 (nearest ? "Did you mean \"" + *nearest + "\"? Else p" : std::string("P")) +
                     "ut the font file into the fonts folder and name it as it is called there"};
  }
  for (const char* folder : system_folders) {
    std::error_code ignored;
    if (fs::path path = fs::path(folder) / entry->file; fs::is_regular_file(path, ignored)) {
      return FontFile{name, std::move(path), entry->index};
    }
  }
  return Fault{"the face \"" + name + "\" is not installed", entry->file, "its font file was not found on this computer",
               "Install the Debian package " + entry->package};
}

std::vector<std::string> FontLibrary::fallback_names(std::string_view language) const {
  std::vector<std::string> names;
  // "zh-Hant-TW" asks for zh-Hant-TW, zh-Hant, zh.
  for (std::string_view tag = language; !tag.empty(); tag = tag.substr(0, tag.rfind('-') == tag.npos ? 0 : tag.rfind('-'))) {
    const auto first = catalogue_->fallback_by_language.find(tag);
    if (first == catalogue_->fallback_by_language.end()) continue;
    names = first->second;
    break;
  }
  names.insert(names.end(), catalogue_->fallback.begin(), catalogue_->fallback.end());
  return names;
}

}  // namespace ordinatio
