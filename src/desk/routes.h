// In: a request that may be served.
// Out: the answer of the page that it belongs to, or the file of the page itself.
// Never: makes a path on the disk from what was asked. Of this folder alone.
#pragma once

#include "desk/workshop_desk.h"

namespace ordinatio::inline desk {

inline constexpr std::size_t export_limit =
    16UL << 20U;  // bytes of an export: a hundred thousand orders have some ten million

inline constexpr std::size_t photo_limit = 32UL << 20U;  // bytes of a photograph: a phone's largest JPEG is some 30 MB

/// How much the body of a request may be; 0: as much as a form has.
std::size_t body_limit_of(const Request& request);

/// Answers, and answers a request that is sent twice once: "desk-once" names it.
class Router {
 public:
  /// header_key: put into the page for its requests.
  Router(WorkshopDesk& desk, std::string header_key) : desk_(desk), header_key_(std::move(header_key)) {}
  Response answer(const Request& request);

 private:
  [[nodiscard]] Response page_file(const std::string& path) const;

  WorkshopDesk& desk_;
  std::string header_key_;
  std::vector<std::pair<std::string, Response>> answered_;  // by "desk-once"; the oldest first
};

}  // namespace ordinatio::inline desk
