#include "base/base.h"
#include "base/harmless.h"

namespace ordinatio::inline base {

std::string describe(const Fault& fault) {
  std::string message;
  if (!fault.where.empty()) message += harmless(fault.where) + ": ";
  message += fault.what;
  if (!fault.why.empty()) message += ": " + fault.why;
  if (!message.empty() && message.back() != '.') message += '.';
  if (!fault.mend.empty()) message += " " + fault.mend;
  if (message.back() != '.' && message.back() != '?') message += '.';
  return harmless(message, true);  // several Faults in one stand in lines of their own
}

}  // namespace ordinatio::inline base
