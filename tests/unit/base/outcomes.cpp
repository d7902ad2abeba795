// Whether work went well is asked of a Result in one way and of a MaybeFault in another.
#include <catch2/catch.hpp>
#include <type_traits>

#include "base/base.h"

namespace ordinatio::outcomes_test {

namespace {

// In a test, true is good for the one and bad for the other: were both to convert, one would pass for the other unseen.
static_assert(!std::is_constructible_v<bool, Result<int>>);
static_assert(!std::is_constructible_v<bool, const Result<std::string>&>);
static_assert(std::is_constructible_v<bool, MaybeFault>);
static_assert(!std::is_convertible_v<MaybeFault, bool>);

template <class Outcome>
concept TellsByOk = requires(const Outcome& outcome) {
  { outcome.ok() } -> std::same_as<bool>;
};
static_assert(TellsByOk<Result<int>>);
static_assert(!TellsByOk<MaybeFault>);

MaybeFault refused() { return Fault{"no", "", "", ""}; }

}  // namespace

TEST_CASE("a Result is asked by ok(), and a MaybeFault is true where there is a Fault") {
  const Result<bool> no = false;
  CHECK(no.ok());
  CHECK_FALSE(Result<bool>(Fault{"lost", "", "", ""}).ok());
  CHECK_FALSE(MaybeFault());
  if (const auto fault = refused()) {
    CHECK(fault->what == "no");
  } else {
    FAIL("a Fault is no Fault");
  }
}

}  // namespace ordinatio::outcomes_test
