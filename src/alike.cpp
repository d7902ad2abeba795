#include "alike.h"

#include <algorithm>

#include "base/account.h"
#include "base/harmless.h"
#include "bed/item_number.h"

namespace ordinatio {
namespace {

constexpr std::size_t most_of_a_number = 100;  // bytes; a slash farther on belongs to the words behind it

/// How long the item's number at the line's start is, its check character included; 0: there is none.
std::size_t number_at_start(const std::string& line) {
  for (std::size_t slash = line.find('/'); slash < most_of_a_number; slash = line.find('/', slash + 1)) {
    if (slash + 2 > line.size()) return 0;
    if (with_check(line.substr(0, slash)) == line.substr(0, slash + 2)) return slash + 2;
  }
  return 0;
}

/// "2641" of "2641-1/X", "S" of "S-12": no order's number is hidden behind another's.
std::string_view stem_of(const SaidOf& said) {
  return std::string_view(said.subject).substr(0, std::min(said.subject.rfind('-'), said.subject.size()));
}

bool say_the_same(const SaidOf& a, const SaidOf& b) {
  return !a.subject.empty() && !b.subject.empty() && stem_of(a) == stem_of(b) && a.between == b.between &&
         a.rest == b.rest;
}

std::string placed(const std::string& where, const std::string& rest) {
  return where.empty() ? rest : where + ": " + rest;
}

/// One line for said[first] to said[last].
std::string line_for(const std::vector<SaidOf>& said, std::size_t first, std::size_t last) {
  const SaidOf& one = said[first];
  if (first == last) return one.subject + one.between + placed(one.where, one.rest);
  const std::size_t count = last - first + 1;
  std::string where = one.where;
  if (where != said[last].where) where += ", and " + std::to_string(count - 1) + " more places";
  return one.subject + " to " + said[last].subject + ", " + std::to_string(count) + " alike" + one.between +
         placed(where, one.rest);
}

}  // namespace

std::vector<SaidOf> said_of(const std::vector<HeldItem>& held) {
  std::vector<SaidOf> said;
  for (const HeldItem& one : held) {
    Fault placeless = one.fault;
    placeless.where.clear();
    said.push_back({one.is_item ? with_check(one.id) : one.id, "  ", one.fault.where, describe(placeless)});
  }
  return said;
}

std::vector<SaidOf> said_in(const std::vector<std::string>& lines) {
  std::vector<SaidOf> said;
  for (const std::string& line : lines) {
    const std::size_t length = number_at_start(line);
    said.push_back({line.substr(0, length), "", "", line.substr(length)});
  }
  return said;
}

std::vector<std::string> alike_together(const std::vector<SaidOf>& said) {
  std::vector<std::string> lines;
  for (std::size_t first = 0; first < said.size();) {
    std::size_t end = first + 1;
    while (end < said.size() && say_the_same(said[first], said[end])) ++end;
    if (end - first < least_alike) end = first + 1;
    lines.push_back(harmless(line_for(said, first, end - 1), true));
    first = end;
  }
  return lines;
}

}  // namespace ordinatio
