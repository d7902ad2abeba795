#include <algorithm>

#include "manifest/manifest.h"
#include "shop/bookings.h"
#include "shop/piece_glass.h"
#include "shop/recompose.h"

namespace ordinatio::inline shop {
namespace {

Result<Manifest> manifest_in(const Shop& shop, const LedgerSheet& sheet, const std::string& name) {
  const std::filesystem::path file = folder_on_disk(shop, sheet) / name;
  const Result<std::string> bytes = read_file(file);
  if (!bytes.ok()) {
    Fault fault = bytes.fault();
    fault.mend = "Put the sheet's files back from a copy";
    return fault;
  }
  const auto known = sheet.files.find(name);
  if (known == sheet.files.end() || known->second != sha256_hex(*bytes)) {
    return Fault{"the manifest is not what was written", file.string(), "its checksum differs from the ledger's",
                 "Put the sheet's files back from a copy"};
  }
  return in_colours_of(shop, read_manifest(*bytes, file.string()));
}

/// The sheet's manifests by name, the newest first.
std::vector<std::string> manifests_of(const LedgerSheet& sheet) {
  const std::string own = sheet.name + ".json";
  std::vector<std::string> names;
  for (const auto& [name, checksum] : sheet.files) {
    if (is_aside(name) && std::filesystem::path(name).filename() == own) names.push_back(name);
  }
  // "earlier-1000" comes after "earlier-999".
  std::ranges::sort(names, std::greater(), [](const std::string& name) { return std::pair(name.size(), name); });
  if (sheet.files.contains(own)) names.insert(names.begin(), own);
  return names;
}

}  // namespace

Result<Manifest> manifest_of(const Shop& shop, const LedgerSheet& sheet) {
  const std::vector<std::string> names = manifests_of(sheet);
  return manifest_in(shop, sheet, names.empty() ? sheet.name + ".json" : names.front());
}

Result<Manifest> manifest_with(const Shop& shop, const LedgerSheet& sheet, const std::string& item) {
  Result<Manifest> newest = manifest_of(shop, sheet);
  if (!newest.ok() || find_item(*newest, item).ok()) return newest;
  for (const std::string& name : manifests_of(sheet)) {
    Result<Manifest> manifest = manifest_in(shop, sheet, name);
    if (manifest.ok() && find_item(*manifest, item).ok()) return manifest;
  }
  return newest;
}

Result<Sheet> drawn_again(Workroom& workroom, Ledger& ledger, const LedgerSheet& sheet,
                          const std::vector<LedgerPlacement>& placements, const std::string& name, int number) {
  const Result<Manifest> newest = manifest_of(workroom.shop(), sheet);
  if (!newest.ok()) return newest.fault();
  Typesetter typesetter(workroom.fonts());
  std::vector<SheetItem> items;
  std::vector<int> pockets;
  std::map<std::string, std::string> designs;
  const auto not_engraved = pieces_not_engraved(workroom);
  for (const LedgerPlacement& placement : placements) {
    const std::string id = ledger.item(placement.item)->number;
    const Result<Manifest> manifest = manifest_with(workroom.shop(), sheet, id);
    if (!manifest.ok()) return manifest.fault();
    const Result<ManifestItem> before = find_item(*manifest, id);
    if (!before.ok()) return before.fault();
    if (auto fault = check_lying(not_engraved, before->piece.id, id)) return *std::move(fault);
    Result<SheetItem> item = recompose(workroom, typesetter, *manifest, *before, std::nullopt);
    if (!item.ok()) return item.fault();
    designs.insert(manifest->design_checksums.begin(), manifest->design_checksums.end());
    items.push_back(*std::move(item));
    pockets.push_back(placement.pocket);
  }
  std::erase_if(designs, [&](const auto& design) {
    return std::ranges::none_of(items, [&](const SheetItem& item) { return item.item.design == design.first; });
  });
  Result<Sheet> again = build_sheet(frame_of(*newest), std::move(items), name, number, pockets);
  if (!again.ok()) return again;
  again->designs = std::move(designs);
  again->date = newest->date;
  again->remake_of = newest->remake_of;
  return again;
}

}  // namespace ordinatio::inline shop
