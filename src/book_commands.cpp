#include "book_commands.h"

namespace ordinatio {

void BookCommands::add_to(CLI::App& app, Common& common, int& code) {
  common_ = &common;
  code_ = &code;
  add_intake(app);
  add_answer(app);
  add_corrections(app);
  add_let_go(app);
  add_undo(app);
  add_approve(app);
  add_engraved(app);
  add_packed(app);
  add_spoil(app);
  add_resume(app);
  add_looks(app);
  add_care(app);
}

void BookCommands::add_intake(CLI::App& app) {
  CLI::App* command = app.add_subcommand("intake", "Take an export of orders into the ledger, as often as you like");
  command->add_option("ORDERS", intake_.orders, "the export, a CSV file")->required();
  command->add_option("--channel", intake_.channel, "where it was sold, put in front of its order numbers")
      ->check(plain_words());
  command->add_flag("--dry-run", intake_.dry_run, "say what would be taken in, and change nothing");
  add_samples_option(command, *common_);
  add_book_options(command, *common_);
  command->callback([this] {
    intake_.call = book_call(*common_);
    run("", [this](const Shop& shop) { return run_intake(shop, intake_); });
  });
}

void BookCommands::add_answer(CLI::App& app) {
  CLI::App* command = app.add_subcommand("answer", "Answer a question that an export has raised");
  command->add_option("NUMBER", answer_.question, "the question's number; ordinatio list shows those that are open")
      ->required();
  command->add_option("ANSWER", answer_word_, "take (as the export says), keep (as it is), new (another line)")
      ->required()
      ->check(CLI::IsMember({"take", "keep", "new"}));
  add_book_options(command, *common_);
  command->callback([this] {
    answer_.call = book_call(*common_);
    using Answer = AnswerOptions::Answer;
    answer_.answer = answer_word_ == "take" ? Answer::take : answer_word_ == "new" ? Answer::as_new : Answer::keep;
    run("", [this](const Shop& shop) { return run_answer(shop, answer_); });
  });
}

void BookCommands::add_correction(CLI::App& app, const char* name, const char* about, CorrectionOptions::What what) {
  CLI::App* command = app.add_subcommand(name, about);
  command->add_option("ITEM", correction_.item, "the item, such as 1002-2, or 1002-2/M with its check character")
      ->required();
  using What = CorrectionOptions::What;
  if (what == What::words)
    command->add_option("--text", correction_.value, "the right words; \\n begins a new line")->required();
  if (what == What::hold) command->add_option("--reason", correction_.value, "why")->required();
  if (what == What::cancel) command->add_option("--reason", correction_.value, "why (default: by hand)");
  if (what == What::pin)
    command->add_option("BLANK", correction_.value, "the piece; without one it may have any again");
  add_book_options(command, *common_);
  command->callback([this, what] {
    correction_.what = what;
    if (what == What::words) correction_.value = lines_of(correction_.value);
    correction_.call = book_call(*common_);
    run("", [this](const Shop& shop) { return run_correction(shop, correction_); });
  });
}

void BookCommands::add_corrections(CLI::App& app) {
  using What = CorrectionOptions::What;
  add_correction(app, "correct", "Change an item's words", What::words);
  add_correction(app, "hold", "Hold an item back", What::hold);
  add_correction(app, "release", "Let a held item go on", What::release);
  add_correction(app, "pin", "Give an item one piece and no other", What::pin);
  add_correction(app, "first", "Put an item first in line", What::first);
  add_correction(app, "cancel", "Cancel an item: it is not made, or what is made of it has no customer", What::cancel);
}

void BookCommands::add_let_go(CLI::App& app) {
  CLI::App* command = app.add_subcommand("let-go", "Hold a row of an export, which is no order, no longer");
  command->add_option("ROW", let_go_.rows, "the rows, such as row-3 or 3; ordinatio list shows those that are held")
      ->required();
  add_book_options(command, *common_);
  command->callback([this] {
    let_go_.call = book_call(*common_);
    run("", [this](const Shop& shop) { return run_let_go(shop, let_go_); });
  });
}

void BookCommands::add_undo(CLI::App& app) {
  CLI::App* command = app.add_subcommand("undo", "Take the last correction of an item, or a sheet's booking, back");
  command
      ->add_option(
          "SUBJECT", undo_.subject,
          "an item such as 1002-2 (also one that an answer added), a sheet such as sheet-003, or a row that was "
          "let go, row-3")
      ->required();
  add_book_options(command, *common_);
  command->callback([this] {
    undo_.call = book_call(*common_);
    run("", [this](const Shop& shop) { return run_undo(shop, undo_); });
  });
}

void BookCommands::add_approve(CLI::App& app) {
  CLI::App* command = app.add_subcommand("approve", "Write down the customer's yes to a proof");
  command->add_option("ITEM", items_.items, "the items")->required();
  add_book_options(command, *common_);
  command->callback([this] {
    items_.call = book_call(*common_);
    run("", [this](const Shop& shop) { return run_approve(shop, items_); });
  });
}

void BookCommands::add_engraved(CLI::App& app) {
  CLI::App* command = app.add_subcommand("engraved", "Book a sheet, or some of its pockets, as engraved");
  command->add_option("SHEET", engraved_.sheets, "the sheets, such as sheet-003 or 3")->required();
  command->add_option("--pockets", engraved_.pockets, "only these, such as 1-5,7");
  add_book_options(command, *common_);
  command->callback([this] {
    engraved_.call = book_call(*common_);
    run("", [this](const Shop& shop) { return run_engraved(shop, engraved_); });
  });
}

void BookCommands::add_packed(CLI::App& app) {
  CLI::App* command = app.add_subcommand("packed", "Book items as packed");
  CLI::Option* items = command->add_option("ITEM", items_.items, "the items");
  CLI::Option* order = command->add_option("--order", items_.orders, "all of these orders that are engraved");
  command->callback([this, items, order] {
    if (items->empty() && order->empty()) throw CLI::RequiredError("ITEM or --order");
    items_.call = book_call(*common_);
    run("", [this](const Shop& shop) { return run_pack(shop, items_); });
  });
  add_book_options(command, *common_);
}

void BookCommands::add_spoil(CLI::App& app) {
  CLI::App* command =
      app.add_subcommand("spoil", "Write off what went wrong: the item is made again, the piece is gone");
  CLI::Option* item = command->add_option("ITEM", spoil_.item, "the item that was being made");
  CLI::Option* blank = command->add_option("--blank", spoil_.blank, "a piece that no item has yet")->excludes(item);
  command->add_option("--reason", spoil_.reason, "what happened")->required();
  add_book_options(command, *common_);
  command->callback([this, item, blank] {
    if (item->empty() && blank->empty()) throw CLI::RequiredError("ITEM or --blank");
    spoil_.call = book_call(*common_);
    run("", [this](const Shop& shop) { return run_spoil(shop, spoil_); });
  });
}

void BookCommands::add_resume(CLI::App& app) {
  CLI::App* command =
      app.add_subcommand("resume", "A bed was interrupted: book what is done, write the sheet of the rest");
  command->add_option("SHEET", resume_.sheet, "the sheet, such as sheet-003 or 3")->required();
  command->add_option("--done", resume_.done, "pockets that are engraved, such as 1-5");
  command->add_option("--spoiled", resume_.spoiled, "pockets whose pieces are lost");
  command->add_option("--reason", resume_.reason, "what happened to those (default: the bed was interrupted)");
  add_common(command, *common_, "out/sheets");
  add_clock_options(command, *common_);
  command->callback([this] {
    resume_.call = book_call(*common_);
    resume_.out = common_->out;
    run("sheet", [this](const Shop& shop) { return run_resume(shop, resume_); });
  });
}

void BookCommands::add_looks(CLI::App& app) {
  CLI::App* stock = app.add_subcommand("stock", "What is left, what waits, how many pieces to prepare");
  add_book_options(stock, *common_);
  stock->callback([this] { run("", [this](const Shop& shop) { return run_stock(shop, {book_call(*common_)}); }); });

  CLI::App* history = app.add_subcommand("history", "The story of an item, an order, a piece, a sheet or a held row");
  history
      ->add_option("SUBJECT", history_.subject,
                   "1002-2, 1002, S-12, sheet-003 or row-3; else words, or a customer's name")
      ->required();
  add_book_options(history, *common_);
  history->callback([this] {
    history_.call = book_call(*common_);
    run("", [this](const Shop& shop) { return run_history(shop, history_); });
  });

  CLI::App* list = app.add_subcommand("list", "Every item that is not packed, rows that are held, open questions");
  list->add_option("WORDS", list_.words,
                   "only what has these in its words, its number or its customer's name, packed or not");
  list->add_option("--state", list_.state, "only those in this state: held, ready, engraved, packed, …");
  list->add_option("--csv", list_.csv, "write the list into this file, too");
  add_book_options(list, *common_);
  list->callback([this] {
    list_.call = book_call(*common_);
    run("", [this](const Shop& shop) { return run_list(shop, list_); });
  });
}

void BookCommands::add_care(CLI::App& app) {
  CLI::App* backup = app.add_subcommand("backup", "Copy the ledger, complete, even while it is in use");
  backup->add_option("FILE", backup_, "a new file")->required();
  add_book_options(backup, *common_);
  backup->callback(
      [this] { run("", [this](const Shop& shop) { return run_backup(shop, book_call(*common_), backup_); }); });

  CLI::App* check = app.add_subcommand("check", "Look whether the ledger and the files of every sheet are sound");
  add_book_options(check, *common_);
  check->callback([this] { run("", [this](const Shop& shop) { return run_check(shop, book_call(*common_)); }); });
}

}  // namespace ordinatio
