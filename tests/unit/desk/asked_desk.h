// The desk of a tiny workshop, asked without a network; every answer is held to shapes.json.
#pragma once

#include <catch2/catch.hpp>
#include <chrono>
#include <thread>

#include "../bookkeeping/ledger_shop.h"
#include "desk/routes.h"
#include "shape_check.h"

namespace ordinatio::desk_test {

/// The desk of a tiny workshop, asked without a network.
class AskedDesk {
 public:
  explicit AskedDesk(bool measured = true)
      : shop_(measured),
        desk_((shop_ / "shop.toml").parent_path(), [this] { return shop_.call("").now; }, "1.2.3"),
        router_(desk_, "the-key") {
    if (measured) shop_.measure(6);
  }
  [[nodiscard]] LedgerShop& shop() { return shop_; }

  /// The answer, which has the shape that shapes.json gives it.
  Json get(const std::string& path, const std::map<std::string, std::string>& query = {}) {
    Request request;
    request.path = path;
    request.query = query;
    return answered("GET " + path + names_of(query), router_.answer(request));
  }
  Json post(const std::string& path, const Json& ask, const std::string& once = "") {
    Request request;
    request.method = Method::post;
    request.path = path;
    request.body = ask.dump();
    if (!once.empty()) request.headers["desk-once"] = once;
    return answered("POST " + path, router_.answer(request));
  }
  Json send(const std::string& path, const std::map<std::string, std::string>& query, const std::string& bytes) {
    Request request;
    request.method = Method::post;
    request.path = path;
    request.query = query;
    request.body = bytes;
    return answered("POST " + path + names_of(query), router_.answer(request));
  }
  Json send(const std::string& path, const std::string& name, const std::string& bytes) {
    return send(path, {{"name", name}}, bytes);
  }
  Response raw(const Request& request) { return router_.answer(request); }
  /// Waits for work to end.
  Json worked() {
    for (int i = 0; i < 3'000; ++i) {
      Json work = get("/api/work");
      if (!work["running"].get<bool>()) return work;
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
    FAIL("the work did not end");
    return {};
  }

 private:
  static std::string names_of(const std::map<std::string, std::string>& query) {
    std::string names;
    for (const auto& [name, value] : query) names += (names.empty() ? "?" : "&") + name;
    return names;
  }
  Json answered(const std::string& route, const Response& response) {
    INFO(route << ": " << response.body);
    REQUIRE((response.status == 200 || response.status == 422));
    Json answer = Json::parse(response.body);
    CHECK(check_.difference(route, answer) == "");
    const bool is_work = answer.contains("running");  // it may have ended, and how is told there
    CHECK((answer.contains("fault") && !is_work) == (response.status == 422));
    return answer;
  }

  LedgerShop shop_;
  WorkshopDesk desk_;
  Router router_;
  ShapeCheck check_;
};

}  // namespace ordinatio::desk_test
