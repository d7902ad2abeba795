#include "intake/intake_row.h"

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>

#include "cleaning/cleaning.h"
#include "csv/shown.h"
#include "orders/order_rows.h"
#include "orders/orders.h"

namespace ordinatio::inline intake {
namespace {

/// Parts of a digest's text, each with its length in front: no two lists read alike.
void add(std::string& text, std::string_view part) {
  text += std::to_string(part.size());
  text += ':';
  text += part;
}

/// A short digest: 128 bits tell the rows of one order apart.
std::string digest_of(const std::string& text) { return sha256_hex(text).substr(0, 32); }

std::string key_of(const Order& order) {
  std::string text;
  add(text, order.design);
  add(text, order.text);
  for (const std::string& one : order.texts) add(text, one);
  return digest_of(text);
}

std::string version_of(const Order& order) {
  std::string text;
  add(text, key_of(order));
  add(text, std::to_string(order.quantity));
  add(text, order.cancelled ? "cancelled" : "");
  add(text, wish_text(order.wish));
  add(text, order.note);
  for (const std::string& blank : order.blanks) add(text, blank);
  return digest_of(text);
}

/// The order with everything in the form in which it is compared.
Order in_meaning(Order order, const IntakeRules& rules) {
  order.text = meaning_of(order.text, rules.cleaning);
  for (std::string& text : order.texts) text = meaning_of(text, rules.cleaning);
  if (order.design.empty()) order.design = rules.design;
  std::ranges::sort(order.wish.keep);
  order.note = meaning_of(order.note, rules.cleaning);
  return order;
}

/// A space that glues two words looks like any other: rows are told apart without regard to it.
std::string without_glue(std::string text) {
  for (const std::string_view glue : {"\u00A0", "\u202F"}) {
    for (std::size_t at = text.find(glue); at != std::string::npos; at = text.find(glue))
      text.replace(at, glue.size(), " ");
  }
  return text;
}

std::string key_of_meaning(Order meaning) {
  meaning.text = without_glue(std::move(meaning.text));
  for (std::string& text : meaning.texts) text = without_glue(std::move(text));
  return key_of(meaning);
}

IntakeRow row_of(const Order& order, const IntakeRules& rules) {
  const Order meaning = in_meaning(order, rules);
  const bool has_id = !order.line.empty();
  std::string text;
  add(text, version_of(meaning));
  add(text, meaning_of(order.customer, rules.cleaning));
  return {order,
          has_id,
          has_id ? order.line : key_of_meaning(meaning),
          1,
          digest_of(text),
          has_id ? order.line : key_of(order),
          version_of(order)};
}

}  // namespace

std::string meaning_of(const std::string& words, const CleaningRules& rules) {
  const Result<Inscription> cleaned = clean_inscription(words, rules);
  std::string meaning;
  if (cleaned.ok()) {
    for (const std::string& line : cleaned->lines) meaning += (&line == cleaned->lines.data() ? "" : "\n") + line;
    return meaning;
  }
  for (const std::string_view line : lines_as_typed(trimmed(words))) meaning.append(trimmed(line)).append("\n");
  return meaning;
}

bool says_the_same(const std::string& words, const std::string& other, const IntakeRules& rules) {
  return words == other || meaning_of(words, rules.cleaning) == meaning_of(other, rules.cleaning);
}

bool is_same_design(const std::string& design, const std::string& other, const IntakeRules& rules) {
  return (design.empty() ? rules.design : design) == (other.empty() ? rules.design : other);
}

bool is_same_wish(const std::string& wish, const std::string& other) {
  Result<PieceWish> one = parse_wish(wish, ""), two = parse_wish(other, "");
  if (!one.ok() || !two.ok()) return wish == other;
  std::ranges::sort(one->keep);
  std::ranges::sort(two->keep);
  return *one == *two;
}

std::vector<std::vector<IntakeRow>> rows_by_order(const std::vector<Order>& orders, const IntakeRules& rules) {
  std::vector<std::vector<IntakeRow>> groups;
  std::map<std::string_view, std::size_t> group_of;
  for (const Order& order : orders) {
    const auto [group, is_new] = group_of.emplace(order.number, groups.size());
    if (is_new) groups.emplace_back();
    std::vector<IntakeRow>& rows = groups[group->second];
    IntakeRow row = row_of(order, rules);
    for (const IntakeRow& before : rows) {
      if (!row.has_id && !before.has_id && before.key == row.key) ++row.occurrence;
    }
    rows.push_back(std::move(row));
  }
  return groups;
}

std::string proposal_of(const IntakeRow& row) {
  const Order& order = row.order;
  return nlohmann::ordered_json{{"order", order.number},      {"line", order.line},
                                {"text", order.text},         {"texts", order.texts},
                                {"quantity", order.quantity}, {"design", order.design},
                                {"blanks", order.blanks},     {"wish", wish_text(order.wish)},
                                {"note", order.note},         {"cancelled", order.cancelled},
                                {"source", order.source},     {"occurrence", row.occurrence},
                                {"customer", order.customer}, {"date", order.date},
                                {"address", order.address}}
      .dump();
}

IntakeRow row_proposed(const LedgerQuestion& question, const IntakeRules& rules) {
  const auto json = nlohmann::json::parse(question.proposal);
  Order order;
  order.number = json.at("order"), order.line = json.at("line"), order.text = json.at("text");
  order.texts = json.at("texts").get<std::vector<std::string>>();
  order.quantity = json.at("quantity"), order.design = json.at("design");
  order.blanks = json.at("blanks").get<std::vector<std::string>>();
  if (const Result<PieceWish> wish = parse_wish(json.at("wish").get<std::string>(), ""); wish.ok()) order.wish = *wish;
  order.note = json.at("note"), order.cancelled = json.at("cancelled"), order.source = json.at("source");
  order.customer = json.value("customer", "");  // ledgers of version 2 have none
  order.date = json.value("date", ""), order.address = json.value("address", "");
  IntakeRow row = row_of(order, rules);
  row.occurrence = json.at("occurrence");
  return row;
}

int line_of(const std::string& source) {
  int line = 0;
  const std::size_t colon = source.rfind(':');
  std::from_chars(source.data() + std::min(colon + 1, source.size()), source.data() + source.size(), line);
  return line;
}

int wanted_items(const IntakeRow& row) { return row.order.cancelled ? 0 : row.order.quantity; }

const std::string& words_of(const IntakeRow& row, std::size_t index) {
  return index < row.order.texts.size() ? row.order.texts[index] : row.order.text;
}

NewItem item_of(const IntakeRow& row, std::size_t index, std::int64_t line, int ordinal) {
  const Order& order = row.order;
  return {line,
          order.number,
          ordinal,
          words_of(row, index),
          order.design,
          wish_text(order.wish),
          order.note,
          order.source,
          index < order.blanks.size() ? order.blanks[index] : std::string(),
          order.customer};
}

}  // namespace ordinatio::inline intake
