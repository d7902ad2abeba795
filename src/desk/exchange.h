// What a browser asks, and what it is answered. Of this folder alone.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace ordinatio::inline desk {

enum class Method { get, post };

struct Request {
  Method method = Method::get;
  std::string path;                            // "/api/item", decoded, without its query
  std::map<std::string, std::string> query;    // decoded; of a name that comes twice the last
  std::map<std::string, std::string> headers;  // names in small letters
  std::string body;

  [[nodiscard]] std::string header(const std::string& name) const;
  [[nodiscard]] std::string parameter(const std::string& name) const;
};

struct Response {
  int status = 200;
  std::string type = "application/json";
  std::string body = {};
  std::vector<std::pair<std::string, std::string>> headers = {};
};

}  // namespace ordinatio::inline desk
