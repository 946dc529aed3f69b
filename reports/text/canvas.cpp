#include "reports/text/canvas.hpp"

#include <algorithm>

#include "reports/text/display_width.hpp"

namespace insideline::reports {

std::string_view CanvasRow::at(const Cell& cell) const {
  return std::string_view(written_).substr(cell.begin, cell.length);
}

/// A character without a width of its own, which stands at `begin` of `written_`, goes on top of another.
void CanvasRow::add_mark(Cell& cell, std::string_view mark, std::size_t begin) {
  if (cell.begin + cell.length != begin) {
    const std::string both = std::string(at(cell)).append(mark);
    cell.begin = written_.size();
    cell.length = both.size() - mark.size();
    written_ += both;
  }
  cell.length += mark.size();
}

void CanvasRow::write(std::size_t column, std::string_view text, Ink ink) {
  cells_.resize(std::max(cells_.size(), column + display_width(text)));
  std::size_t begin = written_.size();
  written_ += text;
  while (!text.empty()) {
    const std::string_view character = first_character(text);
    const std::size_t width = character_width(character);
    if (width == 0) {
      if (column > 0) add_mark(cells_[column - 1], character, begin);
    } else {
      cells_[column] = {begin, character.size(), ink};
      if (width == 2) cells_[column + 1] = {begin, 0, ink};
      column += width;
    }
    begin += character.size();
    text.remove_prefix(character.size());
  }
}

bool CanvasRow::blank() const {
  return std::ranges::all_of(cells_, [this](const Cell& cell) { return at(cell) == " "; });
}

std::string CanvasRow::text(Colour colour) const {
  std::size_t end = cells_.size();
  while (end > 0 && at(cells_[end - 1]) == " ") --end;
  std::string line;
  std::string run;
  for (std::size_t from = 0; from < end;) {
    run.clear();
    const Ink ink = cells_[from].ink;
    for (; from < end && cells_[from].ink == ink; ++from) {
      const Cell& cell = cells_[from];
      if (cell.length == 1)
        run += written_[cell.begin];
      else
        run += at(cell);
    }
    line += painted(run, ink, colour);
  }
  return line;
}

}  // namespace insideline::reports
