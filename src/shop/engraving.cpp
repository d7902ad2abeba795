#include <algorithm>
#include <charconv>

#include "shop/bookings.h"

namespace ordinatio {
namespace {

constexpr int highest_pocket = 100'000;  // a bed has fewer

std::optional<int> whole(std::string_view text) {
  int number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || end != text.data() + text.size() || number < 1 || number > highest_pocket) return {};
  return number;
}

std::string counted_items(std::size_t count) { return std::to_string(count) + (count == 1 ? " item" : " items"); }

}  // namespace

std::vector<LedgerPlacement> still_on(Ledger& ledger, const LedgerSheet& sheet) {
  std::vector<LedgerPlacement> placements = ledger.placements_on(sheet.number);
  std::erase_if(placements, [](const LedgerPlacement& one) { return one.state != LedgerPlacement::State::on_sheet; });
  return placements;
}

Result<std::vector<int>> parse_numbers(std::string_view text, const std::string& option) {
  std::vector<int> numbers;
  for (bool more = !text.empty(); more;) {
    const std::size_t comma = text.find(',');
    const std::string_view part = text.substr(0, comma);
    const std::size_t dash = part.find('-');
    const auto from = whole(part.substr(0, dash));
    const auto to = dash == std::string_view::npos ? from : whole(part.substr(dash + 1));
    if (!from || !to || *to < *from) {
      return Fault{"\"" + std::string(part) + "\" names no pockets", option, "", "Write them as 1-5,7"};
    }
    for (int number = *from; number <= *to; ++number) numbers.push_back(number);
    more = comma != std::string_view::npos;
    if (more) text.remove_prefix(comma + 1);
  }
  std::ranges::sort(numbers);
  numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
  return numbers;
}

Result<std::vector<LedgerPlacement>> placements_in(Ledger& ledger, const LedgerSheet& sheet, std::string_view pockets,
                                                   const std::string& option) {
  const Result<std::vector<int>> numbers = parse_numbers(pockets, option);
  if (!numbers) return numbers.fault();
  std::vector<LedgerPlacement> all = ledger.placements_on(sheet.number), chosen;
  for (const int number : *numbers) {
    const auto found = std::ranges::find(all, number, &LedgerPlacement::pocket);
    if (found == all.end()) {
      return Fault{"there is nothing in pocket " + std::to_string(number) + " of " + sheet.name, option, "",
                   "Look at the sheet: ordinatio history " + sheet.name};
    }
    if (found->state != LedgerPlacement::State::on_sheet) {
      return Fault{"pocket " + std::to_string(number) + " is settled", option,
                   "what lay in it on " + sheet.name + " is " + std::string(name_of(found->state)),
                   "Leave it out; ordinatio undo " + sheet.name + " takes a wrong booking back"};
    }
    chosen.push_back(*found);
  }
  return chosen;
}

Result<Account> run_engraved(const Shop& shop, const EngravedOptions& options) {
  return in_book(shop, options.call, "engraving", [&](Ledger& ledger, Account& account) -> MaybeFault {
    for (const std::string& typed : options.sheets) {
      const auto sheet = sheet_meant(ledger, typed);
      if (!sheet) return sheet.fault();
      const auto placements = options.pockets.empty() ? Result<std::vector<LedgerPlacement>>(still_on(ledger, *sheet))
                                                      : placements_in(ledger, *sheet, options.pockets, "--pockets");
      if (!placements) return placements.fault();
      for (const LedgerPlacement& placement : *placements) ledger.mark_engraved(placement);
      account.told.push_back(sheet->name + ": " + counted_items(placements->size()) + " engraved, " +
                             std::to_string(still_on(ledger, *sheet).size()) + " still on it");
    }
    return std::nullopt;
  });
}

Result<Account> run_spoil(const Shop& shop, const SpoilOptions& options) {
  return in_book(shop, options.call, "spoiling", [&](Ledger& ledger, Account& account) -> MaybeFault {
    if (options.reason.empty()) {
      return Fault{"there is no reason", "--reason", "", "Say what happened: the piece is written off with it"};
    }
    if (options.item.empty()) {
      const auto blank = ledger.blank(options.blank);
      if (!blank) {
        return Fault{"there is no blank " + options.blank, "--blank", "the ledger does not know it",
                     "Look at the stock: ordinatio stock"};
      }
      if (blank->state != LedgerBlank::State::free) {
        return Fault{"blank " + blank->id + " is " + std::string(name_of(blank->state)), "--blank",
                     blank->item ? "item " + ledger.item(*blank->item)->number + " has it" : blank->reason,
                     "Write the item off: ordinatio spoil ITEM"};
      }
      ledger.set_blank_state(blank->id, LedgerBlank::State::spoiled, std::nullopt, options.reason);
      account.told.push_back("blank " + blank->id + " is written off: " + options.reason);
      return std::nullopt;
    }
    const auto item = item_meant(ledger, options.call, options.item, "Write off the piece of");
    if (!item) return item.fault();
    const auto placement = ledger.placement_of(item->id);
    if (!placement || item->state == ItemState::cancelled) {
      return Fault{"it is not made yet", item->number, "it is " + std::string(name_of(item->state)),
                   "Write off a blank by its own name: --blank"};
    }
    ledger.spoil(*placement, options.reason);
    account.told.push_back(named_with_words(*item) + " is spoiled" +
                           (placement->blank.empty() ? "" : ", blank " + placement->blank + " written off") + ": " +
                           options.reason);
    account.told.emplace_back("It is first in line on the next day's sheets; ordinatio remake " +
                              with_check(item->number) + " makes it at once");
    return std::nullopt;
  });
}

}  // namespace ordinatio
