// In: a pane in whole micrometres with things on it.
// Out: what a part of it is worth, and the cut to begin with. Of this folder alone.
// Never: goes on for ever; the caller asks whether it gave up.
#pragma once

#include <unordered_map>

#include "bed/cut_patterns.h"

namespace ordinatio::inline bed {

/// A box in micrometres from the pane's lower-left corner.
struct MicronBox {
  Micron left = 0, bottom = 0, right = 0, top = 0;
  [[nodiscard]] Micron width() const { return right - left; }
  [[nodiscard]] Micron height() const { return top - bottom; }
  [[nodiscard]] bool meets(const MicronBox& other) const {
    return left < other.right && other.left < right && bottom < other.top && other.bottom < top;
  }
  friend bool operator==(const MicronBox&, const MicronBox&) = default;
};

struct MicronThing {
  MicronBox box;
  bool whole = false;
};

struct MicronPane {
  Micron width = 0, height = 0;
  Sides factory;
  std::vector<MicronThing> things;
};

/// A cut through a part: the blade takes [blade, blade + kerf].
struct BladePlace {
  bool upright = true;
  Micron blade = 0;
  bool from_far = false;  // it bounds a row that begins at the right or upper end
};

inline constexpr std::size_t all_cuts = std::size_t(-1);

/// Parts with things in them are worth no more than if nothing lay in them, and all their whole things on a piece. From
/// there the search goes down best first: a part is looked into only while what it promises is the best that the pane
/// still could yield (the idea of AO*: Nilsson 1980, from memory). Cuts are not counted in this; few are tried first.
/// `breadth`: so many cuts, the most promising, are tried for a part with things in it. With all the plan is the best; with
/// one alone that is made whatever comes of it, so that an end is near.
class CutSearch {
 public:
  CutSearch(const MicronPane& pane, const Patterns& patterns, std::size_t patience)
      : pane_(pane), patterns_(patterns), open_parts_(patterns, pane.width, pane.height), patience_(patience) {}
  /// Forgets what was found.
  void start_anew(std::size_t breadth);
  [[nodiscard]] MicronBox whole_pane() const { return {0, 0, pane_.width, pane_.height}; }
  Worth worth(const MicronBox& part);
  /// Whether the part is a piece as it stands.
  [[nodiscard]] bool is_piece(const MicronBox& part) const;
  /// The cut to begin with. The part is worth something and is no piece.
  BladePlace first_cut(const MicronBox& part);
  /// Which factory edges of the pane the part has.
  [[nodiscard]] Sides factory_of(const MicronBox& part) const;
  /// What a cut leaves on the left or below, and on the right or above; empty boxes where the blade takes it all.
  [[nodiscard]] std::array<MicronBox, 2> halves(const MicronBox& part, bool upright, Micron blade) const;
  /// More cuts were tried than patience allows: what was found means nothing.
  [[nodiscard]] bool gave_up() const { return breadth_ > 1 && tries_ > patience_; }

 private:
  struct Known {
    Worth worth = 0;  // promised, until it is settled
    bool settled = false;
    BladePlace cut;
  };
  struct Candidate {
    Worth promise = 0;
    Micron doubtful = 0;  // square micrometres with things in them, whose promise may not be kept
    BladePlace cut;
  };
  struct BoxHash {
    std::size_t operator()(const MicronBox& box) const;
  };
  [[nodiscard]] bool lies_open(const MicronBox& part) const;
  [[nodiscard]] std::ptrdiff_t things_in(const MicronBox& part, bool whole) const;
  [[nodiscard]] Worth worth_of_piece(const MicronBox& part) const;
  /// What the part is worth at most, as far as it is known.
  Worth promise(const MicronBox& part);
  /// Whether the part is worth what it promised; else it promises less from now on.
  bool keeps_promise(const MicronBox& part);
  [[nodiscard]] Micron doubtful_area(const MicronBox& part) const;
  bool look_into(const MicronBox& part);
  std::vector<Candidate> candidates(const MicronBox& part);
  [[nodiscard]] std::vector<BladePlace> blades_through(const MicronBox& part, bool upright) const;
  [[nodiscard]] bool cuts_whole_thing(const MicronBox& part, bool upright, Micron blade) const;
  BladePlace first_open_cut(const MicronBox& part);

  MicronPane pane_;
  const Patterns& patterns_;
  OpenParts open_parts_;
  std::unordered_map<MicronBox, Known, BoxHash> known_;
  std::size_t patience_, breadth_ = all_cuts, tries_ = 0;
};

}  // namespace ordinatio::inline bed
