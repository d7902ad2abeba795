// Memory that a process and those that it forks share: what is written there outlives a kill. Of this folder alone.
#pragma once

#include <sys/mman.h>

#include <cerrno>
#include <new>
#include <system_error>

namespace ordinatio::crash {

/// One T, made anew; it goes with this object, in this process.
template <class T>
class SharedMemory {
 public:
  SharedMemory() {
    void* const memory = mmap(nullptr, sizeof(T), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    if (memory == MAP_FAILED) throw std::system_error(errno, std::generic_category(), "mmap");
    shared_ = new (memory) T{};
  }
  ~SharedMemory() { munmap(shared_, sizeof(T)); }
  SharedMemory(const SharedMemory&) = delete;
  SharedMemory& operator=(const SharedMemory&) = delete;
  T& operator*() const { return *shared_; }
  T* operator->() const { return shared_; }

 private:
  T* shared_;
};

}  // namespace ordinatio::crash
