#include "io/midi/midi_song.hpp"

#include "analyzer/utf8.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <limits>
#include <map>
#include <tuple>

namespace insideline::io {
namespace {

constexpr std::size_t channel_count = 16;
constexpr std::size_t percussion_channel = 9;  // General MIDI: channel 10
constexpr int wheel_centre = 8192;
constexpr int wheel_well_off = 1024;  // a quarter of a semitone at the usual range of two

/// The notes of one pitch that wait for their end, the one that has sounded longest first.
struct Waiting {
  std::vector<std::size_t> notes;
  std::size_t first = 0;  ///< those before it have ended
};

/// Pairs the notes of one channel of one track.
class ChannelReader {
 public:
  void read(const ChannelEvent& event) {
    switch (event.status & 0xF0U) {
      case 0x90U: return event.second > 0 ? begin(event) : end(event);
      case 0x80U: return end(event);
      case 0xC0U:
        if (!program_) program_ = event.first;
        return;
      case 0xE0U: return bend((event.second << 7) | event.first);
      default: return;
    }
  }

  /// Notes that nothing ends last to the next one, at most to `end_ticks`; returns how many.
  std::size_t close(std::uint32_t end_ticks) {
    std::size_t unended = 0;
    for (const Waiting& waiting : sounding_)
      for (std::size_t i = waiting.first; i < waiting.notes.size(); ++i) {
        finish(waiting.notes[i], onset_after(waiting.notes[i]).value_or(end_ticks));
        ++unended;
      }
    const auto order = [](const MidiNote& note) { return std::tuple(note.onset_ticks, note.midi); };
    if (!std::ranges::is_sorted(notes_, {}, order)) std::ranges::stable_sort(notes_, {}, order);
    return unended;
  }

  [[nodiscard]] bool is_empty() const { return notes_.empty(); }
  [[nodiscard]] std::optional<int> program() const { return program_; }
  [[nodiscard]] std::size_t note_count() const { return notes_.size(); }

  MidiVoice voice(int track, std::size_t channel, const std::string& name) {
    return {.track = track,
            .channel = static_cast<int>(channel) + 1,
            .name = name,
            .program = program_,
            .notes = std::move(notes_),
            .bent_notes = bent_notes_};
  }

 private:
  void begin(const ChannelEvent& event) {
    sounding_.at(event.first).notes.push_back(notes_.size());
    notes_.push_back({event.ticks, event.ticks + 1, event.first});
    bends_before_.push_back(is_bent_ ? nowhere : bends_);
  }

  void end(const ChannelEvent& event) {
    Waiting& waiting = sounding_.at(event.first);
    if (waiting.first == waiting.notes.size()) return;
    finish(waiting.notes[waiting.first], event.ticks);
    ++waiting.first;
    if (waiting.first < waiting.notes.size()) return;
    waiting.notes.clear();  // its memory stays for the next note of this pitch
    waiting.first = 0;
  }

  [[nodiscard]] std::optional<std::uint32_t> onset_after(std::size_t index) const {
    const auto later =
        std::upper_bound(notes_.begin() + static_cast<std::ptrdiff_t>(index), notes_.end(), notes_[index].onset_ticks,
                         [](std::uint32_t ticks, const MidiNote& note) { return ticks < note.onset_ticks; });
    if (later == notes_.end()) return std::nullopt;
    return later->onset_ticks;
  }

  void finish(std::size_t index, std::uint32_t ticks) {
    notes_[index].end_ticks = std::max(ticks, notes_[index].onset_ticks + 1);
    if (bends_before_[index] != bends_) ++bent_notes_;
  }

  void bend(int wheel) {
    is_bent_ = std::abs(wheel - wheel_centre) > wheel_well_off;
    if (is_bent_) ++bends_;
  }

  static constexpr std::size_t nowhere = std::numeric_limits<std::size_t>::max();

  std::vector<MidiNote> notes_;
  std::vector<std::size_t>
      bends_before_;                   // for each note, how often the wheel had left its centre; nowhere: bent already
  std::array<Waiting, 128> sounding_;  // by pitch
  std::optional<int> program_;
  std::size_t bends_ = 0;
  std::size_t bent_notes_ = 0;
  bool is_bent_ = false;
};

std::map<int, std::string> track_names(const std::vector<SmfText>& texts) {
  constexpr std::uint8_t name_kind = 3;
  std::map<int, std::string> names;
  for (const SmfText& text : texts)
    if (text.kind == name_kind) names.emplace(text.track, readable(text.bytes));
  return names;
}

using Channels = std::array<std::optional<ChannelReader>, channel_count>;

/// An MPE keyboard goes through all channels; then channel 10 is one like those beside it.
bool has_percussion(const Channels& channels) {
  const auto& below = channels.at(percussion_channel - 1);
  const auto& above = channels.at(percussion_channel + 1);
  return !below || !above || below->is_empty() || above->is_empty() || below->program() != above->program();
}

void add_voices(const TrackEvents& track, int number, const std::string& name, MidiSong& song) {
  Channels channels;
  for (const ChannelEvent& event : track) {
    std::optional<ChannelReader>& reader = channels.at(event.status & 0x0FU);
    if (!reader) reader.emplace();
    reader->read(event);
  }
  const bool percussion = has_percussion(channels);
  for (std::size_t channel = 0; channel < channels.size(); ++channel) {
    std::optional<ChannelReader>& reader = channels.at(channel);
    if (!reader || reader->is_empty()) continue;
    if (channel == percussion_channel && percussion) {
      song.percussion_notes += reader->note_count();
      continue;
    }
    song.unended_notes += reader->close(song.end_ticks);
    song.voices.push_back(reader->voice(number, channel, name));
  }
}

}  // namespace

MidiSong song_of(const CheckedSmf& checked) {
  SmfEvents events = events_of(checked.clean);
  MidiSong song;
  song.ticks_per_quarter = events.ticks_per_quarter;
  song.tempos = std::move(events.tempos);
  song.meters = std::move(events.meters);
  song.keys = std::move(events.keys);
  song.texts = checked.texts;
  song.end_ticks = events.end_ticks;
  std::map<int, std::string> names = track_names(song.texts);
  for (std::size_t i = 0; i < events.tracks.size(); ++i)
    add_voices(events.tracks[i], checked.track_numbers[i], names[checked.track_numbers[i]], song);
  return song;
}

std::string title_of(const MidiSong& song) {
  const auto in_first = [](const MidiVoice& voice) { return voice.track == 1; };
  if (std::ranges::any_of(song.voices, in_first)) return {};
  return track_names(song.texts)[1];
}

std::string readable(std::string_view bytes) {
  std::string text;
  bool is_utf8 = true;
  for (std::size_t i = 0; i < bytes.size();) {
    const std::size_t length = utf8_length(bytes, i);
    is_utf8 = is_utf8 && length > 0;
    i += std::max<std::size_t>(length, 1);
  }
  const auto is_control = [](char byte) { return static_cast<unsigned char>(byte) < 0x20U || byte == 0x7F; };
  for (const char byte : bytes) {
    const auto code = static_cast<unsigned char>(byte);
    if (is_control(byte)) {
      text += ' ';
    } else if (is_utf8 || code < 0x80U) {
      text += byte;
    } else {
      text += static_cast<char>(0xC0U | (code >> 6U));
      text += static_cast<char>(0x80U | (code & 0x3FU));
    }
  }
  const auto first = text.find_first_not_of(' ');
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

}  // namespace insideline::io
