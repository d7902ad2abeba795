// In: what SQLite asks of its virtual file system.
// Out: the same from the default one, until the power is cut; then errors, and what a LossyDisk leaves on the real disk.
// Never: forgets that what was not synced may be lost. Connections of one process alone, and rollback journals: no shared
// memory, so no WAL, and no mapped pages.
#pragma once

#include <memory>
#include <string>

#include "lossy_disk.h"

struct sqlite3_vfs;

namespace ordinatio::crash {

/// A virtual file system of this name is there as long as this object. All connections through it must be closed before.
class LossyVfs {
 public:
  explicit LossyVfs(std::string name);
  ~LossyVfs();
  LossyVfs(const LossyVfs&) = delete;
  LossyVfs& operator=(const LossyVfs&) = delete;

  /// Cuts the power in the midst of the call of that number, counted from 1, and every call from then on fails with
  /// SQLITE_IOERR. Calls that count: making, writing, truncating, syncing, deleting a file, syncing its folder.
  void cut_at(std::size_t call, const Loss& loss);
  /// Cuts it now, between two calls.
  void cut_now(const Loss& loss);
  [[nodiscard]] std::size_t calls() const;
  [[nodiscard]] bool was_cut() const;
  [[nodiscard]] const char* name() const { return name_.c_str(); }

 private:
  struct Deleter {
    void operator()(sqlite3_vfs* vfs) const;
  };
  std::string name_;
  std::unique_ptr<sqlite3_vfs, Deleter> vfs_;
};

}  // namespace ordinatio::crash
