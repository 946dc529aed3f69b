#include "io/midi/midi.hpp"

#include "analyzer/spelling.hpp"
#include "io/midi/bar_one.hpp"
#include "io/midi/beat_hold.hpp"
#include "io/midi/joined_channels.hpp"
#include "io/midi/midi_changes.hpp"
#include "io/midi/midi_song.hpp"
#include "io/midi/smf_check.hpp"
#include "io/midi/tempo_clock.hpp"
#include "io/midi/timeline.hpp"
#include "io/midi/voice_of_midi.hpp"
#include "io/midi/written_line.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace insideline::io {
namespace {

constexpr int highest_midi = 127;

CheckedSmf checked_file(std::string_view bytes, std::string_view file_name, const ReadOptions& options) {
  const SmpteTime smpte = options.beats.empty() ? SmpteTime::refused : SmpteTime::beats_are_known;
  auto checked = check_smf(bytes, {.damage = options.damage, .smpte = smpte});
  if (checked) return std::move(*checked);
  const bool can_salvage = severity(checked.error().fault) == Severity::loses_data;
  const std::string remedy = can_salvage ? "; export it again, or read what is left of it with --salvage" : "";
  throw ReadError(place_of(file_name), to_string(checked.error()) + remedy);
}

bool has_texts_beside_names(const MidiSong& song) {
  constexpr std::uint8_t name_kind = 3;
  return std::ranges::any_of(song.texts, [](const SmfText& text) { return text.kind != name_kind; });
}

using NamesInKey = std::array<NoteName, semitones_in_octave>;

NamesInKey names_in(const Key& key) {
  NamesInKey names;
  for (int pitch = 0; pitch < semitones_in_octave; ++pitch)
    names.at(static_cast<std::size_t>(pitch)) = usual_name(pitch, key);
  return names;
}

bool asks_for_one_channel(const MidiSong& song, const ReadOptions& options) {
  const auto means_one = [&](const std::optional<std::string>& wanted) {
    return wanted && asks_for_channel(song, *wanted);
  };
  return means_one(options.part) || means_one(options.chord_track);
}

MidiSong with_lines_whole(MidiSong song, const ReadOptions& options) {
  if (!asks_for_one_channel(song, options)) join_channels(song);
  return song;
}

/// One import on its way from bytes to the model. Each step uses what the steps before it have filled in.
class MidiImport {
 public:
  MidiImport(MidiSong song, std::string_view file_name, const ReadOptions& options)
      : song_(with_lines_whole(std::move(song), options)),
        file_(file_name),
        options_(options),
        clock_(song_.tempos, song_.ticks_per_quarter),
        chosen_(solo_voice(song_, clock_, options.part, file_name)) {}

  ReadResult read() {
    say(chosen_.why);
    result_.part_taken = chosen_.taken;
    say_what_was_left_out();
    find_rhythm();
    FoundChanges changes = find_changes();
    find_bar_one(!changes.places.empty());
    fill_solo();
    fill_changes(std::move(changes));
    return std::move(result_);
  }

 private:
  [[nodiscard]] const MidiVoice& voice() const { return song_.voices[chosen_.voice]; }
  [[nodiscard]] const std::vector<MidiNote>& notes() const { return chosen_.line.notes; }

  void say(const std::string& message) {
    if (!message.empty()) result_.warnings.push_back({place_of(file_), message});
  }

  void say_count(std::size_t count, std::string_view one, std::string_view many) {
    if (count > 0) say(fmt::format(fmt::runtime(count == 1 ? one : many), count));
  }

  void say_what_was_left_out() {
    const MidiLine& line = chosen_.line;
    if (voice().channels > 1)
      say(fmt::format(
          "the {} channels of {} hardly overlap and were read as one line; --track 'channel {}' reads one alone",
          voice().channels, name_of(song_, voice()), voice().channel));
    say_count(line.chords, "{} chord in the solo: only its top note was kept",
              "{} chords in the solo: only their top notes were kept");
    say_count(line.under, "{} note under the line was left out", "{} notes under the line were left out");
    say_count(voice().bent_notes, "{} note is bent by the pitch wheel; the pitch that was struck was kept",
              "{} notes are bent by the pitch wheel; the pitches that were struck were kept");
    say_count(song_.unended_notes, "{} note is never ended; it was held to the next note",
              "{} notes are never ended; each was held to the next note");
  }

  /// The end of the file, unless its tracks run on in silence for very long.
  [[nodiscard]] std::uint32_t last_tick() const {
    constexpr std::uint32_t longest_silence_quarters = 128;
    std::uint32_t last = 1;
    for (const MidiVoice& each : song_.voices)
      for (const MidiNote& note : each.notes) last = std::max(last, note.end_ticks);
    if (song_.end_ticks <= last) return last;
    return last + std::min(song_.end_ticks - last, longest_silence_quarters * song_.ticks_per_quarter);
  }

  void find_rhythm() {
    played_ = timed(notes(), clock_);
    if (options_.beats.empty()) {
      timeline_ = timeline_of(song_, last_tick(), file_);
    } else {
      const Meter meter = song_.meters.empty() ? Meter{} : song_.meters.front().meter;
      timeline_ = timeline_of(options_.beats, meter, played_.front().onset_seconds, played_.back().end_seconds);
      say_what_was_not_tapped();
    }
    if (options_.beats.empty() && options_.grids.empty())
      if (auto line = line_on_grid(notes(), clock_, song_.ticks_per_quarter)) {
        if (!swings_on_grid(*line)) {
          line_ = std::move(*line);
          return;
        }
        say("every off-beat lies at the same swung place; they were written as eighths (--grid says otherwise)");
      }
    was_played_ = true;
    need_cells();
    result_.keeps_to_beats = !options_.beats.empty() || keeps_to_beats(played_, timeline_.cells);
    line_ = line_played(quantized(played_, timeline_.cells, options_.grids));
  }

  /// The beat before the first tap and the one after the last go on at their pace; further away that is a guess.
  void say_what_was_not_tapped() {
    const std::vector<TappedBeat>& beats = options_.beats;
    const double begin = beats.front().seconds - (beats[1].seconds - beats[0].seconds);
    const double end = beats.back().seconds + 2.0 * (beats.back().seconds - beats[beats.size() - 2].seconds);
    const auto untapped = static_cast<std::size_t>(std::ranges::count_if(
        played_, [&](const TimedNote& note) { return note.onset_seconds < begin || note.onset_seconds >= end; }));
    if (untapped == 0) return;
    say(
        fmt::format("the beats run from {:.1f} to {:.1f} s and the line from {:.1f} to {:.1f} s: {} note{} outside {} "
                    "read at the tempo of the nearest two beats; tap all of it",
                    beats.front().seconds, beats.back().seconds, played_.front().onset_seconds,
                    played_.back().end_seconds, untapped, untapped == 1 ? "" : "s", untapped == 1 ? "was" : "were"));
  }

  void need_cells() {
    if (timeline_.cells.empty()) timeline_.cells = cells_of(timeline_.bars, song_, clock_);
  }

  FoundChanges find_changes() {
    FoundChanges found;
    if (options_.chord_track) {
      need_cells();
      result_.changes_place = ChangesPlace::in_chord_track;
      found = changes_in_chords(voices_named(song_, *options_.chord_track, file_), song_, timeline_.cells, clock_);
    } else if (has_texts_beside_names(song_)) {
      need_cells();
      result_.changes_place = ChangesPlace::in_markers;
      found = changes_in_texts(song_, timeline_.cells, clock_);
    }
    for (const std::string& warning : found.warnings) say(warning);
    return found;
  }

  void find_bar_one(bool has_changes) {
    BarOne found;
    if (options_.bar_one) {
      found.onset = *options_.bar_one;
    } else if (timeline_.bar_one) {
      found.onset = *timeline_.bar_one;
    } else if (!options_.beats.empty()) {
      found = bar_one_by_accent(timeline_, line_);
    } else if (was_played_ && !has_changes) {
      found = bar_one_of_recording(timeline_, line_);
      keep_count_in(found);
    }
    say(found.why);
    bar_one_ = found.onset;
    result_.bar_one = bar_one_;
  }

  /// For who has a chart and can tell whether it counts these bars.
  void keep_count_in(const BarOne& found) {
    CountIn count_in{.bars = {},
                     .has_pickup = line_.front().onset < found.onset,
                     .file_bars = static_cast<int>(timeline_.bars.size()),
                     .remark = found.why};
    for (const Bar& bar : timeline_.bars)
      if (bar.onset < found.onset) count_in.bars.push_back(bar);
    if (!count_in.bars.empty()) result_.count_in = std::move(count_in);
  }

  void fill_solo() {
    Solo& solo = result_.solo;
    solo.title = title_of(song_);
    solo.part = voice().name.empty() ? name_of(song_, voice()) : voice().name;
    if (options_.transpose) solo.sounding_minus_written = usual_interval(*options_.transpose);
    if (!song_.tempos.empty()) {
      constexpr double microseconds_per_minute = 60e6;
      solo.tempo_bpm = microseconds_per_minute / song_.tempos.front().quarter_microseconds;
    }
    solo.bars = counted_from(timeline_.bars, bar_one_, line_.front().onset, file_);
    fit_bars();
    fill_keys();
    fill_notes();
    if (was_played_) fill_performance();
  }

  /// A last note that was played early may belong to the bar after the last; a recording may run on in silence.
  void fit_bars() {
    std::vector<Bar>& bars = result_.solo.bars;
    const Beats end = line_.back().onset + line_.back().duration - bar_one_;
    while (bars.back().onset + bars.back().length < end || (bars.size() == 1 && bars.front().number == 0)) {
      const Bar& last = bars.back();
      bars.push_back({last.number + 1, last.onset + last.length, bar_length(last.meter), last.meter});
    }
    while (was_played_ && bars.size() > 1 && bars.back().onset >= end) bars.pop_back();
  }

  void fill_keys() {
    const Beats begin = result_.solo.bars.front().onset;
    for (const KeyMark& mark : song_.keys) {
      const Beats onset = std::max(begin, Beats(mark.ticks, song_.ticks_per_quarter) - bar_one_);
      const Key key = transposed(mark.key, result_.solo.sounding_minus_written);
      std::vector<KeyChange>& keys = result_.solo.keys;
      if (!keys.empty() && keys.back().onset == onset) keys.pop_back();
      if (keys.empty() || keys.back().key != key) keys.push_back({onset, key});
    }
  }

  void fill_notes() {
    Solo& solo = result_.solo;
    const int sounding = options_.transpose.value_or(0);
    const Interval to_written = -solo.sounding_minus_written;
    solo.notes.resize(line_.size());
    std::size_t bar = 0;
    std::size_t key = 0;
    NamesInKey names = names_in(solo.keys.empty() ? Key{} : solo.keys.front().key);
    std::string bar_number = std::to_string(solo.bars.front().number);
    for (std::size_t i = 0; i < line_.size(); ++i) {
      Note& note = solo.notes[i];
      note.onset = bar_one_ == Beats(0) ? line_[i].onset : line_[i].onset - bar_one_;
      note.duration = line_[i].duration;
      note.grace = line_[i].grace;
      note.spelled = false;
      const int midi = notes()[i].midi + sounding;
      if (midi < 0 || midi > highest_midi)
        throw ReadError(place_of(file_), "--transpose moves notes out of the range of MIDI pitches");
      while (key + 1 < solo.keys.size() && solo.keys[key + 1].onset <= note.onset)
        names = names_in(solo.keys[++key].key);
      note.pitch = spelled_pitch(midi, names.at(static_cast<std::size_t>(midi % semitones_in_octave)));
      note.written = sounding == 0 ? note.pitch : transposed(note.pitch, to_written);
      while (bar + 1 < solo.bars.size() && solo.bars[bar + 1].onset <= note.onset)
        bar_number = std::to_string(solo.bars[++bar].number);
      note.place.bar = bar_number;
      note.place.position = note.onset - solo.bars[bar].onset;
      note.place.element = i;
    }
  }

  void fill_performance() {
    const double bar_one = to_double(bar_one_);
    result_.solo.performed.reserve(played_.size());
    std::size_t hint = 0;
    for (const TimedNote& note : played_) {
      hint = cell_at(timeline_.cells, note.onset_seconds, hint);
      const BeatCell& cell = timeline_.cells[hint];
      const double quarters = static_cast<double>(cell.length) / units_per_quarter;
      const double into = (note.onset_seconds - cell.onset_seconds) / cell.length_seconds * quarters;
      const double onset = static_cast<double>(cell.onset) / units_per_quarter + into - bar_one;
      result_.solo.performed.push_back(
          {note.onset_seconds, note.end_seconds - note.onset_seconds, onset, cell.length_seconds / quarters});
    }
  }

  void fill_changes(FoundChanges found) {
    if (found.places.empty()) return;
    const Solo& solo = result_.solo;
    Changes changes;
    changes.title = solo.title;
    changes.extent = Extent::once;
    if (!solo.keys.empty()) changes.key = solo.keys.front().key;
    changes.meter = solo.bars.front().meter;
    if (solo.bars.front().number == 0) changes.pickup = solo.bars.front().length;
    for (const Bar& bar : solo.bars)
      if (bar.number > 0) changes.bars.push_back({bar.onset, bar.length, {}});
    const Beats begin = solo.bars.front().onset;
    for (std::size_t i = 0; i < found.places.size(); ++i) {
      const Beats onset = std::max(begin, found.places[i].onset - bar_one_);
      const Beats end = i + 1 < found.places.size() ? found.places[i + 1].onset - bar_one_ : end_of(solo);
      if (end <= onset) continue;
      std::optional<Chord> chord = std::move(found.places[i].chord);
      if (chord && options_.transpose) chord = transposed(*chord, solo.sounding_minus_written);
      changes.spans.push_back({std::move(chord), onset, end - onset});
    }
    result_.changes = std::move(changes);
  }

  MidiSong song_;
  std::string file_;
  const ReadOptions& options_;
  TempoClock clock_;
  ChosenVoice chosen_;
  Timeline timeline_;
  std::vector<TimedNote> played_;
  std::vector<LineNote> line_;
  bool was_played_ = false;
  Beats bar_one_;
  ReadResult result_;
};

}  // namespace

bool is_midi(std::string_view bytes) { return bytes.starts_with("MThd") || bytes.starts_with("RIFF"); }

ReadResult parse_midi(std::string_view bytes, std::string_view file_name, const ReadOptions& options) {
  const CheckedSmf checked = checked_file(bytes, file_name, options);
  std::vector<Warning> warnings;
  for (const SmfFinding& finding : checked.findings) warnings.push_back({place_of(file_name), to_string(finding)});
  ReadResult result = MidiImport(song_of(checked), file_name, options).read();
  result.warnings.insert(result.warnings.begin(), warnings.begin(), warnings.end());
  return result;
}

}  // namespace insideline::io
