#include "kill_points.h"

#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <filesystem>
#include <iterator>
#include <stdexcept>
#include <system_error>
#include <utility>

#include "call_watch.h"

namespace ordinatio::crash {
namespace fs = std::filesystem;
namespace {

constexpr int threw = 125;  // exit code of a child whose command threw

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
    if (watch.stop_before == watch.count + 1) stop(watch);
    call_watch = nullptr;
    if (watch.fate == Fate::power_cut) record->cut(watch.loss);
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

pid_t fork_child(CallWatch& watch, DiskRecord* record, const std::function<int()>& command) {
  require_one_thread();
  const pid_t child = fork();
  if (child < 0) throw std::system_error(errno, std::generic_category(), "fork");
  if (child == 0) be_the_child(watch, record, command);
  return child;
}

/// What became of a child that was to be struck at its call of that number, or nowhere.
KillRun end_of(pid_t child, const CallWatch& watch) {
  const int status = wait_for(child);
  KillRun run;
  run.calls = calls_made(watch);
  run.killed = WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL && kills(watch.fate) && watch.strike_at != no_call &&
               run.calls.size() >= watch.strike_at;
  if (run.killed) return run;
  if (!WIFEXITED(status)) throw std::runtime_error("the command ended by signal " + std::to_string(WTERMSIG(status)));
  run.exit_code = WEXITSTATUS(status);
  if (run.exit_code == threw) throw std::runtime_error("the command threw");
  return run;
}

/// A child that stops, at the other end of a line.
class StoppingChild {
 public:
  StoppingChild(CallWatch& watch, DiskRecord* record, const std::function<int()>& command) : watch_(watch) {
    int ends[2] = {};
    if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends) != 0)
      throw std::system_error(errno, std::generic_category(), "socketpair");
    line_ = ends[0];
    watch.parent = ends[1];
    child_ = fork_child(watch, record, [&] {
      close(line_);
      return command();
    });
    close(ends[1]);
  }
  ~StoppingChild() {
    if (child_ != 0) kill(child_, SIGKILL);
    if (child_ != 0) wait_for(child_);
    close(line_);
  }
  StoppingChild(const StoppingChild&) = delete;
  StoppingChild& operator=(const StoppingChild&) = delete;

  void wait_for_stop() const {
    Word word{};
    if (read(line_, &word, sizeof word) != sizeof word)
      throw std::logic_error("the command makes fewer calls than it was to be stopped at");
  }
  void tell(Word word) const {
    if (write(line_, &word, sizeof word) != sizeof word)
      throw std::system_error(errno, std::generic_category(), "write");
  }
  KillRun end() { return end_of(std::exchange(child_, 0), watch_); }

 private:
  CallWatch& watch_;
  int line_ = -1;
  pid_t child_ = 0;
};

/// A copy in the place of a folder, which stands aside meanwhile.
class StandIn {
 public:
  explicit StandIn(const fs::path& folder) : folder_(folder), aside_(folder.string() + ".aside") {
    fs::rename(folder_, aside_);
    fs::copy(aside_, folder_, fs::copy_options::recursive);
  }
  ~StandIn() {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
    fs::rename(aside_, folder_, ignored);
  }
  StandIn(const StandIn&) = delete;
  StandIn& operator=(const StandIn&) = delete;

 private:
  fs::path folder_, aside_;
};

void announce(CallWatch& watch, const Stop& stop) {
  watch.loss = stop.loss;
  watch.stop_before = stop.fate == Fate::torn ? no_call : stop.call;
  watch.stop_within = stop.fate == Fate::torn ? stop.call : no_call;
}

}  // namespace

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
  const SharedMemory<CallWatch> watch;
  watch->strike_at = call;
  watch->fate = fate;
  return end_of(fork_child(*watch, nullptr, command), *watch);
}

KillRun cut_power_at(std::size_t call, const Loss& loss, const std::function<int()>& command) {
  const SharedMemory<CallWatch> watch;
  watch->strike_at = call;
  watch->fate = Fate::power_cut;
  watch->loss = loss;
  DiskRecord record;
  return end_of(fork_child(*watch, &record, command), *watch);
}

KillRun stop_at_each(const fs::path& folder, const std::vector<Stop>& stops,
                     const std::function<void(const Stop&)>& look, const std::function<int()>& command) {
  const SharedMemory<CallWatch> watch;
  if (!stops.empty()) announce(*watch, stops.front());
  const bool is_cut = std::ranges::any_of(stops, [](const Stop& one) { return one.fate == Fate::power_cut; });
  DiskRecord record;
  StoppingChild child(*watch, is_cut ? &record : nullptr, command);
  for (std::size_t i = 0; i < stops.size(); ++i) {
    child.wait_for_stop();
    {
      const StandIn copy(folder);
      if (stops[i].fate == Fate::power_cut) child.tell(Word::cut_power);
      if (stops[i].fate == Fate::power_cut) child.wait_for_stop();
      look(stops[i]);
    }
    announce(*watch, i + 1 < stops.size() ? stops[i + 1] : Stop{no_call});
    child.tell(Word::go_on);
  }
  return child.end();
}

}  // namespace ordinatio::crash
