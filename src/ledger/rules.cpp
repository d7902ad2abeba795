#include "ledger/database.h"
#include "ledger/ledger.h"

namespace ordinatio::inline ledger {
namespace {

/// What must hold of every row: the query names the rows of which it does not.
struct Rule {
  const char* query;
  const char* message;  // after the row's name
};

// `+i.id`: a column of integers would be compared as numbers, and the index of `change` is not of numbers.
constexpr Rule rules[] = {
    // ---- items ----
    {"SELECT 'item ' || number FROM item WHERE state NOT IN ('on sheet', 'engraved', 'packed', 'cancelled') AND EXISTS "
     "(SELECT 1 FROM placement p WHERE p.item = item.id AND p.state IN ('on sheet', 'engraved'))",
     "lies on a sheet, and its state says otherwise"},
    {"SELECT 'item ' || number FROM item WHERE state = 'on sheet' AND NOT EXISTS (SELECT 1 FROM placement p WHERE "
     "p.item = "
     "item.id AND p.state = 'on sheet')",
     "is said to be on a sheet, and is on none"},
    {"SELECT 'item ' || number FROM item WHERE state IN ('engraved', 'packed') AND NOT EXISTS (SELECT 1 FROM placement "
     "p "
     "WHERE p.item = item.id AND p.state = 'engraved')",
     "is said to be engraved, and was engraved in no pocket"},
    {"SELECT 'item ' || number FROM item WHERE state = 'cancelled' AND EXISTS (SELECT 1 FROM placement p WHERE p.item "
     "= "
     "item.id AND p.state = 'on sheet')",
     "is cancelled and still on a sheet"},
    {"SELECT 'item ' || number FROM item WHERE state = 'spoiled' AND NOT EXISTS (SELECT 1 FROM placement p WHERE "
     "p.item = "
     "item.id AND p.state = 'spoiled')",
     "is said to be spoiled, and was spoiled in no pocket"},
    {"SELECT 'item ' || number FROM item i WHERE state <> coalesce((SELECT after FROM change WHERE kind = 'item' AND "
     "subject = +i.id AND field = 'state' ORDER BY id DESC LIMIT 1), 'received')",
     "is in another state than its story ends with"},
    {"SELECT 'item ' || number FROM item i WHERE NOT EXISTS (SELECT 1 FROM change WHERE kind = 'item' AND subject = "
     "+i.id "
     "AND field = '~new')",
     "came from nowhere"},
    {"SELECT 'item ' || number FROM item JOIN line ON line.id = item.line WHERE line.order_number <> item.order_number",
     "belongs to a line of another order"},
    {"SELECT 'order ' || order_number FROM item GROUP BY order_number HAVING max(ordinal) <> count(*)",
     "lacks an item"},
    {"SELECT 'order ' || order_number FROM line WHERE NOT EXISTS (SELECT 1 FROM item WHERE item.line = line.id)",
     "has a line without items"},
    {"SELECT 'order ' || order_number FROM line WHERE NOT EXISTS (SELECT 1 FROM line_version v WHERE v.line = line.id "
     "AND "
     "v.version = line.version)",
     "has a line in a form in which it never came"},
    {"SELECT 'item ' || number FROM item JOIN line ON line.id = item.line WHERE line.taken_back = 1 AND item.state <> "
     "'cancelled'",
     "came by an answer that was taken back, and is not cancelled"},
    {"SELECT 'item ' || number FROM item i WHERE setting <> coalesce((SELECT after FROM change WHERE kind = 'item' AND "
     "subject = +i.id AND field = 'setting' ORDER BY id DESC LIMIT 1), '')",
     "is set otherwise than its story ends with"},
    // ---- rows that are no order ----
    {"SELECT 'row-' || id FROM held_row h WHERE state <> coalesce((SELECT after FROM change WHERE kind = 'held_row' "
     "AND "
     "subject = +h.id AND field = 'state' ORDER BY id DESC LIMIT 1), 'open')",
     "is in another state than its story ends with"},
    // ---- blanks ----
    {"SELECT 'blank ' || id FROM blank b WHERE state = 'reserved' AND NOT EXISTS (SELECT 1 FROM item WHERE item.id = "
     "b.item "
     "AND pinned = b.id) AND NOT EXISTS (SELECT 1 FROM placement p WHERE p.blank = b.id AND p.state = 'on sheet')",
     "is reserved for nothing"},
    {"SELECT 'blank ' || id FROM blank b WHERE state = 'used' AND item IS NOT NULL AND NOT EXISTS (SELECT 1 FROM "
     "placement "
     "p WHERE p.blank = b.id AND p.item = b.item AND p.state = 'engraved')",
     "is said to be used, and nothing was engraved on it"},
    {"SELECT 'blank ' || b.id FROM blank b JOIN placement p ON p.blank = b.id WHERE p.state = 'on sheet' AND (b.state "
     "<> "
     "'reserved' OR b.item <> p.item)",
     "lies on a sheet without being kept for its item"},
    {"SELECT 'blank ' || b.id FROM blank b JOIN placement p ON p.blank = b.id WHERE p.state = 'engraved' AND (b.state "
     "<> "
     "'used' OR b.item <> p.item)",
     "was engraved, and its state says otherwise"},
    // ---- sheets and stands ----
    {"SELECT name FROM sheet WHERE NOT EXISTS (SELECT 1 FROM sheet_file f WHERE f.sheet = sheet.id)", "has no files"},
    {"SELECT name FROM sheet WHERE kind <> 'stands' AND NOT EXISTS (SELECT 1 FROM placement p WHERE p.sheet = "
     "sheet.id)",
     "has nothing on it"},
    {"SELECT 'stand ' || stand.id FROM stand WHERE item IS NOT NULL AND NOT EXISTS (SELECT 1 FROM placement p WHERE "
     "p.item = stand.item AND p.state = 'engraved')",
     "is given to an item that is not engraved"},
};

}  // namespace

std::vector<std::string> Ledger::contradictions() {
  std::vector<std::string> found;
  Statement& sound = database_->query("PRAGMA integrity_check");
  while (sound.step()) {
    if (sound.text(0) != "ok") found.push_back("SQLite finds: " + sound.text(0));
  }
  sound.clear();
  Statement& keys = database_->query("PRAGMA foreign_key_check");
  while (keys.step())
    found.push_back("a row of " + keys.text(0) + " names one of " + keys.text(2) + " that is not there");
  keys.clear();
  for (const Rule& rule : rules) {
    Statement& rows = database_->query(rule.query);
    while (rows.step()) found.push_back(rows.text(0) + " " + rule.message);
    rows.clear();
  }
  return found;
}

std::vector<StateCount> Ledger::items_by_state() {
  std::vector<StateCount> counts;
  Statement& rows = database_->query("SELECT state, count(*) FROM item GROUP BY state");
  std::map<std::string, std::size_t> by_name;
  while (rows.step()) by_name[rows.text(0)] = static_cast<std::size_t>(rows.number(1));
  rows.clear();
  for (int state = 0; state <= static_cast<int>(ItemState::cancelled); ++state) {
    const std::string name(name_of(static_cast<ItemState>(state)));
    if (by_name.contains(name)) counts.push_back({name, by_name[name]});
  }
  return counts;
}

Ledger::Makings Ledger::makings() {
  const auto count = [this](const char* state) {
    return static_cast<std::size_t>(*database_->number("SELECT count(*) FROM placement WHERE state = ?", state));
  };
  const auto alone = *database_->number("SELECT count(*) FROM blank WHERE state = 'spoiled' AND item IS NULL");
  return {count("engraved"), count("spoiled") + static_cast<std::size_t>(alone)};
}

}  // namespace ordinatio::inline ledger
