// Long texts, long cells and damaged fonts in the built program: what is beyond a limit is held and holds nobody up.
#include <fstream>
#include <random>

#include "workshop.h"

namespace ordinatio::bounds_test {
using Catch::Matchers::Contains;

namespace {

constexpr const char* good_orders =
    "Order,Text,Quantity,Design\n"
    "1001,\"Rowan Cottage\n1874\",1,plaque-landscape\n"
    "1002,Ines & Tomasz,1,plaque-landscape\n";

std::string repeated(std::string_view text, std::size_t times) {
  std::string all;
  for (std::size_t i = 0; i < times; ++i) all += text;
  return all;
}

std::string quoted_row(const std::string& number, const std::string& text) {
  return number + ",\"" + text + "\",1,plaque-landscape\n";
}

/// The day with one more row: the two good orders lie on the sheet, and the row is held for the reason.
void holds_alone(const Workshop& workshop, const std::string& row, const std::string& reason) {
  workshop.write("long.csv", good_orders + row);
  const Run run = workshop.run("day long.csv");
  INFO(run.out.substr(0, 2000) << run.err.substr(0, 2000));
  CHECK(run.code == 1);
  CHECK_THAT(run.out, Contains("2 items set") && Contains("1 held") && Contains(reason));
  CHECK(run.out.size() + run.err.size() < 4'000);  // nobody reads a long cell on the terminal
  fs::remove_all(workshop.shop() / "out");
}

}  // namespace

TEST_CASE("a text beyond the limits is held with its length, and the others are laid") {
  const Workshop workshop;
  holds_alone(workshop, quoted_row("2001", repeated("ab ", 800)), "it has 2,399 characters, and the limit is 2,000");
  holds_alone(workshop, quoted_row("2001", repeated("n\n", 61)), "it has 61 lines, and the limit is 60");
  holds_alone(workshop, quoted_row("2001", repeated("n\n", 10'000)), "20,000 characters as it came");
  holds_alone(workshop, quoted_row("2001", std::string(20'000'000, 'x')), "it has 20000000 bytes");
  holds_alone(workshop, quoted_row("2001", "a" + repeated("\u0301", 2'000)), "more than 5 marks on one letter");
}

TEST_CASE("a long number, design or status holds its row") {
  const Workshop workshop;
  holds_alone(workshop, quoted_row(std::string(20'000'000, '2'), "Ada"), "the cell under Order is too long");
  holds_alone(workshop, "2001,Ada,1," + std::string(2'000'000, 'p') + "\n", "the cell under Design is too long");
}

TEST_CASE("long texts within the limits are set or held by their size, however the lines may fall") {
  const Workshop workshop;
  std::string before = "added";  // as it ships
  for (const std::string breaks : {"added", "kept", "free"}) {
    workshop.edit("templates/plaque-landscape.toml", "line_breaks = \"" + before + "\"",
                  "line_breaks = \"" + breaks + "\"");
    before = breaks;
    holds_alone(workshop, quoted_row("2001", repeated("ab ", 660)), "the lettering would come to");
    holds_alone(workshop, quoted_row("2001", repeated(std::string(33, 'n') + "\n", 60)), "the lettering would come to");
    holds_alone(workshop, quoted_row("2001", std::string(2'000, 'm')), "the lettering would come to");
  }
}

TEST_CASE("where lines are kept, a text that is too small is told of line_breaks") {
  const Workshop workshop;
  workshop.edit("templates/plaque-landscape.toml", "line_breaks = \"added\"", "line_breaks = \"kept\"");
  holds_alone(workshop, quoted_row("2001", repeated("ab ", 100)), "line_breaks = \"added\"");
}

TEST_CASE("a damaged font in the workshop's folder is told by its name, and never ends the program") {
  const Workshop workshop;
  workshop.edit("templates/plaque-landscape.toml", "font = \"serif\"", "font = \"own\"");
  workshop.write("good.csv", good_orders);
  std::mt19937 random(20270);  // the seed
  std::size_t told = 0;
  for (const char* file : {"/usr/share/fonts/truetype/vollkorn/Vollkorn-SemiBold.ttf",
                           "/usr/share/fonts/opentype/cabin/Cabin-Medium.otf"}) {
    const std::string sound = *read_file(file);
    for (int i = 0; i < 12; ++i) {
      std::string bytes = sound;
      if (i < 4) {
        bytes.resize(random() % bytes.size());
      } else {
        for (int flips = 1 << i; flips > 0; --flips) {
          char& byte = bytes[random() % bytes.size()];
          byte = static_cast<char>(byte ^ (1 << random() % 8));
        }
      }
      workshop.write("fonts/own.ttf", bytes);
      const Run run = workshop.run("day good.csv");
      INFO(file << ", damage " << i << "\n" << run.out << run.err);
      CHECK((run.code == 0 || run.code == 1 || run.code == 2));
      CHECK(run.err.find("mistake") == std::string::npos);
      const bool names_it = (run.out + run.err).find("own") != std::string::npos;
      if (run.code != 0) CHECK(names_it);
      told += run.code != 0 ? 1 : 0;
      if (i < 4) CHECK(run.code == 2);
      fs::remove_all(workshop.shop() / "out");
    }
  }
  CHECK(told > 12);
}

}  // namespace ordinatio::bounds_test
