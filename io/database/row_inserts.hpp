// Many rows into one table, some at a time: to begin and end a statement costs as much as a small row.
#pragma once

#include "io/database/statement.hpp"

#include <cstddef>
#include <string_view>

namespace insideline::io {

/// The values of one row, given from left to right.
class NewRow {
 public:
  NewRow(Statement& statement, int places_before) : statement_(statement), place_(places_before) {}

  template <typename Value>
  NewRow& add(const Value& value) {
    statement_.bind(++place_, value);
    return *this;
  }
  /// Without a copy: `text` must live until all rows are written.
  NewRow& add_lasting(std::string_view text) {
    statement_.bind_lasting(++place_, text);
    return *this;
  }

 private:
  Statement& statement_;
  int place_;
};

class RowInserts {
 public:
  static constexpr std::size_t at_a_time = 16;

  /// The connection must outlive it; the table must be there and have as many columns.
  RowInserts(Connection& connection, std::string_view table, int columns);

  /// Writes that many rows in order; `fill(row, i)` adds all values of the row `i`.
  template <typename Fill>
  void write(std::size_t rows, const Fill& fill) {
    std::size_t row = 0;
    for (; row + at_a_time <= rows; row += at_a_time) {
      for (std::size_t i = 0; i < at_a_time; ++i) fill(NewRow(some_, static_cast<int>(i) * columns_), row + i);
      some_.run();
    }
    for (; row < rows; ++row) {
      fill(NewRow(one_, 0), row);
      one_.run();
    }
  }

 private:
  int columns_;
  Statement one_;
  Statement some_;
};

}  // namespace insideline::io
