#include "ledger_commands.h"

#include "command_tree.h"

namespace ordinatio {

void LedgerCommands::add_to(CLI::App& app, Common& common, int& code) {
  common_ = &common;
  code_ = &code;
  add_intake(app);
  add_answer(app);
  add_corrections(app);
  add_setting(app);
  add_move(app);
  add_let_go(app);
  add_undo(app);
  add_approve(app);
  add_engraved(app);
  add_packed(app);
  add_spoil(app);
  add_resume(app);
  add_looks(app);
  add_run_sheet(app);
  add_care(app);
}

void LedgerCommands::add_intake(CLI::App& app) {
  CLI::App* command = app.add_subcommand("intake", "Take an export of orders into the ledger, as often as you like");
  command->group(ledger_commands);
  command->add_option("ORDERS", intake_.orders, "the export, a CSV file")->required()->type_name("FILE");
  command->add_option("--channel", intake_.channel, "where it was sold, put in front of its order numbers")
      ->check(plain_words())
      ->type_name("WORD");
  command->add_flag("--dry-run", intake_.dry_run, "say what would be taken in, and change nothing");
  add_samples_option(command, *common_);
  add_ledger_options(command, *common_);
  show_examples(*command, {{"ordinatio intake monday.csv", "what is new is added once, what has changed is told"},
                           {"ordinatio intake fair.csv --channel fair", "orders that were sold elsewhere: fair-1002"}});
  command->callback([this] {
    intake_.call = ledger_call(*common_);
    run("", [this](const Shop& shop) { return run_intake(shop, intake_); });
  });
}

void LedgerCommands::add_answer(CLI::App& app) {
  CLI::App* command = app.add_subcommand("answer", "Answer a question that an export has raised");
  command->group(ledger_commands);
  command->add_option("NUMBER", answer_.question, "the question's number; ordinatio list shows those that are open")
      ->required()
      ->type_name("NUMBER");
  choose_from(command
                  ->add_option("ANSWER", answer_word_,
                               "take (as the export says), keep (as it is) or new (it is another line of the order)")
                  ->required(),
              {"take", "keep", "new"});
  add_ledger_options(command, *common_);
  show_examples(*command, {{"ordinatio answer 3 take", "question 3: as the export says"}});
  command->callback([this] {
    answer_.call = ledger_call(*common_);
    using Answer = AnswerOptions::Answer;
    answer_.answer = answer_word_ == "take" ? Answer::take : answer_word_ == "new" ? Answer::as_new : Answer::keep;
    run("", [this](const Shop& shop) { return run_answer(shop, answer_); });
  });
}

CLI::App* LedgerCommands::add_correction(CLI::App& app, const char* name, const char* about,
                                         CorrectionOptions::What what) {
  CLI::App* command = app.add_subcommand(name, about);
  command->group(ledger_commands);
  command->add_option("ITEM", correction_.item, "the item, such as 1002-2, or 1002-2/M with its check character")
      ->required()
      ->type_name("ITEM");
  using What = CorrectionOptions::What;
  if (what == What::words)
    command->add_option("--text", correction_.value, "the right words; \\n begins a new line")
        ->required()
        ->type_name("WORDS");
  if (what == What::hold) command->add_option("--reason", correction_.value, "why")->required()->type_name("WORDS");
  if (what == What::cancel)
    command->add_option("--reason", correction_.value, "why (default: by hand)")->type_name("WORDS");
  if (what == What::pin)
    command->add_option("BLANK", correction_.value, "the piece; without one it may have any again")->type_name("BLANK");
  add_ledger_options(command, *common_);
  command->callback([this, what] {
    correction_.what = what;
    if (what == What::words) correction_.value = lines_of(correction_.value);
    correction_.call = ledger_call(*common_);
    run("", [this](const Shop& shop) { return run_correction(shop, correction_); });
  });
  return command;
}

void LedgerCommands::add_corrections(CLI::App& app) {
  using What = CorrectionOptions::What;
  const auto add = [&](const char* name, const char* about, What what, const char* example, const char* effect) {
    show_examples(*add_correction(app, name, about, what), {{example, effect}});
  };
  add("correct", "Change an item's words", What::words, "ordinatio correct 1002-2 --text \"For Ines\\nand Tomasz\"",
      "two lines; the customer's own stay in the ledger beside them");
  add("hold", "Hold an item back", What::hold, "ordinatio hold 1002-2 --reason \"the customer asks for time\"",
      "it is laid on no sheet until it is released");
  add("release", "Let a held item go on", What::release, "ordinatio release 1002-2", "the next day takes it");
  add("pin", "Give an item one piece and no other", What::pin, "ordinatio pin 1002-2 S-12", "it waits for S-12");
  add("first", "Put an item first in line", What::first, "ordinatio first 1002-2", "it leads the next day's sheets");
  add("cancel", "Cancel an item: it is not made, or what is made of it has no customer", What::cancel,
      "ordinatio cancel 1002-2 --reason \"asked by the customer\"", "undo 1002-2 takes it back");
  add("take-off", "Take an item off its sheet: it waits again, and its piece is free", What::take_off,
      "ordinatio take-off 1002-2", "the sheet's files are written anew without it");
}

namespace {

Result<SettingWish> wish_typed(const SettingTyped& typed) {
  SettingWish wish;
  wish.lines_kept = typed.keep_lines;
  if (!typed.design.empty()) {
    auto design = wished_design(typed.design, "--design");
    if (!design.ok()) return design.fault();
    wish.design = *std::move(design);
  }
  if (!typed.size.empty()) {
    const auto size = wished_size(typed.size, "--size");
    if (!size.ok()) return size.fault();
    wish.size = *size;
  }
  if (!typed.nudge.empty()) {
    const auto nudge = wished_nudge(typed.nudge, "--nudge");
    if (!nudge.ok()) return nudge.fault();
    wish.nudge = *nudge;
  }
  return wish;
}

}  // namespace

void LedgerCommands::add_setting(CLI::App& app) {
  CLI::App* command = app.add_subcommand("set", "Set one item otherwise than its design says, by your own hand");
  command->group(ledger_commands);
  command->add_option("ITEM", correction_.item, "the item, such as 1002-2, or 1002-2/M with its check character")
      ->required()
      ->type_name("ITEM");
  command->add_option("--design", setting_.design, "another design for this item alone")->type_name("DESIGN");
  command
      ->add_option("--size", setting_.size,
                   "the height of capitals, mm, that it is not to exceed; its design says from where to where")
      ->type_name("MM");
  command
      ->add_option("--nudge", setting_.nudge,
                   "move its words by so many mm to the right and up, such as 1.5,-2; 0,0 puts them back")
      ->type_name("X,Y");
  command->add_flag("--keep-lines", setting_.keep_lines,
                    "end its lines where they were typed to end, and nowhere else");
  command->add_flag("--as-designed", correction_.as_designed,
                    "take back what was wished before; what is given with it holds from now on");
  add_ledger_options(command, *common_);
  show_examples(*command,
                {{"ordinatio set 1002-2 --size 6 --nudge -1.5,2", "smaller, and moved to the left and up"},
                 {"ordinatio set 1002-2 --design plaque-portrait", "in another design than was ordered"},
                 {"ordinatio set 1002-2 --as-designed --keep-lines", "only its lines are as you typed them"}});
  command->callback([this] {
    correction_.what = CorrectionOptions::What::setting;
    correction_.call = ledger_call(*common_);
    run("", [this](const Shop& shop) -> Result<Account> {
      Result<SettingWish> wish = wish_typed(setting_);
      if (!wish.ok()) return wish.fault();
      correction_.setting = *std::move(wish);
      return run_correction(shop, correction_);
    });
  });
}

void LedgerCommands::add_move(CLI::App& app) {
  CLI::App* command = app.add_subcommand("move", "Lay an item of a sheet into another pocket, or on another piece");
  command->group(ledger_commands);
  command->add_option("ITEM", move_.item, "the item, such as 1002-2, or 1002-2/M with its check character")
      ->required()
      ->type_name("ITEM");
  CLI::Option* pocket =
      command->add_option("--pocket", move_.pocket, "of the same sheet; what lies in it comes into the item's own")
          ->type_name("NUMBER");
  CLI::Option* piece =
      command->add_option("--piece", move_.piece, "a free piece, on which it is set anew in its pocket")
          ->excludes(pocket)
          ->type_name("BLANK");
  add_ledger_options(command, *common_);
  show_examples(*command, {{"ordinatio move 1002-2 --pocket 7", "the sheet's files are written anew"},
                           {"ordinatio move 1002-2 --piece S-12", "the piece that it lay on is free again"}});
  command->callback([this, pocket, piece] {
    if (pocket->empty() && piece->empty()) throw CLI::RequiredError("--pocket or --piece");
    move_.call = ledger_call(*common_);
    run("", [this](const Shop& shop) { return run_move(shop, move_); });
  });
}

void LedgerCommands::add_let_go(CLI::App& app) {
  CLI::App* command = app.add_subcommand("let-go", "Hold a row of an export, which is no order, no longer");
  command->group(ledger_commands);
  command->add_option("ROW", let_go_.rows, "the rows, such as row-3 or 3; ordinatio list shows those that are held")
      ->required()
      ->type_name("ROW");
  add_ledger_options(command, *common_);
  show_examples(*command, {{"ordinatio let-go row-3 row-4", "undo row-3 takes it back"}});
  command->callback([this] {
    let_go_.call = ledger_call(*common_);
    run("", [this](const Shop& shop) { return run_let_go(shop, let_go_); });
  });
}

void LedgerCommands::add_undo(CLI::App& app) {
  CLI::App* command = app.add_subcommand("undo", "Take the last correction of an item, or a sheet's booking, back");
  command->group(ledger_commands);
  command
      ->add_option(
          "SUBJECT", undo_.subject,
          "an item such as 1002-2 (also one that an answer added), a sheet such as sheet-003, or a row that was "
          "let go, row-3")
      ->required()
      ->type_name("SUBJECT");
  add_ledger_options(command, *common_);
  show_examples(*command, {{"ordinatio undo 1002-2", "the last correction of the item"},
                           {"ordinatio undo sheet-003", "it is not engraved after all"}});
  command->callback([this] {
    undo_.call = ledger_call(*common_);
    run("", [this](const Shop& shop) { return run_undo(shop, undo_); });
  });
}

void LedgerCommands::add_approve(CLI::App& app) {
  CLI::App* command = app.add_subcommand("approve", "Write down the customer's yes to a proof");
  command->group(ledger_commands);
  command->add_option("ITEM", items_.items, "the items")->required()->type_name("ITEM");
  add_ledger_options(command, *common_);
  show_examples(*command, {{"ordinatio approve 1002-1 1002-2", "both may be engraved"}});
  command->callback([this] {
    items_.call = ledger_call(*common_);
    run("", [this](const Shop& shop) { return run_approve(shop, items_); });
  });
}

void LedgerCommands::add_engraved(CLI::App& app) {
  CLI::App* command = app.add_subcommand("engraved", "Book a sheet, or some of its pockets, as engraved");
  command->group(ledger_commands);
  command->add_option("SHEET", engraved_.sheets, "the sheets, such as sheet-003 or 3")->required()->type_name("SHEET");
  command->add_option("--pockets", engraved_.pockets, "only these, such as 1-5,7")->type_name("POCKETS");
  add_ledger_options(command, *common_);
  show_examples(*command, {{"ordinatio engraved sheet-003", "all of the sheet"},
                           {"ordinatio engraved 3 --pockets 1-5,7", "six of its pockets"}});
  command->callback([this] {
    engraved_.call = ledger_call(*common_);
    run("", [this](const Shop& shop) { return run_engraved(shop, engraved_); });
  });
}

void LedgerCommands::add_packed(CLI::App& app) {
  CLI::App* command = app.add_subcommand("packed", "Book items as packed");
  command->group(ledger_commands);
  CLI::Option* items = command->add_option("ITEM", items_.items, "the items")->type_name("ITEM");
  CLI::Option* order =
      command->add_option("--order", items_.orders, "all of these orders that are engraved")->type_name("ORDER");
  command->callback([this, items, order] {
    if (items->empty() && order->empty()) throw CLI::RequiredError("ITEM or --order");
    items_.call = ledger_call(*common_);
    run("", [this](const Shop& shop) { return run_pack(shop, items_); });
  });
  add_ledger_options(command, *common_);
  show_examples(*command, {{"ordinatio packed 1002-1 1002-2", "these two items"},
                           {"ordinatio packed --order 1002", "all of the order that is engraved"}});
}

void LedgerCommands::add_spoil(CLI::App& app) {
  CLI::App* command =
      app.add_subcommand("spoil", "Write off what went wrong: the item is made again, the piece is gone");
  command->group(ledger_commands);
  CLI::Option* item = command->add_option("ITEM", spoil_.item, "the item that was being made")->type_name("ITEM");
  CLI::Option* blank =
      command->add_option("--blank", spoil_.blank, "a piece that no item has yet")->excludes(item)->type_name("BLANK");
  command->add_option("--reason", spoil_.reason, "what happened")->required()->type_name("WORDS");
  add_ledger_options(command, *common_);
  show_examples(*command, {{"ordinatio spoil 1002-2 --reason \"broke on the bed\"", "made again with the next day"},
                           {"ordinatio spoil --blank S-12 --reason cracked", "a piece that no item has"}});
  command->callback([this, item, blank] {
    if (item->empty() && blank->empty()) throw CLI::RequiredError("ITEM or --blank");
    spoil_.call = ledger_call(*common_);
    run("", [this](const Shop& shop) { return run_spoil(shop, spoil_); });
  });
}

void LedgerCommands::add_resume(CLI::App& app) {
  CLI::App* command =
      app.add_subcommand("resume", "A bed was interrupted: book what is done, write the sheet of the rest");
  command->group(ledger_commands);
  command->add_option("SHEET", resume_.sheet, "the sheet, such as sheet-003 or 3")->required()->type_name("SHEET");
  command->add_option("--done", resume_.done, "pockets that are engraved, such as 1-5")->type_name("POCKETS");
  command->add_option("--spoiled", resume_.spoiled, "pockets whose pieces are lost")->type_name("POCKETS");
  command->add_option("--reason", resume_.reason, "what happened to those (default: the bed was interrupted)")
      ->type_name("WORDS");
  add_common(command, *common_, "out/sheets");
  add_clock_options(command, *common_);
  show_examples(*command,
                {{"ordinatio resume sheet-001 --done 1-5 --spoiled 6", "the sheet of pocket 7 and those after it"}});
  command->callback([this] {
    resume_.call = ledger_call(*common_);
    resume_.out = common_->out;
    run("sheet", [this](const Shop& shop) { return run_resume(shop, resume_); });
  });
}

void LedgerCommands::add_looks(CLI::App& app) {
  CLI::App* stock = app.add_subcommand("stock", "What is left, what waits, how many pieces to prepare");
  stock->group(ledger_commands);
  add_ledger_options(stock, *common_);
  show_examples(*stock, {{"ordinatio stock", "pieces by kind, and items that wait for them"}});
  stock->callback([this] { run("", [this](const Shop& shop) { return run_stock(shop, {ledger_call(*common_)}); }); });

  CLI::App* history = app.add_subcommand("history", "The story of an item, an order, a piece, a sheet or a held row");
  history->group(ledger_commands);
  history
      ->add_option("SUBJECT", history_.subject,
                   "1002-2, 1002, S-12, sheet-003 or row-3; else words, or a customer's name")
      ->required()
      ->type_name("SUBJECT");
  add_ledger_options(history, *common_);
  show_examples(*history, {{"ordinatio history 1002-2", "what became of the item, from its order to its parcel"},
                           {"ordinatio history \"Rowan Cottage\"", "every item with these words"}});
  history->callback([this] {
    history_.call = ledger_call(*common_);
    run("", [this](const Shop& shop) { return run_history(shop, history_); });
  });

  CLI::App* list = app.add_subcommand("list", "Every item that is not packed, rows that are held, open questions");
  list->group(ledger_commands);
  list->add_option("WORDS", list_.words,
                   "only what has these in its words, its number or its customer's name, packed or not")
      ->type_name("WORDS");
  list->add_option("--state", list_.state, "only those in this state: held, ready, engraved, packed, …")
      ->type_name("STATE");
  list->add_option("--csv", list_.csv, "write the list into this file, too")->type_name("FILE");
  add_ledger_options(list, *common_);
  show_examples(*list, {{"ordinatio list", "where each item is, and what you are asked"},
                        {"ordinatio list --state held --csv held.csv", "what is held, for a spreadsheet too"}});
  list->callback([this] {
    list_.call = ledger_call(*common_);
    run("", [this](const Shop& shop) { return run_list(shop, list_); });
  });
}

void LedgerCommands::add_run_sheet(CLI::App& app) {
  CLI::App* command = app.add_subcommand("run-sheet", "A day on one page: what comes first, what is held, every bed");
  command->group(ledger_commands);
  command->add_option("--date", run_sheet_.date, "the day, such as 2026-11-25 (default: today)")->type_name("DATE");
  add_common(command, *common_, "out");
  add_clock_options(command, *common_);
  show_examples(*command, {{"ordinatio run-sheet", "out/run-sheet.html, to be read or printed"}});
  command->callback([this] {
    run_sheet_.call = ledger_call(*common_);
    run("", [this](const Shop& shop) {
      run_sheet_.out = common_->out.empty() ? shop.folder / "out" : common_->out;
      return run_run_sheet(shop, run_sheet_);
    });
  });
}

void LedgerCommands::add_care(CLI::App& app) {
  CLI::App* backup = app.add_subcommand("backup", "Copy the ledger, complete, even while it is in use");
  backup->group(ledger_commands);
  backup->add_option("FILE", backup_, "a new file")->required()->type_name("FILE");
  add_ledger_options(backup, *common_);
  show_examples(*backup, {{"ordinatio backup stick/friday.ledger", "a copy that is whole"}});
  backup->callback(
      [this] { run("", [this](const Shop& shop) { return run_backup(shop, ledger_call(*common_), backup_); }); });

  CLI::App* check = app.add_subcommand("check", "Look whether the ledger and the files of every sheet are sound");
  check->group(ledger_commands);
  add_ledger_options(check, *common_);
  show_examples(*check, {{"ordinatio check", "what is wrong stands among what is held"}});
  check->callback([this] { run("", [this](const Shop& shop) { return run_check(shop, ledger_call(*common_)); }); });
}

}  // namespace ordinatio
