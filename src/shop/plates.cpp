#include "shop/plates.h"

#include <algorithm>

#include "base/phrase.h"
#include "bed/item_number.h"
#include "shop/parcels.h"
#include "shop/sheet_time.h"
#include "shop/transaction.h"

namespace ordinatio::inline shop {
namespace {

constexpr double plate_gap = 5;                     // mm between plates, and to spare for the saw
constexpr double wider_edges[] = {30, 40, 60, 80};  // mm, where plates would lie under marks

/// The bed filled with plates, whatever board the workshop has for its pieces: as near to its edge as the marks allow.
Result<Frame> bed_of_plates(const Shop& shop, const PlateWish& wish) {
  BedPlan plan = shop.plan;
  plan.jig = {};
  plan.jig.gap = plate_gap;
  plan.jig.lie = Jig::Lie::as_drawn;
  const Point measures = plate_measures(wish);
  Result<Frame> frame = lay_bed(plan, measures.x, measures.y);
  for (const double edge : wider_edges) {
    if (frame.ok()) break;
    plan.jig.edge = edge;
    Result<Frame> narrower = lay_bed(plan, measures.x, measures.y);
    if (narrower.ok()) frame = std::move(narrower);
  }
  return frame;
}

std::string sheet_name(std::size_t number) { return "plates-" + zero_padded(std::to_string(number), 3); }

MaybeFault put_plates(const Workroom& workroom, const Frame& frame, std::vector<SheetItem> items,
                      const std::filesystem::path& out, Account& account) {
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(out, "plates-");
  if (!outbox.ok()) return outbox.fault();
  const std::size_t room = frame.pockets.size();
  for (std::size_t begin = 0; begin < items.size(); begin += room) {
    const std::size_t end = std::min(items.size(), begin + room);
    const std::size_t number = begin / room + 1;
    std::vector<SheetItem> some(std::move_iterator(items.begin() + static_cast<std::ptrdiff_t>(begin)),
                                std::move_iterator(items.begin() + static_cast<std::ptrdiff_t>(end)));
    const Result<Sheet> sheet = build_sheet(frame, std::move(some), sheet_name(number), static_cast<int>(number));
    if (!sheet.ok()) return sheet.fault();
    if (auto fault = put_sheet(**outbox, workroom, *sheet, {}, sheet_time(workroom.shop(), *sheet))) return fault;
    ++account.sheets;
  }
  auto files = (*outbox)->deliver();
  if (!files.ok()) return files.fault();
  account.files = *std::move(files);
  return std::nullopt;
}

}  // namespace

Result<Account> run_plates(const Shop& shop, const PlateOptions& options) {
  return from_ledger(shop, options.call, [&](Ledger& ledger, Account& account) -> MaybeFault {
    const Result<std::vector<LedgerItem>> items = items_to_pack(ledger, options.items);
    if (!items.ok()) return items.fault();
    if (items->empty()) {
      account.told.emplace_back("nothing is engraved and not packed yet");
      return std::nullopt;
    }
    const Workroom workroom(shop);
    Typesetter typesetter(workroom.fonts());
    std::vector<SheetItem> plates;
    for (const LedgerItem& item : *items) {
      Result<Artwork> plate = plate_of(with_check(item.number), options.wish, shop.plan.machine, typesetter);
      if (!plate.ok()) return plate.fault();
      if (plate->lines.empty())
        account.warnings.push_back(with_check(item.number) +
                                   " stands in its code alone: no face draws the number below it");
      Item named{item.number, "plate", {item.number, {item.number}, {}}, item.source};
      plates.push_back({std::move(named), *std::move(plate), 0, {}});
    }
    const Result<Frame> frame = bed_of_plates(shop, options.wish);
    if (!frame.ok()) return frame.fault();
    account.items_set = plates.size();
    return put_plates(workroom, *frame, std::move(plates), options.out, account);
  });
}

}  // namespace ordinatio::inline shop
