#include "bed/cut_search.h"

#include <algorithm>
#include <stdexcept>

namespace ordinatio::inline bed {
namespace {

/// How far a thing reaches from the part's low end, in the direction that blades part.
struct Reach {
  Micron end = 0;
  bool whole = false;
};

/// Blades behind rows of pieces that start at the low end or behind things: whatever is cut can be pushed towards that end
/// until something stops it. `length`: of the part.
std::vector<Micron> blades_from_low_end(const std::vector<Reach>& things, const Patterns& patterns, Micron length) {
  const PieceCut& piece = patterns.piece();
  std::vector<Micron> starts{0}, blades;
  for (const Reach& thing : things) {
    starts.push_back(thing.end + (thing.whole ? piece.kerf : 0));
    if (!thing.whole) continue;
    // The thing lies on a piece that ends with it.
    for (const Micron side : {piece.width, piece.height}) blades.push_back(thing.end - side - piece.kerf);
  }
  for (const Micron start : starts) {
    blades.push_back(start - piece.kerf);
    for (const Micron sum : patterns.sums()) {
      if (start + sum >= length) break;
      blades.push_back(start + sum);
    }
  }
  std::erase_if(blades, [&](Micron blade) { return blade + piece.kerf <= 0 || blade >= length; });
  std::sort(blades.begin(), blades.end());
  blades.erase(std::unique(blades.begin(), blades.end()), blades.end());
  return blades;
}

/// A worth without its cuts.
Worth without_cuts(Worth worth) { return (worth + of_thing - 1) / of_thing; }

}  // namespace

std::size_t CutSearch::BoxHash::operator()(const MicronBox& box) const {
  // Odd multipliers with well-spread bits (SplitMix64's and its kin, from memory); sides are shorter than 2^24.
  std::uint64_t hash = static_cast<std::uint64_t>(box.left | (box.right << 32)) * 0x9E3779B97F4A7C15U;
  hash = (hash ^ (hash >> 30)) + static_cast<std::uint64_t>(box.bottom | (box.top << 32));
  hash *= 0xBF58476D1CE4E5B9U;
  return static_cast<std::size_t>(hash ^ (hash >> 31));
}

Sides CutSearch::factory_of(const MicronBox& part) const {
  const Sides& factory = pane_.factory;
  return {factory.left && part.left == 0, factory.bottom && part.bottom == 0,
          factory.right && part.right == pane_.width, factory.top && part.top == pane_.height};
}

std::array<MicronBox, 2> CutSearch::halves(const MicronBox& part, bool upright, Micron blade) const {
  MicronBox low = part, high = part;
  const Micron behind = blade + patterns_.piece().kerf;
  if (upright) {
    low.right = std::clamp(blade, part.left, part.right);
    high.left = std::clamp(behind, part.left, part.right);
  } else {
    low.top = std::clamp(blade, part.bottom, part.top);
    high.bottom = std::clamp(behind, part.bottom, part.top);
  }
  return {low, high};
}

bool CutSearch::lies_open(const MicronBox& part) const {
  return std::none_of(pane_.things.begin(), pane_.things.end(),
                      [&](const MicronThing& thing) { return thing.box.meets(part); });
}

std::ptrdiff_t CutSearch::things_in(const MicronBox& part, bool whole) const {
  return std::count_if(pane_.things.begin(), pane_.things.end(),
                       [&](const MicronThing& thing) { return thing.whole == whole && thing.box.meets(part); });
}

bool CutSearch::is_piece(const MicronBox& part) const {
  return patterns_.piece().is(part.width(), part.height()) && things_in(part, false) == 0;
}

Worth CutSearch::worth_of_piece(const MicronBox& part) const {
  const Sides factory = factory_of(part);
  return of_piece + factory.count() * of_edge + factory.corners() * of_corner + things_in(part, true) * of_thing;
}

void CutSearch::start_anew(std::size_t breadth) {
  breadth_ = breadth;
  tries_ = 0;
  known_.clear();
}

Worth CutSearch::worth(const MicronBox& part) {
  while (!keeps_promise(part)) {
    if (gave_up()) return 0;
  }
  return promise(part);
}

Worth CutSearch::promise(const MicronBox& part) {
  const Worth open = open_parts_.worth(part.width(), part.height(), factory_of(part));
  if (open == 0 || lies_open(part)) return open;
  if (const auto found = known_.find(part); found != known_.end()) return found->second.worth;
  return open + things_in(part, true) * of_thing;
}

bool CutSearch::keeps_promise(const MicronBox& part) {
  const Worth promised = promise(part);
  if (promised == 0 || lies_open(part)) return true;
  if (is_piece(part)) {
    known_[part] = {worth_of_piece(part), true, {}};
    return true;
  }
  return known_.try_emplace(part, Known{promised, false, {}}).first->second.settled || look_into(part);
}

Micron CutSearch::doubtful_area(const MicronBox& part) const {
  return lies_open(part) ? 0 : part.width() * part.height();
}

bool CutSearch::look_into(const MicronBox& part) {
  const Worth promised = without_cuts(promise(part));
  Worth next = 0;
  for (const Candidate& candidate : candidates(part)) {
    if (gave_up()) return false;
    const auto [low, high] = halves(part, candidate.cut.upright, candidate.cut.blade);
    const auto sum = [&, &low = low, &high = high] { return promise(low) + promise(high) - of_cut; };
    const bool is_worth_a_try = breadth_ == 1 || without_cuts(sum()) >= promised;
    if (is_worth_a_try && keeps_promise(low) && keeps_promise(high)) {
      known_[part] = {std::max<Worth>(sum(), 0), true, candidate.cut};
      return true;
    }
    next = std::max(next, sum());
  }
  known_[part].worth = next;
  return false;
}

std::vector<CutSearch::Candidate> CutSearch::candidates(const MicronBox& part) {
  std::vector<Candidate> candidates;
  for (const bool upright : {true, false}) {
    for (const BladePlace& cut : blades_through(part, upright)) {
      const auto [low, high] = halves(part, upright, cut.blade);
      ++tries_;
      const Worth promised = promise(low) + promise(high) - of_cut;
      if (promised > 0) candidates.push_back({promised, doubtful_area(low) + doubtful_area(high), cut});
    }
  }
  std::stable_sort(candidates.begin(), candidates.end(), [](const Candidate& a, const Candidate& b) {
    return a.promise != b.promise ? a.promise > b.promise : a.doubtful < b.doubtful;
  });
  if (candidates.size() > breadth_) candidates.resize(breadth_);
  return candidates;
}

bool CutSearch::cuts_whole_thing(const MicronBox& part, bool upright, Micron blade) const {
  const Micron behind = blade + patterns_.piece().kerf;
  return std::any_of(pane_.things.begin(), pane_.things.end(), [&](const MicronThing& thing) {
    const Micron from = upright ? thing.box.left : thing.box.bottom, to = upright ? thing.box.right : thing.box.top;
    return thing.whole && thing.box.meets(part) && from < behind && to > blade;
  });
}

std::vector<BladePlace> CutSearch::blades_through(const MicronBox& part, bool upright) const {
  const Micron from = upright ? part.left : part.bottom, to = upright ? part.right : part.top;
  const Sides factory = factory_of(part);
  const bool far = upright ? factory.right && !factory.left : factory.top && !factory.bottom;
  std::vector<Reach> things;
  for (const auto& [box, whole] : pane_.things) {
    if (!box.meets(part)) continue;
    const Micron low = upright ? box.left : box.bottom, high = upright ? box.right : box.top;
    things.push_back({far ? to - low : high - from, whole});
  }
  std::vector<BladePlace> places;
  for (const Micron blade : blades_from_low_end(things, patterns_, to - from)) {
    const Micron place = far ? to - blade - patterns_.piece().kerf : from + blade;
    if (!cuts_whole_thing(part, upright, place)) places.push_back({upright, place, far});
  }
  return places;
}

BladePlace CutSearch::first_cut(const MicronBox& part) {
  if (lies_open(part)) return first_open_cut(part);
  worth(part);  // settles it
  return known_.at(part).cut;
}

/// The first that is worth as much as the part: at a sum from the left or lower end, unless the factory's edge to be kept is
/// at the other.
BladePlace CutSearch::first_open_cut(const MicronBox& part) {
  const Worth wanted = worth(part);
  const Sides factory = factory_of(part);
  for (const bool upright : {true, false}) {
    const Micron from = upright ? part.left : part.bottom, to = upright ? part.right : part.top;
    const bool far = upright ? factory.right && !factory.left : factory.top && !factory.bottom;
    for (const Micron sum : patterns_.sums()) {
      if (sum >= to - from) break;
      const Micron blade = far ? to - sum - patterns_.piece().kerf : from + sum;
      const auto [low, high] = halves(part, upright, blade);
      if (worth(low) + worth(high) - of_cut == wanted) return {upright, blade, far};
    }
  }
  throw std::logic_error("a part is worth more than its cuts");
}

}  // namespace ordinatio::inline bed
