#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>

#include "ledger/database.h"
#include "ledger/ledger.h"

namespace ordinatio::inline ledger {
namespace fs = std::filesystem;
namespace {

constexpr std::size_t backup_limit = std::size_t{4} << 30;  // bytes; two larger ones are taken to differ

/// The one backup that is on its way into a folder. It has the same name whatever the backup is called, so that what a
/// killed run left of it is cleared by the next one; and it is held, so that no other run takes it for such.
class BackupOnItsWay {
 public:
  static Result<std::unique_ptr<BackupOnItsWay>> begin(const fs::path& folder, const fs::path& ledger);
  ~BackupOnItsWay() {
    std::error_code ignored;
    if (!moved_) fs::remove(file_, ignored);
    fs::remove(file_.string() + "-journal", ignored);
    ::close(held_);
  }
  BackupOnItsWay(const BackupOnItsWay&) = delete;
  BackupOnItsWay& operator=(const BackupOnItsWay&) = delete;
  [[nodiscard]] const fs::path& file() const { return file_; }
  MaybeFault move_to(const fs::path& to) {
    MaybeFault fault = move_whole(file_, to);
    moved_ = !fault;
    return fault;
  }

 private:
  BackupOnItsWay(fs::path file, int held) : file_(std::move(file)), held_(held) {}
  fs::path file_;
  int held_;
  bool moved_ = false;
};

/// Whether the file of that name is the one that is open: another run may have moved it to its place meanwhile.
bool is_still(const fs::path& file, int open) {
  struct stat named {
  }, held{};
  return ::stat(file.c_str(), &named) == 0 && ::fstat(open, &held) == 0 && named.st_dev == held.st_dev &&
         named.st_ino == held.st_ino;
}

Result<std::unique_ptr<BackupOnItsWay>> BackupOnItsWay::begin(const fs::path& folder, const fs::path& ledger) {
  const fs::path file = folder / (".unfinished-backup-" + ledger.filename().string());
  const int held = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666);
  if (held < 0) {
    return Fault{"cannot write the file", file.string(), std::generic_category().message(errno),
                 "Check the folder and its disk", Fault::Cause::machine};
  }
  const bool is_ours = ::flock(held, LOCK_EX | LOCK_NB) == 0 && is_still(file, held);
  if (!is_ours || ::ftruncate(held, 0) != 0) {
    ::close(held);
    return Fault{"another backup is being written there", folder.string(), "", "Wait until it has ended",
                 Fault::Cause::machine};
  }
  return std::unique_ptr<BackupOnItsWay>(new BackupOnItsWay(file, held));
}

bool are_alike(const fs::path& a, const fs::path& b) {
  const Result<std::string> one = read_file(a, backup_limit), other = read_file(b, backup_limit);
  return one.ok() && other.ok() && *one == *other;
}

}  // namespace

MaybeFault Ledger::back_up(const fs::path& to) {
  std::error_code error;
  if (!fs::is_directory(folder_of(to), error)) {
    return Fault{"there is no such folder", folder_of(to).string(), "", "Make it, or name another place"};
  }
  const auto copy = BackupOnItsWay::begin(folder_of(to), options_.file);
  if (!copy.ok()) return copy.fault();
  database_->run("VACUUM INTO ?", (*copy)->file().string());
  if (!fs::exists(to, error)) return (*copy)->move_to(to);
  // A run that was cut off before it said so has made it already: the same ledger gives the same copy.
  if (are_alike((*copy)->file(), to)) return std::nullopt;
  return Fault{"the file is there already", to.string(), "a backup does not take another's place",
               "Name a new file, or move that one away"};
}

}  // namespace ordinatio::inline ledger
