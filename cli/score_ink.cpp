#include "cli/score_ink.hpp"

#include "analyzer/small_letters.hpp"
#include "io/abc/abc.hpp"
#include "io/midi/midi.hpp"
#include "io/musicxml/container_writer.hpp"
#include "io/read_result.hpp"
#include "reports/printed/signs.hpp"
#include "reports/tallies.hpp"
#include "reports/text/marks.hpp"

#include <algorithm>

namespace insideline::cli {
namespace {

/// Black is how heads are anyway.
std::string head_colour(Role role) {
  const std::string_view colour = reports::role_colour(role);
  return colour == "#000000" ? std::string() : std::string(colour);
}

std::string arpeggio_words(const Arpeggio& arpeggio) {
  std::string words(reports::way_of(arpeggio));
  for (std::size_t i = 0; i < arpeggio.degrees.size(); ++i)
    words.append(i == 0 ? " " : "-").append(to_string(arpeggio.degrees[i]));
  return words;
}

/// The notes from the first member of the arpeggio to its last, ornaments among them.
io::BracketInk bracket_over(std::span<const Arpeggio> arpeggios, std::size_t index, const Solo& solo) {
  const Arpeggio& arpeggio = arpeggios[index];
  std::vector<std::size_t> notes = arpeggio.notes;
  notes.insert(notes.end(), arpeggio.ornaments.begin(), arpeggio.ornaments.end());
  const auto [first, last] = std::ranges::minmax_element(notes);
  io::BracketInk bracket{{}, arpeggio_words(arpeggio)};
  // One bracket cannot end on the note where the next begins.
  const std::size_t begin = *first + (reports::shares_first_note(arpeggios, index) ? 1 : 0);
  for (std::size_t note = begin; note <= *last; ++note) bracket.elements.push_back(solo.notes[note].place.element);
  return bracket;
}

/// The chords as the part's player reads them, with N.C. where they stop.
void add_chords(io::ScoreInk& ink, const reports::Report& report) {
  const auto& chords = report.analysis.harmony.chords;
  for (std::size_t i = 0; i < chords.size(); ++i) {
    const Chord written = transposed(chords[i].chord, -report.solo.sounding_minus_written);
    ink.chords.push_back({chords[i].onset, musicxml_from_chord(written)});
    const Beats end = chords[i].onset + chords[i].duration;
    const Beats next = i + 1 < chords.size() ? chords[i + 1].onset : end_of(report.solo);
    if (end >= next) continue;
    MusicxmlChord none;
    none.kind = "none";
    none.text = "N.C.";
    ink.chords.push_back({end, none});
  }
  for (const Bar& bar : report.solo.bars) ink.bars.push_back(bar.onset);
}

bool ends_in_mxl(std::string_view name) {
  constexpr std::string_view ending = ".mxl";
  return name.size() >= ending.size() && same_but_for_capitals(name.substr(name.size() - ending.size()), ending);
}

}  // namespace

io::ScoreInk score_ink(const reports::Report& report) {
  io::ScoreInk ink;
  std::string of_grace_notes;  // engravers that count syllables give a grace note none: all later ones would slip
  for (std::size_t i = 0; i < report.solo.notes.size(); ++i) {
    const NoteLabel& label = report.analysis.labels[i];
    const Note& note = report.solo.notes[i];
    const std::string degree = of_grace_notes + reports::degree_mark(label);
    of_grace_notes = note.grace ? degree + " " : "";
    ink.notes.push_back(
        {note.place.element, note.grace ? "" : degree, head_colour(label.role), note.onset, note.place.position});
  }
  for (std::size_t i = 0; i < report.analysis.arpeggios.size(); ++i)
    ink.brackets.push_back(bracket_over(report.analysis.arpeggios, i, report.solo));
  return ink;
}

std::string annotated_file(const reports::Report& report, std::string_view solo_bytes, std::string_view destination,
                           ChordInkWanted chords) {
  const std::string& name = report.source.solo_file;
  if (io::is_midi(solo_bytes))
    throw io::ReadError(io::place_of(name),
                        "a MIDI file has no page to write labels on; --annotated needs a MusicXML score");
  if (io::is_abc(solo_bytes, name))
    throw io::ReadError(io::place_of(name),
                        "a tune in ABC has no page to write labels on; --annotated needs a MusicXML score");
  io::ScoreInk ink = score_ink(report);
  if (chords == ChordInkWanted::from_changes_file && report.source.changes_file != "in score") add_chords(ink, report);
  std::string score = io::annotated_score(solo_bytes, name, ink);
  return ends_in_mxl(destination) ? io::packed_score(score, solo_bytes, name) : score;
}

}  // namespace insideline::cli
