#include "shop/renewal.h"

#include <algorithm>

#include "base/account.h"
#include "manifest/manifest.h"
#include "shop/bookings.h"
#include "shop/sheet_time.h"
#include "shop/transaction.h"

namespace ordinatio::inline shop {
namespace fs = std::filesystem;
namespace {

using State = LedgerPlacement::State;

std::vector<std::string> files_in_place(const LedgerSheet& sheet) {
  std::vector<std::string> names;
  for (const auto& [name, checksum] : sheet.files) {
    if (!is_aside(name)) names.push_back(name);
  }
  return names;
}

SheetFormats formats_of(const LedgerSheet& sheet, const std::vector<std::string>& names) {
  const auto has = [&](const char* kind) { return std::ranges::find(names, sheet.name + kind) != names.end(); };
  // All that it had went aside when nothing was left on it.
  return names.empty() ? SheetFormats() : SheetFormats{has(".svg"), has(".dxf"), has(".pdf"), has(".png")};
}

void tell_renewed(const Shop& shop, const LedgerSheet& sheet, const std::string& earlier, bool is_void,
                  Account& account) {
  const std::string folder = (folder_on_disk(shop, sheet) / earlier).lexically_normal().string();
  account.told.push_back(sheet.name +
                         (is_void ? " has nothing left to engrave, and no files any more: those that it had are in "
                                  : " is written anew; its files of before are in ") +
                         folder);
  const std::string aligned = sheet.name + "-aligned";
  const auto is_aligned = [&](const std::string& name) { return name.starts_with(aligned); };
  if (!is_void && std::ranges::any_of(files_in_place(sheet), is_aligned)) {
    account.warnings.push_back(aligned + " is gone with them: lay " + sheet.name +
                               " to its marks again: ordinatio align " + sheet.name);
  }
}

/// One sheet written anew, after a command's own transaction.
class Renewal {
 public:
  Renewal(const Shop& shop, Ledger& ledger, const std::string& asked, const LedgerSheet& sheet, Account& account)
      : shop_(shop_as_written(shop, sheet)), ledger_(ledger), asked_(asked), sheet_(sheet), account_(account) {}
  void run();

 private:
  void tell_failure(const Fault& fault);

  Shop shop_;
  Ledger& ledger_;
  const std::string& asked_;
  const LedgerSheet& sheet_;
  Account& account_;
};

void Renewal::tell_failure(const Fault& fault) {
  const bool may_come_right = fault.cause == Fault::Cause::machine;
  const std::string why = outdated_by(ledger_, sheet_);
  account_.warnings.push_back(sheet_.name + (why.empty() ? "" : " is stale: " + why) +
                              ". Its files could not be written anew: " + describe(fault) +
                              (may_come_right ? " The next command tries again." : "") +
                              " Do not run them as they are");
  if (may_come_right) return;
  const auto unmarked =
      transact(shop_, ledger_, EntryKind::renewal, asked_, account_, [&](Ledger&, Account&, Delivery&) {
        ledger_.mark_stale(sheet_, describe(fault));
        return MaybeFault();
      });
  if (unmarked) account_.warnings.push_back(describe(*unmarked));
}

void Renewal::run() {
  Workroom workroom(shop_);
  const auto fault = transact(
      shop_, ledger_, EntryKind::renewal, asked_, account_, [&](Ledger& ledger, Account& account, Delivery& delivery) {
        return write_anew(workroom, ledger, delivery, sheet_, outdated_by(ledger, sheet_), account);
      });
  if (fault) tell_failure(*fault);
}

}  // namespace

Shop shop_as_written(const Shop& shop, const LedgerSheet& sheet) {
  constexpr std::size_t head = 1024;  // bytes: the version stands among the first lines
  Shop then = shop;
  const Result<std::string> dxf = read_file(folder_on_disk(shop, sheet) / (sheet.name + ".dxf"));
  if (!dxf.ok()) return then;
  const std::string_view begin = std::string_view(*dxf).substr(0, head);
  if (begin.find("AC1015") != std::string_view::npos) then.dxf.version = DxfVersion::r2000;
  if (begin.find("AC1009") != std::string_view::npos) then.dxf.version = DxfVersion::r12;
  return then;
}

MaybeFault write_anew(Workroom& workroom, Ledger& ledger, Delivery& delivery, const LedgerSheet& sheet,
                      const std::string& why, Account& account, const std::optional<SheetItem>& anew) {
  const Shop& shop = workroom.shop();
  const std::vector<LedgerPlacement> still = still_on(ledger, sheet);
  auto outbox = Outbox::open(folder_on_disk(shop, sheet), sheets_stem, Outbox::Earlier::of_the_name);
  if (!outbox.ok()) return outbox.fault();
  delivery.outbox = *std::move(outbox);
  if (!still.empty()) {
    const Result<Sheet> drawn = drawn_again(workroom, ledger, sheet, still, sheet.name, sheet.number, anew);
    if (!drawn.ok()) return drawn.fault();
    if (auto fault = put_sheet(*delivery.outbox, workroom, *drawn, formats_of(sheet, files_in_place(sheet)),
                               sheet_time(shop, *drawn)))
      return fault;
  }
  const auto earlier = plan_files(shop, ledger, delivery, sheet, files_in_place(sheet),
                                  (still.empty() ? "nothing is left on it; " : "its files are written anew; ") + why);
  if (!earlier.ok()) return earlier.fault();
  ledger.mark_drawn(sheet);
  tell_renewed(shop, sheet, *earlier, still.empty(), account);
  return std::nullopt;
}

void mark_lacking(const Shop& shop, Ledger& ledger, const std::vector<std::int64_t>& items) {
  for (const std::int64_t item : items) {
    const auto placement = ledger.placement_of(item);
    if (!placement || placement->state != State::on_sheet) continue;
    const LedgerSheet sheet = *ledger.sheet(placement->sheet);
    const std::string name = sheet.name + "-aligned.json";
    if (!sheet.files.contains(name)) continue;
    const Result<std::string> bytes = read_file(folder_on_disk(shop, sheet) / name);
    const Result<Manifest> manifest = bytes.ok() ? read_manifest(*bytes, name) : Result<Manifest>(bytes.fault());
    if (!manifest.ok() || !find_item(*manifest, ledger.item(item)->number).ok()) ledger.mark_undrawn(*placement);
  }
}

std::string outdated_by(Ledger& ledger, const LedgerSheet& sheet) {
  std::string shown, lacking;
  for (const LedgerPlacement& placement : ledger.placements_on(sheet.number)) {
    const bool is_on = placement.state == State::on_sheet;
    if (is_on == placement.drawn) continue;
    if (!is_on && placement.state == State::engraved) continue;
    std::string& list = is_on ? lacking : shown;
    list += (list.empty() ? "" : ", ") + with_check(ledger.item(placement.item)->number) +
            (is_on ? "" : " (" + std::string(name_of(placement.state)) + ")");
  }
  std::string text;
  if (!shown.empty()) text = "its files show " + shown;
  if (!lacking.empty()) text += (text.empty() ? "its files lack " : " and lack ") + lacking;
  return text;
}

std::string stale_text(Ledger& ledger, const LedgerSheet& sheet) {
  return sheet.name + " is stale: " + outdated_by(ledger, sheet) +
         (sheet.stale.empty() ? "; the next command that changes the ledger writes it anew"
                              : "; it could not be written anew: " + sheet.stale);
}

void renew_sheets(const Shop& shop, Ledger& ledger, const std::string& asked, Account& account) {
  for (const LedgerSheet& sheet : ledger.outdated_sheets()) {
    if (sheet.stale.empty()) Renewal(shop, ledger, asked, sheet, account).run();
  }
}

}  // namespace ordinatio::inline shop
