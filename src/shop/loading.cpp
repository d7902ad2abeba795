#include "shop/loading.h"

#include <algorithm>
#include <set>

#include "base/phrase.h"
#include "check/check.h"
#include "design/variant.h"
#include "shop/bookings.h"
#include "shop/piece_glass.h"
#include "shop/recompose.h"
#include "shop/redrawing.h"
#include "shop/sheet_time.h"
#include "shop/transaction.h"

namespace ordinatio::inline shop {
namespace {

/// A sheet exactly as its manifest has it, corrected where that was.
Result<Sheet> drawn_as_it_lies(const Manifest& manifest, Workroom& workroom) {
  Typesetter typesetter(workroom.fonts());
  const auto not_engraved = pieces_not_engraved(workroom);
  Sheet sheet{manifest.name, manifest.number,    frame_of(manifest), {}, {}, manifest.design_checksums,
              manifest.date, manifest.remake_of, manifest.correction};
  for (const ManifestItem& before : manifest.items) {
    if (auto fault = check_lying(not_engraved, before.piece.id, before.item.id)) return *std::move(fault);
    Result<SheetItem> item = recompose(workroom, typesetter, manifest, before, std::nullopt);
    if (!item.ok()) return item.fault();
    item->pocket = before.pocket;
    item->to_bed = before.to_bed;
    sheet.items.push_back(std::move(*item));
  }
  draw_parts(sheet);
  return sheet;
}

/// What the workshop wrote of the sheet's designs: under a design's whole name, else under that of its base.
std::vector<std::string> settings_for(const Sheet& sheet, const Shop& shop) {
  std::set<std::string> designs;
  for (const SheetItem& item : sheet.items) designs.insert(item.item.design);
  std::vector<std::string> settings;
  for (const std::string& design : designs) {
    auto written = std::ranges::find(shop.settings, design, &std::pair<std::string, std::string>::first);
    if (written == shop.settings.end()) {
      written =
          std::ranges::find(shop.settings, variant_named(design).base, &std::pair<std::string, std::string>::first);
    }
    if (written == shop.settings.end()) continue;
    const std::string text = designs.size() == 1 ? written->second : written->first + ": " + written->second;
    if (std::ranges::find(settings, text) == settings.end()) settings.push_back(text);
  }
  return settings;
}

/// Settings that no design will ever take are told before a bed is loaded without them.
MaybeFault check_settings(const Workroom& workroom) {
  for (const auto& [design, words] : workroom.shop().settings) {
    if (workroom.has_design(design)) continue;
    Fault fault = workroom.no_design(design);
    fault.where = (workroom.shop().folder / "shop.toml").string() + ": [settings]";
    return fault;
  }
  return std::nullopt;
}

struct SheetToLoad {
  Sheet sheet;
  std::vector<std::string> remarks = {};
};

/// That another drawing of it is to be run.
std::vector<std::string> remarks_on(const LedgerSheet& sheet) {
  const std::string aligned = sheet.name + "-aligned";
  if (!sheet.files.contains(aligned + ".json")) return {};
  return {"It was laid to its marks as they were measured: run " + aligned + "."};
}

class LoadingRun {
 public:
  LoadingRun(const Shop& shop, const LoadingOptions& options, Account& account)
      : options_(options), workroom_(shop), account_(account) {}

  MaybeFault in_ledger(Ledger& ledger) {
    if (auto fault = begin()) return fault;
    if (options_.sheets.empty()) {
      for (const LedgerSheet& sheet : ledger.sheets()) {
        if (!is_to_load(ledger, sheet)) continue;
        if (auto fault = put_or_hold(sheet.name, of_ledger(ledger, sheet))) return fault;
      }
      if (account_.sheets == 0 && account_.held.empty())
        account_.told.emplace_back("Nothing is left on a bed to engrave");
      return deliver();
    }
    for (const std::string& named : options_.sheets) {
      const Result<std::optional<LedgerSheet>> sheet = named_sheet(ledger, named);
      if (!sheet.ok()) return sheet.fault();
      if (auto fault = put_or_hold(named, *sheet ? of_ledger(ledger, **sheet) : of_manifest(named))) return fault;
    }
    return deliver();
  }

  MaybeFault of_files() {
    if (options_.sheets.empty()) {
      return Fault{"no sheet is named", "", "the workshop keeps no ledger that would know which beds are to be loaded",
                   "Name a sheet's manifest: ordinatio loading out/orders/sheet-001.json"};
    }
    if (auto fault = begin()) return fault;
    for (const std::string& named : options_.sheets) {
      if (auto fault = put_or_hold(named, of_manifest(named))) return fault;
    }
    return deliver();
  }

 private:
  [[nodiscard]] Result<std::optional<LedgerSheet>> named_sheet(Ledger& ledger, const std::string& named) const {
    if (!options_.by_name_alone) return sheet_to_align(ledger, named);
    const Result<LedgerSheet> sheet = sheet_meant(ledger, named);
    if (!sheet.ok()) return sheet.fault();
    return std::optional(*sheet);
  }

  MaybeFault begin() {
    if (auto fault = check_settings(workroom_)) return fault;
    Result<std::unique_ptr<Outbox>> outbox = Outbox::open(options_.out, "loading", Outbox::Earlier::of_the_name);
    if (!outbox.ok()) return outbox.fault();
    outbox_ = *std::move(outbox);
    return std::nullopt;
  }

  Result<SheetToLoad> of_ledger(Ledger& ledger, const LedgerSheet& sheet) {
    Result<Sheet> drawn = sheet_to_load(workroom_, ledger, sheet);
    if (!drawn.ok()) return drawn.fault();
    return SheetToLoad{*std::move(drawn), remarks_on(sheet)};
  }

  Result<SheetToLoad> of_manifest(const std::filesystem::path& file) {
    Result<Sheet> drawn = sheet_of_manifest(workroom_, file);
    if (!drawn.ok()) return drawn.fault();
    return SheetToLoad{*std::move(drawn)};
  }

  MaybeFault put_or_hold(const std::string& named, const Result<SheetToLoad>& loaded) {
    if (loaded.ok()) return put(*loaded);
    if (options_.sheets.size() == 1) return loaded.fault();
    account_.held.push_back({named, loaded.fault()});
    return std::nullopt;
  }

  MaybeFault put(const SheetToLoad& loaded) {
    const Sheet& sheet = loaded.sheet;
    const std::string name = loading_file_name(sheet.name);
    if (!names_.insert(name).second) {
      return Fault{"two of these sheets are called " + sheet.name, "", "one file would take the place of the other",
                   "Name one of them, and the other with --out"};
    }
    const Shop& shop = workroom_.shop();
    LoadingSheet page{sheet, shop.name, settings_for(sheet, shop), loaded.remarks};
    std::ranges::move(time_remarks(sheet_time(shop, sheet)), std::back_inserter(page.remarks));
    if (page.settings.empty()) {
      account_.notes.push_back(sheet.name + ": shop.toml has no [settings] for " +
                               (sheet.items.empty() ? "it" : sheet.items.front().item.design) +
                               ", so that none stand on its page");
    }
    const Result<std::string> pdf = write_loading_pdf(page, workroom_.fonts(), options_.paper);
    if (!pdf.ok()) return pdf.fault();
    const Result<std::string> written = outbox_->put(name, *pdf);
    if (!written.ok()) return written.fault();
    const Point paper = paper_measures(options_.paper);
    if (auto fault = check_loading(*written, sheet, paper.x, paper.y)) return fault;
    ++account_.sheets;
    account_.items_set += sheet.items.size();
    return std::nullopt;
  }

  MaybeFault deliver() {
    auto files = outbox_->deliver();
    if (!files.ok()) return files.fault();
    account_.files = *std::move(files);
    if (account_.sheets > 0) {
      account_.told.push_back(counted(account_.sheets, "bed") + " with " + counted(account_.items_set, "piece") +
                              ", each on its loading sheet");
    }
    return std::nullopt;
  }

  const LoadingOptions& options_;
  Workroom workroom_;
  Account& account_;
  std::unique_ptr<Outbox> outbox_;
  std::set<std::string> names_;
};

}  // namespace

Result<Sheet> sheet_to_load(Workroom& workroom, Ledger& ledger, const LedgerSheet& sheet) {
  const Result<Manifest> manifest = manifest_of(workroom.shop(), sheet);
  if (!manifest.ok()) return manifest.fault();
  if (sheet.kind == LedgerSheet::Kind::stands) return drawn_as_it_lies(*manifest, workroom);
  const std::vector<LedgerPlacement> still = still_on(ledger, sheet);
  if (still.empty()) {
    return Fault{"nothing is left on " + sheet.name + " to engrave", "", "",
                 "Look at what became of it: ordinatio history " + sheet.name};
  }
  if (manifest->correction) return drawn_as_it_lies(*manifest, workroom);
  return drawn_again(workroom, ledger, sheet, still, sheet.name, sheet.number);
}

Result<Sheet> sheet_of_manifest(Workroom& workroom, const std::filesystem::path& file) {
  const Result<Manifest> manifest = open_manifest(workroom.shop(), file);
  return manifest.ok() ? drawn_as_it_lies(*manifest, workroom) : manifest.fault();
}

bool is_to_load(Ledger& ledger, const LedgerSheet& sheet) {
  return sheet.kind != LedgerSheet::Kind::stands && !still_on(ledger, sheet).empty();
}

std::string loading_file_name(const std::string& sheet) { return plain_name(sheet) + "-loading.pdf"; }

Result<Account> run_loading(const Shop& shop, const LoadingOptions& options) {
  if (has_ledger(shop)) {
    return from_ledger(shop, options.call, [&](Ledger& ledger, Account& account) {
      return LoadingRun(shop, options, account).in_ledger(ledger);
    });
  }
  Account account;
  if (auto fault = LoadingRun(shop, options, account).of_files()) return *std::move(fault);
  return account;
}

}  // namespace ordinatio::inline shop
