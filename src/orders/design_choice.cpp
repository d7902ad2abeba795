#include "orders/design_choice.h"

#include "csv/shown.h"
#include "orders/order_options.h"
#include "orders/order_rows.h"
#include "orders/orders.h"

namespace ordinatio::inline orders {
namespace {

std::string list_words(const OptionChoice& choice) {
  std::string list;
  for (const auto& [word, variant] : choice.words) list += (list.empty() ? "" : ", ") + shown(word);
  return list;
}

Fault unknown_word(const OptionChoice& choice, const std::string& word) {
  std::vector<std::string_view> known;
  for (const auto& [one, variant] : choice.words) known.push_back(one);
  const auto nearest = nearest_word(word, known);
  return {"shop.toml does not say what " + shown(word) + " stands for", "",
          "under [[orders.choice]] for " + shown(choice.option) + " there are: " + list_words(choice),
          (nearest ? "Did you mean " + shown(*nearest) + "? Else write" : "Write") +
              " the word there, with its design, face or size"};
}

}  // namespace

std::vector<std::string> label_choices(const OrderFormat& format) {
  std::vector<std::string> labels;
  for (const OptionChoice& choice : format.choices) {
    if (choice.is_label) labels.push_back(choice.option);
  }
  return labels;
}

DesignChooser::DesignChooser(const OrderFormat& format) : format_(&format) {
  for (const OptionChoice& choice : format.choices) {
    auto& words = words_.emplace_back();
    for (const auto& [word, variant] : choice.words) words.emplace(label_key(word), &variant);
  }
}

DesignChooser::Choosing::Choosing(const DesignChooser& chooser, std::string design) : chooser_(&chooser) {
  chosen_.base = std::move(design);
  if (!chosen_.base.empty()) by_["design"] = "the row's own";
}

MaybeFault DesignChooser::Choosing::choose(std::size_t choice, const std::string& word) {
  if (trimmed(word).empty()) return std::nullopt;
  const OptionChoice& option = chooser_->format_->choices[choice];
  const auto& words = chooser_->words_[choice];
  const auto found = words.find(label_key(word));
  if (found == words.end()) return unknown_word(option, word);
  const DesignVariant& variant = *found->second;
  const auto size_of = [](const DesignVariant& of) { return of.size ? size_text(*of.size) : std::string(); };
  const std::string by = option.option + ": " + std::string(trimmed(word));
  const auto contradicts = [&](const std::string& what, const std::string& now,
                               const std::string& before) -> MaybeFault {
    if (now.empty()) return std::nullopt;
    const auto [earlier, is_new] = by_.emplace(what, by);
    if (is_new || now == before) return std::nullopt;
    return Fault{"two things are chosen: " + what + " " + shown(before) + " and " + what + " " + shown(now), "",
                 "the one by " + shown(earlier->second) + ", the other by " + shown(by) + "; a piece has one",
                 "Ask the customer, or mend the table in shop.toml"};
  };
  if (auto fault = contradicts("design", variant.base, chosen_.base)) return fault;
  if (auto fault = contradicts("face", variant.face, chosen_.face)) return fault;
  if (auto fault = contradicts("size", size_of(variant), size_of(chosen_))) return fault;
  if (!variant.base.empty()) chosen_.base = variant.base;
  if (!variant.face.empty()) chosen_.face = variant.face;
  if (variant.size) chosen_.size = variant.size;
  return std::nullopt;
}

std::string DesignChooser::Choosing::design() const {
  if (chosen_.is_plain()) return chosen_.base;
  DesignVariant whole = chosen_;
  if (whole.base.empty()) whole.base = chooser_->format_->default_design;
  return name_of(whole);
}

}  // namespace ordinatio::inline orders
