#include <algorithm>

#include "shop/csv_rows.h"
#include "shop/order_rows.h"

namespace ordinatio {
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
  /// A column that may be absent; one that differs by its capitals alone was meant, and is not ignored.
  std::optional<std::size_t> allow(const std::string& name) {
    const auto column = find(name);
    const auto same_letters = [&](const std::string& header) { return lower_case(header) == lower_case(name); };
    if (!column && !name.empty() && std::any_of(headers_.begin(), headers_.end(), same_letters)) {
      blame(missing(name, headers_, where_));
    }
    return column;
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
  [[nodiscard]] const MaybeFault& fault() const { return fault_; }

 private:
  void blame(Fault fault) {
    if (!fault_) fault_ = std::move(fault);
  }

  const std::vector<std::string>& headers_;
  std::string where_;
  MaybeFault fault_;
};

}  // namespace

Result<OrderHeader> find_columns(const CsvRecord& record, const OrderColumns& wanted, const std::string& file) {
  OrderHeader header;
  for (const CsvField& field : record.fields) header.names.emplace_back(trimmed(field.text));
  Search search(header.names, file + ":" + std::to_string(record.fields.front().line));
  header.order = search.demand(wanted.order);
  header.text = search.demand(wanted.text);
  header.quantity = search.allow(wanted.quantity);
  header.design = search.allow(wanted.design);
  header.blank = search.allow(wanted.blank);
  header.wish = search.allow(wanted.wish);
  header.line = search.welcome(wanted.line);
  header.note = search.welcome(wanted.note);
  header.status = search.welcome(wanted.status);
  header.customer = search.welcome(wanted.name);
  if (search.fault()) return *search.fault();
  return header;
}

}  // namespace ordinatio
