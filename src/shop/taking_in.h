// An export taken into the ledger by the rules of the workshop.
#pragma once

#include "intake/intake.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

/// How the workshop's rows are compared.
IntakeRules intake_rules(const Shop& shop);

/// Takes a whole file in and gives an account of it. channel: where the orders were sold, in front of their numbers.
void take_export_in(const Shop& shop, Ledger& ledger, Orders& orders, const std::filesystem::path& file,
                    const std::string& channel, Account& account);

}  // namespace ordinatio::inline shop
