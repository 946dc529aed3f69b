#include "analyzer/measures/summary.hpp"

#include <array>

#include <fmt/format.h>

namespace insideline {
namespace {

std::optional<double> quotient(double part, double whole) {
  if (whole <= 0.0) return std::nullopt;
  return part / whole;
}

void add_roles(Summary& summary, const HeardLine& line, const Solo& solo, std::span<const NoteLabel> labels) {
  double strict = 0.0;  // quarter notes
  double of = 0.0;
  summary.notes = static_cast<int>(line.notes.size());
  summary.grace_notes = static_cast<int>(solo.notes.size()) - summary.notes;
  std::array<int, static_cast<std::size_t>(Figure::none) + 1> figures{};
  std::array<int, static_cast<std::size_t>(Placement::retardation) + 1> placements{};
  for (const HeardNote& note : line.notes) {
    if (!counts(note)) ++summary.no_chord;
    ++figures.at(static_cast<std::size_t>(labels[note.note].figure));
    ++placements.at(static_cast<std::size_t>(labels[note.note].placement));
    if (!note.sounding) continue;
    of += note.duration;
    if (contains(line.stretches[*note.sounding].tones, note.pitch_class)) strict += note.duration;
  }
  summary.chord_tone_share_by_duration_strict = quotient(strict, of);
  for (std::size_t i = 0; i < figures.size(); ++i)
    if (figures.at(i) > 0) summary.figures.emplace_hint(summary.figures.end(), static_cast<Figure>(i), figures.at(i));
  for (std::size_t i = 0; i < placements.size(); ++i)
    if (placements.at(i) > 0)
      summary.placements.emplace_hint(summary.placements.end(), static_cast<Placement>(i), placements.at(i));
}

void add_densities(Summary& summary, const Densities& densities) {
  const Density& all = densities.all;
  summary.chord_tones = all.chord_tones;
  summary.tensions = all.tensions;
  summary.non_chord_tones = all.non_chord_tones;
  summary.outside = all.outside;
  summary.chord_tone_share = chord_tone_share(all);
  summary.chord_tone_share_strict = all.strict;
  summary.chord_tone_share_by_duration = quotient(all.chord_tone_duration, all.duration);
  summary.chord_tone_share_on_beat = chord_tone_share(densities.on_beat);
  summary.chord_tone_share_off_beat = chord_tone_share(densities.off_beat);
  summary.chord_tone_share_on_strong_beats = chord_tone_share(densities.on_strong_beats);
  summary.chord_tone_share_on_changes = chord_tone_share(densities.on_chord_changes);
}

void add_arpeggios(Summary& summary, const HeardLine& line, const Solo& solo, std::span<const Arpeggio> arpeggios,
                   const Density& all) {
  const std::vector<bool> in_arpeggio = arpeggio_notes(arpeggios, solo.notes.size());
  double duration = 0.0;
  summary.arpeggio_share.of = all.notes;
  for (const HeardNote& note : line.notes) {
    if (!in_arpeggio[note.note]) continue;
    ++summary.arpeggio_share.count;
    duration += note.duration;
  }
  summary.arpeggio_share_by_duration = quotient(duration, all.duration);
  summary.arpeggios = static_cast<int>(arpeggios.size());
  for (const Arpeggio& arpeggio : arpeggios) {
    if (arpeggio.direction == Direction::mixed) ++summary.arpeggios_mixed;
    if (goes_both_ways(arpeggio)) ++summary.arpeggios_two_way;
    for (const Leg& leg : arpeggio.legs) {
      const bool down = leg.direction == Direction::descending;
      ++(down ? summary.arpeggios_descending : summary.arpeggios_ascending);
      if (comes_straight_down(leg)) ++summary.straight_descents;
    }
  }
}

void add_connections(Summary& summary, std::span<const Connection> connections) {
  summary.connections = static_cast<int>(connections.size());
  for (const ConnectionKind kind : {ConnectionKind::common_tone, ConnectionKind::half_step, ConnectionKind::whole_step,
                                    ConnectionKind::third, ConnectionKind::leap, ConnectionKind::none})
    summary.connections_by_kind[kind] = 0;
  for (const Connection& connection : connections) {
    ++summary.connections_by_kind[connection.kind];
    if (!connection.took_nearest) continue;  // nothing connects
    ++summary.nearest_taken_share.of;
    ++summary.guide_tone_resolutions.of;
    if (*connection.took_nearest) ++summary.nearest_taken_share.count;
    if (!leads_guide_tone(connection)) continue;
    ++summary.guide_tone_resolutions.count;
    if (connection.late)
      ++summary.guide_tones_late;
    else if (connection.kind == ConnectionKind::common_tone)
      ++summary.guide_tones_kept;
  }
}

std::string counted(int number, const char* one, const char* many) {
  return fmt::format("{} {}", number, number == 1 ? one : many);
}

}  // namespace

std::vector<bool> arpeggio_notes(std::span<const Arpeggio> arpeggios, std::size_t notes) {
  std::vector<bool> in_arpeggio(notes, false);
  for (const Arpeggio& arpeggio : arpeggios)
    for (const std::size_t note : arpeggio.notes) in_arpeggio[note] = true;
  return in_arpeggio;
}

Summary summarize(const HeardLine& line, const Solo& solo, const Analysis& analysis) {
  Summary summary;
  add_roles(summary, line, solo, analysis.labels);
  add_densities(summary, analysis.densities);
  add_arpeggios(summary, line, solo, analysis.arpeggios, analysis.densities.all);
  add_connections(summary, analysis.connections);
  summary.thirds_given = analysis.outline.thirds;
  summary.sevenths_given = analysis.outline.sevenths;
  return summary;
}

std::vector<std::string> warnings_of_shortness(const Summary& summary) {
  std::vector<std::string> warnings;
  if (summary.notes < enough_notes)
    warnings.push_back(fmt::format("the solo has only {}: below {} the shares say little about the player",
                                   counted(summary.notes, "note", "notes"), enough_notes));
  if (summary.connections < enough_changes)
    warnings.push_back(
        fmt::format("the chords change only {}: below {} changes the connections and the chance level say little",
                    counted(summary.connections, "time", "times"), enough_changes));
  return warnings;
}

}  // namespace insideline
