#include "intake/intake.h"

#include <algorithm>

#include "base/account.h"
#include "base/phrase.h"
#include "intake/customer_notes.h"
#include "intake/line_change.h"
#include "orders/orders.h"

namespace ordinatio::inline intake {
namespace {

/// What the row says of its parcel; where it says nothing, what was known stays.
void set_parcel(LedgerLine& line, const Order& order) {
  if (!order.date.empty()) line.ordered = order.date;
  if (!order.address.empty()) line.address = order.address;
}

class Intake {
 public:
  /// checksum: of the file.
  Intake(Ledger& ledger, Account& account, const IntakeRules& rules, const std::string& checksum)
      : ledger_(ledger), account_(account), rules_(rules), checksum_(checksum), known_(ledger.knows_export(checksum)) {}

  void take_order(std::vector<IntakeRow>& rows);
  [[nodiscard]] const IntakeCounts& counts() const { return counts_; }
  [[nodiscard]] const CustomerNotes& notes() const { return notes_; }
  void add_line(const IntakeRow& row);
  void ask(const LedgerLine& line, const IntakeRow& row, LedgerQuestion::Kind kind, const std::string& asks);

 private:
  /// A row with the line that it is, if the ledger has it.
  struct Match {
    IntakeRow* row = nullptr;
    const LedgerLine* line = nullptr;
    bool older = false;  // the line has come like this before, and then otherwise
  };
  std::vector<Match> match(std::vector<IntakeRow>& rows, const std::vector<LedgerLine>& lines);
  void hold_doubles(std::vector<IntakeRow>& rows);
  void adopt_id(const LedgerLine& line, const IntakeRow& row);
  void settle(const LedgerLine& line, const IntakeRow& row);
  void settle_older(const LedgerLine& line, const IntakeRow& row);
  void settle_unknown(const IntakeRow& row, std::vector<const LedgerLine*>& unmatched,
                      const std::vector<LedgerLine>& lines);
  void take_row(const Match& match);
  bool was_asked(const std::vector<LedgerLine>& lines, const IntakeRow& row);
  bool was_asked(const LedgerLine& line, const IntakeRow& row);
  bool had_version(const LedgerLine& line, const IntakeRow& row);
  bool says_the_same_as(const LedgerLine& line, const IntakeRow& row);
  void bring_up_to_date(const LedgerLine& line, const IntakeRow& row);
  void set_version(LedgerLine line, const IntakeRow& row);
  void take_parcel(LedgerLine line, const IntakeRow& row);
  void note(const IntakeRow& row, int ordinal) {
    notes_.add(row.order.number, row.order.number + "-" + std::to_string(ordinal), row.order.note);
  }
  void hold(const std::vector<LedgerItem>& items, const std::string& reason);
  const LedgerLine* nearest(const IntakeRow& row, const std::vector<const LedgerLine*>& lines);

  Ledger& ledger_;
  Account& account_;
  const IntakeRules& rules_;
  std::string checksum_;
  bool known_;  // the very file has been read before
  IntakeCounts counts_;
  std::optional<std::vector<LedgerQuestion>> open_before_;  // ledgers of version 2 know them by their bytes alone
  CustomerNotes notes_;                                     // that are new
};

/// First each row's own line; then, among lines that no row has, the one that says the very same with an id or without;
/// then the one that said so once.
std::vector<Intake::Match> Intake::match(std::vector<IntakeRow>& rows, const std::vector<LedgerLine>& lines) {
  std::vector<Match> matches;
  matches.reserve(rows.size());
  for (IntakeRow& row : rows) matches.push_back({&row, nullptr, false});
  const auto find_lines = [&](bool older, const auto& is_it) {
    for (Match& one : matches) {
      if (one.line != nullptr) continue;
      const auto found = std::ranges::find_if(lines, [&](const LedgerLine& line) {
        const bool is_free = std::ranges::find(matches, &line, &Match::line) == matches.end();
        return is_free && is_it(line, *one.row);
      });
      if (found != lines.end()) one.line = &*found, one.older = older;
    }
  };
  const auto is_key_of = [](const LedgerLine& line, const IntakeRow& row) {
    return line.has_id == row.has_id && (line.key == row.key || line.key == row.key_of_bytes);
  };
  find_lines(false, [&](const LedgerLine& line, const IntakeRow& row) {
    return is_key_of(line, row) && line.occurrence == row.occurrence;
  });
  // Of lines alike the first may say something else by now: those behind it moved up.
  find_lines(false, is_key_of);
  // Digests are of words as they were cleaned then; shop.toml or the program may clean otherwise now.
  find_lines(false, [&](const LedgerLine& line, const IntakeRow& row) {
    return !line.has_id && !row.has_id && says_the_same_as(line, row);
  });
  find_lines(false, [](const LedgerLine& line, const IntakeRow& row) {
    return line.has_id != row.has_id && (line.version == row.version || line.version == row.version_of_bytes);
  });
  find_lines(true, [&](const LedgerLine& line, const IntakeRow& row) {
    return !line.has_id && !row.has_id &&
           (ledger_.had_key(line.id, row.key, row.occurrence) ||
            ledger_.had_key(line.id, row.key_of_bytes, row.occurrence));
  });
  for (Match& one : matches) {
    if (one.line == nullptr || one.line->version == one.row->version) continue;
    one.older = one.older || had_version(*one.line, *one.row);
  }
  return matches;
}

/// An id names one row of its order: what says the same again is passed over, what says something else is held.
void Intake::hold_doubles(std::vector<IntakeRow>& rows) {
  std::vector<IntakeRow> kept;
  for (IntakeRow& row : rows) {
    const auto same_id = [&](const IntakeRow& before) { return row.has_id && before.has_id && before.key == row.key; };
    const auto first = std::ranges::find_if(kept, same_id);
    if (first == kept.end()) {
      kept.push_back(std::move(row));
    } else if (first->version != row.version) {
      const Fault fault{"line id " + row.key + " is there again and says something else", row.order.source,
                        "it was at " + first->order.source + " already",
                        "Keep the row that is right, or give each its own id"};
      account_.held.push_back({row.order.number, fault});
      counts_.doubles.push_back({row.order, line_of(row.order.source), fault});
    }
  }
  rows = std::move(kept);
}

void Intake::adopt_id(const LedgerLine& line, const IntakeRow& row) {
  if (line.has_id || !row.has_id) return;
  LedgerLine now = line;
  now.has_id = true, now.key = row.key, now.occurrence = row.occurrence;
  ledger_.set_version(now);
}

bool Intake::was_asked(const LedgerLine& line, const IntakeRow& row) {
  if (ledger_.question_about(line.id, row.version)) return true;
  if (ledger_.question_about(line.id, row.version_of_bytes)) return true;
  if (!open_before_) open_before_ = ledger_.open_questions();
  return std::ranges::any_of(*open_before_, [&](const LedgerQuestion& question) {
    return question.line == line.id && row_proposed(question, rules_).version == row.version;
  });
}

bool Intake::was_asked(const std::vector<LedgerLine>& lines, const IntakeRow& row) {
  return std::ranges::any_of(lines, [&](const LedgerLine& line) { return was_asked(line, row); });
}

bool Intake::had_version(const LedgerLine& line, const IntakeRow& row) {
  return ledger_.had_version(line.id, row.version) || ledger_.had_version(line.id, row.version_of_bytes);
}

/// Whether the line's items have the row's words and design, one by one.
bool Intake::says_the_same_as(const LedgerLine& line, const IntakeRow& row) {
  const std::vector<LedgerItem> items = ledger_.items_of_line(line.id);
  if (row.order.cancelled || items.size() < static_cast<std::size_t>(row.order.quantity)) return false;
  for (std::size_t i = 0; i < static_cast<std::size_t>(row.order.quantity); ++i) {
    if (!says_the_same(items[i].exported, words_of(row, i), rules_)) return false;
    if (!is_same_design(items[i].design, row.order.design, rules_)) return false;
  }
  return true;
}

/// A ledger of an older version has the row by its bytes, and knows no customer's name.
void Intake::bring_up_to_date(const LedgerLine& line, const IntakeRow& row) {
  for (const LedgerItem& item : ledger_.items_of_line(line.id)) {
    if (item.customer == row.order.customer) continue;
    ledger_.set_exported(item, {item.line, item.order_number, item.ordinal, item.exported, item.design, item.wish,
                                item.note, item.source, item.pinned, row.order.customer});
  }
  set_version(line, row);
}

/// A new address is no new plaque: nothing is asked. A file that was read before brings back no older one.
void Intake::take_parcel(LedgerLine line, const IntakeRow& row) {
  const LedgerLine before = line;
  set_parcel(line, row.order);
  if (known_ && !before.ordered.empty()) line.ordered = before.ordered;
  if (known_ && !before.address.empty()) line.address = before.address;
  if (line.ordered == before.ordered && line.address == before.address) return;
  if (!before.address.empty() && line.address != before.address)
    account_.told.push_back("order " + line.order_number +
                            " goes to another address now: " + words_in_line(line.address));
  ledger_.set_version(line);
}

/// The line in the row's form. Of lines that were told apart by their bytes alone, each keeps a number of its own.
void Intake::set_version(LedgerLine line, const IntakeRow& row) {
  line.key = row.key, line.occurrence = row.occurrence, line.version = row.version;
  const std::vector<LedgerLine> lines = ledger_.lines_of(line.order_number);
  const auto is_taken = [&](const LedgerLine& other) {
    return other.id != line.id && other.key == line.key && other.occurrence == line.occurrence;
  };
  while (std::ranges::any_of(lines, is_taken)) ++line.occurrence;
  set_parcel(line, row.order);
  ledger_.set_version(line);
}

void Intake::hold(const std::vector<LedgerItem>& items, const std::string& reason) {
  for (const LedgerItem& item : items) {
    if (is_waiting(item.state) && item.held_by != HeldBy::person) {
      ledger_.set_state(item, ItemState::held, reason, HeldBy::question);
    }
  }
}

void Intake::ask(const LedgerLine& line, const IntakeRow& row, LedgerQuestion::Kind kind, const std::string& asks) {
  const LedgerQuestion question{0, line.id, kind, row.version, proposal_of(row), asks, LedgerQuestion::State::open};
  ledger_.ask(question);
  ++counts_.asked;
}

void Intake::settle(const LedgerLine& line, const IntakeRow& row) {
  LineChange change(ledger_, row, rules_, false, account_.told);
  const std::size_t told = account_.told.size();
  const std::vector<LedgerItem> before = ledger_.items_of_line(line.id);
  if (change.apply(line)) {
    for (const LedgerItem& item : before) {
      if (!says_the_same(item.note, row.order.note, rules_)) note(row, item.ordinal);
    }
    set_version(line, row);
    ++(account_.told.size() > told ? counts_.changed : counts_.unchanged);
    return;
  }
  std::string left;
  for (const std::string& one : change.left()) left += (left.empty() ? "" : ", ") + one;
  const std::string says = row.order.cancelled ? "is cancelled"
                                               : "says " + words_in_line(row.order.text) + ", " +
                                                     counted(static_cast<std::size_t>(row.order.quantity), "piece");
  ask(line, row, LedgerQuestion::Kind::change,
      "order " + row.order.number + " (" + row.order.source + ") now " + says + ", but " + left +
          ": shall it be as the export says");
  hold(change.doubtful(), "the export says otherwise now, and it is not settled");
}

void Intake::settle_older(const LedgerLine& line, const IntakeRow& row) {
  if (known_) {
    ++counts_.unchanged;
    return;
  }
  ask(line, row, LedgerQuestion::Kind::older,
      "order " + row.order.number + " (" + row.order.source + ") says " + words_in_line(row.order.text) +
          " again, as it did before it was changed: is this an older export, or was it changed back");
  hold(ledger_.items_of_line(line.id), "the export says again what it said before, and it is not settled");
}

/// The line whose words are most like the row's.
const LedgerLine* Intake::nearest(const IntakeRow& row, const std::vector<const LedgerLine*>& lines) {
  std::vector<std::string> words;
  words.reserve(lines.size());
  for (const LedgerLine* line : lines) words.push_back(ledger_.items_of_line(line->id).front().exported);
  const std::vector<std::string_view> known(words.begin(), words.end());
  const auto found = nearest_word(row.order.text, known);
  if (!found) return lines.front();
  return lines[static_cast<std::size_t>(std::ranges::find(words, *found) - words.begin())];
}

void Intake::settle_unknown(const IntakeRow& row, std::vector<const LedgerLine*>& unmatched,
                            const std::vector<LedgerLine>& lines) {
  // A row with an id of its own is a new line, unless the line it may be came when the export had no ids.
  std::vector<const LedgerLine*> candidates = unmatched;
  if (row.has_id) std::erase_if(candidates, [](const LedgerLine* line) { return line->has_id; });
  if (was_asked(lines, row)) {
    ++counts_.unchanged;
  } else if (candidates.empty()) {
    add_line(row);
  } else {
    const LedgerLine* line = nearest(row, candidates);
    std::erase(unmatched, line);
    const std::vector<LedgerItem> items = ledger_.items_of_line(line->id);
    ask(*line, row, LedgerQuestion::Kind::edit,
        "order " + row.order.number + " (" + row.order.source + ") has " + words_in_line(row.order.text) +
            ", and the ledger has " + words_in_line(items.front().exported) +
            " in a line that the file lacks: is it that line, changed");
    hold(items, "the export has another text, and it is not settled whether it is this line's");
  }
}

void Intake::take_row(const Match& match) {
  const LedgerLine& line = *match.line;
  if (line.version == match.row->version || line.version == match.row->version_of_bytes) {
    if (line.version != match.row->version) bring_up_to_date(line, *match.row);
    adopt_id(*ledger_.line(line.id), *match.row);
    take_parcel(*ledger_.line(line.id), *match.row);
    ++counts_.unchanged;
  } else if (was_asked(line, *match.row) || ledger_.is_older_than(checksum_, line.id)) {
    ++counts_.unchanged;
  } else if (match.older &&
             (known_ || !LineChange(ledger_, *match.row, rules_, false, account_.told).is_slight(line))) {
    settle_older(line, *match.row);
  } else {
    settle(line, *match.row);
  }
}

void Intake::take_order(std::vector<IntakeRow>& rows) {
  const std::vector<LedgerLine> lines = ledger_.lines_of(rows.front().order.number);
  const std::size_t items_before = counts_.new_items;
  hold_doubles(rows);
  const std::vector<Match> matches = match(rows, lines);
  std::vector<const LedgerLine*> unmatched;
  for (const LedgerLine& line : lines) {
    if (std::ranges::find(matches, &line, &Match::line) == matches.end()) unmatched.push_back(&line);
  }
  for (const Match& one : matches) {
    if (one.line != nullptr) {
      take_row(one);
    } else {
      settle_unknown(*one.row, unmatched, lines);
    }
  }
  if (lines.empty() && counts_.new_items > items_before) ++counts_.new_orders;
}

void Intake::add_line(const IntakeRow& row) {
  if (row.order.cancelled) {
    ++counts_.cancelled;
    return;
  }
  const std::int64_t line = ledger_.add_line(
      {0, row.order.number, row.key, row.has_id, row.occurrence, row.version, row.order.date, row.order.address});
  int ordinal = ledger_.next_ordinal(row.order.number);
  for (int i = 0; i < row.order.quantity; ++i, ++ordinal) {
    note(row, ordinal);
    ledger_.add_item(item_of(row, static_cast<std::size_t>(i), line, ordinal));
    ++counts_.new_items;
  }
}

}  // namespace

IntakeCounts take_in(Ledger& ledger, const Orders& orders, const std::string& file, Account& account,
                     const IntakeRules& rules) {
  Intake intake(ledger, account, rules, orders.checksum);
  std::vector<std::vector<IntakeRow>> groups = rows_by_order(orders.orders, rules);
  for (std::vector<IntakeRow>& rows : groups) intake.take_order(rows);
  // Also where nothing is new: what is read a second time asks nothing.
  ledger.note_export(orders.checksum, file);
  intake.notes().tell(account);
  return intake.counts();
}

void take_proposal(Ledger& ledger, const LedgerQuestion& question, const IntakeRules& rules, Account& account) {
  const IntakeRow row = row_proposed(question, rules);
  LedgerLine line = *ledger.line(question.line);
  LineChange(ledger, row, rules, true, account.told).apply(line);
  line.has_id = row.has_id, line.key = row.key, line.occurrence = row.occurrence, line.version = row.version;
  set_parcel(line, row.order);
  ledger.set_version(line);
}

void tell_questions(Ledger& ledger, Account& account) {
  for (const LedgerQuestion& question : ledger.open_questions()) {
    const std::string answer = "ordinatio answer " + std::to_string(question.id);
    const bool edit = question.kind == LedgerQuestion::Kind::edit;
    account.warnings.push_back(
        "question " + std::to_string(question.id) + ": " + question.asks + "? " + answer +
        (edit ? " take (it is that line, changed), new (it is another line) or keep (pass it over)"
              : " take (do as the export says; an engraved piece that would come out otherwise is made again) or keep "
                "(leave "
                "it as it is)"));
  }
}

void add_proposal(Ledger& ledger, const LedgerQuestion& question, const IntakeRules& rules, Account& account) {
  Intake(ledger, account, rules, "").add_line(row_proposed(question, rules));
}

}  // namespace ordinatio::inline intake
