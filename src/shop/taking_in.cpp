#include "shop/taking_in.h"

#include "base/phrase.h"
#include "intake/held_rows.h"
#include "shop/same_artwork.h"

namespace ordinatio::inline shop {
namespace {

/// "14 items of 12 new orders are new, 3 lines changed, 40 lines were known already".
std::string summary(const IntakeCounts& counts) {
  std::string text = counts.new_items == 0 ? "nothing is new" : counted(counts.new_items, "new item");
  if (counts.new_orders > 0) text += " of " + counted(counts.new_orders, "new order");
  if (counts.changed > 0) text += "; " + counted(counts.changed, "line") + " changed";
  if (counts.asked > 0) text += "; " + counted(counts.asked, "question") + " asked";
  if (counts.cancelled > 0) text += "; " + counted(counts.cancelled, "line") + " came cancelled, left out";
  if (counts.unchanged > 0) text += "; " + counted(counts.unchanged, "line") + " known already";
  return text;
}

}  // namespace

IntakeRules intake_rules(const Shop& shop) {
  return {{shop.orders.line_separator, shop.orders.decode_entities}, shop.default_design, same_artwork(shop)};
}

void take_export_in(const Shop& shop, Ledger& ledger, Orders& orders, const std::filesystem::path& file,
                    const std::string& channel, Account& account) {
  if (!channel.empty()) {
    for (Order& order : orders.orders) order.number = channel + "-" + order.number;
    for (HeldOrder& row : orders.rows) {
      if (!row.order.number.empty()) row.order.number = channel + "-" + row.order.number;
    }
  }
  const std::string name = file.filename().string();
  const IntakeRules rules = intake_rules(shop);
  const bool known = ledger.knows_export(orders.checksum);
  const IntakeCounts counts = take_in(ledger, orders, name, account, rules);
  account.told.insert(account.told.begin(), name + ": " + summary(counts));
  account.held.clear();  // rows stand in the ledger, and are told with all of them
  orders.rows.insert(orders.rows.end(), counts.doubles.begin(), counts.doubles.end());
  enter_held_rows(ledger, {orders, rows_by_order(orders.orders, rules), name, channel, known}, account);
  account.notes.insert(account.notes.end(), orders.notes.begin(), orders.notes.end());
  account.warnings.insert(account.warnings.end(), orders.warnings.begin(), orders.warnings.end());
}

}  // namespace ordinatio::inline shop
