#include "plaques.h"
#include "orders/orders.h"

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string_view>

namespace bench {
namespace {

std::string whole_file(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path.string());
  return {std::istreambuf_iterator<char>(file), {}};
}

/// Takes everything up to `end` off the front of text, and `end` with it.
std::string_view take_until(std::string_view& text, std::string_view end) {
  const std::size_t at = text.find(end);
  if (at == std::string_view::npos) throw std::runtime_error("not an orders file of this bench");
  const std::string_view taken = text.substr(0, at);
  text.remove_prefix(at + end.size());
  return taken;
}

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (true) {
    const std::size_t end = text.find('\n');
    lines.emplace_back(text.substr(0, end));
    if (end == std::string_view::npos) return lines;
    text.remove_prefix(end + 1);
  }
}

}  // namespace

Corner plaque_corner(std::size_t place_on_sheet) {
  const std::size_t column = place_on_sheet % columns, row = place_on_sheet / columns;
  return {edge + static_cast<double>(column) * (blank_width + gap),
          edge + static_cast<double>(row) * (blank_height + gap)};
}

std::vector<Order> read_orders(const std::filesystem::path& csv) {
  const std::string bytes = whole_file(csv);
  std::string_view rest = bytes;
  take_until(rest, "Order,Text\r\n");
  std::vector<Order> orders;
  while (!rest.empty()) {
    const std::string_view number = take_until(rest, ",\"");
    orders.push_back({std::string(number), lines_of(take_until(rest, "\"\r\n"))});
  }
  return orders;
}

std::string sheet_file(std::size_t sheet) {
  const std::string digits = std::to_string(sheet);
  return "sheet-" + std::string(digits.size() < 5 ? 5 - digits.size() : 0, '0') + digits + ".svg";
}

}  // namespace bench
