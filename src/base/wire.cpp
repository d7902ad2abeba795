#include "base/wire.h"

namespace ordinatio::inline base {
namespace {

template <class T>
void put_bytes(std::string& out, const T& value) {
  out.append(reinterpret_cast<const char*>(&value), sizeof value);
}

}  // namespace

void put(std::string& out, std::uint64_t value) { put_bytes(out, value); }
void put(std::string& out, double value) { put_bytes(out, value); }
void put(std::string& out, std::string_view text) {
  put(out, std::uint64_t{text.size()});
  out += text;
}
void put(std::string& out, const Fault& fault) {
  for (const auto& part : {fault.what, fault.where, fault.why, fault.mend}) put(out, std::string_view(part));
}

Fault take_fault(Taker& taker) { return {taker.text(), taker.text(), taker.text(), taker.text()}; }

}  // namespace ordinatio::inline base
