// A command's calls as the kernel sees them, beside those that kill_points.h counts: a call that only the kernel saw is a
// moment at which no run would be killed.
#pragma once

#include <functional>
#include <string>
#include <vector>

namespace ordinatio::crash {

struct TracedRun {
  bool permitted = true;            // false: this system lets no process trace another; nothing was run
  std::vector<std::string> caught;  // the names of the calls that were counted, in their order
  std::vector<std::string> seen;    // the same, as ptrace(2) reports them
};

/// The command must make no threads. What its own children do is in neither list.
TracedRun run_traced(const std::function<int()>& command);

}  // namespace ordinatio::crash
