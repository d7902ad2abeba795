#include "workshop.h"
#include "base/account.h"
#include "shop/day.h"
#include "shop/proof.h"
#include "shop/remake.h"
#include "shop/stands.h"

#include <fstream>
#include <map>
#include <stdexcept>

#include "shop/ledger_access.h"

namespace ordinatio::crash {
namespace fs = std::filesystem;
namespace {

constexpr const char* shop_file = R"(
[shop]
name = "Quernby Watermill"
design = "plate"
stand_design = "stand"

[ledger]
file = "workshop.ledger"

[machine]
width = 240
height = 90

[jig]
rows = 1
columns = 3
pitch = [72, 50]
first = [20, 20]
pocket = [62, 42]

[marks]
kind = "target"
size = 6
count = 3

[files]
tolerance = 0.05
)";

constexpr const char* plate = R"(
[blank]
width = 60
height = 40
[clear]
margin = 4
[text]
words = "inscription"
font = "serif"
cap_height = { min = 2, max = 12 }
)";

constexpr const char* stand = R"(
[blank]
width = 50
height = 20
[clear]
margin = 2
[[text]]
lines = ["TILL"]
font = "sans"
box = [4, 10, 42, 7]
cap_height = { min = 2, max = 4 }
[[text]]
date = "iso"
font = "sans"
box = [4, 3, 42, 5]
cap_height = { min = 2, max = 3 }
)";

const std::map<std::string, std::string>& files() {
  static const std::map<std::string, std::string> all{
      {"templates/plate.toml", plate},
      // Nothing is engraved of this one that the customer has not said yes to.
      {"templates/promised.toml", "approval = true\n" + std::string(plate)},
      {"templates/stand.toml", stand},
      {"monday.csv", "Order,Text,Quantity,Design\n1042,ILT,2,\n1043,TIL,1,promised\n"},
      {"tuesday.csv", "Order,Text,Quantity,Design\n1042,LIT,2,\n1043,TIL,1,promised\n1044,LIL,1,\n,TIT,1,\n"},
      {"blanks.csv", "id,width,height,corners\nS-1,60,40,\nS-2,59,40,\nS-3,60,39,cut 4\nS-4,58,39,\nS-5,60,40,\n"}};
  return all;
}

void put(const fs::path& path, const std::string& bytes) {
  fs::create_directories(path.parent_path());
  std::ofstream file(path, std::ios::binary);
  file << bytes;
  if (!file.flush()) throw std::runtime_error("cannot write " + path.string());
}

using Work = std::function<Result<Account>(const Shop&, const LedgerCall&)>;

Work intake(const std::string& orders) {
  return [=](const Shop& shop, const LedgerCall& call) {
    return run_intake(shop, {call, shop.folder / orders, "", false});
  };
}

Work setting(const std::string& item, const std::string& wish) {
  return [=](const Shop& shop, const LedgerCall& call) {
    return run_correction(shop, {call, item, CorrectionOptions::What::setting, "", kept_setting(wish)});
  };
}
Work correction(CorrectionOptions::What what, const std::string& item, const std::string& value) {
  return [=](const Shop& shop, const LedgerCall& call) { return run_correction(shop, {call, item, what, value}); };
}

Work move(const std::string& item, std::optional<int> pocket, const std::string& piece = "") {
  return [=](const Shop& shop, const LedgerCall& call) { return run_move(shop, {call, item, pocket, piece}); };
}

Work proof(const std::string& item) {
  return [=](const Shop& shop, const LedgerCall& call) {
    return run_proof(shop, {{}, shop.folder / "out" / "proofs", {}, {item}, "2026-11-25", call});
  };
}

Work approve(const std::string& item) {
  return [=](const Shop& shop, const LedgerCall& call) { return run_approve(shop, {call, {item}, {}}); };
}

Work day(const std::string& orders) {
  return [=](const Shop& shop, const LedgerCall& call) {
    DayOptions options;
    if (!orders.empty()) options.orders = shop.folder / orders;
    options.dxf = options.pdf = false;
    options.date = "2026-11-25";
    options.workers = 1;
    options.call = call;
    return run_day(shop, options);
  };
}

Work engraved(const std::string& sheet, const std::string& pockets) {
  return [=](const Shop& shop, const LedgerCall& call) { return run_engraved(shop, {call, {sheet}, pockets}); };
}

Work spoil(const std::string& item, const std::string& blank) {
  return [=](const Shop& shop, const LedgerCall& call) {
    return run_spoil(shop, {call, item, blank, "chipped as it was lifted"});
  };
}

Work remake(const std::string& item) {
  return [=](const Shop& shop, const LedgerCall& call) {
    RemakeOptions options;
    options.item = item;
    options.pocket = 3;
    options.reason = "the lens was dirty";
    options.call = call;
    return run_remake(shop, options);
  };
}

Work resume(const std::string& sheet, const std::string& done, const std::string& spoiled) {
  return [=](const Shop& shop, const LedgerCall& call) {
    return run_resume(shop, {call, sheet, done, spoiled, "the bed was interrupted", {}});
  };
}

Work stands() {
  return [](const Shop& shop, const LedgerCall& call) {
    StandOptions options;
    options.date = "2026-11-26";
    options.batch = "oak";
    options.call = call;
    return run_stands(shop, options);
  };
}

Work pack(const std::string& order) {
  return [=](const Shop& shop, const LedgerCall& call) { return run_pack(shop, {call, {}, {order}}); };
}

Work undo(const std::string& item) {
  return [=](const Shop& shop, const LedgerCall& call) { return run_undo(shop, {call, item}); };
}

Work let_go(const std::string& row) {
  return [=](const Shop& shop, const LedgerCall& call) { return run_let_go(shop, {call, {row}}); };
}

Work answer() {
  return [](const Shop& shop, const LedgerCall& call) {
    return run_answer(shop, {call, 1, AnswerOptions::Answer::take});
  };
}

Work backup() {
  return [](const Shop& shop, const LedgerCall& call) { return run_backup(shop, call, shop.folder / "copy.ledger"); };
}

}  // namespace

void make_workshop(const fs::path& folder, Pieces pieces) {
  const bool measured = pieces == Pieces::measured;
  put(folder / "shop.toml", shop_file + std::string(measured ? "\n[blanks]\nfile = \"blanks.csv\"\n" : ""));
  for (const auto& [name, bytes] : files()) put(folder / name, bytes);
}

std::vector<Command> week_of(Pieces pieces) {
  using What = CorrectionOptions::What;
  const bool measured = pieces == Pieces::measured;
  std::vector<Command> week;
  const auto then = [&](const std::string& name, Work work) {
    const std::size_t minute = 10 + week.size();
    const bool draws = name == "proof" || name == "resume" || name == "remake" || name == "stands";
    week.push_back({name, std::move(work), "2026-11-25T08:" + std::to_string(minute) + ":00Z", draws});
  };
  then("intake", intake("monday.csv"));
  then("correct", correction(What::words, "1042-1", "LIT"));
  then("correct", correction(What::words, "1042-1", "TIL"));
  then("undo", undo("1042-1"));  // of the second correction; the first could be taken back, too
  then("hold", correction(What::hold, "1042-2", "the customer is asked"));
  then("release", correction(What::release, "1042-2", ""));
  then("cancel", correction(What::cancel, "1042-2", "asked by letter"));
  then("undo", undo("1042-2"));
  then("first", correction(What::first, "1042-2", ""));
  then("set", setting("1042-2", "size 4; nudge 0.5,0"));
  then("proof", proof("1043-1"));
  if (measured) then("pin", correction(What::pin, "1042-1", "S-2"));
  then("approve", approve("1043-1"));
  then("day", day(""));
  then("move", move("1042-2", 3));  // they change places
  if (measured) then("move", move("1042-1", {}, "S-5"));
  if (measured) then("undo", undo("1042-1"));
  then("undo", undo("1042-2"));
  then("take-off", correction(What::take_off, "1042-2", ""));
  then("undo", undo("1042-2"));
  then("engraved", engraved("sheet-001", "1"));
  then("spoil", spoil("1042-2", ""));
  if (measured) then("spoil", spoil("", "S-5"));
  then("resume", resume("sheet-001", "2", ""));
  then("remake", remake("1042-1"));
  then("day", day("tuesday.csv"));
  then("answer", answer());
  then("let-go", let_go("row-1"));
  then("engraved", engraved("rest-002", ""));
  then("stands", stands());
  then("pack", pack("1043"));
  then("backup", backup());
  return week;
}

Result<Account> run_command(const Command& command, const fs::path& folder, const std::function<void()>& report) {
  const Result<Shop> shop = read_shop(folder);
  if (!shop.ok()) return shop.fault();
  LedgerCall call;
  call.now = command.now;
  call.cause = command.name;
  call.wait = 0;
  call.to_be_heard = true;
  Result<Account> account = command.work(*shop, call);
  if (!account.ok()) return account;
  if (report) report();
  if (const MaybeFault fault = acknowledge(*shop, call, *account)) return *fault;
  return account;
}

}  // namespace ordinatio::crash
