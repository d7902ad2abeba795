// In: what a browser on this machine sends, however much, however slowly.
// Out: whole requests, one at a time, to whoever answers them.
// Never: listens beyond this machine; keeps more of a request than its limit; lets one that hangs keep others waiting. Of this
// folder alone.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>

#include "base/base.h"
#include "desk/exchange.h"

struct MHD_Daemon;

namespace ordinatio::inline desk {

struct ServerLimits {
  std::size_t body = 64UL << 10U;    // bytes of a request, unless its path may have more
  std::size_t connections = 1'200;   // at a time: more than a browser makes, fewer than a process has files
  unsigned quiet_seconds = 20;       // of a connection on which nothing comes or goes
  unsigned request_seconds = 60;     // from a request's first byte to its last
  std::size_t memory = 32UL << 10U;  // bytes for a connection's headers
};

using Answerer = std::function<Response(const Request&)>;
/// How many bytes a request to that path may have; 0: the usual limit.
using BodyLimit = std::function<std::size_t(const Request&)>;

/// A socket that listens on 127.0.0.1.
class Listener {
 public:
  /// port: 0 for any that is free. Faults: the port is taken.
  static Result<Listener> on_loopback(int port);
  ~Listener();
  Listener(Listener&& other) noexcept;
  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;
  [[nodiscard]] int port() const { return port_; }
  /// The socket, which is the caller's from now on.
  int release();

 private:
  explicit Listener(int socket) : socket_(socket) {}
  int socket_ = -1;
  int port_ = 0;
};

/// Serves from its making to its end. Answers are asked for on its own thread, one after the other.
class Server {
 public:
  Server(Listener listener, Answerer answer, BodyLimit body_limit, const ServerLimits& limits = {});
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  [[nodiscard]] const Answerer& answer() const { return answer_; }
  [[nodiscard]] const BodyLimit& body_limit() const { return body_limit_; }
  [[nodiscard]] const ServerLimits& limits() const { return limits_; }

 private:
  Answerer answer_;
  BodyLimit body_limit_;
  ServerLimits limits_;
  MHD_Daemon* daemon_ = nullptr;
};

}  // namespace ordinatio::inline desk
