// The child process: what it may not do, and what is said when it tries.
#include "base/child.h"

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cerrno>
#include <csignal>
#include <filesystem>
#include <stdexcept>

namespace ordinatio::child_test {
using namespace std::chrono_literals;

namespace {

using Clock = std::chrono::steady_clock;

volatile bool forever = true;

const ChildWords words{"the broth could not be cooked", "cooks it", "the cook", "its recipe is"};

std::size_t open_descriptors() {
  std::size_t count = 0;
  for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator("/proc/self/fd")) ++count;
  return count;
}

/// The reason it broke off; no child is left behind and no descriptor open.
std::string why_broken(const std::function<std::string()>& work, const ChildLimits& limits) {
  const auto before = open_descriptors();
  const auto result = run_in_child(work, words, limits);
  CHECK(open_descriptors() == before);
  CHECK(waitpid(-1, nullptr, WNOHANG) == -1);
  CHECK(errno == ECHILD);
  REQUIRE_FALSE(result.ok());
  CHECK(result.fault().what == "the broth could not be cooked");
  return result.fault().why;
}

}  // namespace

TEST_CASE("a child's answer comes back whole") {
  for (const std::size_t size : {0, 1, 65'536, 3'000'000}) {
    std::string bytes(size, '\0');
    for (std::size_t i = 0; i < size; ++i) bytes[i] = static_cast<char>(i * 7);
    const auto result = run_in_child([&] { return bytes; }, words, {});
    REQUIRE(result.ok());
    CHECK(*result == bytes);
  }
}

TEST_CASE("a child that computes too long is stopped") {
  const auto work = [] {
    while (forever) {
    }
    return std::string();
  };
  CHECK(why_broken(work, {.wall = 30s, .cpu_seconds = 1}) == "it took more than 1 s of computing");
}

TEST_CASE("a child that only waits is stopped by the clock") {
  const auto work = [] {
    while (forever) pause();
    return std::string();
  };
  const auto start = Clock::now();
  CHECK(why_broken(work, {.wall = 200ms}) == "it took longer than 0.2 s");
  CHECK(Clock::now() - start >= 200ms);
  CHECK(Clock::now() - start < 5s);
}

TEST_CASE("a child that shuts its pipe and lingers is stopped too") {
  const auto work = [] {
    close(3);
    while (forever) pause();
    return std::string();
  };
  const auto start = Clock::now();
  CHECK(why_broken(work, {.wall = 200ms}).find("broke off") != std::string::npos);
  CHECK(Clock::now() - start < 5s);
}

TEST_CASE("a child that answers without end is cut off") {
  const auto work = [] { return std::string(1'000'001, 'x'); };
  CHECK(why_broken(work, {.answer = 1'000'000}) == "its recipe is longer than 1000000 bytes");
}

TEST_CASE("a child that crashes, throws or leaves is a fault") {
  CHECK(why_broken(
            []() -> std::string {
              raise(SIGABRT);
              return {};
            },
            {})
            .find("broke off") != std::string::npos);
  CHECK(why_broken(
            []() -> std::string {
              raise(SIGKILL);
              return {};
            },
            {})
            .find("was killed") != std::string::npos);
  CHECK(why_broken([]() -> std::string { throw std::runtime_error("no"); }, {}).find("broke off") != std::string::npos);
  CHECK(why_broken([]() -> std::string { _exit(7); }, {}).find("broke off") != std::string::npos);
}

#if !defined(__SANITIZE_ADDRESS__)  // which maps terabytes of its own: memory is not limited under it
TEST_CASE("a child that takes too much memory is stopped") {
  const auto work = [] {
    std::string hoard(200 << 20, 'x');
    return hoard.substr(0, 1);
  };
  CHECK(why_broken(work, {.memory = 100 << 20}).find("more than 100 MiB of memory") != std::string::npos);
  CHECK(run_in_child(work, words, {.memory = 400 << 20}).ok());
}
#endif

TEST_CASE("a child opens no files and holds none but its pipe") {
  const int held = open("/dev/null", O_RDONLY);
  const auto result = run_in_child(
      [&] {
        std::string seen;
        seen += open("/etc/hostname", O_RDONLY) < 0 ? "no file, " : "a file, ";
        seen += fcntl(held, F_GETFD) < 0 || held <= 3 ? "none held, " : "one held, ";
        seen += fcntl(4, F_GETFD) < 0 ? "one pipe" : "more";
        return seen;
      },
      words, {});
  close(held);
  REQUIRE(result.ok());
  CHECK(*result == "no file, none held, one pipe");
}

}  // namespace ordinatio::child_test
