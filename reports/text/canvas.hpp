// Rows of text with an ink for each character, written at any column.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "reports/text/ink.hpp"

namespace insideline::reports {

class CanvasRow {
 public:
  CanvasRow() {
    constexpr std::size_t usual_columns = 80;
    written_.reserve(2 * usual_columns);
    cells_.reserve(usual_columns);
  }
  /// Writes `text` from `column` on, over what is there.
  void write(std::size_t column, std::string_view text, Ink ink = Ink::plain);
  [[nodiscard]] bool blank() const;
  /// Without spaces at its end and without a line feed.
  [[nodiscard]] std::string text(Colour colour) const;

 private:
  /// One column: a stretch of `written_`, empty in the second column of a wide character.
  struct Cell {
    std::size_t begin = 0;
    std::size_t length = 1;
    Ink ink = Ink::plain;
  };
  [[nodiscard]] std::string_view at(const Cell& cell) const;
  void add_mark(Cell& cell, std::string_view mark, std::size_t begin);

  std::string written_ = " ";  ///< the blank of untouched cells, then all texts
  std::vector<Cell> cells_;
};

}  // namespace insideline::reports
