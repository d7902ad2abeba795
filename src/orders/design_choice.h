// In: words that a customer chose from, and what shop.toml says that they stand for. Out: the design in the face and size
// chosen, or a Fault without a place.
// Never: takes a word for another. Of this folder alone.
#pragma once

#include <map>

#include "orders/orders.h"

namespace ordinatio::inline orders {

/// The labels of options cells that choices are made by.
std::vector<std::string> label_choices(const OrderFormat& format);

class DesignChooser {
 public:
  explicit DesignChooser(const OrderFormat& format);

  /// What is chosen for one row, word by word.
  class Choosing {
   public:
    /// design: what the row names itself; may be empty.
    Choosing(const DesignChooser& chooser, std::string design);
    /// choice: its place among the format's. Nothing is chosen by an empty word. Faults: a word that shop.toml does not
    /// have there; it chooses otherwise than another one did.
    MaybeFault choose(std::size_t choice, const std::string& word);
    /// The design's name as orders have it; empty where nothing was chosen at all.
    [[nodiscard]] std::string design() const;

   private:
    const DesignChooser* chooser_;
    DesignVariant chosen_;
    std::map<std::string, std::string> by_;  // design, face, size → which word chose it
  };

 private:
  const OrderFormat* format_;
  std::vector<std::map<std::u32string, const DesignVariant*>> words_;  // of each choice, by label_key
};

}  // namespace ordinatio::inline orders
