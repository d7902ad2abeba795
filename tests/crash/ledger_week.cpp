#include "ledger_week.h"

#include <stdexcept>

namespace ordinatio::crash {
namespace {

void require(const MaybeFault& fault) {
  if (fault) throw std::logic_error(describe(*fault));
}

LedgerItem item(Ledger& ledger, const std::string& number) { return *ledger.item_numbered(number); }
LedgerPlacement placement(Ledger& ledger, const std::string& number) {
  return *ledger.placement_of(item(ledger, number).id);
}

void take_in(Ledger& ledger) {
  ledger.note_export("digest-of-monday", "monday.csv");
  for (const char* order : {"1042", "1043"}) {
    const std::int64_t line = ledger.add_line({0, order, std::string("row-of-") + order, true, 1, "first"});
    for (const int ordinal : {1, 2}) {
      ledger.add_item({line, order, ordinal, "Ada Thornbury\nQuernby Mill", "plaque", "", "gift", "monday.csv:2", ""});
    }
  }
  for (const char* blank : {"S-1", "S-2", "S-3", "S-4", "S-5"})
    ledger.add_blank({blank, "slate", 150, 100, "row", LedgerBlank::State::free, "", {}});
}

void correct(Ledger& ledger) { ledger.set_words(item(ledger, "1042-1"), "Ada Thornberry\nQuernby Mill"); }
void hold(Ledger& ledger) {
  ledger.set_state(item(ledger, "1042-2"), ItemState::held, "the customer is asked", HeldBy::person);
}
void release(Ledger& ledger) { ledger.set_state(item(ledger, "1042-2"), ItemState::ready); }
void put_first(Ledger& ledger) { ledger.set_first(item(ledger, "1043-1"), true); }
void pin(Ledger& ledger) { require(ledger.pin(item(ledger, "1042-1"), "S-2")); }
void prove(Ledger& ledger) {
  ledger.set_proofed(item(ledger, "1042-1"), "artwork-1042-1");
  ledger.set_state(item(ledger, "1042-1"), ItemState::proofed);
}
void approve(Ledger& ledger) { ledger.set_approved(item(ledger, "1042-1"), "artwork-1042-1"); }

void plan_day(Ledger& ledger) {
  NewSheet day{{ledger.next_sheet_number(),
                "sheet-001",
                LedgerSheet::Kind::day,
                {},
                "2026-11-25",
                "out",
                false,
                {{"sheet-001.svg", "digest-of-svg"}, {"sheet-001.json", "digest-of-manifest"}}},
               {},
               {}};
  const char* const places[][2] = {{"1042-1", "S-2"}, {"1042-2", "S-1"}, {"1043-1", "S-3"}};
  for (const auto& [number, blank] : places) {
    const int pocket = static_cast<int>(day.placements.size()) + 1;
    day.placements.push_back({item(ledger, number).id, pocket, blank, std::string("artwork-") + number, pocket == 1});
  }
  require(ledger.plan_sheet(day));
}

void write_down(Ledger& ledger) {
  for (const LedgerSheet& sheet : ledger.planned_sheets()) ledger.mark_written(sheet.number);
}

void change_places(Ledger& ledger) { ledger.move_to_pocket(placement(ledger, "1043-1"), 2); }
void change_pieces(Ledger& ledger) {
  const LedgerPlacement lies = placement(ledger, "1043-1");
  require(ledger.move_to_piece(lies, {lies.item, lies.pocket, "S-5", "artwork-1043-1-on-S-5", false}));
}
void change_back(Ledger& ledger) {
  if (const auto undone = ledger.undo(item(ledger, "1043-1")); !undone.ok()) require(undone.fault());
}

void engrave(Ledger& ledger) {
  for (const char* number : {"1042-1", "1042-2"}) ledger.mark_engraved(placement(ledger, number));
}
void spoil(Ledger& ledger) { ledger.spoil(placement(ledger, "1042-2"), "chipped as it was lifted"); }
void withdraw(Ledger& ledger) {
  ledger.withdraw(placement(ledger, "1043-1"), "the bed was interrupted", BlankFate::free);
  ledger.set_state(item(ledger, "1043-1"), ItemState::ready);
}

void remake(Ledger& ledger) {
  const NewSheet again{{ledger.next_sheet_number(),
                        "sheet-002",
                        LedgerSheet::Kind::remake,
                        1,
                        "2026-11-26",
                        "out",
                        false,
                        {{"sheet-002.json", "digest-of-remake"}}},
                       {{item(ledger, "1042-2").id, 7, "S-4", "artwork-1042-2", false}},
                       {}};
  require(ledger.plan_sheet(again));
}

void make_stands(Ledger& ledger) {
  NewSheet stands{{ledger.next_sheet_number(),
                   "stands-001",
                   LedgerSheet::Kind::stands,
                   {},
                   "2026-11-26",
                   "out",
                   false,
                   {{"stands-001.json", "digest-of-stands"}}},
                  {},
                  {{1, ledger.next_serial(), {}, "oak"}, {2, ledger.next_serial() + 1, {}, "oak"}}};
  for (const LedgerItem& engraved : ledger.engraved_without_stand()) stands.stands[0].item = engraved.id;
  require(ledger.plan_sheet(stands));
}

void pack(Ledger& ledger) { ledger.set_state(item(ledger, "1042-1"), ItemState::packed); }
void unpack(Ledger& ledger) {
  if (const auto undone = ledger.undo(item(ledger, "1042-1")); !undone.ok()) require(undone.fault());
}

void ask(Ledger& ledger) {
  const std::int64_t line = item(ledger, "1043-2").line;
  ledger.ask({0, line, LedgerQuestion::Kind::edit, "second", "{\"text\":\"Bo Fenwick\"}", "which is right?"});
}
void answer(Ledger& ledger) {
  const LedgerQuestion question = ledger.open_questions().front();
  LedgerLine line = *ledger.line(question.line);
  line.version = question.version;
  ledger.set_version(line);
  ledger.set_exported(item(ledger, "1043-2"),
                      {line.id, "1043", 2, "Bo Fenwick", "plaque", "", "", "tuesday.csv:3", ""});
  ledger.settle(question, LedgerQuestion::State::taken);
}

}  // namespace

const std::vector<LedgerStep>& ledger_week() {
  static const std::vector<LedgerStep> week{
      {"intake", EntryKind::intake, take_in},
      {"correction", EntryKind::correction, correct},
      {"hold", EntryKind::correction, hold},
      {"release", EntryKind::correction, release},
      {"hold", EntryKind::correction, put_first},
      {"pin", EntryKind::correction, pin},
      {"proof", EntryKind::proof, prove},
      {"approval", EntryKind::approval, approve},
      {"day", EntryKind::day, plan_day},
      {"written", EntryKind::delivery, write_down},
      {"move", EntryKind::moving, change_places},
      {"move", EntryKind::moving, change_pieces},
      {"undo", EntryKind::undo, change_back},
      {"undo", EntryKind::undo, change_back},
      {"engraved", EntryKind::engraving, engrave},
      {"spoil", EntryKind::spoiling, spoil},
      {"resume", EntryKind::engraving, withdraw},
      {"remake", EntryKind::remake, remake},
      {"written", EntryKind::delivery, write_down},
      {"stands", EntryKind::stands, make_stands},
      {"packing", EntryKind::packing, pack},
      {"undo", EntryKind::undo, unpack},
      {"question", EntryKind::intake, ask},
      {"answer", EntryKind::answer, answer},
  };
  return week;
}

MaybeFault take_step(const std::filesystem::path& ledger_file, std::size_t step, const std::string& vfs) {
  LedgerOptions options;
  options.file = ledger_file;
  options.now = "2026-11-25T08:" + std::to_string(10 + step) + ":00Z";
  options.cause = ledger_week()[step].name;
  options.wait = 0;
  options.vfs = vfs;
  try {
    const auto ledger = Ledger::open(options, Ledger::Access::write);
    if (!ledger.ok()) return ledger.fault();
    (*ledger)->begin(ledger_week()[step].kind);
    ledger_week()[step].work(**ledger);
    (*ledger)->commit();
    return std::nullopt;
  } catch (const std::exception& error) {
    return Fault{error.what(), ledger_file.string(), "", ""};
  }
}

}  // namespace ordinatio::crash
