#include "tests/reports/sample_report.hpp"

#include "tests/support/melody.hpp"

namespace insideline::tests {
namespace {

NoteLabel label(std::size_t chord, Degree degree, Role role, Figure figure) {
  NoteLabel result;
  result.chord = chord;
  result.governor = chord;
  result.degree = degree;
  result.role = role;
  result.figure = figure;
  result.confidence = 0.98;
  result.reason = "a " + to_string(figure) + ", \"by hand\"";
  return result;
}

std::vector<NoteLabel> sample_labels() {
  std::vector<NoteLabel> labels = {
      label(0, {1, 0}, Role::chord_tone, Figure::root),
      label(0, {3, -1}, Role::chord_tone, Figure::third),
      label(0, {5, 0}, Role::chord_tone, Figure::fifth),
      label(0, {7, -1}, Role::chord_tone, Figure::seventh),
      label(0, {9, 0}, Role::tension, Figure::ninth),
      label(0, {1, 0}, Role::chord_tone, Figure::root),
      label(0, {7, 0}, Role::non_chord_tone, Figure::passing_tone),
      label(1, {3, 0}, Role::chord_tone, Figure::third),
      label(1, {7, -1}, Role::chord_tone, Figure::seventh),
      label(1, {9, 0}, Role::tension, Figure::ninth),
      label(1, {3, 0}, Role::chord_tone, Figure::third),
      label(2, {3, -1}, Role::non_chord_tone, Figure::approach_tone),
      label(2, {9, 0}, Role::outside, Figure::unexplained),
  };
  labels[6].resolves_to = 7;
  labels[6].confidence = 0.8712345678;
  labels[6].alternatives = {{Role::non_chord_tone, Figure::approach_tone, 0, 0.1}};
  labels[10].governor = 2;
  labels[10].placement = Placement::anticipation;
  return labels;
}

Arpeggio sample_arpeggio() {
  Arpeggio arpeggio;
  arpeggio.notes = {0, 1, 2, 3};
  arpeggio.degrees = {{1, 0}, {3, -1}, {5, 0}, {7, -1}};
  arpeggio.legs = {{.first = 0, .last = 3, .direction = Direction::ascending}};
  arpeggio.direction = Direction::ascending;
  arpeggio.complete = true;
  arpeggio.spells = "Dm7";
  arpeggio.span_semitones = 10;
  return arpeggio;
}

std::vector<Connection> sample_connections() {
  Connection into_g7;
  into_g7.to_chord = 1;
  into_g7.from_note = 6;
  into_g7.to_note = 7;
  into_g7.from_degree = Degree{7, 0};
  into_g7.to_degree = Degree{3, 0};
  into_g7.semitones = -2;
  into_g7.kind = ConnectionKind::whole_step;
  into_g7.guide_tone = true;
  into_g7.nearest_up = Pitch{{Step::d, 0}, 5};
  into_g7.nearest_down = Pitch{{Step::b, 0}, 4};
  into_g7.took_nearest = true;
  Connection into_c;
  into_c.from_chord = 1;
  into_c.to_chord = 2;
  return {into_g7, into_c};
}

/// Every kind of connection is there, as the analysis has it.
std::map<ConnectionKind, int> no_connections() {
  return {{ConnectionKind::common_tone, 0}, {ConnectionKind::half_step, 0}, {ConnectionKind::whole_step, 0},
          {ConnectionKind::third, 0},       {ConnectionKind::leap, 0},      {ConnectionKind::none, 0}};
}

Summary sample_summary() {
  Summary summary;
  summary.notes = 12;
  summary.chord_tones = 8;
  summary.tensions = 2;
  summary.non_chord_tones = 1;
  summary.outside = 1;
  summary.grace_notes = 1;
  summary.chord_tone_share = {8, 12};
  summary.chord_tone_share_strict = {7, 12};
  summary.chord_tone_share_by_duration = 0.75;
  summary.chord_tone_share_by_duration_strict = 0.5;
  summary.chord_tone_share_on_beat = {5, 6};
  summary.chord_tone_share_off_beat = {3, 6};
  summary.arpeggio_share = {4, 12};
  summary.arpeggio_share_by_duration = 0.25;
  summary.arpeggios = 1;
  summary.arpeggios_ascending = 1;
  summary.connections = 2;
  summary.connections_by_kind = no_connections();
  summary.connections_by_kind[ConnectionKind::whole_step] = 1;
  summary.connections_by_kind[ConnectionKind::none] = 1;
  summary.nearest_taken_share = {1, 1};
  summary.guide_tone_resolutions = {1, 1};
  summary.figures = {{Figure::root, 2}, {Figure::passing_tone, 1}, {Figure::unexplained, 1}};
  summary.placements = {{Placement::in_place, 11}, {Placement::anticipation, 1}};
  summary.chance = {.shifts = 2, .actual = 7.0 / 12.0, .mean = 0.375, .p_value = 1.0 / 3.0, .values = {0.5, 0.25}};
  return summary;
}

}  // namespace

reports::Report sample_report() {
  reports::Report report;
  report.source.solo_file = "sample.musicxml";
  report.source.changes_file = "sample.changes";
  report.source.changes_title = "Three Bars";
  report.solo = solo_from(
      "D4:1/2 F4:1/2 A4:1/2 C5:1/2 E5:1 D5:1/2 Db5:1/2 "
      "B4:1 r:1 F4:1/2 A4:1 E4:1/2 "
      "E4~:2 Eb4:0 D4:2");
  report.solo.title = "Sample";
  report.solo.part = "Alto Sax";
  report.solo.sounding_minus_written = {-5, -9};
  for (Note& note : report.solo.notes) note.written = transposed(note.pitch, {5, 9});
  report.analysis.harmony = harmony_from("Dm7@0 G7@4 Cmaj7@8", report.solo);
  report.analysis.labels = sample_labels();
  report.analysis.arpeggios = {sample_arpeggio()};
  report.analysis.connections = sample_connections();
  report.analysis.summary = sample_summary();
  report.analysis.phrases = {{0, 12}};
  report.analysis.telling_bars = {{.bar = 1, .first_note = 0, .last_note = 6, .why = "Straight up the chord."}};
  report.warnings = {"sample.musicxml:7: something odd"};
  return report;
}

reports::Report report_without_chords() {
  reports::Report report;
  report.source.solo_file = "free.musicxml";
  report.source.changes_file = "in score";
  report.solo = solo_from("C4:4");
  NoteLabel label;
  label.reason = "no chord sounds";
  report.analysis.labels = {label};
  report.analysis.summary.no_chord = 1;
  report.analysis.summary.connections_by_kind = no_connections();
  return report;
}

}  // namespace insideline::tests
