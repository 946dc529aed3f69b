#include "reports/json_report.hpp"

#include <algorithm>
#include <span>

#include "reports/json_layout.hpp"
#include "reports/json_measures.hpp"
#include "reports/json_summary.hpp"
#include "reports/json_values.hpp"

namespace insideline::reports {
namespace {

Json degree_names(std::span<const Degree> degrees) {
  Json json = Json::array();
  for (const Degree& degree : degrees) json.push_back(to_string(degree));
  return json;
}

Json source_json(const Report& report) {
  Json json;
  json["solo"] = report.source.solo_file;
  json["changes"] = report.source.changes_file;
  json["part"] = report.solo.part;
  json["sounding_minus_written"] = report.solo.sounding_minus_written.semitones;
  json["title"] = report.solo.title;
  json["section"] = report.source.section.empty() ? Json(nullptr) : Json(report.source.section);
  return json;
}

Json settings_json(const Settings& settings) {
  Json json;
  json["hearing"] = settings.hearing == Hearing::strict ? "strict" : "as heard";
  json["feel"] = settings.feel == Feel::straight ? "straight" : "swing";
  json["held_tension"] = to_string(settings.held_tension);
  json["phrase_gap"] = to_string(settings.phrase_gap);
  return json;
}

/// The meter of the first full bar, and every bar in which another begins.
Json meters_json(const Solo& solo) {
  Json json = Json::array();
  const Meter* current = nullptr;
  for (const Bar& bar : solo.bars) {
    const bool pickup = bar.number < 1 && solo.bars.size() > 1;
    if (pickup || (current != nullptr && *current == bar.meter)) continue;
    json.push_back({{"bar", bar.number}, {"beats", bar.meter.beats}, {"unit", bar.meter.unit}});
    current = &bar.meter;
  }
  return json;
}

Json members_json(const NoteName& root, std::span<const Degree> degrees) {
  Json json = Json::array();
  for (const Degree& degree : degrees) {
    const NoteName name = note_at(root, degree);
    json.push_back({{"degree", to_string(degree)}, {"name", to_string(name)}, {"pitch_class", pitch_class(name)}});
  }
  return json;
}

Json chord_json(std::size_t index, const SoundingChord& sounding) {
  Json json;
  json["index"] = index;
  json["symbol"] = sounding.chord.symbol;
  json["onset"] = to_string(sounding.onset);
  json["duration"] = to_string(sounding.duration);
  json["bar"] = sounding.bar;
  json["chorus"] = sounding.chorus;
  json["tones"] = members_json(sounding.chord.root, sounding.chord.tones);
  json["tensions"] = members_json(sounding.chord.root, sounding.chord.tensions);
  return json;
}

Json alternatives_json(std::span<const Alternative> alternatives) {
  Json json = Json::array();
  for (const Alternative& alternative : alternatives) {
    json.push_back({{"role", to_string(alternative.role)},
                    {"figure", to_string(alternative.figure)},
                    {"governor", value_or_null(alternative.governor)},
                    {"probability", number_or_null(alternative.probability)}});
  }
  return json;
}

Json note_json(std::size_t index, const Solo& solo, const NoteLabel& label) {
  const Note& note = solo.notes[index];
  const Bar& bar = solo.bars[bar_index_at(solo, note.onset)];
  Json json;
  json["index"] = index;
  json["onset"] = to_string(note.onset);
  json["duration"] = to_string(note.duration);
  json["bar"] = bar.number;
  json["beat"] = to_string(beat_in_bar(bar, note.onset));
  json["grace"] = note.grace;
  json["midi"] = midi_number(note.pitch);
  json["name"] = to_string(note.pitch);
  json["written"] = to_string(note.written);
  json["chord"] = value_or_null(label.chord);
  json["governor"] = value_or_null(label.governor);
  json["placement"] = to_string(label.placement);
  json["degree"] = text_or_null(label.degree);
  json["role"] = to_string(label.role);
  json["figure"] = to_string(label.figure);
  json["resolves_to"] = value_or_null(label.resolves_to);
  json["confidence"] = number_or_null(label.confidence);
  json["role_probability"] = number_or_null(label.role_probability);
  json["alternatives"] = alternatives_json(label.alternatives);
  json["reason"] = label.reason;
  if (!solo.performed.empty()) {
    json["played_seconds"] = number_or_null(solo.performed[index].onset_seconds);
    json["held_seconds"] = number_or_null(solo.performed[index].duration_seconds);
  }
  return json;
}

Json arpeggio_json(const Arpeggio& arpeggio) {
  Json json;
  json["notes"] = arpeggio.notes;
  json["ornaments"] = arpeggio.ornaments;
  json["governor"] = arpeggio.governor;
  json["degrees"] = degree_names(arpeggio.degrees);
  json["direction"] = to_string(arpeggio.direction);
  json["starts_on"] = to_string(arpeggio.degrees.front());
  json["inversion"] = to_string(arpeggio.inversion);
  json["complete"] = arpeggio.complete;
  json["spells"] = arpeggio.spells.empty() ? Json(nullptr) : Json(arpeggio.spells);
  json["unprepared_descent"] = arpeggio.unprepared_descent;
  json["octave_displaced"] = arpeggio.octave_displaced;
  json["repeats"] = arpeggio.repeats;
  json["span_semitones"] = arpeggio.span_semitones;
  return json;
}

Json connection_json(const Connection& connection) {
  Json json;
  json["from_chord"] = connection.from_chord;
  json["to_chord"] = connection.to_chord;
  json["from_note"] = value_or_null(connection.from_note);
  json["to_note"] = value_or_null(connection.to_note);
  json["from_degree"] = text_or_null(connection.from_degree);
  json["to_degree"] = text_or_null(connection.to_degree);
  json["semitones"] = value_or_null(connection.semitones);
  json["kind"] = to_string(connection.kind);
  json["guide_tone"] = connection.guide_tone;
  json["nearest_up"] = text_or_null(connection.nearest_up);
  json["nearest_down"] = text_or_null(connection.nearest_down);
  json["took_nearest"] = value_or_null(connection.took_nearest);
  return json;
}

}  // namespace

std::string json_report(const Report& report) {
  const Analysis& analysis = report.analysis;
  Json json;
  json["format"] = "insideline-analysis";
  json["version"] = 1;
  json["source"] = source_json(report);
  json["meter"] = meters_json(report.solo);
  json["bars"] = std::ranges::count_if(report.solo.bars, [](const Bar& bar) { return bar.number >= 1; });
  json["choruses"] = analysis.harmony.choruses;
  json["warnings"] = report.warnings;
  json["chords"] = Json::array();
  for (std::size_t i = 0; i < analysis.harmony.chords.size(); ++i)
    json["chords"].push_back(chord_json(i, analysis.harmony.chords[i]));
  json["notes"] = Json::array();
  for (std::size_t i = 0; i < report.solo.notes.size(); ++i)
    json["notes"].push_back(note_json(i, report.solo, analysis.labels[i]));
  json["arpeggios"] = Json::array();
  for (const Arpeggio& arpeggio : analysis.arpeggios) json["arpeggios"].push_back(arpeggio_json(arpeggio));
  json["connections"] = Json::array();
  for (const Connection& connection : analysis.connections) json["connections"].push_back(connection_json(connection));
  json["summary"] = summary_json(report);
  json["settings"] = settings_json(report.settings);
  add_measures(json, report);
  return laid_out(json);
}

}  // namespace insideline::reports
