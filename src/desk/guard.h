// In: a request, and where the desk listens.
// Out: whether it comes from the desk's own page in the browser of this machine.
// Never: does what is asked. Of this folder alone.
#pragma once

#include <optional>

#include "desk/exchange.h"

namespace ordinatio::inline desk {

/// Who may ask. A page elsewhere can make a browser ask this server anything, and a name elsewhere can be made to lead to
/// this machine; it cannot send the name by which we are called, nor read a key of ours. Cookies are not parted by port
/// (RFC 6265, 8.5), so a cookie alone opens nothing: what is done through it needs the key in a header, too, which only a
/// page that we gave out knows.
class Guard {
 public:
  explicit Guard(int port);

  /// The path of the first address, with a key that opens it once.
  [[nodiscard]] std::string first_path() const;
  /// For the page: what its requests bear in the header "desk-key".
  [[nodiscard]] const std::string& header_key() const { return header_key_; }
  /// The answer where the request is turned away, or where it opened the desk; nothing where it may be served.
  std::optional<Response> refusal(const Request& request);

 private:
  [[nodiscard]] bool names_us(const std::string& host) const;
  [[nodiscard]] bool has_cookie(const Request& request) const;
  [[nodiscard]] std::optional<Response> refuse_origin(const Request& request) const;
  Response opened(const std::string& key);

  int port_;
  std::string first_key_, cookie_, header_key_;  // 256 random bits each, in hexadecimal
};

/// Whether two texts are the same, in a time that does not tell where they part.
bool same_secret(std::string_view a, std::string_view b);

/// What every answer bears, whatever it is.
const std::vector<std::pair<std::string, std::string>>& safe_headers();

}  // namespace ordinatio::inline desk
