// What is printed: which sheet, on which paper, in which pitch, and which bars of the solo.
#pragma once

#include "analyzer/model/beats.hpp"
#include "analyzer/model/solo.hpp"
#include "reports/report.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>

namespace insideline::reports {

enum class SheetKind : std::uint8_t {
  annotated,  ///< everything that was found
  worksheet,  ///< blanks, and tasks
  key         ///< the worksheet with its answers
};
enum class Paper : std::uint8_t { a4, letter };
enum class PrintedPitch : std::uint8_t { concert, written };
enum class ChordRow : std::uint8_t { shown, left_out };

/// Bar numbers as `Bar::number`, both included.
struct BarRange {
  int first = 1;
  int last = 1;
};

struct HandoutOptions {
  SheetKind kind = SheetKind::annotated;
  Paper paper = Paper::a4;
  PrintedPitch pitch = PrintedPitch::concert;  ///< of a practice sheet; a report is in the pitch to be printed
  ChordRow chords = ChordRow::shown;
  std::optional<BarRange> bars = std::nullopt;  ///< none: the whole solo
};

/// The printed part of a solo. `first_bar` and `last_bar` are indices into Solo::bars.
struct Excerpt {
  std::size_t first_bar = 0;
  std::size_t last_bar = 0;
  Beats onset;
  Beats end;
};

/// None where the solo has no such bar; a range that reaches over an end is cut there.
std::optional<Excerpt> excerpt_of(const Solo& solo, const std::optional<BarRange>& bars);

/// A report with what is to be printed of it.
struct Sheet {
  const Report& report;
  HandoutOptions options;
  Excerpt excerpt;
};

/// Whether note `index` begins within the printed bars and is no grace note.
bool is_printed_note(const Sheet& sheet, std::size_t index);
/// The number of the bar in which note `index` begins.
int bar_of_note(const Sheet& sheet, std::size_t index);
/// What moves a sounding pitch to the printed one.
Interval to_printed_pitch(const Sheet& sheet);

}  // namespace insideline::reports
