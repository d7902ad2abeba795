// Any bytes as the body of any request that the page may make: an answer, never a crash; and the workshop stays as it was read.
#include <unistd.h>

#include <array>
#include <cstdlib>
#include <filesystem>

#include "desk/routes.h"

using namespace ordinatio;
namespace fs = std::filesystem;

namespace {

void must(bool holds) {
  if (!holds) std::abort();
}

/// A workshop that keeps a ledger, in a folder of this process.
class FuzzedWorkshop {
 public:
  FuzzedWorkshop()
      : desk_(
            folder_, [] { return std::string("2026-11-25T08:00:00Z"); }, "0"),
        router_(desk_, "key") {
    fs::remove_all(folder_);
    Request request{Method::post, "/api/new", {}, {}, ""};
    request.body =
        R"({"name":"Mill","bed_width":300,"bed_height":200,"piece_width":90,"piece_height":60,"corner_radius":2,"material":""})";
    must(router_.answer(request).status == 200);
    must(router_.answer({Method::post, "/api/intake", {{"name", "a.csv"}}, {}, "Order,Text,Quantity\n1001,Weir,2\n"})
             .status == 200);
  }
  ~FuzzedWorkshop() { fs::remove_all(folder_); }
  FuzzedWorkshop(const FuzzedWorkshop&) = delete;
  FuzzedWorkshop& operator=(const FuzzedWorkshop&) = delete;
  Router& router() { return router_; }

 private:
  fs::path folder_ = fs::temp_directory_path() / ("ordinatio-fuzz-desk-" + std::to_string(::getpid()));
  WorkshopDesk desk_;
  Router router_;
};

// Not those that begin work on a thread of its own, nor what makes a workshop.
constexpr std::array paths{
    "/api/fit",         "/api/correct",      "/api/approve",       "/api/pack",       "/api/undo",
    "/api/spoil",       "/api/remake",       "/api/engraved",      "/api/resume",     "/api/answer",
    "/api/let-go",      "/api/try-columns",  "/api/keep-columns",  "/api/look",       "/api/columns",
    "/api/set",         "/api/board",        "/api/begin-ledger",  "/api/try-piece",  "/api/add-piece",
    "/api/move",        "/api/try-settings", "/api/save-settings", "/api/try-design", "/api/save-design",
    "/api/copy-design", "/api/try-measure",  "/api/save-measure",  "/api/packing",    "/api/settings-card"};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static FuzzedWorkshop workshop;
  if (size == 0) return 0;
  Request request{Method::post, paths[data[0] % paths.size()], {{"name", "b.csv"}}, {}, ""};
  request.body.assign(reinterpret_cast<const char*>(data) + 1, size - 1);
  const Response response = workshop.router().answer(request);
  must(response.status == 200 || response.status == 422);
  must(response.body.starts_with("{") && response.body.ends_with("}"));
  must(workshop.router().answer({Method::get, "/api/today", {}, {}, ""}).status == 200);
  return 0;
}
