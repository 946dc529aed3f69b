#include "io/musicxml/score_writer.hpp"

#include "analyzer/harmony/musicxml_kind.hpp"
#include "analyzer/model/sections.hpp"
#include "analyzer/notation/rhythm_writing.hpp"
#include "io/musicxml/beams.hpp"
#include "io/musicxml/harmony_writer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cstdint>
#include <map>
#include <numeric>
#include <pugixml.hpp>
#include <sstream>
#include <utility>

namespace insideline::io {
namespace {

constexpr int steps_in_octave = 7;

void add_text(pugi::xml_node parent, const char* name, const std::string& text) {
  parent.append_child(name).text().set(text.c_str());
}
void add_number(pugi::xml_node parent, const char* name, long long number) {
  add_text(parent, name, std::to_string(number));
}

std::string letter_of(const NoteName& name) { return to_string(name).substr(0, 1); }

std::string type_of(const NoteValue& value) {
  switch (value.divisor) {
    case 1: return "whole";
    case 2: return "half";
    case 4: return "quarter";
    case 8: return "eighth";
    case 32: return "32nd";
    default: return value.divisor == 16 ? "16th" : "64th";
  }
}

const char* accidental_name(int alter) {
  switch (alter) {
    case -2: return "flat-flat";
    case -1: return "flat";
    case 0: return "natural";
    case 1: return "sharp";
    default: return "double-sharp";
  }
}

/// What the key signature does to a letter.
int alter_in_key(Step step, const Key& key) {
  for (int alter = -1; alter <= 1; ++alter) {
    const int above_lowest = fifths_of({step, alter}) - key.fifths + 1;
    if (above_lowest >= 0 && above_lowest < steps_in_octave) return alter;
  }
  return 0;
}

/// Which accidentals a reader still has in mind in this bar.
class AccidentalMemory {
 public:
  explicit AccidentalMemory(const Key& key) : key_(key) {}
  /// Whether the note needs a sign; it is in mind from then on.
  bool needs_sign(const Pitch& pitch) {
    const auto place = std::pair(pitch.name.step, pitch.octave);
    const auto found = heard_.find(place);
    const int expected = found == heard_.end() ? alter_in_key(pitch.name.step, key_) : found->second;
    heard_[place] = pitch.name.alter;
    return expected != pitch.name.alter;
  }

 private:
  Key key_;
  std::map<std::pair<Step, int>, int> heard_;
};

/// Writes the measures one after the other.
class ScoreText {
 public:
  ScoreText(const Solo& solo, const Harmony& harmony, const ScoreWriteOptions& options)
      : solo_(solo), harmony_(harmony), options_(options), bars_(written_rhythm(solo)) {
    if (options.pitch == ScorePitch::written) shift_ = -solo.sounding_minus_written;
    for (const WrittenBar& bar : bars_)
      for (const WrittenGroup& group : bar.groups)
        for (const WrittenSymbol& symbol : group.symbols) count_in_divisions(length_in(group, symbol));
    for (const SoundingChord& sounding : harmony.chords) count_in_divisions(sounding.onset);
    for (const Bar& bar : solo.bars) count_in_divisions(bar.length);
  }

  std::string text() {
    pugi::xml_node declaration = document_.append_child(pugi::node_declaration);
    declaration.append_attribute("version") = "1.0";
    declaration.append_attribute("encoding") = "UTF-8";
    document_.append_child(pugi::node_doctype)
        .set_value(
            "score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\" "
            "\"http://www.musicxml.org/dtds/partwise.dtd\"");
    pugi::xml_node score = document_.append_child("score-partwise");
    score.append_attribute("version") = "4.0";
    add_text(score.append_child("work"), "work-title", solo_.title);
    pugi::xml_node part_name = score.append_child("part-list").append_child("score-part");
    part_name.append_attribute("id") = "P1";
    add_text(part_name, "part-name", solo_.part);
    pugi::xml_node part = score.append_child("part");
    part.append_attribute("id") = "P1";
    for (const WrittenBar& bar : bars_) {
      add_measure(part, bar);
      add_bar_line(part.last_child(), bar);
    }
    std::ostringstream stream;
    document_.save(stream, "  ");
    return stream.str();
  }

 private:
  static Beats length_in(const WrittenGroup& group, const WrittenSymbol& symbol) {
    return length_of(symbol.value) * Beats(group.in_time_of, group.notes);
  }
  void count_in_divisions(const Beats& time) { divisions_ = std::lcm(divisions_, time.denominator()); }
  [[nodiscard]] std::int64_t in_divisions(const Beats& time) const { return (time * Beats(divisions_)).numerator(); }

  [[nodiscard]] Pitch printed(const Pitch& sounding) const { return writable(transposed(sounding, shift_)); }

  void add_measure(pugi::xml_node part, const WrittenBar& written) {
    const Bar& bar = solo_.bars[written.bar];
    pugi::xml_node measure = part.append_child("measure");
    measure.append_attribute("number") = bar.number;
    add_attributes(measure, written);
    if (const auto section = section_beginning_at(harmony_.sections, bar.onset))
      add_letter(measure, harmony_.sections[*section].name);
    if (written.bar == 0 && solo_.tempo_bpm) add_tempo(measure, *solo_.tempo_bpm);
    if (const ScoreHeading* heading = heading_at(written.bar)) add_heading(measure, heading->text);
    AccidentalMemory memory(transposed(key_at(solo_, bar.onset).value_or(Key{}), shift_));
    const auto beams = beams_of(written, bar.meter);
    std::size_t symbol_in_bar = 0;
    Beats place = bar.onset;
    for (const WrittenGroup& group : written.groups) {
      for (std::size_t at = 0; at < group.symbols.size(); ++at) {
        const WrittenSymbol& symbol = group.symbols[at];
        const Beats length = length_in(group, symbol);
        add_chords(measure, place, length);
        add_symbol(measure, group, at, beams[symbol_in_bar++], memory);
        place += length;
      }
    }
    if (!written.groups.empty()) return;
    add_chords(measure, bar.onset, bar.length);
    pugi::xml_node note = measure.append_child("note");
    note.append_child("rest").append_attribute("measure") = "yes";
    add_number(note, "duration", in_divisions(bar.length));
    add_text(note, "voice", "1");
  }

  void add_attributes(pugi::xml_node measure, const WrittenBar& written) {
    const Bar& bar = solo_.bars[written.bar];
    const Bar* before = written.bar > 0 ? &solo_.bars[written.bar - 1] : nullptr;
    const auto key = key_at(solo_, bar.onset);
    const bool new_key = key && (before == nullptr || key_at(solo_, before->onset) != key);
    const bool new_meter = before == nullptr || !(before->meter == bar.meter);
    if (!new_key && !new_meter && before != nullptr) return;
    pugi::xml_node attributes = measure.append_child("attributes");
    if (before == nullptr) add_number(attributes, "divisions", divisions_);
    if (new_key) {
      const Key printed_key = transposed(*key, shift_);
      pugi::xml_node element = attributes.append_child("key");
      add_number(element, "fifths", printed_key.fifths);
      add_text(element, "mode", std::string(mode_name(printed_key)));
    }
    if (new_meter) {
      pugi::xml_node time = attributes.append_child("time");
      add_number(time, "beats", bar.meter.beats);
      add_number(time, "beat-type", bar.meter.unit);
    }
    if (before != nullptr) return;
    add_clef(attributes);
    if (options_.pitch == ScorePitch::written) add_transposition(attributes);
  }

  void add_clef(pugi::xml_node attributes) const {
    constexpr int lowest_in_treble = 57;
    long long sum = 0;
    for (const Note& note : solo_.notes) sum += midi_number(note.pitch) + shift_.semitones;
    const bool bass = !solo_.notes.empty() && sum < lowest_in_treble * static_cast<long long>(solo_.notes.size());
    pugi::xml_node clef = attributes.append_child("clef");
    add_text(clef, "sign", bass ? "F" : "G");
    add_text(clef, "line", bass ? "4" : "2");
  }

  void add_transposition(pugi::xml_node attributes) const {
    const Interval& interval = solo_.sounding_minus_written;
    if (interval.semitones == 0) return;
    const int octaves = interval.semitones / semitones_in_octave;
    pugi::xml_node transpose = attributes.append_child("transpose");
    add_number(transpose, "diatonic", interval.steps - octaves * steps_in_octave);
    add_number(transpose, "chromatic", interval.semitones - octaves * semitones_in_octave);
    if (octaves != 0) add_number(transpose, "octave-change", octaves);
  }

  [[nodiscard]] const ScoreHeading* heading_at(std::size_t bar) const {
    const auto found = std::ranges::lower_bound(options_.headings, bar, {}, &ScoreHeading::bar);
    return found == options_.headings.end() || found->bar != bar ? nullptr : &*found;
  }

  static void add_heading(pugi::xml_node measure, const std::string& text) {
    pugi::xml_node direction = measure.append_child("direction");
    direction.append_attribute("placement") = "above";
    pugi::xml_node words = direction.append_child("direction-type").append_child("words");
    words.append_attribute("font-weight") = "bold";
    words.text().set(text.c_str());
  }

  static void add_letter(pugi::xml_node measure, const std::string& name) {
    pugi::xml_node direction = measure.append_child("direction");
    direction.append_attribute("placement") = "above";
    add_text(direction.append_child("direction-type"), "rehearsal", name);
  }

  /// A double one where the next bar begins a section, or has a heading.
  void add_bar_line(pugi::xml_node measure, const WrittenBar& written) const {
    if (written.bar + 1 == solo_.bars.size()) return;
    const bool begins = has_double_bar(solo_, harmony_, solo_.bars[written.bar + 1].onset);
    if (!begins && heading_at(written.bar + 1) == nullptr) return;
    pugi::xml_node line = measure.append_child("barline");
    line.append_attribute("location") = "right";
    add_text(line, "bar-style", "light-light");
  }

  static void add_tempo(pugi::xml_node measure, double bpm) {
    pugi::xml_node direction = measure.append_child("direction");
    direction.append_attribute("placement") = "above";
    pugi::xml_node metronome = direction.append_child("direction-type").append_child("metronome");
    add_text(metronome, "beat-unit", "quarter");
    add_text(metronome, "per-minute", fmt::format("{}", bpm));
    direction.append_child("sound").append_attribute("tempo") = fmt::format("{}", bpm).c_str();
  }

  /// The symbols of the chords that begin within a note or rest, and N.C. where they stop.
  void add_chords(pugi::xml_node measure, const Beats& place, const Beats& length) {
    for (; next_chord_ < harmony_.chords.size(); ++next_chord_) {
      const SoundingChord& sounding = harmony_.chords[next_chord_];
      if (silent_from_ && *silent_from_ < place + length && *silent_from_ < sounding.onset)
        add_no_chord(measure, place);
      if (sounding.onset >= place + length) return;
      silent_from_ = sounding.onset + sounding.duration;
      add_chord(measure, as_printed(sounding.chord), sounding.onset - place);
    }
    if (silent_from_ && *silent_from_ < place + length) add_no_chord(measure, place);
  }

  /// Worked out once for each chord: a form has few, and they come again and again.
  const MusicxmlChord& as_printed(const Chord& chord) {
    const auto [known, is_new] = printed_chords_.try_emplace(chord.symbol);
    if (is_new) known->second = musicxml_from_chord(transposed(chord, shift_));
    return known->second;
  }

  void add_no_chord(pugi::xml_node measure, const Beats& place) {
    MusicxmlChord none;
    none.kind = "none";
    none.text = "N.C.";
    add_chord(measure, none, *silent_from_ - place);
    silent_from_.reset();
  }

  void add_chord(pugi::xml_node measure, const MusicxmlChord& chord, const Beats& offset) const {
    append_harmony(measure, chord, offset == Beats(0) ? std::string() : std::to_string(in_divisions(offset)));
  }

  static void add_pitch(pugi::xml_node note, const Pitch& pitch) {
    pugi::xml_node element = note.append_child("pitch");
    add_text(element, "step", letter_of(pitch.name));
    if (pitch.name.alter != 0) add_number(element, "alter", pitch.name.alter);
    add_number(element, "octave", pitch.octave);
  }

  static void add_value(pugi::xml_node note, const WrittenGroup& group, const WrittenSymbol& symbol,
                        const char* accidental) {
    add_text(note, "type", type_of(symbol.value));
    for (int dot = 0; dot < symbol.value.dots; ++dot) note.append_child("dot");
    if (accidental != nullptr) add_text(note, "accidental", accidental);
    if (group.notes == group.in_time_of) return;
    pugi::xml_node time = note.append_child("time-modification");
    add_number(time, "actual-notes", group.notes);
    add_number(time, "normal-notes", group.in_time_of);
  }

  static void add_notations(pugi::xml_node note, const WrittenGroup& group, std::size_t at) {
    const WrittenSymbol& symbol = group.symbols[at];
    const bool in_tuplet = group.notes != group.in_time_of;
    const bool starts = in_tuplet && at == 0;
    const bool stops = in_tuplet && at + 1 == group.symbols.size();
    if (!starts && !stops && !symbol.tied && symbol.struck) return;
    pugi::xml_node notations = note.append_child("notations");
    const auto add = [&](const char* name, const char* type) {
      notations.append_child(name).append_attribute("type") = type;
    };
    if (symbol.note && !symbol.struck) add("tied", "stop");
    if (symbol.tied) add("tied", "start");
    if (starts) add("tuplet", "start");
    if (stops) add("tuplet", "stop");
    if (notations.first_child().empty()) note.remove_child(notations);
  }

  void add_symbol(pugi::xml_node measure, const WrittenGroup& group, std::size_t at,
                  const std::vector<std::string_view>& beams, AccidentalMemory& memory) {
    const WrittenSymbol& symbol = group.symbols[at];
    const Beats length = length_in(group, symbol);
    pugi::xml_node note = measure.append_child("note");
    const char* accidental = nullptr;
    if (symbol.note) {
      const Pitch pitch = printed(solo_.notes[*symbol.note].pitch);
      if (memory.needs_sign(pitch) && symbol.struck) accidental = accidental_name(pitch.name.alter);
      add_pitch(note, pitch);
    } else {
      note.append_child("rest");
    }
    add_number(note, "duration", in_divisions(length));
    if (symbol.note && !symbol.struck) note.append_child("tie").append_attribute("type") = "stop";
    if (symbol.tied) note.append_child("tie").append_attribute("type") = "start";
    add_text(note, "voice", "1");
    add_value(note, group, symbol, accidental);
    for (std::size_t level = 0; level < beams.size(); ++level) {
      pugi::xml_node beam = note.append_child("beam");
      beam.append_attribute("number") = level + 1;
      beam.text().set(std::string(beams[level]).c_str());
    }
    add_notations(note, group, at);
    if (!symbol.note || !symbol.struck) return;
    add_words_under(note, *symbol.note);
    add_cue(measure, group, symbol, memory);
  }

  void add_words_under(pugi::xml_node note, std::size_t index) const {
    if (index >= options_.under.size() || options_.under[index].empty()) return;
    add_text(note.append_child("lyric"), "text", options_.under[index]);
  }

  void add_cue(pugi::xml_node measure, const WrittenGroup& group, const WrittenSymbol& symbol,
               AccidentalMemory& memory) {
    if (next_cue_ >= options_.cues.size() || options_.cues[next_cue_].note != *symbol.note) return;
    const Pitch pitch = printed(options_.cues[next_cue_++].pitch);
    pugi::xml_node note = measure.append_child("note");
    note.append_child("cue");
    note.append_child("chord");
    add_pitch(note, pitch);
    add_number(note, "duration", in_divisions(length_in(group, symbol)));
    add_text(note, "voice", "1");
    add_value(note, group, symbol, memory.needs_sign(pitch) ? accidental_name(pitch.name.alter) : nullptr);
    pugi::xml_node head = note.append_child("notehead");
    head.append_attribute("parentheses") = "yes";
    head.text().set("normal");
  }

  const Solo& solo_;
  const Harmony& harmony_;
  const ScoreWriteOptions& options_;
  std::vector<WrittenBar> bars_;
  Interval shift_;
  std::int64_t divisions_ = 1;
  std::map<std::string, MusicxmlChord> printed_chords_;  ///< by the symbol that sounds, which says all of a chord
  std::size_t next_chord_ = 0;
  std::size_t next_cue_ = 0;
  std::optional<Beats> silent_from_;  ///< where the last chord stops
  pugi::xml_document document_;
};

}  // namespace

std::string write_musicxml(const Solo& solo, const Harmony& harmony, const ScoreWriteOptions& options) {
  assert(!solo.bars.empty() && "a score has bars");
  return ScoreText(solo, harmony, options).text();
}

}  // namespace insideline::io
