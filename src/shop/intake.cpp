#include "shop/intake.h"

#include <algorithm>

#include "shop/line_change.h"

namespace ordinatio {
namespace {

class Intake {
 public:
  /// checksum: of the file.
  Intake(Ledger& ledger, Account& account, const std::string& checksum)
      : ledger_(ledger), account_(account), checksum_(checksum), known_(ledger.knows_export(checksum)) {}

  void take_order(std::vector<IntakeRow>& rows);
  [[nodiscard]] const IntakeCounts& counts() const { return counts_; }
  void add_line(const IntakeRow& row);
  void ask(const LedgerLine& line, const IntakeRow& row, LedgerQuestion::Kind kind, const std::string& asks);

 private:
  /// A row with the line that it is, if the book has it.
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
  void hold(const std::vector<LedgerItem>& items, const std::string& reason);
  const LedgerLine* nearest(const IntakeRow& row, const std::vector<const LedgerLine*>& lines);

  Ledger& ledger_;
  Account& account_;
  std::string checksum_;
  bool known_;  // the very file has been read before
  IntakeCounts counts_;
};

/// First each row's own line; then, among lines that no row has, the one that says the very same with an id or without;
/// then the one that said so once.
std::vector<Intake::Match> Intake::match(std::vector<IntakeRow>& rows, const std::vector<LedgerLine>& lines) {
  std::vector<Match> matches;
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
  find_lines(false, [](const LedgerLine& line, const IntakeRow& row) {
    return line.has_id == row.has_id && line.key == row.key && line.occurrence == row.occurrence;
  });
  // Of lines alike the first may say something else by now: those behind it moved up.
  find_lines(false, [](const LedgerLine& line, const IntakeRow& row) {
    return line.has_id == row.has_id && line.key == row.key;
  });
  find_lines(false, [](const LedgerLine& line, const IntakeRow& row) {
    return line.has_id != row.has_id && line.version == row.version;
  });
  find_lines(true, [&](const LedgerLine& line, const IntakeRow& row) {
    return !line.has_id && !row.has_id && ledger_.had_key(line.id, row.key, row.occurrence);
  });
  for (Match& one : matches) {
    if (one.line == nullptr || one.line->version == one.row->version) continue;
    one.older = one.older || ledger_.had_version(one.line->id, one.row->version);
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
      account_.held.push_back(
          {row.order.number,
           {"line id " + row.key + " is there again and says something else", row.order.source,
            "it was at " + first->order.source + " already", "Keep the row that is right, or give each its own id"}});
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

bool Intake::was_asked(const std::vector<LedgerLine>& lines, const IntakeRow& row) {
  return std::ranges::any_of(
      lines, [&](const LedgerLine& line) { return ledger_.question_about(line.id, row.version).has_value(); });
}

void Intake::hold(const std::vector<LedgerItem>& items, const std::string& reason) {
  for (const LedgerItem& item : items) {
    if (is_waiting(item.state) && item.held_by != "person") {
      ledger_.set_state(item, ItemState::held, reason, "question");
    }
  }
}

void Intake::ask(const LedgerLine& line, const IntakeRow& row, LedgerQuestion::Kind kind, const std::string& asks) {
  const LedgerQuestion question{0, line.id, kind, row.version, proposal_of(row), asks, LedgerQuestion::State::open};
  ledger_.ask(question);
  ++counts_.asked;
}

void Intake::settle(const LedgerLine& line, const IntakeRow& row) {
  LineChange change(ledger_, row, false, account_.told);
  if (change.apply(line)) {
    LedgerLine now = line;
    now.key = row.key, now.occurrence = row.occurrence, now.version = row.version;
    ledger_.set_version(now);
    ++counts_.changed;
    return;
  }
  std::string left;
  for (const std::string& one : change.left()) left += (left.empty() ? "" : ", ") + one;
  const std::string says = row.order.cancelled
                               ? "is cancelled"
                               : "says " + words_in_line(row.order.text) + ", " + std::to_string(row.order.quantity) +
                                     (row.order.quantity == 1 ? " piece" : " pieces");
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
  if (line.version == match.row->version) {
    adopt_id(line, *match.row);
    ++counts_.unchanged;
  } else if (ledger_.question_about(line.id, match.row->version) || ledger_.is_older_than(checksum_, line.id)) {
    ++counts_.unchanged;
  } else if (match.older) {
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
  const std::int64_t line = ledger_.add_line({0, row.order.number, row.key, row.has_id, row.occurrence, row.version});
  int ordinal = ledger_.next_ordinal(row.order.number);
  for (int i = 0; i < row.order.quantity; ++i, ++ordinal) {
    ledger_.add_item(item_of(row, static_cast<std::size_t>(i), line, ordinal));
    ++counts_.new_items;
  }
}

}  // namespace

IntakeCounts take_in(Ledger& ledger, const Orders& orders, const std::string& file, Account& account) {
  Intake intake(ledger, account, orders.checksum);
  std::vector<std::vector<IntakeRow>> groups = rows_by_order(orders.orders);
  for (std::vector<IntakeRow>& rows : groups) intake.take_order(rows);
  // Also where nothing is new: what is read a second time asks nothing.
  ledger.note_export(orders.checksum, file);
  return intake.counts();
}

void take_proposal(Ledger& ledger, const LedgerQuestion& question, Account& account) {
  const IntakeRow row = row_proposed(question);
  LedgerLine line = *ledger.line(question.line);
  LineChange(ledger, row, true, account.told).apply(line);
  line.has_id = row.has_id, line.key = row.key, line.occurrence = row.occurrence, line.version = row.version;
  ledger.set_version(line);
}

void tell_questions(Ledger& ledger, Account& account) {
  for (const LedgerQuestion& question : ledger.open_questions()) {
    const std::string answer = "ordinatio answer " + std::to_string(question.id);
    const bool edit = question.kind == LedgerQuestion::Kind::edit;
    account.warnings.push_back(
        "question " + std::to_string(question.id) + ": " + question.asks + "? " + answer +
        (edit ? " take (it is that line, changed), new (it is another line) or keep (pass it over)"
              : " take (do as the export says; an engraved piece that must have other words is made again) or keep "
                "(leave "
                "it as it is)"));
  }
}

void add_proposal(Ledger& ledger, const LedgerQuestion& question, Account& account) {
  Intake(ledger, account, "").add_line(row_proposed(question));
}

}  // namespace ordinatio
