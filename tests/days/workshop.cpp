#include "workshop.h"

#include <unistd.h>

#include <fstream>

#include "base/account.h"
#include "check/check.h"
#include "manifest/manifest.h"
#include "shop/align.h"
#include "shop/day.h"
#include "shop/ledger_access.h"
#include "shop/proof.h"
#include "shop/remake.h"

namespace ordinatio::days {

namespace fs = std::filesystem;

Workshop::Workshop(unsigned seed)
    : random_(seed), folder_(fs::temp_directory_path() / ("ordinatio-days-" + std::to_string(::getpid()))) {
  fs::remove_all(folder_);
  for (const char* part : {"templates", "fonts"}) fs::create_directories(folder_ / part);
  write_designs();
  write_shop();
  auto shop = read_shop(folder_);
  if (!shop.ok()) throw std::runtime_error(describe(shop.fault()));
  shop_ = *std::move(shop);
}

Workshop::~Workshop() { fs::remove_all(folder_); }

void Workshop::write(const std::string& name, const std::string& text) const {
  std::ofstream(folder_ / name, std::ios::binary) << text;
}

/// Four kinds: a border and a mark beside the words, lines that are scored, one that is engraved from behind, one that
/// waits for a yes. Distances and gaps are drawn by lot.
void Workshop::write_designs() {
  write("templates/mark.svg",
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"20mm\" height=\"20mm\" viewBox=\"0 0 20 20\">"
        "<path d=\"M1 19 L10 1 L19 19 Z M7 16 H13 V12 H7 Z\" fill-rule=\"evenodd\"/></svg>");
  const auto number = [](double value) { return std::to_string(static_cast<int>(value)); };
  const std::string faces[] = {"condensed", "capitals", "sans"};  // of few points: most of the time goes into them
  const std::string blank = "[blank]\nwidth = 80\nheight = 60\n",
                    words = "font = \"" + faces[below(3)] + "\"\ncap_height = { min = 1.5, max = 12 }\n";
  const std::string gap = "[clear]\nmargin = 3\ngap = " + number(between(1, 4)) + "\n";
  const std::string box = "box = [10, 26, 60, 24]\n";
  const std::string left = number(between(8, 50));
  const std::string logo = "[[logo]]\nfile = \"mark.svg\"\nbox = [" + left + ", 8, 16, 14]\n";
  write("templates/line.toml", blank + "material = \"slate\"\n" + gap + "[[text]]\n" + box + words +
                                   "[[border]]\ndistance = 4\noperation = \"score\"\n");
  write("templates/pane.toml", "side = \"back\"\n" + blank + "material = \"acrylic\"\n" + gap + "[[text]]\n" + box +
                                   words + "[[border]]\ndistance = 3\nwidth = 0.5\n" + logo);
  write("templates/asked.toml",
        "approval = true\n" + blank + gap + "[[text]]\n" + words + "[[border]]\ndistance = 3\n");
  write("templates/slate.toml", blank + "material = \"slate\"\n" + gap + "[[text]]\n" + box + words +
                                    "[[border]]\ndistance = 3\nwidth = 0.6\n" + logo);
}

void Workshop::write_shop() {
  const char* lies[] = {"as-fits", "as-drawn"};
  write("shop.toml", "[shop]\ndesign = \"slate\"\nstand_design = \"slate\"\n[machine]\nwidth = " +
                         std::to_string(200 + below(3) * 45) + "\nheight = 170\n[jig]\nedge = 12\ngap = 6\nlie = \"" +
                         lies[below(2)] + "\"\n[ledger]\nfile = \"workshop.ledger\"\n" +
                         "[blanks]\nfile = \"blanks.csv\"\n");
  pieces_file_ = "id,material,width,height,corners,chips,keep_clear\n";
  write("blanks.csv", pieces_file_);
}

std::string Workshop::row_of_piece() {
  const std::string id = "P-" + std::to_string(++pieces_);
  const bool is_clear = below(4) == 0;
  std::string row = id + "," + (is_clear ? "acrylic" : "slate") + ",";
  row += (below(2) == 0 ? std::to_string(80 - below(6)) : "") + ",";
  row += (below(2) == 0 ? std::to_string(60 - below(4)) : "") + ",,";
  if (below(3) == 0) {
    const char* edges[] = {"bottom", "top", "left", "right"};
    const int from = 5 + below(30);
    row += std::string(edges[below(4)]) + " " + std::to_string(from) + "-" + std::to_string(from + 3 + below(15)) +
           " " + std::to_string(1 + below(8));
  }
  row += ",";
  if (below(4) == 0) {
    row += "stamp " + std::to_string(4 + below(60)) + " " + std::to_string(4 + below(45)) + " " +
           std::to_string(3 + below(9)) + " " + std::to_string(3 + below(6));
  }
  return row + "\n";
}

std::string Workshop::words() {
  static const std::vector<std::string> known{"Ada",     "Ida & Ulf",      "The Old Mill", "Fjord",       "1874",
                                              "Quernby", "Oak Tree House", "Jo",           "Eva Thistle", "Ford End"};
  return any(known);
}

std::unique_ptr<Ledger> Workshop::read_ledger() const {
  auto ledger =
      Ledger::open({folder_ / "workshop.ledger", "2026-11-25T08:00:00Z", "", 0, false, ""}, Ledger::Access::read);
  if (!ledger.ok()) throw std::runtime_error(describe(ledger.fault()));
  return *std::move(ledger);
}

LedgerCall Workshop::call(const std::string& cause) {
  ++minutes_;
  const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return {"2026-11-" + two(10 + minutes_ / 1440) + "T" + two(minutes_ / 60 % 24) + ":" + two(minutes_ % 60) + ":00Z",
          cause,
          false,
          0,
          "",
          {}};
}

std::string Workshop::any_item(ItemState state) {
  std::vector<std::string> numbers;
  for (const LedgerItem& item : read_ledger()->items_in({})) {
    if (item.state == state) numbers.push_back(item.number);
  }
  return numbers.empty() ? "" : any(numbers);
}

std::string Workshop::any_open_sheet() {
  std::vector<std::string> open;
  const auto ledger = read_ledger();
  for (const LedgerSheet& sheet : ledger->sheets()) {
    for (const LedgerPlacement& placement : ledger->placements_on(sheet.number)) {
      if (placement.state != LedgerPlacement::State::on_sheet) continue;
      open.push_back(sheet.name);
      break;
    }
  }
  return open.empty() ? "" : any(open);
}

/// About half of what lies on it still.
std::string Workshop::some_pockets(const std::string& name) {
  const auto ledger = read_ledger();
  const auto sheet = ledger->sheet_named(name);
  std::string pockets;
  if (!sheet) return pockets;
  for (const LedgerPlacement& placement : ledger->placements_on(sheet->number)) {
    if (placement.state != LedgerPlacement::State::on_sheet || below(2) == 0) continue;
    pockets += (pockets.empty() ? "" : ",") + std::to_string(placement.pocket);
  }
  return pockets;
}

std::vector<Workshop::Deed> Workshop::deeds_of_a_day() {
  std::vector<Deed> deeds{Deed::measure, Deed::intake, Deed::day};
  static const std::vector<Deed> others{Deed::engraved, Deed::engraved, Deed::engraved, Deed::correct, Deed::correct,
                                        Deed::hold,     Deed::hold,     Deed::release,  Deed::cancel,  Deed::cancel,
                                        Deed::answer,   Deed::proof,    Deed::approve,  Deed::approve, Deed::align,
                                        Deed::resume,   Deed::remake,   Deed::spoil,    Deed::undo,    Deed::undo,
                                        Deed::move,     Deed::move,     Deed::take_off};
  for (int count = 2 + below(3); count > 0; --count) deeds.push_back(any(others));
  return deeds;
}

std::string Workshop::run(Deed deed) {
  static const char* names[] = {"measure", "intake", "day",    "engraved", "correct", "hold",
                                "release", "cancel", "answer", "proof",    "approve", "align",
                                "resume",  "remake", "spoil",  "undo",     "move",    "take-off"};
  const std::string name = names[static_cast<int>(deed)];
  const Result<Account> account = attempt(deed);
  if (account.ok()) ++counts_[name];
  return name + (account.ok() ? "" : ", refused: " + describe(account.fault()));
}

Result<Account> Workshop::attempt(Deed deed) {
  using What = CorrectionOptions::What;
  switch (deed) {
    case Deed::measure:
      return measure();
    case Deed::intake:
      return intake();
    case Deed::day:
      return lay();
    case Deed::engraved:
      return engrave();
    case Deed::correct:
      if (below(4) == 0) return set_otherwise(below(3) == 0 ? ItemState::received : ItemState::on_sheet);
      return correct(What::words, below(3) == 0 ? ItemState::received : ItemState::on_sheet, words());
    case Deed::hold:
      return correct(What::hold, below(3) == 0 ? ItemState::received : ItemState::on_sheet, "asked");
    case Deed::release:
      return correct(What::release, ItemState::held, "");
    case Deed::cancel:
      if (orders_.empty()) return measure();
      orders_[static_cast<std::size_t>(below(static_cast<int>(orders_.size())))].cancelled = true;
      return intake();
    case Deed::answer:
      return answer();
    case Deed::proof:
      return run_proof(shop_, {{}, folder_ / "proofs", {}, {}, "2026-11-25", call("proof")});
    case Deed::approve:
      return run_approve(shop_, {call("approve"), {any_item(ItemState::proofed)}});
    case Deed::align:
      return align();
    case Deed::resume:
      return resume();
    case Deed::remake:
      return remake();
    case Deed::spoil:
      return run_spoil(
          shop_, {call("spoil"), any_item(below(2) == 0 ? ItemState::on_sheet : ItemState::engraved), "", "it broke"});
    case Deed::undo:
      return run_undo(shop_, {call("undo"), touched_});
    case Deed::move:
      return move();
    case Deed::take_off:
      return correct(What::take_off, ItemState::on_sheet, "");
  }
  throw std::logic_error("no such deed");
}

Result<Account> Workshop::measure() {
  for (int count = 1 + below(3); count > 0; --count) pieces_file_ += row_of_piece();
  write("blanks.csv", pieces_file_);
  return Account{};
}

Result<Account> Workshop::intake() {
  static const std::vector<std::string> designs{"", "slate", "line", "pane", "asked"};
  for (int count = 1 + below(3); count > 0; --count) {
    orders_.push_back({std::to_string(++orders_made_), any(designs), words(), 1 + below(2), false});
  }
  if (below(5) == 0) orders_[static_cast<std::size_t>(below(static_cast<int>(orders_.size())))].text = words();
  std::string rows = "Order,Text,Quantity,Design,Status\n";
  const std::size_t first = orders_.size() > 12 ? orders_.size() - 12 : 0;  // exports show the latest
  for (std::size_t i = first; i < orders_.size(); ++i) {
    const Ordered& order = orders_[i];
    rows += order.number + "," + order.text + "," + std::to_string(order.quantity) + "," + order.design + "," +
            (order.cancelled ? "cancelled" : "") + "\n";
  }
  write("export.csv", rows);
  return run_intake(shop_, {call("intake"), folder_ / "export.csv", "", false});
}

Result<Account> Workshop::lay() {
  DayOptions options;
  options.pdf = false, options.dxf = below(12) == 0;
  options.date = "2026-11-25", options.workers = 1, options.call = call("day");
  return run_day(shop_, options);
}

Result<Account> Workshop::engrave() {
  const std::string sheet = touched_ = any_open_sheet();
  return run_engraved(shop_, {call("engraved"), {sheet}, below(2) == 0 ? "" : some_pockets(sheet)});
}

Result<Account> Workshop::correct(CorrectionOptions::What what, ItemState state, const std::string& value) {
  touched_ = any_item(state);
  return run_correction(shop_, {call("correct"), touched_, what, value});
}

Result<Account> Workshop::move() {
  touched_ = any_item(ItemState::on_sheet);
  MoveOptions options{call("move"), touched_, {}};
  if (below(3) > 0) {
    options.pocket = 1 + below(6);
  } else {
    options.piece = "P-" + std::to_string(1 + below(pieces_ + 1));
  }
  return run_move(shop_, options);
}

Result<Account> Workshop::set_otherwise(ItemState state) {
  static const std::vector<std::string> wishes{"size 4", "nudge 0.5,-0.5", "size 3; nudge -1,1", "lines kept",
                                               "design slate"};
  touched_ = any_item(state);
  const bool anew = below(3) == 0;
  const SettingWish wish = anew && below(2) == 0 ? SettingWish{} : kept_setting(any(wishes));
  return run_correction(shop_, {call("set"), touched_, CorrectionOptions::What::setting, "", wish, anew});
}

/// The board lies a little off, as it does.
Result<Account> Workshop::align() {
  const std::string sheet = any_open_sheet();
  const auto manifest = read_file(folder_ / "out/sheets" / (sheet + ".json"));
  if (!manifest.ok()) return manifest.fault();
  AlignOptions options;
  options.manifest = sheet, options.call = call("align");
  const auto read = read_manifest(*manifest, sheet);
  if (!read.ok()) return read.fault();
  for (const Point mark : read->marks) {
    std::string place;
    append_number(place, mark.x + 0.4, 3);
    append_number(place += ",", mark.y - 0.3, 3);
    options.measured.push_back(place);
  }
  return run_align(shop_, options);
}

Result<Account> Workshop::resume() {
  const std::string sheet = any_open_sheet();
  return run_resume(shop_, {call("resume"), sheet, some_pockets(sheet), "", "the power failed", {}});
}

Result<Account> Workshop::remake() {
  RemakeOptions options;
  options.item = any_item(ItemState::engraved), options.call = call("remake"), options.later = below(2) == 0;
  if (below(3) == 0) options.text = words();
  Result<Account> account = run_remake(shop_, options);
  if (account.ok()) {
    if (auto fault = acknowledge(shop_, options.call, *account)) return *std::move(fault);
  }
  return account;
}

Result<Account> Workshop::answer() {
  const auto questions = read_ledger()->open_questions();
  const std::int64_t question = questions.empty() ? 1 : any(questions).id;
  return run_answer(shop_, {call("answer"), question, static_cast<AnswerOptions::Answer>(below(3))});
}

}  // namespace ordinatio::days
