#include <sched.h>

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>

#include "base/base.h"

namespace ordinatio::inline base {

unsigned core_count() {
  cpu_set_t allowed;
  if (::sched_getaffinity(0, sizeof allowed, &allowed) != 0) return 1;
  return std::max(1U, static_cast<unsigned>(CPU_COUNT(&allowed)));
}

void for_each_parallel(std::size_t count, unsigned workers, const std::function<void(std::size_t, unsigned)>& work) {
  std::atomic<std::size_t> next{0};
  std::exception_ptr first;
  std::mutex guard;
  const auto run = [&](unsigned worker) {
    try {
      for (std::size_t index = next++; index < count; index = next++) work(index, worker);
    } catch (...) {
      const std::lock_guard lock(guard);
      if (!first) first = std::current_exception();
      next = count;  // the others stop at their next item
    }
  };
  std::vector<std::jthread> threads;
  for (unsigned worker = 1; worker < std::min<std::size_t>(workers, count); ++worker) threads.emplace_back(run, worker);
  run(0);
  threads.clear();  // joins
  if (first) std::rethrow_exception(first);
}

}  // namespace ordinatio::inline base
