#include <algorithm>
#include <charconv>

#include "base/harmless.h"
#include "base/phrase.h"
#include "csv/cells.h"
#include "csv/csv.h"
#include "csv/encoding_guess.h"
#include "csv/long_cells.h"
#include "csv/rows.h"
#include "csv/shown.h"
#include "orders/design_choice.h"
#include "orders/order_number.h"
#include "orders/order_options.h"
#include "orders/order_rows.h"
#include "orders/orders.h"

namespace ordinatio::inline orders {
namespace {

constexpr std::string_view replacement = "\uFFFD";

/// What all rows of a file are read by.
struct RowRules {
  const OrderHeader& header;
  const std::string& file;
  const OrderFormat& format;
  const std::map<std::string, Fault>& doubtful;  // words, see DecodedText
  DesignChooser choices;
  std::optional<OptionsReader> options;      // where the text column holds options cells
  std::set<std::u32string> common_labels{};  // where it should hold none
  std::vector<std::u32string> cancelled{};
};

/// One record on its way to an order, with what its faults need to say where.
class RowReading {
 public:
  RowReading(const CsvRecord& record, const RowRules& rules)
      : record_(record), rules_(rules), header_(rules.header), file_(rules.file) {}

  /// Whether the row is cancelled; everything else is read afterwards. Faults: the row's width, its status is damaged.
  Result<bool> read_status();
  MaybeFault read(Order& order);
  /// A cancelled row, as far as it can be read: it must be told from others, and no more.
  MaybeFault read_cancelled(Order& order);
  /// Of a row that cannot be read: what stands where its number should.
  [[nodiscard]] std::string number_at_least() const {
    return header_.order < record_.fields.size() ? std::string(without_guard(cell(header_.order))) : "";
  }
  [[nodiscard]] const std::vector<Remark>& remarks() const { return remarks_; }
  /// How many item numbers a row that cannot be taken keeps: what its quantity says, else one.
  [[nodiscard]] int kept_numbers() const;

 private:
  [[nodiscard]] std::string place(std::size_t column) const {
    return place_of(record_.fields[column], header_.names[column], file_);
  }
  [[nodiscard]] Fault fault_in(std::size_t column, std::string what, std::string why, std::string mend) const {
    return {std::move(what), place(column), std::move(why), std::move(mend)};
  }
  [[nodiscard]] std::string_view cell(std::size_t column) const { return trimmed(record_.fields[column].text); }
  MaybeFault check_letters(std::size_t column) const;
  MaybeFault check_lengths() const;
  MaybeFault read_id(std::size_t column, const std::string& name, std::string& id, Remark guarded);
  MaybeFault read_number(Order& order);
  MaybeFault read_line(Order& order);
  MaybeFault read_words(Options& words);
  MaybeFault read_quantity(Order& order) const;
  MaybeFault share_texts(Order& order, Options& words);
  MaybeFault read_design(Order& order, const Options& words) const;
  MaybeFault read_choices(Order& order, const Options& words) const;
  MaybeFault read_pieces(Order& order) const;
  MaybeFault read_wish(Order& order) const;
  void read_note(Order& order, const Options& words) const;
  void read_customer(Order& order) const;

  const CsvRecord& record_;
  const RowRules& rules_;
  const OrderHeader& header_;
  const std::string& file_;
  std::vector<Remark> remarks_;
};

Result<bool> RowReading::read_status() {
  if (auto fault = check_width(record_, header_.names, file_)) return *std::move(fault);
  if (auto fault = check_lengths()) return *std::move(fault);
  if (!header_.status) return false;
  if (auto fault = check_letters(*header_.status)) return *std::move(fault);
  const std::u32string status = label_key(record_.fields[*header_.status].text);
  if (std::find(rules_.cancelled.begin(), rules_.cancelled.end(), status) != rules_.cancelled.end()) return true;
  const auto half_says = [&](const std::u32string& word) { return status.find(word) != std::u32string::npos; };
  if (std::any_of(rules_.cancelled.begin(), rules_.cancelled.end(), half_says)) remarks_.push_back(Remark::half_said);
  return false;
}

MaybeFault RowReading::check_lengths() const {
  const auto too_long = [this](std::optional<std::size_t> column, std::size_t limit) -> MaybeFault {
    if (!column) return std::nullopt;
    MaybeFault fault = cell_too_long(cell(*column), header_.names[*column], limit);
    if (fault) fault->where = place(*column);
    return fault;
  };
  for (const auto& column : {std::optional(header_.order), header_.quantity, header_.design, header_.blank,
                             header_.wish, header_.line, header_.status, header_.date}) {
    if (auto fault = too_long(column, name_limit)) return fault;
  }
  for (const std::size_t column : header_.address) {
    if (auto fault = too_long(column, words_limit)) return fault;
  }
  if (auto fault = too_long(header_.text, words_limit)) return fault;
  return too_long(header_.note, words_limit);
}

MaybeFault RowReading::read(Order& order) {
  Options words;
  read_customer(order);
  if (auto fault = read_number(order)) return fault;
  if (auto fault = read_line(order)) return fault;
  if (auto fault = read_words(words)) return fault;
  if (auto fault = read_quantity(order)) return fault;
  if (auto fault = share_texts(order, words)) return fault;
  if (auto fault = read_design(order, words)) return fault;
  if (auto fault = read_choices(order, words)) return fault;
  if (auto fault = read_pieces(order)) return fault;
  read_note(order, words);
  return read_wish(order);
}

/// Of a cancelled row nothing is made: what is wrong with it does no harm, and its text may be anything.
void pass_over(const MaybeFault&) {}

MaybeFault RowReading::read_cancelled(Order& order) {
  order.cancelled = true;
  read_customer(order);
  if (auto fault = read_number(order)) return fault;
  if (auto fault = read_line(order)) return fault;
  Options words;
  if (read_words(words)) words.texts = {record_.fields[header_.text].text};
  pass_over(read_quantity(order));
  if (share_texts(order, words)) order.text = words.texts.front();
  pass_over(read_design(order, words));
  pass_over(read_choices(order, words));
  pass_over(read_pieces(order));
  read_note(order, words);
  pass_over(read_wish(order));
  std::erase_if(remarks_, [](Remark one) { return one == Remark::alike || one == Remark::open_ended; });
  return std::nullopt;
}

MaybeFault RowReading::check_letters(std::size_t column) const {
  const std::string& text = record_.fields[column].text;
  for (const std::string_view word :
       rules_.doubtful.empty() ? std::vector<std::string_view>() : words_beyond_ascii(text)) {
    const auto doubtful = rules_.doubtful.find(std::string(word));
    if (doubtful == rules_.doubtful.end()) continue;
    Fault fault = doubtful->second;
    fault.where = place(column);
    return fault;
  }
  const std::size_t lost = text.find(replacement);
  if (lost == std::string::npos) return std::nullopt;
  return fault_in(column, "a character is lost in " + shown(text),
                  "its bytes mean nothing in the encoding that was taken",
                  "Write the character again, or export the orders as UTF-8");
}

MaybeFault RowReading::read_id(std::size_t column, const std::string& name, std::string& id, Remark guarded) {
  if (auto fault = check_letters(column)) return fault;
  const std::string_view written = cell(column);
  const std::string_view number = without_guard(written);
  if (in_scientific_notation(number)) {
    return fault_in(column, "the " + name + " " + shown(number) + " is in scientific notation",
                    "a spreadsheet rounded it and its last digits are gone",
                    "Take the shop's original export, not one that a spreadsheet has saved");
  }
  if (steers(number)) {
    return fault_in(column, "the " + name + " " + shown(number) + " holds a line end or a control character",
                    column == header_.order ? "it stands on labels and in file names" : "it tells the row from others",
                    "Write it in one line, of letters and digits that can be seen");
  }
  id = number;
  if (number.size() != written.size()) remarks_.push_back(guarded);
  return std::nullopt;
}

MaybeFault RowReading::read_number(Order& order) {
  if (auto fault = read_id(header_.order, "order number", order.number, Remark::guarded_number)) return fault;
  if (!order.number.empty()) return std::nullopt;
  return fault_in(header_.order, "no order number", "the piece could not be told from others",
                  "Write the order's number in this column");
}

MaybeFault RowReading::read_line(Order& order) {
  return header_.line ? read_id(*header_.line, "line id", order.line, Remark::guarded_line) : std::nullopt;
}

MaybeFault RowReading::read_words(Options& words) {
  if (auto fault = check_letters(header_.text)) return fault;
  const std::string& text = record_.fields[header_.text].text;
  if (trimmed(text).empty()) {
    return fault_in(header_.text, "no text", "there is nothing to engrave",
                    "Write the text, or take the row out if the piece is to stay bare");
  }
  if (!rules_.options) {
    words.texts = {text};
    MaybeFault fault = object_to_labels(text, rules_.common_labels, rules_.format.labels);
    if (fault) fault->where = place(header_.text);
    return fault;
  }
  Result<Options> options = rules_.options->read(text);
  if (!options.ok()) {
    Fault fault = options.fault();
    fault.where = place(header_.text);
    return fault;
  }
  words = std::move(*options);
  if (words.open_ended) remarks_.push_back(Remark::open_ended);
  return std::nullopt;
}

MaybeFault RowReading::read_quantity(Order& order) const {
  if (!header_.quantity) return std::nullopt;
  const std::string mend = "Write a whole number from 1 to " + std::to_string(quantity_limit);
  const std::string_view written = trimmed(record_.fields[*header_.quantity].text);
  if (written.empty()) {
    return fault_in(*header_.quantity, "no quantity", "how many pieces are wanted cannot be told", mend);
  }
  const auto fault = [&](const std::string& why) {
    return fault_in(*header_.quantity, "the quantity " + shown(written) + " cannot be made", why, mend);
  };
  int quantity = 0;
  const std::string_view digits = without_empty_decimals(written);
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), quantity);
  const bool whole = end == digits.data() + digits.size();
  if (error == std::errc::invalid_argument || !whole) return fault("it is no whole number in digits alone");
  const int least = order.cancelled ? 0 : 1;
  if (error == std::errc() && quantity < least) return fault("at least one piece is wanted");
  if (error == std::errc::result_out_of_range && written.starts_with('-')) return fault("at least one piece is wanted");
  if (error != std::errc() || quantity > quantity_limit)
    return fault("so many in one row are taken for a slip of the pen");
  order.quantity = quantity;
  return std::nullopt;
}

/// Several texts are for one item each, in their order; a single one is for all.
MaybeFault RowReading::share_texts(Order& order, Options& words) {
  std::vector<std::string>& texts = words.texts;
  if (texts.size() > 1 && texts.size() != static_cast<std::size_t>(order.quantity)) {
    return fault_in(header_.text,
                    "there are " + std::to_string(texts.size()) + " texts for " +
                        counted(static_cast<std::size_t>(order.quantity), "piece"),
                    "which text goes on which piece cannot be told",
                    "Write one text for all pieces or one for each, or mend the quantity");
  }
  order.text = texts.front();
  const bool differ = std::any_of(texts.begin(), texts.end(), [&](const auto& text) { return text != order.text; });
  if (rules_.options && texts.size() == 1 && order.quantity > 1) remarks_.push_back(Remark::alike);
  if (differ) order.texts = std::move(texts);
  return std::nullopt;
}

/// From its column or an option; both may say the same.
MaybeFault RowReading::read_design(Order& order, const Options& words) const {
  if (header_.design) {
    if (auto fault = check_letters(*header_.design)) return fault;
    order.design = cell(*header_.design);
  }
  for (const std::string& design : words.designs) {
    if (order.design.empty()) order.design = design;
    if (design == order.design) continue;
    return fault_in(header_.text, "two designs are named: " + shown(order.design) + " and " + shown(design),
                    "a piece has one", "Take one of them out");
  }
  return std::nullopt;
}

/// Designs, faces and sizes that are chosen by words of other columns and options.
MaybeFault RowReading::read_choices(Order& order, const Options& words) const {
  DesignChooser::Choosing choosing(rules_.choices, order.design);
  for (std::size_t i = 0; i < rules_.format.choices.size(); ++i) {
    const OptionChoice& choice = rules_.format.choices[i];
    const std::size_t column = header_.choices[i];
    std::vector<std::string> chosen;
    if (!choice.is_label) {
      if (auto fault = check_letters(column)) return fault;
      chosen.emplace_back(cell(column));
    }
    for (const auto& [key, value] : words.choices) {
      if (choice.is_label && key == label_key(choice.option)) chosen.push_back(value);
    }
    for (const std::string& word : chosen) {
      if (auto fault = choosing.choose(i, word)) {
        fault->where = place(column);
        return fault;
      }
    }
  }
  order.design = choosing.design();
  return std::nullopt;
}

int RowReading::kept_numbers() const {
  Order order;
  if (record_.fields.size() != header_.names.size()) return 1;
  order.cancelled = true;  // a quantity of 0 is one then
  return read_quantity(order) ? 1 : order.quantity;
}

MaybeFault RowReading::read_pieces(Order& order) const {
  if (!header_.blank) return std::nullopt;
  if (auto fault = check_letters(*header_.blank)) return fault;
  for (const std::string_view id : parts_in(record_.fields[*header_.blank].text)) order.blanks.emplace_back(id);
  if (order.blanks.size() <= static_cast<std::size_t>(order.quantity)) return std::nullopt;
  return fault_in(*header_.blank, "there are more pieces named than the order has items",
                  std::to_string(order.blanks.size()) + " are named for " + std::to_string(order.quantity),
                  "Name one piece an item, parted by semicolons, or mend the quantity");
}

MaybeFault RowReading::read_wish(Order& order) const {
  if (!header_.wish) return std::nullopt;
  if (auto fault = check_letters(*header_.wish)) return fault;
  const CsvField& field = record_.fields[*header_.wish];
  Result<PieceWish> wish = parse_wish(field.text, place_of(field, header_.names[*header_.wish], file_));
  if (!wish.ok()) return wish.fault();
  order.wish = std::move(*wish);
  return std::nullopt;
}

void RowReading::read_note(Order& order, const Options& words) const {
  std::vector<std::string> notes = words.notes;
  if (header_.note && !cell(*header_.note).empty()) notes.push_back(record_.fields[*header_.note].text);
  for (const std::string& note : notes) order.note += (order.note.empty() ? "" : "\n") + note;
}

void RowReading::read_customer(Order& order) const {
  if (header_.customer) order.customer = cell(*header_.customer);
  if (header_.date) order.date = cell(*header_.date);
  for (const std::size_t column : header_.address) {
    if (!cell(column).empty()) order.address.append(order.address.empty() ? "" : "\n").append(cell(column));
  }
}

void keep_numbers(const RowReading& reading, const Order& order, std::size_t line, OrderRows& rows) {
  if (!order.number.empty()) rows.kept.push_back({line, order.number, reading.kept_numbers()});
}

void add_row(const CsvRecord& record, const RowRules& rules, Repeats repeats, std::string_view raw, OrderRows& rows) {
  const std::size_t line = record.fields.front().line;
  const auto remark = [&](Remark one) { rows.remarks[static_cast<std::size_t>(one)].push_back(line); };
  RowReading reading(record, rules);
  const Result<bool> cancelled = reading.read_status();
  Order order;
  order.source = rules.file + ":" + std::to_string(line);
  if (repeats == Repeats::are_lines) order.row = raw;
  const bool passes = cancelled.ok() && *cancelled && repeats == Repeats::settled;
  const MaybeFault fault = !cancelled.ok() ? cancelled.fault()
                           : *cancelled    ? reading.read_cancelled(order)
                                           : reading.read(order);
  if (passes || fault) keep_numbers(reading, order, line, rows);
  if (passes) return remark(Remark::cancelled);
  if (fault) {
    const std::string id = order.number.empty() ? "line " + std::to_string(line) : order.number;
    rows.held.push_back({line, {id, *fault}});
    if (!cancelled.ok()) order.number = reading.number_at_least();  // else the number itself was looked at
    if (repeats == Repeats::are_lines) rows.rows.push_back({std::move(order), static_cast<int>(line), *fault});
    return;
  }
  for (const Remark one : reading.remarks()) remark(one);
  rows.orders.push_back(std::move(order));
  rows.lines.push_back(line);
}

/// What the reader itself refuses.
HeldOrder unread(const CsvReader& reader, const std::string& file, const Fault& fault) {
  HeldOrder held;
  held.order.source = file + ":" + std::to_string(reader.line());
  held.order.row = reader.raw();
  held.place = static_cast<int>(reader.line());
  held.fault = fault;
  return held;
}

}  // namespace

OrderRows read_rows(CsvReader& reader, const OrderHeader& header, const OrderFormat& format, Repeats repeats,
                    const std::map<std::string, Fault>& doubtful) {
  RowRules rules{header, header.file, format, doubtful, DesignChooser(format), {}};
  if (format.labels.used()) rules.options.emplace(format.labels, label_choices(format));
  rules.common_labels = survey_labels(reader, header, format.labels);
  for (const std::string& word : format.cancelled) rules.cancelled.push_back(label_key(word));
  OrderRows rows;
  while (const auto record = reader.next()) {
    if (!record->ok()) {
      rows.held.push_back({reader.line(), {"line " + std::to_string(reader.line()), record->fault()}});
      if (repeats == Repeats::are_lines) rows.rows.push_back(unread(reader, header.file, record->fault()));
    } else if (is_empty(**record)) {
      rows.remarks[static_cast<std::size_t>(Remark::empty)].push_back(reader.line());
    } else {
      add_row(**record, rules, repeats, reader.raw(), rows);
    }
  }
  return rows;
}

}  // namespace ordinatio::inline orders
