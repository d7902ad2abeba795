// Small workshops and the files that a person has approved for them. tests/golden/accept renews what is expected.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <iostream>

#include "cases.h"
#include "comparison.h"

namespace fs = std::filesystem;
using namespace golden;

namespace {

bool is_accepting() { return std::getenv("ORDINATIO_ACCEPT_GOLDEN") != nullptr; }

}  // namespace

TEST_CASE("every case comes out as approved", "[golden]") {
  for (const Case& one : all_cases()) {
    DYNAMIC_SECTION(one.name) {
      const fs::path made = fresh_folder(one.name), expected = expected_folder(one);
      make(one, made);
      if (is_accepting()) {
        for (const std::string& name : renew(expected, made))
          std::cerr << "renewed: " << one.name << "/" << name << "\n";
      }
      const auto all = differences(expected, made, fs::path(REPORT_FOLDER) / one.name);
      for (const std::string& difference : all) FAIL_CHECK(difference);
      fs::remove_all(made);
    }
  }
}

TEST_CASE("every folder of expected files belongs to a case", "[golden]") {
  for (const auto& entry : fs::directory_iterator(fs::path(TEST_FOLDER) / "golden/expected")) {
    const auto belongs = [&](const Case& one) { return one.name == entry.path().filename(); };
    const auto cases = all_cases();
    INFO(entry.path());
    CHECK(std::any_of(cases.begin(), cases.end(), belongs));
  }
}

TEST_CASE("a run that accepts is red", "[golden]") {
  if (is_accepting()) FAIL("expected files were renewed: look at them, then run the tests again");
}
