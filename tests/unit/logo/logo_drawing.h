// SVG logos written as text in a test, read through a file as a workshop's are.
#pragma once

#include <unistd.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>

#include "design/design.h"
#include "logo/logo.h"

namespace ordinatio {

class LogoFile {
 public:
  explicit LogoFile(std::string_view svg)
      : folder_(std::filesystem::temp_directory_path() / ("logo-" + std::to_string(::getpid()))) {
    std::filesystem::create_directory(folder_);
    std::ofstream(path(), std::ios::binary) << svg;
  }
  LogoFile(const LogoFile&) = delete;
  LogoFile& operator=(const LogoFile&) = delete;
  ~LogoFile() { std::filesystem::remove_all(folder_); }
  [[nodiscard]] std::filesystem::path path() const { return folder_ / "logo.svg"; }

 private:
  std::filesystem::path folder_;
};

inline std::string svg_with(std::string_view attributes, std::string_view body) {
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" " +
         std::string(attributes) + ">" + std::string(body) + "</svg>";
}
/// A page of 100 × 100 mm, one unit a millimetre.
inline std::string page_with(std::string_view body) {
  return svg_with("width=\"100mm\" height=\"100mm\" viewBox=\"0 0 100 100\"", body);
}

inline Result<Logo> read_svg(std::string_view svg) { return read_logo(LogoFile(svg).path()); }
inline Logo logo_of(std::string_view svg) {
  const auto logo = read_svg(svg);
  if (!logo.ok()) FAIL(describe(logo.fault()));
  return *logo;
}
inline Logo drawn(std::string_view body) { return logo_of(page_with(body)); }

inline long count_of(const Path& path, Path::Verb verb) {
  return std::count(path.verbs().begin(), path.verbs().end(), verb);
}

}  // namespace ordinatio
