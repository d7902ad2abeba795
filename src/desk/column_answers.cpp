// An export whose columns are not told yet: its first rows, what they seem to be, and how its orders would come out.
#include "desk/answers.h"
#include "desk/exports.h"
#include "desk/pictures.h"
#include "orders/column_guess.h"
#include "workshop/toml_edit.h"

namespace ordinatio::inline desk {
namespace {

constexpr std::size_t rows_read = 200;  // for the guess: more say no more
constexpr std::size_t rows_shown = 8, orders_tried = 10;

/// The keys of shop.toml by which the page calls the columns, too.
struct ColumnKey {
  const char* key;
  std::string OrderColumns::*column;
};
constexpr ColumnKey column_keys[] = {
    {"order", &OrderColumns::order},   {"text", &OrderColumns::text}, {"quantity", &OrderColumns::quantity},
    {"design", &OrderColumns::design}, {"note", &OrderColumns::note}, {"name", &OrderColumns::name},
    {"date", &OrderColumns::date},     {"line", &OrderColumns::line}, {"status", &OrderColumns::status}};
struct LabelKey {
  const char* asked;
  const char* key;
  std::vector<std::string> OptionLabels::*labels;
};
constexpr LabelKey label_keys[] = {{"label_words", "text", &OptionLabels::text},
                                   {"label_notes", "note", &OptionLabels::note},
                                   {"label_designs", "design", &OptionLabels::design},
                                   {"label_others", "other", &OptionLabels::other}};

/// How the export is read if what the person said is taken.
OrderFormat format_of(const Shop& shop, const Ask& ask) {
  OrderFormat format = shop.orders;
  for (const auto& [key, column] : column_keys) format.columns.*column = ask.text(key);
  format.columns.blank = format.columns.wish = "";
  format.written.clear();
  for (const auto& [asked, key, labels] : label_keys) format.labels.*labels = ask.texts(asked);
  return format;
}

Json trial_of(TrialBench& bench, const Order& order, const std::string& date) {
  Json shape{{"order", order.number}, {"words", order.text}, {"quantity", order.quantity}, {"picture", ""}};
  const Result<Tried> tried = bench.set({order.text, order.design, "", date, order.told});
  if (!tried.ok()) {
    shape["fault"] = shape_of(tried.fault());
    return shape;
  }
  if (tried->artwork) shape["picture"] = plaque_picture(*tried->artwork);
  if (tried->held) shape["fault"] = shape_of(*tried->held);
  return shape;
}

/// The first orders as they would come out, and the rows that would be held.
Response trials_of(WorkshopDesk& desk, TrialBench& bench, const std::filesystem::path& file, const OrderFormat& format,
                   Json answer) {
  answer["trials"] = answer["held"] = Json::array();
  answer["notes"] = Json::array();
  const Result<Orders> orders = read_orders(file, format, Repeats::are_lines);
  if (!orders.ok()) {
    answer["fault"] = shape_of(orders.fault());
    return answer_of(answer);
  }
  for (const Order& order : parted(orders->orders)) {
    if (answer["trials"].size() == orders_tried) break;
    if (!order.cancelled) answer["trials"].push_back(trial_of(bench, order, desk.today()));
  }
  for (const HeldItem& held : orders->held) answer["held"].push_back(shape_of(held));
  for (const std::string& note : orders->notes) answer["notes"].push_back(note);
  return answer_of(answer);
}

Json shape_of(const ColumnGuess& guess) {
  Json columns, labels = Json::array();
  for (const auto& [key, column] : column_keys) columns[key] = guess.columns.*column;
  for (const GuessedLabel& label : guess.labels)
    labels.push_back({{"column", label.column},
                      {"label", label.label},
                      {"meaning", name_of(label.meaning)},
                      {"sample", label.sample}});
  return {{"columns", columns}, {"labels", labels}};
}

std::string toml_list(const std::vector<std::string>& words) {
  std::string list = "[";
  for (const std::string& word : words) list += (list.size() > 1 ? ", " : "") + toml_text(word);
  return list + "]";
}

/// What the person said, as keys of shop.toml. A column that the export has not is written as none where its key stands.
std::vector<TomlEdit> edits_of(const OrderFormat& format) {
  std::vector<TomlEdit> edits;
  for (const auto& [key, column] : column_keys) {
    const std::string& name = format.columns.*column;
    const bool may_be_none = std::string_view(key) == "quantity" || std::string_view(key) == "design";
    edits.push_back({"orders", key, name.empty() && !may_be_none ? "" : toml_text(name)});
  }
  const bool has_labels = format.labels.used();
  for (const auto& [asked, key, labels] : label_keys) {
    const std::vector<std::string>& words = format.labels.*labels;
    edits.push_back({"orders.labels", key, has_labels && !words.empty() ? toml_list(words) : ""});
  }
  return edits;
}

}  // namespace

Response show_columns(WorkshopDesk& desk, const Request& request) {
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const Result<std::filesystem::path> file = kept_export(desk.folder(), request.parameter("name"), request.body);
  if (!file.ok()) return answer_of(file.fault());
  const Result<ExportHead> head =
      read_export_head(request.body, file->filename().string(), (*bench)->shop().orders, rows_read);
  if (!head.ok()) return answer_of(head.fault());
  Json answer = shape_of(guess_columns(*head, (*bench)->design_names()));
  answer["file"] = file->filename().string();
  answer["header"] = head->header;
  answer["rows"] = Json::array();
  for (std::size_t i = 0; i < std::min(rows_shown, head->rows.size()); ++i) answer["rows"].push_back(head->rows[i]);
  return answer_of(answer);
}

Response try_columns(WorkshopDesk& desk, const Request& request) {
  const Result<Ask> ask = Ask::read(request.body);
  if (!ask.ok()) return answer_of(ask.fault());
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const Result<std::filesystem::path> file = export_called(desk.folder(), ask->text("file"));
  if (!file.ok()) return answer_of(file.fault());
  return trials_of(desk, **bench, *file, format_of((*bench)->shop(), *ask), Json::object());
}

Response keep_columns(WorkshopDesk& desk, const Request& request) {
  return command(desk, request, [&](const Shop& shop, const Ask& ask) -> Result<Account> {
    const OrderFormat format = format_of(shop, ask);
    const Result<std::filesystem::path> file = export_called(desk.folder(), ask.text("file"));
    if (!file.ok()) return file.fault();
    const Result<Orders> orders = read_orders(*file, format, Repeats::are_lines);
    if (!orders.ok()) return orders.fault();  // what cannot be read so is not written down
    if (auto fault = edit_toml(shop.folder / "shop.toml", edits_of(format))) return *std::move(fault);
    Account account;
    account.told.emplace_back("shop.toml says now how your exports are read");
    return account;
  });
}

}  // namespace ordinatio::inline desk
