// Check characters against a published number and against stdnum 1.18 (Debian: python3-stdnum), which reckons them for
// itself.
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <random>
#include <sstream>

#include "base/check_character.h"
#include "bed/item_number.h"

using namespace ordinatio;
namespace fs = std::filesystem;

namespace {

constexpr std::string_view alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";

std::vector<std::string> seeded_texts(unsigned seed, std::size_t count) {
  std::mt19937 random(seed);
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < count; ++i) {
    std::string text;
    for (auto size = 1 + random() % 24; size > 0; --size) text += alphabet[random() % alphabet.size()];
    texts.push_back(text);
  }
  return texts;
}

/// One check character a text, by python3-stdnum.
std::string checked_by_stdnum(const std::vector<std::string>& texts) {
  const fs::path folder = fs::temp_directory_path() / ("ordinatio-item-numbers-" + std::to_string(::getpid()));
  fs::create_directories(folder);
  std::string lines;
  for (const std::string& text : texts) lines += text + '\n';
  if (auto fault = write_file(folder / "texts", lines)) FAIL(describe(*fault));
  const std::string command = std::string(PYTHON " " TEST_FOLDER "/outside/check_character.py < '") +
                              (folder / "texts").string() + "' > '" + (folder / "checks").string() + "'";
  REQUIRE(std::system(command.c_str()) == 0);
  const Result<std::string> answer = read_file(folder / "checks");
  REQUIRE(answer.ok());
  fs::remove_all(folder);
  std::string checks;
  for (const char c : *answer) {
    if (c != '\n') checks += c;
  }
  return checks;
}

}  // namespace

TEST_CASE("the check character of the GRid standard's example") {
  // IFPI, Global Release Identifier (GRid) Standard: A1-2425G-ABC1234002-M, by ISO 7064 MOD 37,36.
  CHECK(check_character("A1-2425G-ABC1234002-") == 'M');
}

TEST_CASE("check characters are those of python3-stdnum") {
  const char* given = std::getenv("ORDINATIO_SEED");
  const unsigned seed = given != nullptr ? static_cast<unsigned>(std::stoul(given)) : 20261126;
  INFO("seed " << seed << "; give another in ORDINATIO_SEED");
  const std::vector<std::string> texts = seeded_texts(seed, 5'000);
  const std::string checks = checked_by_stdnum(texts);
  REQUIRE(checks.size() == texts.size());
  for (std::size_t i = 0; i < texts.size(); ++i) {
    INFO(texts[i]);
    CHECK(check_character(texts[i]) == checks[i]);
  }
}

TEST_CASE("an item's number bears the check character that python3-stdnum gives its digits and letters") {
  struct Case {
    std::string item, counted;
  };
  const Case cases[] = {{"1042-2", "104200002"},
                        {"104-22", "10400022"},
                        {"QM-77/b-10000", "QM77B10000"},
                        {"2026/11-7-12", "202611700012"},
                        {"замовлення 5-3", "500003"}};
  std::vector<std::string> counted;
  for (const Case& one : cases) counted.push_back(one.counted);
  const std::string checks = checked_by_stdnum(counted);
  for (std::size_t i = 0; i < std::size(cases); ++i) {
    INFO(cases[i].item);
    CHECK(with_check(cases[i].item) == cases[i].item + '/' + checks[i]);
  }
}
