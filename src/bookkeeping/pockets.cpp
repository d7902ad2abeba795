#include "bookkeeping/pockets.h"

#include <algorithm>
#include <charconv>

#include "bookkeeping/bookkeeping.h"

namespace ordinatio::inline bookkeeping {
namespace {

constexpr int highest_pocket = 100'000;  // a bed has fewer

std::optional<int> whole(std::string_view text) {
  int number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || end != text.data() + text.size() || number < 1 || number > highest_pocket) return {};
  return number;
}

}  // namespace

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
  if (!numbers.ok()) return numbers.fault();
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

}  // namespace ordinatio::inline bookkeeping
