#include "shop/piece_choice.h"

#include <algorithm>
#include <numeric>

namespace ordinatio::inline shop {
namespace {

bool has_thing(const BlankRow& row, const std::string& name) {
  return std::ranges::any_of(row.blank.kept_clear, [&](const KeptClear& thing) { return thing.name == name; });
}

// A text of more bytes is long: its lines take up to tenths of a second to choose, on each piece anew.
constexpr std::size_t long_text = 300;
constexpr std::size_t more_pieces = 3;  // that a long text is tried on, beside one for each of its items

// Texts that a core keeps ready, some ten kilobytes each. When it is reached, others are made ready anew each time they
// are asked for: that costs time and changes nothing.
constexpr std::size_t most_ready = 1024;
// Settings on pieces that are kept until the items have theirs, some hundred bytes each; the same holds.
constexpr std::size_t most_tried = 1 << 17;

bool is_long(const Inscription& inscription) {
  std::size_t bytes = 0;
  for (const std::string& line : inscription.lines) bytes += line.size();
  return bytes > long_text;
}

/// Nothing is missing from it but what a rule does not show.
bool is_full(const BlankRow& row, const Design& design) {
  constexpr double least_share = 0.98;  // of the nominal area: a millimetre off either side of 100 × 150 mm
  return row.blank.chips.empty() && area_of(row.blank) >= least_share * area_of(design.blank);
}

/// The same number for pieces of the same shape with the same things on them.
std::vector<std::size_t> kinds_of(const std::vector<const BlankRow*>& pieces) {
  std::map<std::vector<double>, std::size_t> known;
  std::vector<std::size_t> kinds;
  for (const BlankRow* row : pieces) {
    std::vector<double> shape = row->blank.outline.radii;
    const auto add = [&shape](const Polygon& polygon) {
      shape.push_back(static_cast<double>(polygon.size()));
      for (const Point p : polygon) shape.insert(shape.end(), {p.x, p.y});
    };
    add(row->blank.outline.vertices);
    for (const Polygon& chip : row->blank.chips) add(chip);
    for (const KeptClear& thing : row->blank.kept_clear) {
      shape.insert(shape.end(), {-1, thing.radius, thing.margin});
      add(thing.corners);
    }
    kinds.push_back(known.emplace(std::move(shape), known.size()).first->second);
  }
  return kinds;
}

}  // namespace

PieceChoice::PieceChoice(const Workroom& workroom, const Blanks& blanks, std::vector<Typesetter>& typesetters,
                         std::string date)
    : workroom_(&workroom), typesetters_(&typesetters), date_(std::move(date)), spare_(workroom.shop().blanks.spare) {
  for (const BlankRow& row : blanks.rows) {
    if (row.used.empty() && pieces_.size() < most_to_assign) pieces_.push_back(&row);
  }
  piece_kinds_ = kinds_of(pieces_);
}

void PieceChoice::lay_designs(const std::vector<Order>& orders) {
  for (const Order& order : orders) {
    const std::string name = workroom_->design_of(order);
    const Station* station = workroom_->opened(name);
    if (laid_.contains(name) || station == nullptr) continue;
    std::vector<std::optional<LaidDesign>>& on_pieces = laid_[name];
    on_pieces.resize(pieces_.size());
    std::vector<bool>& only_named = only_named_[name];
    std::vector<char> named(pieces_.size(), 0);  // bool's vector is not for several cores
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      const bool is_named = std::ranges::any_of(orders, [&](const Order& one) {
        return std::ranges::find(one.blanks, pieces_[i]->blank.id) != one.blanks.end();
      });
      named[i] = is_named ? 1 : 0;
    }
    for_each_parallel(pieces_.size(), static_cast<unsigned>(typesetters_->size()), [&](std::size_t i, unsigned) {
      const auto alike = as_wanted(*pieces_[i], *station);
      const auto blank = alike || named[i] == 0 ? alike : as_wanted(*pieces_[i], *station, true);
      named[i] = !alike && blank ? 1 : 0;
      if (!blank) return;
      Result<LaidDesign> laid = laid_on(station->design, *blank);
      if (laid.ok()) on_pieces[i] = *std::move(laid);
    });
    only_named.assign(named.begin(), named.end());
  }
}

/// A text of many words takes tenths of a second to set, and would be set on every piece: it is tried on as many as it has
/// items and some more, where its bound is largest. Each long text has others, so that none takes another's.
void PieceChoice::narrow_long_texts() {
  std::size_t given = 0;
  for (Wanting& wanting : wanting_) {
    if (wanting.held || !is_long(wanting.words.inscription)) continue;
    std::vector<std::pair<double, std::size_t>> ranked;
    for (std::size_t piece = 0; piece < pieces_.size(); ++piece) {
      const std::optional<LaidDesign>& on_piece = laid(wanting)[piece];
      const auto unnamed = static_cast<int>(wanting.order->blanks.size()) + 1;
      if (!on_piece || !suits(wanting, unnamed, piece)) continue;
      ranked.emplace_back(-cap_height_at_most(wanting.bound, *on_piece), piece);
    }
    const std::size_t tried = static_cast<std::size_t>(wanting.order->quantity) + more_pieces;
    if (ranked.size() <= tried) continue;
    std::ranges::sort(ranked);
    for (std::size_t i = 0; i < tried; ++i) wanting.only.push_back(ranked[(given + i) % ranked.size()].second);
    given += tried;
  }
}

PieceChoice::Wanting PieceChoice::want(const Order& order) {
  Wanting wanting{&order, nullptr, {{}, date_}, {}, {}, {}};
  const std::string name = workroom_->design_of(order);
  const Station* station = workroom_->opened(name);
  if (station == nullptr) {
    wanting.held = workroom_->no_design(name);
    return wanting;
  }
  Result<Inscription> inscription = clean_inscription(order.text, workroom_->cleaning());
  if (!inscription.ok() || station->unfit) {
    wanting.held = inscription.ok() ? station->unfit : inscription.fault();
    return wanting;
  }
  wanting.station = station;
  if (station->no_bed) {
    wanting.held = station->no_bed;
    return wanting;
  }
  wanting.words.inscription = std::move(*inscription);
  wanting.words.told = order.told;
  wanting.words.setting = order.setting;
  return wanting;
}

void PieceChoice::bound(std::size_t order, unsigned worker) {
  Wanting& wanting = wanting_[order];
  if (wanting.held) return;
  std::optional<ReadyWords> spare;
  Result<LetteringBound> bound = ready_words(order, worker, spare).bound();
  if (!bound.ok()) {
    wanting.held = bound.fault();
    return;
  }
  wanting.bound = std::move(*bound);
}

ReadyWords& PieceChoice::ready_words(std::size_t order, unsigned worker, std::optional<ReadyWords>& spare) {
  std::map<std::size_t, ReadyWords>& kept = ready_[worker];
  if (const auto known = kept.find(order); known != kept.end()) return known->second;
  const Wanting& wanting = wanting_[order];
  ReadyWords words(wanting.station->design, wanting.words, (*typesetters_)[worker]);
  if (kept.size() >= most_ready || is_long(wanting.words.inscription)) return spare.emplace(std::move(words));
  return kept.emplace(order, std::move(words)).first->second;
}

const std::vector<std::optional<LaidDesign>>& PieceChoice::laid(const Wanting& wanting) const {
  return laid_.at(wanting.station->design.name);
}

bool PieceChoice::suits(const Wanting& wanting, int ordinal, std::size_t piece) const {
  const Order& order = *wanting.order;
  const BlankRow& row = *pieces_[piece];
  const auto index = static_cast<std::size_t>(ordinal) - 1;
  const bool is_named = index < order.blanks.size();
  if (is_named && order.blanks[index] != row.blank.id) return false;
  if (!is_named && only_named_.at(wanting.station->design.name)[piece]) return false;
  const auto kept = kept_for_.find(row.blank.id);
  const bool is_kept = kept != kept_for_.end();
  if (is_kept && kept->second != item_id(order, ordinal)) return false;
  const std::vector<std::size_t>& only = wanting.only;
  const bool is_free = !is_named && !is_kept;
  if (is_free && !only.empty() && std::ranges::find(only, piece) == only.end()) return false;
  const auto has = [&row](const std::string& name) { return has_thing(row, name); };
  if (!std::ranges::all_of(order.wish.keep, has)) return false;
  return !order.wish.full_size || is_full(row, wanting.station->design);
}

std::vector<std::size_t> PieceChoice::least_full_first() const {
  std::vector<double> fullness;
  for (const BlankRow* row : pieces_) {
    double clear = area_of(row->blank);
    for (const KeptClear& thing : row->blank.kept_clear) clear -= area_of(outline_of(thing));
    fullness.push_back(clear);
  }
  std::vector<std::size_t> order(pieces_.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, {}, [&](std::size_t i) { return fullness[i]; });
  return order;
}

std::vector<double> PieceChoice::sizes_of(std::span<const ItemOnPlace> pairs) {
  std::vector<double> sizes(pairs.size());
  std::vector<SettingRecords> records(pairs.size());
  std::map<std::size_t, std::vector<std::size_t>>
      by_order;  // pairs: one core has an order's words ready for all of them
  for (std::size_t i = 0; i < pairs.size(); ++i) by_order[items_[pairs[i].item].order].push_back(i);
  const std::vector<std::pair<std::size_t, std::vector<std::size_t>>> orders(by_order.begin(), by_order.end());
  for_each_parallel(orders.size(), static_cast<unsigned>(typesetters_->size()), [&](std::size_t i, unsigned worker) {
    const auto& [order, asked] = orders[i];
    std::optional<ReadyWords> spare;
    ReadyWords& words = ready_words(order, worker, spare);
    for (const std::size_t pair : asked)
      sizes[pair] = words.cap_height_on(*laid(wanting_[order])[pairs[pair].place], records[pair]);
  });
  for (std::size_t i = 0; i < pairs.size() && tried_.size() < most_tried; ++i) {
    const auto [item, piece] = pairs[i];
    tried_.try_emplace({items_[item].order, piece_kinds_[piece]}, TriedPiece{piece, std::move(records[i])});
  }
  return sizes;
}

/// Pieces of a kind leave a design the same room but for what nobody has thought of: that is looked at.
SettingRecords PieceChoice::records_for(std::size_t order, std::size_t piece) const {
  const auto tried = tried_.find({order, piece_kinds_[piece]});
  if (tried == tried_.end()) return {};
  const std::vector<std::optional<LaidDesign>>& on_pieces = laid(wanting_[order]);
  if (!have_same_room(*on_pieces[piece], *on_pieces[tried->second.piece])) return {};
  return tried->second.records;
}

AssignmentQuestion PieceChoice::question() {
  AssignmentQuestion question;
  question.items = items_.size(), question.places = pieces_.size();
  question.bound = [this](std::size_t item, std::size_t place) {
    const Wanting& wanting = wanting_[items_[item].order];
    const std::optional<LaidDesign>& on_piece = laid(wanting)[place];
    if (!on_piece || !suits(wanting, items_[item].ordinal, place)) return 0.0;
    return cap_height_at_most(wanting.bound, *on_piece);
  };
  question.sizes = [this](std::span<const ItemOnPlace> pairs) { return sizes_of(pairs); };
  if (spare_ == BlankUse::Spare::fullest) question.spare = least_full_first();
  for (const PlacedItem& item : items_) question.item_kinds.push_back(item.order);
  question.place_kinds = piece_kinds_;
  return question;
}

/// The reason on the fullest piece that it may have, or that there is none.
Fault PieceChoice::why_none(const Wanting& wanting, int ordinal) {
  const auto index = static_cast<std::size_t>(ordinal) - 1;
  const std::vector<std::string>& named = wanting.order->blanks;
  const bool is_pinned = index < named.size();
  if (is_pinned && std::ranges::none_of(pieces_, [&](const BlankRow* row) { return row->blank.id == named[index]; })) {
    return {"piece " + named[index] + " is not free", "", "it is not among the free pieces of the blanks' file",
            "Name a free piece, or leave the choice to the program"};
  }
  std::vector<std::size_t> order = least_full_first();
  for (auto piece = order.rbegin(); piece != order.rend(); ++piece) {
    const std::optional<LaidDesign>& on_piece = laid(wanting)[*piece];
    if (!on_piece || !suits(wanting, ordinal, *piece)) continue;
    const Result<Artwork> artwork = compose(*on_piece, wanting.words, typesetters_->front());
    if (!artwork.ok()) return artwork.fault();
    if (artwork->illegible) return *artwork->illegible;
    return {"no piece is left for it", "", "the free pieces that it could have went to earlier orders",
            "Measure more pieces into the blanks' file"};
  }
  if (is_pinned) {
    const auto piece =
        std::ranges::find_if(pieces_, [&](const BlankRow* row) { return row->blank.id == named[index]; });
    const Station& station = *wanting.station;
    return why_not(**piece, station);
  }
  const bool wishes = !wanting.order->wish.keep.empty() || wanting.order->wish.full_size;
  return {wishes ? "no free piece is as the customer wishes" : "no free piece takes the design", "",
          std::to_string(pieces_.size()) + " pieces are free, and none of them suits",
          wishes ? "Ask the customer, or measure more pieces" : "Measure more pieces into the blanks' file"};
}

/// Where the item would go on a piece but for the pockets: says so, and lays the design there for its proof.
MaybeFault PieceChoice::fits_no_pocket(const Wanting& wanting, PlacedItem& item) {
  const Station& station = *wanting.station;
  const bool is_pinned = static_cast<std::size_t>(item.ordinal) <= wanting.order->blanks.size();
  const std::vector<std::size_t> order = least_full_first();
  const auto goes = [&](std::size_t piece) { return laid(wanting)[piece] && suits(wanting, item.ordinal, piece); };
  if (std::ranges::any_of(order, goes)) return std::nullopt;
  for (auto piece = order.rbegin(); piece != order.rend(); ++piece) {
    const BlankRow& row = *pieces_[*piece];
    const auto blank = as_meant(row, station.design, is_pinned);
    if (!blank || !suits(wanting, item.ordinal, *piece)) continue;
    Result<LaidDesign> design = laid_on(station.design, *blank);
    if (!design.ok() || as_wanted(row, station, is_pinned)) continue;
    without_bed_.push_back(*std::move(design));
    item.without_bed = &without_bed_.back();
    return is_pinned ? why_not(row, station) : too_large(row, station, without_bed_.back());
  }
  return std::nullopt;
}

void PieceChoice::note_gain(const Assignment& best, PairSizes& sizes, std::vector<std::string>& notes) const {
  if (items_.empty()) return;  // nothing was shared out
  const Assignment plain = first_come(sizes);
  const auto placed = [](const Assignment& assignment) {
    return std::ranges::count_if(assignment.place_of, [](const auto& place) { return place.has_value(); });
  };
  notes.push_back("pieces: " + std::to_string(placed(best)) + " of " + std::to_string(pieces_.size()) +
                  " free ones have an item; the smallest lettering is " + mm_text(best.smallest) + ", the mean " +
                  mm_text(best.total / std::max(1.0, static_cast<double>(placed(best)))) +
                  "; first come, first served: " + std::to_string(placed(plain)) + " items, " +
                  mm_text(plain.smallest) + " and " +
                  mm_text(plain.total / std::max(1.0, static_cast<double>(placed(plain)))));
}

std::vector<PlacedItem> PieceChoice::choose(const std::vector<Order>& orders, std::vector<std::string>& notes) {
  lay_designs(orders);
  wanting_.resize(orders.size());
  ready_.resize(typesetters_->size());
  for_each_parallel(orders.size(), static_cast<unsigned>(typesetters_->size()), [&](std::size_t i, unsigned worker) {
    wanting_[i] = want(orders[i]);
    bound(i, worker);
  });
  narrow_long_texts();
  std::vector<PlacedItem> all;
  std::vector<std::size_t> index_of;  // of items_, among all
  for (std::size_t i = 0; i < orders.size(); ++i) {
    for (int ordinal = 1; ordinal <= orders[i].quantity; ++ordinal) {
      all.push_back({i, ordinal, nullptr, nullptr, wanting_[i].held});
      if (wanting_[i].held) {
        const Station* station = wanting_[i].station;
        if (station != nullptr && station->no_bed) all.back().without_bed = &station->design;
        continue;
      }
      if (items_.size() == most_to_assign) {
        all.back().held = Fault{"it is one item too many for measured pieces", "",
                                "no more than " + std::to_string(most_to_assign) + " are shared out at once",
                                "Engrave these first, note their pieces as used, and run the rest again"};
        continue;
      }
      items_.push_back(all.back());
      index_of.push_back(all.size() - 1);
    }
  }
  PairSizes sizes(question());
  const Assignment best = assign(sizes);
  asked_ = best.asked;
  for (std::size_t i = 0; i < items_.size(); ++i) {
    PlacedItem& item = all[index_of[i]];
    if (const auto place = best.place_of[i]) {
      item.laid = &*laid(wanting_[item.order])[*place];
      item.piece = pieces_[*place];
      item.records = records_for(item.order, *place);
    } else {
      item.held = fits_no_pocket(wanting_[item.order], item);
      if (!item.held) item.held = why_none(wanting_[item.order], item.ordinal);
    }
  }
  note_gain(best, sizes, notes);
  tried_.clear();
  return all;
}

}  // namespace ordinatio::inline shop
