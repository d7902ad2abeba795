// A stored time as people near the clock on the wall read it. For the terminal alone: no file holds local time.
#pragma once

#include <string>
#include <string_view>

namespace ordinatio::inline base {

/// "2026-11-25 09:00 CET" for "2026-11-25T08:00:00Z", by the machine's time zone or TZ of the environment. What is no such
/// time comes back as it is.
std::string local_time(std::string_view utc);

}  // namespace ordinatio::inline base
