#include "shop/intake_row.h"

#include <nlohmann/json.hpp>

namespace ordinatio {
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

}  // namespace

std::vector<std::vector<IntakeRow>> rows_by_order(const std::vector<Order>& orders) {
  std::vector<std::vector<IntakeRow>> groups;
  std::map<std::string_view, std::size_t> group_of;
  for (const Order& order : orders) {
    const auto [group, is_new] = group_of.emplace(order.number, groups.size());
    if (is_new) groups.emplace_back();
    std::vector<IntakeRow>& rows = groups[group->second];
    IntakeRow row{order, !order.line.empty(), order.line.empty() ? key_of(order) : order.line, 1, version_of(order)};
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
                                {"source", order.source},     {"occurrence", row.occurrence}}
      .dump();
}

IntakeRow row_proposed(const LedgerQuestion& question) {
  const auto json = nlohmann::json::parse(question.proposal);
  Order order;
  order.number = json.at("order"), order.line = json.at("line"), order.text = json.at("text");
  order.texts = json.at("texts").get<std::vector<std::string>>();
  order.quantity = json.at("quantity"), order.design = json.at("design");
  order.blanks = json.at("blanks").get<std::vector<std::string>>();
  if (const Result<PieceWish> wish = parse_wish(json.at("wish").get<std::string>(), "")) order.wish = *wish;
  order.note = json.at("note"), order.cancelled = json.at("cancelled"), order.source = json.at("source");
  IntakeRow row{order, !order.line.empty(), order.line.empty() ? key_of(order) : order.line, json.at("occurrence"),
                question.version};
  return row;
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
          index < order.blanks.size() ? order.blanks[index] : std::string()};
}

}  // namespace ordinatio
