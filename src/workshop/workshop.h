// In: a workshop's folder: its shop.toml, or the lack of one.
// Out: what shop.toml says: orders' columns, beds and boards, pieces, labels, files; or a new folder that works as it is.
// Never: reads orders or designs, sets a word, or opens a ledger.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "bed/bed.h"
#include "machine/machine.h"
#include "orders/orders.h"
#include "paper/labels.h"
#include "paper/packing_list.h"
#include "plan/plan.h"
#include "write/write.h"

namespace ordinatio::inline workshop {

/// The measured pieces, and how they are used up.
struct BlankUse {
  std::string file;  // beside shop.toml; empty: every piece is taken for the nominal one
  /// Which pieces are saved for later where there are more than items: the fullest, or none, so that lettering is as
  /// large as it can be today.
  enum class Spare { fullest, none } spare = Spare::fullest;
};

struct ShopMachine {
  Machine bed;                   // its name besides
  std::optional<Motion> motion;  // absent: no speed of it is told, and no time
};

/// [settings_card]: what a person tries on a spare piece, in their own words.
struct SettingsCardTable {
  std::string size;                                            // "80x60"; empty: not said
  std::map<std::string, std::string, std::less<>> tried = {};  // "speed", "power", "pitch"
};

struct Shop {
  std::filesystem::path folder;
  std::string name;
  OrderFormat orders;
  BlankUse blanks;
  std::string ledger;  // the ledger's file, beside shop.toml; empty: the workshop keeps none
  std::string default_design, stand_design;
  std::string sample = "Mill & Quay 1874";  // the words of specimens
  std::string language;                     // for Han forms and dates where the design names none
  BedPlan plan;                             // its jig is the plain one, its machine that which sheets are made for
  std::vector<ShopMachine> machines;        // in the file's order; the first is taken where none is asked for
  bool several_machines = false;            // as [[machines]] has them, whether they are one or more
  /// More boards, [jig.NAME], in the file's order. Which of all holds a piece: the one that the design names, else the
  /// first whose pockets take it, the plain one before the others.
  std::vector<Jig> named_jigs;
  bool has_plain_jig = true;  // false where only named ones stand in the file
  LabelGrid labels;
  ParcelHead packing;
  SettingsCardTable settings_card;
  std::optional<HatchPart> hatch;  // of designs that say nothing of it; absent: they are filled
  DxfOptions dxf;
  SvgOptions svg;
  /// How the machine is set for a design, in the workshop's own words: they are shown on loading sheets, and mean nothing here.
  std::vector<std::pair<std::string, std::string>> settings;
  std::vector<WorkStation> stations;  // that a piece goes through, in their order
  std::vector<DaysOff> days_off;      // of the whole workshop
};

// ---- shop_file.cpp ----

/// Reads shop.toml; designs are read when they are asked for.
Result<Shop> read_shop(const std::filesystem::path& folder);

// ---- machine_table.cpp ----

/// From now on sheets are made for the machine of that name. Faults: there is none; the boards do not lie on its bed.
MaybeFault choose_machine(Shop& shop, const std::string& name);
/// How the machine moves that a sheet was made for; one that names none was made for the first. None: nothing is told.
const Motion* motion_for(const Shop& shop, const std::string& machine);

// ---- new_shop.cpp ----

/// Makes a workshop folder that works as it is. Faults: it exists and is not empty.
MaybeFault new_shop(const std::filesystem::path& folder);

}  // namespace ordinatio::inline workshop
