#include "shop/sheet_run.h"

namespace ordinatio {
namespace {

constexpr std::size_t sheets_a_core = 4;  // gathered before they are written: enough to keep every core busy

}  // namespace

std::string numbered(const std::string& stem, int number) {
  const std::string digits = std::to_string(number);
  return stem + std::string(digits.size() < 3 ? 3 - digits.size() : 0, '0') + digits;
}

SheetRun::Written account_of(const Sheet& sheet) {
  SheetRun::Written written{sheet.name, {}};
  for (const SheetItem& placed : sheet.items) {
    written.items.push_back({placed.item.id, placed.pocket, placed.artwork.blank.id, placed.artwork.hash});
  }
  return written;
}

SheetRun::SheetRun(Workroom& workroom, Outbox& outbox, SheetFormats formats, Naming naming, unsigned workers)
    : workroom_(&workroom),
      outbox_(&outbox),
      formats_(formats),
      naming_(std::move(naming)),
      workers_(workers == 0 ? core_count() : workers) {}

MaybeFault SheetRun::add(const Station& station, SheetItem item) {
  OpenSheet& open = open_[{station.frame.blank_width, station.frame.blank_height}];
  if (open.items.empty()) open = {naming_.first + static_cast<int>(begun_++), &station.frame, {}, {}};
  open.designs.emplace(station.design.name, station.design.checksum);
  open.items.push_back(std::move(item));
  if (open.items.size() < station.frame.pockets.size()) return std::nullopt;
  full_.push_back(std::move(open));
  open.items.clear();
  return full_.size() < sheets_a_core * workers_ ? std::nullopt : write_full();
}

MaybeFault SheetRun::finish() {
  for (auto& [size, open] : open_) {
    if (!open.items.empty()) full_.push_back(std::move(open));
  }
  open_.clear();
  return write_full();
}

Result<Sheet> SheetRun::build(OpenSheet& open) const {
  Result<Sheet> sheet =
      build_sheet(*open.frame, std::move(open.items), numbered(naming_.stem, open.number), open.number);
  if (!sheet) return sheet;
  sheet->designs = std::move(open.designs);
  sheet->date = naming_.date;
  return sheet;
}

MaybeFault SheetRun::write_full() {
  std::vector<MaybeFault> faults(full_.size());
  std::vector<Written> written(full_.size());
  for_each_parallel(full_.size(), workers_, [&](std::size_t i, unsigned) {
    const Result<Sheet> sheet = build(full_[i]);
    if (sheet) written[i] = account_of(*sheet);
    faults[i] = sheet ? put_sheet(*outbox_, *workroom_, *sheet, formats_) : sheet.fault();
  });
  for (std::size_t i = 0; i < full_.size(); ++i) written_.emplace(full_[i].number, std::move(written[i]));
  full_.clear();
  for (MaybeFault& fault : faults) {
    if (fault) return fault;
  }
  return std::nullopt;
}

}  // namespace ordinatio
