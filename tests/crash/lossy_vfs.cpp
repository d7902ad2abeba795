#include "lossy_vfs.h"

#include <sqlite3.h>

#include <stdexcept>

namespace ordinatio::crash {
namespace fs = std::filesystem;
namespace {

struct Power {
  sqlite3_vfs* real = nullptr;
  LossyDisk disk;
  Loss loss;
  std::size_t calls = 0, cut_at = 0;
  bool off = false;

  /// Whether power is still on when the call that has just begun is done.
  bool lasts() {
    if (!off && ++calls == cut_at) {
      disk.cut(loss);
      off = true;
    }
    return !off;
  }
};

Power& power_of(sqlite3_vfs* vfs) { return *static_cast<Power*>(vfs->pAppData); }

/// SQLite gives it room without constructing it; the real file lies behind it in the same room.
struct OpenFile {
  sqlite3_file base;
  Power* power;
  bool on_disk;              // false: a temporary file, which nobody will miss
  bool folder_is_to_follow;  // the next sync syncs the folder too
  LossyDisk::FileNumber number;
};
sqlite3_file* real_of(OpenFile* file) { return reinterpret_cast<sqlite3_file*>(file + 1); }
OpenFile* file_of(sqlite3_file* file) { return reinterpret_cast<OpenFile*>(file); }

/// Hands a call over to the real file while there is power.
template <auto method, class... Arguments>
int pass_on(sqlite3_file* file, Arguments... arguments) noexcept {
  if (file_of(file)->power->off) return SQLITE_IOERR;
  sqlite3_file* const real = real_of(file_of(file));
  return (real->pMethods->*method)(real, arguments...);
}

int close_file(sqlite3_file* file) noexcept {
  sqlite3_file* const real = real_of(file_of(file));
  return real->pMethods->xClose(real);
}

int write_file(sqlite3_file* base, const void* bytes, int size, sqlite3_int64 offset) noexcept {
  OpenFile* const file = file_of(base);
  if (const int code = pass_on<&sqlite3_io_methods::xWrite>(base, bytes, size, offset)) return code;
  if (!file->on_disk) return SQLITE_OK;
  file->power->disk.write(file->number, static_cast<std::size_t>(offset),
                          {static_cast<const char*>(bytes), static_cast<std::size_t>(size)});
  return file->power->lasts() ? SQLITE_OK : SQLITE_IOERR;
}

int truncate_file(sqlite3_file* base, sqlite3_int64 length) noexcept {
  OpenFile* const file = file_of(base);
  if (const int code = pass_on<&sqlite3_io_methods::xTruncate>(base, length)) return code;
  if (!file->on_disk) return SQLITE_OK;
  file->power->disk.truncate(file->number, static_cast<std::size_t>(length));
  return file->power->lasts() ? SQLITE_OK : SQLITE_IOERR;
}

/// As the unix VFS does it: the folder follows the file at the first sync of a journal that was made.
int sync_file(sqlite3_file* base, int) noexcept {
  OpenFile* const file = file_of(base);
  Power& power = *file->power;
  if (power.off) return SQLITE_IOERR;
  if (!file->on_disk) return SQLITE_OK;
  if (!power.lasts()) return SQLITE_IOERR;
  power.disk.sync(file->number);
  if (!file->folder_is_to_follow) return SQLITE_OK;
  if (!power.lasts()) return SQLITE_IOERR;
  power.disk.sync_folder(power.disk.path_of(file->number).parent_path());
  file->folder_is_to_follow = false;
  return SQLITE_OK;
}

int control_file(sqlite3_file* base, int code, void* argument) noexcept {
  // A hint would let the real file grow, or be mapped, past what is recorded here.
  if (code == SQLITE_FCNTL_SIZE_HINT || code == SQLITE_FCNTL_MMAP_SIZE) return SQLITE_NOTFOUND;
  return pass_on<&sqlite3_io_methods::xFileControl>(base, code, argument);
}

int sector_size(sqlite3_file* base) noexcept {
  sqlite3_file* const real = real_of(file_of(base));
  return real->pMethods->xSectorSize(real);
}

int device_traits(sqlite3_file* base) noexcept {
  sqlite3_file* const real = real_of(file_of(base));
  return real->pMethods->xDeviceCharacteristics(real);
}

const sqlite3_io_methods& file_methods() {
  static const sqlite3_io_methods methods = [] {
    sqlite3_io_methods all{};
    all.iVersion = 1;  // no shared memory, no mapped pages
    all.xClose = close_file;
    all.xRead = pass_on<&sqlite3_io_methods::xRead, void*, int, sqlite3_int64>;
    all.xWrite = write_file;
    all.xTruncate = truncate_file;
    all.xSync = sync_file;
    all.xFileSize = pass_on<&sqlite3_io_methods::xFileSize, sqlite3_int64*>;
    all.xLock = pass_on<&sqlite3_io_methods::xLock, int>;
    all.xUnlock = pass_on<&sqlite3_io_methods::xUnlock, int>;
    all.xCheckReservedLock = pass_on<&sqlite3_io_methods::xCheckReservedLock, int*>;
    all.xFileControl = control_file;
    all.xSectorSize = sector_size;
    all.xDeviceCharacteristics = device_traits;
    return all;
  }();
  return methods;
}

constexpr int journals = SQLITE_OPEN_MAIN_JOURNAL | SQLITE_OPEN_SUPER_JOURNAL | SQLITE_OPEN_WAL;

int open_file(sqlite3_vfs* vfs, const char* path, sqlite3_file* base, int flags, int* flags_out) noexcept {
  Power& power = power_of(vfs);
  OpenFile* const file = file_of(base);
  *file = {};
  if (power.off) return SQLITE_IOERR;
  const bool on_disk = path != nullptr && (flags & SQLITE_OPEN_DELETEONCLOSE) == 0;
  const bool was_there = on_disk && fs::exists(path);
  if (const int code = power.real->xOpen(power.real, path, real_of(file), flags, flags_out)) return code;
  *file = {{&file_methods()}, &power, on_disk, false, 0};
  if (!on_disk) return SQLITE_OK;
  file->number = power.disk.open(path, !was_there);
  file->folder_is_to_follow = (flags & SQLITE_OPEN_CREATE) != 0 && (flags & journals) != 0;
  return was_there || power.lasts() ? SQLITE_OK : SQLITE_IOERR;
}

int delete_file(sqlite3_vfs* vfs, const char* path, int sync_folder) noexcept {
  Power& power = power_of(vfs);
  if (power.off) return SQLITE_IOERR;
  if (!fs::exists(path)) return SQLITE_IOERR_DELETE_NOENT;
  power.disk.remove(path);
  if (!power.lasts()) return SQLITE_IOERR;
  if (const int code = power.real->xDelete(power.real, path, 0)) return code;
  if (sync_folder == 0) return SQLITE_OK;
  if (!power.lasts()) return SQLITE_IOERR;
  power.disk.sync_folder(fs::path(path).parent_path());
  return SQLITE_OK;
}

int access_file(sqlite3_vfs* vfs, const char* path, int flags, int* answer) noexcept {
  Power& power = power_of(vfs);
  return power.off ? SQLITE_IOERR : power.real->xAccess(power.real, path, flags, answer);
}

}  // namespace

LossyVfs::LossyVfs(std::string name) : name_(std::move(name)), vfs_(new sqlite3_vfs(*sqlite3_vfs_find(nullptr))) {
  auto power = std::make_unique<Power>();
  power->real = sqlite3_vfs_find(nullptr);
  vfs_->iVersion = 1;
  vfs_->szOsFile += static_cast<int>(sizeof(OpenFile));
  vfs_->pNext = nullptr;
  vfs_->zName = name_.c_str();
  vfs_->xOpen = open_file;
  vfs_->xDelete = delete_file;
  vfs_->xAccess = access_file;
  vfs_->pAppData = power.release();
  if (sqlite3_vfs_register(vfs_.get(), 0) != SQLITE_OK) throw std::runtime_error("the VFS cannot be registered");
}

LossyVfs::~LossyVfs() = default;

void LossyVfs::Deleter::operator()(sqlite3_vfs* vfs) const {
  sqlite3_vfs_unregister(vfs);
  delete &power_of(vfs);
  delete vfs;
}

void LossyVfs::cut_at(std::size_t call, const Loss& loss) {
  Power& power = power_of(vfs_.get());
  power.cut_at = call;
  power.loss = loss;
}

void LossyVfs::cut_now(const Loss& loss) {
  Power& power = power_of(vfs_.get());
  if (!power.off) power.disk.cut(loss);
  power.off = true;
}

std::size_t LossyVfs::calls() const { return power_of(vfs_.get()).calls; }
bool LossyVfs::was_cut() const { return power_of(vfs_.get()).off; }

}  // namespace ordinatio::crash
