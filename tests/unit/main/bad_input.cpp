// Bad input: one message that says what, where, why and the mend; exit code 2 (3 where the machine failed); and nothing
// changed on disk.
#include "workshop.h"

namespace ordinatio::bad_input_test {
using Catch::Matchers::Contains;

namespace {

/// Runs the command and holds code and message, and that no file has changed or come.
void refuse(const Workshop& workshop, const std::string& command, const std::vector<std::string>& words, int code = 2,
            const std::string& wrapper = "") {
  const auto before = workshop.files();
  const Run run = workshop.run(command, wrapper);
  INFO(command << "\n" << run.out << run.err);
  CHECK(run.code == code);
  for (const std::string& word : words) CHECK_THAT(run.err, Contains(word));
  CHECK(workshop.files() == before);
}

/// Runs the command and holds that it tells the words on its account, as something that is held.
void hold(const Workshop& workshop, const std::string& command, const std::vector<std::string>& words) {
  const Run run = workshop.run(command);
  INFO(command << "\n" << run.out << run.err);
  CHECK(run.code == 1);
  for (const std::string& word : words) CHECK_THAT(run.out, Contains(word));
}

/// A command in a mount namespace of its own, where `mount` has been run first. Root may do that; others by a user
/// namespace.
std::string mounted(const std::string& mount) {
  const std::string unshare = ::geteuid() == 0 ? "unshare -m" : "unshare -rm";
  return unshare + " sh -c '" + mount + " && exec \"$@\"' sh";
}

}  // namespace

TEST_CASE("orders that are not there, or no file") {
  const Workshop workshop;
  refuse(workshop, "day none.csv", {"none.csv", "No such file or directory", "Check the name"});
  refuse(workshop, "day templates", {"templates", "Is a directory", "Name a file"});
  refuse(workshop, "day --shop nowhere orders.csv", {"nowhere/shop.toml", "No such file or directory"});
}

TEST_CASE("orders without permission") {
  const Workshop workshop;
  fs::permissions(workshop.shop() / "orders.csv", fs::perms::none);
  // Root reads everything: the program then runs as nobody (user 65534).
  const std::string wrapper = ::geteuid() == 0 ? "setpriv --reuid=65534 --clear-groups" : "";
  const fs::path out = fs::temp_directory_path() / ("ordinatio-nobody-" + std::to_string(::getpid()));
  const Run run = workshop.run("day orders.csv --out '" + out.string() + "'", wrapper);
  CHECK(run.code == 2);
  CHECK_THAT(run.err, Contains("orders.csv") && Contains("Permission denied") && Contains("Give yourself the right"));
  CHECK_FALSE(fs::exists(out));
  fs::permissions(workshop.shop() / "orders.csv", fs::perms::owner_all);
}

TEST_CASE("orders with nothing in them") {
  const Workshop workshop;
  workshop.write("empty.csv", "");
  refuse(workshop, "day empty.csv", {"empty.csv", "empty"});
  workshop.write("header.csv", "Order,Text,Quantity,Design\n");
  refuse(workshop, "day header.csv", {"header.csv"});
  workshop.write("other.csv", "Number,Text\n1,Hi\n");
  refuse(workshop, "day other.csv", {"other.csv:1", "Order"});
}

TEST_CASE("TOML that is broken, or says what it cannot") {
  const Workshop workshop;
  SECTION("no TOML at all") {
    workshop.edit("shop.toml", "width = 600", "width 600");
    refuse(workshop, "day orders.csv", {"shop.toml:", "this is not TOML"});
  }
  SECTION("an unknown key comes with the nearest known one") {
    workshop.edit("shop.toml", "edge = 20", "edgge = 20");
    refuse(workshop, "day orders.csv", {"shop.toml:", "edgge", "edge"});
  }
  SECTION("a negative size") {
    workshop.edit("templates/plaque-landscape.toml", "width = 152.4", "width = -152.4");
    refuse(workshop, "day orders.csv", {"plaque-landscape.toml:", "width"});
  }
  SECTION("what is no number") {
    workshop.edit("templates/plaque-landscape.toml", "margin = 5", "margin = nan");
    refuse(workshop, "day orders.csv", {"plaque-landscape.toml:", "margin"});
  }
  SECTION("a margin larger than the blank") {
    workshop.edit("templates/plaque-landscape.toml", "margin = 5", "margin = 60");
    refuse(workshop, "day orders.csv", {"plaque-landscape", "margin"});
  }
  SECTION("a blank that fits no pocket") {
    workshop.edit("templates/plaque-landscape.toml", "width = 152.4", "width = 900");
    hold(workshop, "day orders.csv", {"8 items set", "900", "fits the bed of 600 x 400 mm"});
  }
  SECTION("a mark under a pocket") {
    workshop.edit("shop.toml", "count = 4", "places = [[12, 12], [588, 12], [150, 100]] #");
    hold(workshop, "day orders.csv", {"0 items set", "mark 3 lies under pocket", "Move the mark"});
  }
  SECTION("a face that nobody knows") {
    workshop.edit("templates/plaque-landscape.toml", "\"serif\"", "\"serrif\"");
    const Run run = workshop.run("day orders.csv --no-pdf");
    CHECK_THAT(run.out + run.err, Contains("serrif") && Contains("\"serif\""));
  }
}

TEST_CASE("a font file that is no font") {
  const Workshop workshop;
  workshop.write("fonts/own.ttf", "not a font");
  workshop.edit("templates/plaque-landscape.toml", "\"serif\"", "\"own.ttf\"");
  const Run run = workshop.run("day orders.csv --no-pdf");
  CHECK_THAT(run.out + run.err, Contains("this is no font") && Contains("own.ttf"));
}

TEST_CASE("logos that would harm or cannot be engraved") {
  const Workshop workshop;
  const std::string head =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" "
      "width=\"20\" height=\"20\">";
  const auto refuse_logo = [&](const std::string& svg, const std::string& word) {
    workshop.write("templates/mark.svg", svg);
    refuse(workshop, "stands --count 1 --date 2026-11-25 --design stand-logo", {"mark.svg", word});
  };
  SECTION("an entity bomb") {
    refuse_logo("<!DOCTYPE svg [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;\">]>" + head +
                    "<path d=\"&b;\"/></svg>",
                "DOCTYPE");
  }
  SECTION("a loop of references") {
    refuse_logo(head + "<g id=\"a\"><use xlink:href=\"#b\"/></g><g id=\"b\"><use xlink:href=\"#a\"/></g></svg>", "use");
  }
  SECTION("nested use") {
    std::string bomb = head + "<rect id=\"u0\" width=\"1\" height=\"1\"/>";
    for (int i = 1; i < 30; ++i) {
      const std::string id = std::to_string(i), before = std::to_string(i - 1);
      bomb += "<g id=\"u" + id + "\"><use xlink:href=\"#u" + before + "\"/><use xlink:href=\"#u" + before + "\"/></g>";
    }
    refuse_logo(bomb + "</svg>", "use");
  }
  SECTION("text") { refuse_logo(head + "<text>Mill</text></svg>", "text"); }
}

TEST_CASE("a disk that is full changes nothing") {
  const Workshop workshop;
  fs::create_directory(workshop.shop() / "full");
  const auto before = workshop.files();
  const Run run = workshop.run("day orders.csv --out full", mounted("mount -t tmpfs -o size=64k tmpfs full"));
  INFO(run.out << run.err);
  CHECK(run.code == 3);
  CHECK_THAT(run.err, Contains("No space left on device") && Contains("Make room"));
  CHECK(workshop.files() == before);
}

TEST_CASE("an out folder that is read-only") {
  const Workshop workshop;
  fs::create_directory(workshop.shop() / "fixed");
  refuse(workshop, "day orders.csv --out fixed", {"fixed", "Read-only file system", "--out"}, 2,
         mounted("mount -t tmpfs -o ro tmpfs fixed"));
}

TEST_CASE("a command line that is off") {
  const Workshop workshop;
  refuse(workshop, "dya orders.csv", {"--help"});
  refuse(workshop, "stands --count 0 --date 2026-11-25", {"--count"});
  refuse(workshop, "specimen --font serrif", {"serrif", "Did you mean \"serif\"?"});
  refuse(workshop, "specimen --spot 0", {"0 mm is no width of a spot", "--spot"});
  refuse(workshop, "specimen --text ' '", {"--text", "words"});
  refuse(workshop, "specimen --text 'Bee \U0001F41D'", {"--text", "line 1, character 5", "HONEYBEE"});
  refuse(workshop, "new .", {"not empty"});
  refuse(workshop, "remake 1 --sheet orders.csv", {"orders.csv"});
}

}  // namespace ordinatio::bad_input_test
