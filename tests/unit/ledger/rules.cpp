// Every contradiction that the ledger can find in itself, made by hand.
#include <algorithm>

#include "ledger_by_hand.h"

namespace ordinatio::rules_test {

namespace {

struct Case {
  const char* sql;
  const char* found;
};

const Case cases[] = {
    {"UPDATE item SET state = 'received' WHERE number = '1042-1'",
     "item 1042-1 lies on a sheet, and its state says otherwise"},
    {"UPDATE placement SET state = 'withdrawn' WHERE item = 1", "item 1042-1 is said to be on a sheet, and is on none"},
    {"UPDATE placement SET state = 'withdrawn' WHERE item = 2",
     "item 1042-2 is said to be engraved, and was engraved in no pocket"},
    {"UPDATE item SET state = 'cancelled' WHERE number = '1042-1'", "item 1042-1 is cancelled and still on a sheet"},
    {"UPDATE placement SET state = 'withdrawn' WHERE item = 4",
     "item 1042-4 is said to be spoiled, and was spoiled in no pocket"},
    {"UPDATE item SET state = 'ready' WHERE number = '1042-3'",
     "item 1042-3 is in another state than its story ends with"},
    {"INSERT INTO item (number, line, order_number, ordinal, exported, words, design, wish, note, source, state) "
     "VALUES "
     "('1043-2', 2, '1043', 2, '', '', '', '', '', '', 'received')",
     "item 1043-2 came from nowhere"},
    {"UPDATE item SET setting = 'size 5' WHERE number = '1042-3'",
     "item 1042-3 is set otherwise than its story ends with"},
    {"UPDATE item SET line = 2 WHERE number = '1042-3'", "item 1042-3 belongs to a line of another order"},
    {"UPDATE item SET ordinal = 9 WHERE number = '1042-3'", "order 1042 lacks an item"},
    {"INSERT INTO line VALUES (9, '1044', 0, 'key', 1, 'version', 0, '', '')", "order 1044 has a line without items"},
    {"UPDATE line SET version = 'other' WHERE id = 2", "order 1043 has a line in a form in which it never came"},
    {"UPDATE line SET taken_back = 1 WHERE id = 2",
     "item 1043-1 came by an answer that was taken back, and is not cancelled"},
    {"INSERT INTO held_row (row, occurrence, file, place, reason, state) VALUES ('1045,,1', 1, 'orders.csv', 2, 'no "
     "text', "
     "'mended')",
     "row-1 is in another state than its story ends with"},
    {"UPDATE item SET pinned = '' WHERE number = '1042-3'", "blank S-3 is reserved for nothing"},
    {"UPDATE placement SET state = 'withdrawn' WHERE item = 2",
     "blank S-2 is said to be used, and nothing was engraved on it"},
    {"UPDATE blank SET state = 'free', item = NULL WHERE id = 'S-1'",
     "blank S-1 lies on a sheet without being kept for its item"},
    {"UPDATE blank SET item = 3 WHERE id = 'S-1'", "blank S-1 lies on a sheet without being kept for its item"},
    {"UPDATE blank SET state = 'spoiled', reason = 'fell' WHERE id = 'S-2'",
     "blank S-2 was engraved, and its state says otherwise"},
    {"INSERT INTO sheet (id, name, kind, of_sheet, date, folder, state) VALUES (7, 'stands-007', 'stands', NULL, '', "
     "'out', 'written')",
     "stands-007 has no files"},
    {"INSERT INTO sheet (id, name, kind, of_sheet, date, folder, state) VALUES (7, 'sheet-007', 'day', NULL, '', "
     "'out', 'written')",
     "sheet-007 has nothing on it"},
    {"UPDATE stand SET item = 1 WHERE serial = 41", "stand 1 is given to an item that is not engraved"},
    {"UPDATE placement SET item = 99 WHERE item = 1", "a row of placement names one of item that is not there"},
    {"PRAGMA ignore_check_constraints = 1; UPDATE item SET state = 'melted' WHERE number = '1043-1'",
     "SQLite finds: CHECK constraint failed in item"},
};

/// Every message of the rules, out of their source.
std::vector<std::string> messages() {
  const std::string source = *read_file(std::filesystem::path(PROJECT_FOLDER) / "src/ledger/rules.cpp");
  std::vector<std::string> messages;
  for (std::size_t at = source.find("Rule rules[]"); (at = source.find("\"},", at)) != std::string::npos; ++at) {
    const std::size_t from = source.rfind('"', at - 1) + 1;
    messages.push_back(source.substr(from, at - from));
  }
  return messages;
}

}  // namespace

TEST_CASE("a ledger that is kept by the program's own means contradicts itself nowhere") {
  LedgerByHand kept;
  fill(kept);
  CHECK(kept->contradictions() == std::vector<std::string>{});
}

TEST_CASE("each contradiction is found and named") {
  for (const Case& c : cases) {
    INFO(c.sql);
    LedgerByHand kept;
    fill(kept);
    kept.sql(c.sql);
    const auto found = kept->contradictions();
    CAPTURE(found);
    CHECK(std::ranges::find(found, c.found) != found.end());
  }
}

TEST_CASE("every rule has its case") {
  const std::vector<std::string> rules = messages();
  CHECK(rules.size() >= 18);
  for (const std::string& message : rules) {
    INFO(message);
    CHECK(std::ranges::any_of(cases, [&](const Case& c) { return std::string_view(c.found).ends_with(message); }));
  }
}

}  // namespace ordinatio::rules_test
