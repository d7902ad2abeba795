// In: work on input that is not to be trusted, its limits, and words for what went wrong.
// Out: its answer, from a child process with no files and no more time, memory and output than the limits.
// Never: takes an answer for sound: whoever asked for it checks it.
#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <string>

#include "base/base.h"

namespace ordinatio::inline base {

struct ChildLimits {
  std::chrono::milliseconds wall{15'000};
  unsigned cpu_seconds = 10;
  std::size_t memory = std::size_t{1} << 30;  // bytes above what is mapped at the start
  std::size_t answer = std::size_t{64} << 20;
  bool may_start_threads = false;  // for a library that cannot do without; processes are then not limited either
};
/// How its Faults speak of it.
struct ChildWords {
  std::string what;    // "the logo could not be drawn"
  std::string task;    // the process that … : "draws it"
  std::string worker;  // "the drawing library"
  std::string answer;  // what is too long where the answer is: "its outlines are"
};

// ---- child.cpp ----
/// Runs `work` in a forked child that has no files, no descriptors but its answer's pipe, and the limits. The work must
/// not rely on other threads: only the calling one lives on in the child. Fault.what and .why say which limit was reached
/// or how the child ended; where and mend are the caller's.
Result<std::string> run_in_child(const std::function<std::string()>& work, const ChildWords& words,
                                 const ChildLimits& limits);

}  // namespace ordinatio::inline base
