// The child process: what it may not do, and what is said when it tries.
#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <cmath>
#include <csignal>
#include <cstring>
#include <filesystem>
#include <thread>

#include "logo/drawing.h"
#include "logo/logo.h"
#include "logo_drawing.h"

namespace ordinatio::child_test {
using namespace std::chrono_literals;

namespace {

using Clock = std::chrono::steady_clock;

volatile bool forever = true;

std::size_t open_descriptors() {
  std::size_t count = 0;
  for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator("/proc/self/fd")) ++count;
  return count;
}

/// The reason it broke off; no child is left behind and no descriptor open.
std::string why_broken(const std::function<std::string()>& work, const logo::Limits& limits) {
  const auto before = open_descriptors();
  const auto result = logo::run_in_child(work, limits);
  CHECK(open_descriptors() == before);
  CHECK(waitpid(-1, nullptr, WNOHANG) == -1);
  CHECK(errno == ECHILD);
  REQUIRE_FALSE(result.ok());
  CHECK(result.fault().what == "the logo could not be drawn");
  return result.fault().why;
}

}  // namespace

TEST_CASE("a child's answer comes back whole") {
  for (const std::size_t size : {0, 1, 65'536, 3'000'000}) {
    std::string bytes(size, '\0');
    for (std::size_t i = 0; i < size; ++i) bytes[i] = static_cast<char>(i * 7);
    const auto result = logo::run_in_child([&] { return bytes; });
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
  CHECK(why_broken(work, {.answer = 1'000'000}) == "its outlines are longer than 1000000 bytes");
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
  CHECK(logo::run_in_child(work, {.memory = 400 << 20}).ok());
}
#endif

TEST_CASE("a child opens no files and holds none but its pipe") {
  const int held = open("/dev/null", O_RDONLY);
  const auto result = logo::run_in_child([&] {
    std::string seen;
    seen += open("/etc/hostname", O_RDONLY) < 0 ? "no file, " : "a file, ";
    seen += fcntl(held, F_GETFD) < 0 || held <= 3 ? "none held, " : "one held, ";
    seen += fcntl(4, F_GETFD) < 0 ? "one pipe" : "more";
    return seen;
  });
  close(held);
  REQUIRE(result.ok());
  CHECK(*result == "no file, none held, one pipe");
}

TEST_CASE("a drawing that takes too long is a fault, not a wait") {
  // A marker of 1,000 shapes on each of 20,000 nodes: no reference that the scan could count.
  std::string shapes, nodes;
  for (int i = 0; i < 1000; ++i) shapes += "<path d='M0 0L1 2L2 0z'/>";
  for (int i = 0; i < 20'000; ++i) nodes += "L" + std::to_string(i % 97) + " " + std::to_string(i % 89);
  const std::string svg = page_with("<marker id='m' markerWidth='3' markerHeight='3'>" + shapes +
                                    "</marker><path style='marker-mid:url(#m)' d='M0 0" + nodes + "'/>");
  CHECK_FALSE(logo::scan(svg, "a.svg"));
  const auto start = Clock::now();
  CHECK_FALSE(logo::run_in_child([&] { return logo::resolve(svg); }, {.wall = 20s, .cpu_seconds = 1}).ok());
  CHECK(Clock::now() - start < 20s);
}

TEST_CASE("an answer is taken only when it is whole and sound") {
  Logo logo{{}, {0, 0, 10, 10}};
  logo.fill.move_to({1, 1});
  logo.fill.line_to({9, 1});
  logo.fill.cubic_to({11, 4}, {8, 9}, {5, 9});
  logo.fill.close();
  const std::string packed = logo::pack(logo);
  const auto back = logo::unpack(packed);
  REQUIRE(back.ok());
  CHECK(back->fill == logo.fill);
  CHECK(back->box == logo.box);

  for (std::size_t size = 0; size < packed.size(); ++size) CHECK_FALSE(logo::unpack(packed.substr(0, size)).ok());
  CHECK_FALSE(logo::unpack(packed + "x").ok());
  const auto with_double = [&](std::size_t at, double value) {
    std::string changed = packed;
    std::memcpy(changed.data() + at, &value, sizeof value);
    return changed;
  };
  const std::size_t first_point = 1 + 8 + 8 + 8 + 4;
  CHECK(logo::unpack(with_double(first_point, 2)).ok());
  for (const double bad : {std::nan(""), HUGE_VAL, -1.0, 11.0})
    CHECK_FALSE(logo::unpack(with_double(first_point, bad)).ok());
  for (const double bad : {std::nan(""), HUGE_VAL, -1.0, 0.0}) CHECK_FALSE(logo::unpack(with_double(1, bad)).ok());

  for (std::size_t i = 0; i < packed.size(); ++i) {  // any single damaged byte: refused, or another sound logo
    for (const int bit : {1, 4, 128}) {
      std::string changed = packed;
      changed[i] = static_cast<char>(changed[i] ^ bit);
      const auto read = logo::unpack(changed);
      if (read.ok()) CHECK(bounds_of(read->fill).width() < 1e3);
    }
  }
}

TEST_CASE("a fault comes back from the child in all its parts") {
  const auto back = logo::unpack(logo::pack(Fault{"what", "where", "why", "mend"}));
  REQUIRE_FALSE(back.ok());
  CHECK(back.fault().what == "what");
  CHECK(back.fault().where == "where");
  CHECK(back.fault().why == "why");
  CHECK(back.fault().mend == "mend");
}

TEST_CASE("the watermill's logo is ink inside its page, and always the same") {
  const auto logo = read_logo(PROJECT_FOLDER "/templates/watermill/logo.svg");
  REQUIRE(logo.ok());
  CHECK(logo->box.width() == Approx(30).epsilon(1e-6));
  const Bounds ink = bounds_of(logo->fill);
  CHECK(ink.left > 0);
  CHECK(ink.bottom > 0);
  CHECK(ink.right < 30);
  CHECK(ink.top < 30);
  CHECK(area_of(logo->fill) == Approx(318.6).epsilon(1e-3));
  CHECK(read_logo(PROJECT_FOLDER "/templates/watermill/logo.svg")->fill == logo->fill);
}

}  // namespace ordinatio::child_test
