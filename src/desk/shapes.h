// What the program knows, in the shapes of shapes.json: that file says what page and desk say to each other, and a test holds
// every answer to it. Of this folder alone.
#pragma once

#include <nlohmann/json.hpp>

#include "base/account.h"
#include "design/setting_wish.h"
#include "desk/background.h"
#include "desk/exchange.h"
#include "ledger/ledger.h"
#include "shop/trial.h"

namespace ordinatio::inline desk {

using Json = nlohmann::ordered_json;

// ---- answers ----
Json shape_of(const Fault& fault);
Json shape_of(const Account& account);
Json shape_of(const HeldItem& held);
Json shape_of(const Background::State& state);
Json shape_of(const Tried& tried, const std::string& piece);
Json shape_of(const SettingWish& wish);
/// The item with the sheet that it is on and its piece; to_come: the piece that it would have if it has none yet.
Json shape_of(const LedgerItem& item, Ledger& ledger, const std::string& to_come);
Json shape_of(const std::vector<StoryLine>& story);

Response answer_of(const Json& answer);
Response answer_of(const Fault& fault);
/// @done; undo: what takes it back, where something does.
Response answer_of(const Result<Account>& account, const std::string& undo = "");
/// A mend without the part that says what to type on a terminal.
std::string without_commands(std::string text);

// ---- asks ----
/// What a request's body asks: an object of texts, numbers, flags and lists of texts.
class Ask {
 public:
  /// Faults: no JSON, no object, nested deeper than a list.
  static Result<Ask> read(const std::string& body);
  /// What is absent or of another kind is empty.
  [[nodiscard]] std::string text(const char* name) const;
  [[nodiscard]] std::optional<std::string> text_if_there(const char* name) const;
  [[nodiscard]] std::vector<std::string> texts(const char* name) const;
  [[nodiscard]] bool flag(const char* name) const;
  [[nodiscard]] std::optional<double> number(const char* name) const;
  /// @wish
  [[nodiscard]] SettingWish wish() const;

 private:
  explicit Ask(Json json) : json_(std::move(json)) {}
  Json json_;
};

}  // namespace ordinatio::inline desk
