#include "shop/told_languages.h"

#include <algorithm>

#include "ledger/ledger.h"

namespace ordinatio::inline shop {
namespace {

bool is_ascii(std::string_view text) {
  return std::ranges::all_of(text, [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

/// The votes of a file's texts, by order.
class FileVotes {
 public:
  explicit FileVotes(const Workroom& workroom) : cleaning_(workroom.cleaning()) {}

  /// What a row says: its words, and what stands beside them. Both are evidence; a note most of all, which is longer.
  void add(const std::string& order, std::string_view words, std::string_view note, std::string_view customer) {
    LanguageVotes& votes = orders_[order];
    votes.add(vote(words));
    for (const std::string_view beside : {note, customer}) votes.add(vote_of({std::string(beside)}));
  }
  /// Every order counts once, however many pieces it is for.
  void count() {
    for (const auto& [number, votes] : orders_) {
      for (const auto writing : {LanguageVote::Writing::east_asian, LanguageVote::Writing::arabic})
        all_.add(votes.together(writing));
    }
  }
  [[nodiscard]] ToldLanguage told(const Order& order, const Shop& shop) const {
    const auto own_order = orders_.find(order.number);
    return settled(vote(order.text), own_order == orders_.end() ? LanguageVotes() : own_order->second, all_,
                   shop.language);
  }

 private:
  [[nodiscard]] LanguageVote vote(std::string_view words) const {
    if (is_ascii(words) && words.find('&') == std::string_view::npos)
      return {};  // most are, and entities are spelled by &
    const Result<Inscription> cleaned = clean_inscription(words, cleaning_);
    return vote_of(cleaned.ok() ? cleaned->lines : std::vector<std::string>{std::string(words)});
  }

  CleaningRules cleaning_;
  std::map<std::string, LanguageVotes> orders_;
  LanguageVotes all_;
};

}  // namespace

void tell_languages(std::vector<Order>& orders, const Workroom& workroom) {
  FileVotes votes(workroom);
  for (const Order& order : orders) votes.add(order.number, order.text, order.note, order.customer);
  votes.count();
  for (Order& order : orders) order.told = votes.told(order, workroom.shop());
}

void tell_languages(std::vector<Order>& orders, Ledger& ledger, const Workroom& workroom) {
  std::map<std::int64_t, FileVotes> files;  // by the entry that took it in
  for (Order& order : orders) {
    const auto item = ledger.item_numbered(item_id(order, 1));
    if (!item) continue;
    const std::int64_t entry = ledger.entry_of(*item);
    const auto [file, is_new] = files.try_emplace(entry, workroom);
    if (is_new) {
      for (const LedgerItem& one : ledger.items_taken_in_by(entry))
        file->second.add(one.order_number, one.exported, one.note, one.customer);
      file->second.count();
    }
    order.told = file->second.told(order, workroom.shop());
  }
}

}  // namespace ordinatio::inline shop
