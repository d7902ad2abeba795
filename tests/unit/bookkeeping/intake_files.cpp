// Exports as files of a workshop: answers, channels, a look without writing, cells that spreadsheets would run.
#include "../ledger/ledger_version_2.h"
#include "base/account.h"
#include "ledger/schema.h"
#include "ledger_shop.h"
#include "shop/day.h"

namespace ordinatio::intake_files_test {
using Catch::Contains;
using Answer = AnswerOptions::Answer;
namespace fs = std::filesystem;

namespace {

const std::string head = "Order,Text,Quantity,Line,Status,Note\n";

/// "1 Ada received; 2 cancelled"
std::string items(const LedgerShop& shop, const std::string& order = "1042") {
  std::string text;
  for (const LedgerItem& item : shop.read_ledger()->items_of_order(order)) {
    text += (text.empty() ? "" : "; ") + std::to_string(item.ordinal) + " " +
            (item.state == ItemState::cancelled ? "" : item.words + " ") + std::string(name_of(item.state)) +
            (item.held_by == HeldBy::nobody ? "" : " by " + std::string(name_of(item.held_by)));
  }
  return text;
}

std::vector<std::int64_t> open_questions(const LedgerShop& shop) {
  std::vector<std::int64_t> ids;
  for (const LedgerQuestion& question : shop.read_ledger()->open_questions()) ids.push_back(question.id);
  return ids;
}

void check_sound(const LedgerShop& shop) {
  const Account checked = done(shop.check());
  CHECK(checked.held.empty());
}

}  // namespace

TEST_CASE("an answer does what it says, and what waited for it goes on") {
  struct Case {
    const char* what;
    std::string first, then;
    Answer answer;
    std::string items;
  };
  const std::string ada = "1042,Ada,1,,,\n", ada_line = "1042,Ada,1,L1,,\n", ida = "1042,Ida,1,,,\n";
  const Case cases[] = {
      {"it is that line, changed", ada, ida, Answer::take, "1 Ida received"},
      {"it is another line", ada, ida, Answer::as_new, "1 Ada received; 2 Ida received"},
      {"it is passed over", ada, ida, Answer::keep, "1 Ada received"},
      {"more of that line", ada, "1042,Ida,3,,,\n", Answer::take, "1 Ida received; 2 Ida received; 3 Ida received"},
      {"an edit that is cancelled", ada, "1042,Ida,1,,cancelled,\n", Answer::take, "1 cancelled"},
      {"an edit with an id", ada, "1042,Ida,1,L1,,\n", Answer::take, "1 Ida received"},
      {"an edit without the id", ada_line, ida, Answer::take, "1 Ida received"},
      {"another line without an id", ada_line, ida, Answer::as_new, "1 Ada received; 2 Ida received"},
  };
  for (const Case& c : cases) {
    INFO(c.what);
    const LedgerShop shop;
    done(shop.intake(head + c.first));
    done(shop.intake(head + c.then));
    REQUIRE(open_questions(shop).size() == 1);
    CHECK(shop.state("1042-1") == "held");
    done(shop.answer(1, c.answer));
    CHECK(items(shop) == c.items);
    CHECK(open_questions(shop).empty());
    // The same rows in another file are settled.
    done(shop.intake(head + c.then + "1043,Eva,1,,,\n"));
    CHECK(items(shop) == c.items);
    CHECK(open_questions(shop).empty());
    CHECK(refused(shop.answer(1, Answer::keep)).what == "there is no question 1 to answer");
    check_sound(shop);
  }
}

TEST_CASE("what was cancelled and is wanted again is asked, and comes back on a yes") {
  for (const bool take : {true, false}) {
    const LedgerShop shop;
    done(shop.intake(head + "1042,Ada,2,L1,,\n"));
    done(shop.intake(head + "1042,Ada,2,L1,cancelled,\n"));
    CHECK(items(shop) == "1 cancelled; 2 cancelled");
    done(shop.intake(head + "1042,Ada,2,L1,paid,\n"));
    REQUIRE(open_questions(shop).size() == 1);
    CHECK(items(shop) == "1 cancelled; 2 cancelled");
    done(shop.answer(1, take ? Answer::take : Answer::keep));
    CHECK(items(shop) == (take ? "1 Ada received; 2 Ada received" : "1 cancelled; 2 cancelled"));
    check_sound(shop);
  }
}

TEST_CASE("an item that waits for an answer cannot be let go, not even where a person held it, too") {
  const LedgerShop shop;
  using What = CorrectionOptions::What;
  done(shop.intake(head + "1042,Ada,1,,,\n"));
  done(shop.intake(head + "1042,Ida,1,,,\n"));
  CHECK(refused(shop.correct(What::release, "1042-1")).what == "it waits for an answer");
  done(shop.correct(What::hold, "1042-1", "I asked the customer"));
  CHECK(refused(shop.correct(What::release, "1042-1")).what == "it waits for an answer");
  done(shop.answer(1, Answer::keep));
  CHECK(items(shop) == "1 Ada held by person");
  done(shop.undo("1042-1"));  // the hold: it waits for the answer again, which was given
  CHECK(items(shop) == "1 Ada held by question");
  done(shop.correct(What::release, "1042-1"));
  CHECK(items(shop) == "1 Ada received");
}

TEST_CASE("several questions about a line hold it until the last is answered") {
  const LedgerShop shop;
  done(shop.intake(head + "1042,Ada,1,,,\n"));
  done(shop.intake(head + "1042,Ida,1,,,\n"));
  done(shop.intake(head + "1042,Ida,2,,,\n"));
  done(shop.intake(head + "1042,Eva,1,,,\n"));
  REQUIRE(open_questions(shop) == std::vector<std::int64_t>{1, 2, 3});
  done(shop.answer(3, Answer::keep));
  CHECK(items(shop) == "1 Ada held by question");
  done(shop.answer(1, Answer::as_new));
  CHECK(items(shop) == "1 Ada held by question; 2 Ida received");
  // The second is about the same row, which is a line of its own now.
  const Fault fault = refused(shop.answer(2, Answer::as_new));
  CHECK(fault.what == "the ledger has this line already");
  CHECK(refused(shop.answer(2, Answer::take)).what == fault.what);
  CHECK(items(shop) == "1 Ada held by question; 2 Ida received");
  done(shop.answer(2, Answer::keep));
  CHECK(items(shop) == "1 Ada received; 2 Ida received");
  done(shop.intake(head + "1042,Ada,1,,,\n1042,Ida,2,,,\n"));
  CHECK(items(shop) == "1 Ada received; 2 Ida received; 3 Ida received");
  check_sound(shop);
}

TEST_CASE("where the first of two lines alike was changed, the second is still itself") {
  const LedgerShop shop;
  const std::string ada = "1042,Ada,1,,,\n", ida = "1042,Ida,1,,,\n";
  done(shop.intake(head + ada + ada));
  done(shop.intake(head + ida + ada));
  REQUIRE(open_questions(shop).size() == 1);
  done(shop.answer(1, Answer::take));
  const std::string settled = items(shop);
  for (const std::string& other : {std::string(), std::string("1043,Eva,1,,,\n"), std::string("1044,Una,1,,,\n")}) {
    done(shop.intake(head + ada + ida + other));
    CHECK(open_questions(shop).empty());
    CHECK(items(shop) == settled);
  }
  done(shop.intake(head + ada + ida + ada));
  CHECK(items(shop) == settled + "; 3 Ada received");
  check_sound(shop);
}

TEST_CASE("a yes takes an item off its sheet, and writes off what is engraved") {
  for (const bool is_engraved : {false, true}) {
    const LedgerShop shop;
    shop.measure(2);
    done(shop.intake(head + "1042,Ada,1,L1,,\n"));
    done(shop.day());
    const std::string blank = shop.placement("1042-1")->blank;
    if (is_engraved) done(shop.engraved("1"));
    done(shop.intake(head + "1042,Ida,1,L1,,\n"));
    CHECK(shop.item("1042-1").words == "Ada");
    const Account answered = done(shop.answer(1, Answer::take));
    CHECK((all_of_it(answered.told).find("do not engrave it there") == std::string::npos) == is_engraved);
    CHECK(items(shop) == "1 Ida received");
    CHECK(shop.item("1042-1").first);
    CHECK(shop.blank_state(blank) == (is_engraved ? "spoiled" : "free"));
    done(shop.day());
    CHECK(shop.placement("1042-1")->sheet == 2);
    check_sound(shop);
  }
}

TEST_CASE("what is engraved and then cancelled keeps its piece and its stand, and can be wanted again") {
  const LedgerShop shop;
  shop.measure(1);
  done(shop.intake(head + "1042,Ada,1,L1,,\n"));
  done(shop.day());
  done(shop.engraved("1"));
  done(shop.stands());
  done(shop.intake(head + "1042,Ada,1,L1,cancelled,\n"));
  CHECK(shop.state("1042-1") == "engraved");
  done(shop.answer(1, Answer::take));
  CHECK(shop.state("1042-1") == "cancelled");
  check_sound(shop);
  done(shop.intake(head + "1042,Ada,1,L1,paid,\n"));
  done(shop.answer(2, Answer::take));
  CHECK(shop.state("1042-1") == "engraved");
  check_sound(shop);
}

TEST_CASE("a channel stands in front of the numbers, and keeps like numbers apart") {
  const LedgerShop shop;
  done(shop.intake(head + "1042,Ada,1,,,\n"));
  done(shop.intake(head + "1042,Eva,1,,,\n", "fair.csv", "fair"));
  CHECK(items(shop) == "1 Ada received");
  CHECK(items(shop, "fair-1042") == "1 Eva received");
  done(shop.intake(head + "1042,Eva,1,,,\n", "fair.csv", "fair"));
  CHECK(shop.read_ledger()->items_in({}).size() == 2);
}

TEST_CASE("a look at an export writes nothing, not even a ledger where there is none") {
  const LedgerShop shop;
  const auto files = [&] {
    std::map<std::string, std::string> all;
    for (const auto& entry : fs::recursive_directory_iterator(shop / "")) {
      if (entry.is_regular_file()) all.emplace(entry.path().string(), *read_file(entry.path()));
    }
    return all;
  };
  const std::string rows = head + "1042,Ada,2,,,\n";
  shop.write("export.csv", rows);
  const auto before = files();
  const Account seen = done(shop.intake(rows, "export.csv", "", true));
  CHECK(seen.told.at(0) == "export.csv: 2 new items of 1 new order");
  CHECK(files() == before);
  done(shop.intake(rows));
  shop.write("export.csv", head + "1042,Ida,2,,,\n");
  auto with_ledger = files();
  const Account asked = done(shop.intake(head + "1042,Ida,2,,,\n", "export.csv", "", true));
  CHECK_THAT(asked.warnings.back(), Contains("question 1"));
  CHECK(files() == with_ledger);
  CHECK(open_questions(shop).empty());
  DayOptions day;
  day.orders = shop / "export.csv", day.dry_run = true, day.call = shop.call("day");
  done(run_day(shop.shop(), day));
  CHECK(files() == with_ledger);
}

TEST_CASE("cells that a spreadsheet would run come in as they are, and go out so that they cannot run") {
  const LedgerShop shop;
  const std::vector<std::string> texts{"=1+1", "+44 20", "- Mum -", "@home", "=HYPERLINK(\"\"x\"\")", "Ada, Eva"};
  std::string rows = head;
  for (const std::string& text : texts) rows += "1042,\"" + text + "\",1,,,\"=note\"\n";
  done(shop.intake(rows));
  CHECK(shop.item("1042-1").words == "=1+1");
  CHECK(shop.item("1042-5").words == "=HYPERLINK(\"x\")");
  CHECK(shop.item("1042-1").note == "=note");
  done(shop.list("", shop / "list.csv"));
  const std::string csv = *read_file(shop / "list.csv");
  CHECK_THAT(csv, Contains(",\"'=1+1\",,received,\"'=note\",\r\n"));
  CHECK_THAT(csv, Contains(",\"'- Mum -\",,received,"));
  CHECK_THAT(csv, Contains(",\"Ada, Eva\",,received,"));
  for (const char* bare : {",=", ",+", ",-", ",@", "\n=", ",\"=", ",\"+", ",\"-", ",\"@"}) {
    CHECK_THAT(csv, !Contains(bare));
  }
}

TEST_CASE("rows that cannot be read are held, and absence is no cancellation") {
  const LedgerShop shop;
  done(shop.intake(head + "1042,Ada,1,,,\n1043,Eva,1,,,\n"));
  const Account account = done(shop.intake(head + "1043,Eva,1,,,\n1044,Una,none,,,\n"));
  CHECK(account.held.size() == 1);
  CHECK(items(shop) == "1 Ada received");
  CHECK(items(shop, "1044").empty());
  CHECK(account.told.at(0) == "export.csv: nothing is new; 1 line known already");
}

TEST_CASE("a ledger of version 2 knows its rows and its question again, in the same bytes and in others") {
  for (const std::string end : {"\r\n", "\n"}) {
    const LedgerShop shop(false);
    {
      Database old(shop.ledger_file(), Database::Access::create, "");
      take_steps(old, 0, 2);
      old.script(rows_of_version_2);
    }
    const auto lines = [&](const std::string& year, const std::string& customer) {
      return "Order,Text,Quantity,Note,Customer" + end + "2101,\"Ada Wren" + end + year + "\",1,for the shed," +
             customer + end + "2102,Otter Pool,2,," + end + "2103,New Wheel,1,," + end;
    };
    const std::string customer = end == "\n" ? "" : "Ida Wren";  // a name alone is no news in a ledger that knew none
    // The question of Tuesday is not asked again, the line of Monday is not asked about.
    for (const std::string year : {"1932", "1931"}) {
      const Account account = done(shop.intake(lines(year, customer), "year-" + year + ".csv"));
      CHECK(account.told.front() == "year-" + year + ".csv: nothing is new; 3 lines known already");
      CHECK(open_questions(shop).size() == 1);
    }
    CHECK(shop.item("2101-1").customer == customer);
    CHECK(shop.item("2101-1").state == ItemState::engraved);
    CHECK(shop.item("2101-1").exported == "Ada Wren\r\n1931");
  }
}

}  // namespace ordinatio::intake_files_test
