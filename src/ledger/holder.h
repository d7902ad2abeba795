// One command at a time holds the ledger for writing. Of this folder alone.
#pragma once

#include "base/base.h"

namespace ordinatio::inline ledger {

/// A lock on a file beside the ledger (flock), which says who holds it. It goes with the process, however that ends.
class Holder {
 public:
  /// Waits up to `wait` seconds. who: what is written down for others to read, one line. Faults: another holds it, the
  /// folder cannot be written.
  static Result<Holder> take(const std::filesystem::path& ledger, const std::string& who, double wait);
  ~Holder();
  Holder(Holder&& other) noexcept : file_(std::exchange(other.file_, -1)), holds_(std::exchange(other.holds_, false)) {}
  Holder(const Holder&) = delete;
  Holder& operator=(const Holder&) = delete;
  Holder& operator=(Holder&&) = delete;

 private:
  explicit Holder(int file) : file_(file) {}
  int file_;
  bool holds_ = false;  // what the file says is ours to take out again
};

}  // namespace ordinatio::inline ledger
