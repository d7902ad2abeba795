#include "workshop/choice_table.h"

#include <set>

#include "orders/order_options.h"
#include "orders/orders.h"

namespace ordinatio::inline workshop {
namespace {

/// What one word stands for: { design = "oak", face = "script", size = [150, 100] }, not all of them.
DesignVariant read_variant(TomlTable table) {
  DesignVariant variant;
  Point size;
  table.read("design", variant.base);
  table.read("face", variant.face);
  if (table.read("size", size, any_size)) variant.size = size;
  if (variant.base.empty() && variant.is_plain() && !table.has("size")) {
    table.fault("design", "is missing, and so are face and size", "the word would choose nothing",
                "Write, for example: { design = \"slate\" }");
  }
  return variant;
}

OptionChoice read_choice(TomlTable& table) {
  OptionChoice choice;
  choice.is_label = table.has("label");
  if (table.has("column") == choice.is_label) {
    table.fault("column", "must stand here, or label", "one of them says where the word is",
                "Write column = \"Wood\", or label = \"Wood\" where it is among the options of the text's column");
  }
  table.read("column", choice.option);
  table.read("label", choice.option);
  TomlTable words = table.table("words");
  std::set<std::u32string> known;
  for (const std::string_view word : words.keys()) {
    const std::u32string letters = label_key(word);
    if (letters.empty()) words.fault(word, "is no word", "what is empty chooses nothing", "Take it out");
    if (!known.insert(letters).second) words.fault(word, "is there twice", "capitals do not count", "Keep one of them");
    choice.words.emplace_back(std::string(word), read_variant(words.table(word)));
  }
  if (choice.words.empty()) {
    table.fault("words", "has none", "every row would be held",
                "Write, for example: words.\"Oak, large\" = { design = \"oak\" }");
  }
  return choice;
}

}  // namespace

void read_choices(TomlTable& orders, OrderFormat& format) {
  std::set<std::u32string> known;
  for (const auto* list :
       {&format.labels.text, &format.labels.note, &format.labels.design, &format.labels.other, &format.labels.words}) {
    for (const std::string& label : *list) known.insert(label_key(label));
  }
  for (TomlTable& table : orders.tables("choice")) {
    OptionChoice choice = read_choice(table);
    if (choice.is_label && !format.labels.used()) {
      table.fault("label", "has no use", "shop.toml names no labels", "Write [orders.labels] text, or column instead");
    } else if (choice.is_label && !known.insert(label_key(choice.option)).second) {
      table.fault("label", "is named again", "it is under [orders.labels] or in another choice already",
                  "Keep one of them");
    }
    format.choices.push_back(std::move(choice));
  }
}

}  // namespace ordinatio::inline workshop
