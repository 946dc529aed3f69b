// Labels a line note by note: against which chord it is heard, what it is there
// and what it does. The labels of a phrase are found together, as one path
// through a chain of states (label_model.hpp) scored by one table (score_table.hpp).
#pragma once

#include "analyzer/analysis.hpp"

#include <span>
#include <string>
#include <vector>

namespace insideline {

/// One label a note, parallel to `solo.notes`. `phrases` are in order and do not overlap.
std::vector<NoteLabel> label_notes(const Solo& solo, const Harmony& harmony, std::span<const Phrase> phrases,
                                   const Settings& settings = {});

/// Every pin of `settings` that the labels leave out, in order: nobody can hear its note that way, or it does not go
/// with what is said of the note before. None where the solo is labelled as its listener says.
std::vector<PinFault> pin_faults(const Solo& solo, const Harmony& harmony, std::span<const Phrase> phrases,
                                 const Settings& settings);

/// One scored reason for or against a reading of a note.
struct ExplainedRow {
  std::string name;    ///< the row of the score table
  double value = 0.0;  ///< natural log units; above zero speaks for the reading
  std::string why;
};

/// One reading of a note with what speaks for and against it.
struct ExplainedReading {
  Role role = Role::chord_tone;
  Figure figure = Figure::root;
  Placement placement = Placement::in_place;
  std::optional<std::size_t> governor;
  std::optional<Degree> degree;
  double probability = 0.0;  ///< 0..1, all notes of the phrase considered
  std::vector<ExplainedRow> rows;
};

/// Every reading of note `note` that the model weighs, most likely first. Empty for
/// grace notes and under N.C. `note` must be an index into `solo.notes`.
std::vector<ExplainedReading> explain_note(const Solo& solo, const Harmony& harmony, std::span<const Phrase> phrases,
                                           std::size_t note, const Settings& settings = {});

}  // namespace insideline
