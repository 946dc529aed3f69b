// What is printed: which sheet, on which paper, in which pitch, and which bars of the solo.
#pragma once

#include "analyzer/model/beats.hpp"
#include "analyzer/model/solo.hpp"
#include "reports/report.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace insideline::reports {

enum class SheetKind : std::uint8_t {
  annotated,  ///< everything that was found
  worksheet,  ///< blanks, and tasks
  key         ///< the worksheet with its answers
};
enum class Paper : std::uint8_t { a4, letter };
enum class PrintedPitch : std::uint8_t { concert, written };
enum class ChordRow : std::uint8_t { shown, left_out };

/// What an annotated sheet can be about.
enum class Topic : std::uint8_t { degrees, arpeggios, connections, guide_tones, tensions, non_chord_tones, outside };

/// An empty staff to write on.
enum class AnswerStaff : std::uint8_t { none, under_each_line, at_the_end };

/// A line of a teacher's own list of tasks: one of ours by its name, or an instruction with the answer, which may be
/// empty.
struct OwnTask {
  std::string named;
  std::string instruction;
  std::string answer;
};

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
  std::set<Topic> topics = {};                  ///< none: everything
  std::vector<OwnTask> tasks = {};              ///< none: chosen from what is in the solo
  AnswerStaff answer_staff = AnswerStaff::none;
  bool one_page = false;
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

/// Bars with the beats in them where `notes` begin: "3 (1), 5 (2, 4&)".
std::string places_text(const Sheet& sheet, const std::vector<std::size_t>& notes);

}  // namespace insideline::reports
