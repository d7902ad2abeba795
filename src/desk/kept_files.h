// In: a text for a file that people write themselves.
// Out: the file with it, whole or not at all, and the way back as long as the desk is open.
// Never: writes over what a person changed by hand meanwhile. Of this folder alone.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/account.h"
#include "base/base.h"

namespace ordinatio::inline desk {

inline constexpr std::size_t words_limit = 256UL
                                           << 10U;  // bytes of a file that the page shows: a form's share of a request

/// What was done and is in no ledger, with how it is taken back. Of long ago there is none.
class TakeBacks {
 public:
  using Act = std::function<Result<Account>()>;
  /// Answers the subject by which undo asks for it.
  std::string add(Act act);
  [[nodiscard]] bool knows(const std::string& subject) const;
  /// Once. Faults: those of the act, which may then be asked for again.
  Result<Account> run(const std::string& subject);

 private:
  std::vector<std::pair<std::string, Act>> acts_;  // the oldest first
  int count_ = 0;
};

/// The file's text, if it is the one that the page has read: digest is of that. Faults: it is another one now, it is more than
/// the page shows.
Result<std::string> read_kept(const std::filesystem::path& file, const std::optional<std::string>& digest = {});
/// Answers what undo takes. before: what the file was; nothing: there was none.
Result<std::string> write_kept(TakeBacks& take_backs, const std::filesystem::path& file,
                               const std::optional<std::string>& before, const std::string& text);

}  // namespace ordinatio::inline desk
