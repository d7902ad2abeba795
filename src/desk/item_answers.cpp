// One item, and its words as they are typed.
#include <algorithm>

#include "bed/item_number.h"
#include "desk/answers.h"
#include "shop/ledger_access.h"

namespace ordinatio::inline desk {
namespace {

/// Whether a text has the words in it; ASCII capitals do not count.
bool has_words(std::string_view text, std::string_view words) {
  const auto small = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  const auto same = [&](char a, char b) { return small(a) == small(b); };
  return words.empty() || std::search(text.begin(), text.end(), words.begin(), words.end(), same) != text.end();
}

constexpr std::size_t found_limit = 100;  // more is no answer to a search

/// Pieces that the item may be pinned to: free ones, and its own.
Json pieces_for(Ledger& ledger, const LedgerItem& item) {
  Json pieces = Json::array();
  for (const LedgerBlank& blank : ledger.blanks()) {
    if (blank.state == LedgerBlank::State::free || blank.item == item.id) pieces.push_back(blank.id);
  }
  return pieces;
}

/// What an item of the ledger has that its words alone do not tell.
struct ItemGround {
  std::string design, piece;
  ToldLanguage told;
};

Result<ItemGround> ground_of(WorkshopDesk& desk, TrialBench& bench, const std::string& number) {
  return guarded([&]() -> Result<ItemGround> {
    const LedgerCall call = desk.call("fit");
    const auto ledger = open_for_look(bench.shop(), call);
    if (!ledger.ok()) return ledger.fault();
    const auto item = item_meant(**ledger, call, number, "");
    if (!item.ok()) return item.fault();
    const auto told = bench.told(**ledger, *item);
    const auto placement = (*ledger)->placement_of(item->id);
    std::string piece = placement ? placement->blank : item->pinned;
    if (piece.empty() && !placement) piece = desk.piece_to_come(item->number);
    const std::string wished = kept_setting(item->setting).design;
    return ItemGround{wished.empty() ? item->design : wished, piece, told};
  });
}

}  // namespace

Response show_item(WorkshopDesk& desk, const Request& request) {
  return from_workshop(desk, [&](TrialBench&, Ledger& ledger) -> Response {
    const auto item = item_meant(ledger, desk.call("look"), request.parameter("number"), "");
    if (!item.ok()) return answer_of(item.fault());
    Json neighbours = Json::array();
    for (const LedgerItem& one : ledger.items_of_order(item->order_number)) {
      if (one.id != item->id) neighbours.push_back(shape_of(one, ledger, desk.piece_to_come(one.number)));
    }
    return answer_of(Json{{"item", shape_of(*item, ledger, desk.piece_to_come(item->number))},
                          {"exported", item->exported},
                          {"neighbours", neighbours},
                          {"story", shape_of(ledger.story_of_item(*item))},
                          {"pieces", pieces_for(ledger, *item)}});
  });
}

/// What a key stroke asks is answered without the ledger where the page knows the item's ground: only the first time is it
/// looked up.
Response fit_words(WorkshopDesk& desk, const Request& request) {
  const Result<Ask> ask = Ask::read(request.body);
  if (!ask.ok()) return answer_of(ask.fault());
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  ItemGround ground;
  if (const auto number = ask->text_if_there("number")) {
    Result<ItemGround> known = ground_of(desk, **bench, *number);
    if (!known.ok()) return answer_of(known.fault());
    ground = *std::move(known);
  }
  const std::string design = ask->text_if_there("design").value_or(ground.design);
  const std::string piece = ask->text_if_there("piece").value_or(ground.piece);
  SettingWish wish = ask->wish();
  wish.design.clear();  // it is the one that is asked for
  const Result<Tried> tried = (*bench)->set({ask->text("words"), design, piece, desk.today(), ground.told, wish});
  return tried.ok() ? answer_of(shape_of(*tried, piece)) : answer_of(tried.fault());
}

Response search_items(WorkshopDesk& desk, const Request& request) {
  return from_workshop(desk, [&](TrialBench&, Ledger& ledger) {
    const std::string words = request.parameter("words");
    Json items = Json::array();
    for (const LedgerItem& item : ledger.items_in(std::nullopt)) {
      if (items.size() == found_limit) break;
      const bool found = has_words(with_check(item.number), words) || has_words(item.words, words) ||
                         has_words(item.customer, words) || has_words(item.exported, words);
      if (found) items.push_back(shape_of(item, ledger, desk.piece_to_come(item.number)));
    }
    return answer_of(Json{{"items", items}});
  });
}

Response show_design(WorkshopDesk& desk, const Request& request) {
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const std::string name = request.parameter("design");
  const Result<const Design*> design = (*bench)->design(name);
  if (!design.ok()) return answer_of(design.fault());
  const std::string words = (*design)->samples.empty() ? (*bench)->shop().sample : (*design)->samples.front();
  const Result<Tried> tried = (*bench)->set({words, name, "", desk.today(), {}, {}});
  return tried.ok() ? answer_of(shape_of(*tried, "")) : answer_of(tried.fault());
}

}  // namespace ordinatio::inline desk
