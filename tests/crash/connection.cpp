#include "connection.h"

#include <stdexcept>

namespace ordinatio::crash {
namespace {

int gather_row(void* rows, int count, char** values, char**) {
  std::string row;
  for (int i = 0; i < count; ++i) row += (i > 0 ? "|" : "") + std::string(values[i] != nullptr ? values[i] : "");
  static_cast<std::vector<std::string>*>(rows)->push_back(row);
  return 0;
}

/// An expression that is a whole row as text.
std::string row_expression(Connection& connection, const std::string& table) {
  std::string expression;
  for (const std::string& column : connection.rows("SELECT name FROM pragma_table_info('" + table + "')")) {
    expression += (expression.empty() ? "" : " || ',' || ") + ("quote(\"" + column + "\")");
  }
  return expression;
}

}  // namespace

Connection::Connection(const std::filesystem::path& file, const char* vfs) {
  if (sqlite3_open_v2(file.c_str(), &handle_, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, vfs) == SQLITE_OK) return;
  const std::string message = sqlite3_errmsg(handle_);
  sqlite3_close(handle_);
  throw std::runtime_error(message);
}

void Connection::run(const std::string& statements) { rows(statements); }

std::vector<std::string> Connection::rows(const std::string& statements) {
  std::vector<std::string> found;
  if (sqlite3_exec(handle_, statements.c_str(), gather_row, &found, nullptr) != SQLITE_OK) {
    throw std::runtime_error(sqlite3_errmsg(handle_));
  }
  return found;
}

std::vector<std::string> dump_ledger(const std::filesystem::path& file) {
  if (!std::filesystem::exists(file)) return {"no ledger"};
  Connection connection(file);
  const std::vector<std::string> verdict = connection.rows("PRAGMA integrity_check; PRAGMA foreign_key_check");
  if (verdict != std::vector<std::string>{"ok"})
    throw std::runtime_error("the ledger is not sound: " + verdict.front());
  std::vector<std::string> lines = connection.rows(
      "PRAGMA user_version; PRAGMA application_id; "
      "SELECT type, name, sql FROM sqlite_schema ORDER BY name");
  for (const std::string& table :
       connection.rows("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")) {
    const std::string row = row_expression(connection, table);
    for (const std::string& text : connection.rows("SELECT " + row + " FROM \"" + table + "\" ORDER BY 1")) {
      lines.push_back(table + ": " + text);
    }
  }
  return lines;
}

}  // namespace ordinatio::crash
