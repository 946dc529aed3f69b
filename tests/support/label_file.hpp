// Label files: lines of music with the labels of a textbook or of this project, one
// example a row, tab separated, columns by the names in the first row that is not a
// comment: id, chords, notes, labels, and, where they matter, start_beat and meter.
//
// The codes: CT3 or CT:3 chord tone and its degree, T9 or T:9 tension, PT passing tone,
// NT neighbour tone, DN double neighbour, ENC enclosure, APR, INT or CAP approach tone,
// APP appoggiatura, ESC escape tone, PED pedal, OUT outside; ANT, SUS, RET chord tone of
// the next or the previous chord. A tail @next, @prev-sus, @prev-ret says the same of a
// chord tone whose degree is named. "T13|APP" names a second reading that is accepted.
#pragma once

#include "analyzer/analysis.hpp"

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
};

struct LabelledExample {
  std::string id;
  Solo solo;
  Harmony harmony;
  std::vector<std::string> codes;                      ///< as written, one a note
  std::vector<std::vector<ExpectedLabel>> acceptable;  ///< one a note, the preferred one first
};

/// Throws std::invalid_argument naming the row where something does not fit.
std::vector<LabelledExample> parse_label_file(std::string_view text);
std::vector<LabelledExample> read_label_file(const std::string& path);

bool agrees(const NoteLabel& label, const ExpectedLabel& expected);
/// True where one of the acceptable labels agrees.
bool agrees(const NoteLabel& label, const std::vector<ExpectedLabel>& acceptable);

/// "CT:3@next", "PT": the label in the codes above, for messages.
std::string code_of(const NoteLabel& label);

}  // namespace insideline::tests
