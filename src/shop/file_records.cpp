#include "shop/file_records.h"

#include <set>

#include "bed/item_number.h"
#include "shop/bookings.h"
#include "shop/piece_glass.h"
#include "shop/recompose.h"
#include "shop/redrawing.h"
#include "shop/told_languages.h"

namespace ordinatio::inline shop {
namespace {

MaybeFault missing_item(const std::vector<Order>& orders, const std::vector<std::string>& items) {
  std::set<std::string> known;
  for (const Order& order : orders) {
    for (int ordinal = 1; ordinal <= order.quantity; ++ordinal) known.insert(item_id(order, ordinal));
  }
  const std::vector<std::string_view> names(known.begin(), known.end());
  for (const std::string& item : items) {
    if (known.contains(item)) continue;
    const auto nearest = nearest_word(item, names);
    return Fault{"there is no item " + item, "--item", "the orders make no item of that number, or its row is held",
                 nearest ? "Did you mean " + *nearest + "?" : "Name an item such as 1002-2: order, hyphen, number"};
  }
  return std::nullopt;
}

}  // namespace

MaybeFault FileRecords::take_in(Workroom& workroom, std::optional<ShopExport> given,
                                const std::vector<std::string>& wanted, Account& account) {
  file_ = given->file;
  Orders& read = given->orders;
  if (auto fault = missing_item(read.orders, wanted)) return fault;
  if (auto fault = workroom.open_designs(read.orders)) return fault;
  if (wanted.empty()) account.held = std::move(read.held);
  account.notes = std::move(read.notes);
  account.warnings = std::move(read.warnings);
  orders_ = std::move(read.orders);
  return std::nullopt;
}

Result<std::optional<FreePieces>> FileRecords::pieces(Workroom& workroom, const std::filesystem::path& file,
                                                      Account& account) {
  Result<std::optional<Blanks>> read = read_pieces(workroom, file, account);
  if (!read.ok()) return read.fault();
  if (!*read) return std::optional<FreePieces>();
  return std::optional(FreePieces{**std::move(read), {}});
}

std::vector<Order> FileRecords::orders_to_prove(const Workroom& workroom, bool measured, Account& account) {
  if (!measured) hold_wishes(orders_, account.held);  // before the file's languages are told: what is held has no voice
  std::vector<Order> orders = parted(std::move(orders_));
  tell_languages(orders, workroom);
  return orders;
}

void FileRecords::hold_orders(const std::vector<HeldItem>& held, Account& account) {
  account.held.insert(account.held.end(), held.begin(), held.end());
}

MaybeFault FileRecords::nothing_to_prove(Account&) {
  return Fault{"there is nothing to make a proof of", file_.string(), "no row makes an item", "Mend the rows"};
}

Result<std::optional<WantedStands>> FileRecords::stands_wanted(const StandOptions& options, Account&) {
  if (auto fault = check_numbers(options)) return *std::move(fault);
  return std::optional(WantedStands{*options.count});
}

Result<std::optional<ToRemake>> FileRecords::to_remake(Workroom& workroom, const RemakeOptions& options, Account&) {
  Result<std::string> number = item_typed(options.item);
  if (!number.ok()) return number.fault();
  if (options.manifest.empty()) {
    return Fault{"no sheet is named", "--sheet", "without a ledger the program does not know where the item was",
                 "Give the manifest (.json) of the sheet that it was on"};
  }
  if (options.later || !options.blank.empty()) {
    return Fault{"that needs a ledger", options.later ? "--later" : "--blank",
                 "the ledger keeps what waits and what is free",
                 "Write [ledger] file = \"workshop.ledger\" into shop.toml"};
  }
  Result<Manifest> manifest = open_manifest(shop_, options.manifest);
  if (!manifest.ok()) return manifest.fault();
  const Result<ManifestItem> before = find_item(*manifest, *number);
  if (!before.ok()) return before.fault();
  if (auto fault = check_lying(pieces_not_engraved(workroom), before->piece.id, before->item.id))
    return *std::move(fault);
  ToRemake wanted{*std::move(manifest), *before, *std::move(number), options.text};
  wanted.is_numbered = !before->item.source.empty();  // a stand has none
  return std::optional(std::move(wanted));
}

std::string FileRecords::remake_name(const std::string& item, int) { return plain_name("remake-" + item); }

Result<Manifest> FileRecords::manifest_to_align(const AlignOptions& options) {
  return open_manifest(shop_, options.manifest);
}

Result<Sheet> FileRecords::redraw(Workroom& workroom, const Manifest& manifest, const std::string& name, Account&) {
  if (auto fault = check_marks(manifest)) return *std::move(fault);
  return redrawn(manifest, workroom, name);
}

MaybeFault FileRecords::open_aligned(const std::filesystem::path& named, const std::string& name) {
  return open_outbox(named, "align", name + ".");
}

MaybeFault FileRecords::book_aligned(const std::string&, Account& account) { return book_sheets({}, account); }

MaybeFault FileRecords::open_outbox(const std::filesystem::path& named, const std::string& usual,
                                    const std::string& stem) {
  auto opened = Outbox::open(named.empty() ? shop_.folder / "out" / usual : named, stem);
  if (!opened.ok()) return opened.fault();
  delivery_.outbox = *std::move(opened);
  return std::nullopt;
}

MaybeFault FileRecords::book_sheets(std::vector<NewSheet>, Account& account) {
  account.files = outbox().files();
  return std::nullopt;
}

}  // namespace ordinatio::inline shop
