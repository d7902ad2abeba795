#include "paper/sheet_words.h"

#include <algorithm>

#include "base/phrase.h"
#include "bed/item_number.h"
#include "cleaning/cleaning.h"
#include "paper/wording.h"
#include "write/colour.h"

namespace ordinatio::inline paper {
namespace {

std::string two_places(double value) {
  std::string text;
  append_number(text, value, 2);
  return text;
}

}  // namespace

std::string heading_of(const Sheet& sheet) {
  const Machine& bed = sheet.frame.plan.machine;
  const std::string bed_size = " · bed " + two_places(bed.width) + " × " + two_places(bed.height) + " mm · ";
  if (is_board(sheet)) return sheet.name + bed_size + std::to_string(sheet.frame.pockets.size()) + " pockets";
  if (sheet.items.empty()) return sheet.name + " · " + two_places(bed.width) + " × " + two_places(bed.height) + " mm";
  std::string text =
      sheet.name + " · sheet " + std::to_string(sheet.number) + bed_size + counted(sheet.items.size(), "item");
  if (!sheet.remake_of.empty()) text += " · remade from " + sheet.remake_of;
  if (sheet.correction) text += " · laid as measured";
  return text;
}

std::string words_for(const Pocket& pocket, const Sheet& sheet) {
  const std::string number = pocket.number == 0 ? "laid by hand" : "pocket " + std::to_string(pocket.number);
  const auto item = std::ranges::find(sheet.items, pocket.number, &SheetItem::pocket);
  if (item == sheet.items.end()) return number + " · empty";
  const Blank& piece = item->artwork.blank;
  return number + " · " + number_for_people(item->item) + (piece.id.empty() ? "" : " on " + piece.id) +
         (piece.turned ? ", turned" : "") + " · " + item->artwork.hash.substr(0, 8);
}

std::string customer_in(const Pocket& pocket, const Sheet& sheet) {
  constexpr std::size_t longest = 32;  // graphemes: at 1.8 mm they stand beside most pieces
  const auto item = std::ranges::find(sheet.items, pocket.number, &SheetItem::pocket);
  if (item == sheet.items.end()) return "";
  std::string name = make_visible(item->item.customer, " ").text;
  const std::vector<std::string_view> letters = graphemes_of(name);
  if (letters.size() <= longest) return name;
  return name.substr(0, static_cast<std::size_t>(letters[longest].data() - name.data())) + "…";
}

std::string colours_of(const Palette& palette) {
  std::string text;
  for (const Operation operation : all_operations) {
    text += (text.empty() ? "Colours: " : " · ") + std::string(name_of(operation)) + " " + hex_of(palette[operation]) +
            ", DXF " + std::to_string(palette.index_of(operation));
  }
  return text + " (never run)";
}

Cautions cautions_of(const Sheet& sheet) { return is_board(sheet) ? board_cautions() : engraving_cautions(); }

}  // namespace ordinatio::inline paper
