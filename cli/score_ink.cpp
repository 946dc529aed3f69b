#include "cli/score_ink.hpp"

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

bool ends_in_mxl(std::string_view name) {
  constexpr std::string_view ending = ".mxl";
  if (name.size() < ending.size()) return false;
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; };
  return std::ranges::equal(name.substr(name.size() - ending.size()), ending, {}, lower);
}

}  // namespace

io::ScoreInk score_ink(const reports::Report& report) {
  io::ScoreInk ink;
  for (std::size_t i = 0; i < report.solo.notes.size(); ++i) {
    const NoteLabel& label = report.analysis.labels[i];
    ink.notes.push_back({report.solo.notes[i].place.element, reports::degree_mark(label), head_colour(label.role)});
  }
  for (std::size_t i = 0; i < report.analysis.arpeggios.size(); ++i)
    ink.brackets.push_back(bracket_over(report.analysis.arpeggios, i, report.solo));
  return ink;
}

std::string annotated_file(const reports::Report& report, std::string_view solo_bytes, std::string_view destination) {
  const std::string& name = report.source.solo_file;
  if (io::is_midi(solo_bytes))
    throw io::ReadError(io::place_of(name),
                        "a MIDI file has no page to write labels on; --annotated needs a MusicXML score");
  if (io::is_abc(solo_bytes, name))
    throw io::ReadError(io::place_of(name),
                        "a tune in ABC has no page to write labels on; --annotated needs a MusicXML score");
  std::string score = io::annotated_score(solo_bytes, name, score_ink(report));
  return ends_in_mxl(destination) ? io::packed_score(score, solo_bytes, name) : score;
}

}  // namespace insideline::cli
