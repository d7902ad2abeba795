#include "ledger/holder.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <thread>

#include "base/local_time.h"

namespace ordinatio::inline ledger {
namespace {

constexpr auto pause = std::chrono::milliseconds(50);

std::string holder_named(int file) {
  char bytes[400];
  const ssize_t got = ::pread(file, bytes, sizeof bytes, 0);
  const std::string text(bytes, static_cast<std::size_t>(std::max<ssize_t>(got, 0)));
  return text.substr(0, text.find('\n'));
}

/// With the time of "… since 2026-11-25T08:00:00Z: …" as the person's clock shows it.
std::string with_local_time(std::string who) {
  constexpr std::string_view since = " since ";
  constexpr std::size_t length_of_time = 20;
  const std::size_t at = who.find(since);
  if (at == std::string::npos) return who;
  const std::string time = who.substr(at + since.size(), length_of_time);
  return who.replace(at + since.size(), time.size(), local_time(time));
}

Fault cannot_lock(const std::filesystem::path& lock, int error) {
  return {"the ledger cannot be written", lock.string(), std::generic_category().message(error),
          "Give yourself the right to its folder; nothing was changed", Fault::Cause::machine};
}

}  // namespace

Result<Holder> Holder::take(const std::filesystem::path& ledger, const std::string& who, double wait) {
  const std::filesystem::path lock = ledger.string() + ".lock";
  Holder holder(::open(lock.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666));
  if (holder.file_ < 0) return cannot_lock(lock, errno);
  const auto until = std::chrono::steady_clock::now() + std::chrono::duration<double>(wait);
  while (::flock(holder.file_, LOCK_EX | LOCK_NB) != 0) {
    if (errno != EWOULDBLOCK && errno != EINTR) return cannot_lock(lock, errno);
    if (std::chrono::steady_clock::now() >= until) {
      const std::string other = holder_named(holder.file_);
      return Fault{"the ledger is in use", ledger.string(),
                   other.empty() ? "another command holds it" : "it is held by " + with_local_time(other),
                   "Let that end, then run the command again; nothing was changed", Fault::Cause::machine};
    }
    std::this_thread::sleep_for(pause);
  }
  holder.holds_ = true;
  const std::string line = who + "\n";
  // What is written here only helps others to a better message.
  if (::ftruncate(holder.file_, 0) == 0) (void)!::pwrite(holder.file_, line.data(), line.size(), 0);
  return holder;
}

Holder::~Holder() {
  if (file_ < 0) return;
  if (holds_) (void)!::ftruncate(file_, 0);
  ::close(file_);
}

}  // namespace ordinatio::inline ledger
