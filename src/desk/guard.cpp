#include "desk/guard.h"

#include <sys/random.h>

#include <array>
#include <stdexcept>

namespace ordinatio::inline desk {
namespace {

/// From the system's own source of randomness.
std::string new_secret() {
  std::array<unsigned char, 32> bytes{};
  if (::getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size()))
    throw std::runtime_error("the system gives no random bytes");
  static constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (const unsigned char byte : bytes) text += {digits[byte >> 4U], digits[byte & 15U]};
  return text;
}

Response turned_away(int status, const std::string& why) { return {status, "text/plain; charset=utf-8", why + "\n"}; }

}  // namespace

bool same_secret(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  unsigned differing = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    differing |= static_cast<unsigned>(static_cast<unsigned char>(a[i]) ^ static_cast<unsigned char>(b[i]));
  return differing == 0;
}

const std::vector<std::pair<std::string, std::string>>& safe_headers() {
  static const std::vector<std::pair<std::string, std::string>> headers{
      {"Content-Security-Policy",
       "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; "
       "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"},
      {"X-Content-Type-Options", "nosniff"},
      {"Referrer-Policy", "no-referrer"},
      {"Cache-Control", "no-store"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
      {"Cross-Origin-Opener-Policy", "same-origin"}};
  return headers;
}

Guard::Guard(int port) : port_(port), first_key_(new_secret()), cookie_(new_secret()), header_key_(new_secret()) {}

std::string Guard::first_path() const { return "/open?key=" + first_key_; }

bool Guard::names_us(const std::string& host) const {
  const std::string port = ":" + std::to_string(port_);
  return host == "127.0.0.1" + port || host == "localhost" + port || host == "[::1]" + port;
}

/// The cookie's name has the port: desks of two workshops have one each.
bool Guard::has_cookie(const Request& request) const {
  const std::string name = "desk" + std::to_string(port_) + "=";
  const std::string cookies = request.header("cookie");
  for (std::size_t at = 0; at < cookies.size();) {
    const std::size_t end = std::min(cookies.find(';', at), cookies.size());
    std::string_view one(cookies.data() + at, end - at);
    one.remove_prefix(std::min(one.find_first_not_of(' '), one.size()));
    if (one.starts_with(name) && same_secret(one.substr(name.size()), cookie_)) return true;
    at = end + 1;
  }
  return false;
}

/// The first address works once: whoever finds it in a history later finds it shut.
Response Guard::opened(const std::string& key) {
  if (first_key_.empty() || !same_secret(key, first_key_))
    return turned_away(403, "This address has been used. Start the desk anew for a fresh one.");
  first_key_.clear();
  const std::string cookie = "desk" + std::to_string(port_) + "=" + cookie_ + "; Path=/; HttpOnly; SameSite=Strict";
  return {303, "text/plain; charset=utf-8", "", {{"Set-Cookie", cookie}, {"Location", "/"}}};
}

/// Sec-Fetch-Site (W3C Fetch Metadata) is set by the browser and by no page; "none" is an address that a person typed.
std::optional<Response> Guard::refuse_origin(const Request& request) const {
  const std::string site = request.header("sec-fetch-site"), origin = request.header("origin");
  const bool is_navigation = request.method == Method::get && request.header("sec-fetch-mode") == "navigate";
  const bool is_our_site = site.empty() || site == "same-origin" || site == "none" || is_navigation;
  if (!is_our_site) return turned_away(403, "Only the desk's own page may ask this.");
  const bool is_our_origin = origin.starts_with("http://") && names_us(origin.substr(7));
  if (!origin.empty() && !is_our_origin) return turned_away(403, "Only the desk's own page may ask this.");
  if (request.method == Method::get) return std::nullopt;
  if (!is_our_origin || (!site.empty() && site != "same-origin"))
    return turned_away(403, "Only the desk's own page may ask this.");
  const std::string type = request.header("content-type");
  // Neither can be sent from elsewhere by a form, nor by a script without asking first, which is refused.
  if (type != "application/json" && type != "application/octet-stream")
    return turned_away(415, "What is sent is JSON, or the bytes of a file.");
  return std::nullopt;
}

std::optional<Response> Guard::refusal(const Request& request) {
  if (!names_us(request.header("host")))
    return turned_away(
        403, "This desk answers to this machine alone: open it as http://127.0.0.1:" + std::to_string(port_) + "/.");
  if (auto refused = refuse_origin(request)) return refused;
  if (request.method == Method::get && request.path == "/open") return opened(request.parameter("key"));
  if (!has_cookie(request)) return turned_away(401, "Open the desk by the address that it printed when it started.");
  const bool is_page = request.method == Method::get && !request.path.starts_with("/api/");
  if (!is_page && !same_secret(request.header("desk-key"), header_key_))
    return turned_away(401, "The desk was started anew: load the page again.");
  return std::nullopt;
}

}  // namespace ordinatio::inline desk
