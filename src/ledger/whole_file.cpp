#include "ledger/whole_file.h"

#include <fcntl.h>
#include <unistd.h>

namespace ordinatio {
namespace fs = std::filesystem;
namespace {

bool sync_path(const fs::path& path, int flags) {
  const int file = ::open(path.c_str(), flags | O_CLOEXEC);
  if (file < 0) return false;
  const bool done = ::fsync(file) == 0;
  ::close(file);
  return done;
}

}  // namespace

fs::path folder_of(const fs::path& file) { return file.has_parent_path() ? file.parent_path() : fs::path("."); }

MaybeFault move_whole(const fs::path& from, const fs::path& to) {
  std::error_code error;
  if (!sync_path(from, O_RDONLY)) error = std::make_error_code(std::errc::io_error);
  if (!error) fs::rename(from, to, error);
  if (error) {
    return Fault{"cannot write the file", to.string(), error.message(), "Check the folder and its disk",
                 Fault::Cause::machine};
  }
  sync_path(folder_of(to), O_RDONLY | O_DIRECTORY);
  return std::nullopt;
}

}  // namespace ordinatio
