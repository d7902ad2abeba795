// Functions: each is used by the program, and stands where its header says.
#include <catch2/catch.hpp>
#include <map>
#include <optional>
#include <sstream>

#include "base/base.h"
#include "house_files.h"

namespace ordinatio::functions_test {

namespace {

bool is_of_word(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

/// The code with comments and what stands between quotes taken out, its lines where they were.
std::string bare(const std::string& code) {
  std::string text;
  for (std::size_t i = 0; i < code.size(); ++i) {
    if (code.compare(i, 2, "//") == 0) {
      i = code.find('\n', i);
      if (i == std::string::npos) break;
      text += '\n';
    } else if (code[i] == '"') {
      const std::size_t begin = i++;
      while (i < code.size() && code[i] != '"' && code[i] != '\n') i += code[i] == '\\' ? 2 : 1;
      if (begin > 0 && code[begin - 1] == 'R') {
        const std::string mark = code.substr(begin + 1, code.find('(', begin) - begin - 1);
        i = code.find(')' + mark + '"', begin) + 1 + mark.size();
      }
      text += "\"\"";
    } else {
      text += code[i];
    }
  }
  return text;
}

/// A line that declares or defines a function: its name, and what stands before that.
struct FunctionLine {
  std::string name, before;
};

/// Free functions stand at the line's head, members two columns in. Constructors and operators have no name of their own;
/// what is called or assigned to is none.
std::optional<FunctionLine> function_in(const std::string& line, std::size_t indent) {
  if (line.find_first_not_of(' ') != indent || line.find('(') == std::string::npos) return std::nullopt;
  const std::size_t open = line.find('(');
  std::size_t begin = open;
  while (begin > indent && is_of_word(line[begin - 1])) --begin;
  std::string before = line.substr(indent, begin - indent);
  if (begin == open || before.empty()) return std::nullopt;
  for (const char* none : {"return ", "else ", "throw ", "case ", "delete ", "using ", "#", "if ", "new ", "goto "}) {
    if (before.starts_with(none)) return std::nullopt;
  }
  for (const char* none :
       {" = ", " << ", " && ", " || ", " * ", " + ", " - ", " / ", " < ", " > ", " ? ", "!", ".", "->", "{"}) {
    if (before.find(none) != std::string::npos) return std::nullopt;
  }
  const char last = before.back();
  if (last != ' ' && last != '&' && last != '*' && last != ':') return std::nullopt;
  if (last == ':' && before.find(' ') == std::string::npos) return std::nullopt;  // a constructor, or a call
  if (line.compare(open, 2, "()") != 0 && before.find("operator") != std::string::npos) return std::nullopt;
  return FunctionLine{line.substr(begin, open - begin), std::move(before)};
}

std::vector<std::string> lines_in(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::map<std::string, std::size_t> words_in(const std::string& text) {
  std::map<std::string, std::size_t> words;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = i;
    while (end < text.size() && is_of_word(text[end])) ++end;
    if (end > i) ++words[text.substr(i, end - i)];
    i = std::max(end, i + 1);
  }
  return words;
}

/// Whether what begins on this line ends with ';' before any body: a declaration.
bool is_declaration(const std::vector<std::string>& lines, std::size_t i) {
  int depth = 0;
  for (; i < lines.size(); ++i) {
    for (const char c : lines[i]) {
      depth += c == '(' ? 1 : c == ')' ? -1 : 0;
      if (depth == 0 && (c == ';' || c == '{')) return c == ';';
    }
  }
  return false;
}

/// The file that a heading such as "// ---- number.cpp: numbers ----" names.
std::optional<std::string> file_headed(const std::string& line) {
  const std::string head = "// ---- ";
  if (!line.starts_with(head)) return std::nullopt;
  const std::size_t end = line.find(".cpp", head.size());
  if (end == std::string::npos || line.find(' ', head.size()) < end) return std::nullopt;
  return line.substr(head.size(), end + 4 - head.size());
}

/// The free functions that a .cpp defines for others.
std::set<std::string> functions_of(const fs::path& file) {
  std::set<std::string> names;
  const std::vector<std::string> lines = lines_in(bare(*read_file(file)));
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const auto function = function_in(lines[i], 0);
    if (function && !is_declaration(lines, i)) names.insert(function->name);
  }
  return names;
}

}  // namespace

// By name: of overloads, and of members of one name, it sees only that one of them is used.
TEST_CASE("a function that a header declares is used by the program, not by tests alone") {
  const std::map<std::string, std::string> exceptions{
      {"sizes_asked", "by it tests and bench hold how much the choice of pieces costs, which no output shows"}};
  std::map<std::string, std::size_t> words, declared;
  std::map<std::string, std::string> places;
  for (const fs::path& file : files_below("src", sources)) {
    const std::string code = bare(*read_file(file));
    for (const auto& [word, count] : words_in(code)) words[word] += count;
    for (const std::string& line : lines_in(code)) {
      for (const std::size_t indent : {std::size_t{0}, std::size_t{2}}) {
        const auto function = function_in(line, indent);
        if (!function) continue;
        ++declared[function->name];
        if (file.extension() == ".h") places.emplace(function->name, file.string());
      }
    }
  }
  CHECK(places.size() > 800);
  for (const auto& [name, place] : places) {
    INFO(name << " in " << place << " is used by no file of src");
    CHECK((words[name] > declared[name]) != exceptions.contains(name));
  }
}

TEST_CASE("a function stands in the file of its header's name, or in the one that heads its group there") {
  const std::set<std::string> rooms_apart{"shop", "bookkeeping", "ledger", "intake"};
  std::map<fs::path, std::set<std::string>> functions;
  for (const fs::path& file : files_below("src", {".cpp"})) functions[file] = functions_of(file);
  std::size_t count = 0;
  for (const fs::path& header : files_below("src", {".h"})) {
    if (rooms_apart.contains(header.parent_path().filename().string())) continue;
    if (header.stem().string().find("_text") != std::string::npos &&
        !fs::exists(fs::path(header).replace_extension(".cpp")))
      continue;  // texts that the build makes functions of
    const std::vector<std::string> lines = lines_in(*read_file(header));
    fs::path home = fs::path(header).replace_extension(".cpp");
    for (std::size_t i = 0; i < lines.size(); ++i) {
      if (const auto file = file_headed(lines[i])) home = header.parent_path() / *file;
      const auto function = function_in(lines[i].substr(0, lines[i].find("//")), 0);
      if (!function || function->before.find("inline ") != std::string::npos || !is_declaration(lines, i)) continue;
      if (i > 0 && lines[i - 1].starts_with("template ")) continue;
      INFO(function->name << ", declared in " << header << ", is looked for in " << home);
      CHECK(functions[home].contains(function->name));
      ++count;
    }
  }
  CHECK(count > 400);
}

}  // namespace ordinatio::functions_test
