// The command line: one small function a command. Data on stdout, messages on stderr; exit codes 0 done, 1 done but
// something is held or warned of, 2 usage or bad input and nothing changed, 3 failed.
#include <iostream>
#include <sstream>

#include "base/harmless.h"
#include "book_commands.h"
#include "help_command.h"
#include "printing.h"

namespace {

using namespace ordinatio;
namespace fs = std::filesystem;

fs::path out_folder(const Common& common, const Shop& shop, const fs::path& name) {
  return common.out.empty() ? shop.folder / "out" / name : common.out;
}

int run_new(const fs::path& folder) {
  if (const auto fault = new_shop(folder)) return report_fault(*fault);
  const std::string place = harmless(folder.string());
  return print_page("A workshop is in " + place + ". Next:\n  cd " + place + " && ordinatio day orders.csv\n");
}

int run_day_command(const Common& common, DayOptions options, const std::string& dxf) {
  Result<Shop> shop = read_shop(common.shop);
  if (!shop) return report_fault(shop.fault());
  if (!dxf.empty()) shop->dxf.version = dxf == "R12" ? DxfVersion::r12 : DxfVersion::r2000;
  options.call = book_call(common);
  options.out = common.out;
  return report(run_day(*shop, options, progress_line("setting")), common, "sheet");
}

int run_proof_command(const Common& common, ProofOptions options) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop) return report_fault(shop.fault());
  options.call = book_call(common);
  options.out = out_folder(common, *shop, "proofs");
  return report(run_proof(*shop, options, progress_line("making proofs:")), common, "proof");
}

int run_remake_command(const Common& common, RemakeOptions options) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop) return report_fault(shop.fault());
  options.call = book_call(common);
  options.out = common.out;
  if (options.text) options.text = lines_of(*options.text);
  return report(run_remake(*shop, options), common, "sheet");
}

int run_align_command(const Common& common, AlignOptions options) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop) return report_fault(shop.fault());
  options.call = book_call(common);
  options.out = common.out;
  return report(run_align(*shop, options), common, "sheet");
}

int run_jig_command(const Common& common, JigOptions options) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop) return report_fault(shop.fault());
  options.out = out_folder(common, *shop, "jig");
  return report(run_jig(*shop, options), common, "pocket");
}

int run_stands_command(const Common& common, StandOptions options) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop) return report_fault(shop.fault());
  options.call = book_call(common);
  options.out = common.out;
  return report(run_stands(*shop, options, progress_line("setting")), common, "sheet");
}

int run_specimen_command(const Common& common, SpecimenOptions options, bool of_designs,
                         const std::vector<std::string>& designs) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop) return report_fault(shop.fault());
  options.out = out_folder(common, *shop, "specimen");
  if (of_designs || !designs.empty()) {
    return report(run_design_specimen(*shop, {designs, options.text, options.out}, progress_line("setting")), common,
                  "design");
  }
  return report(run_specimen(*shop, options, progress_line("opening")), common, "face");
}

int run_blanks_command(const Common& common, BlankOptions options) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop) return report_fault(shop.fault());
  if (options.blanks.empty()) options.blanks = shop->folder / "blanks.csv";
  options.out = out_folder(common, *shop, "blanks");
  return report(run_blanks(*shop, options), common, "piece");
}

int run_panes_command(const Common& common, PanesOptions options) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop) return report_fault(shop.fault());
  if (options.panes.empty()) options.panes = shop->folder / "panes.csv";
  options.out = out_folder(common, *shop, "panes");
  return report(run_panes(*shop, options, progress_line("planning")), common, "blank");
}

constexpr const char* about =
    "Ordinatio sets a day's orders as large as they legibly fit, each on its own piece, and lays them on sheets:\n"
    "bed files (SVG, DXF) at true size with registration marks, that any laser runs.\n";

constexpr const char* example =
    "\nA day, from the start:\n"
    "  ordinatio new my-workshop              a folder that works as it is\n"
    "  cd my-workshop                         look into shop.toml: machine, jig, columns of your export\n"
    "  ordinatio proof orders.csv             out/proofs/proofs.pdf, a page an item, for the customers' yes\n"
    "  ordinatio day orders.csv               out/orders/sheet-001.svg, .dxf, .pdf, .json\n"
    "  ordinatio remake 1002-2 --sheet out/orders/sheet-001.json --pocket 7\n"
    "  ordinatio jig                          out/jig/jig.svg, .dxf: a board whose pockets hold the pieces in place\n"
    "  ordinatio align out/orders/sheet-001.json --measured 8.4,8.1 592.3,8.6 8.2,392.1 580.4,392.5\n"
    "  ordinatio stands --count 24 --date 2026-11-25\n"
    "  ordinatio specimen                     out/specimen/specimen.pdf, the faces at true size, to choose from\n"
    "  ordinatio specimen --designs           out/specimen/designs.pdf, .png: every design with words that suit it\n"
    "  ordinatio blanks                       out/blanks/blanks.pdf, every measured piece as the program understood "
    "it\n"
    "  ordinatio panes panes.csv --kerf 3     out/panes/cutting.pdf, how to cut reclaimed panes; blanks.csv\n"
    "\nA week with a ledger ([ledger] in shop.toml):\n"
    "  ordinatio intake monday.csv            as often as you like: what is new is added once\n"
    "  ordinatio day                          everything that waits is laid on sheets, out/sheets\n"
    "  ordinatio engraved sheet-001           the bed is done; resume sheet-001 --done 1-5: it was interrupted\n"
    "  ordinatio remake 1002-2                a misprint, again; its piece is written off\n"
    "  ordinatio history 1002-2               what became of it; stock, list and check look at all\n"
    "\nAn item is held, with the reason, when it cannot be engraved as it should be; the others go on.\n"
    "Exit codes: 0 done; 1 done, but something is held or worth a look; 2 bad input, nothing changed; 3 failed.\n"
    "\nA laser of class 4 blinds and burns, and its smoke harms. Never leave it running alone; keep to its manual,\n"
    "to local codes, and to what is licensed practice where you work. Tempered glass shatters: never engrave it.\n";

/// Builds the command line; each command's callback puts its exit code into `code`.
class CommandLine {
 public:
  CommandLine() {
    app_.require_subcommand(1);
    app_.footer(example);
    add_new();
    add_day();
    add_proof();
    add_remake();
    add_align();
    add_jig();
    add_stands();
    add_specimen();
    add_blanks();
    add_panes();
    book_.add_to(app_, common_, code_);
    add_help_command(app_, code_);
  }

  int run(int argc, char** argv) {
    common_.cause = cause_of(argc, argv);
    try {
      app_.parse(argc, argv);
    } catch (const CLI::CallForHelp& call) {
      std::ostringstream page;
      app_.exit(call, page);
      return print_page(page.str());
    } catch (const CLI::ParseError& error) {
      std::cerr << "ordinatio: " << harmless(error.what(), true) << ". See ordinatio --help\n";
      return bad_input;
    }
    return code_;
  }

 private:
  void add_new() {
    CLI::App* command = app_.add_subcommand("new", "Make a workshop folder that works as it is");
    command->add_option("DIR", folder_, "the folder, new or empty")->required();
    command->callback([this] { code_ = run_new(folder_); });
  }

  void add_day() {
    CLI::App* command = app_.add_subcommand("day", "Turn a day's orders into sheets");
    command->add_option("ORDERS", day_.orders,
                        "the orders, a CSV file (default: orders.csv in the workshop; with a ledger none: what waits "
                        "is laid)");
    add_common(command, common_, "out/, then the name of the orders; with a ledger out/sheets");
    add_clock_options(command, common_);
    add_samples_option(command, common_);
    command->add_option("--channel", day_.channel, "where the orders were sold, put in front of their numbers")
        ->check(plain_words());
    command->add_flag("--dry-run", day_.dry_run, "with a ledger: say what would be taken in, and change nothing");
    command->add_option("--date", day_.date, "the day for designs with a date mark, such as 2026-11-25");
    command->add_option("--blanks", day_.blanks, "the measured pieces, a CSV file (default: as shop.toml says)");
    command->add_option("--dxf", dxf_, "R12, which every reader takes, or R2000, which is smaller")
        ->check(CLI::IsMember({"R12", "R2000"}));
    command->add_flag("!--no-svg", day_.svg, "write no SVG");
    command->add_flag("!--no-dxf", day_.dxf, "write no DXF");
    command->add_flag("!--no-pdf", day_.pdf, "write no PDF");
    command->add_flag("--png", day_.png, "write a PNG picture of each sheet too");
    command->callback([this] { code_ = run_day_command(common_, day_, dxf_); });
  }

  void add_proof() {
    CLI::App* command = app_.add_subcommand("proof", "Show the customers what will be engraved: a PDF, a page an item");
    command->add_option("ORDERS", proof_.orders,
                        "the orders, a CSV file (default: orders.csv in the workshop; with a ledger none)");
    command->add_option("--item", proof_.items, "only this item, such as 1002-2 or 1002-2/M; may be given again");
    command->add_option("--blanks", proof_.blanks, "the measured pieces, a CSV file (default: as shop.toml says)");
    command->add_option("--date", proof_.date, "the day for designs with a date mark");
    add_common(command, common_, "out/proofs");
    add_clock_options(command, common_);
    add_samples_option(command, common_);
    command->callback([this] { code_ = run_proof_command(common_, proof_); });
  }

  void add_remake() {
    CLI::App* command = app_.add_subcommand("remake", "Make one item again, alone, as it was or corrected");
    command->add_option("ITEM", remake_.item, "the item, such as 1002-2 or, with its check character, 1002-2/M")
        ->required();
    command->add_option("--sheet", remake_.manifest,
                        "the manifest (.json) of the sheet it was on; with a ledger it is known");
    command->add_option("--blank", remake_.blank, "the piece to make it on; without one a free piece that takes it");
    command->add_option("--reason", remake_.reason, "why: the spoiled piece is written off with it");
    command->add_flag("--later", remake_.later, "not now: first in line on the next day's sheets");
    command->add_option("--pocket", remake_.pocket, "another pocket than before");
    command->add_option("--text", remake_.text,
                        "the corrected words, \\n begins a new line; without them exactly as it was");
    command
        ->add_option("--corners", remake_.corners,
                     "a piece laid by hand: x,y of its lower left and lower right corner on the bed, or of all four")
        ->expected(2, 4);
    command->add_option("--limit", remake_.limit, "how far, in mm, a corner may be off (default: 1)");
    add_common(command, common_, "out/remake; with a ledger out/sheets");
    add_clock_options(command, common_);
    command->callback([this] { code_ = run_remake_command(common_, remake_); });
  }

  void add_align() {
    CLI::App* command = app_.add_subcommand("align", "Lay a sheet to where its marks were measured on the machine");
    command->add_option("SHEET", align_.manifest, "the manifest (.json) of the sheet; with a ledger its name will do")
        ->required();
    command
        ->add_option("--measured", align_.measured,
                     "x,y of every mark in order, or 2:x,y of two or three of them, in mm on the machine")
        ->required();
    const std::map<std::string, Registration::Model> models{{"turn", Registration::Model::rigid},
                                                            {"scale", Registration::Model::similar},
                                                            {"affine", Registration::Model::affine}};
    command->add_option("--allow", align_.allowed, "turn (default), scale too, or affine: each axis by itself")
        ->transform(CLI::CheckedTransformer(models));
    command->add_option("--limit", align_.limit, "how far, in mm, a mark may be off (default: 0.3)");
    add_common(command, common_, "out/align; with a ledger beside the sheet");
    add_clock_options(command, common_);
    command->callback([this] { code_ = run_align_command(common_, align_); });
  }

  void add_jig() {
    CLI::App* command = app_.add_subcommand("jig", "Draw the board whose pockets hold a design's pieces in place");
    command->add_option("--design", jig_.design, "another design than the shop's");
    add_common(command, common_, "out/jig");
    command->callback([this] { code_ = run_jig_command(common_, jig_); });
  }

  void add_stands() {
    CLI::App* command = app_.add_subcommand("stands", "Sheets of stand undersides, with words or logo and a date mark");
    command->add_option("--count", stands_.count, "how many; with a ledger as many as engraved items lack");
    command->add_option("--batch", stands_.batch, "a name for this batch, written down in the ledger");
    command->add_option("--date", stands_.date, "the day to engrave, such as 2026-11-25")->required();
    command->add_option("--design", stands_.design, "another design than the shop's stand_design");
    command->add_option("--first-number", stands_.first_number,
                        "the serial number of the first stand, for designs with a place for one");
    add_common(command, common_, "out/stands; with a ledger out/sheets");
    add_clock_options(command, common_);
    command->callback([this] { code_ = run_stands_command(common_, stands_); });
  }

  void add_specimen() {
    CLI::App* command =
        app_.add_subcommand("specimen", "Show the faces that lettering can be set in, or the designs, at true size");
    command->add_option("--text", specimen_.text,
                        "the words to show (default: the shop's sample; of designs, their own samples)");
    CLI::Option* font = command->add_option(
        "--font", specimen_.faces, "only this face, by its name in the catalogue or in fonts/; may be given again");
    CLI::Option* spot = command->add_option("--spot", specimen_.spot,
                                            "how wide the beam is, in mm (default: the machine's, in shop.toml)");
    command->add_flag("--designs", of_designs_, "the designs instead, each on a page, and all as a picture")
        ->excludes(font)
        ->excludes(spot);
    command->add_option("--design", designs_, "only this design; may be given again")->excludes(font)->excludes(spot);
    add_common(command, common_, "out/specimen");
    command->callback([this] { code_ = run_specimen_command(common_, specimen_, of_designs_, designs_); });
  }

  void add_blanks() {
    CLI::App* command = app_.add_subcommand("blanks", "Show every measured piece, as the program understood it");
    command->add_option("BLANKS", blanks_.blanks,
                        "the measured pieces, a CSV file (default: blanks.csv in the workshop)");
    command->add_option("--design", blanks_.design, "whose blank is the nominal piece (default: the shop's design)");
    add_common(command, common_, "out/blanks");
    command->callback([this] { code_ = run_blanks_command(common_, blanks_); });
  }

  void add_panes() {
    CLI::App* command = app_.add_subcommand("panes", "Plan how reclaimed panes are cut into blanks: a PDF for the saw");
    command->add_option("PANES", panes_.panes, "the panes, a CSV file (default: panes.csv in the workshop)");
    command->add_option("--piece", panes_.piece, "its size in mm, WxH (default: the blank of the shop's design)");
    command->add_option("--kerf", panes_.kerf, "what the blade takes, in mm; 0 where glass is scored (default: 3)");
    command->add_option("--breakage", panes_.breakage, "the share of pieces that breaks, such as 0.05");
    add_common(command, common_, "out/panes");
    command->callback([this] { code_ = run_panes_command(common_, panes_); });
  }

  CLI::App app_{about, "ordinatio"};
  Common common_;
  fs::path folder_;
  DayOptions day_;
  ProofOptions proof_;
  RemakeOptions remake_;
  AlignOptions align_;
  JigOptions jig_;
  StandOptions stands_;
  SpecimenOptions specimen_;
  bool of_designs_ = false;
  std::vector<std::string> designs_;  // whose specimens are to be made
  BlankOptions blanks_;
  PanesOptions panes_;
  BookCommands book_;
  std::string dxf_;
  int code_ = done;
};

}  // namespace

int main(int argc, char** argv) {
  make_streams_safe();
  try {
    return CommandLine().run(argc, argv);
  } catch (const std::exception& bug) {
    std::cerr << "ordinatio: stopped: " << harmless(bug.what())
              << ". This is a mistake of the program or a failing machine; what was there before is unchanged.\n";
    return failed;
  }
}
