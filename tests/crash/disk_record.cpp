#include "disk_record.h"

#include <fcntl.h>
#include <sys/stat.h>

#include <stdexcept>

namespace ordinatio::crash {
namespace fs = std::filesystem;
namespace {

struct stat status_of(int file) {
  struct stat status {};
  if (fstat(file, &status) != 0) throw std::logic_error("a file that was just used is not open");
  return status;
}

fs::path path_of(int file) { return fs::read_symlink("/proc/self/fd/" + std::to_string(file)); }

fs::path whole_path(int folder, const char* path) {
  if (folder == AT_FDCWD || *path == '/') return fs::absolute(path).lexically_normal();
  return (path_of(folder) / path).lexically_normal();
}

}  // namespace

void DiskRecord::expect(int folder, const char* path) {
  const fs::path whole = whole_path(folder, path);
  if (fs::is_regular_file(whole) || fs::is_directory(whole)) disk_.open(whole, false);
}

void DiskRecord::opened(int folder, const char* path, int file, bool created, bool emptied) {
  const LossyDisk::FileNumber number = disk_.open(whole_path(folder, path), created);
  const struct stat status = status_of(file);
  numbers_[{status.st_dev, status.st_ino}] = number;
  if (emptied && !created) disk_.truncate(number, 0);
}

LossyDisk::FileNumber DiskRecord::number_of(int file) const {
  const struct stat status = status_of(file);
  return numbers_.at({status.st_dev, status.st_ino});
}

void DiskRecord::written(int file, off_t from, std::string_view bytes) {
  disk_.write(number_of(file), static_cast<std::size_t>(from), bytes);
}

void DiskRecord::truncated(int file, off_t length) {
  disk_.truncate(number_of(file), static_cast<std::size_t>(length));
}

void DiskRecord::synced(int file) {
  const struct stat status = status_of(file);
  if (S_ISDIR(status.st_mode)) {
    disk_.sync_folder(path_of(file));
  } else if (const auto known = numbers_.find({status.st_dev, status.st_ino}); known != numbers_.end()) {
    disk_.sync(known->second);  // another is as it was before
  }
}

void DiskRecord::renamed(int from_folder, const char* from, int to_folder, const char* to) {
  disk_.rename(whole_path(from_folder, from), whole_path(to_folder, to));
}

void DiskRecord::removed(int folder, const char* path) { disk_.remove(whole_path(folder, path)); }
void DiskRecord::made_folder(int folder, const char* path) { disk_.make_folder(whole_path(folder, path)); }

}  // namespace ordinatio::crash
