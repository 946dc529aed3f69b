#include "io/database/statement.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <cstddef>
#include <vector>

namespace insideline::io {
namespace {

/// What a person can do about it.
std::string remedy(int error) {
  switch (error & 0xff) {
    case SQLITE_NOTADB: return "it is no database; give another name";
    case SQLITE_BUSY:
    case SQLITE_LOCKED: return "another program is using it; wait for it to end";
    case SQLITE_FULL: return "the disk is full; make room and start again, what was stored is kept";
    case SQLITE_IOERR: return "the disk refuses; is it full? What was stored is kept";
    case SQLITE_CANTOPEN: return "it cannot be opened; check the folder and that you may write there";
    case SQLITE_READONLY: return "it may only be read; check that you may write there";
    case SQLITE_CORRUPT: return "it is damaged; start a new one";
    default: return "";
  }
}

constexpr int longest_wait_ms = 10'000;  // for another program; a take or a solo is written in some milliseconds

constexpr int page_bytes = 4096;
constexpr int cached_pages = 2048;  // the cache_size of a collection; each is touched when the cache is set up

/// Told to SQLite before it is used first. It counts the memory it uses under one lock for the whole program, and
/// nobody here asks for the count. Its cache is one block for all threads: pages taken from the heap of whichever
/// thread is at work would in time fill as many caches as there are threads.
bool set_up() {
  int header_bytes = 0;
  sqlite3_config(SQLITE_CONFIG_MEMSTATUS, 0);
  sqlite3_config(SQLITE_CONFIG_PCACHE_HDRSZ, &header_bytes);
  const int slot_bytes = page_bytes + header_bytes;
  static std::vector<std::byte> cache;
  cache.reserve(static_cast<std::size_t>(slot_bytes) * cached_pages);
  return sqlite3_config(SQLITE_CONFIG_PAGECACHE, cache.data(), slot_bytes, cached_pages) == SQLITE_OK;
}

}  // namespace

void Connection::Close::operator()(sqlite3* handle) const noexcept { sqlite3_close_v2(handle); }

Connection::Connection(const std::string& file, Access access) : name_(file.empty() ? "the temporary database" : file) {
  static const bool is_set_up = set_up();
  static_cast<void>(is_set_up);
  sqlite3* handle = nullptr;
  // The name could begin with "file:", which only means something to SQLite where SQLITE_OPEN_URI is set.
  // Read and write even for reading: after a program was killed in the middle, who comes next undoes its half step.
  const int making = access == Access::write ? SQLITE_OPEN_CREATE : 0;
  const int result =
      sqlite3_open_v2(file.c_str(), &handle, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX | making, nullptr);
  handle_.reset(handle);
  if (result != SQLITE_OK) fail();
  sqlite3_extended_result_codes(handle, 1);
  sqlite3_busy_timeout(handle, longest_wait_ms);
}

void Connection::fail() const {
  const int error = sqlite3_extended_errcode(handle_.get());
  const std::string help = remedy(error);
  throw DatabaseError(fmt::format("{}: {}{}{}", name_, sqlite3_errmsg(handle_.get()), help.empty() ? "" : ": ", help));
}

void Connection::run(const std::string& sql) {
  if (sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) fail();
}

bool Connection::run_if_free(const std::string& sql) {
  const int result = sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr) & 0xff;
  if (result == SQLITE_BUSY || result == SQLITE_LOCKED) return false;
  if (result != SQLITE_OK) fail();
  return true;
}

std::int64_t Connection::number(const std::string& sql) {
  Statement statement(*this, sql);
  return statement.step() ? statement.integer(0) : 0;
}

void Statement::Finalize::operator()(sqlite3_stmt* statement) const noexcept { sqlite3_finalize(statement); }

Statement::Statement(Connection& connection, std::string_view sql) : connection_(connection) {
  sqlite3_stmt* statement = nullptr;
  const int result = sqlite3_prepare_v3(connection.handle(), sql.data(), static_cast<int>(sql.size()),
                                        SQLITE_PREPARE_PERSISTENT, &statement, nullptr);
  statement_.reset(statement);
  check(result);
}

void Statement::check(int result) const {
  if (result != SQLITE_OK) connection_.fail();
}

Statement& Statement::bind(int place, std::int64_t value) {
  check(sqlite3_bind_int64(statement_.get(), place, value));
  return *this;
}

Statement& Statement::bind(int place, double value) {
  check(sqlite3_bind_double(statement_.get(), place, value));
  return *this;
}

Statement& Statement::bind(int place, std::string_view value) {
  check(sqlite3_bind_text64(statement_.get(), place, value.data() == nullptr ? "" : value.data(), value.size(),
                            SQLITE_TRANSIENT,  // NOLINT(cppcoreguidelines-pro-type-cstyle-cast): SQLite's own
                            SQLITE_UTF8));
  return *this;
}

Statement& Statement::bind_lasting(int place, std::string_view value) {
  check(sqlite3_bind_text64(statement_.get(), place, value.data() == nullptr ? "" : value.data(), value.size(),
                            SQLITE_STATIC, SQLITE_UTF8));
  return *this;
}

Statement& Statement::bind_nothing(int place) {
  check(sqlite3_bind_null(statement_.get(), place));
  return *this;
}

bool Statement::step() {
  const int result = sqlite3_step(statement_.get());
  if (result == SQLITE_ROW) return true;
  const int ended = sqlite3_reset(statement_.get());
  if (result != SQLITE_DONE) connection_.fail();
  check(ended);
  return false;
}

void Statement::run() {
  while (step()) {
  }
}

std::int64_t Statement::integer(int column) const { return sqlite3_column_int64(statement_.get(), column); }

double Statement::real(int column) const { return sqlite3_column_double(statement_.get(), column); }

std::string_view Statement::text_here(int column) const {
  const auto* bytes = static_cast<const char*>(sqlite3_column_blob(statement_.get(), column));
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column));
  return bytes == nullptr ? std::string_view{} : std::string_view(bytes, size);
}

bool Statement::is_nothing(int column) const { return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL; }

Transaction::Transaction(Connection& connection, Hold hold) : connection_(connection) {
  connection_.run(hold == Hold::at_once ? "BEGIN IMMEDIATE" : "BEGIN");
}

Transaction::~Transaction() {
  // Nothing can be done about a failure here: SQLite undoes the rest when the file is opened again.
  if (open_) sqlite3_exec(connection_.handle(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void Transaction::commit() {
  connection_.run("COMMIT");
  open_ = false;
}

Batch::~Batch() {
  try {
    commit();
  } catch (const DatabaseError&) {
    undo();  // who could be told has been told by what made the commit fail
  }
}

void Batch::begin() {
  if (!transaction_) transaction_.emplace(connection_);
}

void Batch::end() {
  constexpr int most_pieces = 20;
  if (++pieces_ >= most_pieces) commit();
}

void Batch::commit() {
  if (!transaction_) return;
  transaction_->commit();
  transaction_.reset();
  pieces_ = 0;
}

}  // namespace insideline::io
