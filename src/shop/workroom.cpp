#include "shop/workroom.h"

#include <algorithm>

#include "base/account.h"
#include "bed/item_number.h"
#include "design/hatch_table.h"
#include "design/lettering.h"
#include "intake/intake_row.h"
#include "shop/piece_glass.h"

namespace ordinatio::inline shop {
namespace fs = std::filesystem;

Workroom::Workroom(const Shop& shop)
    : shop_(&shop),
      fonts_(shop.folder / "fonts"),
      letterings_(std::make_unique<LetteringStock>(fonts_)),
      typesetter_(fonts_) {}

std::string Workroom::readable(const std::string& words) const {
  // It is no inscription: what parts an inscription's lines means nothing in it.
  return words.empty() ? "" : meaning_of(words, {"", shop_->orders.decode_entities});
}

CleaningRules Workroom::cleaning() const { return {shop_->orders.line_separator, shop_->orders.decode_entities}; }

fs::path Workroom::design_file(const std::string& name) const { return shop_->folder / "templates" / (name + ".toml"); }

bool Workroom::has_design(const std::string& name) const {
  std::error_code ignored;
  const std::string base = variant_of(name).base;
  // A name from an order must not reach out of the folder.
  return base.find_first_of("/\\") == std::string::npos && fs::is_regular_file(design_file(base), ignored);
}

DesignVariant Workroom::variant_of(const std::string& name) const {
  std::error_code ignored;
  const bool is_file =
      name.find_first_of("/\\") == std::string::npos && fs::is_regular_file(design_file(name), ignored);
  return is_file ? DesignVariant{name, {}, {}} : variant_named(name);
}

std::vector<std::string> Workroom::face_names() const {
  std::vector<std::string> names;
  for (const CatalogueFace& face : fonts_.catalogue()) {
    if (face.is_for_engraving()) names.push_back(face.name);
  }
  for (std::string& own : fonts_.own_names()) names.push_back(std::move(own));
  return names;
}

std::vector<std::string> Workroom::design_names() const {
  std::vector<std::string> names;
  std::error_code ignored;
  for (const auto& entry : fs::directory_iterator(shop_->folder / "templates", ignored)) {
    if (entry.path().extension() == ".toml") names.push_back(entry.path().stem().string());
  }
  std::ranges::sort(names);
  return names;
}

Fault Workroom::no_design(const std::string& whole_name) const {
  const std::string name = variant_named(whole_name).base;
  const std::vector<std::string> names = design_names();
  const std::vector<std::string_view> known(names.begin(), names.end());
  const auto nearest = nearest_word(name, known);
  std::string all;
  for (const std::string& one : names) all += (all.empty() ? "" : ", ") + one;
  return {"no design is called \"" + name + "\"", (shop_->folder / "templates").string(),
          all.empty() ? "the folder holds no designs" : "there are: " + all,
          nearest ? "Did you mean \"" + *nearest + "\"?" : "Name one of these"};
}

std::string Workroom::design_of(const Order& order) const {
  return order.design.empty() ? shop_->default_design : order.design;
}

const Frame* bed_for(std::span<const Frame> beds, double width, double height) {
  const auto takes = [&](const Frame& bed) { return lies_in(bed.pockets.front(), width, height, bed.plan.jig); };
  const auto found = std::ranges::find_if(beds, takes);
  return found == beds.end() ? nullptr : &*found;
}

const Frame* bed_for(const Station& station, const Blank& blank) {
  if (blank.id.empty()) return station.beds.empty() ? nullptr : &station.beds.front();
  const Bounds box = bounds_of(path_of(blank.outline));
  return bed_for(station.beds, box.width(), box.height());
}

namespace {

constexpr std::string_view shop_sign = "{shop}";  // in the fixed lines of a design

/// Puts the workshop's name where a design's lines ask for it. Faults: it has none.
MaybeFault name_the_shop(Design& design, const Shop& shop) {
  for (TextPart& text : design.texts) {
    auto* words = std::get_if<WordsPart>(&text.words);
    if (words == nullptr) continue;
    for (std::string& line : words->lines) {
      const std::size_t at = line.find(shop_sign);
      if (at == std::string::npos) continue;
      if (shop.name.empty()) {
        return Fault{"the workshop has no name", "shop.toml, [shop]",
                     "design " + design.name + " has " + std::string(shop_sign) + " in its lines",
                     "Write name = \"…\" there, or words of your own in the design"};
      }
      line.replace(at, shop_sign.size(), shop.name);
    }
  }
  return std::nullopt;
}

/// The boards that may hold a design's pieces, in the order in which they are asked. Faults: it names one that is not there.
Result<std::vector<Jig>> jigs_for(const Shop& shop, const Design& design) {
  std::vector<Jig> jigs;
  std::vector<std::string_view> names;
  for (const Jig& jig : shop.named_jigs) {
    names.push_back(jig.name);
    if (design.jig.empty() || design.jig == jig.name) jigs.push_back(jig);
  }
  if (design.jig.empty() && shop.has_plain_jig) jigs.insert(jigs.begin(), shop.plan.jig);
  if (!jigs.empty()) return jigs;
  const auto nearest = nearest_word(design.jig, names);
  return Fault{"no board is called \"" + design.jig + "\"", "templates/" + design.name + ".toml, jig",
               "shop.toml has no [jig." + design.jig + "]",
               nearest ? "Did you mean \"" + *nearest + "\"?" : "Write [jig." + design.jig + "] into shop.toml"};
}

/// Why no board takes the blank; of one board as it says itself.
Fault no_board(const Design& design, const std::vector<Fault>& reasons) {
  if (reasons.size() == 1) return reasons.front();
  std::string why;
  for (const Fault& reason : reasons) {
    why += (why.empty() ? "" : "; ") + reason.where + ": " + reason.what + ": " + reason.why;
  }
  std::string width;
  append_number(width, design.width, 2);
  return {"a blank of " + width + " x " + mm_text(design.height) + " fits on no board", "shop.toml", why,
          "Mend a [jig] in shop.toml, or the design's blank"};
}

}  // namespace

void Workroom::lay_beds(Station& station) const {
  const Result<std::vector<Jig>> jigs = jigs_for(*shop_, station.design);
  if (!jigs.ok()) {
    station.no_bed = jigs.fault();
    return;
  }
  std::vector<Fault> reasons;
  for (const Jig& jig : *jigs) {
    BedPlan plan = shop_->plan;
    plan.jig = jig;
    Result<Frame> bed = lay_bed(plan, station.design.width, station.design.height);
    if (bed.ok()) {
      station.beds.push_back(std::move(*bed));
    } else {
      reasons.push_back(bed.fault());
    }
  }
  if (!station.beds.empty()) return;
  station.no_bed = no_board(station.design, reasons);
  station.no_bed->where = "design " + station.design.name + ", " + station.no_bed->where;
}

const Station* Workroom::opened(const std::string& design) const {
  const auto known = stations_.find(design);
  return known == stations_.end() ? nullptr : &known->second;
}

Result<const Station*> Workroom::station(const std::string& name) {
  if (const Station* known = opened(name)) return known;
  if (!has_design(name)) return no_design(name);
  const DesignVariant variant = variant_of(name);
  Result<LaidDesign> design = read_design(design_file(variant.base));
  if (design.ok()) design = varied(*std::move(design), variant);
  return kept(name, std::move(design));
}

Result<const Station*> Workroom::station_by(const std::string& name, std::string_view text) {
  forget(name);
  return kept(name, design_of_text(text, design_file(name)));
}

Result<const Station*> Workroom::kept(const std::string& name, Result<LaidDesign> design) {
  if (!design.ok()) return design.fault();
  if (auto fault = name_the_shop(*design, *shop_)) return *std::move(fault);
  for (TextPart& text : design->texts) {
    if (text.language.empty()) text.language = shop_->language, text.shops_language = true;
    text.beam_spot = shop_->plan.machine.spot;
  }
  hatch_by(*design, shop_->hatch, shop_->plan.machine.spot);
  if (auto fault = check_faces(*design, typesetter_)) return *std::move(fault);
  MaybeFault unfit = judge_design(*design);
  Station station{std::move(*design), {}, {}, std::move(unfit)};
  lay_beds(station);
  return &stations_.emplace(name, std::move(station)).first->second;
}

MaybeFault Workroom::no_bed_for(const Order& order) const {
  const Station* station = opened(design_of(order));
  if (station == nullptr || !station->no_bed) return std::nullopt;
  Fault fault = *station->no_bed;
  fault.where = order.source + ", " + fault.where;
  return fault;
}

MaybeFault Workroom::open_designs(const std::vector<Order>& orders) {
  for (const Order& order : orders) {
    const std::string name = design_of(order);
    if (!order.design.empty() && !has_design(name)) continue;
    if (const auto opened = station(name); !opened.ok()) return opened.fault();
  }
  return std::nullopt;
}

Composer::Composer(const Workroom& workroom, std::string date, unsigned workers)
    : workroom_(&workroom), date_(std::move(date)) {
  for (unsigned i = 0; i < (workers == 0 ? core_count() : workers); ++i) typesetters_.emplace_back(workroom.fonts());
}

std::vector<SetOrder> Composer::set(std::span<const Order> orders) {
  std::vector<SetOrder> results(orders.size());
  for_each_parallel(orders.size(), static_cast<unsigned>(typesetters_.size()),
                    [&](std::size_t i, unsigned worker) { results[i] = set_one({&orders[i]}, typesetters_[worker]); });
  return results;
}

std::vector<SetOrder> Composer::set(std::span<const LaidOrder> orders) {
  std::vector<SetOrder> results(orders.size());
  for_each_parallel(orders.size(), static_cast<unsigned>(typesetters_.size()),
                    [&](std::size_t i, unsigned worker) { results[i] = set_one(orders[i], typesetters_[worker]); });
  return results;
}

SetOrder Composer::set_one(const LaidOrder& laid, Typesetter& typesetter) {
  const Order& order = *laid.order;
  SetOrder set;
  const auto hold = [&](Fault fault) {
    fault.where = order.source + (fault.where.empty() ? "" : ", " + fault.where);
    set.held = std::move(fault);
    return set;
  };
  Result<Inscription> inscription = clean_inscription(order.text, workroom_->cleaning());
  if (!inscription.ok()) {
    set.inscription.original = order.text;
    return hold(inscription.fault());
  }
  set.inscription = std::move(*inscription);
  const std::string design = workroom_->design_of(order);
  const Station* station = workroom_->opened(design);
  if (station == nullptr) return hold(workroom_->no_design(design));
  if (station->unfit) return hold(*station->unfit);
  const LaidDesign& on_piece = laid.laid != nullptr ? *laid.laid : station->design;
  Result<Artwork> artwork =
      compose(on_piece, {set.inscription, date_, {}, order.told, order.setting}, typesetter, laid.records);
  if (!artwork.ok()) return hold(artwork.fault());
  set.artwork = std::move(*artwork);
  if (set.artwork->illegible) return hold(*set.artwork->illegible);
  return set;
}

std::string item_id(const Order& order, int ordinal) {
  return order.number + "-" + std::to_string(order.first + ordinal - 1);
}

void account_for(Account& account, const std::string& id, const SetOrder& set) {
  if (set.held) {
    account.held.push_back({id, *set.held, true});
    return;
  }
  ++account.items_set;
  if (account.smallest_item.empty() || set.artwork->cap_height < account.smallest_cap_height) {
    account.smallest_cap_height = set.artwork->cap_height;
    account.smallest_item = id;
    account.smallest_is_numbered = true;
  }
  for (const std::string& warning : set.artwork->warnings) account.warnings.push_back(with_check(id) + ": " + warning);
  for (const CleaningNote& note : set.inscription.notes) {
    if (note.weight != CleaningNote::Weight::warning) continue;
    account.warnings.push_back(with_check(id) + ", line " + std::to_string(note.line) + ", character " +
                               std::to_string(note.column) + ": " + note.rule);
  }
}

}  // namespace ordinatio::inline shop
