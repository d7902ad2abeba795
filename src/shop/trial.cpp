#include "shop/trial.h"

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <map>
#include <system_error>

#include "bed/machine_setting.h"
#include "shop/ledger_access.h"
#include "shop/piece_choice.h"
#include "shop/recompose.h"
#include "shop/records.h"
#include "shop/redrawing.h"
#include "shop/told_languages.h"

namespace ordinatio::inline shop {

struct TrialBench::Inside {
  explicit Inside(Shop given) : shop(std::move(given)), workroom(shop), composer(workroom, "", 1) {}

  Result<const LaidDesign*> laid(const Station& station, const std::string& design, const std::string& blank);

  Shop shop;  // what the workroom points to
  Workroom workroom;
  Composer composer;
  std::optional<std::vector<BlankRow>> pieces;
  std::vector<HeldItem> pieces_held;
  std::map<std::pair<std::string, std::string>, LaidDesign> laid_designs;  // by design and piece
};

TrialBench::TrialBench(const Shop& shop) : inside_(std::make_unique<Inside>(shop)) {}
TrialBench::~TrialBench() = default;
TrialBench::TrialBench(TrialBench&&) noexcept = default;
TrialBench& TrialBench::operator=(TrialBench&&) noexcept = default;

const Shop& TrialBench::shop() const { return inside_->shop; }
const std::vector<HeldItem>& TrialBench::pieces_held() const { return inside_->pieces_held; }
std::vector<std::string> TrialBench::design_names() const { return inside_->workroom.design_names(); }
std::vector<std::string> TrialBench::face_names() const { return inside_->workroom.face_names(); }

Result<const std::vector<BlankRow>*> TrialBench::pieces() {
  if (!inside_->pieces) {
    Account account;
    Result<std::optional<Blanks>> read = read_pieces(inside_->workroom, {}, account);
    if (!read.ok()) return read.fault();
    inside_->pieces = *read ? std::move((*read)->rows) : std::vector<BlankRow>();
    inside_->pieces_held = std::move(account.held);
  }
  return &*inside_->pieces;
}

/// The design as it comes out on the piece. Faults: it does not go there.
Result<const LaidDesign*> TrialBench::Inside::laid(const Station& station, const std::string& design,
                                                   const std::string& blank) {
  if (blank.empty()) return &station.design;
  const auto known = laid_designs.find({design, blank});
  if (known != laid_designs.end()) return &known->second;
  const auto row = std::ranges::find(*pieces, blank, [](const BlankRow& one) { return one.blank.id; });
  if (row == pieces->end())
    return Fault{"there is no piece " + blank, "", "the file of measured pieces has none", "Choose another piece"};
  const std::optional<Blank> lies = as_wanted(*row, station, true);
  if (!lies) return why_not(*row, station);
  Result<LaidDesign> on_piece = laid_on(station.design, *lies);
  if (!on_piece.ok()) return on_piece.fault();
  return &laid_designs.emplace(std::pair(design, blank), *std::move(on_piece)).first->second;
}

Result<Tried> TrialBench::set(const Trial& trial) {
  Order order;
  order.text = trial.words;
  order.design = trial.design;
  order.told = trial.told;
  order.setting = trial.setting;
  if (!trial.setting.design.empty()) order.design = trial.setting.design;
  if (const auto read = pieces(); !read.ok()) return read.fault();
  Tried tried;
  tried.design = inside_->workroom.design_of(order);
  const Result<const Station*> station = inside_->workroom.station(tried.design);
  if (!station.ok()) return station.fault();
  const Result<const LaidDesign*> laid = inside_->laid(**station, tried.design, trial.blank);
  if (!laid.ok()) return laid.fault();
  inside_->composer.date_is(trial.date);
  const LaidOrder wanted{&order, *laid};
  SetOrder set = std::move(inside_->composer.set(std::span(&wanted, 1)).front());
  tried.inscription = std::move(set.inscription);
  tried.artwork = std::move(set.artwork);
  tried.blank = (*laid)->blank;
  tried.held = std::move(set.held);
  tried.no_bed = inside_->workroom.no_bed_for(order);
  return tried;
}

Result<Tried> TrialBench::set_by(const std::string& text, const Trial& trial) {
  const Result<const Station*> station = inside_->workroom.station_by(trial.design, text);
  Result<Tried> tried = station.ok() ? set(trial) : station.fault();
  inside_->workroom.forget(trial.design);
  return tried;
}

Result<Sheet> TrialBench::bare_bed(const std::string& design) {
  const Result<const Station*> station = inside_->workroom.station(design);
  if (!station.ok()) return station.fault();
  if ((*station)->no_bed) return *(*station)->no_bed;
  const Frame& bed = (*station)->beds.front();
  SheetItem bare;
  bare.artwork.blank = (*station)->design.blank;
  bare.artwork.kept_clear = (*station)->design.kept_clear;
  bare.artwork.from_behind = (*station)->design.from_behind;
  return build_sheet(bed, std::vector<SheetItem>(bed.pockets.size(), bare), "", 1);
}

Result<const Design*> TrialBench::design(const std::string& name) {
  const Result<const Station*> station = inside_->workroom.station(name);
  if (!station.ok()) return station.fault();
  return static_cast<const Design*>(&(*station)->design);
}

Result<Sheet> TrialBench::sheet(const LedgerSheet& sheet) {
  const auto file = folder_on_disk(inside_->shop, sheet) / (sheet.name + ".json");
  const Result<Manifest> manifest = open_manifest(inside_->shop, file);
  if (!manifest.ok()) return manifest.fault();
  return redrawn(*manifest, inside_->workroom, sheet.name);
}

Result<std::vector<std::string>> TrialBench::suiting(const LedgerSheet& sheet, const std::string& item) {
  if (const auto read = pieces(); !read.ok()) return read.fault();
  const Result<Sheet> drawn = this->sheet(sheet);
  if (!drawn.ok()) return drawn.fault();
  std::vector<SheetItem> items = drawn->items;
  const auto here = std::ranges::find(items, item, [](const SheetItem& one) { return one.item.id; });
  std::vector<std::string> suiting;
  if (here == items.end() || here->pocket == 0 || here->artwork.blank.id.empty()) return suiting;
  const Station& station = *inside_->workroom.opened(here->item.design);
  const Pocket& pocket = drawn->frame.pockets[static_cast<std::size_t>(here->pocket) - 1];
  const BedPlan& plan = drawn->frame.plan;
  for (const BlankRow& row : *inside_->pieces) {
    const std::optional<Blank> lies = as_wanted(row, station);
    if (!lies || row.blank.id == drawn->items[static_cast<std::size_t>(here - items.begin())].artwork.blank.id)
      continue;
    const Bounds box = bounds_of(path_of(*lies));
    here->artwork.blank = *lies;
    if (lies_in(pocket, box.width(), box.height(), plan.jig) && setting_for(plan.machine, items).ok())
      suiting.push_back(row.blank.id);
  }
  return suiting;
}

ToldLanguage TrialBench::told(Ledger& ledger, const LedgerItem& item) {
  std::vector<Order> orders{order_of(item)};
  tell_languages(orders, ledger, inside_->workroom);
  return orders.front().told;
}

bool needs_yes(TrialBench& bench, const LedgerItem& item) {
  const std::string wished = kept_setting(item.setting).design;
  const std::string named = wished.empty() ? item.design : wished;
  const auto design = bench.design(named.empty() ? bench.shop().default_design : named);
  return design.ok() && (*design)->approval;
}

namespace {

/// A folder that goes with this object.
class PassingFolder {
 public:
  PassingFolder() {
    std::string name = std::filesystem::temp_directory_path() / "ordinatio-XXXXXX";
    if (::mkdtemp(name.data()) == nullptr) throw std::system_error(errno, std::generic_category(), "mkdtemp");
    folder_ = name;
  }
  ~PassingFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  PassingFolder(const PassingFolder&) = delete;
  PassingFolder& operator=(const PassingFolder&) = delete;
  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }

 private:
  std::filesystem::path folder_;
};

MaybeFault choose_pieces(Records& records, const std::string& date, std::map<std::string, std::string>& piece_of,
                         Account& account) {
  Workroom workroom(records.shop());
  const Result<std::optional<FreePieces>> pieces = records.pieces(workroom, {}, account);
  if (!pieces.ok()) return pieces.fault();
  if (!*pieces) return std::nullopt;
  const std::optional<std::vector<Order>> orders = records.orders_to_lay(workroom, true, account);
  if (!orders) return std::nullopt;
  if (auto fault = workroom.open_designs(*orders)) return fault;
  Composer composer(workroom, date, 0);
  PieceChoice choice(workroom, (*pieces)->blanks, composer.typesetters(), date);
  choice.keep_for((*pieces)->reserved);
  for (const PlacedItem& item : choice.choose(*orders, account.notes)) {
    if (item.piece != nullptr) piece_of[item_id((*orders)[item.order], item.ordinal)] = item.piece->blank.id;
  }
  return std::nullopt;
}

}  // namespace

/// In a copy of the ledger: the sharing out takes a while, and nobody is to wait for it.
Result<std::map<std::string, std::string>> pieces_to_come(const Shop& shop, const LedgerCall& call,
                                                          const std::string& date) {
  const PassingFolder aside;
  Shop copy = shop;
  copy.ledger = aside.folder() / "ledger";
  const auto ledger = open_ledger(shop, call, Ledger::Access::read);
  if (!ledger.ok()) return ledger.fault();
  if (auto fault = guarded([&] { return (*ledger)->back_up(copy.ledger); })) return *std::move(fault);
  std::map<std::string, std::string> piece_of;
  const auto work = [&](Records& records, Account& account) { return choose_pieces(records, date, piece_of, account); };
  const Result<Account> account = to_see_on_record(copy, call, EntryKind::day, work);
  if (!account.ok()) return account.fault();
  return piece_of;
}

}  // namespace ordinatio::inline shop
