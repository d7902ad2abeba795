// In: what is measured, by its name, and what measures it. Out: what was measured, for all threads: by one of them, while the
// others wait.
// Never: keeps more than it was told; what was let go of is measured anew and comes to the same. Of this folder alone.
#pragma once

#include <functional>
#include <memory>
#include <mutex>
#include <string>

#include "text/recently_used.h"

namespace ordinatio::inline text {

template <class Value>
class MeasuredOnce {
 public:
  explicit MeasuredOnce(std::size_t most) : entries_(most) {}

  /// face: its name and axes. `measure` is not called where the glyph was measured already.
  template <class Measure>
  std::shared_ptr<const Value> of(const std::string& face, std::uint32_t glyph, const Measure& measure) {
    return of(face + '\n' + std::to_string(glyph), measure);
  }
  template <class Measure>
  std::shared_ptr<const Value> of(const std::string& name, const Measure& measure) {
    const std::shared_ptr<Entry> entry = entry_of(name);
    std::call_once(entry->once, [&] { entry->value = measure(); });
    return {entry, &entry->value};
  }

 private:
  struct Entry {
    std::once_flag once;
    Value value{};
  };
  std::shared_ptr<Entry> entry_of(const std::string& key) {
    const std::lock_guard lock(guard_);
    const auto* known = entries_.find(key);
    return known != nullptr ? *known : entries_.keep(key, std::make_shared<Entry>());
  }

  std::mutex guard_;
  RecentlyUsed<std::string, std::shared_ptr<Entry>> entries_;
};

}  // namespace ordinatio::inline text
