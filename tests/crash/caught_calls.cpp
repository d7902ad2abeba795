// The C library's calls that can change the disk, as this program and every shared library that it loads see them: the
// dynamic linker finds the program's definitions first, before the C library's and a sanitizer's. Each is counted while
// it is watched, and makes its system call directly. What the C library calls within itself (fwrite, mkstemp) is not
// caught; traced_run.h shows whether a command does such a thing.
#include <dlfcn.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <climits>
#include <csignal>
#include <cstdarg>
#include <cstdio>
#include <cstring>

#include "call_watch.h"

namespace ordinatio::crash {

std::atomic<CallWatch*> call_watch{nullptr};

namespace {

/// What is to be done with a call.
enum class Verdict { make, halve, refuse_full, refuse_failed };

CallWatch* watch_of_this_process() {
  CallWatch* const watch = call_watch.load();
  return watch != nullptr && watch->watched == getpid() ? watch : nullptr;
}

[[noreturn]] void die() {
  for (;;) syscall(SYS_kill, syscall(SYS_getpid), SIGKILL);
}

/// Pipes, terminals and the standard streams are no disk.
bool on_disk(int file) {
  struct stat status {};
  return file > STDERR_FILENO && fstat(file, &status) == 0 && (S_ISREG(status.st_mode) || S_ISDIR(status.st_mode));
}

void name_path(DiskCall& call, const char* path) {
  if (path == nullptr) return;
  const std::size_t length = std::strlen(path), room = call.path.size() - 1;
  call.path = {};
  std::memcpy(call.path.data(), path + (length > room ? length - room : 0), std::min(length, room));
}

void name_file(DiskCall& call, int file) {
  const std::string link = "/proc/self/fd/" + std::to_string(file);
  std::array<char, PATH_MAX> path{};
  if (readlink(link.c_str(), path.data(), path.size() - 1) > 0) name_path(call, path.data());
}

/// Counts the call. `lengthens`: it makes a file or a folder, or makes one longer.
Verdict arrive(CallWatch& watch, DiskCall call, bool lengthens) {
  const std::size_t number = ++watch.count;
  if (number <= call_limit) watch.calls[number - 1] = call;
  if (watch.strike_at == no_call || number < watch.strike_at) return Verdict::make;
  const bool struck = number == watch.strike_at;
  switch (watch.fate) {
    case Fate::killed:
      if (struck) die();
      return Verdict::make;
    case Fate::torn:
      if (struck && call.bytes < 2) die();
      return struck ? Verdict::halve : Verdict::make;
    case Fate::disk_full:  // the last bytes that there is room for are taken
      if (!lengthens) return Verdict::make;
      return struck && call.bytes > 1 ? Verdict::halve : Verdict::refuse_full;
    case Fate::failed:
      return struck ? Verdict::refuse_failed : Verdict::make;
  }
  return Verdict::make;
}

long refuse(Verdict verdict) {
  errno = verdict == Verdict::refuse_full ? ENOSPC : EIO;
  return -1;
}

/// A call that names a path.
template <class... Arguments>
long at_path(const char* name, const char* path, bool lengthens, long number, Arguments... arguments) {
  if (CallWatch* const watch = watch_of_this_process()) {
    DiskCall call{name};
    name_path(call, path);
    const Verdict verdict = arrive(*watch, call, lengthens);
    if (verdict != Verdict::make) return refuse(verdict);
  }
  return syscall(number, arguments...);
}

/// A call on an open file that writes no bytes of the caller's.
template <class... Arguments>
long on_file(const char* name, int file, bool lengthens, long number, Arguments... arguments) {
  CallWatch* const watch = watch_of_this_process();
  if (watch != nullptr && on_disk(file)) {
    DiskCall call{name};
    name_file(call, file);
    const Verdict verdict = arrive(*watch, call, lengthens);
    if (verdict != Verdict::make) return refuse(verdict);
  }
  return syscall(number, arguments...);
}

/// How many bytes of a write are to be written; negative: it is refused, and errno says why. `from`: where it begins,
/// negative: where the file stands.
ssize_t allowed_bytes(const char* name, int file, std::size_t size, off_t from) {
  CallWatch* const watch = watch_of_this_process();
  if (watch == nullptr || !on_disk(file)) return static_cast<ssize_t>(size);
  DiskCall call{name, size};
  name_file(call, file);
  struct stat status {};
  fstat(file, &status);
  const bool appends = (fcntl(file, F_GETFL) & O_APPEND) != 0;
  const off_t start = appends ? status.st_size : from < 0 ? lseek(file, 0, SEEK_CUR) : from;
  const Verdict verdict = arrive(*watch, call, start + static_cast<off_t>(size) > status.st_size);
  if (verdict == Verdict::halve) return static_cast<ssize_t>(size / 2);
  return verdict == Verdict::make ? static_cast<ssize_t>(size) : refuse(verdict);
}

/// The end of a write that was torn.
ssize_t done(ssize_t written, std::size_t asked, ssize_t allowed) {
  const CallWatch* const watch = watch_of_this_process();
  if (watch != nullptr && watch->fate == Fate::torn && static_cast<std::size_t>(allowed) < asked) die();
  return written;
}

bool exists(int folder, const char* path) {
  struct stat status {};
  const int before = errno;
  const bool found = fstatat(folder, path, &status, AT_SYMLINK_NOFOLLOW) == 0;
  errno = before;
  return found;
}

int open_at(int folder, const char* path, int flags, mode_t mode) {
  if ((flags & (O_CREAT | O_TRUNC)) == 0) {
    return static_cast<int>(syscall(SYS_openat, folder, path, flags, mode));
  }
  const bool makes = (flags & O_CREAT) != 0 && !exists(folder, path);
  return static_cast<int>(at_path("openat", path, makes, SYS_openat, folder, path, flags, mode));
}

/// Whether a stream may be opened; if not, errno says why.
bool may_open(const char* path, const char* mode) {
  CallWatch* const watch = watch_of_this_process();
  if (watch == nullptr || *mode == 'r') return true;
  DiskCall call{"openat"};
  name_path(call, path);
  const Verdict verdict = arrive(*watch, call, !exists(AT_FDCWD, path));
  return verdict == Verdict::make || refuse(verdict) == 0;
}

ssize_t write_bytes(int file, const void* bytes, std::size_t size) {
  const ssize_t allowed = allowed_bytes("write", file, size, -1);
  return allowed < 0 ? allowed : done(syscall(SYS_write, file, bytes, allowed), size, allowed);
}

ssize_t write_bytes_at(int file, const void* bytes, std::size_t size, off_t from) {
  const ssize_t allowed = allowed_bytes("pwrite64", file, size, from);
  return allowed < 0 ? allowed : done(syscall(SYS_pwrite64, file, bytes, allowed, from), size, allowed);
}

ssize_t write_parts(int file, const iovec* parts, int count) {
  std::size_t size = 0;
  for (int i = 0; i < count; ++i) size += parts[i].iov_len;
  const ssize_t allowed = allowed_bytes("writev", file, size, -1);
  if (allowed < 0) return allowed;
  if (static_cast<std::size_t>(allowed) == size) return syscall(SYS_writev, file, parts, count);
  ssize_t written = 0;
  for (int i = 0; i < count && written < allowed; ++i) {
    const std::size_t length = std::min(parts[i].iov_len, static_cast<std::size_t>(allowed - written));
    written += syscall(SYS_write, file, parts[i].iov_base, length);
  }
  return done(written, size, allowed);
}

int cut_length(int file, off_t length) {
  struct stat status {};
  const bool longer = fstat(file, &status) == 0 && length > status.st_size;
  return static_cast<int>(on_file("ftruncate", file, longer, SYS_ftruncate, file, length));
}

int unlink_at(int folder, const char* path, int flags) {
  return static_cast<int>(at_path("unlinkat", path, false, SYS_unlinkat, folder, path, flags));
}

int remove_any(const char* path) {
  if (unlink_at(AT_FDCWD, path, 0) == 0) return 0;
  return errno == EISDIR ? unlink_at(AT_FDCWD, path, AT_REMOVEDIR) : -1;
}

int rename_at(int from_folder, const char* from, int to_folder, const char* to, unsigned flags) {
  return static_cast<int>(at_path("renameat2", to, false, SYS_renameat2, from_folder, from, to_folder, to, flags));
}

}  // namespace
}  // namespace ordinatio::crash

// Names of their own, and the C library's for the linker: the headers declare those with attributes, and under
// _FILE_OFFSET_BITS with other names, than a definition here could match in every build.
#define CAUGHT(result, name, parameters)                                                 \
  extern "C" {                                                                           \
  __attribute__((visibility("default"))) result caught_##name parameters __asm__(#name); \
  }                                                                                      \
  result caught_##name parameters

namespace caught = ordinatio::crash;

#define CAUGHT_OPEN(name)                                 \
  CAUGHT(int, name, (const char* path, int flags, ...)) { \
    va_list rest;                                         \
    va_start(rest, flags);                                \
    const mode_t mode = va_arg(rest, mode_t);             \
    va_end(rest);                                         \
    return caught::open_at(AT_FDCWD, path, flags, mode);  \
  }
CAUGHT_OPEN(open)
CAUGHT_OPEN(open64)

#define CAUGHT_OPENAT(name)                                           \
  CAUGHT(int, name, (int folder, const char* path, int flags, ...)) { \
    va_list rest;                                                     \
    va_start(rest, flags);                                            \
    const mode_t mode = va_arg(rest, mode_t);                         \
    va_end(rest);                                                     \
    return caught::open_at(folder, path, flags, mode);                \
  }
CAUGHT_OPENAT(openat)
CAUGHT_OPENAT(openat64)

// A stream opens its file within the C library, but libstdc++ writes to it by the calls that are caught here.
#define CAUGHT_FOPEN(name)                                                                                        \
  CAUGHT(std::FILE*, name, (const char* path, const char* mode)) {                                                \
    static const auto open = reinterpret_cast<std::FILE* (*)(const char*, const char*)>(dlsym(RTLD_NEXT, #name)); \
    return caught::may_open(path, mode) ? open(path, mode) : nullptr;                                             \
  }
CAUGHT_FOPEN(fopen)
CAUGHT_FOPEN(fopen64)

CAUGHT(int, creat, (const char* path, mode_t mode)) {
  return caught::open_at(AT_FDCWD, path, O_CREAT | O_WRONLY | O_TRUNC, mode);
}
CAUGHT(int, creat64, (const char* path, mode_t mode)) {
  return caught::open_at(AT_FDCWD, path, O_CREAT | O_WRONLY | O_TRUNC, mode);
}

CAUGHT(ssize_t, write, (int file, const void* bytes, std::size_t size)) {
  return caught::write_bytes(file, bytes, size);
}
CAUGHT(ssize_t, pwrite, (int file, const void* bytes, std::size_t size, off_t from)) {
  return caught::write_bytes_at(file, bytes, size, from);
}
CAUGHT(ssize_t, pwrite64, (int file, const void* bytes, std::size_t size, off_t from)) {
  return caught::write_bytes_at(file, bytes, size, from);
}
CAUGHT(ssize_t, writev, (int file, const iovec* parts, int count)) { return caught::write_parts(file, parts, count); }

CAUGHT(int, ftruncate, (int file, off_t length)) { return caught::cut_length(file, length); }
CAUGHT(int, ftruncate64, (int file, off_t length)) { return caught::cut_length(file, length); }
CAUGHT(int, truncate, (const char* path, off_t length)) {
  return static_cast<int>(caught::at_path("truncate", path, false, SYS_truncate, path, length));
}
CAUGHT(int, truncate64, (const char* path, off_t length)) {
  return static_cast<int>(caught::at_path("truncate", path, false, SYS_truncate, path, length));
}
CAUGHT(int, fallocate, (int file, int mode, off_t from, off_t length)) {
  return static_cast<int>(caught::on_file("fallocate", file, true, SYS_fallocate, file, mode, from, length));
}
CAUGHT(int, posix_fallocate, (int file, off_t from, off_t length)) {
  return caught::on_file("fallocate", file, true, SYS_fallocate, file, 0, from, length) == 0 ? 0 : errno;
}
CAUGHT(ssize_t, sendfile, (int to, int from, off_t* start, std::size_t size)) {
  return caught::on_file("sendfile", to, true, SYS_sendfile, to, from, start, size);
}

CAUGHT(int, fsync, (int file)) { return static_cast<int>(caught::on_file("fsync", file, false, SYS_fsync, file)); }
CAUGHT(int, fdatasync, (int file)) {
  return static_cast<int>(caught::on_file("fdatasync", file, false, SYS_fdatasync, file));
}

CAUGHT(int, rename, (const char* from, const char* to)) { return caught::rename_at(AT_FDCWD, from, AT_FDCWD, to, 0); }
CAUGHT(int, renameat, (int from_folder, const char* from, int to_folder, const char* to)) {
  return caught::rename_at(from_folder, from, to_folder, to, 0);
}
CAUGHT(int, renameat2, (int from_folder, const char* from, int to_folder, const char* to, unsigned flags)) {
  return caught::rename_at(from_folder, from, to_folder, to, flags);
}
CAUGHT(int, unlink, (const char* path)) { return caught::unlink_at(AT_FDCWD, path, 0); }
CAUGHT(int, unlinkat, (int folder, const char* path, int flags)) { return caught::unlink_at(folder, path, flags); }
CAUGHT(int, rmdir, (const char* path)) { return caught::unlink_at(AT_FDCWD, path, AT_REMOVEDIR); }
CAUGHT(int, remove, (const char* path)) { return caught::remove_any(path); }

CAUGHT(int, mkdir, (const char* path, mode_t mode)) {
  const bool makes = !caught::exists(AT_FDCWD, path);
  return static_cast<int>(caught::at_path("mkdirat", path, makes, SYS_mkdirat, AT_FDCWD, path, mode));
}
CAUGHT(int, mkdirat, (int folder, const char* path, mode_t mode)) {
  const bool makes = !caught::exists(folder, path);
  return static_cast<int>(caught::at_path("mkdirat", path, makes, SYS_mkdirat, folder, path, mode));
}
CAUGHT(int, link, (const char* from, const char* to)) {
  return static_cast<int>(caught::at_path("linkat", to, true, SYS_linkat, AT_FDCWD, from, AT_FDCWD, to, 0));
}
CAUGHT(int, linkat, (int from_folder, const char* from, int to_folder, const char* to, int flags)) {
  return static_cast<int>(caught::at_path("linkat", to, true, SYS_linkat, from_folder, from, to_folder, to, flags));
}
CAUGHT(int, symlink, (const char* target, const char* path)) {
  return static_cast<int>(caught::at_path("symlinkat", path, true, SYS_symlinkat, target, AT_FDCWD, path));
}

CAUGHT(int, chmod, (const char* path, mode_t mode)) {
  return static_cast<int>(caught::at_path("fchmodat", path, false, SYS_fchmodat, AT_FDCWD, path, mode));
}
CAUGHT(int, fchmodat, (int folder, const char* path, mode_t mode, int flags)) {
  if (flags != 0) {  // which the system call does not know
    errno = ENOTSUP;
    return -1;
  }
  return static_cast<int>(caught::at_path("fchmodat", path, false, SYS_fchmodat, folder, path, mode));
}
CAUGHT(int, fchmod, (int file, mode_t mode)) {
  return static_cast<int>(caught::on_file("fchmod", file, false, SYS_fchmod, file, mode));
}
CAUGHT(int, fchown, (int file, uid_t owner, gid_t group)) {
  return static_cast<int>(caught::on_file("fchown", file, false, SYS_fchown, file, owner, group));
}
CAUGHT(int, utimensat, (int folder, const char* path, const timespec* times, int flags)) {
  return static_cast<int>(caught::at_path("utimensat", path, false, SYS_utimensat, folder, path, times, flags));
}
