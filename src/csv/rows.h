// What rows have in common, whatever they hold.
#pragma once

#include "csv/csv.h"

namespace ordinatio::inline csv {

/// `orders.csv:12:7, column "Text"`
std::string place_of(const CsvField& field, const std::string& header, const std::string& file);
/// Faults: the row has more or fewer fields than the header.
MaybeFault check_width(const CsvRecord& record, const std::vector<std::string>& headers, const std::string& file);
/// Whether the row holds nothing but spaces.
bool is_empty(const CsvRecord& record);
/// With A to Z in lower case.
std::string lower_case(std::string_view text);

}  // namespace ordinatio::inline csv
