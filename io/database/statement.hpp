// SQLite, as far as we need it: a connection and its statements as values that clean up after themselves. Together with
// the other files of this folder the only place that knows SQLite.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

struct sqlite3;
struct sqlite3_stmt;

namespace insideline::io {

/// The database cannot be used. `what()` names its file, says why and what to do.
class DatabaseError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Reading makes no database, and brings an older one up to date.
enum class Access : std::uint8_t { read, write };

/// Waits a while for other programs that use the same file.
class Connection {
 public:
  /// Opens `file`, or makes it where it may be written; the empty name is a database that is gone at the end. Throws
  /// DatabaseError.
  explicit Connection(const std::string& file, Access access = Access::write);

  void run(const std::string& sql);
  /// The one number that `sql` asks for.
  std::int64_t number(const std::string& sql);
  /// Like `run`; false where another program is in the way.
  bool run_if_free(const std::string& sql);
  [[nodiscard]] sqlite3* handle() const { return handle_.get(); }
  [[nodiscard]] const std::string& name() const { return name_; }
  [[noreturn]] void fail() const;

 private:
  struct Close {
    void operator()(sqlite3* handle) const noexcept;
  };
  std::string name_;
  std::unique_ptr<sqlite3, Close> handle_;
};

/// A prepared statement. It keeps a reference to its connection, which must outlive it.
class Statement {
 public:
  Statement(Connection& connection, std::string_view sql);

  /// Values in order, the first is 1. Texts are copied.
  Statement& bind(int place, std::int64_t value);
  Statement& bind(int place, int value) { return bind(place, std::int64_t{value}); }
  Statement& bind(int place, std::size_t value) { return bind(place, static_cast<std::int64_t>(value)); }
  Statement& bind(int place, double value);
  Statement& bind(int place, std::string_view value);
  /// Without a copy: `value` must live until the statement was run.
  Statement& bind_lasting(int place, std::string_view value);
  Statement& bind_nothing(int place);
  template <typename Value>
  Statement& bind(int place, const std::optional<Value>& value) {
    return value ? bind(place, *value) : bind_nothing(place);
  }

  /// True while there is a row. At the end the statement is ready for other values.
  bool step();
  /// For what gives no rows.
  void run();

  [[nodiscard]] std::int64_t integer(int column) const;  ///< columns count from 0
  [[nodiscard]] double real(int column) const;
  [[nodiscard]] std::string text(int column) const { return std::string(text_here(column)); }
  /// Without a copy: only until the next step.
  [[nodiscard]] std::string_view text_here(int column) const;
  [[nodiscard]] bool is_nothing(int column) const;

 private:
  void check(int result) const;
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const noexcept;
  };
  Connection& connection_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

/// When others are kept from writing: from the beginning, or from the first time that something is written.
enum class Hold : std::uint8_t { at_once, when_needed };

/// All or nothing: what was done since is undone unless `commit` is reached. All that is read in between is of one
/// moment.
class Transaction {
 public:
  explicit Transaction(Connection& connection, Hold hold = Hold::at_once);
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction();
  void commit();

 private:
  Connection& connection_;
  bool open_ = true;
};

/// Work that is cheap to lose is committed a number of pieces at a time: a commit costs as much as a small piece.
/// Promise: a piece is kept whole or not at all; what was done when this ends is kept if it can be.
class Batch {
 public:
  explicit Batch(Connection& connection) : connection_(connection) {}
  Batch(const Batch&) = delete;
  Batch& operator=(const Batch&) = delete;
  ~Batch();

  /// Does a piece of work. Where `piece` throws, it and what was not committed before it is undone.
  template <typename Piece>
  void add(const Piece& piece) {
    begin();
    try {
      piece();
    } catch (...) {
      undo();
      throw;
    }
    end();
  }
  void commit();
  [[nodiscard]] bool is_open() const { return transaction_.has_value(); }

 private:
  void begin();
  void end();
  void undo() noexcept {
    transaction_.reset();
    pieces_ = 0;
  }

  Connection& connection_;
  std::optional<Transaction> transaction_;
  int pieces_ = 0;
};

}  // namespace insideline::io
