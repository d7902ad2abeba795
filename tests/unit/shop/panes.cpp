#include "blanks/panes.h"
#include "base/account.h"
#include "csv/csv.h"
#include "shop/panes.h"

#include <unistd.h>
#include <algorithm>
#include <catch2/catch.hpp>

namespace ordinatio::panes_test {
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// A folder with a panes.csv, gone when the test is done.
class Folder {
 public:
  explicit Folder(std::string_view csv) {
    static int count = 0;
    path_ =
        fs::temp_directory_path() / ("ordinatio-panes-" + std::to_string(::getpid()) + "-" + std::to_string(++count));
    fs::create_directories(path_);
    REQUIRE_FALSE(write_file(file(), csv));
  }
  ~Folder() { fs::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] fs::path file() const { return path_ / "panes.csv"; }
  [[nodiscard]] fs::path out() const { return path_ / "out"; }
  [[nodiscard]] Shop shop() const {
    Shop shop;
    shop.folder = path_;
    shop.name = "Mill";
    return shop;
  }

 private:
  fs::path path_;
};

PaneRows rows_of(std::string_view csv) {
  const Folder folder(csv);
  auto rows = read_panes(folder.file());
  if (!rows.ok()) FAIL(describe(rows.fault()));
  return std::move(*rows);
}

/// The only row, which is held.
Fault fault_of(const std::string& row) {
  const PaneRows rows = rows_of("id,width,height,thickness,glass,factory_edges,keep\n" + row + "\nP9,500,300,4,,,\n");
  REQUIRE(rows.held.size() == 1);
  CHECK(rows.panes.size() == 1);  // the rest goes on
  return rows.held.front().fault;
}

Result<Account> run(const Folder& folder, const std::string& piece, double kerf, double breakage) {
  return run_panes(folder.shop(), {folder.file(), folder.out(), piece, kerf, breakage});
}

std::vector<std::vector<std::string>> records_of(const std::string& csv) {
  std::vector<std::vector<std::string>> records;
  CsvReader reader(csv, ',', "blanks.csv");
  while (const auto record = reader.next()) {
    REQUIRE(record->ok());
    auto& cells = records.emplace_back();
    for (const CsvField& field : (*record)->fields) cells.push_back(field.text);
  }
  return records;
}

}  // namespace

TEST_CASE("a pane has what its row says, whatever the order of the columns") {
  const PaneRows rows = rows_of(
      "note;height;width;id;keep;factory_edges;glass;material;thickness\n"
      "from the barn;250;500.5;S 1;\"clear 10 20 30 15 old scratch; whole 100 50 40 20\";left  top;annealed;slate;7\n");
  REQUIRE(rows.panes.size() == 1);
  const PaneRow& row = rows.panes.front();
  CHECK((row.pane.id == "S 1" && row.pane.width == 500.5 && row.pane.height == 250));
  CHECK((row.material == "slate" && row.thickness == 7.0 && row.note == "from the barn"));
  CHECK(row.pane.factory == Sides{true, false, false, true});
  CHECK_FALSE(row.pane.tempered);
  REQUIRE(row.pane.things.size() == 2);
  CHECK(row.pane.things[0].name == "old scratch");
  CHECK(row.pane.things[0].kind == PaneThing::Kind::clear);
  CHECK(row.pane.things[0].box == Bounds{10, 20, 40, 35});
  CHECK(row.pane.things[1].name == "whole");
  CHECK(row.pane.things[1].kind == PaneThing::Kind::whole);
  CHECK(row.source == "panes.csv:2");
}

TEST_CASE("id, width and height are enough, and empty rows are passed over") {
  const PaneRows rows = rows_of("id,width,height\nA,500,300\n,,\nB,400,200\n");
  CHECK((rows.panes.size() == 2 && rows.held.empty()));
  CHECK(rows.panes[0].pane.factory == Sides{});
}

TEST_CASE("a row that is no pane is held with its place, and the rest goes on") {
  struct Case {
    const char *row, *what, *where;
  };
  for (const auto& [row, what, where] : std::vector<Case>{
           {"P1,wide,300,4,,,", "the width \"wide\" is none", "panes.csv:2:4, column \"width\""},
           {"P1,\"1,5\",300,4,,,", "the width \"1,5\" is none", "panes.csv:2:4, column \"width\""},
           {"P1,500,,4,,,", "no height", "panes.csv:2:8, column \"height\""},
           {"P1,500,-3,4,,,", "the height \"-3\" is none", "column \"height\""},
           {"P1,500,nan,4,,,", "the height \"nan\" is none", "column \"height\""},
           {"P1,500,10001,4,,,", "the height \"10001\" is none", "column \"height\""},
           {"P1,500,300,900,,,", "the thickness \"900\" is none", "panes.csv:2:12, column \"thickness\""},
           {",500,300,4,,,", "no id", "panes.csv:2:1, column \"id\""},
           {"P1,500,300,4,laminated,,", "or other safety glass, is neither cut nor engraved", "column \"glass\""},
           {"P1,500,300,4,,lefft,", "there is no edge \"lefft\"", "column \"factory_edges\""},
           {"P1,500,300,4,,,scratch 1 2 3 4", "cannot be read", "column \"keep\""},
           {"P1,500,300,4,,,clear 1 2 three 4", "cannot be read", "column \"keep\""},
           {"P1,500,300,4,,,clear 1 2 3", "cannot be read", "column \"keep\""},
           {"P1,500,300", "the row has 3 fields", "panes.csv:2"},
           {"P1,500,300,4,,,\"clear", "", "panes.csv:2"},
           {"P9,500,300,4,,,\nP9,600,300,4,,,", "", ""}}) {
    INFO(row);
    if (std::string_view(what).empty()) continue;
    const Fault fault = fault_of(row);
    CHECK_THAT(fault.what, Contains(what));
    CHECK_THAT(fault.where, Contains(where));
    CHECK_FALSE(fault.mend.empty());
  }
  CHECK_THAT(fault_of("P1,500,300,4,,lefft,").mend, Contains("left"));
}

TEST_CASE("an id that comes twice is held the second time") {
  const PaneRows rows = rows_of("id,width,height\nA,500,300\nA,400,200\n");
  REQUIRE((rows.panes.size() == 1 && rows.held.size() == 1));
  CHECK(rows.panes[0].pane.width == 500);
  CHECK_THAT(rows.held[0].fault.what, Contains("twice"));
}

TEST_CASE("a file without panes or without a column that must be there costs a Fault, and other columns are told") {
  for (const char* csv : {"", "id,width,height\n", "id,width\nA,5\n", "id,width,width,height\nA,5,5,5\n"}) {
    INFO(csv);
    const Folder folder(csv);
    CHECK_FALSE(read_panes(folder.file()).ok());
  }
  const PaneRows rows = rows_of("id,width,height,keeep\nA,500,300,\n");
  REQUIRE(rows.notes.size() == 1);
  CHECK_THAT(rows.notes[0], Contains("\"keeep\" is not used; did you mean keep?"));
}

TEST_CASE(
    "panes become a cutting sheet and rows of blanks, with edges and what to keep clear of in their own millimetres") {
  const Folder folder(
      "id,width,height,thickness,material,glass,factory_edges,keep,note\n"
      "S1,210,100,8,slate,,left bottom right top,whole 120 10 30 20 maker's stamp,\"barn, north\"\n"
      "G2,900,600,8,glass,tempered,,,\n"
      "G3,90,60,4,glass,annealed,,,\n");
  const auto account = run(folder, "100x100", 3, 0.3);
  REQUIRE(account.ok());
  CHECK(account->items_set == 2);
  REQUIRE(account->files.size() == 2);
  CHECK(account->files[0] == folder.out() / "blanks.csv");
  CHECK(account->files[1] == folder.out() / "cutting.pdf");
  const auto records = records_of(*read_file(account->files[0]));
  REQUIRE(records.size() == 3);
  CHECK(records[0] == std::vector<std::string>{"id", "material", "glass", "width", "height", "thickness",
                                               "factory_edges", "keep_clear", "note"});
  CHECK(records[1] ==
        std::vector<std::string>{"S1-1", "slate", "", "100", "100", "8", "left bottom top", "", "barn, north"});
  CHECK(records[2] == std::vector<std::string>{"S1-2", "slate", "", "100", "100", "8", "bottom right top",
                                               "maker's-stamp 10 10 30 20", "barn, north"});
  REQUIRE(account->held.size() == 2);
  CHECK(account->held[0].id == "G2");
  CHECK(account->held[0].fault.what == "tempered glass, or other safety glass, is neither cut nor engraved");
  CHECK(account->held[0].fault.where == "panes.csv:3:20, column \"glass\"");
  CHECK(account->held[1].fault.what == "no piece goes into the pane");
  std::string notes;
  for (const std::string& note : account->notes) notes += note + "\n";
  CHECK_THAT(notes, Contains("2 pieces at the most") && Contains("1 piece to expect at a breakage of 0.3") &&
                        Contains("S1: 2 pieces, factory edges kept 6, corners 4"));
}

TEST_CASE("pieces to expect are rounded down, but not by the binary fractions of the rate") {
  std::string csv = "id,width,height\n";
  for (int i = 0; i < 20; ++i) csv += "P" + std::to_string(i) + ",50,50\n";
  const Folder folder(csv);
  const auto expected = [&](double rate) {
    const auto account = run(folder, "50x50", 3, rate);
    REQUIRE(account.ok());
    return account->notes.at(1);
  };
  CHECK_THAT(expected(0.05), Contains("19 pieces to expect"));
  CHECK_THAT(expected(0.8), Contains("4 pieces to expect"));
  CHECK_THAT(expected(0.06), Contains("18 pieces to expect"));
}

TEST_CASE("options that are no size, no blade or no share cost a Fault, and nothing is written") {
  const Folder folder("id,width,height\nA,500,300\n");
  for (const char* piece : {"100", "100x", "x100", "100xnan", "0x5", "-5x5", "5x5x5"}) {
    INFO(piece);
    CHECK_FALSE(run(folder, piece, 3, 0).ok());
  }
  for (const double kerf : {-1.0, 51.0}) CHECK_FALSE(run(folder, "100x100", kerf, 0).ok());
  for (const double rate : {-0.1, 1.0}) CHECK_FALSE(run(folder, "100x100", 3, rate).ok());
  CHECK_FALSE(fs::exists(folder.out()));
}

TEST_CASE("the same panes give the same bytes, and all held writes nothing") {
  const Folder folder("id,width,height,keep\nA,500,300,clear 100 100 20 20 hole\nB,450,310,\n");
  const auto bytes = [&] {
    const auto account = run(folder, "101.6x152.4", 3, 0);
    REQUIRE(account.ok());
    return *read_file(account->files.at(0)) + *read_file(account->files.at(1));
  };
  CHECK(bytes() == bytes());
  const Folder small("id,width,height\nA,50,30\n");
  const auto account = run(small, "100x100", 3, 0);
  REQUIRE(account.ok());
  CHECK((account->files.empty() && account->held.size() == 1));
  CHECK_FALSE(fs::exists(small.out()));
}

}  // namespace ordinatio::panes_test
