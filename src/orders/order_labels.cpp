#include <algorithm>
#include <map>

#include "csv/csv.h"
#include "csv/rows.h"
#include "csv/shown.h"
#include "orders/order_options.h"
#include "orders/order_rows.h"

namespace ordinatio::inline orders {
namespace {

/// Those of a cell that are no words by shop.toml.
std::vector<SeemingLabel> labels_in(std::string_view cell, const OptionLabels& known) {
  std::vector<SeemingLabel> labels = seeming_labels(cell);
  std::erase_if(labels, [&](const SeemingLabel& label) {
    return std::ranges::any_of(known.words, [&](const auto& word) { return label_key(word) == label.key; });
  });
  return labels;
}

/// Whether a cell may be one of options: an inscription such as `Anna / Born: 1940` is none.
bool begins_with_label(const std::vector<SeemingLabel>& labels) { return !labels.empty() && labels.front().begins; }

}  // namespace

std::set<std::u32string> survey_labels(CsvReader reader, const OrderHeader& header, const OptionLabels& labels) {
  std::set<std::u32string> common;
  if (labels.used()) return common;
  std::size_t texts = 0;
  std::map<std::u32string, std::size_t> cells;  // that have the label
  while (const auto record = reader.next()) {
    if (!record->ok() || (*record)->fields.size() <= header.text) continue;
    const std::string& cell = (*record)->fields[header.text].text;
    if (trimmed(cell).empty()) continue;
    ++texts;
    const std::vector<SeemingLabel> found = labels_in(cell, labels);
    if (!begins_with_label(found)) continue;
    std::set<std::u32string> keys;
    for (const SeemingLabel& label : found) keys.insert(label.key);
    for (const std::u32string& key : keys) ++cells[key];
  }
  for (const auto& [key, count] : cells) {
    if (2 * count > texts) common.insert(key);
  }
  return common;
}

MaybeFault object_to_labels(std::string_view text, const std::set<std::u32string>& common, const OptionLabels& labels) {
  const std::vector<SeemingLabel> found = labels_in(text, labels);
  if (!begins_with_label(found)) return std::nullopt;
  const bool several = std::ranges::any_of(found, &SeemingLabel::hard);
  if (common.empty() && !several) return std::nullopt;
  const std::string label = shown(found.front().label), list = " = [" + label + "]";
  return Fault{"the text begins with " + shown(found.front().label + ":") + ", as a cell of options does", "",
               common.empty()
                   ? "another one stands behind it, and shop.toml names no labels: they would be engraved"
                   : "most texts of the file begin so, and shop.toml names no labels: they would be engraved",
               "Say what it is under [orders.labels] in shop.toml: text" + list +
                   " if the words to engrave stand behind it, other" + list + " if it is to be passed over, words" +
                   list + " if it is to be engraved as it stands"};
}

}  // namespace ordinatio::inline orders
