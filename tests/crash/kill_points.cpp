#include "kill_points.h"

#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <filesystem>
#include <iterator>
#include <new>
#include <stdexcept>
#include <system_error>

#include "call_watch.h"

namespace ordinatio::crash {
namespace {

constexpr unsigned seconds_limit = 60;  // a command that hangs ends by SIGALRM, and the test with it
constexpr int threw = 125;              // exit code of a child whose command threw

void require_one_thread() {
  const std::filesystem::directory_iterator threads("/proc/self/task");
  if (std::distance(begin(threads), end(threads)) != 1)
    throw std::logic_error("a process with threads cannot be forked");
}

/// _exit: nothing of the parent's may be flushed or destroyed a second time.
[[noreturn]] void be_the_child(CallWatch& watch, DiskRecord* record, const std::function<int()>& command) {
  alarm(seconds_limit);
  watch.watched = getpid();
  disk_record = record;
  int code = threw;
  try {
    call_watch = &watch;
    code = command();
    call_watch = nullptr;
    if (record != nullptr) record->cut();
  } catch (const std::exception& error) {
    call_watch = nullptr;
    std::fprintf(stderr, "the command threw: %s\n", error.what());
  }
  _exit(code);
}

int wait_for(pid_t child) {
  int status = 0;
  while (waitpid(child, &status, 0) < 0) {
    if (errno != EINTR) throw std::system_error(errno, std::generic_category(), "waitpid");
  }
  return status;
}

bool kills(Fate fate) { return fate == Fate::killed || fate == Fate::torn || fate == Fate::power_cut; }

KillRun run_struck(std::size_t call, Fate fate, DiskRecord* record, const std::function<int()>& command) {
  require_one_thread();
  CallWatch& watch = shared_watch();
  watch.count = 0;
  watch.strike_at = call;
  watch.fate = fate;
  const pid_t child = fork();
  if (child < 0) throw std::system_error(errno, std::generic_category(), "fork");
  if (child == 0) be_the_child(watch, record, command);

  const int status = wait_for(child);
  KillRun run;
  run.calls = calls_made(watch);
  run.killed =
      WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL && kills(fate) && call != no_call && run.calls.size() >= call;
  if (run.killed) return run;
  if (!WIFEXITED(status)) throw std::runtime_error("the command ended by signal " + std::to_string(WTERMSIG(status)));
  run.exit_code = WEXITSTATUS(status);
  if (run.exit_code == threw) throw std::runtime_error("the command threw");
  return run;
}

}  // namespace

CallWatch& shared_watch() {
  static CallWatch* const watch = [] {
    void* memory = mmap(nullptr, sizeof(CallWatch), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    if (memory == MAP_FAILED) throw std::system_error(errno, std::generic_category(), "mmap");
    return new (memory) CallWatch;
  }();
  return *watch;
}

std::vector<DiskCall> calls_made(const CallWatch& watch) {
  const std::size_t count = watch.count;
  if (count > call_limit) throw std::runtime_error("the command makes more calls than can be watched");
  return {watch.calls.begin(), watch.calls.begin() + static_cast<std::ptrdiff_t>(count)};
}

std::string name_of(Fate fate) {
  switch (fate) {
    case Fate::killed:
      return "killed";
    case Fate::torn:
      return "torn";
    case Fate::disk_full:
      return "disk full";
    case Fate::failed:
      return "failed";
    case Fate::read_only:
      return "read only";
    case Fate::power_cut:
      return "power cut";
  }
  return {};
}

std::string describe(const DiskCall& call) {
  std::string text = std::string(call.name) + " " + call.path.data();
  if (call.bytes > 0) text += ", " + std::to_string(call.bytes) + " bytes";
  return text;
}

KillRun run_until(std::size_t call, Fate fate, const std::function<int()>& command) {
  if (fate == Fate::power_cut) throw std::logic_error("a power cut needs to know what is lost: cut_power_at");
  return run_struck(call, fate, nullptr, command);
}

KillRun cut_power_at(std::size_t call, const Loss& loss, const std::function<int()>& command) {
  DiskRecord record(loss);
  return run_struck(call, Fate::power_cut, &record, command);
}

}  // namespace ordinatio::crash
