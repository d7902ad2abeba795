#include <atomic>
#include <catch2/catch.hpp>
#include <stdexcept>

#include "base/base.h"

namespace ordinatio::small_test {

TEST_CASE("the digest is SHA-256") {
  // FIPS 180-4 examples: the one-block and the empty message.
  CHECK(sha256_hex("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256_hex("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("a slip of the pen finds the word that was meant") {
  const std::string_view known[] = {"margin", "gap", "width", "height"};
  CHECK(nearest_word("margn", known) == "margin");
  CHECK(nearest_word("widht", known) == "width");
  CHECK_FALSE(nearest_word("colour", known));
}

TEST_CASE("every piece of work is done once, on any number of cores") {
  for (const unsigned workers : {1U, 2U, 7U}) {
    std::vector<std::atomic<int>> done(1000);
    for_each_parallel(done.size(), workers, [&](std::size_t i, unsigned worker) {
      REQUIRE(worker < workers);
      ++done[i];
    });
    for (const auto& times : done) REQUIRE(times == 1);
  }
}

TEST_CASE("a failure on one core is thrown where the work was asked for") {
  const auto fail = [](std::size_t i, unsigned) {
    if (i == 5) throw std::runtime_error("five");
  };
  CHECK_THROWS_WITH(for_each_parallel(10, 2, fail), "five");
}

}  // namespace ordinatio::small_test
