// What customers wrote to the maker, said where the maker looks.
#pragma once

#include <map>

#include "base/account.h"

namespace ordinatio::inline intake {

/// Notes of many items, each note of an order once.
class CustomerNotes {
 public:
  /// item: its number.
  void add(const std::string& order, const std::string& item, const std::string& note);
  /// Among what is worth a look.
  void tell(Account& account) const;

 private:
  struct Note {
    std::string order, note, first_item;
    std::size_t more = 0;  // items
  };
  std::vector<Note> notes_;
  std::map<std::pair<std::string, std::string>, std::size_t> known_;  // order and note → place in notes_
};

}  // namespace ordinatio::inline intake
