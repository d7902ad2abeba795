// Between the runs (kill_points.cpp) and the calls that they strike at (caught_calls.cpp). Of this folder alone.
#pragma once

#include <sys/types.h>

#include <atomic>

#include "disk_record.h"
#include "kill_points.h"

namespace ordinatio::crash {

/// Lies in memory that parent and child share: what the child did outlives it.
struct CallWatch {
  std::atomic<std::size_t> count = 0;
  std::size_t strike_at = no_call;
  Fate fate = Fate::killed;
  Loss loss = {};     // of a power cut
  pid_t watched = 0;  // children of the child, such as the one that draws a logo, are not
  int parent = -1;    // the child's end of the line on which it says that it has stopped, and is told what to do
  std::size_t stop_before = no_call, stop_within = no_call;  // the next stop
  std::array<DiskCall, call_limit> calls;
};

std::vector<DiskCall> calls_made(const CallWatch& watch);

inline constexpr unsigned seconds_limit = 60;  // a command that hangs ends by SIGALRM, and the test with it

/// What a child that has stopped says, and what it is told.
enum class Word : char { stopped, cut_power, go_on };
/// Stops the child until it is told to go on, and cuts the power under a copy of its files where it is told that.
void stop(CallWatch& watch);

/// Calls are counted while it is set, and recorded while there is a record: in the child alone.
extern std::atomic<CallWatch*> call_watch;
extern std::atomic<DiskRecord*> disk_record;

}  // namespace ordinatio::crash
