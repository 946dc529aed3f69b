#include "reports/json_measures.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace insideline::reports {
namespace {

void write_density(JsonWriter& json, const Density& density) {
  json.member("notes", density.notes);
  json.member("chord_tones", density.chord_tones);
  json.member("tensions", density.tensions);
  json.member("non_chord_tones", density.non_chord_tones);
  json.member("outside", density.outside);
  json.member("strict", density.strict);
  json.member("quarters", density.duration);
  json.member("chord_tone_quarters", density.chord_tone_duration);
}

void write_densities(JsonWriter& json, const Densities& densities) {
  const auto density = [&](std::string_view name, const Density& value) {
    json.object(name, [&] { write_density(json, value); });
  };
  density("all", densities.all);
  density("on_beat", densities.on_beat);
  density("off_beat", densities.off_beat);
  density("on_strong_beats", densities.on_strong_beats);
  density("on_chord_changes", densities.on_chord_changes);
  json.list("by_degree", densities.by_degree, [&](const DegreeCount& degree) {
    json.object([&] {
      json.member("degree", degree.degree);
      json.member("notes", degree.count);
      json.member("on_beat", degree.on_beat);
      json.member("quarters", degree.duration);
    });
  });
  json.object("by_quality", [&] {
    for (const QualityDensity& group : densities.by_quality) density(to_string(group.quality), group.density);
  });
  json.list("by_chorus", densities.by_chorus,
            [&](const Density& chorus) { json.object([&] { write_density(json, chorus); }); });
}

std::string_view contour_name(Contour contour) {
  switch (contour) {
    case Contour::rising: return "rising";
    case Contour::falling: return "falling";
    case Contour::arch: return "arch";
    case Contour::bowl: return "bowl";
    case Contour::level: return "level";
  }
  return {};
}

void write_phrase(JsonWriter& json, const Phrase& phrase, const PhraseFigures& figures) {
  json.member("first_note", phrase.first);
  json.member("last_note", phrase.last);
  json.member("first_bar", figures.first_bar);
  json.member("last_bar", figures.last_bar);
  json.member("lowest", figures.lowest);
  json.member("highest", figures.highest);
  json.member("contour", contour_name(figures.contour));
  json.member("first_degree", figures.first_degree);
  json.member("last_degree", figures.last_degree);
  json.member("arpeggio_notes", figures.arpeggio_share);
  json.object("density", [&] { write_density(json, figures.density); });
}

void write_section(JsonWriter& json, const SoundingSection& section) {
  json.member("name", section.name);
  json.member("onset", section.onset);
  json.member("duration", section.duration);
  json.member("chorus", section.chorus);
  json.member("first_bar", section.first_bar);
  json.member("last_bar", section.last_bar);
}

void write_section_figures(JsonWriter& json, const SectionFigures& figures) {
  json.member("name", figures.name);
  json.member("times", figures.times);
  json.member("bars", figures.bars);
  json.member("arpeggio_notes", figures.arpeggio_share);
  json.member("nearest_taken", figures.nearest_taken_share);
  json.object("density", [&] { write_density(json, figures.density); });
}

void write_cell(JsonWriter& json, const Cell& cell) {
  json.member("degrees", cell.degrees);
  json.member("direction", cell.direction);
  json.member("quality", cell.quality);
  json.member("count", cell.count);
}

void write_riff(JsonWriter& json, const Riff& riff) {
  json.member("notes", riff.notes);
  json.list("places", riff.places, [&](const RiffPlace& place) {
    json.object([&] {
      json.member("first_note", place.first);
      json.member("last_note", place.last);
      json.member("bar", place.bar);
      json.member("moved", place.moved);
      json.member("same_beat", place.same_beat);
      json.member("fitted", place.fitted);
    });
  });
}

void write_sequence(JsonWriter& json, const Sequence& sequence) {
  json.member("first_note", sequence.first);
  json.member("last_note", sequence.last);
  json.member("notes", sequence.notes);
  json.member("times", sequence.times);
  json.member("up", sequence.up);
  json.member("thirds", sequence.thirds);
}

void write_patterns(JsonWriter& json, const Patterns& patterns) {
  const auto objects = [&](std::string_view name, const auto& values, const auto& write) {
    json.list(name, values, [&](const auto& value) { json.object([&] { write(value); }); });
  };
  objects("riffs", patterns.riffs, [&](const Riff& riff) { write_riff(json, riff); });
  objects("sequences", patterns.sequences, [&](const Sequence& sequence) { write_sequence(json, sequence); });
  objects("digital", patterns.digital, [&](const DigitalPattern& pattern) {
    json.member("first_note", pattern.first);
    json.member("last_note", pattern.last);
    json.member("chord", pattern.chord);
    json.member("steps", pattern.steps);
  });
  objects("blue_notes", patterns.blue_notes, [&](const BlueNote& blue) {
    json.member("note", blue.note);
    json.member("chord", blue.chord);
    json.member("degree", blue.degree);
  });
  objects("pentatonic_runs", patterns.pentatonic_runs, [&](const PentatonicRun& run) {
    json.member("first_note", run.first);
    json.member("last_note", run.last);
    json.member("root", run.root);
    json.member("has_blue_fifth", run.has_blue_fifth);
  });
  objects("added_half_steps", patterns.added_half_steps, [&](const AddedHalfStep& step) {
    json.member("note", step.note);
    json.member("chord", step.chord);
  });
}

void write_thread(JsonWriter& json, const Thread& thread) {
  json.member("chorus", thread.chorus);
  json.member("notes", thread.notes);
  json.member("chords", thread.chords);
  json.member("semitones", thread.semitones);
  json.member("least_possible", thread.least_possible);
  json.member("by_chance", thread.by_chance);
}

void write_outline(JsonWriter& json, const Outline& outline) {
  json.member("thirds", outline.thirds);
  json.member("sevenths", outline.sevenths);
  json.member("both", outline.both);
  json.member("usual_first_guide_tone", outline.usual_first_guide_tone);
  json.list("chords", outline.chords, [&](const ChordOutline& chord) {
    json.object([&] {
      json.member("chord", chord.chord);
      json.member("notes", chord.notes);
      json.member("third", chord.third);
      json.member("seventh", chord.seventh);
      json.member("has_third", chord.has_third);
      json.member("has_seventh", chord.has_seventh);
      json.member("first_guide_tone", chord.first_guide_tone);
    });
  });
}

void write_heard(JsonWriter& json, const HeardHarmony& heard) {
  json.member("candidates", heard.candidates);
  json.member("bits_per_chord", heard.bits_per_chord);
  json.member("first_rank", heard.first_rank);
  json.member("bits_per_chord_by_chorus", heard.bits_per_chord_by_chorus);
  json.list("chords", heard.chords, [&](const HeardChord& chord) {
    json.object([&] {
      json.member("chord", chord.chord);
      json.member("notes", chord.notes);
      json.member("rank", chord.rank);
      json.member("bits", chord.bits);
    });
  });
}

void write_outside_event(JsonWriter& json, const OutsideEvent& event) {
  json.member("first_note", event.first);
  json.member("last_note", event.last);
  json.member("chord", event.chord);
  json.member("plays", event.plays);
  json.member("semitones", event.semitones);
}

void write_telling_bar(JsonWriter& json, const TellingBar& bar) {
  json.member("bar", bar.bar);
  json.member("first_note", bar.first_note);
  json.member("last_note", bar.last_note);
  json.member("why", bar.why);
}

void write_lateness(JsonWriter& json, const Lateness& lateness) {
  json.member("notes", lateness.notes);
  json.member("mean_ms", lateness.mean_ms);
  json.member("spread_ms", lateness.spread_ms);
  json.member("mean_percent", lateness.mean_percent);
  json.member("spread_percent", lateness.spread_percent);
}

void write_swing(JsonWriter& json, const Swing& swing) {
  json.member("pairs", swing.pairs);
  json.member("ratio", swing.ratio);
  json.member("lower_quartile", swing.lower);
  json.member("upper_quartile", swing.upper);
}

void write_time_feel(JsonWriter& json, const std::optional<TimeFeel>& feel) {
  if (!feel) return json.member("time_feel", nullptr);
  json.object("time_feel", [&] {
    if (feel->swing)
      json.object("swing", [&] { write_swing(json, *feel->swing); });
    else
      json.member("swing", nullptr);
    json.object("on_beat", [&] { write_lateness(json, feel->on_beat); });
    json.list("by_beat", feel->by_beat, [&](const BeatLateness& beat) {
      json.object([&] {
        json.member("beat", beat.beat);
        write_lateness(json, beat.lateness);
      });
    });
    if (feel->off_beat)
      json.object("off_beat", [&] { write_lateness(json, *feel->off_beat); });
    else
      json.member("off_beat", nullptr);
  });
}

}  // namespace

void write_measures(JsonWriter& json, const Report& report) {
  const Analysis& analysis = report.analysis;
  const auto objects = [&](std::string_view name, const auto& values, const auto& write) {
    json.list(name, values, [&](const auto& value) { json.object([&] { write(json, value); }); });
  };
  objects("telling_bars", analysis.telling_bars, write_telling_bar);
  objects("outside_events", analysis.outside_events, write_outside_event);
  json.list("phrases", [&] {
    for (std::size_t i = 0; i < analysis.phrase_figures.size(); ++i)
      json.object([&] { write_phrase(json, analysis.phrases[i], analysis.phrase_figures[i]); });
  });
  objects("sections", analysis.harmony.sections, write_section);
  objects("section_figures", analysis.section_figures, write_section_figures);
  objects("cells", analysis.cells, write_cell);
  json.object("patterns", [&] { write_patterns(json, analysis.patterns); });
  objects("threads", analysis.threads, write_thread);
  json.object("outline", [&] { write_outline(json, analysis.outline); });
  json.object("heard_alone", [&] { write_heard(json, analysis.heard); });
  json.object("densities", [&] { write_densities(json, analysis.densities); });
  write_time_feel(json, analysis.time_feel);
}

void write_from_sound(JsonWriter& json, const std::optional<FromSound>& sound) {
  if (!sound) return;
  json.object("heard", [&] {
    json.member("notes", sound->notes);
    json.member("unsure", sound->unsure);
    json.member("places", sound->places);
    json.member("says", from_sound_in_words(*sound));
  });
}

}  // namespace insideline::reports
