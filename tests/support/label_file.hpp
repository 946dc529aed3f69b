// Label files: lines of music with the labels of a textbook or of this project, one
// example a row, tab separated, columns by the names in the first row that is not a
// comment: id, chords, notes, labels, and, where they matter, start_beat and meter;
// labels_2 is a second reading of the same notes, phrase_ends and phrase_ends_2 name the
// last notes of phrases, counted from 1: "3,16".
//
// The codes: CT3 or CT:3 chord tone and its degree, T9 or T:9 tension, PT passing tone,
// NT neighbour tone, DN double neighbour, ENC enclosure, APR, INT or CAP approach tone,
// APP appoggiatura, ESC escape tone, PED pedal, OUT outside, NC no chord; ANT, SUS, RET
// chord tone of the next or the previous chord. A tail @next, @prev-sus, @prev-ret says
// the same of a chord tone whose degree is named. CT and T alone leave the degree open, and
// CT@next, CT@prev only say which chord. "T13|APP" names a second reading that is accepted,
// "T13|APP=60" that the first is sure to 60 of 100. "-" is a note that nobody was asked about.
#pragma once

#include "analyzer/analysis.hpp"
#include "analyzer/labels/reading.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::tests {

/// One acceptable label of one note. What the code leaves open is not compared.
struct ExpectedLabel {
  Role role = Role::chord_tone;
  std::optional<Figure> figure;
  std::optional<Degree> degree;
  std::optional<Placement> placement;
  std::optional<Against> against;  ///< where only the chord is said
};

/// What one reader says of one note: the readings accepted, the preferred one first. Empty for a note not asked about.
struct ReadNote {
  std::vector<ExpectedLabel> acceptable;
  std::optional<double> sure;  ///< of the first reading, 0..1
};

/// One reader's labels of a line.
struct Reader {
  std::vector<std::string> codes;  ///< as written, one a note
  std::vector<ReadNote> notes;
  std::vector<std::size_t> phrase_ends;  ///< indices of notes
};

struct LabelledExample {
  std::string id;
  Solo solo;
  Harmony harmony;
  std::vector<std::string> codes;                      ///< of the first reader
  std::vector<std::vector<ExpectedLabel>> acceptable;  ///< of the first reader, one a note, the preferred one first
  std::vector<Reader> readers;                         ///< one or two
};

/// Throws std::invalid_argument that names file, line and example where something does not fit.
std::vector<LabelledExample> parse_label_file(std::string_view text, std::string_view file_name = "label file");
std::vector<LabelledExample> read_label_file(const std::string& path);

bool agrees(const NoteLabel& label, const ExpectedLabel& expected);
/// True where one of the acceptable labels agrees.
bool agrees(const NoteLabel& label, const std::vector<ExpectedLabel>& acceptable);

/// "CT:3@next", "PT": the label in the codes above, for messages.
std::string code_of(const NoteLabel& label);

}  // namespace insideline::tests
