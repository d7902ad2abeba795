// The page's own files, as they ship inside the program. Of this folder alone.
#pragma once

#include <span>
#include <string_view>

namespace ordinatio::inline desk {

struct PageFile {
  std::string_view name, text;
};
std::span<const PageFile> page_files();

}  // namespace ordinatio::inline desk
