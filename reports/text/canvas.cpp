#include "reports/text/canvas.hpp"

#include <algorithm>

#include "reports/text/display_width.hpp"

namespace insideline::reports {

void CanvasRow::write(std::size_t column, std::string_view text, Ink ink) {
  cells_.resize(std::max(cells_.size(), column + display_width(text)));
  while (!text.empty()) {
    const std::string_view character = first_character(text);
    const std::size_t width = character_width(character);
    if (width == 0) {
      if (column > 0) cells_[column - 1].character += character;
    } else {
      cells_[column].character.assign(character);
      cells_[column].ink = ink;
      if (width == 2) cells_[column + 1] = {"", ink};
      column += width;
    }
    text.remove_prefix(character.size());
  }
}

bool CanvasRow::blank() const {
  return std::ranges::all_of(cells_, [](const Cell& cell) { return cell.character == " "; });
}

std::string CanvasRow::text(Colour colour) const {
  std::size_t end = cells_.size();
  while (end > 0 && cells_[end - 1].character == " ") --end;
  std::string line;
  for (std::size_t from = 0; from < end;) {
    std::string run;
    const Ink ink = cells_[from].ink;
    for (; from < end && cells_[from].ink == ink; ++from) run += cells_[from].character;
    line += painted(run, ink, colour);
  }
  return line;
}

}  // namespace insideline::reports
