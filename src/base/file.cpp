#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>

#include "base/base.h"

namespace ordinatio::inline base {
namespace {

namespace fs = std::filesystem;

/// A file descriptor that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  [[nodiscard]] int get() const { return number_; }
  [[nodiscard]] bool open() const { return number_ >= 0; }
  /// Closes now and tells whether that went well: some file systems report a full disk only here.
  bool close() { return ::close(std::exchange(number_, -1)) == 0; }

 private:
  int number_;
};

std::string mend_for(int error) {
  switch (error) {
    case ENOENT:
      return "Check the name and the folder";
    case EACCES:
    case EPERM:
      return "Give yourself the right to it, or choose another place";
    case EROFS:
      return "Choose a folder that can be written to, with --out";
    case ENOSPC:
    case EDQUOT:
      return "Make room on the disk, then run the command again; nothing was changed";
    case EFBIG:
      return "Allow larger files (ulimit -f), then run the command again; nothing was changed";
    case EMFILE:
    case ENFILE:
      return "Close other programs or allow more open files (ulimit -n), then run the command again";
    case EIO:
      return "Check the disk, then run the command again";
    case EISDIR:
      return "Name a file, not a folder";
    case ENOTDIR:
      return "A part of the path is a file; choose another folder";
    default:
      return "";
  }
}

/// Whether the system failed, whatever was asked of it.
bool is_trouble_of_system(int error) {
  constexpr int troubles[] = {EMFILE, ENFILE, EIO, ENOMEM, ENOSPC, EDQUOT, EFBIG, ESTALE};
  return std::ranges::find(troubles, error) != std::end(troubles);
}

Fault file_fault(const std::string& what, const fs::path& path, int error, Fault::Cause cause = Fault::Cause::input) {
  if (is_trouble_of_system(error)) cause = Fault::Cause::machine;
  // strerror is not thread-safe everywhere; the generic category is, and does not follow the locale.
  return {what, path.string(), std::generic_category().message(error), mend_for(error), cause};
}

bool write_all(int file, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(file, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

}  // namespace

fs::path folder_of(const fs::path& path) { return path.has_parent_path() ? path.parent_path() : fs::path("."); }

Result<std::string> read_file(const fs::path& path, std::size_t limit) {
  const std::string what = "cannot read the file";
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (!file.open()) return file_fault(what, path, errno);
  struct stat status {};
  if (::fstat(file.get(), &status) != 0) return file_fault(what, path, errno);
  if (S_ISDIR(status.st_mode)) return file_fault(what, path, EISDIR);
  std::string bytes(static_cast<std::size_t>(std::max<off_t>(status.st_size, 0)), '\0');
  std::size_t filled = 0;
  for (;;) {  // the size is a hint only: pipes have none, and a file may grow
    if (filled == bytes.size()) bytes.resize(bytes.size() + 4096);
    const ssize_t got = ::read(file.get(), bytes.data() + filled, bytes.size() - filled);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return file_fault(what, path, errno);
    if (got == 0) break;
    filled += static_cast<std::size_t>(got);
    if (filled > limit) {
      return Fault{what, path.string(), "it is larger than " + std::to_string(limit >> 20) + " MiB",
                   "Part it into smaller files"};
    }
  }
  bytes.resize(filled);
  return bytes;
}

MaybeFault write_file(const fs::path& path, std::string_view bytes) {
  const std::string what = "cannot write the file";
  fs::path temporary = path;
  temporary += ".part";
  Descriptor file(::open(temporary.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666));
  if (!file.open()) return file_fault(what, path, errno, Fault::Cause::machine);
  if (!write_all(file.get(), bytes) || ::fsync(file.get()) != 0 || !file.close() ||
      ::rename(temporary.c_str(), path.c_str()) != 0) {
    const int error = errno;
    ::unlink(temporary.c_str());
    return file_fault(what, path, error, Fault::Cause::machine);
  }
  sync_folder(folder_of(path));
  return std::nullopt;
}

MaybeFault move_whole(const fs::path& from, const fs::path& to) {
  const Descriptor file(::open(from.c_str(), O_RDONLY | O_CLOEXEC));
  std::error_code error;
  if (!file.open() || ::fsync(file.get()) != 0) error = std::make_error_code(std::errc::io_error);
  if (!error) fs::rename(from, to, error);
  if (error) {
    return Fault{"cannot write the file", to.string(), error.message(), "Check the folder and its disk",
                 Fault::Cause::machine};
  }
  sync_folder(folder_of(to));
  return std::nullopt;
}

void sync_folder(const fs::path& folder) {
  const Descriptor handle(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (handle.open()) ::fsync(handle.get());
}

MaybeFault make_folder(const fs::path& path) {
  std::error_code error;
  fs::create_directories(path, error);
  if (error) return file_fault("cannot make the folder", path, error.value());
  return std::nullopt;
}

}  // namespace ordinatio::inline base
