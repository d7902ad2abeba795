// Values as bytes between a child process and its parent, on one machine. Nothing that comes back is taken on trust.
#pragma once

#include <cmath>
#include <cstdint>
#include <cstring>
#include <string>
#include <string_view>

#include "base/base.h"

namespace ordinatio::inline base {

// ---- wire.cpp ----
void put(std::string& out, std::uint64_t value);
void put(std::string& out, double value);
/// Its length, and its bytes.
void put(std::string& out, std::string_view text);
void put(std::string& out, const Fault& fault);

/// Takes values from the front; once something is missing, all further ones are zero and ok() is false.
class Taker {
 public:
  explicit Taker(std::string_view bytes) : rest_(bytes) {}
  [[nodiscard]] bool ok() const { return ok_; }
  [[nodiscard]] bool at_end() const { return ok_ && rest_.empty(); }
  void fail() { ok_ = false; }

  template <class T>
  T value() {
    T result{};
    if (const auto bytes = take(sizeof result); ok_) std::memcpy(&result, bytes.data(), sizeof result);
    return result;
  }
  double number() {
    const auto result = value<double>();
    if (!std::isfinite(result)) fail();
    return result;
  }
  std::string text() { return std::string(take(value<std::uint64_t>())); }
  std::string_view take(std::uint64_t count) {
    if (count > rest_.size()) fail();
    if (!ok_) return {};
    const auto taken = rest_.substr(0, count);
    rest_.remove_prefix(count);
    return taken;
  }

 private:
  std::string_view rest_;
  bool ok_ = true;
};
/// The Fault that was put; ask the taker whether it is whole.
Fault take_fault(Taker& taker);

}  // namespace ordinatio::inline base
