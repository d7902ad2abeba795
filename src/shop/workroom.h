// What the commands share: designs read once, orders made into items, items composed on all cores. Of this folder alone.
#pragma once

#include <map>

#include "base/account.h"
#include "cleaning/cleaning.h"
#include "design/setting_record.h"
#include "paper/lettering.h"
#include "shop/shop.h"
#include "text/text.h"

namespace ordinatio::inline shop {

/// A design with the beds that are laid out for it.
struct Station {
  LaidDesign design;
  std::vector<Frame> beds;  // on each board that takes its blank, in the order in which boards are asked
  MaybeFault no_bed;        // why there is none: then its items are held, and their proofs are made all the same
  MaybeFault unfit;         // why nothing is engraved on its pieces: its own words speak of safety glass
};

/// The first bed whose pockets take a piece of this size, as drawn; none where it fits no pocket.
const Frame* bed_for(std::span<const Frame> beds, double width, double height);
const Frame* bed_for(const Station& station, const Blank& blank);

/// The workshop opened for work: fonts, and the designs that were asked for.
class Workroom {
 public:
  explicit Workroom(const Shop& shop);

  [[nodiscard]] const Shop& shop() const { return *shop_; }
  [[nodiscard]] const FontLibrary& fonts() const { return fonts_; }
  /// What labels are set in, for all threads.
  [[nodiscard]] LetteringStock& letterings() const { return *letterings_; }
  [[nodiscard]] CleaningRules cleaning() const;
  /// What an export says besides the words to engrave (a name, a note, an address), as a person reads it.
  [[nodiscard]] std::string readable(const std::string& words) const;

  /// Reads the design and lays the beds for it; later calls give the same one. Not for several threads at once.
  Result<const Station*> station(const std::string& name);
  /// As if this text stood in the design's file, until it is forgotten.
  Result<const Station*> station_by(const std::string& name, std::string_view text);
  void forget(const std::string& name) { stations_.erase(name); }
  /// One that is open already; none where it is not. For several threads at once.
  [[nodiscard]] const Station* opened(const std::string& design) const;
  /// Opens every design that the orders name, before the cores share the work. A name that the workshop has not is left
  /// to hold its items; a design that cannot be read stops the command.
  MaybeFault open_designs(const std::vector<Order>& orders);
  /// The design that an order asks for, or the shop's own.
  [[nodiscard]] std::string design_of(const Order& order) const;
  /// Whether the workshop has a design of that name.
  [[nodiscard]] bool has_design(const std::string& name) const;
  /// Why an order that is set cannot lie on any bed: it is held with that.
  [[nodiscard]] MaybeFault no_bed_for(const Order& order) const;
  /// Of all its designs, in the order of the alphabet.
  [[nodiscard]] std::vector<std::string> design_names() const;
  /// The catalogue's faces for engraving, then the workshop's own.
  [[nodiscard]] std::vector<std::string> face_names() const;
  /// The Fault for a name that it has not, with the nearest that it has.
  [[nodiscard]] Fault no_design(const std::string& name) const;

 private:
  /// What the name of a design says: the base is a file of the folder, if there is one.
  [[nodiscard]] DesignVariant variant_of(const std::string& name) const;
  [[nodiscard]] std::filesystem::path design_file(const std::string& name) const;
  void lay_beds(Station& station) const;
  Result<const Station*> kept(const std::string& name, Result<LaidDesign> design);
  const Shop* shop_;
  FontLibrary fonts_;
  std::unique_ptr<LetteringStock> letterings_;
  Typesetter typesetter_;  // for a look at the designs' faces
  std::map<std::string, Station> stations_;
};

/// An order whose words have been cleaned and set, or the reason why not; artwork that is held all the same is for the
/// proof alone. Its items are alike but for their numbers.
struct SetOrder {
  Inscription inscription;
  std::optional<Artwork> artwork;
  std::optional<Fault> held;
};

/// An order, and its design as it comes out on one piece.
struct LaidOrder {
  const Order* order = nullptr;
  const LaidDesign* laid = nullptr;
  SettingRecords records = {};  // of its words on that piece, where they were set there before
};

/// Cleans and composes orders on all cores; each core keeps its own caches from call to call.
class Composer {
 public:
  Composer(const Workroom& workroom, std::string date, unsigned workers);
  /// One result for each order, in their order. Every design that they name must have been opened as a station.
  std::vector<SetOrder> set(std::span<const Order> orders);
  /// The same for one item each, on the piece that its design is laid on.
  std::vector<SetOrder> set(std::span<const LaidOrder> orders);
  /// For date marks, from now on.
  void date_is(std::string date) { date_ = std::move(date); }
  /// One for each core.
  [[nodiscard]] std::vector<Typesetter>& typesetters() { return typesetters_; }

 private:
  SetOrder set_one(const LaidOrder& laid, Typesetter& typesetter);
  const Workroom* workroom_;
  std::string date_;
  std::vector<Typesetter> typesetters_;
};

/// "1042-2"; ordinal: from 1, among the order's own items.
std::string item_id(const Order& order, int ordinal);

/// Adds what a set item means for the account: counted, the smallest lettering, warnings worth a look.
void account_for(Account& account, const std::string& id, const SetOrder& set);

}  // namespace ordinatio::inline shop
