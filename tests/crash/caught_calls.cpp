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
#include <cerrno>
#include <cstdarg>
#include <cstdio>

#include "strike.h"

namespace ordinatio::crash {
namespace {

/// The result of a call; `record` is told of it if it went well.
template <class Result, class Record>
Result recorded(Result result, Record&& record) {
  if (result >= 0) {
    if (DiskRecord* const open = record_of_this_process()) record(*open);
  }
  return result;
}

void expect(int folder, const char* path) {
  if (DiskRecord* const open = record_of_this_process()) open->expect(folder, path);
}

/// A call that names a path.
template <class... Arguments>
int at_path(const char* name, const char* path, bool lengthens, long number, Arguments... arguments) {
  if (CallWatch* const watch = watch_of_this_process()) {
    const Verdict verdict = arrive(*watch, call_on_path(name, path), lengthens);
    if (verdict != Verdict::make) return refuse(verdict);
  }
  return static_cast<int>(syscall(number, arguments...));
}

/// A call on an open file that writes no bytes of the caller's.
template <class... Arguments>
long on_file(const char* name, int file, bool lengthens, long number, Arguments... arguments) {
  CallWatch* const watch = watch_of_this_process();
  if (watch != nullptr && on_disk(file)) {
    const Verdict verdict = arrive(*watch, call_on_file(name, file), lengthens);
    if (verdict != Verdict::make) return refuse(verdict);
  }
  return syscall(number, arguments...);
}

/// A write: what of it is to be done, and where it begins.
struct Write {
  const char* name;
  int file;
  std::size_t asked;
  ssize_t allowed;  // negative: it is refused, and errno says why
  off_t from = -1;  // negative: not watched, or no disk
  bool stops_halfway = false;
};

/// `from`: negative where the file's own place is meant.
Write begin_write(const char* name, int file, std::size_t size, off_t from) {
  Write write{name, file, size, static_cast<ssize_t>(size)};
  CallWatch* const watch = watch_of_this_process();
  if (watch == nullptr || !on_disk(file)) return write;
  struct stat status {};
  fstat(file, &status);
  const bool appends = (fcntl(file, F_GETFL) & O_APPEND) != 0;
  write.from = appends ? status.st_size : from < 0 ? lseek(file, 0, SEEK_CUR) : from;
  const bool lengthens = write.from + static_cast<off_t>(size) > status.st_size;
  const Verdict verdict = arrive(*watch, call_on_file(name, file, size), lengthens);
  write.stops_halfway = verdict == Verdict::stop_halfway;
  if (verdict == Verdict::halve) write.allowed = static_cast<ssize_t>(size / 2);
  const bool is_made = verdict == Verdict::make || verdict == Verdict::halve || verdict == Verdict::stop_halfway;
  if (!is_made) write.allowed = refuse(verdict);
  return write;
}

/// Makes the write by make(begin, size), a part of the bytes: all of what is allowed, or, where it stops halfway, in two parts.
template <class Make>
ssize_t make_write(const Write& write, Make make) {
  const auto allowed = static_cast<std::size_t>(write.allowed), half = write.stops_halfway ? allowed / 2 : 0;
  if (half == 0) return make(0, allowed);
  if (make(0, half) != static_cast<ssize_t>(half)) return -1;
  stop(*watch_of_this_process());
  const ssize_t rest = make(half, allowed - half);
  return rest < 0 ? rest : static_cast<ssize_t>(half) + rest;
}

/// The end of a write, which for a torn one is the end of all.
ssize_t end_write(const Write& write, ssize_t written, const void* bytes) {
  const CallWatch* const watch = watch_of_this_process();
  const bool is_torn = watch != nullptr && static_cast<std::size_t>(write.allowed) < write.asked;
  if (is_torn && watch->fate == Fate::torn) die();
  if (write.from < 0) return written;
  return recorded(written, [&](DiskRecord& record) {
    record.written(write.file, write.from, {static_cast<const char*>(bytes), static_cast<std::size_t>(written)});
  });
}

bool exists(int folder, const char* path) {
  struct stat status {};
  const int before = errno;
  const bool found = fstatat(folder, path, &status, AT_SYMLINK_NOFOLLOW) == 0;
  errno = before;
  return found;
}

int open_at(int folder, const char* path, int flags, mode_t mode) {
  const bool changes = (flags & (O_CREAT | O_TRUNC)) != 0, writes = (flags & O_ACCMODE) != O_RDONLY;
  CallWatch* const watch = watch_of_this_process();
  if (watch == nullptr || (!changes && !writes)) {
    return static_cast<int>(syscall(SYS_openat, folder, path, flags, mode));
  }
  if (refuses_writers(*watch)) return refuse(Verdict::refuse_read_only);
  const bool makes = (flags & O_CREAT) != 0 && !exists(folder, path);
  expect(folder, path);
  const int file = changes ? at_path("openat", path, makes, SYS_openat, folder, path, flags, mode)
                           : static_cast<int>(syscall(SYS_openat, folder, path, flags, mode));
  return recorded(file, [&](DiskRecord& record) {
    if (on_disk(file)) record.opened(folder, path, file, makes, (flags & O_TRUNC) != 0);
  });
}

/// A stream for writing is opened within the C library.
template <class Open>
std::FILE* open_stream(const char* path, const char* mode, Open open) {
  CallWatch* const watch = watch_of_this_process();
  if (watch == nullptr || *mode == 'r') return open(path, mode);
  const bool makes = !exists(AT_FDCWD, path);
  const Verdict verdict = arrive(*watch, call_on_path("openat", path), makes);
  if (verdict != Verdict::make) refuse(verdict);
  if (verdict != Verdict::make) return nullptr;
  expect(AT_FDCWD, path);
  std::FILE* const stream = open(path, mode);
  recorded(stream == nullptr ? -1 : 0, [&](DiskRecord& record) {
    if (on_disk(fileno(stream))) record.opened(AT_FDCWD, path, fileno(stream), makes, *mode == 'w');
  });
  return stream;
}

ssize_t write_bytes(int file, const void* bytes, std::size_t size) {
  const Write write = begin_write("write", file, size, -1);
  if (write.allowed < 0) return -1;
  const auto* const from = static_cast<const char*>(bytes);
  const auto make = [&](std::size_t begin, std::size_t part) { return syscall(SYS_write, file, from + begin, part); };
  return end_write(write, make_write(write, make), bytes);
}

ssize_t write_bytes_at(int file, const void* bytes, std::size_t size, off_t from) {
  const Write write = begin_write("pwrite64", file, size, from);
  if (write.allowed < 0) return -1;
  const auto make = [&](std::size_t begin, std::size_t part) {
    return syscall(SYS_pwrite64, file, static_cast<const char*>(bytes) + begin, part, from + static_cast<off_t>(begin));
  };
  return end_write(write, make_write(write, make), bytes);
}

/// Parts that are watched are joined first: then all of them are one write, which can be halved.
ssize_t write_parts(int file, const iovec* parts, int count) {
  std::string bytes;
  for (int i = 0; i < count; ++i) bytes.append(static_cast<const char*>(parts[i].iov_base), parts[i].iov_len);
  return write_bytes(file, bytes.data(), bytes.size());
}

int cut_length(int file, off_t length) {
  struct stat status {};
  const bool longer = fstat(file, &status) == 0 && length > status.st_size;
  const long result = on_file("ftruncate", file, longer, SYS_ftruncate, file, length);
  return static_cast<int>(recorded(result, [&](DiskRecord& record) { record.truncated(file, length); }));
}

int sync(const char* name, int file, long number) {
  return static_cast<int>(
      recorded(on_file(name, file, false, number, file), [&](DiskRecord& record) { record.synced(file); }));
}

int unlink_at(int folder, const char* path, int flags) {
  expect(folder, path);
  return recorded(at_path("unlinkat", path, false, SYS_unlinkat, folder, path, flags),
                  [&](DiskRecord& record) { record.removed(folder, path); });
}

int remove_any(const char* path) {
  if (unlink_at(AT_FDCWD, path, 0) == 0) return 0;
  return errno == EISDIR ? unlink_at(AT_FDCWD, path, AT_REMOVEDIR) : -1;
}

int rename_at(int from_folder, const char* from, int to_folder, const char* to, unsigned flags) {
  expect(from_folder, from);
  expect(to_folder, to);
  return recorded(at_path("renameat2", to, false, SYS_renameat2, from_folder, from, to_folder, to, flags),
                  [&](DiskRecord& record) { record.renamed(from_folder, from, to_folder, to); });
}

int make_folder_at(int folder, const char* path, mode_t mode) {
  const bool makes = !exists(folder, path);
  return recorded(at_path("mkdirat", path, makes, SYS_mkdirat, folder, path, mode),
                  [&](DiskRecord& record) { record.made_folder(folder, path); });
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
    return caught::open_stream(path, mode, open);                                                                 \
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
  return caught::at_path("truncate", path, false, SYS_truncate, path, length);
}
CAUGHT(int, truncate64, (const char* path, off_t length)) {
  return caught::at_path("truncate", path, false, SYS_truncate, path, length);
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

CAUGHT(int, fsync, (int file)) { return caught::sync("fsync", file, SYS_fsync); }
CAUGHT(int, fdatasync, (int file)) { return caught::sync("fdatasync", file, SYS_fdatasync); }

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

CAUGHT(int, mkdir, (const char* path, mode_t mode)) { return caught::make_folder_at(AT_FDCWD, path, mode); }
CAUGHT(int, mkdirat, (int folder, const char* path, mode_t mode)) { return caught::make_folder_at(folder, path, mode); }
CAUGHT(int, link, (const char* from, const char* to)) {
  return caught::at_path("linkat", to, true, SYS_linkat, AT_FDCWD, from, AT_FDCWD, to, 0);
}
CAUGHT(int, linkat, (int from_folder, const char* from, int to_folder, const char* to, int flags)) {
  return caught::at_path("linkat", to, true, SYS_linkat, from_folder, from, to_folder, to, flags);
}
CAUGHT(int, symlink, (const char* target, const char* path)) {
  return caught::at_path("symlinkat", path, true, SYS_symlinkat, target, AT_FDCWD, path);
}

CAUGHT(int, chmod, (const char* path, mode_t mode)) {
  return caught::at_path("fchmodat", path, false, SYS_fchmodat, AT_FDCWD, path, mode);
}
CAUGHT(int, fchmodat, (int folder, const char* path, mode_t mode, int flags)) {
  if (flags != 0) {  // which the system call does not know
    errno = ENOTSUP;
    return -1;
  }
  return caught::at_path("fchmodat", path, false, SYS_fchmodat, folder, path, mode);
}
CAUGHT(int, fchmod, (int file, mode_t mode)) {
  return static_cast<int>(caught::on_file("fchmod", file, false, SYS_fchmod, file, mode));
}
CAUGHT(int, fchown, (int file, uid_t owner, gid_t group)) {
  return static_cast<int>(caught::on_file("fchown", file, false, SYS_fchown, file, owner, group));
}
CAUGHT(int, utimensat, (int folder, const char* path, const timespec* times, int flags)) {
  return caught::at_path("utimensat", path, false, SYS_utimensat, folder, path, times, flags);
}
