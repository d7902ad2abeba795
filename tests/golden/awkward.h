// The texts of tests/golden/awkward.txt, and their pictures.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "design/design.h"

struct _cairo;

namespace golden {

struct AwkwardText {
  std::string name;
  std::string design;  // TOML
  std::string words;   // as a customer writes them
};
/// Throws std::runtime_error when the file is not as its head says.
std::vector<AwkwardText> awkward_texts(const std::filesystem::path& file);

/// Cleans and composes one. Throws std::runtime_error when it cannot be set.
ordinatio::Artwork composed(const AwkwardText& text, ordinatio::Typesetter& typesetter);
/// The path as Cairo draws it.
void trace(struct _cairo* pen, const ordinatio::Path& path);

/// Cleans, composes and draws each as name.png in `folder`: ink black, edges of the blank and of what is kept clear grey.
/// Throws std::runtime_error when one cannot be set.
void draw_awkward_texts(const std::vector<AwkwardText>& texts, const std::filesystem::path& folder);

}  // namespace golden
