// House rules that a machine can check.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "base/base.h"
#include "house_files.h"

namespace ordinatio::house_test {

namespace {

/// The rooms that a room's CMakeLists says it uses, itself included.
std::set<std::string> rooms_used_by(const std::string& room) {
  const std::string lists = *read_file(project / "src" / room / "CMakeLists.txt");
  std::smatch found;
  std::set<std::string> rooms{room, "base"};
  if (std::regex_search(lists, found, std::regex("USES ([a-z ]+)"))) {
    std::istringstream words(found[1].str());
    for (std::string word; words >> word;) rooms.insert(word);
  }
  return rooms;
}

/// By header, "text/gauges.h": the rooms whose files include it, "" for the program itself.
std::map<std::string, std::set<std::string>> rooms_that_include() {
  std::map<std::string, std::set<std::string>> rooms;
  const std::regex include("#include \"([a-z_]+/[a-z_0-9]+\\.h)\"");
  for (const fs::path& file : files_below("src", sources)) {
    const fs::path within = fs::relative(file, project / "src");
    const std::string room = within.has_parent_path() ? within.begin()->string() : "";
    const std::string text = *read_file(file);
    for (std::sregex_iterator match(text.begin(), text.end(), include), end; match != end; ++match)
      rooms[(*match)[1]].insert(room);
  }
  return rooms;
}

/// Whether the comment at a header's head says that it is of its folder alone, or of one file.
bool is_for_its_folder(const std::string& header) {
  std::string head = header.substr(0, header.find("#pragma once"));
  head = std::regex_replace(head, std::regex("\\s*\n//\\s*"), " ");
  return std::regex_search(head, std::regex("Of (this folder|[a-z_]+\\.cpp) alone"));
}

}  // namespace

TEST_CASE("a folder includes only folders that its CMakeLists names") {
  const std::regex include("#include \"([a-z]+)/");
  for (const fs::path& file : files_below("src", sources)) {
    const std::string room = file.parent_path().filename().string();
    if (room == "src") continue;  // the command line sits on top of all
    const std::set<std::string> allowed = rooms_used_by(room);
    const std::string text = *read_file(file);
    for (std::sregex_iterator match(text.begin(), text.end(), include), end; match != end; ++match) {
      INFO(file << " includes " << (*match)[1].str());
      CHECK(allowed.contains((*match)[1].str()));
    }
  }
}

TEST_CASE("a file of a room stands in the room's namespace, from its first declaration to its end") {
  const std::regex opens("^namespace (ordinatio[a-z_: ]*) \\{$");
  for (const fs::path& file : files_below("src", sources)) {
    const std::string room = file.parent_path().filename().string();
    if (!fs::exists(project / "src" / room / (room + ".h"))) continue;
    const std::string space = "ordinatio::inline " + room, text = *read_file(file);
    if (text.find("\nint main(") != std::string::npos) continue;
    std::istringstream lines(text);
    std::string last;
    std::smatch found;
    int spaces = 0;
    INFO(file);
    for (std::string line; std::getline(lines, line); last = line) {
      if (!std::regex_search(line, found, opens)) continue;
      CHECK((found[1] == space || found[1].str().starts_with(space + "::")));
      ++spaces;
    }
    CHECK(spaces == 1);
    CHECK(last.starts_with("}  // namespace " + space));
  }
}

TEST_CASE("a type's name stands for one type: two of one name are one to the linker") {
  const std::regex space("^namespace ([a-z_: ]+) \\{");
  const std::regex type("^(?:struct|class|enum class|enum|union) (\\w+)(?: final)?(?: : [^;{]*)? ?\\{");
  std::map<std::string, std::string> places;
  for (const fs::path& file : files_below("src", {".h"})) {
    std::istringstream lines(*read_file(file));
    std::string within;
    std::smatch found;
    for (std::string line; std::getline(lines, line);) {
      if (std::regex_search(line, found, space)) within = found[1];
      if (!std::regex_search(line, found, type)) continue;
      const auto [entry, is_new] = places.emplace(within + "::" + found[1].str(), file.string());
      INFO(entry->first << " in " << entry->second << " and in " << file);
      CHECK(is_new);
    }
  }
  CHECK(places.size() > 100);
}

TEST_CASE("a folder's CMakeLists names no folder that none of its files includes") {
  const auto included = rooms_that_include();
  for (const auto& entry : fs::directory_iterator(project / "src")) {
    if (!fs::exists(entry.path() / "CMakeLists.txt")) continue;
    const std::string room = entry.path().filename().string();
    for (const std::string& used : rooms_used_by(room)) {
      if (used == room || used == "base") continue;
      INFO(room << " uses " << used);
      CHECK(std::ranges::any_of(included, [&](const auto& header) {
        return header.first.starts_with(used + "/") && header.second.contains(room);
      }));
    }
  }
}

TEST_CASE("the rooms use one another one way: no room uses one that comes later") {
  const std::vector<std::string> order{"base",   "geometry", "cleaning", "text",    "fit",         "logo",
                                       "photo",  "design",   "bed",      "machine", "plan",        "write",
                                       "paper",  "manifest", "check",    "ledger",  "csv",         "orders",
                                       "blanks", "workshop", "intake",   "shop",    "bookkeeping", "manual"};
  for (std::size_t i = 0; i < order.size(); ++i) {
    for (std::size_t later = i + 1; later < order.size(); ++later) {
      INFO(order[i] << " uses " << order[later]);
      CHECK_FALSE(rooms_used_by(order[i]).contains(order[later]));
    }
  }
  CHECK_FALSE(rooms_used_by("check").contains("write"));
  CHECK_FALSE(rooms_used_by("check").contains("paper"));
}

TEST_CASE("each room's header opens with what comes in, what goes out, what it never does") {
  for (const auto& entry : fs::directory_iterator(project / "src")) {
    if (!fs::exists(entry.path() / "CMakeLists.txt")) continue;  // the command line's files, and what packs it all
    const std::string room = entry.path().filename().string();
    INFO(room);
    const std::string header = *read_file(entry.path() / (room + ".h"));
    CHECK(std::regex_search(
        header, std::regex("^// In: [^\\n]*\\n(//  ?[^\\n]*\\n)*?// Out: [^\\n]*\\n(//  ?[^\\n]*\\n)*?// Never: ")));
  }
}

TEST_CASE(
    "each check against what we did not write says at its head by what: a package, a version, or that there is none") {
  const std::regex source("Debian|from memory|own measurement|common practice, no source|no library|npm");
  for (const fs::path& file : files_below("tests/outside", {".cpp"})) {
    const std::string text = *read_file(file);
    if (text.find("TEST_CASE") == std::string::npos) continue;
    const std::string head = text.substr(0, text.find("\n#include"));
    INFO(file);
    CHECK(std::regex_search(head, source));
  }
}

TEST_CASE("numbers go through one place that knows no locale") {
  const std::regex banned(R"(\b(s?n?printf|strtod|strtof|atof|stod|stof|setlocale|to_string\((double|float))\b)");
  for (const fs::path& file : files_below("src", sources)) {
    const std::string text = *read_file(file);
    std::smatch found;
    INFO(file);
    CHECK_FALSE(std::regex_search(text, found, banned));
  }
}

TEST_CASE("no file holds the path of the machine it was written on") {
  for (const char* folder : {"src", "tests", "templates", "fonts", ".ci"}) {
    for (const fs::path& file :
         files_below(folder, {".cpp", ".h", ".txt", ".cmake", ".py", ".toml", ".csv", ".md", ""})) {
      INFO(file);
      CHECK(read_file(file)->find(PROJECT_FOLDER) == std::string::npos);
    }
  }
}

TEST_CASE("no file grows too large to know what lives in it") {
  for (const char* folder : {"src", "tests"}) {
    for (const fs::path& file : files_below(folder, sources)) {
      const std::string text = *read_file(file);
      INFO(file);
      CHECK(std::ranges::count(text, '\n') <= 500);
    }
  }
}

/// README, DEVELOPERS.md and the pages of the manual.
std::vector<fs::path> documents() {
  std::vector<fs::path> files = files_below("src/manual", {".md"});
  for (const char* name : {"README.md", "DEVELOPERS.md"}) files.push_back(project / name);
  return files;
}

/// The files of the command line, which sit on top of all rooms.
std::string command_line() {
  std::string text;
  for (const fs::path& file : files_below("src", sources)) {
    if (file.parent_path().filename() == "src") text += *read_file(file);
  }
  return text;
}

TEST_CASE("a page of the manual that the program, a shipped file or a document names is there") {
  const std::regex page("ordinatio help[ \\n]([a-z]+)");
  std::vector<fs::path> files = documents();
  for (const fs::path& file : files_below("templates", {".toml", ".txt"})) files.push_back(file);
  std::size_t count = 0;
  for (const fs::path& file : files) {
    const std::string text = *read_file(file);
    for (std::sregex_iterator match(text.begin(), text.end(), page), end; match != end; ++match, ++count) {
      INFO(file << ": " << match->str());
      const std::string name = (*match)[1];
      CHECK((fs::exists(project / "src/manual" / (name + ".md")) ||
             command_line().find("add_subcommand(\"" + name + "\"") != std::string::npos));
    }
  }
  CHECK(count > 10);
}

TEST_CASE("a blank is a piece: no message calls a space or an empty row so") {
  const std::regex space(
      "(nothing but|parted by|repeated|leading|trailing) blanks|blanks in a row|blank (line|row|cell)",
      std::regex::icase);
  for (const char* folder : {"src", "templates"}) {
    for (const fs::path& file : files_below(folder, {".cpp", ".h", ".toml", ".txt", ".md", ".in", ".cmake"})) {
      const std::string text = *read_file(file);
      std::smatch found;
      INFO(file);
      CHECK_FALSE(std::regex_search(text, found, space));
    }
  }
  CHECK_FALSE(std::regex_search(*read_file(project / "README.md"), space));
}

TEST_CASE("one function alone commits what a command has done in the ledger") {
  const std::regex commit(R"((->|\.)commit\(\))");
  std::vector<std::string> found;
  for (const fs::path& file : files_below("src", sources)) {
    const std::string name = fs::relative(file, project / "src").string(), text = *read_file(file);
    if (name.starts_with("ledger/")) continue;
    const std::sregex_iterator calls(text.begin(), text.end(), commit);
    found.insert(found.end(), static_cast<std::size_t>(std::distance(calls, std::sregex_iterator())), name);
  }
  CHECK(found == std::vector<std::string>{"shop/transaction.cpp"});
}

TEST_CASE("a header of its folder alone is used by no other folder; all that are so say so") {
  const std::map<std::string, std::set<std::string>> users = rooms_that_include();
  std::size_t count = 0;
  for (const fs::path& file : files_below("src", {".h"})) {
    const std::string name = fs::relative(file, project / "src").string(), room = name.substr(0, name.find('/'));
    if (name == room || name == room + "/" + room + ".h") continue;  // the program's own, and what a room shows
    const auto found = users.find(name);
    const bool elsewhere = found != users.end() && (found->second.size() > 1 || !found->second.contains(room));
    INFO(name << (elsewhere ? " is used elsewhere" : " is used by its own folder alone"));
    CHECK(is_for_its_folder(*read_file(file)) == !elsewhere);
    ++count;
  }
  CHECK(count > 50);
}

}  // namespace ordinatio::house_test
