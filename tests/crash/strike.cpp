#include "strike.h"

#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <climits>
#include <csignal>
#include <cstring>

namespace ordinatio::crash {

std::atomic<CallWatch*> call_watch{nullptr};
std::atomic<DiskRecord*> disk_record{nullptr};

namespace {

[[noreturn]] void cut_power(const CallWatch& watch) {
  call_watch = nullptr;  // what is lost now is not the command's doing
  disk_record.load()->cut(watch.loss);
  die();
}

}  // namespace

void stop(CallWatch& watch) {
  alarm(0);
  call_watch = nullptr;
  Word word = Word::stopped;
  do {
    if (word == Word::cut_power) disk_record.load()->cut(watch.loss);
    const Word said = Word::stopped;
    if (syscall(SYS_write, watch.parent, &said, sizeof said) != sizeof said) die();
    if (syscall(SYS_read, watch.parent, &word, sizeof word) != sizeof word) die();  // there is no parent any more
  } while (word != Word::go_on);
  call_watch = &watch;
  alarm(seconds_limit);
}

CallWatch* watch_of_this_process() {
  CallWatch* const watch = call_watch.load();
  return watch != nullptr && watch->watched == getpid() ? watch : nullptr;
}

DiskRecord* record_of_this_process() { return watch_of_this_process() != nullptr ? disk_record.load() : nullptr; }

void die() {
  for (;;) syscall(SYS_kill, syscall(SYS_getpid), SIGKILL);
}

Verdict arrive(CallWatch& watch, const DiskCall& call, bool lengthens) {
  const std::size_t number = ++watch.count;
  if (number <= call_limit) watch.calls[number - 1] = call;
  if (number == watch.stop_before) stop(watch);
  if (number == watch.stop_within) {
    if (call.bytes > 1) return Verdict::stop_halfway;
    stop(watch);
  }
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
    case Fate::read_only:
      return Verdict::refuse_read_only;
    case Fate::power_cut:
      if (struck) cut_power(watch);
      return Verdict::make;
  }
  return Verdict::make;
}

int refuse(Verdict verdict) {
  errno = verdict == Verdict::refuse_full ? ENOSPC : verdict == Verdict::refuse_failed ? EIO : EROFS;
  return -1;
}

bool refuses_writers(const CallWatch& watch) {
  return watch.fate == Fate::read_only && watch.strike_at != no_call && watch.count + 1 >= watch.strike_at;
}

bool on_disk(int file) {
  struct stat status {};
  return file > STDERR_FILENO && fstat(file, &status) == 0 && (S_ISREG(status.st_mode) || S_ISDIR(status.st_mode));
}

DiskCall call_on_path(const char* name, const char* path) {
  DiskCall call{name};
  if (path == nullptr) return call;
  const std::size_t length = std::strlen(path), room = call.path.size() - 1;
  std::memcpy(call.path.data(), path + (length > room ? length - room : 0), std::min(length, room));
  return call;
}

DiskCall call_on_file(const char* name, int file, std::size_t bytes) {
  const std::string link = "/proc/self/fd/" + std::to_string(file);
  std::array<char, PATH_MAX> path{};
  const bool known = readlink(link.c_str(), path.data(), path.size() - 1) > 0;
  DiskCall call = call_on_path(name, known ? path.data() : nullptr);
  call.bytes = bytes;
  return call;
}

}  // namespace ordinatio::crash
