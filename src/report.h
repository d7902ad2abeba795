// In: the account of a command.
// Out: what a person reads on the terminal, or a program on stdout.
// Never: changes anything.
#pragma once

#include <string>
#include <string_view>

#include "base/account.h"
#include "shop/shop.h"

namespace ordinatio {

/// A few lines for a person. `kind`: "sheet", "proof", "face", "pocket", "piece", "blank", or "" where nothing is made.
/// Emphasis only where `lively`.
std::string account_as_text(const Account& account, std::string_view kind, bool lively);
std::string account_as_json(const Account& account);

/// Whether a terminal is there that takes colour: NO_COLOR counts when it is not empty.
bool is_lively(int descriptor);
/// A line on stderr that is written over as work goes on; silent where stderr is no terminal.
Progress progress_line(std::string_view verb);

}  // namespace ordinatio
