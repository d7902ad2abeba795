#include "shop/intake.h"

#include <algorithm>

#include "shop/line_change.h"

namespace ordinatio {
namespace {

class Intake {
 public:
  Intake(Ledger& ledger, Account& account, bool known) : ledger_(ledger), account_(account), known_(known) {}

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
  Match match(IntakeRow& row, const std::vector<LedgerLine>& lines);
  void settle(const LedgerLine& line, const IntakeRow& row);
  void settle_older(const LedgerLine& line, const IntakeRow& row);
  void settle_unknown(const IntakeRow& row, std::vector<const LedgerLine*>& unmatched,
                      const std::vector<LedgerLine>& lines);
  bool was_asked(const std::vector<LedgerLine>& lines, const IntakeRow& row);
  void hold(const std::vector<LedgerItem>& items, const std::string& reason);
  const LedgerLine* nearest(const IntakeRow& row, const std::vector<const LedgerLine*>& lines);

  Ledger& ledger_;
  Account& account_;
  bool known_;  // the very file has been read before
  IntakeCounts counts_;
};

Intake::Match Intake::match(IntakeRow& row, const std::vector<LedgerLine>& lines) {
  const auto is_it = [&](const LedgerLine& line) {
    return line.has_id == row.has_id && line.key == row.key && (row.has_id || line.occurrence == row.occurrence);
  };
  if (const auto now = std::ranges::find_if(lines, is_it); now != lines.end()) {
    const bool older = now->version != row.version && ledger_.had_version(now->id, row.version);
    return {&row, &*now, older};
  }
  const auto was_it = [&](const LedgerLine& line) {
    return !line.has_id && !row.has_id && ledger_.had_key(line.id, row.key, row.occurrence);
  };
  const auto before = std::ranges::find_if(lines, was_it);
  return {&row, before == lines.end() ? nullptr : &*before, true};
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
  if (was_asked(lines, row)) {
    ++counts_.unchanged;
  } else if (unmatched.empty()) {
    add_line(row);
  } else {
    const LedgerLine* line = nearest(row, unmatched);
    std::erase(unmatched, line);
    const std::vector<LedgerItem> items = ledger_.items_of_line(line->id);
    ask(*line, row, LedgerQuestion::Kind::edit,
        "order " + row.order.number + " (" + row.order.source + ") has " + words_in_line(row.order.text) +
            ", and the ledger has " + words_in_line(items.front().exported) +
            " in a line that the file lacks: is it that line, changed");
    hold(items, "the export has another text, and it is not settled whether it is this line's");
  }
}

void Intake::take_order(std::vector<IntakeRow>& rows) {
  const std::vector<LedgerLine> lines = ledger_.lines_of(rows.front().order.number);
  if (lines.empty()) ++counts_.new_orders;
  std::vector<const LedgerLine*> unmatched;
  for (const LedgerLine& line : lines) {
    if (!line.has_id || rows.front().has_id) unmatched.push_back(&line);
  }
  std::vector<Match> matches;
  for (IntakeRow& row : rows) {
    matches.push_back(match(row, lines));
    if (matches.back().line != nullptr) std::erase(unmatched, matches.back().line);
  }
  // A row with an id of its own is a new line, unless the line it may be came when the export had no ids.
  if (rows.front().has_id) std::erase_if(unmatched, [](const LedgerLine* line) { return line->has_id; });
  for (const Match& one : matches) {
    if (one.line == nullptr) {
      settle_unknown(*one.row, unmatched, lines);
    } else if (one.line->version == one.row->version || ledger_.question_about(one.line->id, one.row->version)) {
      ++counts_.unchanged;
    } else if (one.older) {
      settle_older(*one.line, *one.row);
    } else {
      settle(*one.line, *one.row);
    }
  }
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
  Intake intake(ledger, account, ledger.knows_export(orders.checksum));
  std::vector<std::vector<IntakeRow>> groups = rows_by_order(orders.orders);
  for (std::vector<IntakeRow>& rows : groups) intake.take_order(rows);
  if (ledger.has_changed()) ledger.note_export(orders.checksum, file);
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
              : " take (do as the export says) or keep (leave it as it is)"));
  }
}

void add_proposal(Ledger& ledger, const LedgerQuestion& question, Account& account) {
  Intake(ledger, account, false).add_line(row_proposed(question));
}

}  // namespace ordinatio
