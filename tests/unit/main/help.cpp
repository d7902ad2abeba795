// `ordinatio help`: pages of the manual and commands, on the terminal.
#include <set>
#include <sstream>

#include "workshop.h"

namespace ordinatio::help_test {

namespace {

bool tells(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("help lists every page and every command; a page is printed as it stands") {
  const Workshop workshop;
  const Run contents = workshop.run("help");
  CHECK(contents.code == 0);
  CHECK(tells(contents.out, "\n  orders "));
  CHECK(tells(contents.out, "\n  day "));
  CHECK(tells(contents.out, "\n  history "));
  const Run page = workshop.run("help orders");
  CHECK(page.code == 0);
  CHECK(page.out.starts_with("# "));
  CHECK(tells(page.out, "[orders.labels]"));
  CHECK(page.err.empty());
}

TEST_CASE("help on a command says what it takes, as --help does") {
  const Workshop workshop;
  const Run help = workshop.run("help remake");
  CHECK(help.code == 0);
  CHECK(tells(help.out, "--pocket"));
  CHECK(help.out == workshop.run("remake --help").out);
}

TEST_CASE("help that does not exist names the nearest page or command, and is bad input") {
  const Workshop workshop;
  const Run page = workshop.run("help letering");
  CHECK(page.code == 2);
  CHECK(page.out.empty());
  CHECK(tells(page.err, "no page and no command is called \"letering\". Did you mean \"lettering\"?"));
  CHECK(tells(workshop.run("help histroy").err, "Did you mean \"history\"?"));
  CHECK(tells(workshop.run("help xylophone").err, "See them all by: ordinatio help"));
}

TEST_CASE("help's pages and commands have different names: each word means one thing") {
  const Workshop workshop;
  std::istringstream lines(workshop.run("help").out);
  std::set<std::string> names;
  for (std::string line, name; std::getline(lines, line);) {
    if (!line.starts_with("  ")) continue;
    std::istringstream(line) >> name;
    INFO(name);
    CHECK(names.insert(name).second);
  }
  CHECK(names.size() > 40);
}

}  // namespace ordinatio::help_test
