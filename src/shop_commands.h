// The commands that work with the workshop's files, with a ledger or without.
#pragma once

#include "command.h"
#include "shop/align.h"
#include "shop/blank_pictures.h"
#include "shop/day.h"
#include "shop/jig.h"
#include "shop/loading.h"
#include "shop/panes.h"
#include "shop/photo_piece.h"
#include "shop/proof.h"
#include "shop/remake.h"
#include "shop/settings_card.h"
#include "shop/specimen.h"
#include "shop/stands.h"

namespace ordinatio {

/// Adds them to the program; each puts its exit code into `code` when it is run.
class ShopCommands {
 public:
  void add_to(CLI::App& app, Common& common, int& code);

 private:
  void add_new(CLI::App& app);
  void add_machine_option(CLI::App* command);
  void add_day(CLI::App& app);
  void add_proof(CLI::App& app);
  void add_remake(CLI::App& app);
  void add_align(CLI::App& app);
  void add_loading(CLI::App& app);
  void add_jig(CLI::App& app);
  void add_stands(CLI::App& app);
  void add_specimen(CLI::App& app);
  void add_blanks(CLI::App& app);
  void add_panes(CLI::App& app);
  void add_card(CLI::App& app);
  void add_settings_card(CLI::App& app);
  void add_measure(CLI::App& app);

  Common* common_ = nullptr;
  int* code_ = nullptr;
  std::filesystem::path folder_;
  DayOptions day_;
  ProofOptions proof_;
  RemakeOptions remake_;
  AlignOptions align_;
  LoadingOptions loading_;
  std::string allowed_;
  JigOptions jig_;
  StandOptions stands_;
  SpecimenOptions specimen_;
  bool of_designs_ = false;
  std::vector<std::string> designs_;  // whose specimens are to be made
  BlankOptions blanks_;
  PanesOptions panes_;
  std::string dxf_, paper_, machine_;
  std::string card_paper_;
  SettingsCardOptions settings_card_;
  MeasureOptions measure_;
  std::map<std::string, std::string> measured_words_;  // by their columns
};

}  // namespace ordinatio
