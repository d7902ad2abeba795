#include "desk/guard.h"

#include <catch2/catch.hpp>

namespace ordinatio::guard_test {

namespace {

constexpr int port = 8123;

/// What the desk's own page asks.
Request asked(Method method, const std::string& path) {
  Request request;
  request.method = method;
  request.path = path;
  request.headers = {{"host", "127.0.0.1:8123"}, {"sec-fetch-site", "same-origin"}};
  if (method == Method::post) {
    request.headers["origin"] = "http://127.0.0.1:8123";
    request.headers["content-type"] = "application/json";
  }
  return request;
}

/// A desk that was opened, and the cookie that the browser has of it.
struct OpenDesk {
  Guard guard{port};
  std::string cookie;
  OpenDesk() {
    Request first = asked(Method::get, "/open");
    first.query["key"] = guard.first_path().substr(std::string("/open?key=").size());
    const auto answer = guard.refusal(first);
    REQUIRE(answer);
    REQUIRE(answer->status == 303);
    for (const auto& [name, value] : answer->headers) {
      if (name == "Set-Cookie") cookie = value.substr(0, value.find(';'));
    }
  }
  Request with_keys(Request request) const {
    request.headers["cookie"] = "other=1; " + cookie;
    request.headers["desk-key"] = guard.header_key();
    return request;
  }
  int status(const Request& request) {
    const auto refused = guard.refusal(request);
    return refused ? refused->status : 200;
  }
};

}  // namespace

TEST_CASE("the desk's own page is served, with cookie and key") {
  OpenDesk desk;
  CHECK(desk.status(desk.with_keys(asked(Method::get, "/api/today"))) == 200);
  CHECK(desk.status(desk.with_keys(asked(Method::post, "/api/correct"))) == 200);
  Request page = asked(Method::get, "/");
  page.headers["cookie"] = desk.cookie;
  page.headers["sec-fetch-site"] = "none";
  CHECK(desk.status(page) == 200);
}

TEST_CASE("the first address opens the desk once, by a cookie that no script reads and no other site sends") {
  Guard guard(port);
  Request first = asked(Method::get, "/open");
  first.query["key"] = "0000";
  CHECK(guard.refusal(first)->status == 403);
  first.query["key"] = guard.first_path().substr(std::string("/open?key=").size());
  CHECK(first.query["key"].size() == 64);
  const auto answer = guard.refusal(first);
  CHECK(answer->status == 303);
  const auto& cookie = answer->headers.front().second;
  for (const char* part : {"HttpOnly", "SameSite=Strict", "Path=/"}) CHECK(cookie.find(part) != std::string::npos);
  CHECK(guard.refusal(first)->status == 403);
}

TEST_CASE("a name that was made to lead to this machine is turned away") {
  OpenDesk desk;
  for (const char* host : {"mill.example:8123", "127.0.0.1", "127.0.0.1:8124", "localhost.mill.example:8123", ""}) {
    Request request = desk.with_keys(asked(Method::get, "/api/today"));
    request.headers["host"] = host;
    INFO(host);
    CHECK(desk.status(request) == 403);
  }
  Request request = desk.with_keys(asked(Method::get, "/api/today"));
  request.headers["host"] = "localhost:8123";
  CHECK(desk.status(request) == 200);
}

TEST_CASE("another site's page asks in vain, though the browser has the cookie") {
  OpenDesk desk;
  Request request = desk.with_keys(asked(Method::post, "/api/correct"));
  request.headers["origin"] = "http://mill.example";
  CHECK(desk.status(request) == 403);
  request.headers["origin"] = "http://127.0.0.1:8124";  // another program of this machine
  CHECK(desk.status(request) == 403);
  request.headers.erase("origin");
  CHECK(desk.status(request) == 403);
  request = desk.with_keys(asked(Method::post, "/api/correct"));
  for (const char* site : {"cross-site", "same-site", "none"}) {
    request.headers["sec-fetch-site"] = site;
    CHECK(desk.status(request) == 403);
  }
  Request picture = desk.with_keys(asked(Method::get, "/file"));
  picture.headers["sec-fetch-site"] = "cross-site";
  CHECK(desk.status(picture) == 403);
}

TEST_CASE("what a form could send from elsewhere is no request") {
  OpenDesk desk;
  Request request = desk.with_keys(asked(Method::post, "/api/correct"));
  for (const char* type : {"text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x", ""}) {
    request.headers["content-type"] = type;
    INFO(type);
    CHECK(desk.status(request) == 415);
  }
}

TEST_CASE("without the cookie or without the key nothing is shown and nothing is done") {
  OpenDesk desk;
  for (const Method method : {Method::get, Method::post}) {
    Request request = desk.with_keys(asked(method, "/api/today"));
    request.headers.erase("cookie");
    CHECK(desk.status(request) == 401);
    request = desk.with_keys(asked(method, "/api/today"));
    request.headers["desk-key"] = std::string(64, '0');
    CHECK(desk.status(request) == 401);
    request.headers.erase("desk-key");
    CHECK(desk.status(request) == 401);
  }
  CHECK(desk.status(asked(Method::get, "/")) == 401);
  Request request = desk.with_keys(asked(Method::get, "/api/today"));
  request.headers["cookie"] = "x" + desk.cookie;
  CHECK(desk.status(request) == 401);
}

TEST_CASE("two desks have two sets of keys") {
  const Guard one(port), other(port);
  CHECK(one.header_key() != other.header_key());
  CHECK(one.first_path() != other.first_path());
}

TEST_CASE("every answer forbids the page to load anything from elsewhere") {
  std::string policy;
  for (const auto& [name, value] : safe_headers()) {
    if (name == "Content-Security-Policy") policy = value;
  }
  CHECK(policy.starts_with("default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:;"));
  CHECK(policy.find("unsafe") == std::string::npos);
  CHECK(policy.find("frame-ancestors 'none'") != std::string::npos);
}

}  // namespace ordinatio::guard_test
