#include "ledger/schema.h"

namespace ordinatio::inline ledger {
namespace {

// Subjects of `change` are rows of the table that `kind` names, by their id. Every table but `entry` and `change` says
// how things are now; those two say how they came to be so. Nothing is deleted: triggers see to it.
constexpr const char* first_step = R"sql(
CREATE TABLE entry (              -- one transaction
  id INTEGER PRIMARY KEY,
  at TEXT NOT NULL,               -- ISO 8601, UTC
  kind TEXT NOT NULL,
  cause TEXT NOT NULL,            -- what was run, and why
  undoes INTEGER UNIQUE REFERENCES entry(id)
) STRICT;

CREATE TABLE change (             -- one column of one row, before and after; null before: the row is new
  id INTEGER PRIMARY KEY,
  entry INTEGER NOT NULL REFERENCES entry(id),
  kind TEXT NOT NULL CHECK (kind IN ('line', 'item', 'blank', 'sheet', 'placement', 'question', 'stand')),
  subject ANY NOT NULL,
  field TEXT NOT NULL,
  before TEXT,
  after TEXT
) STRICT;
CREATE INDEX change_of ON change (kind, subject);
CREATE INDEX change_in ON change (entry);

CREATE TABLE export (             -- files that were read
  checksum TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entry(id)
) STRICT;

CREATE TABLE line (               -- a row of an order
  id INTEGER PRIMARY KEY,
  order_number TEXT NOT NULL,
  has_id INTEGER NOT NULL,        -- whether `key` is the export's own id of the line, or a digest of product and words
  key TEXT NOT NULL,
  occurrence INTEGER NOT NULL,    -- of lines alike in one order, from 1
  version TEXT NOT NULL,          -- digest of the row as the book has it
  UNIQUE (order_number, key, occurrence)
) STRICT;
CREATE TABLE line_version (       -- every form in which the line has come
  line INTEGER NOT NULL REFERENCES line(id),
  version TEXT NOT NULL,
  key TEXT NOT NULL,
  occurrence INTEGER NOT NULL,
  PRIMARY KEY (line, version)
) STRICT, WITHOUT ROWID;

CREATE TABLE item (
  id INTEGER PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,    -- 1042-2
  line INTEGER NOT NULL REFERENCES line(id),
  order_number TEXT NOT NULL,
  ordinal INTEGER NOT NULL,
  exported TEXT NOT NULL,         -- the customer's words as they came last
  words TEXT NOT NULL,            -- those that are engraved: the same, or as a person corrected them
  design TEXT NOT NULL,           -- empty: the shop's
  wish TEXT NOT NULL,
  note TEXT NOT NULL,
  source TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('received', 'held', 'ready', 'proofed', 'approved', 'on sheet', 'engraved',
                                       'packed', 'spoiled', 'cancelled')),
  held_by TEXT NOT NULL DEFAULT '' CHECK (held_by IN ('', 'program', 'person', 'question')),
  reason TEXT NOT NULL DEFAULT '',
  first INTEGER NOT NULL DEFAULT 0,
  pinned TEXT NOT NULL DEFAULT '',        -- the blank that it must be on
  proofed_hash TEXT NOT NULL DEFAULT '',
  approved_hash TEXT NOT NULL DEFAULT '',
  UNIQUE (order_number, ordinal),
  CHECK ((state = 'held') = (held_by <> '')),
  CHECK (state <> 'held' OR reason <> ''),
  CHECK (state <> 'approved' OR approved_hash <> '')
) STRICT;
CREATE INDEX item_of_line ON item (line);
CREATE INDEX item_waiting ON item (first, id)
  WHERE state IN ('received', 'held', 'ready', 'proofed', 'approved', 'spoiled');

CREATE TABLE blank (
  id TEXT PRIMARY KEY,
  material TEXT NOT NULL,
  width REAL NOT NULL,            -- mm
  height REAL NOT NULL,
  measured TEXT NOT NULL,         -- digest of its row in blanks.csv
  state TEXT NOT NULL CHECK (state IN ('free', 'reserved', 'used', 'spoiled')),
  reason TEXT NOT NULL DEFAULT '',
  item INTEGER REFERENCES item(id),
  CHECK (state <> 'reserved' OR item IS NOT NULL),
  CHECK (state <> 'free' OR item IS NULL),
  CHECK (state <> 'spoiled' OR reason <> '')
) STRICT;
CREATE INDEX blank_of_item ON blank (item);

CREATE TABLE sheet (
  id INTEGER PRIMARY KEY,         -- its number
  name TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL CHECK (kind IN ('day', 'remake', 'rest', 'stands')),
  of_sheet INTEGER REFERENCES sheet(id),
  date TEXT NOT NULL,
  folder TEXT NOT NULL,           -- within the workshop's, or absolute
  state TEXT NOT NULL CHECK (state IN ('planned', 'written'))
) STRICT;
CREATE INDEX sheet_planned ON sheet (id) WHERE state = 'planned';
CREATE TABLE sheet_file (
  sheet INTEGER NOT NULL REFERENCES sheet(id),
  name TEXT NOT NULL,
  checksum TEXT NOT NULL,         -- SHA-256
  PRIMARY KEY (sheet, name)
) STRICT, WITHOUT ROWID;

CREATE TABLE placement (          -- an item in a pocket of a sheet
  id INTEGER PRIMARY KEY,
  sheet INTEGER NOT NULL REFERENCES sheet(id),
  pocket INTEGER NOT NULL,        -- 0: laid by hand
  item INTEGER NOT NULL REFERENCES item(id),
  blank TEXT REFERENCES blank(id),
  hash TEXT NOT NULL,             -- of the artwork
  state TEXT NOT NULL CHECK (state IN ('on sheet', 'engraved', 'spoiled', 'withdrawn')),
  reason TEXT NOT NULL DEFAULT '',
  UNIQUE (sheet, pocket),
  CHECK (state <> 'spoiled' OR reason <> '')
) STRICT;
CREATE INDEX placement_of_item ON placement (item);
CREATE UNIQUE INDEX one_place_an_item ON placement (item) WHERE state IN ('on sheet', 'engraved');
CREATE UNIQUE INDEX one_item_a_blank ON placement (blank)
  WHERE blank IS NOT NULL AND state IN ('on sheet', 'engraved');

CREATE TABLE question (           -- what an export says that only a person can decide
  id INTEGER PRIMARY KEY,
  kind TEXT NOT NULL CHECK (kind IN ('edit', 'change', 'older')),
  line INTEGER NOT NULL REFERENCES line(id),
  version TEXT NOT NULL,          -- of the row
  proposal TEXT NOT NULL,         -- the row, as JSON
  asks TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('open', 'taken', 'kept', 'new')),
  UNIQUE (line, version)
) STRICT;
CREATE INDEX question_open ON question (id) WHERE state = 'open';
)sql";

// Stands came later.
constexpr const char* second_step = R"sql(
CREATE TABLE stand (
  id INTEGER PRIMARY KEY,
  sheet INTEGER NOT NULL REFERENCES sheet(id),
  pocket INTEGER NOT NULL,
  serial INTEGER,                 -- the number engraved on it
  batch TEXT NOT NULL DEFAULT '',
  item INTEGER UNIQUE REFERENCES item(id),  -- null: to spare
  UNIQUE (sheet, pocket)
) STRICT;
CREATE UNIQUE INDEX stand_serial ON stand (serial) WHERE serial IS NOT NULL;
CREATE INDEX item_engraved ON item (id) WHERE state = 'engraved';
CREATE TABLE unacknowledged (     -- done, and not said to the person yet: run again, it is not to be done twice
  entry INTEGER PRIMARY KEY REFERENCES entry(id)
) STRICT;
)sql";

// Customers' names, rows that are no order yet, lines that an answer added and that was taken back. `change` names any table.
constexpr const char* third_step = R"sql(
ALTER TABLE item ADD COLUMN customer TEXT NOT NULL DEFAULT '';
ALTER TABLE line ADD COLUMN taken_back INTEGER NOT NULL DEFAULT 0 CHECK (taken_back IN (0, 1));
CREATE TABLE held_row (           -- a row of an export that is no order: it stands here until it comes mended or is let go
  id INTEGER PRIMARY KEY,
  row TEXT NOT NULL,              -- as it came
  occurrence INTEGER NOT NULL,    -- of rows alike in one file, from 1
  channel TEXT NOT NULL DEFAULT '',
  file TEXT NOT NULL,             -- that had it last, and where
  checksum TEXT NOT NULL DEFAULT '',        -- of that file, SHA-256
  place INTEGER NOT NULL,         -- line of the file
  order_number TEXT NOT NULL DEFAULT '',    -- these three as far as they could be read
  line_id TEXT NOT NULL DEFAULT '',
  customer TEXT NOT NULL DEFAULT '',
  beside TEXT NOT NULL DEFAULT '',          -- keys of the order's other rows in that file, each with a line end behind it
  reason TEXT NOT NULL CHECK (reason <> ''),
  mend TEXT NOT NULL DEFAULT '',
  state TEXT NOT NULL DEFAULT 'open' CHECK (state IN ('open', 'mended', 'let go')),
  UNIQUE (row, channel, occurrence)
) STRICT;
CREATE INDEX held_row_open ON held_row (id) WHERE state = 'open';
CREATE INDEX held_row_of_order ON held_row (order_number);
CREATE TABLE change_of_any (
  id INTEGER PRIMARY KEY,
  entry INTEGER NOT NULL REFERENCES entry(id),
  kind TEXT NOT NULL CHECK (kind <> ''),
  subject ANY NOT NULL,
  field TEXT NOT NULL,
  before TEXT,
  after TEXT
) STRICT;
INSERT INTO change_of_any SELECT id, entry, kind, subject, field, before, after FROM change;
DROP TABLE change;
ALTER TABLE change_of_any RENAME TO change;
CREATE INDEX change_of ON change (kind, subject);
CREATE INDEX change_in ON change (entry);
)sql";

// What a command had to say outlives a run that is cut off before it is said; and a sheet's files show what they show,
// whatever has come off the sheet since.
constexpr const char* outcomes_step = R"sql(
CREATE TABLE account (            -- of an entry, for the person who ran the command
  entry INTEGER PRIMARY KEY REFERENCES entry(id),
  asked TEXT NOT NULL,            -- what tells the command from others
  account TEXT NOT NULL,          -- JSON; empty: the book was older then
  heard INTEGER NOT NULL DEFAULT 0 CHECK (heard IN (0, 1))
) STRICT;
CREATE INDEX account_unheard ON account (entry) WHERE heard = 0;
INSERT INTO account (entry, asked, account)
  SELECT u.entry, e.cause, '' FROM unacknowledged u JOIN entry e ON e.id = u.entry;
DROP TABLE unacknowledged;

ALTER TABLE placement ADD COLUMN drawn INTEGER NOT NULL DEFAULT 1 CHECK (drawn IN (0, 1));  -- the sheet's files show it
ALTER TABLE sheet ADD COLUMN stale TEXT NOT NULL DEFAULT '';  -- why its files could not be written anew; or empty
-- A sheet that is done with stays as it was engraved.
UPDATE placement SET drawn = 0 WHERE state <> 'on sheet' AND sheet NOT IN
  (SELECT sheet FROM placement WHERE state = 'on sheet');
CREATE INDEX placement_to_come ON placement (sheet) WHERE state = 'on sheet';
CREATE INDEX placement_gone ON placement (sheet) WHERE drawn = 1 AND state IN ('withdrawn', 'spoiled');
)sql";

// One item may be set otherwise than its design says.
constexpr const char* setting_step = R"sql(
ALTER TABLE item ADD COLUMN setting TEXT NOT NULL DEFAULT '' CHECK (length(setting) <= 1000);
)sql";

// Of a row: when it was ordered, and where the parcel goes, as the export has them.
constexpr const char* parcel_step = R"sql(
ALTER TABLE line ADD COLUMN ordered TEXT NOT NULL DEFAULT '';
ALTER TABLE line ADD COLUMN address TEXT NOT NULL DEFAULT '';
)sql";

constexpr const char* steps[] = {first_step, second_step, third_step, outcomes_step, setting_step, parcel_step};

constexpr const char* tables[][2] = {
    {"entry", "change,export,line,line_version,item,blank,sheet,sheet_file,placement,question"},
    {"stand", ""},
    {"held_row", "change"},
    {"account", ""},
    {"", ""},
    {"", ""}};

/// Nothing is ever deleted, and what happened stays as it was written.
std::string guards_of(const std::string& table, bool is_story) {
  std::string sql = "CREATE TRIGGER keep_" + table + " BEFORE DELETE ON " + table +
                    " BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;";
  if (is_story) {
    sql += "CREATE TRIGGER fix_" + table + " BEFORE UPDATE ON " + table +
           " BEGIN SELECT RAISE(ABORT, 'what happened is not changed'); END;";
  }
  return sql;
}

std::string guards_of_step(int step) {
  std::string sql, names = std::string(tables[step][0]) + "," + tables[step][1];
  while (!names.empty()) {
    const std::size_t comma = std::min(names.find(','), names.size());
    const std::string table = names.substr(0, comma);
    if (!table.empty()) sql += guards_of(table, table == "entry" || table == "change" || table == "export");
    names.erase(0, comma + 1);
  }
  return sql;
}

}  // namespace

std::span<const char* const> ledger_steps() { return steps; }

void take_steps(Database& database, int from, int to) {
  for (int step = from; step < to; ++step) {
    database.script(steps[step]);
    database.script(guards_of_step(step));
  }
  database.script("PRAGMA application_id = " + std::to_string(ledger_application));
  database.script("PRAGMA user_version = " + std::to_string(to));
}

}  // namespace ordinatio::inline ledger
