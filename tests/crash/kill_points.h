// In: a command, and the number of a system call that can change the disk.
// Out: what such calls the command made, and how it ended when it was struck at one of them; or, of one run, what each of
// many strikes would have left.
// Never: strikes outside of a forked child, or at calls that leave the disk as it is.
#pragma once

#include <array>
#include <atomic>
#include <cstddef>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "lossy_disk.h"
#include "shared_memory.h"

namespace ordinatio::crash {

/// What befalls the command at the chosen call.
enum class Fate {
  killed,     // SIGKILL before the call is made
  torn,       // SIGKILL when the call has written the first half of its bytes; before it if it writes none
  disk_full,  // ENOSPC, from here on, for all that makes a file or a folder, or makes one longer
  failed,     // EIO, this once
  read_only,  // EROFS, from here on, for all that changes anything, and for opening a file for writing
  power_cut,  // as killed, and of all that was not synced a part is lost; see cut_power_at
};
std::string name_of(Fate fate);

/// One call that can change the disk. What is only opened for reading, locked or closed is none: a kill there leaves
/// what a kill at the next such call leaves. Syncing counts, since it may fail.
struct DiskCall {
  const char* name = "";           // of the system call: "openat", "pwrite64", …
  std::size_t bytes = 0;           // that a write was given
  std::array<char, 96> path = {};  // the end of its path where that is longer
};
std::string describe(const DiskCall& call);

inline constexpr std::size_t no_call = 0;         // strikes nowhere
inline constexpr std::size_t call_limit = 8'192;  // of one command; more are a bug in the test, and it is told so

struct KillRun {
  bool killed = false;
  int exit_code = 0;            // what the command returned, unless it was killed
  std::vector<DiskCall> calls;  // the one at which it was struck is among them
};

/// Runs the command in a forked child and strikes at its call of that number, counted from 1.
/// The command must return by itself within a minute. Throws std::runtime_error if it does not, or if it throws or
/// crashes; std::logic_error if this process has threads, since a fork would leave their locks held.
KillRun run_until(std::size_t call, Fate fate, const std::function<int()>& command);

/// A command raises it, and whoever runs it sees it up, though the command was killed.
class SharedFlag {
 public:
  void raise() { *flag_ = true; }
  void lower() { *flag_ = false; }
  [[nodiscard]] bool is_up() const { return *flag_; }

 private:
  SharedMemory<std::atomic<bool>> flag_;
};

/// Cuts the power at its call of that number, or, where it makes fewer, when it has ended. What was written within the run
/// and not synced is then lost or not as a LossyDisk has it; the disk is as it is after a restart. `killed`: it was
/// cut before its end. The command may make no threads.
KillRun cut_power_at(std::size_t call, const Loss& loss, const std::function<int()>& command);

/// Where a command is stopped: before its call of that number, in the midst of a write, or at its end.
struct Stop {
  std::size_t call;          // from 1; one more than it makes: its end
  Fate fate = Fate::killed;  // killed, torn or power_cut
  Loss loss = {};            // of a power cut
};
/// Runs the command once, and looks at the disk at each stop, as it is after a kill or a power cut there: a process that
/// stands still has left on the disk what it would leave if it were killed, and holds locks on its own files alone.
/// folder: all that it changes lies there. stops: by rising call, a torn write after the kill before it. `look` is called in this
/// process, finds a copy in the folder's place and may do with it what it likes; the command then goes on with its own.
/// Throws as run_until does, and std::logic_error where the command makes fewer calls.
KillRun stop_at_each(const std::filesystem::path& folder, const std::vector<Stop>& stops,
                     const std::function<void(const Stop&)>& look, const std::function<int()>& command);

}  // namespace ordinatio::crash
