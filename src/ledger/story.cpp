#include <algorithm>

#include "base/utf8.h"
#include "ledger/database.h"
#include "ledger/ledger.h"

namespace ordinatio::inline ledger {
namespace {

struct Told {
  std::string field, before, after;
};

constexpr std::size_t longest_words = 80;

/// In quotes, line ends as " / ", cut where it is long.
std::string quoted(std::string text) {
  for (std::size_t at = 0; (at = text.find('\n', at)) != std::string::npos; at += 3) text.replace(at, 1, " / ");
  if (text.size() > longest_words) {
    std::size_t end = longest_words;
    while (end > 0 && continues_character(text[end])) --end;  // not within a letter
    text = text.substr(0, end) + "…";
  }
  return "\"" + text + "\"";
}

const Told* find(const std::vector<Told>& changes, std::string_view field) {
  const auto found = std::ranges::find(changes, field, &Told::field);
  return found == changes.end() ? nullptr : &*found;
}

/// "held: the reason"; where it came to lie on a sheet, the place says more.
std::string state_text(const std::vector<Told>& changes, const Told& state) {
  if (state.after == "on sheet" && find(changes, "~place") != nullptr) return "";
  const Told* reason = find(changes, "reason");
  return state.after + (reason != nullptr && !reason->after.empty() ? ": " + reason->after : "");
}

std::string from_to(const std::string& what, const Told& change) {
  return what + " " + quoted(change.after) + (change.before.empty() ? "" : ", before " + quoted(change.before));
}

/// How it is set, where that is not as its design has it.
std::string setting_told(const Told& change) {
  return change.after.empty() ? "set as its design has it again, before " + quoted(change.before)
                              : from_to("set as wished:", change);
}

/// What one column's change says, or nothing where another says it.
std::string text_of(const std::vector<Told>& changes, const Told& change) {
  const std::string& field = change.field;
  if (field == "~new") return "new: " + change.after;
  if (field == "state") return state_text(changes, change);
  if (field == "reason") {
    return find(changes, "state") == nullptr && !change.after.empty() ? "the reason is now: " + change.after : "";
  }
  if (field == "~place") return "on " + change.after;
  if (field == "~stand") return "has its stand: " + change.after;
  if (field == "~engraved") return "pocket " + change.after + " is engraved";
  if (field == "~files") return change.after;
  if (field == "~measured") return "measured anew: " + change.after + ", before " + change.before;
  if (field == "words") return from_to("the words are now", change);
  if (field == "setting") return setting_told(change);
  if (field == "exported") return find(changes, "words") == nullptr ? from_to("the export says", change) : "";
  if (field == "design" || field == "wish" || field == "note" || field == "customer") {
    return from_to("the " + field + " is now", change);
  }
  if (field == "first") {
    return change.after == "1" ? "first in line" : find(changes, "~place") == nullptr ? "no longer first in line" : "";
  }
  if (field == "pinned") {
    return change.after.empty() ? "no longer pinned to " + change.before : "pinned to blank " + change.after;
  }
  if (field == "proofed_hash") return "proof of artwork " + change.after.substr(0, 8);
  if (field == "approved_hash") return "approved is artwork " + change.after.substr(0, 8);
  return "";
}

std::string text_of(const std::vector<Told>& changes) {
  std::string text;
  for (const Told& change : changes) {
    const std::string one = text_of(changes, change);
    if (!one.empty()) text += (text.empty() ? "" : "; ") + one;
  }
  return text;
}

}  // namespace

std::vector<StoryLine> Ledger::story_of(const std::string& table, const Subject& subject) {
  Statement& rows = database_->query(
      "SELECT e.id, e.at, e.cause, c.field, c.before, c.after FROM change c JOIN entry e ON e.id = c.entry "
      "WHERE c.kind = ? AND c.subject = ? ORDER BY c.id",
      table, subject);
  std::vector<StoryLine> story;
  std::vector<Told> changes;
  std::int64_t entry = 0;
  const auto tell = [&] {
    if (!story.empty()) story.back().text = text_of(changes);
    if (!story.empty() && story.back().text.empty()) story.pop_back();
    changes.clear();
  };
  while (rows.step()) {
    if (rows.number(0) != entry) {
      tell();
      story.push_back({rows.text(1), rows.text(2), ""});
      entry = rows.number(0);
    }
    changes.push_back({rows.text(3), rows.text(4), rows.text(5)});
  }
  rows.clear();
  tell();
  return story;
}

std::vector<StoryLine> Ledger::story_of_item(const LedgerItem& item) { return story_of("item", item.id); }
std::vector<StoryLine> Ledger::story_of_row(const LedgerHeldRow& row) { return story_of("held_row", row.id); }
std::vector<StoryLine> Ledger::story_of_blank(const std::string& id) { return story_of("blank", id); }
std::vector<StoryLine> Ledger::story_of_sheet(const LedgerSheet& sheet) {
  return story_of("sheet", std::int64_t{sheet.number});
}

}  // namespace ordinatio::inline ledger
