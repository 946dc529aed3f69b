#include "reports/json_report.hpp"

#include <algorithm>
#include <cassert>
#include <span>
#include <utility>

#include "reports/json_measures.hpp"
#include "reports/json_summary.hpp"
#include "reports/json_writer.hpp"

namespace insideline::reports {
namespace {

void write_source(JsonWriter& json, const Report& report) {
  json.member("solo", report.source.solo_file);
  json.member("changes", report.source.changes_file);
  json.member("part", report.solo.part);
  json.member("sounding_minus_written", report.solo.sounding_minus_written.semitones);
  json.member("title", report.solo.title);
  if (report.source.hearing_file.empty())
    json.member("hearing", nullptr);
  else
    json.member("hearing", report.source.hearing_file);
  if (report.source.section.empty()) return json.member("section", nullptr);
  json.member("section", report.source.section);
}

void write_bar_one(JsonWriter& json, const BarOneChoice& choice) {
  const auto write = [&](const BarOnePlace& place) {
    json.member("counted", place.kept);
    json.member("chord_tones", place.chord_tones);
  };
  json.member("bars_before_line", choice.bars);
  json.object("chosen", [&] { write(choice.chosen); });
  json.object("runner_up", [&] { write(choice.runner_up); });
  json.member("as_long_as_chart", choice.as_long_as_chart);
}

void write_better_place(JsonWriter& json, const AlignmentAdvice& advice) {
  json.member("start_bar", advice.start_bar);
  json.member("beats_later", advice.beats_later);
  json.member("semitones", advice.semitones);
  json.member("missing_bar", advice.form && advice.form->missing ? std::optional(advice.form->bar) : std::nullopt);
  json.member("superfluous_bar", advice.form && !advice.form->missing ? std::optional(advice.form->bar) : std::nullopt);
  json.member("chord_tones_here", advice.here);
  json.member("chord_tones_there", advice.there);
  json.member("places_tried", advice.places);
  json.member("by_chance", advice.by_chance);
}

void write_alignment(JsonWriter& json, const ChartAlignment& alignment) {
  json.member("start_bar", alignment.start_bar);
  if (alignment.bar_one)
    json.object("bar_one", [&] { write_bar_one(json, *alignment.bar_one); });
  else
    json.member("bar_one", nullptr);
  if (alignment.better)
    json.object("better", [&] { write_better_place(json, *alignment.better); });
  else
    json.member("better", nullptr);
}

void write_settings(JsonWriter& json, const Settings& settings) {
  json.member("hearing", settings.hearing == Hearing::strict ? "strict" : "as heard");
  json.member("feel", settings.feel == Feel::straight ? "straight" : "swing");
  json.member("held_tension", settings.held_tension);
  json.member("phrase_gap", settings.phrase_gap);
}

/// The meter of the first full bar, and every bar in which another begins.
void write_meters(JsonWriter& json, const Solo& solo) {
  const Meter* current = nullptr;
  for (const Bar& bar : solo.bars) {
    const bool pickup = bar.number < 1 && solo.bars.size() > 1;
    if (pickup || (current != nullptr && *current == bar.meter)) continue;
    json.object([&] {
      json.member("bar", bar.number);
      json.member("beats", bar.meter.beats);
      json.member("unit", bar.meter.unit);
    });
    current = &bar.meter;
  }
}

void write_tones(JsonWriter& json, std::string_view member, const NoteName& root, std::span<const Degree> degrees) {
  json.list(member, degrees, [&](const Degree& degree) {
    const NoteName name = note_at(root, degree);
    json.object([&] {
      json.member("degree", degree);
      json.member("name", name);
      json.member("pitch_class", pitch_class(name));
    });
  });
}

void write_chord(JsonWriter& json, std::size_t index, const SoundingChord& sounding) {
  json.member("index", index);
  json.member("symbol", sounding.chord.symbol);
  json.member("onset", sounding.onset);
  json.member("duration", sounding.duration);
  json.member("bar", sounding.bar);
  json.member("chorus", sounding.chorus);
  write_tones(json, "tones", sounding.chord.root, sounding.chord.tones);
  write_tones(json, "tensions", sounding.chord.root, sounding.chord.tensions);
}

void write_alternative(JsonWriter& json, const Alternative& alternative) {
  json.member("role", alternative.role);
  json.member("figure", alternative.figure);
  json.member("governor", alternative.governor);
  json.member("probability", alternative.probability);
}

void write_note(JsonWriter& json, std::size_t index, const Solo& solo, const NoteLabel& label) {
  const Note& note = solo.notes[index];
  const Bar& bar = solo.bars[bar_index_at(solo, note.onset)];
  json.member("index", index);
  json.member("onset", note.onset);
  json.member("duration", note.duration);
  json.member("bar", bar.number);
  json.member("beat", beat_in_bar(bar, note.onset));
  json.member("grace", note.grace);
  json.member("midi", midi_number(note.pitch));
  json.member("name", note.pitch);
  json.member("written", note.written);
  json.member("chord", label.chord);
  json.member("governor", label.governor);
  json.member("placement", label.placement);
  json.member("degree", label.degree);
  json.member("role", label.role);
  json.member("figure", label.figure);
  json.member("resolves_to", label.resolves_to);
  json.member("confidence", label.confidence);
  json.member("role_probability", label.role_probability);
  json.member("pinned", label.pinned);
  json.list("alternatives", label.alternatives,
            [&](const Alternative& alternative) { json.object([&] { write_alternative(json, alternative); }); });
  json.member("reason", label.reason);
  if (solo.performed.empty()) return;
  json.member("played_seconds", solo.performed[index].onset_seconds);
  json.member("held_seconds", solo.performed[index].duration_seconds);
}

void write_leg(JsonWriter& json, const Arpeggio& arpeggio, const Leg& leg) {
  json.member("first_note", arpeggio.notes[leg.first]);
  json.member("last_note", arpeggio.notes[leg.last]);
  json.member("direction", leg.direction);
  json.member("from", arpeggio.degrees[leg.first]);
  json.member("to", arpeggio.degrees[leg.last]);
  json.member("inversion", leg.inversion);
  json.member("prepared", leg.prepared);
}

void write_arpeggio(JsonWriter& json, const Arpeggio& arpeggio) {
  json.member("notes", arpeggio.notes);
  json.member("ornaments", arpeggio.ornaments);
  json.member("governor", arpeggio.governor);
  json.member("degrees", arpeggio.degrees);
  json.list("legs", arpeggio.legs, [&](const Leg& leg) { json.object([&] { write_leg(json, arpeggio, leg); }); });
  json.member("direction", arpeggio.direction);
  json.member("starts_on", arpeggio.degrees.front());
  json.member("inversion", arpeggio.inversion);
  json.member("complete", arpeggio.complete);
  if (arpeggio.spells.empty())
    json.member("spells", nullptr);
  else
    json.member("spells", arpeggio.spells);
  json.member("slipped_by", arpeggio.slipped);
  json.member("straight_descent", arpeggio.straight_descent);
  json.member("octave_displaced", arpeggio.octave_displaced);
  json.member("repeats", arpeggio.repeats);
  json.member("span_semitones", arpeggio.span_semitones);
}

void write_connection(JsonWriter& json, const Connection& connection) {
  json.member("from_chord", connection.from_chord);
  json.member("to_chord", connection.to_chord);
  json.member("from_note", connection.from_note);
  json.member("to_note", connection.to_note);
  json.member("from_degree", connection.from_degree);
  json.member("to_degree", connection.to_degree);
  json.member("semitones", connection.semitones);
  json.member("kind", connection.kind);
  json.member("guide_tone", connection.guide_tone);
  if (connection.late)
    json.object("late_resolution", [&] {
      json.member("from_note", connection.late->from_note);
      json.member("to_note", connection.late->to_note);
      json.member("from_degree", connection.late->from_degree);
      json.member("to_degree", connection.late->to_degree);
    });
  else
    json.member("late_resolution", nullptr);
  json.member("nearest_up", connection.nearest_up);
  json.member("nearest_down", connection.nearest_down);
  json.member("took_nearest", connection.took_nearest);
}

}  // namespace

std::string json_report(const Report& report) {
  const Analysis& analysis = report.analysis;
  assert(analysis.detail == Detail::reasons && "all that is written was asked for");
  JsonWriter json;
  json.member("format", "insideline-analysis");
  json.member("version", 4);
  json.object("source", [&] { write_source(json, report); });
  if (report.alignment) json.object("alignment", [&] { write_alignment(json, *report.alignment); });
  json.list("meter", [&] { write_meters(json, report.solo); });
  json.member("bars", std::ranges::count_if(report.solo.bars, [](const Bar& bar) { return bar.number >= 1; }));
  json.member("choruses", analysis.harmony.choruses);
  write_from_sound(json, report.from_sound);
  json.member("warnings", report.warnings);
  json.list("chords", [&] {
    for (std::size_t i = 0; i < analysis.harmony.chords.size(); ++i)
      json.object([&] { write_chord(json, i, analysis.harmony.chords[i]); });
  });
  json.list("notes", [&] {
    for (std::size_t i = 0; i < report.solo.notes.size(); ++i)
      json.object([&] { write_note(json, i, report.solo, analysis.labels[i]); });
  });
  json.list("arpeggios", analysis.arpeggios,
            [&](const Arpeggio& arpeggio) { json.object([&] { write_arpeggio(json, arpeggio); }); });
  json.list("connections", analysis.connections,
            [&](const Connection& connection) { json.object([&] { write_connection(json, connection); }); });
  write_summary(json, report);
  json.object("settings", [&] { write_settings(json, report.settings); });
  write_measures(json, report);
  return std::move(json).finished();
}

}  // namespace insideline::reports
