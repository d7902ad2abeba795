// What a watched command does to files, told to a LossyDisk: so that the power can be cut under all of it at once, the
// ledger and the sheets. Of this folder alone.
#pragma once

#include <sys/types.h>

#include <map>

#include "lossy_disk.h"

namespace ordinatio::crash {

/// Paths are as the calls have them: within `folder`, a descriptor or AT_FDCWD, unless they are absolute.
class DiskRecord {
 public:
  /// Before a call that opens it for writing, renames, removes or replaces it: as it is then, it lasts.
  void expect(int folder, const char* path);

  // After a call that went well.
  void opened(int folder, const char* path, int file, bool created, bool emptied);
  void written(int file, off_t from, std::string_view bytes);
  void truncated(int file, off_t length);
  /// A file or a folder.
  void synced(int file);
  void renamed(int from_folder, const char* from, int to_folder, const char* to);
  void removed(int folder, const char* path);
  void made_folder(int folder, const char* path);
  void cut(const Loss& loss) const { disk_.cut(loss); }

 private:
  using Identity = std::pair<dev_t, ino_t>;
  LossyDisk::FileNumber number_of(int file) const;

  LossyDisk disk_;
  std::map<Identity, LossyDisk::FileNumber> numbers_;
};

}  // namespace ordinatio::crash
