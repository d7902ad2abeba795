// The same orders give the same bytes: on every run, on one core or two, whatever the locale, the clock's zone, the home
// folder and the folder one stands in.
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <clocale>
#include <cstdio>
#include <cstdlib>
#include <locale>
#include <map>
#include <thread>

#include "csv/csv.h"
#include "shop/day.h"
#include "shop/shop.h"

namespace fs = std::filesystem;
using namespace ordinatio;

/// glibc 2.36 loses the list of folders that LOCPATH names, each time a locale is set.
extern "C" const char* __lsan_default_suppressions() { return "leak:__argz_add_sep\n"; }

namespace {

const fs::path shop_folder = fs::path(PROJECT_FOLDER) / "templates/watermill";  // 60 invented orders in many scripts

struct Scratch {
  fs::path folder = fs::temp_directory_path() / ("ordinatio-determinism-" + std::to_string(::getpid()));
  Scratch() { fs::create_directories(folder); }
  ~Scratch() { fs::remove_all(folder); }
};

using Files = std::map<std::string, std::string>;

Files files_in(const fs::path& folder) {
  Files files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file()) files[fs::relative(entry.path(), folder)] = *read_file(entry.path());
  }
  return files;
}

/// Names what differs; whole files in a message help nobody.
void require_same(const Files& a, const Files& b) {
  REQUIRE(a.size() == b.size());
  REQUIRE(a.size() > 0);
  for (const auto& [name, bytes] : a) {
    INFO(name);
    const bool same = b.contains(name) && b.at(name) == bytes;
    CHECK(same);
  }
}

/// The header and every third row of an export.
std::string thinned(const std::string& text) {
  CsvReader rows(text, ',', "orders.csv");
  std::string kept;
  for (int row = 0; rows.next(); ++row) {
    if (row == 0 || row % 3 == 1) kept.append(rows.raw()) += '\n';
  }
  return kept;
}

/// The mill with every slate taken for the nominal one and every third order: more is long work for an instrumented program.
/// Sharing slates out has a test of its own.
fs::path plain_shop(const fs::path& folder) {
  fs::copy(shop_folder, folder, fs::copy_options::recursive);
  REQUIRE_FALSE(write_file(folder / "orders.csv", thinned(*read_file(folder / "orders.csv"))));
  std::string text = *read_file(folder / "shop.toml");
  const std::size_t table = text.find("[blanks]"), next = text.find("[machine]");
  REQUIRE(table < next);
  REQUIRE_FALSE(write_file(folder / "shop.toml", text.erase(table, next - table)));
  return folder;
}

Files day_by_library(const fs::path& mill, const fs::path& orders, const fs::path& out, unsigned workers) {
  const auto shop = read_shop(mill);
  REQUIRE(shop.ok());
  DayOptions options;
  options.orders = orders, options.out = out;
  options.png = true, options.date = "2026-11-25", options.workers = workers;
  const auto account = run_day(*shop, options);
  REQUIRE(account.ok());
  REQUIRE(account->sheets > 0);
  Files files = files_in(out);
  fs::remove_all(out);
  return files;
}

/// glibc makes a locale from its sources (Debian: package locales), so that none need be installed.
void make_locale(const fs::path& folder, const std::string& name) {
  fs::create_directories(folder);
  const std::string command = "localedef -i " + name + " -f UTF-8 '" + (folder / (name + ".UTF-8")).string() + "'";
  INFO(command << " failed: Debian's package locales has what it needs");
  REQUIRE(std::system(command.c_str()) == 0);
}

/// All of C and C++ in a locale, until it goes out of scope.
class Within {
 public:
  Within(const fs::path& folder, const std::string& name) {
    ::setenv("LOCPATH", folder.c_str(), 1);
    REQUIRE(std::setlocale(LC_ALL, name.c_str()) != nullptr);
    before_ = std::locale::global(std::locale(name));
    char half[8];
    std::snprintf(half, sizeof half, "%.1f", 0.5);
    REQUIRE(std::string(half) == "0,5");  // else the test would prove nothing
  }
  ~Within() {
    std::locale::global(before_);
    std::setlocale(LC_ALL, "C");
    ::unsetenv("LOCPATH");
  }
  Within(const Within&) = delete;
  Within& operator=(const Within&) = delete;

 private:
  std::locale before_;
};

/// Sets the program to all its work with `surroundings` before its name, and gives all that it wrote.
Files all_by_program(const fs::path& stand_in, const fs::path& mill, const std::string& surroundings) {
  fs::remove_all(stand_in);
  fs::create_directories(stand_in);
  const std::string shop = " --shop '" + mill.string() + "' ";
  const std::string orders = " '" + (mill / "orders.csv").string() + "' ";
  const std::string commands[] = {
      "day" + orders + shop + "--out days --date 2026-11-25 --json > day.json",
      "day" + orders + shop + "--out r2000 --date 2026-11-25 --dxf R2000 --no-pdf > day.txt",
      "proof" + orders + shop + "--out proofs --date 2026-11-25 --json > proof.json",
      "stands --count 9 --date 2026-11-25" + shop + "--out stands --json > stands.json",
      "remake 2601-1 --sheet days/sheet-001.json" + shop + "--out again --json > remake.json"};
  for (const std::string& command : commands) {
    const std::string line = "cd '" + stand_in.string() + "' && " + surroundings + " '" PROGRAM "' " + command;
    INFO(line);
    const int status = std::system((line + " 2>> said.txt").c_str());
    REQUIRE(WIFEXITED(status));
    REQUIRE(WEXITSTATUS(status) <= 1);  // 1: something is held, as it should be
  }
  return files_in(stand_in);
}

}  // namespace

TEST_CASE("a day gives the same bytes on one worker and on two, where numbers have a comma, and where i has no dot") {
  const Scratch scratch;
  const fs::path mill = plain_shop(scratch.folder / "mill"), orders = mill / "orders.csv";
  const Files plain = day_by_library(mill, orders, scratch.folder / "one", 1);
  // Dates in files are told in seconds.
  std::this_thread::sleep_for(std::chrono::milliseconds(1100));
  require_same(plain, day_by_library(mill, orders, scratch.folder / "two", 2));
  for (const std::string name : {"de_DE", "tr_TR"}) {
    make_locale(scratch.folder / "locales", name);
    const Within locale(scratch.folder / "locales", name + ".UTF-8");
    INFO(name);
    require_same(plain, day_by_library(mill, orders, scratch.folder / name, 2));
  }
}

TEST_CASE("slates are shared out alike on one worker and on two") {
  const Scratch scratch;
  const fs::path orders = scratch.folder / "orders.csv";
  REQUIRE_FALSE(
      write_file(orders,
                 "Order no.,Wording,Pieces,Slate\n1,The Fenwicks of Ford End,3,\n2,Ada,2,\n3,\"Alder, Reed and"
                 "\nSedge\",2,slate-upright\n"));
  require_same(day_by_library(shop_folder, orders, scratch.folder / "one", 1),
               day_by_library(shop_folder, orders, scratch.folder / "two", 2));
}

TEST_CASE("the program's files and its account are the same bytes whatever surrounds it") {
  const Scratch scratch;
  make_locale(scratch.folder / "locales", "de_DE");
  // No environment but this. Where leaks are sought, that is another test's work.
  const std::string bare = "env -i PATH=\"$PATH\" ASAN_OPTIONS=\"$ASAN_OPTIONS\" LSAN_OPTIONS=detect_leaks=0 ";
  const std::string elsewhere = "LOCPATH='" + (scratch.folder / "locales").string() +
                                "' LC_ALL=de_DE.UTF-8 LANG=de_DE.UTF-8 TZ=Pacific/Kiritimati HOME='" +
                                (scratch.folder / "home").string() + "' taskset -c 0";
  const fs::path mill = plain_shop(scratch.folder / "mill");
  const Files plain = all_by_program(scratch.folder / "here", mill, bare);
  for (const char* ending : {".svg", ".dxf", ".pdf", ".json"}) {
    const auto has_ending = [ending](const auto& file) { return file.first.ends_with(ending); };
    CHECK(std::ranges::count_if(plain, has_ending) > 3);
  }
  std::this_thread::sleep_for(std::chrono::milliseconds(1100));
  require_same(plain, all_by_program(scratch.folder / "elsewhere", mill, bare + elsewhere));
}
