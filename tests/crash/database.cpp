#include "database.h"

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
std::string row_expression(Database& database, const std::string& table) {
  std::string expression;
  for (const std::string& column : database.rows("SELECT name FROM pragma_table_info('" + table + "')")) {
    expression += (expression.empty() ? "" : " || ',' || ") + ("quote(\"" + column + "\")");
  }
  return expression;
}

}  // namespace

Database::Database(const std::filesystem::path& file, const char* vfs) {
  if (sqlite3_open_v2(file.c_str(), &connection_, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, vfs) == SQLITE_OK) return;
  const std::string message = sqlite3_errmsg(connection_);
  sqlite3_close(connection_);
  throw std::runtime_error(message);
}

void Database::run(const std::string& statements) { rows(statements); }

std::vector<std::string> Database::rows(const std::string& statements) {
  std::vector<std::string> found;
  if (sqlite3_exec(connection_, statements.c_str(), gather_row, &found, nullptr) != SQLITE_OK) {
    throw std::runtime_error(sqlite3_errmsg(connection_));
  }
  return found;
}

std::vector<std::string> dump_book(const std::filesystem::path& file) {
  if (!std::filesystem::exists(file)) return {"no book"};
  Database database(file);
  const std::vector<std::string> verdict = database.rows("PRAGMA integrity_check; PRAGMA foreign_key_check");
  if (verdict != std::vector<std::string>{"ok"}) throw std::runtime_error("the book is not sound: " + verdict.front());
  std::vector<std::string> lines = database.rows(
      "PRAGMA user_version; PRAGMA application_id; "
      "SELECT type, name, sql FROM sqlite_schema ORDER BY name");
  for (const std::string& table : database.rows("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")) {
    const std::string row = row_expression(database, table);
    for (const std::string& text : database.rows("SELECT " + row + " FROM \"" + table + "\" ORDER BY 1")) {
      lines.push_back(table + ": " + text);
    }
  }
  return lines;
}

}  // namespace ordinatio::crash
