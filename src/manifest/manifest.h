// In: the bytes of a manifest.
// Out: what a remake needs of a sheet and its items, or the Fault that says why they are not to be trusted.
// Never: believes a manifest that was edited; knows what today's design would make of its words.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"
#include "bed/machine_setting.h"

namespace ordinatio::inline manifest {

/// A manifest read back: what a remake needs. Faults: not JSON, a field missing, the checksum not that of the
/// text (edited by hand).
struct ManifestItem {
  Item item;
  int pocket = 0;
  Blank piece;                   // without an id: the nominal one, of which no more is told than material and thickness
  std::optional<Blank> set_for;  // the piece that it was composed for, where it was moved to this one as it was
  bool from_behind = false;
  std::string hash;
  Placement placement;
  double cap_height = 0, x_height = 0, stroke = 0, counter = 0;  // mm; 0: there is none
  std::vector<std::string> lines, changes;                       // as engraved, and what was done to set them
  std::vector<UsedFace> faces;
  std::string date;                     // of the sheet, for date marks; ISO 8601, may be empty
  Transform to_bed;                     // blank mm → bed mm
  std::map<std::string, double> areas;  // of engraved operations, mm²
};
struct Manifest {
  std::string name;
  int number = 1;
  BedPlan plan;
  double blank_width = 0, blank_height = 0;
  std::vector<Pocket> pockets;
  std::vector<Point> marks;
  std::vector<ManifestItem> items;
  std::map<std::string, std::string> design_checksums;
  std::string date, remake_of;  // may be empty
  std::optional<Correction> correction;
  /// What the machine is set to; absent in a manifest from before it was written: then nothing is known of it. A manifest
  /// whose items do not go with it, or differ by more than the machine's spread, is refused.
  std::optional<MachineSetting> setting;
};
Result<Manifest> read_manifest(std::string_view bytes, const std::string& where);

}  // namespace ordinatio::inline manifest
