#include "io/abc/voice_writer.hpp"

#include "io/musicxml/road_map.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace insideline::io {
namespace {

constexpr std::size_t most_measures = 20'000;
constexpr std::int64_t finest = 1'000'000;  // parts of a quarter note; a bar that needs finer ones is a slip
constexpr Beats longest_bar = 4096;

}  // namespace

VoiceWriter::VoiceWriter(const AbcText& source, AbcSettings in_force, std::string name, Notices& notices)
    : settings(std::move(in_force)), source_(source), notices_(notices) {
  part.name = std::move(name);
  part.voices.push_back({"1"});
  set_staff({});
}

Beats VoiceWriter::unit_length() const { return settings.unit.value_or(usual_abc_unit(settings.meter)); }

Interval VoiceWriter::transposition() const {
  Interval interval = usual_interval(settings.staff.transpose.value_or(0));
  interval.steps += 7 * settings.staff.clef_octave.value_or(0);
  interval.semitones += semitones_in_octave * settings.staff.clef_octave.value_or(0);
  return interval;
}

void VoiceWriter::set_staff(const AbcStaff& staff) {
  if (staff.transpose) settings.staff.transpose = staff.transpose;
  if (staff.octave) settings.staff.octave = staff.octave;
  if (staff.clef_octave) settings.staff.clef_octave = staff.clef_octave;
  if (!staff.name.empty()) part.name = staff.name;
  const bool stated = settings.staff.transpose || settings.staff.clef_octave;
  if (stated && !part.transposition) part.transposition = transposition();
}

void VoiceWriter::open_measure(std::size_t offset_bytes) {
  const std::optional<Key> key =
      settings.key.key ? std::optional(transposed(*settings.key.key, transposition())) : std::nullopt;
  if (!open_) {
    if (part.measures.size() == most_measures)
      refuse(source_, offset_bytes, fmt::format("this tune has more than {} bars", most_measures));
    WrittenMeasure measure;
    measure.offset_bytes = static_cast<std::ptrdiff_t>(offset_bytes);
    measure.meter = settings.meter;
    measure.section = std::exchange(section_, {});
    measure.first_note = part.notes.size();
    measure.first_chord = part.symbols.size();
    part.measures.push_back(std::move(measure));
    part.signs.push_back(std::exchange(pending_, {}));
    open_ = true;
  }
  if (position_ > Beats{}) return;
  part.measures.back().meter = settings.meter;
  if (key && key != announced_key_) part.measures.back().key = announced_key_ = key;
}

void VoiceWriter::close_measure() {
  if (!open_) return;
  part.measures.back().end_note = part.notes.size();
  part.measures.back().end_chord = part.symbols.size();
  open_ = false;
  position_ = 0;
  voice_ = 0;
  last_.reset();
  altered_.clear();
}

RoadSigns& VoiceWriter::signs_here() { return open_ ? part.signs.back() : pending_; }

Beats VoiceWriter::played_length(const Beats& length) {
  Beats duration = unit_length() * length * std::exchange(next_factor_, Beats(1));
  if (!tuplet_) return duration;
  duration *= tuplet_->factor;
  if (--tuplet_->notes == 0) tuplet_.reset();
  return duration;
}

void VoiceWriter::advance(const Beats& duration, std::size_t offset_bytes) {
  position_ += duration;
  if (position_.denominator() > finest || position_ > longest_bar)
    refuse(source_, offset_bytes, "the lengths of this bar add up to no bar that can be played; check them");
  WrittenMeasure& measure = part.measures.back();
  measure.content = std::max(measure.content, position_);
}

Pitch VoiceWriter::pitch_of(const AbcNote& note, bool& tied) {
  const int octave = note.octave + settings.staff.octave.value_or(0);
  Pitch pitch{{note.step, 0}, octave};
  const auto goes_on = std::ranges::find_if(
      tied_, [&](const Pitch& before) { return before.name.step == note.step && before.octave == octave; });
  tied = goes_on != tied_.end() && (!note.accidental || *note.accidental == goes_on->name.alter);
  if (tied) return *goes_on;
  const std::pair key(note.step, settings.reach == AccidentalReach::all_octaves ? 0 : note.octave);
  if (note.accidental) {
    pitch.name.alter = *note.accidental;
    if (settings.reach != AccidentalReach::the_note) altered_[key] = *note.accidental;
  } else if (const auto found = altered_.find(key); found != altered_.end()) {
    pitch.name.alter = found->second;
  } else {
    pitch.name.alter = settings.key.alterations.at(static_cast<std::size_t>(note.step));
  }
  return pitch;
}

WrittenNote& VoiceWriter::push_note(const AbcNote& note) {
  if (note.microtone)
    notices_.add(Oddity::quarter_tones, static_cast<std::ptrdiff_t>(note.offset_bytes), part.measures.back().number);
  WrittenNote written;
  written.position = position_;
  written.written = pitch_of(note, written.tied_from);
  written.pitch = transposed(written.written, transposition());
  const int midi = midi_number(written.pitch);
  if (midi < 0 || midi > 127)
    refuse(source_, note.offset_bytes, fmt::format("{} is out of reach of any instrument", to_string(written.pitch)));
  written.element = part.notes.size();
  written.voice = voice_;
  part.notes.push_back(written);
  ++part.voices[voice_].notes;
  return part.notes.back();
}

void VoiceWriter::add_notes(std::span<const AbcNote> notes, const Beats& length) {
  open_measure(notes.front().offset_bytes);
  const Beats duration = played_length(length);
  last_ = Group{part.notes.size(), part.notes.size(), position_, duration};
  for (const AbcNote& note : notes) {
    WrittenNote& written = push_note(note);
    written.duration = duration;
    written.chord_member = &note != &notes.front();
    if (written.chord_member) ++part.voices[voice_].chord_members;
  }
  last_->end_note = part.notes.size();
  tied_.clear();
  advance(duration, notes.front().offset_bytes);
}

void VoiceWriter::add_grace(const AbcNote& note) {
  open_measure(note.offset_bytes);
  const std::vector<Pitch> waiting = std::exchange(tied_, {});
  push_note(note).grace = true;
  tied_ = waiting;
}

void VoiceWriter::add_rest(const Beats& length, std::size_t offset_bytes) {
  open_measure(offset_bytes);
  const Beats duration = played_length(length);
  last_ = Group{part.notes.size(), part.notes.size(), position_, duration};
  tied_.clear();
  advance(duration, offset_bytes);
}

void VoiceWriter::add_bar_rests(int bars, std::size_t offset_bytes) {
  for (int i = 0; i < bars; ++i) {
    if (i > 0) close_measure();
    open_measure(offset_bytes);
    part.measures.back().holds_bar_rest = true;
    advance(bar_length(settings.meter.value_or(Meter{})), offset_bytes);
  }
  tied_.clear();
  last_.reset();
}

void VoiceWriter::tie(std::size_t offset_bytes) {
  if (!last_ || last_->first_note == last_->end_note)
    refuse(source_, offset_bytes, "a tie - stands right behind the note that sounds on");
  for (std::size_t i = last_->first_note; i < last_->end_note; ++i) {
    part.notes[i].tied_on = true;
    tied_.push_back(part.notes[i].written);
  }
}

void VoiceWriter::break_rhythm(int signs, std::size_t offset_bytes) {
  constexpr int most_signs = 3;
  if (!last_ || std::abs(signs) > most_signs || next_factor_ != Beats(1))
    refuse(source_, offset_bytes, "a broken rhythm > or < stands between two notes of one bar");
  const Beats less(1, std::int64_t{1} << std::abs(signs));
  const Beats more = Beats(2) - less;
  last_->duration *= signs > 0 ? more : less;
  next_factor_ = signs > 0 ? less : more;
  for (std::size_t i = last_->first_note; i < last_->end_note; ++i) part.notes[i].duration = last_->duration;
  for (std::size_t i = last_->end_note; i < part.notes.size(); ++i)  // grace notes before the sign
    part.notes[i].position = last_->position + last_->duration;
  const bool longest = part.measures.back().content == position_;
  position_ = last_->position;
  if (longest) part.measures.back().content = position_;
  advance(last_->duration, offset_bytes);
}

void VoiceWriter::begin_tuplet(const AbcTuplet& tuplet) { tuplet_ = tuplet; }

void VoiceWriter::add_chord(const std::optional<Chord>& chord, std::string_view text, std::size_t offset_bytes) {
  open_measure(offset_bytes);
  const std::size_t first = part.measures.back().first_chord;
  if (part.symbols.size() > first && part.symbols.back().position == position_)
    return notices_.add(Oddity::two_chords, static_cast<std::ptrdiff_t>(offset_bytes), {});
  const auto [known, is_new] =
      known_chords_.try_emplace({std::string(text), transposition().semitones}, part.chords.size());
  if (is_new) part.chords.push_back(chord ? std::optional(transposed(*chord, transposition())) : std::nullopt);
  part.symbols.push_back({position_, known->second});
}

void VoiceWriter::bar_line(const AbcBarSign& bar, std::size_t offset_bytes) {
  close_measure();
  const bool something = !part.measures.empty();
  if (bar.ends > 0 && something) part.signs.back().backward_repeat = BackwardRepeat{bar.ends + 1};
  if (bar.ends > 0 && !something && !bar.starts)
    refuse(source_, offset_bytes, "no bar stands before this :| to be repeated");
  if (ending_open_ && something && (bar.closing || !bar.ending.empty())) {
    part.signs.back().ending_stop = true;
    ending_open_ = false;
  }
  if (something && bar.closing && bar.ends == 0 && !bar.starts) part.measures.back().double_line_after = true;
  if (bar.ends > 0) repeat_open_ = false;
  if (bar.starts && !(bar.loose && repeat_open_)) pending_.forward_repeat = repeat_open_ = true;
  if (bar.ending.empty()) return;
  pending_.ending_start = bar.ending;
  ending_open_ = true;
}

void VoiceWriter::begin_overlay() {
  if (!open_) return;
  ++voice_;
  if (part.voices.size() == voice_) part.voices.push_back({fmt::format("{}", voice_ + 1)});
  position_ = 0;
  last_.reset();
  altered_.clear();
  tied_.clear();
}

void VoiceWriter::begin_section(std::string_view name) {
  if (open_ && position_ == Beats{})
    part.measures.back().section = name;
  else
    section_ = name;
}

/// Bars count from 1, a pickup is 0; two short measures that make up one bar share its number.
void VoiceWriter::number_measures() {
  int number = 0;
  bool half = false;
  for (std::size_t i = 0; i < part.measures.size(); ++i) {
    WrittenMeasure& measure = part.measures[i];
    const Beats full = bar_length(measure.meter.value_or(Meter{}));
    const bool is_short = measure.meter && measure.content > Beats{} && measure.content < full;
    const bool second_half = half && is_short && part.measures[i - 1].content + measure.content == full;
    if (!second_half && !(i == 0 && is_short && part.measures.size() > 1)) ++number;
    half = is_short && !second_half && number > 0;
    measure.number = std::to_string(number);
  }
}

void VoiceWriter::finish() {
  close_measure();
  if (!part.signs.empty()) {
    if (ending_open_) part.signs.back().ending_stop = true;
    pending_.forward_repeat = false;
    pending_.ending_start.clear();
    add_missing(part.signs.back(), pending_);
  }
  number_measures();
}

}  // namespace insideline::io
