// Of this folder alone.
#pragma once

#include "design/design.h"

namespace ordinatio::inline design {

/// The date in the part's form, with the words around it. Faults: not a day of the calendar as ISO 8601 writes it, or a
/// locale that ICU does not know.
Result<std::string> date_line(const DatePart& part, const std::string& iso_date);

/// The number with the words around it. Faults: none is given.
Result<std::string> number_line(const NumberPart& part, const std::string& number);

}  // namespace ordinatio::inline design
