#include "shop/sheet_run.h"

#include <algorithm>
#include <stdexcept>

#include "base/account.h"
#include "base/phrase.h"
#include "bed/machine_setting.h"
#include "bed/thickness_lots.h"
#include "shop/sheet_time.h"

namespace ordinatio::inline shop {
namespace {

constexpr std::size_t sheets_a_core = 4;  // gathered before they are written: enough to keep every core busy

/// Whether the beds have the same pockets of the same board; how blanks lie in them may differ.
bool same_pockets(const Frame& a, const Frame& b) {
  const auto at_same_place = [](const Pocket& p, const Pocket& q) {
    return p.number == q.number && p.box.left == q.box.left && p.box.bottom == q.box.bottom &&
           p.box.right == q.box.right && p.box.top == q.box.top;
  };
  return a.plan.jig.name == b.plan.jig.name && std::ranges::equal(a.pockets, b.pockets, at_same_place);
}

const Frame& bed_taking(const Station& station, const Blank& blank) {
  if (const Frame* bed = bed_for(station, blank)) return *bed;
  throw std::logic_error("an item is laid that fits no pocket");
}

}  // namespace

std::string numbered(const std::string& stem, int number) { return stem + zero_padded(std::to_string(number), 3); }

SheetRun::Written account_of(const Sheet& sheet) {
  SheetRun::Written written{sheet.name, setting_text(sheet), {}};
  for (const SheetItem& placed : sheet.items) {
    written.items.push_back({placed.item.id, placed.pocket, placed.artwork.blank.id, placed.artwork.hash});
  }
  return written;
}

SheetRun::SheetRun(const Workroom& workroom, Outbox* outbox, SheetFormats formats, Naming naming, unsigned workers)
    : workroom_(&workroom),
      outbox_(outbox),
      formats_(formats),
      naming_(std::move(naming)),
      workers_(workers == 0 ? core_count() : workers) {}

SheetRun::Load SheetRun::load_of(const Frame& bed, const Design& design, const Blank& blank) {
  auto known = std::ranges::find_if(beds_, [&](const Frame* other) { return same_pockets(bed, *other); });
  if (known == beds_.end()) known = beds_.insert(beds_.end(), &bed);
  return {static_cast<std::size_t>(known - beds_.begin()), material_key(blank.material), design.from_behind, 0};
}

void SheetRun::expect(const std::vector<Coming>& items) {
  std::map<Load, std::vector<const Coming*>> alike;
  for (const Coming& item : items) {
    const Frame* bed = bed_for(*item.station, *item.blank);
    if (bed == nullptr || !item.blank->thickness) continue;
    alike[load_of(*bed, item.station->design, *item.blank)].push_back(&item);
  }
  for (const auto& [load, group] : alike) {
    std::vector<double> thicknesses;
    for (const Coming* item : group) thicknesses.push_back(*item->blank->thickness);
    const std::vector<std::size_t> lots = thickness_lots(thicknesses, workroom_->shop().plan.machine.thickness_spread,
                                                         beds_[load.pockets]->pockets.size());
    for (std::size_t i = 0; i < group.size(); ++i) lots_[group[i]->item] = lots[i] + 1;
  }
}

MaybeFault SheetRun::add(const Station& station, SheetItem item) {
  const Frame& bed = bed_taking(station, item.artwork.blank);
  Load load = load_of(bed, station.design, item.artwork.blank);
  if (item.artwork.blank.thickness) load.lot = lots_.at(item.item.id);
  OpenSheet& open = open_[load];
  if (open.items.empty()) open = {naming_.first + static_cast<int>(begun_++), bed, {}, {}};
  open.designs.emplace(station.design.name, station.design.checksum);
  open.frame.pockets[open.items.size()].turned = bed.pockets[open.items.size()].turned;
  open.items.push_back(std::move(item));
  if (open.items.size() < bed.pockets.size()) return std::nullopt;
  full_.push_back(std::exchange(open, {}));
  return full_.size() < sheets_a_core * workers_ ? std::nullopt : write_full();
}

MaybeFault SheetRun::finish() {
  for (auto& [load, open] : open_) {
    if (!open.items.empty()) full_.push_back(std::move(open));
  }
  open_.clear();
  return write_full();
}

Result<Sheet> SheetRun::build(OpenSheet& open) const {
  Result<Sheet> sheet =
      build_sheet(open.frame, std::move(open.items), numbered(naming_.stem, open.number), open.number);
  if (!sheet.ok()) return sheet;
  sheet->designs = std::move(open.designs);
  sheet->date = naming_.date;
  return sheet;
}

MaybeFault SheetRun::write_full() {
  std::vector<MaybeFault> faults(full_.size());
  std::vector<Written> written(full_.size());
  std::vector<Sheet> kept(outbox_ == nullptr ? full_.size() : 0);
  for_each_parallel(full_.size(), workers_, [&](std::size_t i, unsigned) {
    Result<Sheet> sheet = build(full_[i]);
    if (!sheet.ok()) {
      faults[i] = sheet.fault();
      return;
    }
    written[i] = account_of(*sheet);
    if (outbox_ == nullptr) {
      kept[i] = *std::move(sheet);
      return;
    }
    written[i].time = sheet_time(workroom_->shop(), *sheet);
    faults[i] = put_sheet(*outbox_, *workroom_, *std::move(sheet), formats_, written[i].time);
  });
  std::ranges::move(kept, std::back_inserter(kept_));
  for (std::size_t i = 0; i < full_.size(); ++i) written_.emplace(full_[i].number, std::move(written[i]));
  full_.clear();
  for (MaybeFault& fault : faults) {
    if (fault) return fault;
  }
  return std::nullopt;
}

void tell_settings(Account& account, const std::map<int, SheetRun::Written>& sheets) {
  for (auto sheet = sheets.begin(); sheet != sheets.end();) {
    auto last = sheet;
    while (std::next(last) != sheets.end() && std::next(last)->second.setting == sheet->second.setting) ++last;
    const SheetRun::Written &from = sheet->second, &to = last->second;
    if (!from.setting.empty()) {
      account.told.push_back(from.name + (sheet == last ? "" : " to " + to.name) + ": " + from.setting);
    }
    sheet = std::next(last);
  }
}

void tell_times(Account& account, const std::map<int, SheetRun::Written>& sheets) {
  std::vector<NamedTime> times;
  times.reserve(sheets.size());
  for (const auto& [number, sheet] : sheets) times.push_back({sheet.name, sheet.time});
  tell_times(account, times);
}

void tell_setting(Account& account, const Sheet& sheet) {
  if (const std::string text = setting_text(sheet); !text.empty()) account.told.push_back(sheet.name + ": " + text);
}

}  // namespace ordinatio::inline shop
