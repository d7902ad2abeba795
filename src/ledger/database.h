// SQLite as the ledger uses it: statements prepared once, and what goes wrong said as a Fault.
#pragma once

#include <map>
#include <memory>
#include <stdexcept>
#include <variant>

#include "base/base.h"

struct sqlite3;
struct sqlite3_stmt;

namespace ordinatio::inline ledger {

/// The disk, a lock or the file itself failed under the ledger. Nothing of the transaction remains.
class LedgerFailure : public std::runtime_error {
 public:
  explicit LedgerFailure(Fault fault) : std::runtime_error(describe(fault)), fault_(std::move(fault)) {}
  [[nodiscard]] const Fault& fault() const { return fault_; }

 private:
  Fault fault_;
};

class Database;

/// A prepared statement with its parameters bound. Rows come one at a time; columns count from 0.
class Statement {
 public:
  Statement(Database& database, const std::string& sql);
  ~Statement();
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;

  /// The next row, or false after the last.
  bool step();
  [[nodiscard]] std::int64_t number(int column) const;
  [[nodiscard]] double real(int column) const;
  [[nodiscard]] std::string text(int column) const;
  [[nodiscard]] bool is_null(int column) const;

  void clear();
  void bind(int parameter, std::int64_t value);
  void bind(int parameter, int value) { bind(parameter, std::int64_t{value}); }
  void bind(int parameter, double value);
  void bind(int parameter, std::string_view value);
  void bind(int parameter, const std::string& value) { bind(parameter, std::string_view(value)); }
  void bind(int parameter, const char* value) { bind(parameter, std::string_view(value)); }
  void bind(int parameter, const std::variant<std::int64_t, std::string>& value) {
    std::visit([this, parameter](const auto& held) { this->bind(parameter, held); }, value);
  }
  template <class T>
  void bind(int parameter, const std::optional<T>& value) {
    if (value) bind(parameter, *value);  // else it stays null
  }

 private:
  Database* database_;
  sqlite3_stmt* statement_ = nullptr;
};

class Database {
 public:
  enum class Access { read, write, create };
  /// vfs: SQLite's name of a file system; empty: the usual one.
  Database(const std::filesystem::path& file, Access access, const std::string& vfs);
  ~Database();
  Database(const Database&) = delete;
  Database& operator=(const Database&) = delete;

  /// The statement of that text with its parameters bound, before its first row. It is one object for one text: read
  /// all rows before the same text is asked for again.
  template <class... Values>
  Statement& query(const std::string& sql, const Values&... values) {
    Statement& statement = prepared(sql);
    int parameter = 0;
    (statement.bind(++parameter, values), ...);
    return statement;
  }
  /// Runs it for what it does.
  template <class... Values>
  void run(const std::string& sql, const Values&... values) {
    Statement& statement = query(sql, values...);
    while (statement.step()) {
    }
    statement.clear();
  }
  /// The first column of the first row.
  template <class... Values>
  std::optional<std::int64_t> number(const std::string& sql, const Values&... values) {
    Statement& statement = query(sql, values...);
    std::optional<std::int64_t> result;
    if (statement.step() && !statement.is_null(0)) result = statement.number(0);
    statement.clear();
    return result;
  }
  template <class... Values>
  std::optional<std::string> text(const std::string& sql, const Values&... values) {
    Statement& statement = query(sql, values...);
    std::optional<std::string> result;
    if (statement.step() && !statement.is_null(0)) result = statement.text(0);
    statement.clear();
    return result;
  }
  /// Several statements without parameters.
  void script(const std::string& sql);
  [[nodiscard]] std::int64_t last_row() const;
  [[nodiscard]] bool in_transaction() const;
  [[nodiscard]] const std::filesystem::path& file() const { return file_; }
  [[nodiscard]] sqlite3* handle() const { return handle_; }

 private:
  friend class Statement;
  Statement& prepared(const std::string& sql);
  [[noreturn]] void fail(int code) const;

  std::filesystem::path file_;
  sqlite3* handle_ = nullptr;
  std::map<std::string, std::unique_ptr<Statement>> statements_;
};

/// The work's result, or the Fault of a ledger that failed under it. Work: gives a Result or a MaybeFault.
template <class Work>
auto guarded(Work&& work) -> decltype(work()) {
  try {
    return work();
  } catch (const LedgerFailure& failure) {
    return failure.fault();
  }
}

}  // namespace ordinatio::inline ledger
