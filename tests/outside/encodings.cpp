// Encodings, against files that Python's codecs write (Python 3.11 of Debian 12): whatever one a file is in, a word is read
// right or said to be doubtful.
#include <catch2/catch.hpp>
#include <cstdio>
#include <memory>
#include <sstream>

#include "csv/csv.h"

using namespace ordinatio;

namespace {

struct File {
  std::string codec, language, bytes;
  std::vector<std::string> words;
};

std::string from_hex(const std::string& hex) {
  std::string bytes;
  for (std::size_t i = 0; i + 1 < hex.size(); i += 2) {
    bytes += static_cast<char>(std::stoi(hex.substr(i, 2), nullptr, 16));
  }
  return bytes;
}

std::vector<File> files_of_python() {
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(PYTHON " " TEST_FOLDER "/outside/encodings.py", "r"), pclose);
  REQUIRE(pipe != nullptr);
  std::string text;
  char block[4096];
  for (std::size_t size; (size = fread(block, 1, sizeof block, pipe.get())) > 0;) text.append(block, size);
  std::vector<File> files;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    File file;
    std::istringstream parts(line);
    std::string words, hex, word;
    std::getline(parts, file.codec, '\t');
    std::getline(parts, file.language, '\t');
    std::getline(parts, words, '\t');
    std::getline(parts, hex);
    file.bytes = from_hex(hex);
    for (std::istringstream each(words); each >> word;) file.words.push_back(word);
    files.push_back(std::move(file));
  }
  return files;
}

/// The words of a decoded file, in its order.
std::vector<std::string> words_read(const std::string& text) {
  std::vector<std::string> words;
  std::istringstream lines(text);
  std::string line;
  std::getline(lines, line);  // the header
  while (std::getline(lines, line)) words.push_back(line.substr(line.find(',') + 1));
  return words;
}

}  // namespace

TEST_CASE("a word of a file that says no encoding is read right or is doubtful") {
  std::size_t files = 0, right = 0, doubtful = 0;
  for (const File& file : files_of_python()) {
    INFO(file.codec << " " << file.language);
    ++files;
    const Result<DecodedText> text = decode_text(file.bytes, "", "orders.csv");
    if (!text.ok()) {  // UTF-16 without a mark is not guessed at
      CHECK((file.codec == "utf-16-le" || file.codec == "utf-16-be"));
      const Result<DecodedText> set = decode_text(file.bytes, file.codec, "orders.csv");
      REQUIRE(set.ok());
      CHECK(words_read(set->text) == file.words);
      continue;
    }
    CHECK(file.codec != "utf-16-le");
    CHECK(file.codec != "utf-16-be");
    const std::vector<std::string> read = words_read(text->text);
    REQUIRE(read.size() == file.words.size());
    for (std::size_t i = 0; i < read.size(); ++i) {
      INFO(file.words[i] << " was read as " << read[i] << " in " << text->encoding);
      // What is doubtful is a run of letters: `Ma` and all behind a lost letter may be one, so any part of the word counts.
      const bool is_doubted = std::any_of(text->doubtful.begin(), text->doubtful.end(), [&](const auto& one) {
        return read[i].find(one.first) != std::string::npos;
      });
      CHECK((read[i] == file.words[i] || is_doubted || read[i].find("\uFFFD") != std::string::npos));
      ++(read[i] == file.words[i] && !is_doubted ? right : doubtful);
    }
  }
  CHECK(files > 80);
  CHECK(right > 0);
  CHECK(doubtful > 0);
}

TEST_CASE("a file whose encoding is set is read as Python's codec wrote it") {
  const std::map<std::string, std::string> names{
      {"cp1252", "windows-1252"},  {"cp1250", "windows-1250"}, {"cp1251", "windows-1251"}, {"mac_roman", "macintosh"},
      {"iso8859-2", "ISO-8859-2"}, {"koi8-r", "KOI8-R"},       {"utf-8", "UTF-8"},         {"utf-16", "UTF-16"}};
  for (const File& file : files_of_python()) {
    const auto name = names.find(file.codec);
    if (name == names.end()) continue;
    INFO(file.codec << " " << file.language);
    const Result<DecodedText> text = decode_text(file.bytes, name->second, "orders.csv");
    REQUIRE(text.ok());
    CHECK(words_read(text->text) == file.words);
    CHECK(text->doubtful.empty());
    CHECK(text->look_at.empty());
  }
}

TEST_CASE("one byte that is none holds its row, and the rest of a file of UTF-8 stays what it is") {
  for (const File& file : files_of_python()) {
    if (file.codec != "utf-8" && file.codec != "utf-8-sig") continue;
    INFO(file.language);
    const Result<DecodedText> text = decode_text(file.bytes + "2000,Bj\xF8rn\n", "", "orders.csv");
    REQUIRE(text.ok());
    CHECK(text->encoding.starts_with("UTF-8"));
    std::vector<std::string> read = words_read(text->text);
    REQUIRE(read.size() == file.words.size() + 1);
    CHECK(read.back() == "Bj\uFFFDrn");
    read.pop_back();
    CHECK(read == file.words);
  }
}
