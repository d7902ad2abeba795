#include "base/base.h"

namespace ordinatio {

std::string describe(const Fault& fault) {
  std::string message;
  if (!fault.where.empty()) message += fault.where + ": ";
  message += fault.what;
  if (!fault.why.empty()) message += ": " + fault.why;
  if (!message.empty() && message.back() != '.') message += '.';
  if (!fault.mend.empty()) message += " " + fault.mend;
  if (message.back() != '.' && message.back() != '?') message += '.';
  return message;
}

}  // namespace ordinatio
