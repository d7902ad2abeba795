#include "blanks/glass.h"

#include <algorithm>

#include "base/phrase.h"
#include "bed/safety_glass.h"

namespace ordinatio::inline blanks {
namespace {

const std::string which_is_it = "Is it annealed or tempered? Fill in glass";

std::string lower(std::string_view text) {
  std::string low(text);
  for (char& c : low) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return low;
}

Fault unsaid() {
  return {"it is not said what glass this is", "",
          "tempered glass shatters when it is cut or engraved, and looks do not tell", which_is_it};
}

Fault unknown(std::string_view glass) {
  return {"the glass " + in_quotes(glass) + " is not known", "",
          "it is annealed, tempered or, where the piece is no glass, none", which_is_it};
}

/// Where the cell "glass" says one thing and another cell another.
Fault contradiction(std::string_view glass, std::string_view column, std::string_view word) {
  Fault fault = safety_glass(word);
  fault.what = "what is said of the glass contradicts itself";
  fault.why = "glass says " + std::string(glass) + ", and " + std::string(column) + " says " + in_quotes(word);
  return fault;
}

/// A cell under a header such as "tempered" that says no.
bool says_no(std::string_view cell) {
  constexpr std::string_view noes[] = {"", "-", "0", "n", "no", "none", "false", "nein", "non", "nee", "nie", "nej"};
  return std::ranges::find(noes, lower(cell)) != std::end(noes);
}

class Judgement {
 public:
  explicit Judgement(std::span<const PieceCell> cells) : cells_(cells) {
    for (const PieceCell& cell : cells) {
      said_.push_back(glass_words_in(cell.text));
      if (cell.column == "glass" && !cell.is_own) glass_ = lower(cell.text), glass_said_ = said_.back();
      if (cell.column == "material" && !cell.is_own) material_ = said_.back();
      speaks_of_glass_ = speaks_of_glass_ || !said_.back().speaks.empty();
    }
    if (glass_.empty() && material_.is_annealed) glass_ = "annealed";
  }

  [[nodiscard]] std::optional<GlassFinding> finding() const {
    if (auto fault = of_glass_cell()) return GlassFinding{"glass", *std::move(fault)};
    bool is_denied = false;
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      if (auto fault = of_cell(i)) return GlassFinding{std::string(cells_[i].column), *std::move(fault)};
      is_denied = is_denied || !said_[i].denied.empty();
    }
    if (glass_.empty() && (is_denied || !material_.speaks.empty())) return GlassFinding{"glass", unsaid(), true};
    if (glass_ == "none" && material_.is_plain) {
      return GlassFinding{"material", contradiction(glass_, "material", material_.speaks)};
    }
    return std::nullopt;
  }

 private:
  [[nodiscard]] MaybeFault of_glass_cell() const {
    if (!glass_said_.safety.empty()) return safety_glass(glass_said_.safety);
    if (glass_.empty() || glass_ == "annealed" || glass_ == "none") return std::nullopt;
    return unknown(glass_);
  }

  [[nodiscard]] MaybeFault of_cell(std::size_t i) const {
    const PieceCell& cell = cells_[i];
    if (cell.is_own && !says_no(cell.text)) {
      const GlassWords header = glass_words_in(cell.column);
      if (!header.safety.empty()) return held_for(cell, header);
    }
    return said_[i].safety.empty() ? std::nullopt : held_for(cell, said_[i]);
  }

  [[nodiscard]] MaybeFault held_for(const PieceCell& cell, const GlassWords& said) const {
    if (glass_.empty()) return safety_glass(said.safety);
    if (glass_ == "none" && !said.is_sure && !speaks_of_glass_) return std::nullopt;  // laminated oak
    return contradiction(glass_, cell.column, said.safety);
  }

  std::span<const PieceCell> cells_;
  std::vector<GlassWords> said_;  // by each cell
  std::string glass_;
  GlassWords glass_said_, material_;
  bool speaks_of_glass_ = false;
};

}  // namespace

std::optional<GlassFinding> judge_glass(std::span<const PieceCell> cells) { return Judgement(cells).finding(); }

}  // namespace ordinatio::inline blanks
