#include "desk/exports.h"

namespace ordinatio::inline desk {
namespace fs = std::filesystem;

Result<fs::path> kept_export(const fs::path& folder, const std::string& came_as, const std::string& bytes) {
  const fs::path name = fs::path(came_as).filename();
  if (name.empty() || name == "." || name == ".." || came_as.size() > 200)
    return Fault{"the file has no name that can be kept", came_as.substr(0, 60), "it is empty or too long",
                 "Give it another name"};
  if (auto fault = make_folder(folder / "exports")) return *std::move(fault);
  for (int number = 1; number < 1'000; ++number) {
    const std::string stem = name.stem().string() + (number == 1 ? "" : "-" + std::to_string(number));
    const fs::path file = folder / "exports" / (stem + name.extension().string());
    std::error_code error;
    const auto there = fs::exists(file, error) ? read_file(file) : Result<std::string>(Fault{});
    if (there.ok() && *there == bytes) return file;
    if (fs::exists(file, error)) continue;
    if (auto fault = write_file(file, bytes)) return *std::move(fault);
    return file;
  }
  return Fault{"there are too many files of this name", (folder / "exports").string(), "1,000 of them",
               "Give it another name"};
}

Result<fs::path> export_called(const fs::path& folder, const std::string& name) {
  std::error_code error;
  const bool is_plain = !name.empty() && fs::path(name).filename() == name;
  if (is_plain && fs::is_regular_file(folder / "exports" / name, error)) return folder / "exports" / name;
  return Fault{"there is no such export", name, "the folder exports has no file of that name", "Drop the export again"};
}

}  // namespace ordinatio::inline desk
