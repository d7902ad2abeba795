// The CSV reader against csv-spectrum 1.0.0 (Max Ogden, BSD-2-Clause, npm) and against Python's csv module (CPython
// 3.11, Debian: python3; Lib/csv.py and Modules/_csv.c), strict.
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <nlohmann/json.hpp>
#include <random>

#include "csv/csv.h"

using namespace ordinatio;
using nlohmann::json;
namespace fs = std::filesystem;
using Rows = std::vector<std::vector<std::string>>;

namespace {

struct Sample {
  std::string text;
  char delimiter = ',';
};

std::string contents(const fs::path& path) {
  const auto bytes = read_file(path);
  if (!bytes.ok()) FAIL(describe(bytes.fault()));
  return *bytes;
}

Rows read_rows(const Sample& sample) {
  CsvReader reader(sample.text, sample.delimiter, "sample");
  Rows rows;
  while (auto record = reader.next()) {
    if (!record->ok()) FAIL(describe(record->fault()) << "\nin: " << json(sample.text));
    auto& row = rows.emplace_back();
    for (const CsvField& field : (*record)->fields) row.push_back(field.text);
  }
  return rows;
}

/// What Python makes of the same samples.
std::vector<Rows> read_by_python(const std::vector<Sample>& samples) {
  json cases = json::array();
  for (const Sample& sample : samples) {
    cases.push_back({{"text", sample.text}, {"delimiter", std::string(1, sample.delimiter)}});
  }
  const fs::path folder = fs::temp_directory_path() / ("ordinatio-csv-" + std::to_string(::getpid()));
  fs::create_directories(folder);
  REQUIRE_FALSE(write_file(folder / "in", cases.dump()));
  const std::string command = std::string(PYTHON) + " " + TEST_FOLDER + "/outside/csv_oracle.py < " +
                              (folder / "in").string() + " > " + (folder / "out").string();
  REQUIRE(std::system(command.c_str()) == 0);
  const json answer = json::parse(contents(folder / "out"));
  fs::remove_all(folder);
  return answer.get<std::vector<Rows>>();
}

/// The published samples; they are fetched, not kept here.
std::vector<fs::path> spectrum() {
  const fs::path folder = fs::path(PROJECT_FOLDER) / "build/outside/csv-spectrum/csvs";
  if (!fs::exists(folder)) FAIL("csv-spectrum is missing. Run: sh .ci/setup tests (it needs npm and the network)");
  std::vector<fs::path> paths;
  for (const auto& entry : fs::directory_iterator(folder)) paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  return paths;
}

/// Rows as csv-spectrum gives them: an object for each, keyed by the header.
json keyed_rows(const Rows& rows) {
  json objects = json::array();
  for (std::size_t row = 1; row < rows.size(); ++row) {
    REQUIRE(rows[row].size() == rows[0].size());
    json& object = objects.emplace_back(json::object());
    for (std::size_t column = 0; column < rows[0].size(); ++column) object[rows[0][column]] = rows[row][column];
  }
  return objects;
}

/// Well-formed text, with everything in its fields that quotes allow, and quotes where they are needed or by chance.
class Writer {
 public:
  explicit Writer(unsigned seed) : random_(seed) {}

  Sample write() {
    Sample sample;
    sample.delimiter = pick<char>({',', ';', '\t'});
    const std::string line_end = pick<std::string>({"\n", "\r\n", "\r"});
    const std::size_t rows = 1 + random_() % 6, columns = 1 + random_() % 5;
    for (std::size_t row = 0; row < rows; ++row) {
      if (random_() % 8 == 0) sample.text += line_end;  // an empty line
      for (std::size_t column = 0; column < columns; ++column) {
        if (column > 0) sample.text += sample.delimiter;
        sample.text += field(sample.delimiter, columns == 1);
      }
      if (row + 1 < rows || random_() % 2 == 0) sample.text += line_end;
    }
    return sample;
  }

 private:
  template <class T>
  T pick(std::initializer_list<T> from) {
    return from.begin()[random_() % from.size()];
  }
  std::string field(char delimiter, bool alone) {
    std::string text;
    for (std::size_t length = random_() % 7; length > 0; --length) {
      text += pick<std::string>(
          {"a", "B", "7", " ", "Zoë", "水", "𝔸", "\"", "\"\"", "\n", "\r\n", "\r", ",", ";", "\t", "'", "="});
    }
    const bool needed = text.find_first_of(std::string("\"\r\n") + delimiter) != std::string::npos;
    if (!needed && !(alone && text.empty()) && random_() % 3 != 0) return text;
    std::string quoted = "\"";
    for (const char c : text) quoted.append(c == '"' ? 2 : 1, c);
    return quoted + '"';
  }

  std::mt19937 random_;
};

}  // namespace

TEST_CASE("csv-spectrum is read as its authors say") {
  const auto paths = spectrum();
  REQUIRE(paths.size() == 11);
  for (const fs::path& path : paths) {
    INFO(path.filename());
    const fs::path expected = path.parent_path().parent_path() / "json" / path.stem().concat(".json");
    CHECK(keyed_rows(read_rows({contents(path)})) == json::parse(contents(expected)));
  }
}

TEST_CASE("csv-spectrum is read as Python reads it, and its delimiter and encoding are told") {
  std::vector<Sample> samples;
  for (const fs::path& path : spectrum()) {
    const auto decoded = decode_text(contents(path), "", path.filename());
    REQUIRE(decoded.ok());
    CHECK(decoded->encoding == "UTF-8");
    CHECK(sniff_delimiter(decoded->text).character == ',');
    samples.push_back({decoded->text});
  }
  const auto expected = read_by_python(samples);
  for (std::size_t at = 0; at < samples.size(); ++at) CHECK(read_rows(samples[at]) == expected[at]);
}

TEST_CASE("random well-formed text is read as Python reads it, cell by cell") {
  const unsigned seed = Catch::rngSeed() != 0 ? Catch::rngSeed() : 4180;
  std::cout << "random CSV: --rng-seed " << seed << "\n";
  Writer writer(seed);
  std::vector<Sample> samples(5000);
  for (Sample& sample : samples) sample = writer.write();
  const auto expected = read_by_python(samples);
  REQUIRE(expected.size() == samples.size());
  std::size_t cells = 0;
  for (std::size_t at = 0; at < samples.size(); ++at) {
    INFO("sample " << at << ": " << json(samples[at].text));
    const Rows rows = read_rows(samples[at]);
    REQUIRE(rows == expected[at]);
    for (const auto& row : rows) cells += row.size();
  }
  CHECK(cells > 20'000);  // the samples are not all trivial
}

TEST_CASE("what is written is read by Python as it was, but for the guard") {
  const std::string_view texts[] = {"",           "Anna", "a,b",  "say \"yes\"", "one\ntwo",
                                    "one\r\ntwo", " x ",  "=1+1", "- Mum -",     "@home; sweet",
                                    "\tindent",   "Zoë",  "a\tb", "'quoted'"};
  Sample sample;
  Rows expected(1);
  for (const std::string_view text : texts) {
    const std::string field = csv_field(text);
    sample.text += (expected[0].empty() ? "" : ",") + field;
    expected[0].push_back((field.starts_with("\"'") ? "'" : "") + std::string(text));
  }
  CHECK(read_by_python({sample}).at(0) == expected);
}
