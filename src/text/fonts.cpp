#include <toml++/toml.h>
#include <algorithm>
#include <array>
#include <cmath>

#include "text/catalogue_text.h"
#include "text/measured_glyphs.h"

namespace ordinatio::inline text {

namespace fs = std::filesystem;

struct FontLibrary::Catalogue {
  std::vector<CatalogueFace> faces;
  using FacesByLanguage = std::map<std::string, std::vector<std::string>, std::less<>>;
  std::vector<std::string> fallback;
  FacesByLanguage first;  // tried before the rest
  FacesByLanguage style;  // tried before `fallback`
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
    tag = tag.substr(0, hyphen == std::string::npos ? 0 : hyphen);
  }
  const auto otherwise = faces.find(std::string_view("default"));
  return otherwise == faces.end() ? std::vector<std::string>{} : otherwise->second;
}

std::vector<FaceAxis> axes_of(const toml::array* tables) {
  std::vector<FaceAxis> axes;
  if (tables == nullptr) return axes;
  for (const toml::node& node : *tables) {
    const toml::table& axis = *node.as_table();
    axes.push_back({axis["tag"].value_or(std::string{}), axis["least"].value_or(0.0), axis["standard"].value_or(0.0),
                    axis["most"].value_or(0.0)});
  }
  return axes;
}

CatalogueFace face_of(const toml::table& table) {
  CatalogueFace face;
  const std::pair<const char*, std::string*> words[] = {
      {"name", &face.name},     {"file", &face.file}, {"package", &face.package}, {"licence", &face.licence},
      {"sha256", &face.sha256}, {"use", &face.use},   {"style", &face.style}};
  for (const auto& [key, word] : words) *word = table[key].value_or(std::string{});
  face.index = table["index"].value_or(0U);
  face.scripts = words_of(table["scripts"].as_array());
  face.thinnest = table["thinnest"].value_or(0.0);
  face.counter = table["counter"].value_or(0.0);
  face.least_cap_height = table["least_cap_height"].value_or(0.0);
  face.joined = table["joined"].value_or(false);
  face.capitals_only = table["capitals_only"].value_or(false);
  face.decorative = table["decorative"].value_or(false);
  face.axes = axes_of(table["axes"].as_array());
  return face;
}

constexpr std::array font_endings{".ttf", ".otf", ".ttc"};

/// A regular file of this name in the folder, with or without its ending.
std::optional<fs::path> own_file(const fs::path& folder, const std::string& name) {
  if (name.find('/') != std::string::npos) return std::nullopt;  // faces are named, not reached by path
  const auto regular = [&](const std::string& file_name) -> std::optional<fs::path> {
    std::error_code ignored;
    fs::path file = folder / file_name;
    return fs::is_regular_file(file, ignored) ? std::optional(std::move(file)) : std::nullopt;
  };
  if (auto file = regular(name)) return file;
  for (const char* ending : font_endings) {
    if (auto file = regular(name + ending)) return file;
  }
  return std::nullopt;
}

}  // namespace

FontLibrary::FontLibrary(fs::path own_folder)
    : own_folder_(std::move(own_folder)), measured_(std::make_shared<Measured>()) {
  const toml::table file = toml::parse(catalogue_text());
  auto catalogue = std::make_shared<Catalogue>();
  for (const toml::node& node : *file["face"].as_array()) catalogue->faces.push_back(face_of(*node.as_table()));
  catalogue->fallback = words_of(file["fallback"]["order"].as_array());
  catalogue->first = faces_by_language(file["fallback"]["language"].as_table());
  catalogue->style = faces_by_language(file["fallback"]["style"].as_table());
  catalogue->han = faces_by_language(file["fallback"]["han"].as_table());
  catalogue_ = std::move(catalogue);
}

Result<FontFile> FontLibrary::find(const std::string& name) const {
  if (const auto own = own_file(own_folder_, name)) return FontFile{name, *own, 0};
  if (const StrokeAlphabet* strokes = stroke_face(name)) return FontFile{name, "fonts/stroke.txt", 0, strokes};
  const auto entry = std::ranges::find(catalogue_->faces, name, &CatalogueFace::name);
  if (entry == catalogue_->faces.end()) {
    std::vector<std::string_view> known = stroke_face_names();
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

double least_cap_height(const FaceGauges& measures, double spot) {
  constexpr double slack = 1e-9;  // a tenth that is met exactly is not rounded up
  const double narrowest = std::min(measures.thinnest, measures.counter);
  if (!(narrowest > 0)) return smallest_lettering;
  const double height = spot * measures.cap_height / narrowest;
  return std::max(smallest_lettering, std::ceil(10 * height - slack) / 10);
}

const std::vector<CatalogueFace>& FontLibrary::catalogue() const { return catalogue_->faces; }

std::vector<std::string> FontLibrary::own_names() const {
  std::vector<std::string> names;
  std::error_code ignored;  // no folder, no fonts
  for (const auto& entry : fs::directory_iterator(own_folder_, ignored)) {
    std::string ending = entry.path().extension().string();
    std::ranges::transform(ending, ending.begin(),
                           [](char c) { return c >= 'A' && c <= 'Z' ? char(c - 'A' + 'a') : c; });
    const bool is_font = std::ranges::find(font_endings, ending) != font_endings.end();
    if (is_font && entry.is_regular_file(ignored)) names.push_back(entry.path().filename().string());
  }
  std::ranges::sort(names);
  return names;
}

std::vector<std::string> FontLibrary::fallback_names(std::string_view language, std::string_view style) const {
  std::vector<std::string> names;
  const auto add = [&names](const std::vector<std::string>& more) {
    for (const std::string& name : more) {
      if (std::ranges::find(names, name) == names.end()) names.push_back(name);
    }
  };
  add(faces_for(language, catalogue_->first));
  if (const auto same = catalogue_->style.find(style); same != catalogue_->style.end()) add(same->second);
  add(catalogue_->fallback);
  add(faces_for(language, catalogue_->han));
  return names;
}

}  // namespace ordinatio::inline text
