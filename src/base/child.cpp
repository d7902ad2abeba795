#include "base/child.h"

#include <fcntl.h>
#include <poll.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <fstream>
#include <stdexcept>
#include <system_error>
#include <thread>

// AddressSanitizer maps terabytes of shadow memory: the address space cannot be limited under it.
#if defined(__SANITIZE_ADDRESS__)
#define ORDINATIO_SHADOW_MEMORY 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(memory_sanitizer) || __has_feature(thread_sanitizer)
#define ORDINATIO_SHADOW_MEMORY 1
#endif
#endif

namespace ordinatio::inline base {
namespace {

using Clock = std::chrono::steady_clock;
using std::chrono::milliseconds;

constexpr int answer_descriptor = 3;  // the first after the standard ones

/// Fails quietly: a limit that the system does not know leaves the others.
void limit(decltype(RLIMIT_CPU) resource, rlim_t soft, rlim_t hard) {
  const rlimit both{soft, hard};
  setrlimit(resource, &both);
}
void limit(decltype(RLIMIT_CPU) resource, rlim_t amount) { limit(resource, amount, amount); }

#ifndef ORDINATIO_SHADOW_MEMORY
/// Bytes of address space in use, so that the limit counts what the child adds to a large parent.
rlim_t mapped_bytes() {
  std::ifstream pages("/proc/self/statm");
  rlim_t count = 0;
  pages >> count;
  return count * static_cast<rlim_t>(sysconf(_SC_PAGESIZE));
}
#endif

void close_everything_but(int descriptor) {
  const int nowhere = open("/dev/null", O_RDWR);
  dup2(descriptor, answer_descriptor);
  for (const int standard : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
#ifdef ORDINATIO_SHADOW_MEMORY
    if (standard == STDERR_FILENO) continue;  // the sanitizer's report must be seen
#endif
    dup2(nowhere, standard);
  }
  close_range(answer_descriptor + 1, ~0U, 0);
}

void confine(const ChildLimits& limits) {
  prctl(PR_SET_PDEATHSIG, SIGKILL);
  limit(RLIMIT_CORE, 0);
  limit(RLIMIT_CPU, limits.cpu_seconds, limits.cpu_seconds + 1);  // SIGXCPU, and a second later SIGKILL
#ifndef ORDINATIO_SHADOW_MEMORY
  limit(RLIMIT_AS, mapped_bytes() + limits.memory);
  if (!limits.may_start_threads) limit(RLIMIT_NPROC, 0);  // no further children; it counts threads among them
#endif
  limit(RLIMIT_FSIZE, 0);   // writes to the pipe are no file
  limit(RLIMIT_NOFILE, 0);  // opens nothing; what is open stays
}

bool answer_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

/// _exit: nothing of the parent's may be flushed or destroyed a second time.
[[noreturn]] void be_the_child(int descriptor, const std::function<std::string()>& work, const ChildLimits& limits) {
  signal(SIGPIPE, SIG_DFL);
  close_everything_but(descriptor);
  confine(limits);
  try {
    _exit(answer_all(answer_descriptor, work()) ? 0 : 1);
  } catch (...) {
    _exit(1);
  }
}

enum class Ending { answered, too_late, too_long };

/// Reads until the child closes its end, or is over a limit.
Ending read_answer(int descriptor, Clock::time_point deadline, std::size_t longest, std::string& answer) {
  std::array<char, 1 << 16> buffer{};
  while (true) {
    const auto left = std::chrono::duration_cast<milliseconds>(deadline - Clock::now());
    pollfd waiting{descriptor, POLLIN, 0};
    const int ready = left.count() > 0 ? poll(&waiting, 1, static_cast<int>(left.count())) : 0;
    if (ready == 0) return Ending::too_late;
    if (ready < 0 && errno != EINTR) throw std::system_error(errno, std::generic_category(), "poll");
    if (ready < 0) continue;
    const ssize_t got = read(descriptor, buffer.data(), buffer.size());
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) return Ending::answered;
    answer.append(buffer.data(), static_cast<std::size_t>(got));
    if (answer.size() > longest) return Ending::too_long;
  }
}

/// How the child ended, and whether it was killed here.
struct Burial {
  int status = 0;
  bool killed_here = false;
};

/// Waits for the child until the deadline, then kills it.
Burial bury(pid_t child, Clock::time_point deadline) {
  Burial burial;
  while (waitpid(child, &burial.status, WNOHANG) == 0) {
    if (Clock::now() >= deadline) burial.killed_here = kill(child, SIGKILL) == 0;
    std::this_thread::sleep_for(milliseconds(1));
  }
  return burial;
}

std::string seconds(milliseconds time) {
  std::string text;
  append_number(text, static_cast<double>(time.count()) / 1000, 1);
  return text + " s";
}

/// No input's fault: the system gave no pipe or no process.
Fault not_begun(const ChildWords& words, int error) {
  return {words.what,
          {},
          "the system gave no process for it: " + std::generic_category().message(error),
          "Close other programs, then run the command again",
          Fault::Cause::machine};
}

Fault killed_from_outside(const ChildWords& words) {
  return {words.what,
          {},
          "the process that " + words.task + " was killed, as a system does that is short of memory",
          "Close other programs, then run the command again",
          Fault::Cause::machine};
}

/// Which limit a child reached that gave its answer, or shut its pipe.
std::string why_ended(int status, const ChildWords& words, const ChildLimits& limits) {
  if (WIFSIGNALED(status) && WTERMSIG(status) == SIGXCPU)
    return "it took more than " + std::to_string(limits.cpu_seconds) + " s of computing";
  return words.worker + " broke off, or needed more than " + std::to_string(limits.memory >> 20) + " MiB of memory";
}

}  // namespace

Result<std::string> run_in_child(const std::function<std::string()>& work, const ChildWords& words,
                                 const ChildLimits& limits) {
  std::array<int, 2> ends{};
  if (pipe2(ends.data(), O_CLOEXEC) != 0) return not_begun(words, errno);
  const pid_t child = fork();
  if (child < 0) {
    const int error = errno;
    close(ends[0]);
    close(ends[1]);
    return not_begun(words, error);
  }
  if (child == 0) be_the_child(ends[1], work, limits);

  close(ends[1]);
  std::string answer;
  const auto deadline = Clock::now() + limits.wall;
  const Ending ending = read_answer(ends[0], deadline, limits.answer, answer);
  close(ends[0]);
  const auto [status, killed_here] = bury(child, ending == Ending::answered ? deadline : Clock::time_point::min());
  const auto broken_off = [&](std::string why) { return Fault{words.what, {}, std::move(why), {}}; };
  if (ending == Ending::too_late) return broken_off("it took longer than " + seconds(limits.wall));
  if (ending == Ending::too_long)
    return broken_off(words.answer + " longer than " + std::to_string(limits.answer) + " bytes");
  // Over the limit of computing it is killed, too, if the first signal did not end it.
  const bool is_killed = WIFSIGNALED(status) && (WTERMSIG(status) == SIGKILL || WTERMSIG(status) == SIGTERM);
  if (is_killed && !killed_here) return killed_from_outside(words);
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) return broken_off(why_ended(status, words, limits));
  return answer;
}

}  // namespace ordinatio::inline base
