#include "packing_commands.h"

#include "command_tree.h"

namespace ordinatio {
namespace {

std::filesystem::path packing_folder(const Common& common, const Shop& shop) {
  return common.out.empty() ? shop.folder / "out" / "packing" : common.out;
}

}  // namespace

void PackingCommands::add_to(CLI::App& app, Common& common, int& code) {
  common_ = &common;
  code_ = &code;
  add_packing(app);
  add_labels(app);
  add_plates(app);
}

void PackingCommands::add_packing(CLI::App& app) {
  CLI::App* command = app.add_subcommand("packing", "List what goes into each parcel, with a picture of every piece");
  command->group(ledger_commands);
  command->add_option("ORDER", packing_.orders, "the orders (default: all with a piece engraved and not packed yet)")
      ->type_name("ORDER");
  choose_from(command->add_option("--paper", paper_, "what it is printed on (default: A4)"), {"a4", "a5", "letter"});
  add_common(command, *common_, "out/packing");
  add_clock_options(command, *common_);
  show_examples(*command, {{"ordinatio packing", "out/packing/packing.pdf; it books nothing: ordinatio packed does"},
                           {"ordinatio packing 1002 --paper a5", "one order, on small paper"}});
  command->callback([this] {
    packing_.call = ledger_call(*common_);
    packing_.paper = paper_named(paper_).value_or(PaperSize::a4);
    *code_ = run_in_shop(*common_, "", [this](const Shop& shop) {
      packing_.out = packing_folder(*common_, shop);
      return run_packing(shop, packing_);
    });
  });
}

void PackingCommands::add_labels(CLI::App& app) {
  CLI::App* command = app.add_subcommand("labels", "Labels for the pieces: number, first words and a QR code");
  command->group(ledger_commands);
  command->add_option("ITEM", labels_.items, "the items (default: all that are engraved and not packed yet)")
      ->type_name("ITEM");
  command
      ->add_option("--from", labels_.first,
                   "the first label of the sheet that is not used yet, row by row (default: 1)")
      ->type_name("NUMBER");
  add_common(command, *common_, "out/packing");
  add_clock_options(command, *common_);
  show_examples(*command, {{"ordinatio labels", "out/packing/labels.pdf, on sheets as [labels] in shop.toml says"},
                           {"ordinatio labels 1002-1 1002-2 --from 5", "two labels; the first four are used up"}});
  command->callback([this] {
    labels_.call = ledger_call(*common_);
    *code_ = run_in_shop(*common_, "", [this](const Shop& shop) {
      labels_.out = packing_folder(*common_, shop);
      return run_labels(shop, labels_);
    });
  });
}

void PackingCommands::add_plates(CLI::App& app) {
  CLI::App* command = app.add_subcommand("plates", "Sheets of QR codes to be engraved for the backs of the pieces");
  command->group(ledger_commands);
  command->add_option("ITEM", plates_.items, "the items (default: all that are engraved and not packed yet)")
      ->type_name("ITEM");
  command
      ->add_option("--size", plates_.wish.size,
                   "how wide a code is, with the light about it; its number stands below (default: 20)")
      ->type_name("MM");
  choose_from(command->add_option("--operation", operation_,
                                  "mark: outlines, filled with lines one beam apart (default); engrave: filled areas"),
              {"mark", "engrave"});
  command->add_flag("--pale", plates_.wish.pale,
                    "the beam leaves the material lighter, as slate and glass: draw what is light in the code");
  add_common(command, *common_, "out/packing");
  add_clock_options(command, *common_);
  show_examples(*command, {{"ordinatio plates", "out/packing/plates-001.svg, .dxf, .pdf and .json"},
                           {"ordinatio plates 1002-1 --size 25 --pale", "one code, for slate"}});
  command->callback([this] {
    plates_.call = ledger_call(*common_);
    plates_.wish.operation = operation_ == "engrave" ? Operation::engrave : Operation::mark;
    *code_ = run_in_shop(*common_, "sheet", [this](const Shop& shop) {
      plates_.out = packing_folder(*common_, shop);
      return run_plates(shop, plates_);
    });
  });
}

}  // namespace ordinatio
