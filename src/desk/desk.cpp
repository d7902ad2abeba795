#include "desk/desk.h"

#include "desk/guard.h"
#include "desk/routes.h"
#include "desk/server.h"

namespace ordinatio::inline desk {

/// In the order of their making: the server goes first, and asks nobody any more.
struct Desk::Inside {
  Inside(const DeskOptions& options, int port)
      : guard(port), workshop(options.folder, options.clock, options.version), router(workshop, guard.header_key()) {}

  Guard guard;
  WorkshopDesk workshop;
  Router router;
  std::unique_ptr<Server> server;
};

Desk::Desk(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Desk::~Desk() = default;

Result<std::unique_ptr<Desk>> Desk::open(const DeskOptions& options) {
  std::error_code error;
  const bool is_place = std::filesystem::exists(options.folder / "shop.toml", error) ||
                        !std::filesystem::exists(options.folder, error) ||
                        std::filesystem::is_empty(options.folder, error);
  if (!is_place) {
    return Fault{"there is no workshop", options.folder.string(), "the folder has no shop.toml, and is not empty",
                 "Name a workshop's folder by --shop, or one that is new"};
  }
  Result<Listener> listener = Listener::on_loopback(options.port);
  if (!listener.ok()) return listener.fault();
  const int port = listener->port();
  std::unique_ptr<Desk> desk(new Desk(std::make_unique<Inside>(options, port)));
  Inside& inside = *desk->inside_;
  desk->first_address_ = "http://127.0.0.1:" + std::to_string(port) + inside.guard.first_path();
  const auto answer = [&inside](const Request& request) {
    if (auto refused = inside.guard.refusal(request)) return *std::move(refused);
    return inside.router.answer(request);
  };
  inside.server = std::make_unique<Server>(*std::move(listener), answer, body_limit_of);
  return desk;
}

}  // namespace ordinatio::inline desk
