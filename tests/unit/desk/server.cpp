#include "desk/server.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>
#include <catch2/catch.hpp>
#include <chrono>
#include <thread>

namespace ordinatio::server_test {

namespace {

/// One connection to the server, as any program of this machine can make it.
class Connected {
 public:
  explicit Connected(int port) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(port));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    is_open_ = ::connect(socket_, reinterpret_cast<sockaddr*>(&address), sizeof address) == 0;
    const timeval patience{1, 0};
    ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
  }
  ~Connected() { ::close(socket_); }
  Connected(const Connected&) = delete;
  Connected& operator=(const Connected&) = delete;
  [[nodiscard]] bool is_open() const { return is_open_; }
  bool send(std::string_view bytes) const {
    return ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL) == static_cast<ssize_t>(bytes.size());
  }
  /// What comes until the head of the answer is whole, or nothing comes any more.
  [[nodiscard]] std::string head() const {
    std::string text;
    char bytes[4096];
    while (text.find("\r\n\r\n") == std::string::npos) {
      const ssize_t size = ::recv(socket_, bytes, sizeof bytes, 0);
      if (size <= 0) break;
      text.append(bytes, static_cast<std::size_t>(size));
    }
    return text;
  }

 private:
  int socket_;
  bool is_open_ = false;
};

/// A server that answers with the number of bytes that it was sent.
struct CountingServer {
  int port = 0;
  std::unique_ptr<Server> server;
  explicit CountingServer(const ServerLimits& limits = {}) {
    Result<Listener> listener = Listener::on_loopback(0);
    REQUIRE(listener.ok());
    port = listener->port();
    const auto answer = [](const Request& request) {
      if (request.path == "/throw") throw std::runtime_error("a secret");
      return Response{200, "text/plain", request.path + " " + std::to_string(request.body.size()) + "\n"};
    };
    server = std::make_unique<Server>(
        *std::move(listener), answer, [](const Request&) { return std::size_t{0}; }, limits);
  }
};

std::string asked(int port, const std::string& bytes) {
  const Connected connection(port);
  connection.send(bytes);
  return connection.head();
}

std::string posted(const std::string& headers, const std::string& body) {
  return "POST /x HTTP/1.1\r\nHost: localhost\r\n" + headers + "\r\n" + body;
}

using Catch::StartsWith;

}  // namespace

TEST_CASE("a whole request is answered, with the headers that keep a page to itself") {
  const CountingServer counting;
  const std::string head = asked(counting.port, posted("Content-Length: 4\r\n", "word"));
  CHECK_THAT(head, StartsWith("HTTP/1.1 200"));
  CHECK_THAT(head, Catch::Contains("Content-Security-Policy: default-src 'none'") && Catch::Contains("no-store"));
}

TEST_CASE("a body that is too long is turned away, told beforehand or not") {
  const CountingServer counting;
  CHECK_THAT(asked(counting.port, posted("Content-Length: 10485760\r\n", "")), StartsWith("HTTP/1.1 413"));
  CHECK_THAT(asked(counting.port, posted("Content-Length: 99999999999999999999\r\n", "")), StartsWith("HTTP/1.1 4"));
  const Connected chunked(counting.port);
  REQUIRE(chunked.send(posted("Transfer-Encoding: chunked\r\n", "")));
  std::string chunk = "8000\r\n" + std::string(0x8000, 'x') + "\r\n";
  bool is_taken = true;
  for (int i = 0; i < 100 && is_taken; ++i) is_taken = chunked.send(chunk);  // 3 MB
  const std::string head = chunked.head();
  CHECK((head.empty() || head.starts_with("HTTP/1.1 413")));
  CHECK_THAT(asked(counting.port, posted("Content-Length: 4\r\n", "word")), StartsWith("HTTP/1.1 200"));
}

TEST_CASE("requests that are no requests do not stop the server") {
  const CountingServer counting;
  for (const std::string& bytes :
       {std::string("\r\n\r\n"), std::string("GET\r\n\r\n"), std::string(100'000, 'A'), std::string(2'000, '\0'),
        std::string("GET / HTTP/9.9\r\n\r\n"), "GET /" + std::string(60'000, 'a') + " HTTP/1.1\r\n\r\n",
        std::string("DELETE / HTTP/1.1\r\nHost: x\r\n\r\n"), std::string("GET /throw HTTP/1.1\r\nHost: x\r\n\r\n")}) {
    const std::string head = asked(counting.port, bytes);
    CHECK(head.find("secret") == std::string::npos);
    CHECK_FALSE(head.starts_with("HTTP/1.1 200"));
  }
  CHECK_THAT(asked(counting.port, posted("Content-Length: 4\r\n", "word")), StartsWith("HTTP/1.1 200"));
}

TEST_CASE("a thousand connections that say nothing keep nobody waiting") {
  const CountingServer counting;
  std::vector<std::unique_ptr<Connected>> idle;
  for (int i = 0; i < 900; ++i) {  // a process has 1,024 files; both ends are in this one, so some are refused
    auto connection = std::make_unique<Connected>(counting.port);
    if (!connection->is_open()) break;
    connection->send("POST /slow HTTP/1.1\r\nHost: localhost\r\nContent-Length: 9\r\n\r\n1");
    idle.push_back(std::move(connection));
  }
  CHECK(idle.size() >= 400);
  const auto before = std::chrono::steady_clock::now();
  CHECK_THAT(asked(counting.port, posted("Content-Length: 4\r\n", "word")), StartsWith("HTTP/1.1 200"));
  CHECK(std::chrono::steady_clock::now() - before < std::chrono::seconds(1));
}

TEST_CASE("a request that comes a byte at a time is given up in the end") {
  ServerLimits limits;
  limits.quiet_seconds = 1;
  limits.request_seconds = 1;
  const CountingServer counting(limits);
  const Connected silent(counting.port), slow(counting.port);
  silent.send("POST /slow HTTP/1.1\r\n");
  slow.send("POST /slow HTTP/1.1\r\nHost: localhost\r\nContent-Length: 60\r\n\r\n");
  for (int i = 0; i < 5; ++i) {
    slow.send("x");
    std::this_thread::sleep_for(std::chrono::milliseconds(600));
  }
  CHECK(silent.head().find("200") == std::string::npos);
  CHECK(slow.head().find("200") == std::string::npos);
}

TEST_CASE("the server listens on this machine alone") {
  const CountingServer counting;
  std::ifstream table("/proc/net/tcp");
  std::string line;
  char port[8];
  std::snprintf(port, sizeof port, ":%04X", static_cast<unsigned>(counting.port));
  std::size_t found = 0;
  while (std::getline(table, line)) {
    const std::size_t at = line.find(port);
    if (at == std::string::npos || at > 20 || line.find(" 0A ") == std::string::npos) continue;  // 0A: it listens
    CHECK(line.substr(at - 8, 8) == "0100007F");  // 127.0.0.1, its bytes as they lie in memory
    ++found;
  }
  CHECK(found == 1);
}

TEST_CASE("a port that is taken costs a fault") {
  const auto first = Listener::on_loopback(0);
  REQUIRE(first.ok());
  const auto second = Listener::on_loopback(first->port());
  REQUIRE_FALSE(second.ok());
  CHECK(second.fault().mend == "Leave --port out for one that is free");
}

}  // namespace ordinatio::server_test
