#include "traced_run.h"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/ptrace.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <map>
#include <optional>
#include <stdexcept>
#include <system_error>

#include "call_watch.h"

namespace ordinatio::crash {
namespace {

constexpr int not_permitted = 124;

/// What of its arguments says that a call reaches the disk.
enum class Reach { always, flags_second, flags_third, file_first };
struct WatchedCall {
  const char* name;
  Reach reach;
};

// Every system call of Linux that changes a file, a folder or what is known of them, or makes that last. Those that
// are older or younger forms of another bear the name under which caught_calls.cpp makes it.
const std::map<long, WatchedCall>& watched_calls() {
  static const std::map<long, WatchedCall> calls{
#ifdef SYS_open  // not on newer architectures, which have only the forms with a folder
      {SYS_open, {"openat", Reach::flags_second}},
      {SYS_creat, {"openat", Reach::always}},
      {SYS_rename, {"renameat2", Reach::always}},
      {SYS_unlink, {"unlinkat", Reach::always}},
      {SYS_rmdir, {"unlinkat", Reach::always}},
      {SYS_mkdir, {"mkdirat", Reach::always}},
      {SYS_link, {"linkat", Reach::always}},
      {SYS_symlink, {"symlinkat", Reach::always}},
      {SYS_mknod, {"mknodat", Reach::always}},
      {SYS_chmod, {"fchmodat", Reach::always}},
      {SYS_chown, {"fchownat", Reach::always}},
      {SYS_lchown, {"fchownat", Reach::always}},
      {SYS_utime, {"utimensat", Reach::always}},
      {SYS_utimes, {"utimensat", Reach::always}},
      {SYS_futimesat, {"utimensat", Reach::always}},
#endif
#ifdef SYS_renameat
      {SYS_renameat, {"renameat2", Reach::always}},
#endif
      {SYS_openat, {"openat", Reach::flags_third}},
      {SYS_openat2, {"openat2", Reach::always}},
      {SYS_write, {"write", Reach::file_first}},
      {SYS_pwrite64, {"pwrite64", Reach::file_first}},
      {SYS_writev, {"writev", Reach::file_first}},
      {SYS_pwritev, {"pwritev", Reach::file_first}},
      {SYS_pwritev2, {"pwritev2", Reach::file_first}},
      {SYS_sendfile, {"sendfile", Reach::file_first}},
      {SYS_splice, {"splice", Reach::always}},
      {SYS_copy_file_range, {"copy_file_range", Reach::always}},
      {SYS_ftruncate, {"ftruncate", Reach::file_first}},
      {SYS_truncate, {"truncate", Reach::always}},
      {SYS_fallocate, {"fallocate", Reach::file_first}},
      {SYS_fsync, {"fsync", Reach::file_first}},
      {SYS_fdatasync, {"fdatasync", Reach::file_first}},
      {SYS_sync_file_range, {"sync_file_range", Reach::file_first}},
      {SYS_syncfs, {"syncfs", Reach::file_first}},
      {SYS_sync, {"sync", Reach::always}},
      {SYS_msync, {"msync", Reach::always}},
      {SYS_renameat2, {"renameat2", Reach::always}},
      {SYS_unlinkat, {"unlinkat", Reach::always}},
      {SYS_mkdirat, {"mkdirat", Reach::always}},
      {SYS_linkat, {"linkat", Reach::always}},
      {SYS_symlinkat, {"symlinkat", Reach::always}},
      {SYS_mknodat, {"mknodat", Reach::always}},
      {SYS_fchmod, {"fchmod", Reach::file_first}},
      {SYS_fchmodat, {"fchmodat", Reach::always}},
      {SYS_fchown, {"fchown", Reach::file_first}},
      {SYS_fchownat, {"fchownat", Reach::always}},
      {SYS_utimensat, {"utimensat", Reach::always}},
      {SYS_setxattr, {"setxattr", Reach::always}},
      {SYS_fsetxattr, {"fsetxattr", Reach::file_first}},
      {SYS_io_uring_setup, {"io_uring_setup", Reach::always}},
      {SYS_io_submit, {"io_submit", Reach::always}},
  };
  return calls;
}

/// Pipes, terminals and the standard streams are no disk.
bool on_disk(pid_t child, std::uint64_t file) {
  struct stat status {};
  const std::string path = "/proc/" + std::to_string(child) + "/fd/" + std::to_string(file);
  if (file <= STDERR_FILENO || stat(path.c_str(), &status) != 0) return false;
  return S_ISREG(status.st_mode) || S_ISDIR(status.st_mode);
}

bool makes_or_empties(std::uint64_t flags) { return (flags & (O_CREAT | O_TRUNC)) != 0; }

/// The name of the call that the child is about to make, if it can change the disk.
std::optional<std::string> call_at_stop(pid_t child) {
  __ptrace_syscall_info info{};
  if (ptrace(PTRACE_GET_SYSCALL_INFO, child, sizeof info, &info) < 0) {
    throw std::system_error(errno, std::generic_category(), "ptrace");
  }
  if (info.op != PTRACE_SYSCALL_INFO_ENTRY) return std::nullopt;
  const auto call = watched_calls().find(static_cast<long>(info.entry.nr));
  if (call == watched_calls().end()) return std::nullopt;
  const auto& arguments = info.entry.args;
  const Reach reach = call->second.reach;
  const bool reaches = reach == Reach::always || (reach == Reach::flags_second && makes_or_empties(arguments[1])) ||
                       (reach == Reach::flags_third && makes_or_empties(arguments[2])) ||
                       (reach == Reach::file_first && on_disk(child, arguments[0]));
  return reaches ? std::optional<std::string>(call->second.name) : std::nullopt;
}

[[noreturn]] void be_the_child(CallWatch& watch, const std::function<int()>& command) {
  if (ptrace(PTRACE_TRACEME, 0, nullptr, nullptr) != 0) _exit(not_permitted);
  raise(SIGSTOP);
  watch.watched = getpid();
  try {
    call_watch = &watch;
    command();
    call_watch = nullptr;
    _exit(0);
  } catch (...) {
    _exit(1);
  }
}

/// Where the child stopped or ended.
int next_stop(pid_t child) {
  int status = 0;
  while (waitpid(child, &status, 0) < 0) {
    if (errno != EINTR) throw std::system_error(errno, std::generic_category(), "waitpid");
  }
  return status;
}

/// Follows the child to its end, call by call.
TracedRun follow(pid_t child) {
  TracedRun run;
  int status = next_stop(child);
  if (WIFEXITED(status) && WEXITSTATUS(status) == not_permitted) return {false, {}, {}};
  ptrace(PTRACE_SETOPTIONS, child, nullptr, PTRACE_O_TRACESYSGOOD | PTRACE_O_EXITKILL);
  int signal = 0;  // the stop that the child began with is not delivered
  while (!WIFEXITED(status) && !WIFSIGNALED(status)) {
    if (ptrace(PTRACE_SYSCALL, child, nullptr, signal) != 0) return {false, {}, {}};
    status = next_stop(child);
    const bool at_call = WIFSTOPPED(status) && WSTOPSIG(status) == (SIGTRAP | 0x80);
    signal = WIFSTOPPED(status) && !at_call ? WSTOPSIG(status) : 0;
    if (!at_call) continue;
    if (auto name = call_at_stop(child)) run.seen.push_back(*std::move(name));
  }
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) throw std::runtime_error("the traced command did not end well");
  return run;
}

}  // namespace

TracedRun run_traced(const std::function<int()>& command) {
  const SharedMemory<CallWatch> watch;
  const pid_t child = fork();
  if (child < 0) throw std::system_error(errno, std::generic_category(), "fork");
  if (child == 0) be_the_child(*watch, command);
  TracedRun run = follow(child);
  for (const DiskCall& call : calls_made(*watch)) run.caught.emplace_back(call.name);
  return run;
}

}  // namespace ordinatio::crash
