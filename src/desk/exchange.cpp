#include "desk/exchange.h"

namespace ordinatio::inline desk {
namespace {

std::string value_in(const std::map<std::string, std::string>& values, const std::string& name) {
  const auto found = values.find(name);
  return found == values.end() ? "" : found->second;
}

}  // namespace

std::string Request::header(const std::string& name) const { return value_in(headers, name); }
std::string Request::parameter(const std::string& name) const { return value_in(query, name); }

}  // namespace ordinatio::inline desk
