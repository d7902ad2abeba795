#include "shop_commands.h"

#include "base/harmless.h"
#include "command_tree.h"
#include "printing.h"
#include "shop/align.h"
#include "shop/blank_pictures.h"
#include "shop/day.h"
#include "shop/design_specimen.h"
#include "shop/jig.h"
#include "shop/loading.h"
#include "shop/panes.h"
#include "shop/photo_piece.h"
#include "shop/proof.h"
#include "shop/remake.h"
#include "shop/specimen.h"
#include "shop/stands.h"

namespace ordinatio {
namespace {

namespace fs = std::filesystem;

fs::path out_folder(const Common& common, const Shop& shop, const fs::path& name) {
  return common.out.empty() ? shop.folder / "out" / name : common.out;
}

int run_new(const fs::path& folder) {
  if (const auto fault = new_shop(folder)) return report_fault(*fault);
  const std::string place = harmless(folder.string());
  return print_page("A workshop is in " + place + ". Next:\n  cd " + place + " && ordinatio day orders.csv\n");
}

/// The workshop, its sheets for the machine of that name.
Result<Shop> shop_with(const Common& common, const std::string& machine) {
  Result<Shop> shop = read_shop(common.shop);
  if (!shop.ok() || machine.empty()) return shop;
  if (auto fault = choose_machine(*shop, machine)) return *std::move(fault);
  return shop;
}

int run_day_command(const Common& common, DayOptions options, const std::string& dxf, const std::string& machine) {
  Result<Shop> shop = shop_with(common, machine);
  if (!shop.ok()) return report_fault(shop.fault());
  if (!dxf.empty()) shop->dxf.version = dxf == "R12" ? DxfVersion::r12 : DxfVersion::r2000;
  options.call = ledger_call(common);
  options.out = common.out;
  return report(run_day(*shop, options, progress_line("setting")), common, "sheet");
}

int run_proof_command(const Common& common, ProofOptions options, const std::string& paper) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop.ok()) return report_fault(shop.fault());
  options.paper = paper_named(paper).value_or(PaperSize::fitting);
  options.call = ledger_call(common);
  options.out = out_folder(common, *shop, "proofs");
  return report(run_proof(*shop, options, progress_line("making proofs:")), common, "proof");
}

int run_remake_command(const Common& common, RemakeOptions options) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop.ok()) return report_fault(shop.fault());
  options.call = ledger_call(common);
  options.out = common.out;
  if (options.text) options.text = lines_of(*options.text);
  return report(run_remake(*shop, options), common, "sheet");
}

int run_align_command(const Common& common, AlignOptions options) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop.ok()) return report_fault(shop.fault());
  options.call = ledger_call(common);
  options.out = common.out;
  return report(run_align(*shop, options), common, "sheet");
}

int run_loading_command(const Common& common, LoadingOptions options, const std::string& paper) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop.ok()) return report_fault(shop.fault());
  options.paper = paper_named(paper).value_or(PaperSize::a4);
  options.call = ledger_call(common);
  options.out = out_folder(common, *shop, "loading");
  return report(run_loading(*shop, options), common, "");
}

int run_jig_command(const Common& common, JigOptions options, const std::string& machine) {
  const Result<Shop> shop = shop_with(common, machine);
  if (!shop.ok()) return report_fault(shop.fault());
  options.out = out_folder(common, *shop, "jig");
  return report(run_jig(*shop, options), common, "pocket");
}

int run_stands_command(const Common& common, StandOptions options, const std::string& machine) {
  const Result<Shop> shop = shop_with(common, machine);
  if (!shop.ok()) return report_fault(shop.fault());
  options.call = ledger_call(common);
  options.out = common.out;
  return report(run_stands(*shop, options, progress_line("setting")), common, "sheet");
}

int run_specimen_command(const Common& common, SpecimenOptions options, bool of_designs,
                         const std::vector<std::string>& designs) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop.ok()) return report_fault(shop.fault());
  options.out = out_folder(common, *shop, "specimen");
  if (of_designs || !designs.empty()) {
    return report(run_design_specimen(*shop, {designs, options.text, options.out}, progress_line("setting")), common,
                  "design");
  }
  return report(run_specimen(*shop, options, progress_line("opening")), common, "face");
}

int run_blanks_command(const Common& common, BlankOptions options) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop.ok()) return report_fault(shop.fault());
  if (options.blanks.empty()) options.blanks = shop->folder / "blanks.csv";
  options.out = out_folder(common, *shop, "blanks");
  return report(run_blanks(*shop, options), common, "piece");
}

int run_panes_command(const Common& common, PanesOptions options) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop.ok()) return report_fault(shop.fault());
  if (options.panes.empty()) options.panes = shop->folder / "panes.csv";
  options.out = out_folder(common, *shop, "panes");
  return report(run_panes(*shop, options, progress_line("planning")), common, "blank");
}

int run_settings_card_command(const Common& common, SettingsCardOptions options) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop.ok()) return report_fault(shop.fault());
  if (options.blanks.empty()) options.blanks = shop->folder / "blanks.csv";
  options.out = out_folder(common, *shop, "settings-card");
  return report(run_settings_card(*shop, options), common, "cell");
}

}  // namespace

void ShopCommands::add_to(CLI::App& app, Common& common, int& code) {
  common_ = &common;
  code_ = &code;
  add_new(app);
  add_day(app);
  add_proof(app);
  add_remake(app);
  add_align(app);
  add_loading(app);
  add_stands(app);
  add_jig(app);
  add_specimen(app);
  add_blanks(app);
  add_panes(app);
  add_card(app);
  add_settings_card(app);
  add_measure(app);
}

void ShopCommands::add_new(CLI::App& app) {
  CLI::App* command = app.add_subcommand("new", "Make a workshop folder that works as it is");
  command->group(sheet_commands);
  command->add_option("FOLDER", folder_, "the folder, new or empty")->required()->type_name("FOLDER");
  show_examples(*command, {{"ordinatio new my-workshop", "then: cd my-workshop, and ordinatio day orders.csv"}});
  command->callback([this] { *code_ = run_new(folder_); });
}

void ShopCommands::add_machine_option(CLI::App* command) {
  command->add_option("--machine", machine_, "the machine that it is for, of several (default: the first in shop.toml)")
      ->type_name("WORDS");
}

void ShopCommands::add_day(CLI::App& app) {
  CLI::App* command = app.add_subcommand("day", "Turn a day's orders into sheets");
  command->group(sheet_commands);
  command
      ->add_option(
          "ORDERS", day_.orders,
          "the orders, a CSV file (default: orders.csv in the workshop; with a ledger none: what waits is laid)")
      ->type_name("FILE");
  command->add_option("--date", day_.date, "the day for designs with a date mark, such as 2026-11-25")
      ->type_name("DATE");
  command->add_option("--blanks", day_.blanks, "the measured pieces, a CSV file (default: as shop.toml says)")
      ->type_name("FILE");
  choose_from(
      command->add_option("--dxf", dxf_, "every reader takes R12; R2000 is smaller (default: as shop.toml says)"),
      {"R12", "R2000"});
  add_machine_option(command);
  command->add_flag("!--no-svg", day_.svg, "write no SVG");
  command->add_flag("!--no-dxf", day_.dxf, "write no DXF");
  command->add_flag("!--no-pdf", day_.pdf, "write no PDF");
  command->add_flag("--png", day_.png, "write a PNG picture of each sheet too");
  command->add_option("--channel", day_.channel, "where the orders were sold, put in front of their numbers")
      ->check(plain_words())
      ->type_name("WORD");
  command->add_flag("--dry-run", day_.dry_run, "with a ledger: say what would be taken in, and change nothing");
  add_samples_option(command, *common_);
  add_common(command, *common_, "out/, then the name of the orders; with a ledger out/sheets");
  add_clock_options(command, *common_);
  show_examples(*command, {{"ordinatio day orders.csv", "out/orders/sheet-001.svg, .dxf, .pdf and .json, and so on"},
                           {"ordinatio day orders.csv --png --dxf R2000", "with pictures, and a smaller DXF"}});
  command->callback([this] { *code_ = run_day_command(*common_, day_, dxf_, machine_); });
}

void ShopCommands::add_proof(CLI::App& app) {
  CLI::App* command = app.add_subcommand("proof", "Show the customers what will be engraved: a PDF, a page an item");
  command->group(sheet_commands);
  command
      ->add_option("ORDERS", proof_.orders,
                   "the orders, a CSV file (default: orders.csv in the workshop; with a ledger none)")
      ->type_name("FILE");
  command->add_option("--item", proof_.items, "only this item, such as 1002-2 or 1002-2/M")->type_name("ITEM");
  command->add_option("--blanks", proof_.blanks, "the measured pieces, a CSV file (default: as shop.toml says)")
      ->type_name("FILE");
  command->add_option("--date", proof_.date, "the day for designs with a date mark, such as 2026-11-25")
      ->type_name("DATE");
  command->add_flag("--png", proof_.pictures, "write a picture of each item too, to be sent to its customer");
  command->add_option("--width", proof_.picture_width, "how many pixels wide those pictures are (default: 1600)")
      ->type_name("NUMBER");
  command->add_flag("--contact", proof_.contact_sheet, "write a page of all of them small, too");
  choose_from(
      command->add_option("--paper", paper_,
                          "what they are printed on; where it is too small for a piece, the page says its scale "
                          "(default: A4, or what the piece needs)"),
      {"a3", "a4", "a5", "letter"});
  add_samples_option(command, *common_);
  add_common(command, *common_, "out/proofs");
  add_clock_options(command, *common_);
  show_examples(*command, {{"ordinatio proof orders.csv", "out/proofs/proofs.pdf"},
                           {"ordinatio proof orders.csv --item 1002-2", "that item alone"},
                           {"ordinatio proof orders.csv --png --contact", "pictures to send, and all of them small"}});
  command->callback([this] { *code_ = run_proof_command(*common_, proof_, paper_); });
}

void ShopCommands::add_remake(CLI::App& app) {
  CLI::App* command = app.add_subcommand("remake", "Make one item again, alone, as it was or corrected");
  command->group(sheet_commands);
  command->add_option("ITEM", remake_.item, "the item, such as 1002-2 or, with its check character, 1002-2/M")
      ->required()
      ->type_name("ITEM");
  command
      ->add_option("--sheet", remake_.manifest,
                   "the manifest (.json) of the sheet it was on; with a ledger it is known")
      ->type_name("FILE");
  command->add_option("--pocket", remake_.pocket, "another pocket than before")->type_name("NUMBER");
  command
      ->add_option("--text", remake_.text, "the corrected words, \\n begins a new line; without them exactly as it was")
      ->type_name("WORDS");
  command->add_option("--blank", remake_.blank, "the piece to make it on; without one a free piece that takes it")
      ->type_name("BLANK");
  command->add_option("--reason", remake_.reason, "why: the spoiled piece is written off with it")->type_name("WORDS");
  command->add_flag("--later", remake_.later, "not now: first in line on the next day's sheets");
  command
      ->add_option("--corners", remake_.corners,
                   "a piece laid by hand: where its lower left and lower right corner are on the bed, or all four")
      ->expected(2, 4)
      ->type_name("X,Y");
  command->add_option("--limit", remake_.limit, "how far a corner may be off (default: 1)")->type_name("MM");
  add_common(command, *common_, "out/remake; with a ledger out/sheets");
  add_clock_options(command, *common_);
  show_examples(*command, {{"ordinatio remake 1002-2 --sheet out/orders/sheet-001.json --pocket 7",
                            "the same again, in pocket 7"},
                           {"ordinatio remake 1002-2 --text \"The right words\" --reason \"a letter was missing\"",
                            "with a ledger: other words, and the piece is written off"},
                           {"ordinatio remake 1001-1 --sheet out/orders/sheet-001.json --corners 120.5,80.2 272.8,81.0",
                            "on a piece that lies by its measured corners"}});
  command->callback([this] { *code_ = run_remake_command(*common_, remake_); });
}

void ShopCommands::add_align(CLI::App& app) {
  CLI::App* command = app.add_subcommand("align", "Lay a sheet to where its marks were measured on the machine");
  command->group(sheet_commands);
  command->add_option("SHEET", align_.manifest, "the manifest (.json) of the sheet; with a ledger its name will do")
      ->required()
      ->type_name("FILE");
  command
      ->add_option("--measured", align_.measured,
                   "where every mark is on the machine, in order and in mm; or 2:X,Y of two or three of them")
      ->required()
      ->type_name("X,Y");
  choose_from(command->add_option("--allow", allowed_,
                                  "what may differ: the sheet's turn (default), its scale too, or each axis by itself"),
              {"turn", "scale", "affine"});
  command->add_option("--limit", align_.limit, "how far a mark may be off (default: 0.3)")->type_name("MM");
  add_common(command, *common_, "out/align; with a ledger beside the sheet");
  add_clock_options(command, *common_);
  show_examples(*command,
                {{"ordinatio align out/orders/sheet-001.json --measured 8.4,8.1 592.3,8.6 8.2,392.1 580.4,392.5",
                  "all four marks"},
                 {"ordinatio align out/orders/sheet-001.json --measured 1:8.4,8.1 2:592.3,8.6", "two of them"}});
  command->callback([this] {
    using Model = Registration::Model;
    align_.allowed = allowed_ == "affine" ? Model::affine : allowed_ == "scale" ? Model::similar : Model::rigid;
    *code_ = run_align_command(*common_, align_);
  });
}

void ShopCommands::add_loading(CLI::App& app) {
  CLI::App* command = app.add_subcommand("loading", "A page for each bed: which piece goes into which pocket, and how");
  command->group(sheet_commands);
  command
      ->add_option("SHEET", loading_.sheets,
                   "the manifest (.json) of a sheet; with a ledger its name will do (default: with a ledger all that "
                   "have something left to engrave)")
      ->type_name("FILE");
  choose_from(command->add_option("--paper", paper_, "what they are printed on (default: a4)"), {"a4", "a3", "letter"});
  add_common(command, *common_, "out/loading");
  add_clock_options(command, *common_);
  show_examples(*command, {{"ordinatio loading out/orders/sheet-001.json", "out/loading/sheet-001-loading.pdf"},
                           {"ordinatio loading", "with a ledger: every bed that is still to be engraved"}});
  command->callback([this] { *code_ = run_loading_command(*common_, loading_, paper_); });
}

void ShopCommands::add_jig(CLI::App& app) {
  CLI::App* command = app.add_subcommand("jig", "Draw the board whose pockets hold a design's pieces in place");
  command->group(piece_commands);
  command->add_option("--design", jig_.design, "another design than the shop's")->type_name("DESIGN");
  add_machine_option(command);
  add_common(command, *common_, "out/jig");
  show_examples(*command, {{"ordinatio jig", "out/jig/jig.svg and .dxf"},
                           {"ordinatio jig --design plaque-portrait", "the board for that design's pieces"}});
  command->callback([this] { *code_ = run_jig_command(*common_, jig_, machine_); });
}

void ShopCommands::add_stands(CLI::App& app) {
  CLI::App* command = app.add_subcommand("stands", "Sheets of stand undersides, with words or logo and a date mark");
  command->group(sheet_commands);
  command->add_option("--date", stands_.date, "the day to engrave, such as 2026-11-25")->required()->type_name("DATE");
  command->add_option("--count", stands_.count, "how many; with a ledger as many as engraved items lack")
      ->type_name("NUMBER");
  command->add_option("--design", stands_.design, "another design than the shop's stand_design")->type_name("DESIGN");
  command
      ->add_option("--first-number", stands_.first_number,
                   "the serial number of the first stand, for designs with a place for one")
      ->type_name("NUMBER");
  command->add_option("--batch", stands_.batch, "a name for this batch, written down in the ledger")->type_name("WORD");
  add_machine_option(command);
  add_common(command, *common_, "out/stands; with a ledger out/sheets");
  add_clock_options(command, *common_);
  show_examples(*command, {{"ordinatio stands --count 24 --date 2026-11-25", "24 undersides"},
                           {"ordinatio stands --date 2026-11-25 --design stand-logo --batch november",
                            "with a ledger: as many as engraved items lack"}});
  command->callback([this] { *code_ = run_stands_command(*common_, stands_, machine_); });
}

void ShopCommands::add_specimen(CLI::App& app) {
  CLI::App* command =
      app.add_subcommand("specimen", "Show the faces that lettering can be set in, or the designs, at true size");
  command->group(piece_commands);
  command
      ->add_option("--text", specimen_.text,
                   "the words to show (default: the shop's sample; of designs, their own samples)")
      ->type_name("WORDS");
  CLI::Option* font =
      command->add_option("--font", specimen_.faces, "only this face, by its name in the catalogue or in fonts/")
          ->type_name("FACE");
  CLI::Option* spot =
      command->add_option("--spot", specimen_.spot, "how wide the beam is (default: the machine's, in shop.toml)")
          ->type_name("MM");
  command->add_flag("--designs", of_designs_, "the designs instead, each on a page, and all as a picture")
      ->excludes(font)
      ->excludes(spot);
  command->add_option("--design", designs_, "only this design")->excludes(font)->excludes(spot)->type_name("DESIGN");
  add_common(command, *common_, "out/specimen");
  show_examples(*command, {{"ordinatio specimen --text \"Mill & Quay 1874\"", "out/specimen/specimen.pdf"},
                           {"ordinatio specimen --designs", "out/specimen/designs.pdf and .png"}});
  command->callback([this] { *code_ = run_specimen_command(*common_, specimen_, of_designs_, designs_); });
}

void ShopCommands::add_blanks(CLI::App& app) {
  CLI::App* command = app.add_subcommand("blanks", "Show every measured piece, as the program understood it");
  command->group(piece_commands);
  command->add_option("BLANKS", blanks_.blanks, "the measured pieces, a CSV file (default: blanks.csv in the workshop)")
      ->type_name("FILE");
  command->add_option("--design", blanks_.design, "whose blank is the nominal piece (default: the shop's design)")
      ->type_name("DESIGN");
  add_common(command, *common_, "out/blanks");
  show_examples(*command, {{"ordinatio blanks", "out/blanks/blanks.pdf, of the workshop's blanks.csv"}});
  command->callback([this] { *code_ = run_blanks_command(*common_, blanks_); });
}

void ShopCommands::add_panes(CLI::App& app) {
  CLI::App* command = app.add_subcommand("panes", "Plan how reclaimed panes are cut into blanks: a PDF for the saw");
  command->group(piece_commands);
  command->add_option("PANES", panes_.panes, "the panes, a CSV file (default: panes.csv in the workshop)")
      ->type_name("FILE");
  command
      ->add_option("--piece", panes_.piece, "its size in mm, such as 150x100 (default: the blank of the shop's design)")
      ->type_name("SIZE");
  command->add_option("--kerf", panes_.kerf, "what the blade takes; 0 where glass is scored (default: 3)")
      ->type_name("MM");
  command->add_option("--breakage", panes_.breakage, "the share of pieces that breaks, such as 0.05")
      ->type_name("SHARE");
  add_common(command, *common_, "out/panes");
  show_examples(*command, {{"ordinatio panes panes.csv --kerf 3", "out/panes/cutting.pdf, and blanks.csv"},
                           {"ordinatio panes --piece 150x100 --kerf 0 --breakage 0.05", "glass, scored and broken"}});
  command->callback([this] { *code_ = run_panes_command(*common_, panes_); });
}

void ShopCommands::add_card(CLI::App& app) {
  CLI::App* command = app.add_subcommand("card", "Give out the card that lies beside a piece in its photograph: a PDF");
  command->group(piece_commands);
  choose_from(command->add_option("--paper", card_paper_, "what it is printed on (default: a4)"), {"a4", "letter"});
  add_common(command, *common_, "out/card");
  show_examples(*command, {{"ordinatio card", "out/card/card.pdf; print it at true size"}});
  command->callback([this] {
    *code_ = run_in_shop(*common_, "", [this](const Shop& shop) {
      return run_card(shop, card_paper_, out_folder(*common_, shop, "card"));
    });
  });
}

void ShopCommands::add_settings_card(CLI::App& app) {
  CLI::App* command = app.add_subcommand(
      "settings-card", "Try your own speeds, powers or scan pitches on a spare piece: a labelled grid");
  command->group(piece_commands);
  command->add_option("--speed", settings_card_.speed, "the speeds to try, such as \"100, 200, 400 mm/s\"")
      ->type_name("WORDS");
  command->add_option("--power", settings_card_.power, "the powers, such as \"20 to 80 by 20 %\"")->type_name("WORDS");
  command->add_option("--pitch", settings_card_.pitch, "the scan pitches, such as \"0.08, 0.1, 0.12 mm\"")
      ->type_name("WORDS");
  CLI::Option* size =
      command
          ->add_option("--size", settings_card_.size, "of the card in mm, such as 80x60 (default: as shop.toml says)")
          ->type_name("SIZE");
  command->add_option("--blank", settings_card_.blank, "a spare piece that it is to fit, instead of a size")
      ->excludes(size)
      ->type_name("BLANK");
  command
      ->add_option("--blanks", settings_card_.blanks,
                   "the measured pieces, a CSV file (default: blanks.csv in the workshop)")
      ->type_name("FILE");
  add_common(command, *common_, "out/settings-card");
  show_examples(*command,
                {{"ordinatio settings-card --size 80x60 --speed \"100, 200, 400 mm/s\" --power \"20 to 80 by 20 %\"",
                  "out/settings-card/settings-card.svg, .dxf, .pdf and .json: 3 by 4 cells"}});
  command->callback([this] { *code_ = run_settings_card_command(*common_, settings_card_); });
}

void ShopCommands::add_measure(CLI::App& app) {
  CLI::App* command =
      app.add_subcommand("measure", "Measure a piece by a photograph of it beside the card: a row for blanks.csv");
  command->group(piece_commands);
  command->add_option("PHOTO", measure_.photo, "the photograph: JPEG, PNG or HEIC")->required()->type_name("FILE");
  command->add_option("--id", measured_words_["id"], "what is written on the piece")->required()->type_name("BLANK");
  command->add_option("--material", measured_words_["material"], "what it is made of")->type_name("WORDS");
  command->add_option("--thickness", measured_words_["thickness"], "how thick it is")->type_name("MM");
  command->add_option("--glass", measured_words_["glass"], "annealed; none where it is no glass")->type_name("WORD");
  command->add_option("--keep-clear", measured_words_["keep_clear"], "what is not engraved over, as in blanks.csv")
      ->type_name("WORDS");
  command->add_option("--note", measured_words_["note"], "what else there is to say")->type_name("WORDS");
  CLI::Option* add = command->add_flag("--add", measure_.add, "put the row into the workshop's file of pieces");
  command->add_flag("--again", measure_.again, "it has a row there: change what that says of its shape")->excludes(add);
  add_ledger_options(command, *common_);
  show_examples(*command, {{"ordinatio measure photo.jpg --id S-14", "the row, to be looked at"},
                           {"ordinatio measure photo.jpg --id S-14 --material slate --thickness 6 --add",
                            "the same, and it stands in blanks.csv"}});
  command->callback([this] {
    measure_.call = ledger_call(*common_);
    for (const auto& [column, text] : measured_words_) {
      if (!text.empty()) measure_.words.push_back({column, text});
    }
    *code_ = run_in_shop(*common_, "piece", [this](const Shop& shop) { return run_measure(shop, measure_); });
  });
}

}  // namespace ordinatio
