// In: lines of an account, each about an item or a piece.
// Out: the same lines, where many in a row say the same of one after another: a single line for all of them.
// Never: leaves one out without its count.
#pragma once

#include <string>
#include <vector>

#include "base/account.h"
#include "shop/shop.h"

namespace ordinatio {

/// "2641-1/X", what stands between it and the rest, where it is so, and what is said of it. Without a subject a line
/// stands for itself.
struct SaidOf {
  std::string subject, between, where, rest;
};
std::vector<SaidOf> said_of(const std::vector<HeldItem>& held);
/// Lines that begin with an item's number and its check character; others have no subject.
std::vector<SaidOf> said_in(const std::vector<std::string>& lines);

/// So many in a row that say the same are one line; fewer are easier to read one by one.
inline constexpr std::size_t least_alike = 4;
/// Harmless to a terminal.
std::vector<std::string> alike_together(const std::vector<SaidOf>& said);

}  // namespace ordinatio
