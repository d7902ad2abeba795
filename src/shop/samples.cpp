#include "shop/samples.h"

#include <algorithm>

#include "csv/csv.h"
#include "orders/order_rows.h"
#include "orders/orders.h"
#include "workshop/shipped_texts.h"

namespace ordinatio::inline shop {
namespace {

/// What tells an order from others however its file was saved: its number, and its words without regard to line ends.
std::string mark_of(std::string_view number, std::string_view words) {
  std::string mark = std::string(number) + ":";
  std::ranges::copy_if(words, std::back_inserter(mark), [](char c) { return c != '\r' && c != '\n' && c != ' '; });
  return mark;
}

std::vector<std::string> shipped_marks() {
  std::vector<std::string> marks;
  CsvReader reader(orders_csv(), ',', "orders.csv");
  while (const auto record = reader.next()) {
    if (record->ok() && (*record)->fields.size() > 1) {
      marks.push_back(mark_of((*record)->fields[0].text, (*record)->fields[1].text));
    }
  }
  return marks;
}

}  // namespace

MaybeFault refuse_samples(const Orders& orders, const std::string& file, const LedgerCall& call) {
  if (call.samples) return std::nullopt;
  const std::vector<std::string> shipped = shipped_marks();
  std::string numbers;
  for (const Order& order : orders.orders) {
    if (std::ranges::find(shipped, mark_of(order.number, order.text)) == shipped.end()) continue;
    numbers += (numbers.empty() ? "" : ", ") + order.number;
  }
  if (numbers.empty()) return std::nullopt;
  const bool several = numbers.find(',') != std::string::npos;
  const std::string what = (several ? "orders " : "order ") + numbers +
                           " came with the new workshop: " + (several ? "their customers are" : "its customer is") +
                           " invented";
  if (call.confirm && call.confirm(what + ". Take " + (several ? "them" : "it") + " into the ledger all the same?"))
    return std::nullopt;
  return Fault{what, file, "pieces would be engraved for nobody",
               "Take these rows out, or give --samples to practise with them"};
}

}  // namespace ordinatio::inline shop
