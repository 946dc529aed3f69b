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
  /// Writes `text` from `column` on, over what is there.
  void write(std::size_t column, std::string_view text, Ink ink = Ink::plain);
  [[nodiscard]] bool blank() const;
  /// Without spaces at its end and without a line feed.
  [[nodiscard]] std::string text(Colour colour) const;

 private:
  struct Cell {
    std::string character = " ";  ///< empty in the second column of a wide character
    Ink ink = Ink::plain;
  };
  std::vector<Cell> cells_;
};

}  // namespace insideline::reports
