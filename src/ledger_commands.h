// The commands of the ledger on the command line.
#pragma once

#include "command.h"

namespace ordinatio {

/// What is wished of an item's setting, as it was typed.
struct SettingTyped {
  std::string design, size, nudge;  // empty: not given
  bool keep_lines = false;
};

/// Adds them to the program; each puts its exit code into `code` when it is run.
class LedgerCommands {
 public:
  void add_to(CLI::App& app, Common& common, int& code);

 private:
  void add_intake(CLI::App& app);
  void add_answer(CLI::App& app);
  void add_corrections(CLI::App& app);
  void add_setting(CLI::App& app);
  CLI::App* add_correction(CLI::App& app, const char* name, const char* about, CorrectionOptions::What what);
  void add_move(CLI::App& app);
  void add_let_go(CLI::App& app);
  void add_undo(CLI::App& app);
  void add_approve(CLI::App& app);
  void add_engraved(CLI::App& app);
  void add_packed(CLI::App& app);
  void add_spoil(CLI::App& app);
  void add_resume(CLI::App& app);
  void add_looks(CLI::App& app);
  void add_run_sheet(CLI::App& app);
  void add_care(CLI::App& app);
  /// Runs the work in the workshop, with the account said as `kind`.
  template <class Work>
  void run(std::string_view kind, Work&& work) {
    *code_ = run_in_shop(*common_, kind, std::forward<Work>(work));
  }

  Common* common_ = nullptr;
  int* code_ = nullptr;
  IntakeOptions intake_;
  AnswerOptions answer_;
  std::string answer_word_;
  CorrectionOptions correction_;
  SettingTyped setting_;
  MoveOptions move_;
  LetGoOptions let_go_;
  UndoOptions undo_;
  ItemsOptions items_;
  EngravedOptions engraved_;
  SpoilOptions spoil_;
  ResumeOptions resume_;
  HistoryOptions history_;
  ListOptions list_;
  RunSheetOptions run_sheet_;
  std::filesystem::path backup_;
};

}  // namespace ordinatio
