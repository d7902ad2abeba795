// In: what is written, synced, renamed and deleted, in its order.
// Out: on the real disk, what a power cut leaves of it.
// Never: loses what was synced; leaves alone what was not.
#pragma once

#include <cstdint>
#include <deque>
#include <filesystem>
#include <map>
#include <optional>
#include <random>
#include <string>
#include <string_view>
#include <vector>

namespace ordinatio::crash {

/// How a power cut falls out.
struct Loss {
  std::uint64_t seed = 0;
  std::size_t sector = 4096;  // bytes; of those that were not synced, each comes to the disk or does not
};

/// Stands beside the real disk, which holds what the system shows while it runs, and knows what of it would be lost.
/// It is harsh, within what SQLite expects of disks (sqlite.org/atomiccommit.html, "Hardware Assumptions"):
/// - of what was written since a file's last sync, every sector comes as far in its history as it likes, in any order,
///   a sector also by half, from its head or its tail; bytes that nobody wrote stay as they are (powersafe overwrite);
/// - a file's length comes as far as it likes too, and what it then holds that was never written is zeros or rubbish;
/// - a name made, changed or deleted lasts once its folder is synced; before that, some last and some do not. Renaming is
///   atomic, and lasts with the folder that the file goes to. A folder's name lasts like a file's, and what is in a folder
///   goes with it.
class LossyDisk {
 public:
  using FileNumber = std::size_t;

  /// A file that is opened, or will be replaced or deleted, as it stands. `created`: just now, so that its name does not last yet.
  FileNumber open(const std::filesystem::path& path, bool created);
  void write(FileNumber file, std::size_t offset, std::string_view bytes);
  void truncate(FileNumber file, std::size_t length);
  void sync(FileNumber file);
  /// A file, or an empty folder.
  void remove(const std::filesystem::path& path);
  /// A file. One that it replaces must have been opened before.
  void rename(const std::filesystem::path& from, const std::filesystem::path& to);
  void make_folder(const std::filesystem::path& path);
  void sync_folder(const std::filesystem::path& folder);
  [[nodiscard]] const std::filesystem::path& path_of(FileNumber file) const { return files_[file].path; }

  /// Makes the real disk what it is after the cut. Nothing may be told to this object afterwards, unless the disk is then
  /// made again what it was.
  void cut(const Loss& loss) const;

 private:
  struct Change {
    std::size_t offset;
    std::optional<std::string> bytes;  // absent: the file was cut off, or lengthened by zeros, at the offset
  };
  struct File {
    std::filesystem::path path;
    std::string lasting;
    std::vector<Change> since;
    bool is_folder = false;
  };
  using Names = std::map<std::filesystem::path, std::optional<FileNumber>>;  // absent: deleted
  using NameChange = std::vector<
      std::pair<std::filesystem::path, std::optional<FileNumber>>>;  // all at once; the last says in which folder

  FileNumber known(const std::filesystem::path& path);
  FileNumber add(File file);
  static bool touch_same(const NameChange& a, const NameChange& b);
  static void apply(std::string& bytes, const Change& change);
  static std::vector<std::size_t> lengths(const File& file);
  static std::string surviving(const File& file, std::mt19937_64& random, std::size_t sector);
  [[nodiscard]] Names surviving_names(std::mt19937_64& random) const;
  [[nodiscard]] bool has_folders(const std::filesystem::path& path, const Names& names) const;

  std::deque<File> files_;
  Names shown_, lasting_names_;
  std::vector<NameChange> names_since_;
};

}  // namespace ordinatio::crash
