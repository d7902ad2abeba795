// The commands for the parcel on the command line: packing list, labels, codes for the pieces' backs.
#pragma once

#include "command.h"
#include "shop/packing.h"
#include "shop/plates.h"

namespace ordinatio {

/// Adds them to the program; each puts its exit code into `code` when it is run.
class PackingCommands {
 public:
  void add_to(CLI::App& app, Common& common, int& code);

 private:
  void add_packing(CLI::App& app);
  void add_labels(CLI::App& app);
  void add_plates(CLI::App& app);

  Common* common_ = nullptr;
  int* code_ = nullptr;
  PackingOptions packing_;
  LabelOptions labels_;
  PlateOptions plates_;
  std::string paper_, operation_;
};

}  // namespace ordinatio
