// In: a workshop's folder, or an empty place, and a person at the browser of this machine.
// Out: a page for each of the day's acts, and what the commands of these names do; pictures that the engine makes.
// Never: listens beyond this machine; fits anything in the browser; does what no command does.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <string>

#include "base/base.h"

namespace ordinatio::inline desk {

struct DeskOptions {
  std::filesystem::path folder;
  int port = 0;                        // 0: any that is free
  std::string version;                 // of the program, for the page
  std::function<std::string()> clock;  // gives the time now: ISO 8601, UTC
};

/// Serves from its making to its end.
class Desk {
 public:
  /// Faults: the folder is no workshop and holds something else, or the port is taken.
  static Result<std::unique_ptr<Desk>> open(const DeskOptions& options);
  ~Desk();
  Desk(const Desk&) = delete;
  Desk& operator=(const Desk&) = delete;
  /// Opens it, once: "http://127.0.0.1:45123/open?key=…".
  [[nodiscard]] const std::string& first_address() const { return first_address_; }

 private:
  struct Inside;
  explicit Desk(std::unique_ptr<Inside> inside);
  std::unique_ptr<Inside> inside_;
  std::string first_address_;
};

}  // namespace ordinatio::inline desk
