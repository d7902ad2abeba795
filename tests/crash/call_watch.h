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
  pid_t watched = 0;  // children of the child, such as the one that draws a logo, are not
  std::array<DiskCall, call_limit> calls;
};

/// The one watch of this process; one command runs at a time.
CallWatch& shared_watch();
/// What has been counted since `count` was set to 0.
std::vector<DiskCall> calls_made(const CallWatch& watch);

/// Calls are counted while it is set, and recorded while there is a record: in the child alone.
extern std::atomic<CallWatch*> call_watch;
extern std::atomic<DiskRecord*> disk_record;

}  // namespace ordinatio::crash
