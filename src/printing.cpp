#include "printing.h"

#include <fcntl.h>
#include <poll.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <system_error>

namespace ordinatio {
namespace {

/// Opened the wrong way round, so that whoever uses it is told, as with a closed one.
void fill_if_closed(int descriptor, int flags) {
  if (::fcntl(descriptor, F_GETFD) >= 0 || errno != EBADF) return;
  const int opened = ::open("/dev/null", flags);  // the lowest that is free: those below are filled already
  if (opened >= 0 && opened != descriptor) ::close(opened);
}

bool wait_for_room(int descriptor) {
  pollfd room{descriptor, POLLOUT, 0};
  return ::poll(&room, 1, -1) > 0 || errno == EINTR;
}

/// 0, or the error.
int write_all(int descriptor, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(descriptor, text.data(), text.size());
    if (written >= 0) {
      text.remove_prefix(static_cast<std::size_t>(written));
    } else if (errno == EAGAIN || errno == EWOULDBLOCK) {
      if (!wait_for_room(descriptor)) return errno;
    } else if (errno != EINTR) {
      return errno;
    }
  }
  // Some file systems tell only at the end that there was no room.
  const int end = ::dup(descriptor);
  return end < 0 || ::close(end) != 0 ? errno : 0;
}

}  // namespace

void make_streams_safe() {
  fill_if_closed(STDIN_FILENO, O_WRONLY);
  fill_if_closed(STDOUT_FILENO, O_RDONLY);
  fill_if_closed(STDERR_FILENO, O_WRONLY);
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);
}

std::optional<std::string> print(std::string_view text) {
  const int error = write_all(STDOUT_FILENO, text);
  if (error == 0) return std::nullopt;
  return std::generic_category().message(error);
}

}  // namespace ordinatio
