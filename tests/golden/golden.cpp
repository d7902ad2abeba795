// Small workshops and the files that a person has approved for them; awkward texts and their approved pictures.
// tests/golden/accept renews what is expected.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <iostream>

#include "awkward.h"
#include "cases.h"
#include "comparison.h"

namespace fs = std::filesystem;
using namespace golden;

namespace {

bool is_accepting() { return std::getenv("ORDINATIO_ACCEPT_GOLDEN") != nullptr; }

/// Compares, or renews what is expected where a person has asked for that.
void check(const std::string& name, const fs::path& expected, const fs::path& made) {
  if (is_accepting()) {
    for (const std::string& file : renew(expected, made)) std::cerr << "renewed: " << name << "/" << file << "\n";
  }
  for (const std::string& difference : differences(expected, made, fs::path(REPORT_FOLDER) / name)) {
    FAIL_CHECK(difference);
  }
  fs::remove_all(made);
}

}  // namespace

TEST_CASE("every case comes out as approved", "[golden]") {
  for (const Case& one : all_cases()) {
    DYNAMIC_SECTION(one.name) {
      const fs::path made = fresh_folder(one.name);
      make(one, made);
      check(one.name, expected_folder(one), made);
    }
  }
}

TEST_CASE("every awkward text is set as approved", "[golden]") {
  const fs::path folder = fs::path(TEST_FOLDER) / "golden", made = fresh_folder("awkward");
  draw_awkward_texts(awkward_texts(folder / "awkward.txt"), made);
  check("awkward", folder / "awkward", made);
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
