// An account as the ledger keeps it until the person has heard it. Of this folder alone.
#pragma once

#include "base/account.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

/// As JSON; files of the workshop by their place in it.
std::string text_to_keep(const Account& account, const Shop& shop);
/// What was kept. One that cannot be read says so: it is told all the same that something was done.
Account kept_account(const std::string& text, const Shop& shop);

/// What a command did that was cut off before its account was read, as lines of another command's account.
std::vector<std::string> told_late(const std::string& cause, const Account& account);

}  // namespace ordinatio::inline shop
