// A manifest that was cut, bent or made up is refused with a message, never believed in part.
#include <cstdlib>
#include <nlohmann/json.hpp>

#include "check/check.h"
#include "manifest/manifest.h"

using namespace ordinatio;

/// The first byte says whether the checksum is mended, so that what lies behind it is reached too.
extern "C" int LLVMFuzzerTestOneInput(const unsigned char* bytes, std::size_t size) {
  if (size == 0) return 0;
  std::string text(reinterpret_cast<const char*>(bytes) + 1, size - 1);
  if (bytes[0] % 2 == 1) {
    auto document = nlohmann::ordered_json::parse(text, nullptr, false);
    if (document.is_object()) {
      document.erase("checksum");
      document["checksum"] =
          sha256_hex(document.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace));
      text = document.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
    }
  }
  const auto manifest = read_manifest(text, "fuzz.json");
  if (!manifest.ok() && (manifest.fault().what.empty() || manifest.fault().mend.empty())) std::abort();
  return 0;
}
