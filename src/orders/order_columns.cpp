#include <algorithm>
#include <set>
#include <span>

#include "csv/csv.h"
#include "csv/rows.h"
#include "csv/shown.h"
#include "orders/near_header.h"
#include "orders/order_rows.h"
#include "orders/orders.h"

namespace ordinatio::inline orders {
namespace {

std::vector<std::size_t> columns_named(const std::string& name, const std::vector<std::string>& headers) {
  std::vector<std::size_t> columns;
  for (std::size_t column = 0; column < headers.size(); ++column) {
    if (!name.empty() && headers[column] == name) columns.push_back(column);
  }
  return columns;
}

/// The header that was most likely meant; capitals do not count.
std::optional<std::string> nearest_header(const std::string& name, const std::vector<std::string>& headers) {
  std::vector<std::string> lower;
  lower.reserve(headers.size());
  for (const std::string& header : headers) lower.push_back(lower_case(header));
  const auto nearest = nearest_word(lower_case(name), std::vector<std::string_view>(lower.begin(), lower.end()));
  if (!nearest) return std::nullopt;
  const auto found = std::find(lower.begin(), lower.end(), *nearest);
  return headers[static_cast<std::size_t>(found - lower.begin())];
}

std::string list_headers(const std::vector<std::string>& headers) {
  constexpr std::size_t listed = 40;  // a wide export has hundreds; those behind help nobody
  std::string list = headers.size() == 1 ? "the only header is " : "the headers are ";
  for (std::size_t at = 0; at < std::min(headers.size(), listed); ++at) {
    list += (at == 0 ? "" : ", ") + shown(headers[at]);
  }
  if (headers.size() > listed) list += " and " + std::to_string(headers.size() - listed) + " more";
  return list;
}

Fault missing(const std::string& name, const std::vector<std::string>& headers, const std::string& where) {
  const auto nearest = nearest_header(name, headers);
  return {"no column " + shown(name), where,
          (nearest ? "the nearest header is " + shown(*nearest) + "; " : "") + list_headers(headers),
          "Name the column in shop.toml as the file does, or change the file's header"};
}

/// Looks for the columns of one header line and keeps the first fault.
class Search {
 public:
  Search(const std::vector<std::string>& headers, std::string where) : headers_(headers), where_(std::move(where)) {}

  std::optional<std::size_t> find(const std::string& name) {
    const auto columns = columns_named(name, headers_);
    if (columns.size() > 1) {
      blame({"the column " + shown(name) + " is there twice", where_,
             "as columns " + std::to_string(columns[0] + 1) + " and " + std::to_string(columns[1] + 1),
             "Give one of them another header"});
    }
    return columns.empty() ? std::nullopt : std::optional(columns.front());
  }
  std::size_t demand(const std::string& name) {
    const auto column = find(name);
    if (!column) blame(missing(name, headers_, where_));
    return column.value_or(0);
  }
  /// A column that most exports have in some spelling: capitals do not count.
  std::optional<std::size_t> welcome(const std::string& name) {
    if (const auto column = find(name)) return column;
    std::optional<std::size_t> alike;
    for (std::size_t i = 0; i < headers_.size() && !name.empty(); ++i) {
      if (lower_case(headers_[i]) != lower_case(name)) continue;
      if (alike) return std::nullopt;  // which of them is not to be told
      alike = i;
    }
    return alike;
  }
  void blame(Fault fault) {
    if (!fault_) fault_ = std::move(fault);
  }
  [[nodiscard]] const MaybeFault& fault() const { return fault_; }
  [[nodiscard]] const std::string& where() const { return where_; }

 private:
  const std::vector<std::string>& headers_;
  std::string where_;
  MaybeFault fault_;
};

/// A column that a file may lack.
struct SparableColumn {
  std::string_view key;  // in shop.toml
  const std::string& name;
  std::optional<std::size_t>& column;
  std::string_view without;  // what is done without it
  enum class Weight {
    light,   // nothing goes wrong without it, unless shop.toml names it
    heavy,   // pieces may be spoilt: it is always said
    counted  // the same, and a header that has its words may well be it
  } weight = Weight::light;
};

/// A header that no other column has claimed and that may be this one, the nearest first.
std::pair<Nearness, std::string> near_header(const SparableColumn& wanted, bool is_written,
                                             const std::vector<std::string>& headers,
                                             const std::set<std::string>& claimed) {
  const std::size_t slips = is_written ? 2 : 1;
  std::pair<Nearness, std::string> nearest{Nearness::none, {}};
  for (const std::string& header : headers) {
    if (claimed.contains(header)) continue;
    const Nearness near = nearness(wanted.name, header, slips);
    if (near > nearest.first) nearest = {near, header};
  }
  return nearest;
}

/// Asks about a header that is near; tells what is done where none is.
void miss(const SparableColumn& wanted, bool is_written, const std::set<std::string>& claimed, Search& search,
          OrderHeader& header) {
  using Weight = SparableColumn::Weight;
  const std::string key(wanted.key), without(wanted.without), file = header.file + ": ";
  const std::string none = key + " = \"\" if the file has none, under [orders] in shop.toml";
  const auto [near, is] = near_header(wanted, is_written, header.names, claimed);
  const bool must_ask = near == Nearness::alike ? is_written || wanted.weight != Weight::light
                                                : is_written || wanted.weight == Weight::counted;
  if (near != Nearness::none && must_ask) {
    return search.blame({"no column " + shown(wanted.name), search.where(),
                         "the nearest header is " + shown(is) + "; is it that column? Without it: " + without,
                         "Write " + key + " = " + shown(is) + " if it is, or " + none});
  }
  const std::string said = file + "no column " + shown(wanted.name);
  if (is_written) {
    header.warnings.push_back(said + ", which shop.toml names: " + without + ". Name it as the file does, or write " +
                              none);
  } else if (near != Nearness::none && wanted.weight != Weight::light) {
    header.warnings.push_back(said + ": " + without + ". Is it " + shown(is) + "? Write " + key + " = " + shown(is) +
                              " if it is, or " + none);
  } else if (near == Nearness::alike) {
    header.notes.push_back(said + ", but one " + shown(is) + ": write " + key + " = " + shown(is) +
                           " under [orders] in shop.toml if it is that");
  } else if (wanted.weight != Weight::light) {
    header.notes.push_back(said + ": " + without);
  }
}

void find_sparable(std::span<const SparableColumn> columns, const OrderFormat& format, Search& search,
                   OrderHeader& header) {
  std::set<std::string> claimed{format.columns.order, format.columns.text};
  for (const SparableColumn& one : columns) claimed.insert(one.name);
  for (const OptionChoice& choice : format.choices) claimed.insert(choice.option);
  for (const SparableColumn& one : columns) {
    const bool any_capitals =
        one.key == "line" || one.key == "note" || one.key == "status" || one.key == "name" || one.key == "date";
    one.column = any_capitals ? search.welcome(one.name) : search.find(one.name);
    if (one.column) continue;
    if (!one.name.empty()) {
      miss(one, format.written.contains(one.key), claimed, search, header);
    } else if (one.weight == SparableColumn::Weight::heavy && one.key == "status") {
      header.notes.push_back(header.file + ": shop.toml names no status column: " + std::string(one.without));
    }
  }
}

}  // namespace

Result<OrderHeader> find_columns(const CsvRecord& record, const OrderFormat& format, const std::string& file) {
  using Weight = SparableColumn::Weight;
  const OrderColumns& wanted = format.columns;
  OrderHeader header;
  header.file = file;
  for (const CsvField& field : record.fields) header.names.emplace_back(trimmed(field.text));
  Search search(header.names, file + ":" + std::to_string(record.fields.front().line));
  header.order = search.demand(wanted.order);
  header.text = search.demand(wanted.text);
  std::vector<std::optional<std::size_t>> address(wanted.address.size());
  std::vector<SparableColumn> sparable{
      {"quantity", wanted.quantity, header.quantity, "one piece a row", Weight::counted},
      {"design", wanted.design, header.design, "the shop's default design", Weight::heavy},
      {"status", wanted.status, header.status, "no row is taken for cancelled", Weight::heavy},
      {"line", wanted.line, header.line, "rows are told by their words"},
      {"note", wanted.note, header.note, "no customer's note is read"},
      {"blank", wanted.blank, header.blank, "no piece is named"},
      {"wish", wanted.wish, header.wish, "no wish is read"},
      {"name", wanted.name, header.customer, "no customer's name is read"},
      {"date", wanted.date, header.date, "no order's date is read"}};
  for (std::size_t i = 0; i < address.size(); ++i)
    sparable.push_back({"address", wanted.address[i], address[i], "that part of no address is read"});
  find_sparable(sparable, format, search, header);
  for (const OptionChoice& choice : format.choices) {
    header.choices.push_back(choice.is_label ? header.text : search.demand(choice.option));
  }
  for (const auto& column : address) {
    if (column) header.address.push_back(*column);
  }
  if (search.fault()) return *search.fault();
  return header;
}

}  // namespace ordinatio::inline orders
