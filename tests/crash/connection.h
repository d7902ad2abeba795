// SQLite as tests need it: statements and their rows as text, and a whole ledger as text.
#pragma once

#include <sqlite3.h>

#include <filesystem>
#include <string>
#include <vector>

namespace ordinatio::crash {

/// A connection. Its functions throw std::runtime_error with SQLite's message.
class Connection {
 public:
  explicit Connection(const std::filesystem::path& file, const char* vfs = nullptr);
  ~Connection() { sqlite3_close(handle_); }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  void run(const std::string& statements);
  /// The rows that statements give: values as text, parted by "|"; NULL is nothing.
  std::vector<std::string> rows(const std::string& statements);

 private:
  sqlite3* handle_ = nullptr;
};

/// Every table with its rows, sorted, the schema, user_version and application_id: equal for ledgers that say the same, however
/// their pages lie. Rolls back what a killed run left half done. Throws std::runtime_error where the ledger is not sound.
std::vector<std::string> dump_ledger(const std::filesystem::path& file);

}  // namespace ordinatio::crash
