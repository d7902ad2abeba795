#include "ledger/database.h"

#include <sqlite3.h>

namespace ordinatio::inline ledger {
namespace {

constexpr int busy_milliseconds = 5'000;  // for a reader of another program; commands wait for each other by the lock

struct Meaning {
  std::string what, mend;
  Fault::Cause cause;
};

Meaning meaning_of(int code) {
  using enum Fault::Cause;
  switch (code & 0xFF) {
    case SQLITE_FULL:
      return {"the ledger cannot be written: the disk is full",
              "Make room on the disk and run the command again; nothing is lost", machine};
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_AUTH:
      return {"the ledger cannot be written", "Give yourself the right to its file and folder; nothing is lost",
              machine};
    case SQLITE_CANTOPEN:
      return {"the ledger cannot be opened", "Check its folder and the rights to it; nothing is lost", machine};
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {"another program holds the ledger", "Close it there and run the command again; nothing is lost", machine};
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return {"the ledger is damaged", "Keep the damaged file aside and put the last backup in its place", input};
    default:
      return {"the ledger's file failed", "Check the disk and run the command again; nothing is lost", machine};
  }
}

}  // namespace

void Database::fail(int code) const {
  const std::string why = handle_ != nullptr ? sqlite3_errmsg(handle_) : sqlite3_errstr(code);
  if ((code & 0xFF) == SQLITE_CONSTRAINT || (code & 0xFF) == SQLITE_ERROR || (code & 0xFF) == SQLITE_MISUSE) {
    throw std::logic_error("the ledger refused a change: " + why);
  }
  Meaning meaning = meaning_of(code);
  throw LedgerFailure({std::move(meaning.what), file_.string(), why, std::move(meaning.mend), meaning.cause});
}

Database::Database(const std::filesystem::path& file, Access access, const std::string& vfs) : file_(file) {
  const int flags = access == Access::read    ? SQLITE_OPEN_READONLY
                    : access == Access::write ? SQLITE_OPEN_READWRITE
                                              : SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
  const int code = sqlite3_open_v2(file.c_str(), &handle_, flags, vfs.empty() ? nullptr : vfs.c_str());
  if (code != SQLITE_OK) {
    const Meaning meaning = meaning_of(code);
    const std::string why = handle_ != nullptr ? sqlite3_errmsg(handle_) : sqlite3_errstr(code);
    sqlite3_close(handle_);
    throw LedgerFailure({meaning.what, file.string(), why, meaning.mend, meaning.cause});
  }
  sqlite3_extended_result_codes(handle_, 1);
  sqlite3_busy_timeout(handle_, busy_milliseconds);
}

Database::~Database() {
  statements_.clear();
  if (in_transaction()) sqlite3_exec(handle_, "ROLLBACK", nullptr, nullptr, nullptr);
  sqlite3_close(handle_);
}

Statement& Database::prepared(const std::string& sql) {
  auto& statement = statements_[sql];
  if (!statement) {
    try {
      statement = std::make_unique<Statement>(*this, sql);
    } catch (...) {
      statements_.erase(sql);
      throw;
    }
  }
  statement->clear();
  return *statement;
}

void Database::script(const std::string& sql) {
  const int code = sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, nullptr);
  if (code != SQLITE_OK) fail(code);
}

std::int64_t Database::last_row() const { return sqlite3_last_insert_rowid(handle_); }
bool Database::in_transaction() const { return sqlite3_get_autocommit(handle_) == 0; }

Statement::Statement(Database& database, const std::string& sql) : database_(&database) {
  const int code =
      sqlite3_prepare_v2(database.handle_, sql.c_str(), static_cast<int>(sql.size()), &statement_, nullptr);
  if (code != SQLITE_OK) database.fail(code);
}
Statement::~Statement() { sqlite3_finalize(statement_); }

bool Statement::step() {
  const int code = sqlite3_step(statement_);
  if (code == SQLITE_ROW) return true;
  if (code == SQLITE_DONE) return false;
  sqlite3_reset(statement_);
  database_->fail(code);
}

void Statement::clear() {
  sqlite3_reset(statement_);
  sqlite3_clear_bindings(statement_);
}

std::int64_t Statement::number(int column) const { return sqlite3_column_int64(statement_, column); }
double Statement::real(int column) const { return sqlite3_column_double(statement_, column); }
std::string Statement::text(int column) const {
  const auto* bytes = reinterpret_cast<const char*>(sqlite3_column_text(statement_, column));
  return bytes == nullptr ? std::string()
                          : std::string(bytes, static_cast<std::size_t>(sqlite3_column_bytes(statement_, column)));
}
bool Statement::is_null(int column) const { return sqlite3_column_type(statement_, column) == SQLITE_NULL; }

void Statement::bind(int parameter, std::int64_t value) { sqlite3_bind_int64(statement_, parameter, value); }
void Statement::bind(int parameter, double value) { sqlite3_bind_double(statement_, parameter, value); }
void Statement::bind(int parameter, std::string_view value) {
  // A view without bytes would bind as null.
  const char* bytes = value.data() == nullptr ? "" : value.data();
  sqlite3_bind_text(statement_, parameter, bytes, static_cast<int>(value.size()), SQLITE_TRANSIENT);
}

}  // namespace ordinatio::inline ledger
