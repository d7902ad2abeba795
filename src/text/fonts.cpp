#include <toml++/toml.h>
#include <algorithm>
#include <array>

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
  using FacesByLanguage = std::map<std::string, std::vector<std::string>, std::less<>>;
  std::vector<std::string> fallback;
  FacesByLanguage first;  // tried before the rest
  FacesByLanguage han;    // tried after the rest; "default" where no language says which forms are meant
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

FontLibrary::Catalogue::FacesByLanguage faces_by_language(const toml::table* table) {
  FontLibrary::Catalogue::FacesByLanguage faces;
  if (table == nullptr) return faces;
  for (const auto& [language, names] : *table) faces.emplace(language.str(), words_of(names.as_array()));
  return faces;
}

/// The faces for the language, or for what it is a variety of: "zh-Hant-TW" asks for itself, zh-Hant, zh,
/// default.
std::vector<std::string> faces_for(std::string_view language, const FontLibrary::Catalogue::FacesByLanguage& faces) {
  for (std::string_view tag = language; !tag.empty();) {
    if (const auto found = faces.find(tag); found != faces.end()) return found->second;
    const std::size_t hyphen = tag.rfind('-');
    tag = tag.substr(0, hyphen == tag.npos ? 0 : hyphen);
  }
  const auto otherwise = faces.find(std::string_view("default"));
  return otherwise == faces.end() ? std::vector<std::string>{} : otherwise->second;
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
  catalogue->first = faces_by_language(file["fallback"]["language"].as_table());
  catalogue->han = faces_by_language(file["fallback"]["han"].as_table());
  catalogue_ = std::move(catalogue);
}

Result<FontFile> FontLibrary::find(const std::string& name) const {
  if (const auto own = own_file(own_folder_, name)) return FontFile{name, *own, 0};
  const auto entry = std::ranges::find(catalogue_->faces, name, &Catalogue::Entry::name);
  if (entry == catalogue_->faces.end()) {
    std::vector<std::string_view> known;
    for (const auto& face : catalogue_->faces) known.push_back(face.name);
    const auto nearest = nearest_word(name, known);
    return Fault{"no face is called \"" + name + "\"", "",
                 "it is neither in the catalogue nor in the workshop's fonts folder",
                 (nearest ? "Did you mean \"" + *nearest + "\"? Else p" : std::string("P")) +
                     "ut the font file into the fonts folder and name it as it is called there"};
  }
  for (const char* folder : system_folders) {
    std::error_code ignored;
    if (fs::path path = fs::path(folder) / entry->file; fs::is_regular_file(path, ignored)) {
      return FontFile{name, std::move(path), entry->index};
    }
  }
  return Fault{"the face \"" + name + "\" is not installed", entry->file,
               "its font file was not found on this computer", "Install the Debian package " + entry->package};
}

std::vector<std::string> FontLibrary::fallback_names(std::string_view language) const {
  std::vector<std::string> names = faces_for(language, catalogue_->first);
  const std::vector<std::string> han = faces_for(language, catalogue_->han);
  names.insert(names.end(), catalogue_->fallback.begin(), catalogue_->fallback.end());
  names.insert(names.end(), han.begin(), han.end());
  return names;
}

}  // namespace ordinatio
