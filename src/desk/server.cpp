#include "desk/server.h"

#include <arpa/inet.h>
#include <microhttpd.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <cstdlib>
#include <cstring>
#include <stdexcept>

#include "desk/guard.h"

namespace ordinatio::inline desk {
namespace {

using Clock = std::chrono::steady_clock;

/// A request on its way, as libmicrohttpd hands it over piece by piece.
struct Arrival {
  Request request;
  std::size_t limit = 0;
  bool is_too_long = false;
  Clock::time_point begun = Clock::now();
};

MHD_Result note_value(void* values, MHD_ValueKind, const char* name, const char* value) {
  (*static_cast<std::map<std::string, std::string>*>(values))[name] = value == nullptr ? "" : value;
  return MHD_YES;
}

MHD_Result note_header(void* values, MHD_ValueKind, const char* name, const char* value) {
  std::string small(name);
  for (char& letter : small) letter = letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
  (*static_cast<std::map<std::string, std::string>*>(values))[small] = value == nullptr ? "" : value;
  return MHD_YES;
}

MHD_Result send(MHD_Connection* connection, const Response& response) {
  // MHD_RESPMEM_MUST_COPY only reads it; the interface is older than const.
  MHD_Response* const answer = MHD_create_response_from_buffer(
      response.body.size(), const_cast<char*>(response.body.data()), MHD_RESPMEM_MUST_COPY);
  if (answer == nullptr) return MHD_NO;
  MHD_add_response_header(answer, "Content-Type", response.type.c_str());
  for (const auto& [name, value] : safe_headers()) MHD_add_response_header(answer, name.c_str(), value.c_str());
  for (const auto& [name, value] : response.headers) MHD_add_response_header(answer, name.c_str(), value.c_str());
  const MHD_Result result = MHD_queue_response(connection, static_cast<unsigned>(response.status), answer);
  MHD_destroy_response(answer);
  return result;
}

Response too_long(std::size_t limit) {
  return {413, "text/plain; charset=utf-8",
          "This is more than the " + std::to_string(limit) + " bytes that are read here.\n"};
}

Response answered(const Server& server, const Request& request) {
  try {
    return server.answer()(request);
  } catch (const std::exception&) {  // what it says may hold what nobody should be told
    return {500, "text/plain; charset=utf-8",
            "This is a mistake of the program or a failing machine; what was saved before is unchanged.\n"};
  }
}

/// The head has come: what is too long is turned away before it is read.
MHD_Result begin(const Server& server, MHD_Connection* connection, const char* url, const char* method, void** state) {
  const bool is_get = std::strcmp(method, MHD_HTTP_METHOD_GET) == 0;
  if (!is_get && std::strcmp(method, MHD_HTTP_METHOD_POST) != 0)
    return send(connection, {405, "text/plain; charset=utf-8", "Only GET and POST are known here.\n"});
  auto arrival = std::make_unique<Arrival>();
  arrival->request.method = is_get ? Method::get : Method::post;
  arrival->request.path = url;
  MHD_get_connection_values(connection, MHD_HEADER_KIND, note_header, &arrival->request.headers);
  MHD_get_connection_values(connection, MHD_GET_ARGUMENT_KIND, note_value, &arrival->request.query);
  const std::size_t own = server.body_limit()(arrival->request);
  arrival->limit = own != 0 ? own : server.limits().body;
  const std::string length = arrival->request.header("content-length");
  if (length.size() > 15 || (!length.empty() && std::strtoull(length.c_str(), nullptr, 10) > arrival->limit))
    return send(connection, too_long(arrival->limit));
  *state = arrival.release();
  return MHD_YES;
}

MHD_Result go_on(const Server& server, MHD_Connection* connection, Arrival& arrival, const char* bytes,
                 std::size_t* size) {
  const auto limit = std::chrono::seconds(server.limits().request_seconds);
  if (*size == 0)
    return send(connection, arrival.is_too_long ? too_long(arrival.limit) : answered(server, arrival.request));
  if (Clock::now() - arrival.begun > limit) return MHD_NO;
  if (arrival.request.body.size() + *size > arrival.limit) {
    if (arrival.is_too_long) return MHD_NO;  // it was told no length, and does not end
    arrival.is_too_long = true;
    arrival.request.body.clear();
  }
  if (!arrival.is_too_long) arrival.request.body.append(bytes, *size);
  *size = 0;
  return MHD_YES;
}

MHD_Result handle(void* server, MHD_Connection* connection, const char* url, const char* method, const char*,
                  const char* bytes, std::size_t* size, void** state) {
  const Server& self = *static_cast<const Server*>(server);
  if (*state == nullptr) return begin(self, connection, url, method, state);
  return go_on(self, connection, *static_cast<Arrival*>(*state), bytes, size);
}

void forget(void*, MHD_Connection*, void** state, MHD_RequestTerminationCode) {
  const std::unique_ptr<Arrival> gone(static_cast<Arrival*>(*state));
  *state = nullptr;
}

/// A process has 1,024 files unless it asks for more.
void ask_for_files(std::size_t count) {
  rlimit files{};
  if (::getrlimit(RLIMIT_NOFILE, &files) != 0 || files.rlim_cur >= count) return;
  files.rlim_cur = std::min<rlim_t>(count, files.rlim_max);
  ::setrlimit(RLIMIT_NOFILE, &files);
}

constexpr std::size_t files_besides = 200;  // designs, faces, the ledger, sheets

}  // namespace

Result<Listener> Listener::on_loopback(int port) {
  const Fault taken{"the desk cannot listen", "--port " + std::to_string(port), "no program may listen there",
                    "Leave --port out for one that is free"};
  if (port < 0 || port > 65'535) return taken;
  Listener listener(::socket(AF_INET, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0));
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(static_cast<std::uint16_t>(port));
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  auto* const plain = reinterpret_cast<sockaddr*>(&address);  // as every socket's address is handed over
  socklen_t size = sizeof address;
  const int yes = 1;
  ::setsockopt(listener.socket_, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
  if (listener.socket_ < 0 || ::bind(listener.socket_, plain, size) != 0 ||
      ::listen(listener.socket_, SOMAXCONN) != 0 || ::getsockname(listener.socket_, plain, &size) != 0) {
    Fault fault = taken;
    fault.why = std::strerror(errno);
    return fault;
  }
  listener.port_ = ntohs(address.sin_port);
  return listener;
}

Listener::Listener(Listener&& other) noexcept : socket_(std::exchange(other.socket_, -1)), port_(other.port_) {}
Listener::~Listener() {
  if (socket_ >= 0) ::close(socket_);
}
int Listener::release() { return std::exchange(socket_, -1); }

Server::Server(Listener listener, Answerer answer, BodyLimit body_limit, const ServerLimits& limits)
    : answer_(std::move(answer)), body_limit_(std::move(body_limit)), limits_(limits) {
  ask_for_files(limits_.connections + files_besides);
  daemon_ =
      MHD_start_daemon(MHD_USE_EPOLL_INTERNAL_THREAD, 0, nullptr, nullptr, &handle, this, MHD_OPTION_LISTEN_SOCKET,
                       listener.release(), MHD_OPTION_CONNECTION_LIMIT, static_cast<unsigned>(limits_.connections),
                       MHD_OPTION_CONNECTION_TIMEOUT, limits_.quiet_seconds, MHD_OPTION_CONNECTION_MEMORY_LIMIT,
                       limits_.memory, MHD_OPTION_NOTIFY_COMPLETED, &forget, nullptr, MHD_OPTION_END);
  if (daemon_ == nullptr) throw std::runtime_error("the desk's server could not be started");
}

Server::~Server() {
  if (daemon_ != nullptr) MHD_stop_daemon(daemon_);
}

}  // namespace ordinatio::inline desk
