// A week's ledger by programs that others wrote: SQLite's own shell (Debian: sqlite3 3.40; PRAGMA integrity_check and
// foreign_key_check), and Python's csv module (CPython 3.11, Debian: python3; Lib/csv.py), strict.
#include <sys/wait.h>

#include <cstdio>
#include <nlohmann/json.hpp>

#include "../unit/bookkeeping/ledger_shop.h"

using namespace ordinatio;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

/// What the command prints. It must end well.
std::string output_of(const std::string& command) {
  FILE* pipe = ::popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string text;
  char part[4096];
  for (std::size_t got; (got = std::fread(part, 1, sizeof part, pipe)) > 0;) text.append(part, got);
  const int ended = ::pclose(pipe);
  INFO(command);
  REQUIRE(WIFEXITED(ended));
  REQUIRE(WEXITSTATUS(ended) == 0);
  return text;
}

std::string sqlite(const fs::path& file, const std::string& query) {
  return output_of("sqlite3 '" + file.string() + "' \"" + query + "\"");
}

json rows_by_python(const fs::path& file) {
  const auto bytes = read_file(file);
  REQUIRE(bytes);
  const fs::path cases = file.string() + ".json";
  REQUIRE_FALSE(write_file(cases, json::array({{{"text", *bytes}, {"delimiter", ","}}}).dump()));
  return json::parse(
             output_of(std::string(PYTHON) + " " + TEST_FOLDER + "/outside/csv_oracle.py < '" + cases.string() + "'"))
      .at(0);
}

const std::vector<std::string> texts{"Ada",   "=1+1",           "-Mum-",  "say \"\"yes\"\"", "one, two; three",
                                     "@home", "Zoë\nDie Mühle", "+44 20", "'quoted'",        "1874"};

/// Orders, sheets, a bed that was interrupted, remakes, stands, a cancellation and a question.
void run_a_week(const LedgerShop& shop) {
  shop.measure(20);
  std::string rows = "Order,Text,Quantity,Line,Status,Note\n";
  for (std::size_t i = 0; i < texts.size(); ++i) {
    rows += "1042,\"" + texts[i] + "\",1,L" + std::to_string(i) + ",,\"=note\"\n";
  }
  done(shop.intake(rows + "1043,Eva,3,L1,,\n"));
  done(shop.day());
  done(shop.resume("1", "1-2", "3"));
  done(shop.remake("1042-1"));
  done(shop.engraved("remake-" + std::string("00") + std::to_string(shop.read_ledger()->next_sheet_number() - 1)));
  done(shop.stands());
  done(shop.pack("1042-2"));
  done(shop.undo("1042-2"));
  done(shop.spoil("1042-2"));
  done(shop.intake("Order,Text,Quantity,Line,Status\n1043,Eva,3,L1,cancelled\n", "later.csv"));
  done(shop.answer(1, AnswerOptions::Answer::take));
  done(shop.day());
}

}  // namespace

TEST_CASE("SQLite's own shell finds a week's ledger sound, and so its backup") {
  const LedgerShop shop;
  run_a_week(shop);
  done(run_backup(shop.shop(), shop.call("backup"), shop / "copy.ledger"));
  for (const fs::path& file : {shop.ledger_file(), shop / "copy.ledger"}) {
    CHECK(sqlite(file, "PRAGMA integrity_check") == "ok\n");
    CHECK(sqlite(file, "PRAGMA foreign_key_check").empty());
    CHECK(sqlite(file, "SELECT count(*) FROM item") == "13\n");
    CHECK(sqlite(file, "SELECT count(*) FROM item WHERE state = 'cancelled'") == "3\n");
    CHECK(sqlite(file, "SELECT typeof(id), typeof(words), typeof(first) FROM item LIMIT 1") ==
          "integer|text|integer\n");
  }
  // It would say so.
  Database(shop.ledger_file(), Database::Access::write, "").script("UPDATE placement SET item = 99 WHERE id = 1");
  CHECK(sqlite(shop.ledger_file(), "PRAGMA foreign_key_check") == "placement|1|item|1\n");
}

TEST_CASE("a list is read by Python as it was meant, and nothing in it begins as a formula does") {
  const LedgerShop shop;
  run_a_week(shop);
  done(shop.list("", shop / "list.csv"));
  const json rows = rows_by_python(shop / "list.csv");
  json expected = json::array({{"Item", "Words", "Design", "State", "Note", "Customer"}});
  const auto guarded = [](const std::string& text) { return (text.find_first_of("=+-@") == 0 ? "'" : "") + text; };
  for (const LedgerItem& item : shop.read_ledger()->items_in({})) {
    if (item.state == ItemState::cancelled) continue;
    const auto placement = shop.placement(item.number);
    REQUIRE(placement);
    const std::string sheet = shop.read_ledger()->sheet(placement->sheet)->name;
    const std::string state = (item.state == ItemState::on_sheet ? "on " : std::string(name_of(item.state)) + ", ") +
                              sheet + ", pocket " + std::to_string(placement->pocket) + ", blank " + placement->blank;
    expected.push_back(
        {with_check(item.number), guarded(item.words), item.design, state, guarded(item.note), guarded(item.customer)});
  }
  CHECK(rows.size() == 11);
  CHECK(rows == expected);
  for (const json& row : rows) {
    for (const json& cell : row) CHECK(cell.get<std::string>().find_first_of("=+-@") != 0);
  }
}
