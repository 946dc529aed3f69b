#include "io/midi/joined_channels.hpp"

#include <algorithm>
#include <iterator>
#include <optional>
#include <span>
#include <tuple>
#include <utility>

namespace insideline::io {
namespace {

constexpr std::size_t one_note_in = 10;  // may sound under another in what is one line (our choice, no source)

bool have_one_sound(std::span<const MidiVoice> voices) {
  std::optional<int> program;
  for (const MidiVoice& voice : voices) {
    if (voice.program && program && *voice.program != *program) return false;
    if (voice.program) program = voice.program;
  }
  return true;
}

std::vector<MidiNote> notes_of_all(std::span<const MidiVoice> voices) {
  std::vector<MidiNote> notes;
  for (const MidiVoice& voice : voices) notes.insert(notes.end(), voice.notes.begin(), voice.notes.end());
  std::ranges::sort(notes, {}, [](const MidiNote& note) { return std::tuple(note.onset_ticks, note.midi); });
  return notes;
}

/// For most of nearly every note nothing that began before it sounds on.
bool is_one_line(std::span<const MidiNote> notes) {
  std::size_t covered = 0;
  std::uint32_t sounds_until = 0;
  for (const MidiNote& note : notes) {
    const std::uint32_t free_from = std::max(sounds_until, note.onset_ticks);
    const std::uint32_t length = note.end_ticks - note.onset_ticks;
    if (free_from > note.onset_ticks + length / 2) ++covered;
    sounds_until = std::max(sounds_until, note.end_ticks);
  }
  return covered * one_note_in <= notes.size();
}

}  // namespace

void join_channels(MidiSong& song) {
  std::vector<MidiVoice> joined;
  for (auto first = song.voices.begin(); first != song.voices.end();) {
    const auto last =
        std::find_if(first, song.voices.end(), [&](const MidiVoice& voice) { return voice.track != first->track; });
    const std::span<MidiVoice> voices(&*first, static_cast<std::size_t>(last - first));
    std::vector<MidiNote> notes = voices.size() > 1 ? notes_of_all(voices) : std::vector<MidiNote>{};
    if (voices.size() > 1 && have_one_sound(voices) && is_one_line(notes)) {
      MidiVoice& line = joined.emplace_back(std::move(voices.front()));
      line.notes = std::move(notes);
      line.channels = voices.size();
      for (const MidiVoice& voice : voices.subspan(1)) {
        line.bent_notes += voice.bent_notes;
        if (!line.program) line.program = voice.program;
      }
    } else {
      std::ranges::move(voices, std::back_inserter(joined));
    }
    first = last;
  }
  song.voices = std::move(joined);
}

}  // namespace insideline::io
