#include "io/database/row_inserts.hpp"

#include <fmt/format.h>

#include <string>
#include <vector>

namespace insideline::io {
namespace {

std::string insertion(std::string_view table, int columns, std::size_t rows) {
  const std::vector<std::string_view> places(static_cast<std::size_t>(columns), "?");
  const std::vector<std::string> values(rows, fmt::format("({})", fmt::join(places, ", ")));
  return fmt::format("INSERT INTO {} VALUES {}", table, fmt::join(values, ", "));
}

}  // namespace

RowInserts::RowInserts(Connection& connection, std::string_view table, int columns)
    : columns_(columns),
      one_(connection, insertion(table, columns, 1)),
      some_(connection, insertion(table, columns, at_a_time)) {}

}  // namespace insideline::io
