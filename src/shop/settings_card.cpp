#include "shop/settings_card.h"

#include <algorithm>

#include "bed/settings_card.h"
#include "blanks/blanks.h"
#include "design/variant.h"
#include "shop/outbox.h"

namespace ordinatio::inline shop {
namespace {

/// What was given on the command line, else what shop.toml has; but where any two are given, those alone.
Result<std::vector<TrialValues>> trials_of(const Shop& shop, const SettingsCardOptions& options) {
  const std::pair<std::string_view, const std::string*> given[] = {
      {"speed", &options.speed}, {"power", &options.power}, {"pitch", &options.pitch}};
  const auto count = std::ranges::count_if(given, [](const auto& one) { return !one.second->empty(); });
  std::vector<TrialValues> trials;
  for (const auto& [what, text] : given) {
    const auto kept = shop.settings_card.tried.find(what);
    const bool from_shop = text->empty() && count < 2 && kept != shop.settings_card.tried.end();
    if (text->empty() && !from_shop) continue;
    Result<TrialValues> trial = read_trial_values(what, from_shop ? kept->second : *text);
    if (!trial.ok()) return trial.fault();
    trials.push_back(*std::move(trial));
  }
  if (trials.size() == 2) return trials;
  return Fault{
      "a settings card tries two things against each other, not " + std::to_string(trials.size()), "",
      "of speed, power and pitch the program proposes none",
      "Give two of them, such as --speed \"100, 200, 400 mm/s\" --power \"20 to 80 by 20 %\", or write them into "
      "[settings_card] in shop.toml"};
}

/// The piece's size, and the piece, where one is named.
struct CardPiece {
  Point size;
  std::optional<Blank> blank;
};

Result<CardPiece> blank_named(Workroom& workroom, const SettingsCardOptions& options) {
  const auto station = workroom.station(workroom.shop().default_design);
  if (!station.ok()) return station.fault();
  const LaidDesign& design = (*station)->design;
  const Result<Blanks> blanks = read_blanks(options.blanks, design.width, design.height, design.blank.outline);
  if (!blanks.ok()) return blanks.fault();
  const auto row =
      std::ranges::find_if(blanks->rows, [&](const BlankRow& one) { return one.blank.id == options.blank; });
  if (row == blanks->rows.end()) {
    std::vector<std::string_view> ids;
    for (const BlankRow& one : blanks->rows) ids.push_back(one.blank.id);
    const auto nearest = nearest_word(options.blank, ids);
    return Fault{"no piece is called \"" + options.blank + "\"", options.blanks.string(), "",
                 nearest ? "Did you mean \"" + *nearest + "\"?" : "Name a piece of that file"};
  }
  if (!row->used.empty()) {
    return Fault{"the piece " + options.blank + " is used", row->source, "for " + row->used, "Take a spare one"};
  }
  return CardPiece{{row->width, row->height}, row->blank};
}

Result<CardPiece> piece_of(Workroom& workroom, const SettingsCardOptions& options) {
  if (!options.blank.empty()) return blank_named(workroom, options);
  const std::string& text = options.size.empty() ? workroom.shop().settings_card.size : options.size;
  const auto size = size_named(text);
  if (!size) {
    return Fault{text.empty() ? "the card has no size" : "\"" + text + "\" is no size", "--size", "",
                 "Write it in mm, such as --size 80x60, or name a spare piece: --blank S-12"};
  }
  return CardPiece{*size, std::nullopt};
}

/// A named piece may have chips, corners and old stamps: no cell may lie there.
MaybeFault check_on_blank(const Sheet& sheet, const Blank& blank) {
  Polygons missing;
  for (const KeptClear& thing : blank.kept_clear) std::ranges::move(outline_of(thing), std::back_inserter(missing));
  missing.insert(missing.end(), blank.chips.begin(), blank.chips.end());
  constexpr double grid = 1e-4, touch = 0.01;  // mm; mm²
  const Polygons piece = difference(polygons_of(path_of(blank.outline), curve_tolerance), missing, grid);
  for (const SheetPart& part : sheet.parts) {
    if (part.operation == Operation::guide) continue;
    const Polygons box{polygon_of_box(bounds_of(part.path))};
    if (area_of(box) - area_of(intersection(box, piece, grid)) <= touch) continue;
    return Fault{part.title + " would leave the piece " + blank.id + ", or lie on what is kept clear", "", "",
                 "Try fewer values, or take another piece"};
  }
  return std::nullopt;
}

void tell_card(Account& account, const SettingsCardPlan& plan) {
  account.sheets = 1;
  account.items_set = plan.across.values.size() * plan.down.values.size();
  account.notes.emplace_back(
      "each cell has a group of its own in the SVG and a layer of its own in the DXF, named by its values: set "
      "the machine for each as its name says; the labels are on the operation mark, the edge on guide");
  account.notes.emplace_back(
      "look at it under the light that the piece will hang in, choose a cell, and write its values into "
      "[settings] in shop.toml");
}

}  // namespace

Result<Account> run_settings_card(const Shop& shop, const SettingsCardOptions& options) {
  Result<std::vector<TrialValues>> trials = trials_of(shop, options);
  if (!trials.ok()) return trials.fault();
  Workroom workroom(shop);
  const Result<CardPiece> piece = piece_of(workroom, options);
  if (!piece.ok()) return piece.fault();
  SettingsCardPlan plan{piece->size.x, piece->size.y, (*trials)[0], (*trials)[1], shop.hatch};
  if (plan.hatch && plan.hatch->lines.spot == 0) plan.hatch->lines.spot = shop.plan.machine.spot;
  const Result<Sheet> sheet = build_settings_card(plan, shop.plan);
  if (!sheet.ok()) return sheet.fault();
  if (piece->blank) {
    if (auto fault = check_on_blank(*sheet, *piece->blank)) return *std::move(fault);
  }
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(options.out, sheet->name + ".");
  if (!outbox.ok()) return outbox.fault();
  if (auto fault = put_sheet(**outbox, workroom, *sheet, {}, std::nullopt)) return *std::move(fault);
  auto files = (*outbox)->deliver();
  if (!files.ok()) return files.fault();
  Account account;
  tell_card(account, plan);
  account.files = *std::move(files);
  return account;
}

}  // namespace ordinatio::inline shop
